//! Files beside the notebook, or the notebook itself, are cut short or gone.

use std::fs;

use notebook::SystemRandomness;
use notebook::durability::salvage;
use rand::{RngExt as _, SeedableRng as _};
use rand_chacha::ChaCha8Rng;
use service::ask;

use crate::outcome::{Outcomes, long};
use crate::season::{
    Asking as _, Book, add_head, beside, changes, clock, must_be_whole, notebook, open, said,
};

/// A notebook as a pulled battery leaves it: the last heads are in the -wal alone.
fn cut_off(season: &Book, stop: uuid::Uuid) -> (Book, usize) {
    let book = season.copy();
    let mut service = open(&book.path).unwrap();
    for number in 0..30 {
        service.ask(add_head(stop, number));
    }
    let whole = changes(service.notebook().db()).len();
    (book.copy(), whole)
}

#[test]
fn a_cut_wal_costs_what_was_cut_and_nothing_else() {
    let mut outcomes = Outcomes::default();
    let (season, at) = Book::with_season(6);
    let before = changes(notebook(&season.path).unwrap().db()).len();
    let (left, whole) = cut_off(&season, at.stop);
    let all = changes(notebook(&left.copy().path).unwrap().db());
    assert_eq!(all.len(), whole, "a battery pulled costs nothing");
    let wal = fs::read(beside(&left.path, "-wal")).unwrap();
    for run in 0..if long() { 200 } else { 12 } {
        let mut chance = ChaCha8Rng::seed_from_u64(run);
        let book = left.copy();
        let cut = chance.random_range(0..wal.len());
        let turned = run % 2 == 1;
        let mut bytes = wal.clone();
        if turned {
            bytes[cut] ^= 1 << chance.random_range(0..8);
        } else {
            bytes.truncate(cut);
        }
        fs::write(beside(&book.path, "-wal"), bytes).unwrap();
        let notebook = notebook(&book.path).unwrap();
        let found = changes(notebook.db());
        assert!(found.len() >= before, "run {run}");
        assert_eq!(found[..], all[..found.len()], "run {run}: no prefix");
        must_be_whole(&notebook);
        let done = if turned {
            "-wal: a bit turned"
        } else {
            "-wal: cut short"
        };
        outcomes.add(
            done,
            if found.len() == all.len() {
                "nothing lost"
            } else {
                "only the changes in the destroyed part are lost; the rest is whole"
            },
        );
    }
    outcomes.print("cut files");
}

#[test]
fn shared_memory_is_made_anew() {
    let (season, at) = Book::with_season(6);
    let (left, whole) = cut_off(&season, at.stop);
    let length = fs::metadata(beside(&left.path, "-shm")).unwrap().len();
    for (what, bytes) in [
        ("empty", Vec::new()),
        ("half", vec![0xa5; usize::try_from(length / 2).unwrap()]),
        ("nonsense", vec![0x3c; usize::try_from(length).unwrap()]),
    ] {
        let book = left.copy();
        fs::write(beside(&book.path, "-shm"), bytes).unwrap();
        let notebook = notebook(&book.path).unwrap();
        assert_eq!(changes(notebook.db()).len(), whole, "-shm {what}");
        must_be_whole(&notebook);
        println!("-shm {what}: unharmed");
    }
    let book = left.copy();
    fs::remove_file(beside(&book.path, "-shm")).unwrap();
    assert_eq!(changes(notebook(&book.path).unwrap().db()).len(), whole);
    println!("-shm gone: unharmed");
}

#[test]
fn a_notebook_cut_short_is_saved_as_far_as_it_goes() {
    let mut outcomes = Outcomes::default();
    let (season, _) = Book::with_season(30);
    let all = said(&changes(notebook(&season.path).unwrap().db()));
    let bytes = fs::read(&season.path).unwrap();
    for run in 0..if long() { 60 } else { 8 } {
        let mut chance = ChaCha8Rng::seed_from_u64(run);
        let book = Book::new();
        let cut = chance.random_range(4096..bytes.len());
        fs::write(&book.path, &bytes[..cut]).unwrap();
        let salvaged = salvage(&book.path, clock(), Box::new(SystemRandomness)).unwrap();
        let notebook = notebook(&book.path).unwrap();
        let kept = said(&changes(notebook.db()));
        assert!(
            kept.iter().all(|change| all.contains(change)),
            "run {run}: a change out of nothing"
        );
        let lost = all.len() - kept.len();
        assert!(
            salvaged.lost as usize == lost || salvaged.end_unknown,
            "run {run}: told {}, lost {lost}",
            salvaged.lost
        );
        must_be_whole(&notebook);
        outcomes.add(
            "the notebook: cut short",
            if lost == 0 {
                "salvaged: every change kept"
            } else {
                "salvaged: what lay in the part cut off is lost, and told"
            },
        );
    }
    // And with a backup beside it, nothing is.
    let book = Book::new();
    fs::copy(&season.path, &book.path).unwrap();
    open(&book.path).unwrap().ask(ask::BackUp {});
    fs::write(&book.path, &bytes[..bytes.len() / 3]).unwrap();
    let salvaged = salvage(&book.path, clock(), Box::new(SystemRandomness)).unwrap();
    assert_eq!(said(&changes(notebook(&book.path).unwrap().db())), all);
    assert!(
        salvaged.from_backup > 0 && salvaged.lost == 0,
        "{salvaged:?}"
    );
    outcomes.add(
        "the notebook: cut short, a backup beside it",
        "salvaged: every change kept",
    );
    outcomes.print("cut files");
}

#[test]
fn a_notebook_that_is_gone_is_saved_from_its_backup() {
    let (season, _) = Book::with_season(6);
    let all = said(&changes(notebook(&season.path).unwrap().db()));
    open(&season.path).unwrap().ask(ask::BackUp {});
    fs::write(&season.path, []).unwrap();
    let salvaged = salvage(&season.path, clock(), Box::new(SystemRandomness)).unwrap();
    assert_eq!(said(&changes(notebook(&season.path).unwrap().db())), all);
    assert_eq!(salvaged.lost, 0);
    assert!(salvaged.settings_kept);
}
