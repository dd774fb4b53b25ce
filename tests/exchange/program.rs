//! The program itself: `headwalk hub` as an operator runs it.

use exchange::Trouble;
use exchange::http::{HttpWay, Trust};
use exchange::meet::Way;
use headwalk_tests::program::headwalk;
use serde_bytes::ByteBuf;
use std::io::{BufRead, BufReader, Read};
use std::path::Path;
use std::process::{Child, Command, Stdio};
use std::time::Duration;
use uuid::Uuid;
use wire::{Answer, Ask, Role, Run};

use crate::hub_here::join;

struct Started {
    program: Child,
    lines: BufReader<std::process::ChildStdout>,
    url: String,
}

impl Drop for Started {
    fn drop(&mut self) {
        let _ = self.program.kill();
        let _ = self.program.wait();
    }
}

fn hub(folder: &Path, arguments: &[&str]) -> Command {
    let mut command = Command::new(headwalk().unwrap());
    command
        .current_dir(folder)
        .arg("hub")
        .args(arguments)
        .stdout(Stdio::piped())
        .stderr(Stdio::piped());
    command
}

fn start(folder: &Path) -> Started {
    let mut program = hub(folder, &["--listen", "127.0.0.1:0"]).spawn().unwrap();
    let mut lines = BufReader::new(program.stdout.take().unwrap());
    let mut url = String::new();
    lines.read_line(&mut url).unwrap();
    Started {
        program,
        lines,
        url: url.trim().to_owned(),
    }
}

fn line(started: &mut Started) -> String {
    let mut line = String::new();
    started.lines.read_line(&mut line).unwrap();
    line
}

fn code_in(line: &str) -> String {
    let rest = line.strip_prefix("owner code: ").unwrap();
    rest.split(' ').next().unwrap().to_owned()
}

/// Most memory that the process has had, MB.
fn peak_mb(program: &Child) -> u64 {
    let status = std::fs::read_to_string(format!("/proc/{}/status", program.id())).unwrap();
    let line = status
        .lines()
        .find(|line| line.starts_with("VmHWM:"))
        .unwrap();
    let kb: u64 = line.split_whitespace().nth(1).unwrap().parse().unwrap();
    kb / 1_024
}

#[test]
fn a_hub_is_started_used_by_two_hundred_phones_backed_up_and_ended() {
    let folder = tempfile::tempdir().unwrap();
    let mut started = start(folder.path());
    let code = code_in(&line(&mut started));
    let way = |token| HttpWay::new(&started.url, &Trust::Public, token).unwrap();
    let owner = join(&mut way(None), &code, "Ada").unwrap();
    assert_eq!(
        join(&mut way(None), &code, "Eve").err(),
        Some(Trouble::NotLetIn),
        "the owner code is used once"
    );
    // Two hundred phones of one member push at once, as far as its measure goes.
    std::thread::scope(|scope| {
        for _ in 0..200 {
            let mut way = way(Some(owner.token.clone()));
            scope.spawn(move || {
                let device = Uuid::now_v7();
                for after in 0..2 {
                    let bodies =
                        (0..500).map(|number: u32| ByteBuf::from(number.to_le_bytes().repeat(40)));
                    let run = Run {
                        device,
                        after: after * 500,
                        bodies: bodies.collect(),
                    };
                    let ask = Ask::Push(vec![run].into());
                    while let Ok(Answer::Refused(refusal)) = way.ask(&ask) {
                        assert!(matches!(refusal, wire::Refusal::Slower(_)));
                        std::thread::sleep(Duration::from_millis(300));
                    }
                }
            });
        }
    });
    let peak = peak_mb(&started.program);
    println!("hub with 200 phones at once: {peak} MB at most");
    assert!(peak < 200, "{peak} MB");
    let Answer::Heads { heads, role, .. } = way(Some(owner.token.clone()))
        .ask(&Ask::Heads {
            mine: Vec::new().into(),
        })
        .unwrap()
    else {
        panic!("no heads");
    };
    assert_eq!((heads.len(), role), (200, Role::Owner));
    assert!(heads.values().all(|mark| mark.seq == 1_000));

    let backup = hub(folder.path(), &["backup", "copy.db"]).output().unwrap();
    assert!(backup.status.success());
    let again = hub(folder.path(), &["backup", "copy.db"]).output().unwrap();
    assert_eq!(again.status.code(), Some(1));
    assert_eq!(String::from_utf8(again.stderr).unwrap().lines().count(), 1);
    let second = hub(folder.path(), &["code"]).output().unwrap();
    let second = code_in(&String::from_utf8(second.stdout).unwrap());
    assert!(join(&mut way(None), &second, "Eve").is_ok());

    let ended = Command::new("kill")
        .args(["-TERM", &started.program.id().to_string()])
        .status()
        .unwrap();
    assert!(ended.success());
    assert!(started.program.wait().unwrap().success());
    let mut log = String::new();
    let mut err = started.program.stderr.take().unwrap();
    err.read_to_string(&mut log).unwrap();
    assert!(log.lines().all(|line| line.starts_with('{')), "{log}");
    for secret in ["Ada", "Eve", code.as_str(), &owner.token.to_text()] {
        assert!(!log.contains(secret), "{secret} is in the log");
    }
    // With a crew there, a start prints no code.
    let mut started = start(folder.path());
    let _ = Command::new("kill")
        .args(["-TERM", &started.program.id().to_string()])
        .status();
    assert_eq!(line(&mut started), "");
}

