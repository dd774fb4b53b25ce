//! Walks, stops and heads as the views hold them.

use std::collections::BTreeMap;

use chrono::{DateTime, FixedOffset, NaiveDate};
use ripening::{Flag, Head, Reading, Share};
use rusqlite::{Connection, OptionalExtension, Row, params};
use uuid::Uuid;

use crate::error::StoreError;
use crate::fact::{Act, HeadRecord};
use crate::log::instant;
use kinds::Place;
use kinds::flag_from_word;

/// A walk.
#[derive(Debug, Clone, PartialEq)]
pub struct Walk {
    /// Id of the walk.
    pub id: Uuid,
    /// The planting that was walked.
    pub planting: Uuid,
    /// Date of the walk.
    pub walked_on: NaiveDate,
    /// Who walked; empty where nobody said.
    pub scout: String,
    /// Whether the walk was finished.
    pub finished: bool,
    /// Whether it was removed.
    pub removed: bool,
}

/// A stop.
#[derive(Debug, Clone, PartialEq)]
pub struct Stop {
    /// Id of the stop.
    pub id: Uuid,
    /// The walk it is a stop of.
    pub walk: Uuid,
    /// Its number on the walk, from 1.
    pub number: u32,
    /// What a file calls it.
    pub label: Option<String>,
    /// Where it was.
    pub place: Option<Place>,
    /// Whether it was removed.
    pub removed: bool,
}

/// A head.
#[derive(Debug, Clone, PartialEq)]
pub struct HeadRow {
    /// Id of the head.
    pub id: Uuid,
    /// The stop at which it was pulled.
    pub stop: Uuid,
    /// What was read, as corrected since.
    pub said: HeadRecord,
    /// When it was recorded, by the clock of its device.
    pub recorded_at: DateTime<FixedOffset>,
    /// Whether it was corrected.
    pub corrected: bool,
    /// Whether it was removed.
    pub removed: bool,
}

// A walk belongs to the planting that its own is shown as.
const WALK: &str = "SELECT walk.id, coalesce(planting.shown_as, walk.planting) AS of,
      walk.walked_on, walk.scout, walk.finished, walk.removed
    FROM walk LEFT JOIN planting ON planting.id = walk.planting
    WHERE walk.made_hlc IS NOT NULL AND walk.planting IS NOT NULL AND walk.walked_on IS NOT NULL";
/// Walks of planting `?1`, and of those shown as it.
const OF_PLANTING: &str =
    "walk.planting IN (SELECT ?1 UNION SELECT id FROM planting WHERE shown_as = ?1)";
// A stop that was removed while another device read a head or took a photo at it is
// shown all the same: no removal hides what it did not know of.
const STOP: &str = "SELECT stop.id, stop.walk, stop.number, stop.latitude, stop.longitude,
      stop.accuracy_m, stop.removed AND NOT EXISTS (
          SELECT 1 FROM head
          WHERE head.stop = stop.id AND head.read_hlc IS NOT NULL AND NOT head.removed
      ) AND NOT EXISTS (
          SELECT 1 FROM photo
          WHERE photo.walk = stop.walk AND photo.stop = stop.id AND photo.head IS NULL
            AND photo.made_hlc IS NOT NULL AND NOT photo.removed
      ) AS hidden, stop.label, stop.age_s
    FROM stop WHERE stop.made_hlc IS NOT NULL";
/// Heads of stop `?1` of walk `?2`, and photos of it.
const HELD_BY_STOP: &str = "SELECT 1 FROM head
    WHERE head.stop = ?1 AND head.read_hlc IS NOT NULL AND NOT head.removed
    UNION ALL
    SELECT 1 FROM photo
    WHERE photo.walk = ?2 AND photo.stop = ?1 AND photo.head IS NULL
      AND photo.made_hlc IS NOT NULL AND NOT photo.removed";
const HEAD: &str = "SELECT head.id, head.stop, head.reading, head.share, head.flags, head.note,
    head.recorded_ms, head.offset_min, head.corrected, head.removed FROM head
    WHERE read_hlc IS NOT NULL";

/// One walk, removed or not.
pub fn walk(db: &Connection, id: Uuid) -> Result<Option<Walk>, StoreError> {
    let mut statement = db.prepare_cached(&format!("{WALK} AND walk.id = ?1"))?;
    Ok(statement.query_row([id], read_walk).optional()?)
}

