//! Rows that are edited field by field: for each field the latest value
//! stands, and every other one is kept.

use std::collections::BTreeMap;

use ripening::heat::{HeatScale, MaturityClass};
use rusqlite::types::ToSql;
use rusqlite::{Connection, OptionalExtension, params};
use serde_json::Value;
use uuid::Uuid;

use super::{search, told};
use crate::error::StoreError;
use crate::fact::{Row, Told, bounds};
use crate::log::Stamp;
use crate::views::merged::MERGED_INTO;
use kinds::{Area, Place, Purpose};

/// The fields that have a column, by row.
const SHOWN: [(Row, &[&str]); 9] = [
    (Row::Farm, &["name", "removed"]),
    (
        Row::Field,
        &["name", "farm", "outline", "station", "removed"],
    ),
    (Row::Hybrid, &["name", "maturity", "heat_set", "removed"]),
    (
        Row::Planting,
        &[
            "name",
            "farm",
            "field",
            "hybrid",
            "planted_on",
            "half_bloom_on",
            "purpose",
            "area",
            "station",
            "outline",
            "heat_set",
            MERGED_INTO,
            "removed",
        ],
    ),
    (
        Row::Walk,
        &["planting", "walked_on", "scout", "finished", "removed"],
    ),
    (Row::Stop, &["number", "place", "removed"]),
    (Row::Photo, &["caption", "removed"]),
    (Row::HeatSet, &["scale", "removed"]),
    (Row::WholeNotebook, &["heat_set"]),
];

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
    replaces: &BTreeMap<String, Vec<Told>>,
    gathered: &mut told::Told,
) -> Result<(), StoreError> {
    let made = db
        .prepare_cached(match row {
            Row::Farm => "INSERT OR IGNORE INTO farm (id) VALUES (?1)",
            Row::Field => "INSERT OR IGNORE INTO field (id) VALUES (?1)",
            Row::Hybrid => "INSERT OR IGNORE INTO hybrid (id) VALUES (?1)",
            Row::Planting => "INSERT OR IGNORE INTO planting (id) VALUES (?1)",
            Row::Walk => "INSERT OR IGNORE INTO walk (id) VALUES (?1)",
            Row::Stop => "INSERT OR IGNORE INTO stop (id) VALUES (?1)",
            Row::Photo => "INSERT OR IGNORE INTO photo (id) VALUES (?1)",
            Row::HeatSet => "INSERT OR IGNORE INTO heat_set (id) VALUES (?1)",
            Row::WholeNotebook => "INSERT OR IGNORE INTO whole_notebook (id) VALUES (?1)",
        })?
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
    gathered.merges |= to.contains_key(MERGED_INTO);
    gathered.named |= to.contains_key("name") || (made && row == Row::Planting);
    if told_before {
        lay_over(db, row, id)?;
    }
    for field in to.keys() {
        let Some(stands) = standing(db, id, field)? else {
            continue;
        };
        let shown_in = SHOWN
            .iter()
            .filter(|(_, fields)| fields.contains(&field.as_str()));
        for (of, _) in shown_in {
            show(db, *of, id, field, &stands)?;
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
    for (_, fields) in SHOWN.iter().filter(|(of, _)| *of == row) {
        for field in *fields {
            if let Some(stands) = standing(db, id, field)? {
                show(db, row, id, field, &stands)?;
            }
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

/// Shows a value in a row, and where it is a name in the index of words.
fn show(db: &Connection, row: Row, id: Uuid, field: &str, value: &Value) -> Result<(), StoreError> {
    // Told for a row of another kind, it was held to other bounds.
    let fits = bounds::check_field(row, field, value).is_ok();
    put(db, row, id, field, if fits { value } else { &Value::Null })?;
    match (row, field) {
        (Row::Farm, "name") => search::name(db, "farm", id),
        (Row::Field, "name") => search::name(db, "field", id),
        (Row::Hybrid, "name") => search::name(db, "hybrid", id),
        (Row::Planting, "name") => search::name(db, "planting", id),
        (Row::Walk, "scout") => search::name(db, "walk", id),
        _ => Ok(()),
    }
}

/// Puts a value into the row's column. A field that this version does not know
/// stays in `field_value` alone; a value that cannot be is shown as none.
fn put(db: &Connection, row: Row, id: Uuid, field: &str, value: &Value) -> Result<(), StoreError> {
    let text = || value.as_str().map(str::to_owned);
    let flag = || value.as_bool().unwrap_or(false);
    let other = || value.as_str().and_then(|text| Uuid::try_parse(text).ok());
    let date = || {
        value
            .as_str()
            .and_then(|text| text.parse::<chrono::NaiveDate>().ok())
    };
    // As text: an outline is read where it is used.
    let shape = || value.is_object().then(|| value.to_string());
    let one = |sql: &str, value: &dyn ToSql| -> Result<(), StoreError> {
        db.prepare_cached(sql)?.execute(params![id, value])?;
        Ok(())
    };
    match (row, field) {
        (Row::Farm, "name") => one("UPDATE farm SET name = ?2 WHERE id = ?1", &text()),
        (Row::Farm, "removed") => one("UPDATE farm SET removed = ?2 WHERE id = ?1", &flag()),
        (Row::Field, "name") => one("UPDATE field SET name = ?2 WHERE id = ?1", &text()),
        (Row::Field, "farm") => one("UPDATE field SET farm = ?2 WHERE id = ?1", &other()),
        (Row::Field, "outline") => one("UPDATE field SET outline = ?2 WHERE id = ?1", &shape()),
        (Row::Field, "removed") => one("UPDATE field SET removed = ?2 WHERE id = ?1", &flag()),
        (Row::Hybrid, "name") => one("UPDATE hybrid SET name = ?2 WHERE id = ?1", &text()),
        (Row::Field, "station") => one("UPDATE field SET station = ?2 WHERE id = ?1", &text()),
        (Row::Hybrid, "maturity") => {
            let class = serde_json::from_value::<MaturityClass>(value.clone()).ok();
            one(
                "UPDATE hybrid SET maturity = ?2 WHERE id = ?1",
                &class.and_then(|_| text()),
            )
        }
        (Row::Hybrid, "heat_set") => one("UPDATE hybrid SET heat_set = ?2 WHERE id = ?1", &text()),
        (Row::Planting, "heat_set") => {
            one("UPDATE planting SET heat_set = ?2 WHERE id = ?1", &text())
        }
        (Row::WholeNotebook, "heat_set") => one(
            "UPDATE whole_notebook SET heat_set = ?2 WHERE id = ?1",
            &text(),
        ),
        (Row::HeatSet, "scale") => {
            let scale = serde_json::from_value::<HeatScale>(value.clone()).ok();
            one(
                "UPDATE heat_set SET scale = ?2 WHERE id = ?1",
                &scale.map(|_| value.to_string()),
            )
        }
        (Row::HeatSet, "removed") => one("UPDATE heat_set SET removed = ?2 WHERE id = ?1", &flag()),
        (Row::Hybrid, "removed") => one("UPDATE hybrid SET removed = ?2 WHERE id = ?1", &flag()),
        (Row::Planting, "name") => one("UPDATE planting SET name = ?2 WHERE id = ?1", &text()),
        (Row::Planting, "farm") => one("UPDATE planting SET farm = ?2 WHERE id = ?1", &other()),
        (Row::Planting, "field") => one("UPDATE planting SET field = ?2 WHERE id = ?1", &other()),
        (Row::Planting, "hybrid") => one("UPDATE planting SET hybrid = ?2 WHERE id = ?1", &other()),
        (Row::Planting, "planted_on") => {
            one("UPDATE planting SET planted_on = ?2 WHERE id = ?1", &date())
        }
        (Row::Planting, "half_bloom_on") => one(
            "UPDATE planting SET half_bloom_on = ?2 WHERE id = ?1",
            &date(),
        ),
        (Row::Planting, "purpose") => {
            let purpose = serde_json::from_value::<Purpose>(value.clone()).ok();
            one(
                "UPDATE planting SET purpose = ?2 WHERE id = ?1",
                &purpose.and_then(|_| text()),
            )
        }
        (Row::Planting, "area") => {
            let (size, unit) = match serde_json::from_value::<Area>(value.clone()).ok() {
                Some(Area::Acres(size)) => (Some(size), Some("acres")),
                Some(Area::Hectares(size)) => (Some(size), Some("hectares")),
                None => (None, None),
            };
            db.prepare_cached("UPDATE planting SET area_size = ?2, area_unit = ?3 WHERE id = ?1")?
                .execute(params![id, size, unit])?;
            Ok(())
        }
        (Row::Planting, "station") => {
            one("UPDATE planting SET station = ?2 WHERE id = ?1", &text())
        }
        (Row::Planting, "outline") => {
            one("UPDATE planting SET outline = ?2 WHERE id = ?1", &shape())
        }
        (Row::Planting, MERGED_INTO) => one(
            "UPDATE planting SET merged_into = ?2 WHERE id = ?1",
            &other(),
        ),
        (Row::Planting, "removed") => {
            one("UPDATE planting SET removed = ?2 WHERE id = ?1", &flag())
        }
        (Row::Walk, "planting") => one("UPDATE walk SET planting = ?2 WHERE id = ?1", &other()),
        (Row::Walk, "walked_on") => one("UPDATE walk SET walked_on = ?2 WHERE id = ?1", &date()),
        (Row::Walk, "scout") => one("UPDATE walk SET scout = ?2 WHERE id = ?1", &text()),
        (Row::Walk, "finished") => one("UPDATE walk SET finished = ?2 WHERE id = ?1", &flag()),
        (Row::Walk, "removed") => one("UPDATE walk SET removed = ?2 WHERE id = ?1", &flag()),
        (Row::Stop, "number") => {
            let number = value.as_u64().and_then(|number| u32::try_from(number).ok());
            one("UPDATE stop SET number = ?2 WHERE id = ?1", &number)
        }
        (Row::Stop, "place") => {
            let place = serde_json::from_value::<Place>(value.clone()).ok();
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
        (Row::Photo, "caption") => one("UPDATE photo SET caption = ?2 WHERE id = ?1", &text()),
        (Row::Photo, "removed") => one("UPDATE photo SET removed = ?2 WHERE id = ?1", &flag()),
        (Row::Stop, "removed") => one("UPDATE stop SET removed = ?2 WHERE id = ?1", &flag()),
        _ => Ok(()),
    }
}
