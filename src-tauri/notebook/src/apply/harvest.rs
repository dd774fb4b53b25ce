//! What was seen of ripe grain, and the terms of its harvest. An observation is
//! told once, corrected and removed by later facts that may come first.

use std::collections::BTreeMap;

use rusqlite::{Connection, params};
use serde_json::Value;
use uuid::Uuid;

use crate::error::StoreError;
use crate::fact::Seen;
use crate::log::{Change, Stamp};

/// An observation was made. Told twice, the earliest stamp stands.
pub(super) fn observed(
    db: &Connection,
    change: &Change,
    planting: Uuid,
    id: Uuid,
    seen: &Seen,
) -> Result<(), StoreError> {
    db.prepare_cached(
        "INSERT INTO observed (id, planting, observed_on, what, scout, note, recorded_ms,
                               offset_min, told_hlc, told_device, told_seq)
         VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11)
         ON CONFLICT (id) DO UPDATE SET
           planting = excluded.planting,
           recorded_ms = excluded.recorded_ms,
           offset_min = excluded.offset_min,
           told_hlc = excluded.told_hlc,
           told_device = excluded.told_device,
           told_seq = excluded.told_seq,
           observed_on = CASE WHEN corrected_hlc IS NULL
                              THEN excluded.observed_on ELSE observed_on END,
           what = CASE WHEN corrected_hlc IS NULL THEN excluded.what ELSE what END,
           scout = CASE WHEN corrected_hlc IS NULL THEN excluded.scout ELSE scout END,
           note = CASE WHEN corrected_hlc IS NULL THEN excluded.note ELSE note END
         WHERE told_hlc IS NULL
            OR (excluded.told_hlc, excluded.told_device, excluded.told_seq)
               < (told_hlc, told_device, told_seq)",
    )?
    .execute(params![
        id,
        planting,
        seen.on,
        serde_json::to_string(&seen.what)?,
        seen.scout,
        seen.note,
        change.recorded_ms,
        change.offset_min,
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
    db.prepare_cached(
        "INSERT INTO observed (id, observed_on, what, scout, note, corrected,
                               corrected_hlc, corrected_device, corrected_seq)
         VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9)
         ON CONFLICT (id) DO UPDATE SET
           observed_on = excluded.observed_on,
           what = excluded.what,
           scout = excluded.scout,
           note = excluded.note,
           corrected = excluded.corrected,
           corrected_hlc = excluded.corrected_hlc,
           corrected_device = excluded.corrected_device,
           corrected_seq = excluded.corrected_seq
         WHERE corrected_hlc IS NULL
            OR (excluded.corrected_hlc, excluded.corrected_device, excluded.corrected_seq)
               > (corrected_hlc, corrected_device, corrected_seq)",
    )?
    .execute(params![
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

/// An observation was taken out or brought back; the latest word stands.
pub(super) fn remove(
    db: &Connection,
    stamp: Stamp,
    id: Uuid,
    removed: bool,
) -> Result<(), StoreError> {
    db.prepare_cached(
        "INSERT INTO observed (id, removed, removed_hlc, removed_device, removed_seq)
         VALUES (?1, ?2, ?3, ?4, ?5)
         ON CONFLICT (id) DO UPDATE SET
           removed = excluded.removed,
           removed_hlc = excluded.removed_hlc,
           removed_device = excluded.removed_device,
           removed_seq = excluded.removed_seq
         WHERE removed_hlc IS NULL
            OR (excluded.removed_hlc, excluded.removed_device, excluded.removed_seq)
               > (removed_hlc, removed_device, removed_seq)",
    )?
    .execute(params![
        id,
        removed,
        stamp.hlc.number(),
        stamp.device,
        stamp.seq
    ])?;
    Ok(())
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
