//! Walks and stops: made once, edited by field.

use chrono::NaiveDate;
use rusqlite::{Connection, params};
use uuid::Uuid;

use super::{search, shared};
use crate::error::StoreError;
use crate::fact::Row;
use crate::log::Stamp;
use crate::service::Place;

/// A walk as it was begun.
pub(super) struct Made<'a> {
    pub id: Uuid,
    pub planting: Uuid,
    pub walked_on: NaiveDate,
    pub scout: &'a str,
    pub finished: bool,
}

/// A walk was begun. Told twice, the earliest stamp stands; edits of its
/// fields, which may have come first, stand above it.
pub(super) fn walk(db: &Connection, stamp: Stamp, walk: &Made) -> Result<(), StoreError> {
    db.prepare_cached(
        "INSERT INTO walk (id, planting, walked_on, scout, finished,
                           made_hlc, made_device, made_seq)
         VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8)
         ON CONFLICT (id) DO UPDATE SET
           planting = excluded.planting,
           walked_on = excluded.walked_on,
           scout = excluded.scout,
           finished = excluded.finished,
           made_hlc = excluded.made_hlc,
           made_device = excluded.made_device,
           made_seq = excluded.made_seq
         WHERE made_hlc IS NULL
            OR (excluded.made_hlc, excluded.made_device, excluded.made_seq)
               < (made_hlc, made_device, made_seq)",
    )?
    .execute(params![
        walk.id,
        walk.planting,
        walk.walked_on,
        walk.scout,
        walk.finished,
        stamp.hlc.number(),
        stamp.device,
        stamp.seq
    ])?;
    shared::lay_over(db, Row::Walk, walk.id)?;
    search::name(db, "walk", walk.id)
}

/// A stop was made; as [`walk`].
pub(super) fn stop(
    db: &Connection,
    stamp: Stamp,
    id: Uuid,
    walk: Uuid,
    number: u32,
    label: Option<&str>,
    place: Option<&Place>,
) -> Result<(), StoreError> {
    db.prepare_cached(
        "INSERT INTO stop (id, walk, number, label, latitude, longitude, accuracy_m, age_s,
                           made_hlc, made_device, made_seq)
         VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11)
         ON CONFLICT (id) DO UPDATE SET
           walk = excluded.walk,
           number = excluded.number,
           label = excluded.label,
           latitude = excluded.latitude,
           longitude = excluded.longitude,
           accuracy_m = excluded.accuracy_m,
           age_s = excluded.age_s,
           made_hlc = excluded.made_hlc,
           made_device = excluded.made_device,
           made_seq = excluded.made_seq
         WHERE made_hlc IS NULL
            OR (excluded.made_hlc, excluded.made_device, excluded.made_seq)
               < (made_hlc, made_device, made_seq)",
    )?
    .execute(params![
        id,
        walk,
        number,
        label,
        place.map(|place| place.latitude),
        place.map(|place| place.longitude),
        place.and_then(|place| place.accuracy_m),
        place.and_then(|place| place.age_s),
        stamp.hlc.number(),
        stamp.device,
        stamp.seq
    ])?;
    shared::lay_over(db, Row::Stop, id)
}
