//! A notebook that lacks changes it showed as saved is told, not trusted: a copy of
//! the file alone, an earlier -wal, an earlier file. And nothing else is.

use std::fs;
use std::path::Path;
use std::time::Duration;

use notebook::durability::{back_up, salvage};
use notebook::{Notebook, StoreError, SystemRandomness};
use rand::{RngExt as _, SeedableRng as _};
use rand_chacha::ChaCha8Rng;
use rusqlite::Connection;
use service::{ProblemCode, ask};

use crate::outcome::{Outcomes, long};
use crate::season::{
    Asking as _, Book, Open, add_head, beside, changes, clock, keeper, must_be_whole, notebook,
    open, said,
};
use crate::worker::Worker;

const LAST: &str = "-last";

/// All files of a notebook, as a pulled battery leaves them.
fn left(book: &Book) -> Book {
    let copy = book.copy();
    if beside(&book.path, LAST).exists() {
        fs::copy(beside(&book.path, LAST), beside(&copy.path, LAST)).unwrap();
    }
    copy
}

fn must_lack(path: &Path) -> String {
    match notebook(path) {
        Err(StoreError::Lacks(what)) => what,
        Err(other) => panic!("{other}"),
        Ok(_) => panic!("it is trusted"),
    }
}

fn bytes(path: &Path) -> [Option<Vec<u8>>; 2] {
    ["", "-wal"].map(|ending| fs::read(beside(path, ending)).ok())
}

fn salvaged(path: &Path) -> notebook::durability::Salvaged {
    salvage(path, clock(), Box::new(SystemRandomness)).unwrap()
}

#[test]
fn a_copy_of_the_file_alone_is_told_and_can_be_read_and_gone_on_with() {
    let (season, at) = Book::with_season(6);
    let mut service = open(&season.path).unwrap();
    for number in 0..5 {
        service.ask(add_head(at.stop, number));
    }
    let device = service.notebook().device();
    let copy = Book::new();
    fs::copy(&season.path, &copy.path).unwrap();
    let before = bytes(&copy.path);

    let what = must_lack(&copy.path);
    assert!(what.contains("without the -wal file"), "{what}");
    // It is looked at, and nothing of it is touched.
    assert_eq!(bytes(&copy.path), before);
    let looked = Notebook::open_copy(&copy.path, clock(), Box::new(SystemRandomness)).unwrap();
    assert!(!changes(looked.db()).is_empty());
    assert!(looked.check().unwrap().lacks.is_some());
    drop(looked);
    assert_eq!(bytes(&copy.path), before);

    let keeper = keeper(&copy.path);
    let list = keeper.call(ask::Plantings {});
    assert_eq!(list.unwrap_err().code, ProblemCode::Incomplete);
    let opened = keeper.open_again();
    assert_eq!(opened.unwrap_err().code, ProblemCode::Incomplete);
    let report = keeper.salvage().unwrap().answer;
    assert!(report.end_unknown);
    keeper.call(add_head(at.stop, 9)).unwrap();
    keeper.close();
    let went_on = notebook(&copy.path).unwrap();
    assert_ne!(went_on.device(), device, "a number is never used twice");
    must_be_whole(&went_on);
    // The file of that day is kept.
    let aside = report.set_aside.unwrap();
    assert_eq!(Some(fs::read(aside).unwrap()), before[0]);
}

/// A notebook cut off with heads in its -wal, and the -wal of some heads before.
fn with_earlier_wal(season: &Book, at: Open, early: u64, late: u64) -> (Book, Vec<u8>) {
    let book = season.copy();
    let mut service = open(&book.path).unwrap();
    for number in 0..early {
        service.ask(add_head(at.stop, number));
    }
    let earlier = fs::read(beside(&book.path, "-wal")).unwrap();
    for number in early..late {
        service.ask(add_head(at.stop, number));
    }
    (left(&book), earlier)
}

