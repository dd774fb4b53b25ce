//! Opening a notebook file.

use std::fs::OpenOptions;
use std::path::Path;
use std::thread;
use std::time::Duration;

use rusqlite::config::DbConfig;
use rusqlite::{Connection, ErrorCode, OpenFlags};
use rusqlite_migration::{M, Migrations};

use crate::disk::hold::{self, Hold};
use crate::disk::integrity::integrity;
use crate::disk::lease::{Lease, OnDisk};
use crate::disk::{carve, files, last_saved};
use crate::error::StoreError;

/// Marks the file: "Hwlk".
const APPLICATION_ID: i64 = 1_215_786_091;

/// The steps of the schema, `migrations/notebook` in the order of their numbers, only
/// ever added to. Each adds a table, a column or an index: by that an older app tells a
/// newer notebook from one whose schema number is damaged.
const STEPS: &[&str] = &include!(concat!(env!("OUT_DIR"), "/steps.rs"));

/// The notebook's migrations.
pub fn migrations() -> Migrations<'static> {
    Migrations::new(STEPS.iter().copied().map(M::up).collect())
}

/// The newest schema this version knows.
fn newest() -> i64 {
    i64::try_from(STEPS.len()).unwrap_or(i64::MAX)
}

/// Opens the file, or makes it, and brings its schema up to date. A file of
/// something else, or of a newer version, is left untouched.
///
/// When the last program that had it open did not close it (its -wal still holds
/// something and nobody holds the file), it is checked before it is used; and one
/// that lacks what it showed as saved is refused as it lies ([`OnDisk::judge`]).
pub(crate) fn open(path: &Path) -> Result<(Connection, Lease), StoreError> {
    let hold = Hold::beside_others(path)?;
    files::finish(path)?;
    let found = hold.alone.then(|| {
        files::discard_unfinished(path);
        if !path.exists() {
            last_saved::set_aside(path);
        }
        OnDisk::at(path)
    });
    let db = connect(path, found)?;
    let lease = Lease::of(path, hold);
    if found.is_some() {
        files::keep_all_private(path);
    }
    Ok((db, lease))
}

/// Opens a file that nobody else knows of, as [`open`] does, whatever it lacks.
pub(crate) fn open_alone(path: &Path) -> Result<Connection, StoreError> {
    connect(path, None)
}

fn connect(path: &Path, found: Option<OnDisk>) -> Result<Connection, StoreError> {
    let flags = OpenFlags::SQLITE_OPEN_READ_WRITE
        | OpenFlags::SQLITE_OPEN_CREATE
        | OpenFlags::SQLITE_OPEN_NO_MUTEX;
    files::make_private(path);
    let mut db = Connection::open_with_flags(files::as_name(path), flags)
        .map_err(|error| locked(error, path))?;
    match prepare(&mut db, found) {
        Ok(()) => Ok(db),
        Err(StoreError::Sqlite(error)) => Err(locked(error, path).or_damage()),
        Err(error) => Err(told_apart(error, &db, path)),
    }
}

/// SQLite cannot open a file where it can make none beside it; a notebook that is
/// there and may not be written to is told as such.
fn locked(error: rusqlite::Error, path: &Path) -> StoreError {
    let may_be = matches!(
        error.sqlite_error_code(),
        Some(ErrorCode::CannotOpen | ErrorCode::ReadOnly | ErrorCode::PermissionDenied)
    );
    let may_write = |path: &Path, make: bool| {
        OpenOptions::new()
            .write(true)
            .create(make)
            .truncate(false)
            .open(path)
            .is_ok()
    };
    if may_be
        && path.is_file()
        && !(may_write(path, false) && may_write(&hold::lock_path(path), true))
    {
        return StoreError::ReadOnly;
    }
    error.into()
}

