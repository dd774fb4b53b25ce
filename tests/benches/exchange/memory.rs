//! Memory that something takes, each in a process of its own: this program, started
//! once more with another task.

use crate::hub_here::{HubHere, Kept};
use crate::scouts;
use automerge::AutoCommit;
use notebook::{Notebook, SystemClock, SystemRandomness};
use std::io::{BufRead as _, BufReader, Read as _};
use std::path::Path;
use std::process::{Child, ChildStdin, Command, Stdio};

const TASK: &str = "HEADWALK_BENCH_TASK";

/// Does the task of a started process; false in the process that measures.
pub fn task() -> bool {
    let Ok(task) = std::env::var(TASK) else {
        return false;
    };
    match task.split_once(' ') {
        Some(("document", file)) => document(Path::new(file)),
        Some(("notebook", file)) => notebook(Path::new(file)),
        _ => hub(),
    }
    true
}

/// Megabytes (1,000,000 bytes) that a process has in memory, by the kernel's word.
fn megabytes(process: &str, field: &str) -> f64 {
    let said = std::fs::read_to_string(format!("/proc/{process}/status")).unwrap();
    let line = said.lines().find(|line| line.starts_with(field)).unwrap();
    let kib: f64 = line.split_whitespace().nth(1).unwrap().parse().unwrap();
    kib * 1_024.0 / 1e6
}

fn started(task: &str) -> Child {
    Command::new(std::env::current_exe().unwrap())
        .env(TASK, task)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .unwrap()
}

fn document(file: &Path) {
    let saved = std::fs::read(file).unwrap();
    let before = megabytes("self", "VmRSS");
    let document = AutoCommit::load(&saved).unwrap();
    println!("{}", megabytes("self", "VmRSS") - before);
    drop(document);
}

/// A notebook opened, with the list of its plantings.
fn notebook(file: &Path) {
    let before = megabytes("self", "VmRSS");
    let opened = opened(file);
    println!("{}", megabytes("self", "VmRSS") - before);
    drop(opened);
}

/// A notebook from its file, ready for the next tap.
pub fn opened(file: &Path) -> service::Service {
    let notebook = Notebook::open(file, Box::new(SystemClock), Box::new(SystemRandomness)).unwrap();
    service::Service::new(notebook).unwrap()
}

/// What a process says that it took of a document or notebook.
pub fn taken_by(what: &str, file: &Path) -> f64 {
    let done = started(&format!("{what} {}", file.display()))
        .wait_with_output()
        .unwrap();
    String::from_utf8(done.stdout)
        .unwrap()
        .trim()
        .parse()
        .unwrap()
}

fn hub() {
    let here = HubHere::start(&Kept::Sqlite);
    println!("{} {}", here.at, here.founding_code());
    // Until the one that measures has gone.
    let mut rest = Vec::new();
    std::io::stdin().read_to_end(&mut rest).unwrap();
}

/// A hub in a process of its own, which ends with this.
pub struct HubThere {
    pub url: String,
    pub founding_code: String,
    process: Child,
    _until: ChildStdin,
}

impl HubThere {
    pub fn start() -> Self {
        let mut process = started("hub");
        let mut line = String::new();
        BufReader::new(process.stdout.as_mut().unwrap())
            .read_line(&mut line)
            .unwrap();
        let (at, code) = line.trim().split_once(' ').unwrap();
        Self {
            url: format!("http://{at}"),
            founding_code: code.to_owned(),
            _until: process.stdin.take().unwrap(),
            process,
        }
    }

    /// The most that it ever had, megabytes.
    pub fn most(&self) -> f64 {
        megabytes(&self.process.id().to_string(), "VmHWM")
    }
}

impl Drop for HubThere {
    fn drop(&mut self) {
        let _ = self.process.kill();
        let _ = self.process.wait();
    }
}

/// The same heads in a notebook's file.
pub fn in_a_file(heads: u64, folder: &Path) -> std::path::PathBuf {
    let file = folder.join("heads.notebook");
    let source = scouts::tapped(heads);
    let sql = format!("VACUUM INTO '{}'", file.display());
    source.db().execute_batch(&sql).unwrap();
    file
}
