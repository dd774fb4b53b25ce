//! Values of a row, as one change gives them.

use std::collections::BTreeMap;

use rusqlite::Connection;
use serde_json::Value;
use uuid::Uuid;

use crate::Problem;
use notebook::StoreError;
use notebook::fact::{Body, Fact, Row};
use notebook::notebook::Writer;
use notebook::views::plantings;

/// A fact that gives values to a row and names the ones that they replace. `walk` is
/// that of a row of a walk.
pub(crate) fn giving(
    db: &Connection,
    row: Row,
    id: Uuid,
    walk: Option<Uuid>,
    to: BTreeMap<String, Value>,
) -> Result<Fact, StoreError> {
    let mut replaces = BTreeMap::new();
    for field in to.keys() {
        let standing = plantings::standing(db, id, field)?;
        if !standing.is_empty() {
            replaces.insert(field.clone(), standing);
        }
    }
    Ok(Fact::Set {
        row,
        id,
        walk,
        to,
        replaces,
    })
}

/// Records a change that gives values to a row.
pub(crate) fn set(
    writer: &mut Writer,
    act: &str,
    row: Row,
    id: Uuid,
    to: BTreeMap<String, Value>,
) -> Result<(), Problem> {
    let fact = giving(writer.db(), row, id, None, to)?;
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
    let to = BTreeMap::from([(field.to_owned(), Value::Bool(value))]);
    Ok(Body::of(vec![giving(db, row, id, None, to)?]))
}