/// Damage may hit just the bytes by which a notebook is known. A file that holds
/// changes is a notebook, whatever its header says; and a newer version's notebook
/// has other tables than ours.
fn told_apart(error: StoreError, db: &Connection, path: &Path) -> StoreError {
    match error {
        StoreError::NotANotebook if carve::holds_a_change(path) => {
            StoreError::Damaged("its first page does not say what it is".to_owned())
        }
        StoreError::FromNewerApp { found, .. } if has_our_tables(db) => StoreError::Damaged(
            format!("it says schema {found}, and has the tables of ours"),
        ),
        error => error.or_damage(),
    }
}

fn has_our_tables(db: &Connection) -> bool {
    let tables = |db: &Connection| -> rusqlite::Result<Vec<(String, Option<String>)>> {
        db.prepare("SELECT name, sql FROM sqlite_schema ORDER BY type, name")?
            .query_map([], |row| Ok((row.get(0)?, row.get(1)?)))?
            .collect()
    };
    match (tables(db), open_in_memory()) {
        (Ok(here), Ok(ours)) => tables(&ours).is_ok_and(|ours| ours == here),
        _ => false,
    }
}

/// A notebook in memory, for tests and simulations.
pub(crate) fn open_in_memory() -> Result<Connection, StoreError> {
    let mut db = Connection::open_in_memory()?;
    prepare(&mut db, None)?;
    Ok(db)
}

fn prepare(db: &mut Connection, found: Option<OnDisk>) -> Result<(), StoreError> {
    db.busy_handler(Some(wait_for_writer))?;
    // A notebook that is refused stays as it is: closing it would write what its -wal
    // holds, which may be of another day, over its pages.
    let unclean = found.is_some_and(|found| found.wal);
    db.set_db_config(DbConfig::SQLITE_DBCONFIG_NO_CKPT_ON_CLOSE, unclean)?;
    check_owner(db)?;
    if db.is_readonly(rusqlite::MAIN_DB)? {
        return Err(StoreError::ReadOnly);
    }
    if let Some(found) = found {
        if found.wal
            && let Some(fault) = integrity(db)?.into_iter().next()
        {
            return Err(StoreError::Damaged(fault));
        }
        found.judge(db)?;
        db.set_db_config(DbConfig::SQLITE_DBCONFIG_NO_CKPT_ON_CLOSE, false)?;
    }
    // Several writers' worth of statements; every query has its own text.
    db.set_prepared_statement_cache_capacity(128);
    db.execute_batch(
        "PRAGMA journal_mode = WAL;
         PRAGMA synchronous = FULL;
         PRAGMA foreign_keys = ON;
         PRAGMA trusted_schema = OFF;
         PRAGMA cell_size_check = ON;
         PRAGMA temp_store = MEMORY;
         PRAGMA journal_size_limit = 16777216;",
    )?;
    cache(db, CACHE_KIB)?;
    migrations().to_latest(db)?;
    Ok(())
}

/// How often another writer's lock is waited for, and how long each time: five
/// seconds in all.
const WAITS: i32 = 2_500;
const WAIT: Duration = Duration::from_millis(2);

/// Waits for another writer, and says whether to try again. SQLite's own waiting
/// grows to a tenth of a second, and would miss the moments between two lots of an
/// import time and again.
fn wait_for_writer(waited: i32) -> bool {
    thread::sleep(WAIT);
    waited < WAITS
}

/// Memory for pages of the file, KiB: as a rule, and while much is written at once.
pub(crate) const CACHE_KIB: u32 = 16_000;
pub(crate) const LARGE_CACHE_KIB: u32 = 80_000;

/// Sets how much memory pages of the file may take, and gives back what is above it.
pub(crate) fn cache(db: &Connection, kib: u32) -> Result<(), StoreError> {
    Ok(db.execute_batch(&format!(
        "PRAGMA cache_size = -{kib}; PRAGMA shrink_memory;"
    ))?)
}

/// Refuses what is no notebook, or one of a newer version.
pub(crate) fn check_owner(db: &Connection) -> Result<(), StoreError> {
    owner(db).map_err(|error| match error {
        StoreError::Sqlite(rusqlite::Error::SqliteFailure(cause, _))
            if cause.code == ErrorCode::NotADatabase =>
        {
            // A notebook whose first bytes are gone is told by its own marker.
            StoreError::NotANotebook
        }
        error => error,
    })
}

