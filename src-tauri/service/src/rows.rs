//! Values of a row, as one change gives them.

use std::collections::BTreeMap;

use rusqlite::Connection;
use serde_json::Value;
use uuid::Uuid;

use crate::Problem;
use notebook::fact::{Body, Fact, Row};
use notebook::notebook::Writer;
use notebook::views::plantings;

/// Puts values into a row, saying which ones they replace.
pub(crate) fn set(
    writer: &mut Writer,
    act: &str,
    row: Row,
    id: Uuid,
    to: BTreeMap<String, Value>,
) -> Result<(), Problem> {
    let mut replaces = BTreeMap::new();
    for field in to.keys() {
        let standing = plantings::standing(writer.db(), id, field)?;
        if !standing.is_empty() {
            replaces.insert(field.clone(), standing);
        }
    }
    let fact = Fact::Set {
        row,
        id,
        walk: None,
        to,
        replaces,
    };
    Ok(writer.record(act, &Body::of(vec![fact]))?)
}

/// A change that sets one yes-or-no field of a row.
pub(crate) fn set_flag(
    db: &Connection,
    row: Row,
    id: Uuid,
    field: &str,
    value: bool,
) -> Result<Body, Problem> {
    let field = field.to_owned();
    let replaces = plantings::standing(db, id, &field)?;
    Ok(Body::of(vec![Fact::Set {
        row,
        id,
        walk: None,
        to: BTreeMap::from([(field.clone(), Value::Bool(value))]),
        replaces: if replaces.is_empty() {
            BTreeMap::new()
        } else {
            BTreeMap::from([(field, replaces)])
        },
    }]))
}