#[test]
fn a_wrong_call_is_one_line_and_exit_code_two() {
    let folder = tempfile::tempdir().unwrap();
    for arguments in [
        &["--listen", "0.0.0.0:0"][..],
        &["--listen", "nowhere"],
        &["--certificate", "hub.pem"],
        &["--metrics", "0.0.0.0:9464"],
        &["fly"],
    ] {
        let refused = hub(folder.path(), arguments).output().unwrap();
        assert_eq!(refused.status.code(), Some(2), "{arguments:?}");
        let said = String::from_utf8(refused.stderr).unwrap();
        assert_eq!(said.lines().count(), 1, "{arguments:?}: {said}");
    }
    let refused = hub(folder.path(), &["--store", "mysql://x"])
        .output()
        .unwrap();
    assert_eq!(refused.status.code(), Some(1));
}

/// One call of `headwalk crew` on a notebook of its own.
fn crew(folder: &Path, notebook: &str, arguments: &[&str]) -> Result<String, String> {
    let output = Command::new(headwalk().unwrap())
        .current_dir(folder)
        .args(["crew", "--notebook", notebook])
        .args(arguments)
        .output()
        .unwrap();
    let text = |bytes: Vec<u8>| String::from_utf8(bytes).unwrap().trim().to_owned();
    if output.status.success() {
        Ok(text(output.stdout))
    } else {
        assert_eq!(output.status.code(), Some(1), "{arguments:?}");
        Err(text(output.stderr))
    }
}

fn json(text: &str) -> serde_json::Value {
    serde_json::from_str(text).unwrap()
}

#[test]
fn a_crew_without_a_screen() {
    let folder = tempfile::tempdir().unwrap();
    let at = folder.path();
    let mut started = start(at);
    let code = code_in(&line(&mut started));
    for (notebook, planting) in [("ada.db", "North 40"), ("ben.db", "South 20")] {
        let heads = crate::scouts::head_file(planting, notebook, 12);
        std::fs::write(at.join("heads.csv"), heads).unwrap();
        let imported = Command::new(headwalk().unwrap())
            .current_dir(at)
            .args(["import", "heads.csv", "--notebook", notebook])
            .output()
            .unwrap();
        assert!(imported.status.success(), "{imported:?}");
    }
    assert!(
        crew(at, "ada.db", &["exchange"])
            .unwrap_err()
            .contains("no crew")
    );
    let url = started.url.clone();
    let join = [
        "join", &code, "--hub", &url, "--name", "Ada", "--crew", "Bench",
    ];
    crew(at, "ada.db", &join).unwrap();
    assert!(crew(at, "ada.db", &join).unwrap_err().contains("already"));
    assert!(json(&crew(at, "ada.db", &["state"]).unwrap())["waiting"].as_u64() > Some(0));
    let state = json(&crew(at, "ada.db", &["exchange"]).unwrap());
    assert_eq!(state["waiting"], 0);
    let invite = ["invite", "--role", "scout", "--qr", "join.svg"];
    let invitation = json(&crew(at, "ada.db", &invite).unwrap());
    assert!(
        std::fs::read_to_string(at.join("join.svg"))
            .unwrap()
            .contains("<svg")
    );
    let link = invitation["link"].as_str().unwrap();
    crew(at, "ben.db", &["join", link, "--name", "Ben"]).unwrap();
    assert!(crew(at, "cal.db", &["join", link, "--name", "Cal"]).is_err());
    let state = json(&crew(at, "ben.db", &["exchange"]).unwrap());
    assert!(state["last"]["received"].as_u64() > Some(0) && state["waiting"] == 0);
    assert!(
        crew(at, "ben.db", &["invite"])
            .unwrap_err()
            .contains("role")
    );
    // Without the hub: a file from Ben to Ada.
    assert!(
        crew(at, "ben.db", &["write", "from-ben"])
            .unwrap()
            .contains("written")
    );
    assert!(
        !crew(at, "ada.db", &["read", "from-ben"])
            .unwrap()
            .starts_with("0 of")
    );
    assert!(
        crew(at, "ada.db", &["read", "from-ben"])
            .unwrap()
            .starts_with("0 of")
    );
    let shown = json(&crew(at, "ada.db", &["show"]).unwrap());
    let ben = &shown["people"][1];
    assert_eq!(ben["name"], "Ben");
    let phone = ben["devices"][0]["id"].as_str().unwrap();
    crew(at, "ada.db", &["remove", phone]).unwrap();
    assert!(
        crew(at, "ben.db", &["exchange"])
            .unwrap_err()
            .contains("removed")
    );
    // It has forgotten its token, and kept its heads.
    assert!(json(&crew(at, "ben.db", &["state"]).unwrap())["member"].is_null());
    let text = String::from_utf8_lossy(&std::fs::read(at.join("ben.db")).unwrap()).into_owned();
    assert!(text.contains("South 20"));
    assert!(
        crew(at, "ada.db", &["leave"])
            .unwrap_err()
            .contains("keeps an owner")
    );
}