#[test]
fn an_earlier_wal_is_told_and_the_right_one_can_be_put_back() {
    let (season, at) = Book::with_season(6);
    let mut outcomes = Outcomes::default();
    for run in 0..if long() { 120 } else { 12 } {
        let mut chance = ChaCha8Rng::seed_from_u64(run);
        let early = chance.random_range(0..40);
        // Some of them beyond the size at which the -wal is brought into the file.
        let late = early + if run % 3 == 2 { 400 } else { 1 + run % 5 };
        let (book, earlier) = with_earlier_wal(&season, at, early, late);
        let right = fs::read(beside(&book.path, "-wal")).unwrap();
        fs::write(beside(&book.path, "-wal"), earlier).unwrap();
        let before = bytes(&book.path);
        match open(&book.path).map_err(|problem| problem.code) {
            Err(ProblemCode::Incomplete) => outcomes.add("an earlier -wal", "told that it lacks"),
            // Where it does not even fit the file any more.
            Err(ProblemCode::Damaged) => outcomes.add("an earlier -wal", "told as damage"),
            Err(other) => panic!("run {run}: {other:?}"),
            Ok(_) => panic!("run {run}: trusted"),
        }
        assert!(bytes(&book.path) == before, "run {run}: it was touched");
        fs::write(beside(&book.path, "-wal"), right).unwrap();
        let mut service = open(&book.path).unwrap();
        let page = service.ask(ask::Walk { walk: at.walk });
        assert_eq!(page.stops[0].heads.len() as u64, late, "run {run}");
    }
    outcomes.print("put back");
}

#[test]
fn an_earlier_file_in_the_notebooks_place_is_told_and_what_it_lacks_is_counted() {
    let (season, at) = Book::with_season(6);
    let book = season.copy();
    let earlier = fs::read(&book.path).unwrap();
    let mut service = open(&book.path).unwrap();
    for number in 0..7 {
        service.ask(add_head(at.stop, number));
    }
    let all = said(&changes(service.notebook().db()));
    let backup = book.folder.path().join("whole.db");
    back_up(service.notebook().db(), &backup).unwrap();
    service.into_notebook().close().unwrap();
    fs::write(&book.path, earlier).unwrap();
    must_lack(&book.path);

    // A backup beside it has them all; without one they are counted.
    let with_backup = left(&book);
    let backups = with_backup.path.with_file_name("backups");
    fs::create_dir(&backups).unwrap();
    fs::copy(&backup, backups.join("notebook-2026-09-01-120000.db")).unwrap();
    let report = salvaged(&with_backup.path);
    assert_eq!((report.lost, report.from_backup), (0, 7), "{report:?}");
    assert_eq!(
        said(&changes(notebook(&with_backup.path).unwrap().db())),
        all
    );
    let report = salvaged(&book.path);
    assert_eq!((report.lost, report.end_unknown), (7, false), "{report:?}");
    must_be_whole(&notebook(&book.path).unwrap());
}

#[test]
fn a_kill_is_never_told_as_a_lack() {
    let (season, at) = Book::with_season(6);
    for run in 0..if long() { 60 } else { 12 } {
        let mut chance = ChaCha8Rng::seed_from_u64(run);
        let book = season.copy();
        let last = chance.random_range(0..30);
        let pause = Duration::from_micros(chance.random_range(0..8_000));
        let told = Worker::start("save", &book.path, &at.stop.to_string())
            .kill_after(&format!("saved {last}"), pause)
            .len();
        // With and without the file that names the last change.
        for copy in [left(&book), book.copy()] {
            let mut service = open(&copy.path).unwrap();
            let page = service.ask(ask::Walk { walk: at.walk });
            assert!(page.stops[0].heads.len() >= told, "run {run}");
        }
        // And the file alone is told at once.
        let alone = Book::new();
        fs::copy(&book.path, &alone.path).unwrap();
        must_lack(&alone.path);
    }
}

