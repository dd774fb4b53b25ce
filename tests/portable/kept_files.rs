//! Files that the program of November 2026 made, kept beside this test: a notebook, an
//! archive of it, and the file of the hub it had exchanged with. They open as they did.
//!
//! `heads.csv` is what that program wrote of the notebook. Whoever changes what these
//! files hold adds others made by the program before the change, and keeps these.

use std::fmt::Write as _;
use std::fs::{self, File};
use std::path::{Path, PathBuf};

use headwalk_tests::devices::{Seeded, SetClock};
use hub::store::Store as _;
use hub::store::sqlite::SqliteStore;
use notebook::durability::check;
use notebook::log::{self, Head};
use notebook::{Notebook, seal};
use service::{FileOut, Keep, Service};
use uuid::{Uuid, uuid};

use crate::books::empty;
use crate::faces::NOON;

/// The device that wrote all changes, their number, and the digest of their series.
const DEVICE: Uuid = uuid!("01a22d25-25d8-7a09-8df7-a2c8e23ce207");
const CHANGES: u64 = 9;
const DIGEST: &str = "b995cbab785fd18aed9fc572bf0c272153207e002d6a379c93627887bca9318e";

fn kept(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("portable/kept")
        .join(name)
}

fn is_whole_log(db: &rusqlite::Connection) {
    let ends = log::heads(db).unwrap();
    let digest = ends.values().map(digest_of).collect::<Vec<_>>();
    assert_eq!(ends.keys().copied().collect::<Vec<_>>(), [DEVICE]);
    assert_eq!(digest, [(CHANGES, DIGEST.to_owned())]);
}

fn digest_of(end: &Head) -> (u64, String) {
    let mut digest = String::new();
    for byte in end.digest {
        write!(digest, "{byte:02x}").unwrap();
    }
    (end.seq, digest)
}

fn heads_of(service: &mut Service) -> String {
    let mut made = std::io::Cursor::new(Vec::new());
    service.file_out(&FileOut::Heads, &mut made).unwrap();
    String::from_utf8(made.into_inner()).unwrap()
}

#[test]
fn a_notebook_of_november_2026_opens_with_the_same_log_and_heads() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("notebook.db");
    fs::copy(kept("notebook.db"), &path).unwrap();
    let clock = Box::new(SetClock::at(NOON).unwrap());
    let mut notebook = Notebook::open(&path, clock, Box::new(Seeded::new(5))).unwrap();
    is_whole_log(notebook.db());
    let looked = check::check(notebook.db()).unwrap();
    assert!(looked.is_sound(), "{:?}", looked.first_fault());
    assert_eq!(seal::last(notebook.db(), DEVICE).unwrap(), CHANGES);
    let views = notebook.view_digest().unwrap();
    notebook.rebuild().unwrap();
    assert_eq!(notebook.view_digest().unwrap(), views);
    let heads = heads_of(&mut Service::new(notebook).unwrap());
    assert_eq!(heads, fs::read_to_string(kept("heads.csv")).unwrap());
}

#[test]
fn an_archive_of_november_2026_gives_the_same_log_and_heads() {
    let mut service = empty(6);
    let archive = File::open(kept("archive.zip")).unwrap();
    let done = service
        .archive_in(archive, Keep::GoodRows, &mut |_| true)
        .unwrap();
    assert_eq!((done.review.new, done.review.new_heads), (CHANGES, 120));
    is_whole_log(service.notebook().db());
    let heads = heads_of(&mut service);
    assert_eq!(heads, fs::read_to_string(kept("heads.csv")).unwrap());
}

#[test]
fn a_hub_of_november_2026_holds_the_same_series_sealed() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("hub.db");
    fs::copy(kept("hub.db"), &path).unwrap();
    let store = SqliteStore::open(&path).unwrap();
    let db = rusqlite::Connection::open(&path).unwrap();
    let crew: Uuid = db
        .query_row("SELECT id FROM crew", [], |row| row.get(0))
        .unwrap();
    let runtime = tokio::runtime::Runtime::new().unwrap();
    let heads = runtime.block_on(store.heads(crew)).unwrap();
    let ends: Vec<(Uuid, u64)> = heads.iter().map(|(id, mark)| (*id, mark.seq)).collect();
    assert_eq!(ends, [(DEVICE, CHANGES)]);
    let writers = runtime.block_on(store.writers(crew)).unwrap();
    assert!(writers.contains_key(&DEVICE), "its key is known");
}
