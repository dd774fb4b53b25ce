//! Farms, fields, hybrids and scouts.

use rusqlite::{Connection, OptionalExtension, params};
use uuid::Uuid;

use crate::error::StoreError;
use serde::{Deserialize, Serialize};

/// Names for the pickers, each sorted.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct Names {
    /// Farms.
    pub farms: Vec<String>,
    /// Fields.
    pub fields: Vec<String>,
    /// Hybrids.
    pub hybrids: Vec<String>,
    /// Scouts.
    pub scouts: Vec<String>,
}

/// Names for the pickers: of what is not removed, each once, sorted.
pub fn names(db: &Connection) -> Result<Names, StoreError> {
    let list = |sql: &str| -> Result<Vec<String>, StoreError> {
        let mut statement = db.prepare_cached(sql)?;
        let rows = statement.query_map([], |row| row.get(0))?;
        Ok(rows.collect::<Result<_, _>>()?)
    };
    Ok(Names {
        farms: list(
            "SELECT DISTINCT name FROM farm WHERE name IS NOT NULL AND NOT removed ORDER BY name",
        )?,
        fields: list(
            "SELECT DISTINCT name FROM field WHERE name IS NOT NULL AND NOT removed ORDER BY name",
        )?,
        hybrids: list(
            "SELECT DISTINCT name FROM hybrid WHERE name IS NOT NULL AND NOT removed ORDER BY name",
        )?,
        scouts: list(
            "SELECT DISTINCT scout FROM walk
             WHERE scout <> '' AND made_hlc IS NOT NULL AND NOT removed ORDER BY scout",
        )?,
    })
}

/// The farm of this name.
pub fn farm(db: &Connection, name: &str) -> Result<Option<Uuid>, StoreError> {
    Ok(db
        .prepare_cached("SELECT id FROM farm WHERE name = ?1 AND NOT removed ORDER BY id LIMIT 1")?
        .query_row([name], |row| row.get(0))
        .optional()?)
}

/// The field of this name on this farm.
pub fn field(db: &Connection, farm: Option<Uuid>, name: &str) -> Result<Option<Uuid>, StoreError> {
    Ok(db
        .prepare_cached(
            "SELECT id FROM field WHERE name = ?1 AND farm IS ?2 AND NOT removed
             ORDER BY id LIMIT 1",
        )?
        .query_row(params![name, farm], |row| row.get(0))
        .optional()?)
}

/// The hybrid of this name.
pub fn hybrid(db: &Connection, name: &str) -> Result<Option<Uuid>, StoreError> {
    Ok(db
        .prepare_cached(
            "SELECT id FROM hybrid WHERE name = ?1 AND NOT removed ORDER BY id LIMIT 1",
        )?
        .query_row([name], |row| row.get(0))
        .optional()?)
}
