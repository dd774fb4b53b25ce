//! Changes that ask for as much work as they can, each kind taken into a notebook as
//! the pages of a peer, in a process of its own. Limits for a thousand changes, of
//! which a single large one counts as a thousand of a kilobyte:
//!
//! - 1 s on a processor;
//! - 64 MB of memory, the notebook's own included, which is in memory here.
//!
//! `cargo bench -p headwalk-tests --bench costly`

#![allow(missing_docs, clippy::unwrap_used, clippy::panic)]

use std::io::{self, BufWriter, Read as _, Write as _};
use std::process::{Command, ExitCode, Stdio};

use exchange::book::Book as _;
use headwalk_tests::absurd::{costly, pages};
use headwalk_tests::devices::{SetClock, notebook_in_memory};
use headwalk_tests::limit::{Limits, Times};
use headwalk_tests::memory::growth_of;
use uuid::Uuid;

const THOUSAND_S: f64 = 1.0;
const THOUSAND_MB: f64 = 64.0;

const TASK: &str = "HEADWALK_BENCH_TASK";

fn main() -> ExitCode {
    if std::env::var_os(TASK).is_some() {
        let (ms, grew) = take_in(&received());
        println!("{ms} {grew}");
        return ExitCode::SUCCESS;
    }
    let mut limits = Limits::default();
    for (name, bodies) in costly() {
        let bytes: usize = bodies.iter().map(Vec::len).sum();
        let thousands = (bodies.len() as f64 / 1e3).max(bytes as f64 / 1e6).max(1.0);
        let (ms, grew) = apart(&bodies);
        limits.at_most(name, Some(ms / 1e3 / thousands), THOUSAND_S, "s/1,000");
        let megabytes = grew / 1e6 / thousands.ceil();
        limits.at_most("  its memory", Some(megabytes), THOUSAND_MB, "MB/1,000");
    }
    limits.verdict()
}

/// Milliseconds on a processor, and bytes.
fn take_in(bodies: &[Vec<u8>]) -> (f64, u64) {
    let clock = SetClock::at("2026-08-20T15:00:00Z").unwrap();
    let mut notebook = notebook_in_memory(&clock, 7).unwrap();
    let pages = pages(Uuid::from_u128(1), bodies);
    let times = Times::default();
    let (_, grew) = growth_of(|| {
        times.time(|| {
            for page in &pages {
                assert_eq!(notebook.take_in(page, &[]), Ok(()));
            }
        })
    });
    (times.worked().unwrap(), grew.unwrap())
}

/// The same in another process: in this one, what was given back by the case before
/// would be taken again without being counted.
fn apart(bodies: &[Vec<u8>]) -> (f64, f64) {
    let mut process = Command::new(std::env::current_exe().unwrap())
        .env(TASK, "take in")
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .unwrap();
    let mut to = BufWriter::new(process.stdin.take().unwrap());
    for body in bodies {
        to.write_all(&(body.len() as u64).to_le_bytes()).unwrap();
        to.write_all(body).unwrap();
    }
    drop(to);
    let done = process.wait_with_output().unwrap();
    assert!(done.status.success());
    let said = String::from_utf8(done.stdout).unwrap();
    let (ms, grew) = said.trim().split_once(' ').unwrap();
    (ms.parse().unwrap(), grew.parse().unwrap())
}

fn received() -> Vec<Vec<u8>> {
    let (mut from, mut bodies) = (io::stdin().lock(), Vec::new());
    let mut length = [0; 8];
    while from.read_exact(&mut length).is_ok() {
        let mut body = vec![0; usize::try_from(u64::from_le_bytes(length)).unwrap()];
        from.read_exact(&mut body).unwrap();
        bodies.push(body);
    }
    bodies
}
