//! Hybrids as the views hold them.

use ripening::heat::MaturityClass;
use rusqlite::{Connection, OptionalExtension, Row};
use serde_json::Value;
use uuid::Uuid;

use crate::error::StoreError;

/// A hybrid.
#[derive(Debug, Clone, PartialEq)]
pub struct Hybrid {
    /// Id of the hybrid.
    pub id: Uuid,
    /// Its name.
    pub name: String,
    /// Its maturity class, where somebody chose one.
    pub maturity: Option<MaturityClass>,
    /// Code or id of the heat set chosen for it.
    pub heat_set: Option<String>,
    /// Plantings of it that are not removed.
    pub plantings: u32,
}

const COLUMNS: &str = "hybrid.id, hybrid.name, hybrid.maturity, hybrid.heat_set,
    (SELECT count(*) FROM planting
     WHERE planting.hybrid = hybrid.id AND planting.name IS NOT NULL AND NOT planting.removed)
    FROM hybrid WHERE hybrid.name IS NOT NULL AND NOT hybrid.removed";

/// All hybrids that are not removed, by name.
pub fn all(db: &Connection) -> Result<Vec<Hybrid>, StoreError> {
    let mut statement =
        db.prepare_cached(&format!("SELECT {COLUMNS} ORDER BY hybrid.name, hybrid.id"))?;
    let rows = statement.query_map([], read)?;
    Ok(rows.collect::<Result<_, _>>()?)
}

/// One hybrid that is not removed.
pub fn one(db: &Connection, id: Uuid) -> Result<Option<Hybrid>, StoreError> {
    let mut statement = db.prepare_cached(&format!("SELECT {COLUMNS} AND hybrid.id = ?1"))?;
    Ok(statement.query_row([id], read).optional()?)
}

fn read(row: &Row) -> rusqlite::Result<Hybrid> {
    Ok(Hybrid {
        id: row.get(0)?,
        name: row.get(1)?,
        maturity: read_maturity(row.get(2)?),
        heat_set: row.get(3)?,
        plantings: row.get(4)?,
    })
}

/// A class as the column holds it; one that this version does not know is none.
pub(crate) fn read_maturity(text: Option<String>) -> Option<MaturityClass> {
    serde_json::from_value(Value::String(text?)).ok()
}