/// The walks of a planting, and of those shown as it, that are not removed, the
/// earliest first.
pub fn of_planting(db: &Connection, planting: Uuid) -> Result<Vec<Walk>, StoreError> {
    let mut statement = db.prepare_cached(&format!(
        "{WALK} AND NOT walk.removed AND {OF_PLANTING} ORDER BY walk.walked_on, walk.id"
    ))?;
    let rows = statement.query_map([planting], read_walk)?;
    Ok(rows.collect::<Result<_, _>>()?)
}

/// Those of them that were walked on a day.
pub fn of_planting_on(
    db: &Connection,
    planting: Uuid,
    day: NaiveDate,
) -> Result<Vec<Walk>, StoreError> {
    let mut statement = db.prepare_cached(&format!(
        "{WALK} AND NOT walk.removed AND {OF_PLANTING} AND walk.walked_on = ?2 ORDER BY walk.id"
    ))?;
    let rows = statement.query_map(params![planting, day], read_walk)?;
    Ok(rows.collect::<Result<_, _>>()?)
}

/// The walks of all plantings that are not removed, by planting, the earliest
/// first.
pub fn by_planting(db: &Connection) -> Result<BTreeMap<Uuid, Vec<Walk>>, StoreError> {
    let mut statement = db.prepare_cached(&format!(
        "{WALK} AND NOT walk.removed ORDER BY of, walk.walked_on, walk.id"
    ))?;
    let mut walks: BTreeMap<Uuid, Vec<Walk>> = BTreeMap::new();
    for walk in statement.query_map([], read_walk)? {
        let walk = walk?;
        walks.entry(walk.planting).or_default().push(walk);
    }
    Ok(walks)
}

/// One stop, removed or not.
pub fn stop(db: &Connection, id: Uuid) -> Result<Option<Stop>, StoreError> {
    let mut statement = db.prepare_cached(&format!("{STOP} AND stop.id = ?1"))?;
    Ok(statement.query_row([id], read_stop).optional()?)
}

/// The stops of a walk that are not removed, in the order walked.
///
/// Of a finished walk the last stops at which nothing was found are left out: they
/// were opened, and then the walk was over. They are there again where it is opened
/// again, or where another device read a head at one.
pub fn stops(db: &Connection, walk: Uuid) -> Result<Vec<Stop>, StoreError> {
    let mut statement = db.prepare_cached(&format!(
        "{STOP} AND stop.walk = ?1 AND NOT hidden ORDER BY stop.number, stop.label, stop.id"
    ))?;
    let rows = statement.query_map([walk], read_stop)?;
    let mut stops: Vec<Stop> = rows.collect::<Result<_, _>>()?;
    // A walk has at least its first stop.
    if stops.len() > 1
        && db
            .prepare_cached("SELECT 1 FROM walk WHERE id = ?1 AND finished")?
            .exists([walk])?
    {
        while let [_, .., last] = stops.as_slice()
            && !holds_something(db, last.id, walk)?
        {
            stops.pop();
        }
    }
    Ok(stops)
}

/// One head, removed or not.
pub fn head(db: &Connection, id: Uuid) -> Result<Option<HeadRow>, StoreError> {
    let mut statement = db.prepare_cached(&format!("{HEAD} AND id = ?1"))?;
    Ok(statement.query_row([id], read_head).optional()?.flatten())
}

/// What the notebook holds of a head that a file names.
pub enum Held {
    /// Nothing.
    No,
    /// The head, removed or not.
    Yes,
    /// The head, set aside by an import because its own was cut off.
    SetAsideByImport,
}

/// Whether a head of this id was read.
pub fn held_head(db: &Connection, id: Uuid) -> Result<Held, StoreError> {
    let set_aside: Option<bool> = db
        .prepare_cached(
            "SELECT removed AND EXISTS (SELECT 1 FROM change
               WHERE device = removed_device AND seq = removed_seq AND kind = ?2)
             FROM head WHERE id = ?1 AND read_hlc IS NOT NULL",
        )?
        .query_row(params![id, Act::FileImported.name()], |row| row.get(0))
        .optional()?;
    Ok(match set_aside {
        None => Held::No,
        Some(false) => Held::Yes,
        Some(true) => Held::SetAsideByImport,
    })
}

/// Whether a stop is set aside by an import, because its own was cut off.
pub fn stop_removed_by_import(db: &Connection, id: Uuid) -> Result<bool, StoreError> {
    let by: Option<String> = db
        .prepare_cached(
            "SELECT change.kind FROM stop
             JOIN field_value ON field_value.id = stop.id AND field_value.field = 'removed'
             JOIN change ON change.device = field_value.device AND change.seq = field_value.seq
             WHERE stop.id = ?1 AND stop.removed
             ORDER BY field_value.hlc DESC, field_value.device DESC, field_value.seq DESC LIMIT 1",
        )?
        .query_row([id], |row| row.get(0))
        .optional()?;
    Ok(by.is_some_and(|kind| kind == Act::FileImported.name()))
}

