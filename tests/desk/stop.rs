//! A desk that is asked to stop closes its notebook, whatever browsers are at.

use std::io::Write as _;
use std::net::TcpStream;
use std::path::Path;
use std::process::Command;
use std::sync::Arc;
use std::sync::atomic::{AtomicU64, Ordering};
use std::time::{Duration, Instant};
use std::{fs, thread};

use headwalk_tests::program::headwalk;
use notebook::Notebook;
use rand::SeedableRng as _;
use rand_chacha::ChaCha8Rng;
use service::ask;

use crate::kill::{add_head, any_head, heads_of, start_walk};
use crate::open::OpenDesk;

fn notebook_of(desk: &OpenDesk) -> std::path::PathBuf {
    desk.folder().join("notebook.db")
}

fn beside(path: &Path, ending: &str) -> std::path::PathBuf {
    let mut name = path.as_os_str().to_owned();
    name.push(ending);
    name.into()
}

/// Connections as browsers keep them: asked once and kept open, half sent, silent.
fn connections(desk: &OpenDesk) -> Vec<TcpStream> {
    let call = |body: &str, length: usize| {
        format!(
            "POST /call HTTP/1.1\r\nHost: {}\r\nX-Headwalk-Secret: {}\r\n\
             Content-Type: application/json\r\nContent-Length: {length}\r\n\r\n{body}",
            desk.address, desk.secret
        )
    };
    let whole = r#"{"op":"plantings"}"#;
    [
        call(whole, whole.len()),
        call("{", 500),
        format!("POST /call HTTP/1.1\r\nHost: {}", desk.address),
        String::new(),
    ]
    .iter()
    .map(|sent| {
        let mut stream = TcpStream::connect(&desk.address).unwrap();
        stream.write_all(sent.as_bytes()).unwrap();
        stream
    })
    .collect()
}

#[test]
fn a_stop_with_connections_open_leaves_one_whole_file() {
    for run in 0..6 {
        let mut desk = OpenDesk::start();
        let (walk, stop) = start_walk(&desk);
        let mut chance = ChaCha8Rng::seed_from_u64(run);
        for number in 0..12 {
            let id = uuid::Uuid::from_u64_pair(0x7000_0000_0000_7000, number);
            add_head(&desk, stop, id, any_head(&mut chance)).unwrap();
        }
        let path = notebook_of(&desk);
        let open = connections(&desk);
        thread::sleep(Duration::from_millis(100));
        let began = Instant::now();
        assert!(desk.stop_kindly().success(), "run {run}");
        assert!(began.elapsed() < Duration::from_secs(12), "run {run}");
        assert!(!beside(&path, "-wal").exists(), "run {run}: not closed");
        drop(open);
        // The file alone has every head, and says so.
        let alone = tempfile::tempdir().unwrap();
        let copy = alone.path().join("notebook.db");
        fs::copy(&path, &copy).unwrap();
        let copy = Notebook::open_here(&copy, None).unwrap();
        assert!(copy.check().unwrap().is_sound(), "run {run}");
        let again = desk.restart();
        assert_eq!(heads_of(&again, walk).len(), 12, "run {run}");
    }
}

/// A head file that takes many seconds to import.
fn long_file() -> String {
    let mut text = "planting,walked_on,stop,reading,share\n".to_owned();
    for row in 0..600_000 {
        text += &format!(
            "North {},2026-08-{:02},{},pliable,{}\n",
            row / 3000,
            1 + row / 100 % 28,
            1 + row / 10 % 10,
            1 + row % 100
        );
    }
    text
}

#[test]
fn a_stop_gives_up_a_long_request_of_which_nothing_is_stored() {
    let mut desk = OpenDesk::start();
    let (walk, stop) = start_walk(&desk);
    let id = uuid::Uuid::from_u64_pair(0x7000_0000_0000_7000, 1);
    let mut chance = ChaCha8Rng::seed_from_u64(1);
    add_head(&desk, stop, id, any_head(&mut chance)).unwrap();
    let import = serde_json::to_string(&ask::ImportHeadFile { text: long_file() }).unwrap();
    let path = notebook_of(&desk);
    let headers = [
        ("Content-Type", "application/json"),
        ("X-Headwalk-Secret", desk.secret.as_str()),
        ("Content-Length", &import.len().to_string()),
    ];
    let mut stream = desk.begin("POST", "/call", &headers).unwrap();
    stream.write_all(import.as_bytes()).unwrap();
    // Until it stores: its -wal, or the lock of it, is busy.
    thread::sleep(Duration::from_millis(700));
    let began = Instant::now();
    assert!(desk.stop_kindly().success());
    let took = began.elapsed();
    println!("stopped after {took:?}");
    assert!(took < Duration::from_secs(12), "{took:?}");
    assert!(!beside(&path, "-wal").exists(), "not closed");
    let again = desk.restart();
    assert_eq!(heads_of(&again, walk).len(), 1);
    let rows = plantings(&again);
    assert!(
        rows == 1 || rows == 201,
        "{rows} plantings of a half import"
    );
}

fn plantings(desk: &OpenDesk) -> usize {
    crate::kill::ask(desk, ask::Plantings {})
        .unwrap()
        .rows
        .len()
}

#[test]
fn a_check_beside_a_tapping_desk_says_that_all_is_well() {
    let desk = OpenDesk::start();
    let (_, stop) = start_walk(&desk);
    let path = notebook_of(&desk);
    let program = headwalk().unwrap();
    // As many of each as it takes, however fast this machine does either.
    let (least_taps, least_checks) = (50, 20);
    let taps = Arc::new(AtomicU64::new(0));
    let tapped = Arc::clone(&taps);
    let checking = thread::spawn(move || {
        let mut wrong = Vec::new();
        let mut checks = 0;
        while checks < least_checks || tapped.load(Ordering::Relaxed) < least_taps {
            let check = Command::new(&program)
                .args(["check", "--notebook"])
                .arg(&path)
                .output()
                .unwrap();
            checks += 1;
            if !check.status.success() {
                wrong.push(String::from_utf8_lossy(&check.stderr).into_owned());
            }
        }
        (checks, wrong)
    });
    let mut chance = ChaCha8Rng::seed_from_u64(3);
    while !checking.is_finished() {
        let number = taps.fetch_add(1, Ordering::Relaxed);
        let id = uuid::Uuid::from_u64_pair(0x7000_0000_0000_7000, number);
        add_head(&desk, stop, id, any_head(&mut chance)).unwrap();
    }
    let (checks, wrong) = checking.join().unwrap();
    let taps = taps.load(Ordering::Relaxed);
    println!("{taps} taps beside {checks} checks");
    assert!(wrong.is_empty(), "{wrong:#?}");
}