fn owner(db: &Connection) -> Result<(), StoreError> {
    let schema: i64 = db.query_row("PRAGMA user_version", [], |row| row.get(0))?;
    let owner: i64 = db.query_row("PRAGMA application_id", [], |row| row.get(0))?;
    let tables: i64 = db.query_row("SELECT count(*) FROM sqlite_schema", [], |row| row.get(0))?;
    if owner == APPLICATION_ID {
        if schema > newest() {
            return Err(StoreError::FromNewerApp {
                found: schema,
                known: newest(),
            });
        }
        if schema < 0 {
            return Err(StoreError::Damaged(format!("it says schema {schema}")));
        }
        Ok(())
    } else if owner == 0 && schema == 0 && tables == 0 {
        Ok(())
    } else {
        Err(StoreError::NotANotebook)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn schema(db: &Connection) -> Vec<(String, String)> {
        db.prepare("SELECT name, sql FROM sqlite_schema WHERE sql IS NOT NULL ORDER BY type, name")
            .unwrap()
            .query_map([], |row| Ok((row.get(0)?, row.get(1)?)))
            .unwrap()
            .collect::<Result<_, _>>()
            .unwrap()
    }

    #[test]
    fn the_migrations_hold_one_by_one_with_reopening_and_end_as_a_fresh_schema() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("stepwise.notebook");
        for step in 1..=STEPS.len() {
            let mut db = Connection::open(&path).unwrap();
            migrations().to_version(&mut db, step).unwrap();
            db.close().unwrap();
        }
        let (stepwise, _hold) = open(&path).unwrap();
        let fresh = open_in_memory().unwrap();
        assert_eq!(schema(&stepwise), schema(&fresh));
        assert!(!schema(&fresh).is_empty());
        migrations().validate().unwrap();
    }

    #[test]
    fn the_file_is_safe_against_power_loss() {
        let folder = tempfile::tempdir().unwrap();
        let (db, _hold) = open(&folder.path().join("n.notebook")).unwrap();
        let ask = |pragma: &str| -> String {
            db.query_row(&format!("PRAGMA {pragma}"), [], |row| {
                row.get::<_, rusqlite::types::Value>(0)
            })
            .map(|value| format!("{value:?}"))
            .unwrap()
        };
        assert_eq!(ask("journal_mode"), "Text(\"wal\")");
        assert_eq!(ask("synchronous"), "Integer(2)");
        assert_eq!(ask("foreign_keys"), "Integer(1)");
    }

    #[test]
    fn a_newer_notebook_is_refused_and_left_as_it_is() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("newer.notebook");
        let (db, hold) = open(&path).unwrap();
        drop(hold);
        db.execute_batch("CREATE TABLE later (x TEXT) STRICT; PRAGMA user_version = 999")
            .unwrap();
        db.close().unwrap();
        let before = std::fs::read(&path).unwrap();
        assert!(matches!(
            open(&path),
            Err(StoreError::FromNewerApp { found: 999, .. })
        ));
        assert_eq!(std::fs::read(&path).unwrap(), before);
    }

    #[test]
    fn other_files_are_refused_and_left_as_they_are() {
        let folder = tempfile::tempdir().unwrap();
        let text = folder.path().join("heads.csv");
        std::fs::write(&text, "planting,walked_on\n".repeat(100)).unwrap();
        let before = std::fs::read(&text).unwrap();
        assert!(matches!(open(&text), Err(StoreError::NotANotebook)));
        assert_eq!(std::fs::read(&text).unwrap(), before);

        let foreign = folder.path().join("foreign.db");
        let db = Connection::open(&foreign).unwrap();
        db.execute_batch("CREATE TABLE t (x)").unwrap();
        db.close().unwrap();
        assert!(matches!(open(&foreign), Err(StoreError::NotANotebook)));
    }
}
