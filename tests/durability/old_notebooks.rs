//! Notebooks of every step of the schema, opened by this version.

use std::path::Path;

use rusqlite::Connection;

use crate::season::{Book, changes, must_be_whole, notebook, open};

/// How many steps the schema has had.
pub fn steps() -> usize {
    let db = Connection::open_in_memory().unwrap();
    let pending = notebook::migrations().pending_migrations(&db).unwrap();
    usize::try_from(pending).unwrap()
}

/// A notebook as a version of so many steps left it, with the log of another.
pub fn make_old(path: &Path, step: usize, like: &Path) {
    let mut db = Connection::open(path).unwrap();
    notebook::migrations().to_version(&mut db, step).unwrap();
    db.execute("ATTACH ?1 AS other", [like.to_str().unwrap()])
        .unwrap();
    // Its views are those of another version, so this one makes them anew.
    db.execute_batch(
        "INSERT INTO change (arrival, device, seq, hlc, recorded_ms, offset_min, received_ms,
                             kind, body, digest)
           SELECT arrival, device, seq, hlc, recorded_ms, offset_min, received_ms,
                  kind, body, digest FROM other.change ORDER BY arrival;
         INSERT INTO series (device, head, hlc, digest)
           SELECT device, head, hlc, digest FROM other.series;
         INSERT INTO this_device (one, id, views) SELECT one, id, 0 FROM other.this_device;
         INSERT INTO setting (name, value) SELECT name, value FROM other.setting;
         DETACH other;",
    )
    .unwrap();
    db.close().unwrap();
}

fn schema(db: &Connection) -> Vec<(String, String)> {
    db.prepare("SELECT name, sql FROM sqlite_schema WHERE sql IS NOT NULL ORDER BY type, name")
        .unwrap()
        .query_map([], |row| Ok((row.get(0)?, row.get(1)?)))
        .unwrap()
        .collect::<Result<_, _>>()
        .unwrap()
}

#[test]
fn a_notebook_of_every_step_opens_as_a_fresh_one_and_loses_nothing() {
    let (season, _) = Book::with_season(12);
    let fresh = notebook(&season.path).unwrap();
    for step in 1..=steps() {
        let old = Book::new();
        make_old(&old.path, step, &season.path);
        // Once more after closing: the second start finds nothing to do.
        for start in 1..=2 {
            let opened = notebook(&old.path).unwrap();
            let which = format!("step {step}, start {start}");
            assert_eq!(schema(opened.db()), schema(fresh.db()), "{which}");
            assert_eq!(changes(opened.db()), changes(fresh.db()), "{which}");
            assert_eq!(
                opened.view_digest().unwrap(),
                fresh.view_digest().unwrap(),
                "{which}"
            );
            assert_eq!(opened.device(), fresh.device(), "{which}");
            must_be_whole(&opened);
            opened.close().unwrap();
        }
        println!("step {step} of {}: opened, nothing lost", steps());
    }
}

#[test]
fn a_rebuild_gives_the_same_bytes() {
    let (season, _) = Book::with_season(12);
    let mut service = open(&season.path).unwrap();
    let before = service.notebook().view_digest().unwrap();
    service
        .with_notebook(|notebook| notebook.rebuild())
        .unwrap();
    assert_eq!(service.notebook().view_digest().unwrap(), before);
}