#[test]
fn whole_copies_are_used_as_they_are() {
    let (season, at) = Book::with_season(6);
    let mut service = open(&season.path).unwrap();
    service.ask(add_head(at.stop, 1));
    let log = changes(service.notebook().db());
    let copies = tempfile::tempdir().unwrap();
    let path = |name: &str| copies.path().join(name);
    // As SQLite writes one.
    service
        .notebook()
        .db()
        .execute("VACUUM INTO ?1", [path("vacuum.db").to_str().unwrap()])
        .unwrap();
    back_up(service.notebook().db(), &path("backup.db")).unwrap();
    service.into_notebook().close().unwrap();
    assert!(!beside(&season.path, "-wal").exists());
    fs::copy(&season.path, path("closed.db")).unwrap();
    // A tool that looked into it after a kill has emptied its -wal.
    let looked_into = season.copy();
    open(&looked_into.path).unwrap().ask(add_head(at.stop, 2));
    let cut_off = {
        let mut service = open(&looked_into.path).unwrap();
        service.ask(add_head(at.stop, 3));
        left(&looked_into)
    };
    Connection::open(&cut_off.path)
        .unwrap()
        .query_row("SELECT count(*) FROM change", [], |_| Ok(()))
        .unwrap();
    assert!(!beside(&cut_off.path, "-wal").exists());
    must_be_whole(&notebook(&cut_off.path).unwrap());
    for name in ["vacuum.db", "backup.db", "closed.db"] {
        let copy = notebook(&path(name)).unwrap();
        assert_eq!(changes(copy.db()), log, "{name}");
        must_be_whole(&copy);
        copy.close().unwrap();
        notebook(&path(name)).unwrap();
    }
    // Without the file that names the last change, or with nonsense in it.
    fs::write(beside(&season.path, LAST), [7; 5000]).unwrap();
    notebook(&season.path).unwrap().close().unwrap();
    fs::remove_file(beside(&season.path, LAST)).unwrap();
    notebook(&season.path).unwrap();
}

#[test]
fn whoever_closes_last_leaves_one_whole_file() {
    let (season, at) = Book::with_season(2);
    for run in 0..if long() { 200 } else { 20 } {
        let book = season.copy();
        let barrier = std::sync::Barrier::new(3);
        std::thread::scope(|scope| {
            for who in 0..3 {
                let (path, barrier) = (&book.path, &barrier);
                scope.spawn(move || {
                    let mut service = open(path);
                    let added = match &mut service {
                        Ok(service) => service.call(add_head(at.stop, who)).err(),
                        Err(_) => None,
                    };
                    // None is waited for in vain.
                    barrier.wait();
                    drop(service.unwrap());
                    assert_eq!(added, None);
                });
            }
        });
        assert!(!beside(&book.path, "-wal").exists(), "run {run}");
        let alone = Book::new();
        fs::copy(&book.path, &alone.path).unwrap();
        let opened = notebook(&alone.path).unwrap_or_else(|error| panic!("run {run}: {error}"));
        assert_eq!(
            changes(opened.db()),
            changes(notebook(&book.path).unwrap().db())
        );
    }
}

#[test]
fn a_branch_that_moved_is_not_missed() {
    let (season, at) = Book::with_season(2);
    let mut mine = notebook(&season.path).unwrap();
    let device = mine.device();
    let end = notebook::log::heads(mine.db()).unwrap()[&device].seq;
    let first = notebook::log::change_at(mine.db(), device, end).unwrap();
    // The last change is of the branch, and what is named is not written anew: as
    // after a kill between the two.
    let named = fs::read(beside(&season.path, LAST)).unwrap();
    let to = notebook::branch_id(device, end, &first.unwrap()).unwrap();
    mine.move_branch(device, end, to).unwrap();
    mine.close().unwrap();
    fs::write(beside(&season.path, LAST), named).unwrap();
    let mut service = open(&season.path).unwrap();
    service.ask(add_head(at.stop, 1));
    must_be_whole(service.notebook());
}

#[test]
fn a_new_notebook_is_not_asked_for_what_an_earlier_one_held() {
    let (season, _) = Book::with_season(2);
    fs::remove_file(&season.path).unwrap();
    notebook(&season.path).unwrap().close().unwrap();
    // One that was emptied is.
    let (season, _) = Book::with_season(2);
    fs::write(&season.path, []).unwrap();
    must_lack(&season.path);
}
