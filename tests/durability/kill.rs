//! The process is killed at random moments of each kind of work.

use std::path::{Path, PathBuf};
use std::time::Duration;

use notebook::durability::{backups, check, salvage};
use notebook::{Notebook, SystemRandomness};
use rand::{RngExt as _, SeedableRng as _};
use rand_chacha::ChaCha8Rng;
use rusqlite::{Connection, OpenFlags};
use service::ask;
use uuid::Uuid;

use crate::old_notebooks::{make_old, steps};
use crate::outcome::{Outcomes, long};
use crate::season::{
    Asking as _, Book, add_head, changes, clock, head, must_be_whole, notebook, open, said,
};
use crate::worker::Worker;

/// Runs of each kind: 500 together in the long setting, and 160 more for photos.
pub fn runs(in_500: u64) -> u64 {
    if long() { in_500 } else { in_500.div_ceil(12) }
}

pub fn chance(kind: u64, run: u64) -> ChaCha8Rng {
    ChaCha8Rng::seed_from_u64(kind << 32 | run)
}

#[test]
fn heads_shown_as_saved_survive_kills() {
    let mut outcomes = Outcomes::default();
    let (season, at) = Book::with_season(8);
    for run in 0..runs(200) {
        let mut chance = chance(1, run);
        let book = season.copy();
        let last = chance.random_range(0..40);
        let pause = Duration::from_micros(chance.random_range(0..8_000));
        let saved = Worker::start("save", &book.path, &at.stop.to_string())
            .kill_after(&format!("saved {last}"), pause);
        let mut service = open(&book.path).unwrap();
        let page = service.ask(ask::Walk { walk: at.walk });
        let found: Vec<Uuid> = page.stops[0].heads.iter().map(|head| head.id).collect();
        let told = saved.len();
        for number in 0..told as u64 {
            let (id, said) = head(number);
            let place = usize::try_from(number).unwrap();
            assert_eq!(found[place], id, "run {run}: a saved head is lost");
            assert_eq!(page.stops[0].heads[place].head, said.head, "run {run}");
        }
        assert!(found.len() <= told + 1, "run {run}: heads out of nothing");
        // The one that was on its way, sent again, is there once.
        service.ask(add_head(at.stop, told as u64));
        let page = service.ask(ask::Walk { walk: at.walk });
        assert_eq!(page.stops[0].heads.len(), told + 1, "run {run}");
        must_be_whole(service.notebook());
        let came = if found.len() > told {
            "all shown as saved are there; the one on its way was stored too, once"
        } else {
            "all shown as saved are there; the one on its way was not stored"
        };
        outcomes.add("while saving heads", came);
    }
    outcomes.print("killed");
}

#[test]
fn an_import_that_is_killed_is_there_whole_or_not_at_all() {
    let mut outcomes = Outcomes::default();
    let (season, _) = Book::with_season(8);
    let before = heads_of(&notebook(&season.path).unwrap());
    for run in 0..runs(80) {
        let mut chance = chance(2, run);
        let book = season.copy();
        let pause = Duration::from_micros(chance.random_range(0..900_000));
        let told = Worker::start("import", &book.path, "").kill_after("begin", pause);
        let notebook = notebook(&book.path).unwrap();
        let more = heads_of(&notebook) - before;
        let files = told.len() as u64;
        assert!(
            more == files * 750 || more == (files + 1) * 750,
            "run {run}: {more} heads of {files} files"
        );
        must_be_whole(&notebook);
        outcomes.add("while importing", "each file is there whole or not at all");
    }
    outcomes.print("killed");
}

#[test]
fn a_migration_that_is_killed_is_done_at_the_next_start() {
    let mut outcomes = Outcomes::default();
    let (season, _) = Book::with_season(12);
    let (digest, log) = {
        let notebook = notebook(&season.path).unwrap();
        (notebook.view_digest().unwrap(), changes(notebook.db()))
    };
    for run in 0..runs(60) {
        let mut chance = chance(3, run);
        let old = Book::new();
        make_old(&old.path, chance.random_range(1..=steps()), &season.path);
        let pause = Duration::from_micros(chance.random_range(0..60_000));
        let told = Worker::start("migrate", &old.path, "").kill_after("begin", pause);
        let notebook = notebook(&old.path).unwrap();
        assert_eq!(changes(notebook.db()), log, "run {run}");
        assert_eq!(notebook.view_digest().unwrap(), digest, "run {run}");
        must_be_whole(&notebook);
        let came = if told.is_empty() {
            "cut off, done at the next start, nothing lost"
        } else {
            "it was done already"
        };
        outcomes.add("while migrating", came);
    }
    outcomes.print("killed");
}

