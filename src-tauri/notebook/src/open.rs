//! Opening a notebook file.

use std::path::Path;
use std::time::Duration;

use rusqlite::{Connection, ErrorCode, OpenFlags};
use rusqlite_migration::{M, Migrations};

use crate::error::StoreError;

/// Marks the file: "Hwlk".
const APPLICATION_ID: i64 = 1_215_786_091;

/// The steps of the schema, in order, only ever added to.
const STEPS: &[&str] = &[
    include_str!("../../../migrations/notebook/0001_log_and_views.sql"),
    include_str!("../../../migrations/notebook/0002_weather.sql"),
    include_str!("../../../migrations/notebook/0003_harvest.sql"),
    include_str!("../../../migrations/notebook/0004_places.sql"),
    include_str!("../../../migrations/notebook/0005_photos.sql"),
];

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
pub(crate) fn open(path: &Path) -> Result<Connection, StoreError> {
    let flags = OpenFlags::SQLITE_OPEN_READ_WRITE
        | OpenFlags::SQLITE_OPEN_CREATE
        | OpenFlags::SQLITE_OPEN_NO_MUTEX;
    let mut db = Connection::open_with_flags(path, flags)?;
    prepare(&mut db)?;
    Ok(db)
}

/// A notebook in memory, for tests and simulations.
pub(crate) fn open_in_memory() -> Result<Connection, StoreError> {
    let mut db = Connection::open_in_memory()?;
    prepare(&mut db)?;
    Ok(db)
}

fn prepare(db: &mut Connection) -> Result<(), StoreError> {
    db.busy_timeout(Duration::from_secs(5))?;
    check_owner(db).map_err(|error| match error {
        StoreError::Sqlite(rusqlite::Error::SqliteFailure(cause, _))
            if cause.code == ErrorCode::NotADatabase =>
        {
            StoreError::NotANotebook
        }
        error => error,
    })?;
    // Several writers' worth of statements; every query has its own text.
    db.set_prepared_statement_cache_capacity(128);
    db.execute_batch(
        "PRAGMA journal_mode = WAL;
         PRAGMA synchronous = FULL;
         PRAGMA foreign_keys = ON;
         PRAGMA trusted_schema = OFF;
         PRAGMA cell_size_check = ON;
         PRAGMA temp_store = MEMORY;
         PRAGMA cache_size = -16000;
         PRAGMA journal_size_limit = 16777216;",
    )?;
    migrations().to_latest(db)?;
    Ok(())
}

fn check_owner(db: &Connection) -> Result<(), StoreError> {
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
        let stepwise = open(&path).unwrap();
        let fresh = open_in_memory().unwrap();
        assert_eq!(schema(&stepwise), schema(&fresh));
        assert!(!schema(&fresh).is_empty());
        migrations().validate().unwrap();
    }

    #[test]
    fn the_file_is_safe_against_power_loss() {
        let folder = tempfile::tempdir().unwrap();
        let db = open(&folder.path().join("n.notebook")).unwrap();
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
        let db = open(&path).unwrap();
        db.execute_batch("PRAGMA user_version = 999").unwrap();
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
