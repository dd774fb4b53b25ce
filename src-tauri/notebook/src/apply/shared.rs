//! Rows that are edited field by field: for each field the latest value
//! stands, and every other one is kept.

use std::collections::BTreeMap;

use chrono::NaiveDate;
use rusqlite::types::ToSql;
use rusqlite::{Connection, OptionalExtension, params};
use serde_json::Value;
use uuid::Uuid;

use super::{batch, search};
use crate::error::StoreError;
use crate::fact::fields::{Holds, fields, held, read};
use crate::fact::{ChangeName, Field, Row};
use crate::log::Stamp;
use kinds::{Area, Place};

/// Values were given to fields of a row.
///
/// Values go by the row's id and the field alone. An id that was told for rows of two
/// kinds, which no honest device does, shows the same value in both, so that the order
/// of arrival makes no difference then either.
pub(super) fn set(
    db: &Connection,
    stamp: Stamp,
    row: Row,
    id: Uuid,
    to: &BTreeMap<String, Value>,
    replaces: &BTreeMap<String, Vec<ChangeName>>,
    gathered: &mut batch::Batch,
) -> Result<(), StoreError> {
    let made = db
        .prepare_cached(&format!(
            "INSERT OR IGNORE INTO {} (id) VALUES (?1)",
            row.table()
        ))?
        .execute([id])?
        == 1;
    let told_before = made && is_told(db, id)?;
    let none = Vec::new();
    for (field, value) in to {
        db.prepare_cached(
            "INSERT OR REPLACE INTO field_value (id, field, hlc, device, seq, value, replaces)
             VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7)",
        )?
        .execute(params![
            id,
            field,
            stamp.hlc.number(),
            stamp.device,
            stamp.seq,
            serde_json::to_string(value)?,
            serde_json::to_string(replaces.get(field).unwrap_or(&none))?
        ])?;
    }
    gathered.merges |= to.contains_key(Field::MergedInto.name());
    gathered.named |= to.contains_key(Field::Name.name()) || (made && row == Row::Planting);
    if told_before {
        lay_over(db, row, id)?;
    }
    for field in to.keys() {
        let Some(stands) = standing(db, id, field)? else {
            continue;
        };
        for of in Row::ALL {
            if let Some((field, holds)) = held(of, field) {
                show(db, of, id, field, holds, &stands)?;
            }
        }
    }
    Ok(())
}

/// Whether any field of an id was given a value.
pub(super) fn is_told(db: &Connection, id: Uuid) -> Result<bool, StoreError> {
    Ok(db
        .prepare_cached("SELECT 1 FROM field_value WHERE id = ?1 LIMIT 1")?
        .exists([id])?)
}

/// Lays the values that stand over a row whose making has just arrived.
pub(super) fn lay_over(db: &Connection, row: Row, id: Uuid) -> Result<(), StoreError> {
    for (field, holds) in fields(row) {
        if let Some(stands) = standing(db, id, field.name())? {
            show(db, row, id, *field, *holds, &stands)?;
        }
    }
    Ok(())
}

/// The value of a field that stands, the latest; none where none was told.
fn standing(db: &Connection, id: Uuid, field: &str) -> Result<Option<Value>, StoreError> {
    let value: Option<String> = db
        .prepare_cached(
            "SELECT value FROM field_value WHERE id = ?1 AND field = ?2
             ORDER BY hlc DESC, device DESC, seq DESC LIMIT 1",
        )?
        .query_row(params![id, field], |row| row.get(0))
        .optional()?;
    Ok(value.as_deref().map(serde_json::from_str).transpose()?)
}

/// Shows a value in a row, and where it is a name in the index of words. A value that
/// cannot be, because it was told for a row of another kind, is shown as none.
fn show(
    db: &Connection,
    row: Row,
    id: Uuid,
    field: Field,
    holds: Holds,
    value: &Value,
) -> Result<(), StoreError> {
    let fits = holds.admits(value);
    put(
        db,
        row,
        id,
        field,
        holds,
        if fits { value } else { &Value::Null },
    )?;
    match (row, field) {
        (Row::Farm | Row::Field | Row::Hybrid | Row::Planting, Field::Name)
        | (Row::Walk, Field::Scout) => search::name(db, row.table(), id),
        _ => Ok(()),
    }
}

/// Puts a value into the columns of its field.
fn put(
    db: &Connection,
    row: Row,
    id: Uuid,
    field: Field,
    holds: Holds,
    value: &Value,
) -> Result<(), StoreError> {
    let one = |value: &dyn ToSql| -> Result<(), StoreError> {
        let (table, column) = (row.table(), field.name());
        db.prepare_cached(&format!("UPDATE {table} SET {column} = ?2 WHERE id = ?1"))?
            .execute(params![id, value])?;
        Ok(())
    };
    match holds {
        Holds::Flag => one(&value.as_bool().unwrap_or(false)),
        Holds::Id | Holds::IdOrNone => one(&read::<Uuid>(value)),
        Holds::Number => one(&read::<u32>(value)),
        // As JSON: it is read where it is used.
        Holds::OutlineOrNone | Holds::Scale => one(&(!value.is_null()).then(|| value.to_string())),
        Holds::AreaOrNone => {
            let (size, unit) = match read::<Area>(value) {
                Some(Area::Acres(size)) => (Some(size), Some("acres")),
                Some(Area::Hectares(size)) => (Some(size), Some("hectares")),
                None => (None, None),
            };
            db.prepare_cached("UPDATE planting SET area_size = ?2, area_unit = ?3 WHERE id = ?1")?
                .execute(params![id, size, unit])?;
            Ok(())
        }
        Holds::PlaceOrNone => {
            let place = read::<Place>(value);
            db.prepare_cached(
                "UPDATE stop SET latitude = ?2, longitude = ?3, accuracy_m = ?4, age_s = ?5
                 WHERE id = ?1",
            )?
            .execute(params![
                id,
                place.map(|place| place.latitude),
                place.map(|place| place.longitude),
                place.and_then(|place| place.accuracy_m),
                place.and_then(|place| place.age_s)
            ])?;
            Ok(())
        }
        Holds::DayOrNone | Holds::ShownDay => {
            let day = value
                .as_str()
                .and_then(|text| text.parse::<NaiveDate>().ok());
            one(&day)
        }
        Holds::Name
        | Holds::NameOrNone
        | Holds::ShortOrNone
        | Holds::NoteOrNone
        | Holds::PurposeOrNone
        | Holds::MaturityOrNone => one(&value.as_str()),
    }
}
