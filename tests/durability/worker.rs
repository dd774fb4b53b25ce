//! The process that is killed: this same program, asked by its environment to do
//! one kind of work on a notebook and to tell each thing that is done.

use std::io::{BufRead as _, BufReader, Write as _};
use std::path::Path;
use std::process::{Child, Command, Stdio};
use std::sync::mpsc::{Receiver, channel};
use std::thread;
use std::time::{Duration, Instant};

use notebook::SystemRandomness;
use notebook::durability::{restore, salvage};
use service::{FileRequest, Keep, PhotoOf, ask, prepare};
use uuid::Uuid;

use crate::season::{Asking as _, add_head, clock, head_file, open, picture};

const WORK: &str = "HEADWALK_TEST_WORK";
const NOTEBOOK: &str = "HEADWALK_TEST_NOTEBOOK";
const WITH: &str = "HEADWALK_TEST_WITH";

/// Not a check: what the killed process runs.
#[test]
#[ignore = "run by the checks of kills, in a process of its own"]
fn works_until_it_is_killed() {
    let Ok(work) = std::env::var(WORK) else {
        return;
    };
    let path = std::env::var_os(NOTEBOOK).unwrap();
    let path = Path::new(&path);
    let with = std::env::var(WITH).unwrap_or_default();
    match work.as_str() {
        "save" => {
            let stop: Uuid = with.parse().unwrap();
            let mut service = open(path).unwrap();
            tell("begin");
            for number in 0..1000 {
                service.ask(add_head(stop, number));
                tell(&format!("saved {number}"));
            }
        }
        "photo" => {
            let planting: Uuid = with.parse().unwrap();
            let mut service = open(path).unwrap();
            // Read beforehand, so that a kill falls into the keeping.
            let read: Vec<_> = (0..PICTURES)
                .map(|number| {
                    let request = FileRequest::AddPhoto {
                        id: Some(photo_id(number)),
                        of: PhotoOf::Planting(planting),
                    };
                    prepare(request, &picture(100 + number, SIDE)).unwrap()
                })
                .collect();
            tell("begin");
            for (number, picture) in read.into_iter().enumerate() {
                service.call_prepared(picture).unwrap();
                tell(&format!("saved {number}"));
            }
        }
        "archive" => {
            let mut service = open(path).unwrap();
            tell("begin");
            let file = std::fs::File::open(&with).unwrap();
            service
                .archive_in(file, Keep::GoodRows, &mut |_| true)
                .unwrap();
            tell("saved 0");
        }
        "import" => {
            let mut service = open(path).unwrap();
            tell("begin");
            for file in 0..20 {
                let text = head_file(&format!("South {file}"), 1, 30);
                service.ask(ask::ImportHeadFile { text });
                tell(&format!("saved {file}"));
            }
        }
        "migrate" => {
            tell("begin");
            let service = open(path).unwrap();
            tell("saved 0");
            drop(service);
        }
        "back up" => {
            let stop: Uuid = with.parse().unwrap();
            let mut service = open(path).unwrap();
            tell("begin");
            for number in 0..50 {
                service.ask(add_head(stop, number));
                service.ask(ask::BackUp {});
                tell(&format!("saved {number}"));
            }
        }
        "salvage" => {
            tell("begin");
            salvage(path, clock(), Box::new(SystemRandomness)).unwrap();
            tell("saved 0");
        }
        "restore" => {
            tell("begin");
            restore(path, Path::new(&with), clock(), Box::new(SystemRandomness)).unwrap();
            tell("saved 0");
        }
        other => panic!("no such work: {other}"),
    }
}

/// Pictures that a worker keeps, and their size.
pub const PICTURES: u64 = 40;
pub const SIDE: u32 = 300;

/// The id under which a worker keeps the picture of a number.
pub fn photo_id(number: u64) -> Uuid {
    Uuid::from_u64_pair(0x7000_0000_0000_7001, number)
}

/// A line of its own, whatever the test runner prints around it.
fn tell(line: &str) {
    let mut out = std::io::stdout().lock();
    writeln!(out, "\ntold {line}").unwrap();
    out.flush().unwrap();
}

/// A worker, running.
pub struct Worker {
    child: Child,
    told: Receiver<String>,
}

impl Worker {
    pub fn start(work: &str, notebook: &Path, with: &str) -> Worker {
        let mut child = Command::new(std::env::current_exe().unwrap())
            .args(["worker::works_until_it_is_killed", "--exact"])
            .args(["--ignored", "--nocapture", "--test-threads", "1"])
            .env(WORK, work)
            .env(NOTEBOOK, notebook)
            .env(WITH, with)
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .unwrap();
        let out = BufReader::new(child.stdout.take().unwrap());
        let (tell, told) = channel();
        thread::spawn(move || {
            for line in out.lines().map_while(Result::ok) {
                if let Some(line) = line.strip_prefix("told ") {
                    let _ = tell.send(line.to_owned());
                }
            }
        });
        Worker { child, told }
    }

    /// Kills it this long after it told a line, and gives all that it told of what
    /// it had done.
    pub fn kill_after(mut self, line: &str, pause: Duration) -> Vec<u64> {
        let mut lines = Vec::new();
        while !lines.iter().any(|told| told == line) {
            match self.told.recv_timeout(Duration::from_secs(60)) {
                Ok(told) => lines.push(told),
                Err(_) => break,
            }
        }
        let begun = Instant::now();
        // Sleeping is too coarse for the middle of a commit.
        while begun.elapsed() < pause {
            if pause > Duration::from_millis(5) {
                thread::sleep(Duration::from_micros(500));
            } else {
                std::hint::spin_loop();
            }
        }
        let _ = self.child.kill();
        let _ = self.child.wait();
        lines.extend(self.told.iter());
        lines
            .iter()
            .filter_map(|line| line.strip_prefix("saved ")?.parse().ok())
            .collect()
    }
}
