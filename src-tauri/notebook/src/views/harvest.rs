//! What was seen of ripe grain, and the terms of its harvest, as the views hold
//! them.

use std::collections::BTreeMap;

use chrono::{DateTime, FixedOffset, NaiveDate};
use rusqlite::{Connection, OptionalExtension, Row, params};
use serde_json::Value;
use uuid::Uuid;

use crate::error::StoreError;
use crate::fact::Seen;
use crate::log::instant;

/// An observation.
#[derive(Debug, Clone, PartialEq)]
pub struct Observed {
    /// Id of the observation.
    pub id: Uuid,
    /// The planting it is of.
    pub planting: Uuid,
    /// What was seen, as corrected since.
    pub seen: Seen,
    /// When it was recorded, by the clock of its device.
    pub recorded_at: DateTime<FixedOffset>,
    /// Whether it was corrected.
    pub corrected: bool,
    /// Whether it was removed.
    pub removed: bool,
}

const OBSERVED: &str = "SELECT id, planting, observed_on, what, scout, note, recorded_ms,
    offset_min, corrected, removed FROM observed
    WHERE told_hlc IS NOT NULL AND planting IS NOT NULL AND observed_on IS NOT NULL";

/// The observations of a planting, and of those shown as it, that are not
/// removed, by day.
pub fn of_planting(db: &Connection, planting: Uuid) -> Result<Vec<Observed>, StoreError> {
    let mut statement = db.prepare_cached(&format!(
        "{OBSERVED} AND NOT removed AND planting IN
           (SELECT ?1 UNION SELECT id FROM planting WHERE shown_as = ?1)
         ORDER BY observed_on, told_hlc, id"
    ))?;
    let rows = statement.query_map([planting], read)?;
    let rows: Vec<Option<Observed>> = rows.collect::<Result<_, _>>()?;
    Ok(rows.into_iter().flatten().collect())
}

/// One observation, removed or not.
pub fn one(db: &Connection, id: Uuid) -> Result<Option<Observed>, StoreError> {
    let mut statement = db.prepare_cached(&format!("{OBSERVED} AND id = ?1"))?;
    Ok(statement.query_row([id], read).optional()?.flatten())
}

/// The last date, up to `as_of`, on which a planting was cut.
pub fn cut_on(
    db: &Connection,
    planting: Uuid,
    as_of: NaiveDate,
) -> Result<Option<NaiveDate>, StoreError> {
    Ok(of_planting(db, planting)?
        .into_iter()
        .filter(|row| row.seen.what == crate::fact::Observation::Cut && row.seen.on <= as_of)
        .map(|row| row.seen.on)
        .next_back())
}

/// The values that stand of one planting's terms, or (nil) of those for all;
/// what was taken back is left out.
pub fn terms(db: &Connection, planting: Uuid) -> Result<BTreeMap<String, Value>, StoreError> {
    // The later of a term's values comes later and stands.
    let mut statement = db.prepare_cached(
        "SELECT name, value FROM harvest_term WHERE planting = ?1
         ORDER BY name, hlc, device, seq",
    )?;
    let mut standing = BTreeMap::new();
    let mut rows = statement.query(params![planting])?;
    while let Some(row) = rows.next()? {
        let value: Value = serde_json::from_str(row.get_ref(1)?.as_str().unwrap_or("null"))?;
        standing.insert(row.get(0)?, value);
    }
    standing.retain(|_, value| !value.is_null());
    Ok(standing)
}

/// `None` where this version cannot read what was seen.
fn read(row: &Row) -> rusqlite::Result<Option<Observed>> {
    let Ok(what) = serde_json::from_str(row.get_ref(3)?.as_str().unwrap_or_default()) else {
        return Ok(None);
    };
    Ok(Some(Observed {
        id: row.get(0)?,
        planting: row.get(1)?,
        seen: Seen {
            on: row.get(2)?,
            what,
            scout: row.get::<_, Option<String>>(4)?.unwrap_or_default(),
            note: row.get(5)?,
        },
        recorded_at: instant(
            row.get::<_, Option<i64>>(6)?.unwrap_or_default(),
            row.get::<_, Option<i32>>(7)?.unwrap_or_default(),
        ),
        corrected: row.get(8)?,
        removed: row.get(9)?,
    }))
}
