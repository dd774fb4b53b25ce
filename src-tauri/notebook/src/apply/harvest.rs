//! What was seen of ripe grain, and the terms of its harvest. An observation is
//! told once, corrected and removed by later facts that may come first.

use std::collections::BTreeMap;
use std::sync::LazyLock;

use rusqlite::{Connection, params};
use serde_json::Value;
use uuid::Uuid;

use super::telling;
use crate::error::StoreError;
use crate::fact::Seen;
use crate::log::{Change, Stamp};

static OBSERVED: LazyLock<String> = LazyLock::new(|| {
    let plain = ["planting", "recorded_ms", "offset_min"];
    telling::first(
        "observed",
        "told",
        &plain,
        &["observed_on", "what", "scout", "note"],
    )
});
static CORRECT: LazyLock<String> = LazyLock::new(|| {
    let columns = ["observed_on", "what", "scout", "note", "corrected"];
    telling::last("observed", "corrected", &columns)
});
static REMOVE: LazyLock<String> =
    LazyLock::new(|| telling::last("observed", "removed", &["removed"]));

/// An observation was made. Told twice, the earliest stamp stands.
pub(super) fn observed(
    db: &Connection,
    change: &Change,
    planting: Uuid,
    id: Uuid,
    seen: &Seen,
) -> Result<(), StoreError> {
    db.prepare_cached(&OBSERVED)?.execute(params![
        id,
        planting,
        change.recorded_ms,
        change.offset_min,
        seen.on,
        serde_json::to_string(&seen.what)?,
        seen.scout,
        seen.note,
        change.hlc.number(),
        change.device,
        change.seq,
    ])?;
    Ok(())
}

/// An observation should say something else. The latest correction stands, and
/// any correction stands above the first telling.
pub(super) fn correct(
    db: &Connection,
    stamp: Stamp,
    id: Uuid,
    to: &Seen,
    corrected: bool,
) -> Result<(), StoreError> {
    db.prepare_cached(&CORRECT)?.execute(params![
        id,
        to.on,
        serde_json::to_string(&to.what)?,
        to.scout,
        to.note,
        corrected,
        stamp.hlc.number(),
        stamp.device,
        stamp.seq,
    ])?;
    Ok(())
}

/// An observation was removed or restored; the latest word stands.
pub(super) fn remove(
    db: &Connection,
    stamp: Stamp,
    id: Uuid,
    removed: bool,
) -> Result<(), StoreError> {
    telling::removed(db, &REMOVE, stamp, id, removed)
}

/// Terms were given values, for one planting or (nil) for all.
pub(super) fn terms(
    db: &Connection,
    stamp: Stamp,
    planting: Uuid,
    to: &BTreeMap<String, Value>,
) -> Result<(), StoreError> {
    let mut statement = db.prepare_cached(
        "INSERT OR REPLACE INTO harvest_term (planting, name, hlc, device, seq, value)
         VALUES (?1, ?2, ?3, ?4, ?5, ?6)",
    )?;
    for (name, value) in to {
        statement.execute(params![
            planting,
            name,
            stamp.hlc.number(),
            stamp.device,
            stamp.seq,
            serde_json::to_string(value)?,
        ])?;
    }
    Ok(())
}
