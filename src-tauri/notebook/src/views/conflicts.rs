//! Fields of a planting to which people gave different values without having
//! seen each other's.

use std::collections::{BTreeMap, BTreeSet};

use rusqlite::{Connection, OptionalExtension, params};
use serde_json::Value;
use uuid::Uuid;

use super::plantings::standing;
use crate::error::StoreError;
use crate::log;
use crate::views::merged::MERGED_INTO;
use chrono::{DateTime, FixedOffset};
use kinds::Field;
use serde::{Deserialize, Serialize};

/// A field with more than one value that nobody has replaced.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct FieldConflict {
    /// Which field.
    pub field: Field,
    /// The latest, which stands.
    pub stands: GivenValue,
    /// The others, sorted by value.
    pub others: Vec<GivenValue>,
}

/// A value that somebody gave to a field.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct GivenValue {
    /// As an edit takes it; an area as JSON.
    pub value: String,
    /// On which device.
    pub device: Uuid,
    /// When, by the writer's clock.
    pub recorded_at: DateTime<FixedOffset>,
}

/// The fields of a planting that are in conflict.
pub fn open_fields(db: &Connection, id: Uuid) -> Result<BTreeSet<Field>, StoreError> {
    let conflicts = of_planting(db, id)?;
    Ok(conflicts.into_iter().map(|each| each.field).collect())
}

/// The conflicts of a planting, by field.
pub fn of_planting(db: &Connection, id: Uuid) -> Result<Vec<FieldConflict>, StoreError> {
    let fields: Vec<String> = db
        // Merging is settled by merging or taking apart again.
        .prepare_cached(
            "SELECT DISTINCT field FROM field_value WHERE id = ?1 AND field <> ?2 ORDER BY field",
        )?
        .query_map(params![id, MERGED_INTO], |row| row.get(0))?
        .collect::<Result<_, _>>()?;
    let mut conflicts = Vec::new();
    for field in fields {
        let mut given = Vec::new();
        // The one that stands is the last; equal values are no conflict.
        for told in standing(db, id, &field)? {
            let value: Option<String> = db
                .prepare_cached(
                    "SELECT value FROM field_value
                     WHERE id = ?1 AND field = ?2 AND device = ?3 AND seq = ?4",
                )?
                .query_row(params![id, field, told.device, told.seq], |row| row.get(0))
                .optional()?;
            let change = log::change_at(db, told.device, told.seq)?;
            if let (Some(value), Some(change)) = (value, change) {
                given.push(GivenValue {
                    value: shown(db, &field, &serde_json::from_str(&value)?)?,
                    device: told.device,
                    recorded_at: change.recorded_at(),
                });
            }
        }
        let Some(stands) = given.pop() else { continue };
        let others: BTreeMap<String, GivenValue> = given
            .into_iter()
            .filter(|other| other.value != stands.value)
            .map(|other| (other.value.clone(), other))
            .collect();
        if !others.is_empty() {
            conflicts.push(FieldConflict {
                field: Field::of(&field),
                stands,
                others: others.into_values().collect(),
            });
        }
    }
    Ok(conflicts)
}

/// A value in the words in which a screen shows and takes it.
pub fn shown(db: &Connection, field: &str, value: &Value) -> Result<String, StoreError> {
    let name = |sql: &str| -> Result<Option<String>, StoreError> {
        let Some(id) = value.as_str().and_then(|text| Uuid::try_parse(text).ok()) else {
            return Ok(None);
        };
        let found = db
            .prepare_cached(sql)?
            .query_row([id], |row| row.get::<_, Option<String>>(0))
            .optional()?;
        Ok(found.flatten())
    };
    let named = match field {
        "farm" => name("SELECT name FROM farm WHERE id = ?1")?,
        "field" => name("SELECT name FROM field WHERE id = ?1")?,
        "hybrid" => name("SELECT name FROM hybrid WHERE id = ?1")?,
        "merged_into" => name("SELECT name FROM planting WHERE id = ?1")?,
        _ => None,
    };
    Ok(named.unwrap_or_else(|| match value {
        Value::String(text) => text.clone(),
        Value::Null => String::new(),
        other => other.to_string(),
    }))
}