/// Whether there are stops of a walk, which itself may not be made.
pub fn has_stops(db: &Connection, walk: Uuid) -> Result<bool, StoreError> {
    let mut statement =
        db.prepare_cached("SELECT 1 FROM stop WHERE walk = ?1 AND made_hlc IS NOT NULL")?;
    Ok(statement.exists([walk])?)
}

/// Heads of a walk that a device read and that are not removed.
pub fn heads_read_by(db: &Connection, walk: Uuid, device: Uuid) -> Result<Vec<Uuid>, StoreError> {
    let mut statement = db.prepare_cached(
        "SELECT head.id FROM stop JOIN head ON head.stop = stop.id
         WHERE stop.walk = ?1 AND head.read_device = ?2 AND NOT head.removed
         ORDER BY head.id",
    )?;
    let rows = statement.query_map(params![walk, device], |row| row.get(0))?;
    Ok(rows.collect::<Result<_, _>>()?)
}

/// Stops of a walk that a device made and that are not removed.
pub fn stops_made_by(db: &Connection, walk: Uuid, device: Uuid) -> Result<Vec<Uuid>, StoreError> {
    let mut statement = db.prepare_cached(
        "SELECT id FROM stop WHERE walk = ?1 AND made_device = ?2 AND NOT removed ORDER BY id",
    )?;
    let rows = statement.query_map(params![walk, device], |row| row.get(0))?;
    Ok(rows.collect::<Result<_, _>>()?)
}

/// Whether heads were read or photos taken at a stop, other than removed ones.
pub fn holds_something(db: &Connection, stop: Uuid, walk: Uuid) -> Result<bool, StoreError> {
    Ok(db.prepare_cached(HELD_BY_STOP)?.exists([stop, walk])?)
}

/// The heads of a stop that are not removed, in the order read.
pub fn heads(db: &Connection, stop: Uuid) -> Result<Vec<HeadRow>, StoreError> {
    let mut statement = db.prepare_cached(&format!(
        "{HEAD} AND stop = ?1 AND NOT removed
         ORDER BY read_hlc, read_device, read_seq, place_in_change, id"
    ))?;
    let rows = statement.query_map([stop], read_head)?;
    let heads: Vec<Option<HeadRow>> = rows.collect::<Result<_, _>>()?;
    Ok(heads.into_iter().flatten().collect())
}

fn read_walk(row: &Row) -> rusqlite::Result<Walk> {
    Ok(Walk {
        id: row.get(0)?,
        planting: row.get(1)?,
        walked_on: row.get(2)?,
        scout: row.get::<_, Option<String>>(3)?.unwrap_or_default(),
        finished: row.get(4)?,
        removed: row.get(5)?,
    })
}

fn read_stop(row: &Row) -> rusqlite::Result<Stop> {
    let latitude: Option<f64> = row.get(3)?;
    let longitude: Option<f64> = row.get(4)?;
    let accuracy_m = row.get(5)?;
    let age_s = row.get(8)?;
    Ok(Stop {
        id: row.get(0)?,
        walk: row.get(1)?,
        number: row.get::<_, Option<u32>>(2)?.unwrap_or_default(),
        place: latitude.zip(longitude).map(|(latitude, longitude)| Place {
            latitude,
            longitude,
            accuracy_m,
            age_s,
        }),
        removed: row.get(6)?,
        label: row.get(7)?,
    })
}

/// `None` where this version cannot read what the head says.
fn read_head(row: &Row) -> rusqlite::Result<Option<HeadRow>> {
    let reading = Reading::from_word(row.get_ref(2)?.as_str().unwrap_or_default()).ok();
    let share: Option<u8> = row.get(3)?;
    let share = share.and_then(|share| Share::new(share).ok());
    let Some(head) = reading.and_then(|reading| Head::new(reading, share).ok()) else {
        return Ok(None);
    };
    let flags: Vec<Flag> = row
        .get_ref(4)?
        .as_str()
        .unwrap_or_default()
        .split_whitespace()
        .filter_map(flag_from_word)
        .collect();
    Ok(Some(HeadRow {
        id: row.get(0)?,
        stop: row.get(1)?,
        said: HeadRecord {
            head,
            flags,
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
