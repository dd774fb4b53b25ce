//! Walks and stops: made once, edited by field.

use std::sync::LazyLock;

use chrono::NaiveDate;
use rusqlite::{Connection, params};
use uuid::Uuid;

use super::{search, shared, telling};
use crate::error::StoreError;
use crate::fact::Row;
use crate::log::Stamp;
use crate::service::Place;

static WALK: LazyLock<String> = LazyLock::new(|| {
    let plain = ["planting", "walked_on", "scout", "finished"];
    telling::first("walk", "made", &plain, &[])
});
static STOP: LazyLock<String> = LazyLock::new(|| {
    let plain = [
        "walk",
        "number",
        "label",
        "latitude",
        "longitude",
        "accuracy_m",
        "age_s",
    ];
    telling::first("stop", "made", &plain, &[])
});

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
    db.prepare_cached(&WALK)?.execute(params![
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
    db.prepare_cached(&STOP)?.execute(params![
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