#[test]
fn a_backup_that_is_killed_leaves_whole_backups_alone() {
    let mut outcomes = Outcomes::default();
    let (season, at) = Book::with_season(8);
    for run in 0..runs(80) {
        let mut chance = chance(4, run);
        let book = season.copy();
        let pause = Duration::from_micros(chance.random_range(0..400_000));
        let told = Worker::start("back up", &book.path, &at.stop.to_string())
            .kill_after("begin", pause)
            .len();
        let found = backups(&book.path);
        assert!(found.len() >= told.min(5), "run {run}: a backup is gone");
        for backup in &found {
            let copy = read_only(&backup.path);
            let looked = check::check(&copy).unwrap();
            assert!(looked.is_sound(), "run {run}: {looked:?}");
        }
        if told > 0 {
            // What had been saved before a backup was shown as made is in the newest.
            let newest = read_only(&found[0].path);
            let heads: usize = newest
                .query_row(
                    "SELECT count(*) FROM head WHERE id >= ?1 AND id <= ?2",
                    (head(0).0, head(1000).0),
                    |row| row.get(0),
                )
                .unwrap();
            assert!(heads >= told, "run {run}: {heads} of {told}");
        }
        must_be_whole(&notebook(&book.path).unwrap());
        outcomes.add(
            "while backing up",
            "every file called a backup is one; the notebook is whole",
        );
    }
    outcomes.print("killed");
}

#[test]
fn a_salvage_or_restore_that_is_killed_can_be_done_again() {
    let mut outcomes = Outcomes::default();
    let (season, _) = Book::with_season(12);
    let (log, backup) = {
        let notebook = notebook(&season.path).unwrap();
        let backup = season.folder.path().join("copy.db");
        notebook::durability::back_up(notebook.db(), &backup).unwrap();
        (said(&changes(notebook.db())), backup)
    };
    for run in 0..runs(40) {
        let mut chance = chance(5, run);
        let book = season.copy();
        let mut bytes = std::fs::read(&book.path).unwrap();
        bytes[..200].fill(0x5a);
        std::fs::write(&book.path, &bytes).unwrap();
        let pause = Duration::from_micros(chance.random_range(0..250_000));
        let told = Worker::start("salvage", &book.path, "").kill_after("begin", pause);
        // As at the next start: what was cut off is finished, or begun again.
        let opened = notebook(&book.path);
        let came = match opened {
            Ok(_) if told.is_empty() => "salvage: cut off near its end, finished at the next start",
            Ok(_) => "salvage: it was done already",
            Err(_) => {
                salvage(&book.path, clock(), Box::new(SystemRandomness)).unwrap();
                "salvage: cut off, the damaged file untouched, done again"
            }
        };
        let notebook = notebook(&book.path).unwrap();
        assert_eq!(said(&changes(notebook.db())), log, "run {run}");
        must_be_whole(&notebook);
        assert!(
            aside(&book.path, &bytes),
            "run {run}: the damaged file is gone"
        );
        outcomes.add("while salvaging", came);
    }
    for run in 0..runs(40) {
        let mut chance = chance(6, run);
        let book = Book::new();
        let mut service = open(&book.path).unwrap();
        service.ask(ask::SaveSettings {
            settings: service::Settings::default(),
        });
        drop(service);
        let pause = Duration::from_micros(chance.random_range(0..250_000));
        let told = Worker::start("restore", &book.path, backup.to_str().unwrap())
            .kill_after("begin", pause);
        let notebook = notebook(&book.path).unwrap();
        must_be_whole(&notebook);
        let log_now = said(&changes(notebook.db()));
        let came = if log_now == log && told.is_empty() {
            "restore: cut off near its end, finished at the next start"
        } else if log_now == log {
            "restore: it was done already"
        } else {
            assert!(log_now.is_empty() && told.is_empty(), "run {run}");
            "restore: cut off, the notebook as before"
        };
        outcomes.add("while restoring", came);
    }
    outcomes.print("killed");
}

fn heads_of(notebook: &Notebook) -> u64 {
    notebook
        .db()
        .query_row("SELECT count(*) FROM head", [], |row| row.get(0))
        .unwrap()
}

fn read_only(path: &Path) -> Connection {
    Connection::open_with_flags(path, OpenFlags::SQLITE_OPEN_READ_ONLY).unwrap()
}

/// Whether a file with these bytes lies beside the notebook.
fn aside(notebook: &Path, bytes: &[u8]) -> bool {
    let folder: PathBuf = notebook.parent().unwrap().to_owned();
    std::fs::read_dir(folder)
        .unwrap()
        .any(|entry| std::fs::read(entry.unwrap().path()).is_ok_and(|found| found == bytes))
}
