//! Users' heat sets as the views hold them, and which one counts.

use ripening::heat::HeatScale;
use rusqlite::{Connection, OptionalExtension, Row};
use uuid::Uuid;

use crate::error::StoreError;

/// Id of the one row of what holds for the whole notebook.
pub const WHOLE_NOTEBOOK: Uuid = Uuid::nil();

/// A user's set.
#[derive(Debug, Clone, PartialEq)]
pub struct OwnSet {
    /// Id of the set.
    pub id: Uuid,
    /// Its scale and tables.
    pub scale: HeatScale,
    /// Whether it was removed.
    pub removed: bool,
}

/// All users' sets that this version can read, removed ones too, by id.
pub fn all(db: &Connection) -> Result<Vec<OwnSet>, StoreError> {
    let mut statement = db.prepare_cached(
        "SELECT id, scale, removed FROM heat_set WHERE scale IS NOT NULL ORDER BY id",
    )?;
    let rows = statement.query_map([], read)?;
    let found: Vec<Option<OwnSet>> = rows.collect::<Result<_, _>>()?;
    Ok(found.into_iter().flatten().collect())
}

/// The set chosen for the whole notebook.
pub fn of_notebook(db: &Connection) -> Result<Option<String>, StoreError> {
    let chosen: Option<Option<String>> = db
        .prepare_cached("SELECT heat_set FROM whole_notebook WHERE id = ?1")?
        .query_row([WHOLE_NOTEBOOK], |row| row.get(0))
        .optional()?;
    Ok(chosen.flatten())
}

fn read(row: &Row) -> rusqlite::Result<Option<OwnSet>> {
    let scale: String = row.get(1)?;
    let (id, removed) = (row.get(0)?, row.get(2)?);
    Ok(serde_json::from_str(&scale)
        .ok()
        .map(|scale| OwnSet { id, scale, removed }))
}
