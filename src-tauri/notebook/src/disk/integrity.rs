//! Whether SQLite finds the file sound.

use rusqlite::Connection;

use crate::error::StoreError;

/// Most faults of the file that are told.
pub(crate) const MOST_TOLD: u32 = 10;

/// What SQLite finds wrong with the file: its pages, its tables, its indexes.
///
/// # Errors
/// When it cannot even look.
pub fn integrity(db: &Connection) -> Result<Vec<String>, StoreError> {
    let mut statement = db.prepare(&format!("PRAGMA integrity_check({MOST_TOLD})"))?;
    let found = statement
        .query_map([], |row| row.get::<_, String>(0))?
        .collect::<Result<Vec<_>, _>>()?;
    Ok(found.into_iter().filter(|line| line != "ok").collect())
}
