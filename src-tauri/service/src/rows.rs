//! Values of a row, as one change gives them.

use std::collections::BTreeMap;

use rusqlite::Connection;
use serde_json::Value;
use uuid::Uuid;

use crate::Problem;
use notebook::StoreError;
use notebook::fact::{Act, Body, Fact, Field, Row};
use notebook::notebook::Writer;
use notebook::views::plantings;

/// A fact that gives values to a row and names the ones that they replace. `walk` is
/// that of a row of a walk.
pub(crate) fn giving(
    db: &Connection,
    row: Row,
    id: Uuid,
    walk: Option<Uuid>,
    to: BTreeMap<Field, Value>,
) -> Result<Fact, StoreError> {
    giving_named(db, row, id, walk, named(to))
}

/// The same for fields by their names in the log, which a newer version may have given.
pub(crate) fn giving_named(
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

/// A fact that gives values to a row and replaces nothing that anybody saw.
pub(crate) fn first(row: Row, id: Uuid, walk: Option<Uuid>, to: BTreeMap<Field, Value>) -> Fact {
    Fact::Set {
        row,
        id,
        walk,
        to: named(to),
        replaces: BTreeMap::new(),
    }
}

fn named(values: BTreeMap<Field, Value>) -> BTreeMap<String, Value> {
    let name = |(field, value): (Field, Value)| (field.name().to_owned(), value);
    values.into_iter().map(name).collect()
}

/// Records a change that gives values to a row.
pub(crate) fn set(
    writer: &mut Writer,
    act: Act,
    row: Row,
    id: Uuid,
    to: BTreeMap<Field, Value>,
) -> Result<(), Problem> {
    let fact = giving(writer.db(), row, id, None, to)?;
    Ok(writer.record(act, &Body::of(vec![fact]))?)
}

/// A change that sets one yes-or-no field of a row.
pub(crate) fn set_flag(
    db: &Connection,
    row: Row,
    id: Uuid,
    field: Field,
    value: bool,
) -> Result<Body, Problem> {
    let to = BTreeMap::from([(field, Value::Bool(value))]);
    Ok(Body::of(vec![giving(db, row, id, None, to)?]))
}
