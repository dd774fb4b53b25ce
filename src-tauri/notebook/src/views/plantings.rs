//! Plantings as the views hold them.

use std::collections::BTreeSet;

use chrono::NaiveDate;
use ripening::heat::MaturityClass;
use rusqlite::{Connection, OptionalExtension, Row};
use uuid::Uuid;

use super::hybrids::read_maturity;
use crate::error::StoreError;
use crate::fact::ChangeName;
use crate::views::moved;
use kinds::{Area, Purpose};

/// A planting with the names it goes by.
#[derive(Debug, Clone, PartialEq)]
pub struct Planting {
    /// Id of the planting.
    pub id: Uuid,
    /// Its name.
    pub name: String,
    /// Name of its farm.
    pub farm: Option<String>,
    /// Name of its field.
    pub field: Option<String>,
    /// Name of its hybrid.
    pub hybrid: Option<String>,
    /// Date of planting.
    pub planted_on: Option<NaiveDate>,
    /// What it is grown for.
    pub purpose: Purpose,
    /// Its area.
    pub area: Option<Area>,
    /// Name of the weather station chosen for it.
    pub station: Option<String>,
    /// Date of half bloom.
    pub half_bloom_on: Option<NaiveDate>,
    /// Id of its hybrid.
    pub hybrid_id: Option<Uuid>,
    /// The hybrid's maturity class.
    pub maturity: Option<MaturityClass>,
    /// The station chosen for its field.
    pub field_station: Option<String>,
    /// Heat set chosen for it.
    pub heat_set: Option<String>,
    /// The heat set chosen for its hybrid.
    pub hybrid_heat_set: Option<String>,
    /// Whether it was removed.
    pub removed: bool,
}

const COLUMNS: &str = "planting.id, planting.name, coalesce(of_field.name, farm.name), field.name,
    hybrid.name, planting.planted_on, planting.purpose, planting.area_size, planting.area_unit,
    planting.removed, planting.station, planting.half_bloom_on, planting.hybrid,
    hybrid.maturity, field.station, planting.heat_set, hybrid.heat_set
    FROM planting
    LEFT JOIN field ON field.id = planting.field
    LEFT JOIN farm AS of_field ON of_field.id = field.farm
    LEFT JOIN farm ON farm.id = planting.farm
    LEFT JOIN hybrid ON hybrid.id = planting.hybrid";

/// All plantings that are not removed and shown as themselves, by name.
pub fn all(db: &Connection) -> Result<Vec<Planting>, StoreError> {
    let mut statement = db.prepare_cached(&format!(
        "SELECT {COLUMNS} WHERE planting.name IS NOT NULL AND NOT planting.removed
           AND planting.shown_as IS NULL
         ORDER BY planting.name, planting.id"
    ))?;
    let rows = statement.query_map([], read)?;
    Ok(rows.collect::<Result<_, _>>()?)
}

/// One planting, removed or not.
pub fn one(db: &Connection, id: Uuid) -> Result<Option<Planting>, StoreError> {
    let mut statement = db.prepare_cached(&format!(
        "SELECT {COLUMNS} WHERE planting.id = ?1 AND planting.name IS NOT NULL"
    ))?;
    Ok(statement.query_row([id], read).optional()?)
}

/// The planting that this one is shown as: itself, unless it was merged.
pub fn shown(db: &Connection, id: Uuid) -> Result<Uuid, StoreError> {
    let merged: Option<Option<Uuid>> = db
        .prepare_cached("SELECT shown_as FROM planting WHERE id = ?1")?
        .query_row([id], |row| row.get(0))
        .optional()?;
    Ok(merged.flatten().unwrap_or(id))
}

/// The plantings that are shown as this one, by name.
pub fn shown_as(db: &Connection, id: Uuid) -> Result<Vec<Planting>, StoreError> {
    let mut statement = db.prepare_cached(&format!(
        "SELECT {COLUMNS} WHERE planting.shown_as = ?1 AND planting.name IS NOT NULL
         ORDER BY planting.name, planting.id"
    ))?;
    let rows = statement.query_map([id], read)?;
    Ok(rows.collect::<Result<_, _>>()?)
}

/// The planting of this name that is not removed, and not shown as a removed one.
pub fn by_name(db: &Connection, name: &str) -> Result<Option<Uuid>, StoreError> {
    let mut statement = db.prepare_cached(
        "SELECT id FROM planting WHERE name = ?1 AND NOT removed
           AND NOT EXISTS (SELECT 1 FROM planting AS shown
                           WHERE shown.id = planting.shown_as AND shown.removed)
         ORDER BY id LIMIT 1",
    )?;
    Ok(statement.query_row([name], |row| row.get(0)).optional()?)
}

/// The changes whose value of a field nobody has replaced: the one that
/// stands, and those in conflict with it.
pub fn standing(db: &Connection, id: Uuid, field: &str) -> Result<Vec<ChangeName>, StoreError> {
    let mut statement = db.prepare_cached(
        "SELECT device, seq, replaces FROM field_value WHERE id = ?1 AND field = ?2
         ORDER BY hlc, device, seq",
    )?;
    let mut told = Vec::new();
    let mut replaced: Vec<(Uuid, ChangeName)> = Vec::new();
    let mut rows = statement.query((id, field))?;
    while let Some(row) = rows.next()? {
        let by: Uuid = row.get(0)?;
        told.push(ChangeName {
            device: by,
            seq: row.get(1)?,
        });
        let named =
            serde_json::from_str::<Vec<ChangeName>>(row.get_ref(2)?.as_str().unwrap_or("[]"))?;
        replaced.extend(named.into_iter().map(|named| (by, named)));
    }
    if !replaced.is_empty() {
        let moved = moved::all(db)?;
        let candidates: BTreeSet<ChangeName> = told.iter().copied().collect();
        let replaced: BTreeSet<ChangeName> = replaced
            .into_iter()
            .map(|(by, named)| moved.follow(by, named, &candidates))
            .collect();
        told.retain(|told| !replaced.contains(told));
    }
    Ok(told)
}

fn read(row: &Row) -> rusqlite::Result<Planting> {
    let purpose: Option<String> = row.get(6)?;
    let size: Option<f64> = row.get(7)?;
    let unit: Option<String> = row.get(8)?;
    Ok(Planting {
        id: row.get(0)?,
        name: row.get(1)?,
        farm: row.get(2)?,
        field: row.get(3)?,
        hybrid: row.get(4)?,
        planted_on: row.get(5)?,
        purpose: match purpose.as_deref() {
            Some("silage") => Purpose::Silage,
            Some("seed") => Purpose::Seed,
            _ => Purpose::Grain,
        },
        area: match (size, unit.as_deref()) {
            (Some(size), Some("acres")) => Some(Area::Acres(size)),
            (Some(size), Some("hectares")) => Some(Area::Hectares(size)),
            _ => None,
        },
        removed: row.get(9)?,
        station: row.get(10)?,
        half_bloom_on: row.get(11)?,
        hybrid_id: row.get(12)?,
        maturity: read_maturity(row.get(13)?),
        field_station: row.get(14)?,
        heat_set: row.get(15)?,
        hybrid_heat_set: row.get(16)?,
    })
}
