//! Photos: told once; caption and removal are edits of their fields.

use rusqlite::{Connection, params};

use super::shared;
use crate::error::StoreError;
use crate::fact::{PhotoTaken, Row};
use crate::log::Change;

/// A photo was taken or chosen. Told twice, the earliest stamp stands.
pub(super) fn taken(
    db: &Connection,
    change: &Change,
    photo: &PhotoTaken,
) -> Result<(), StoreError> {
    db.prepare_cached(
        "INSERT INTO photo (id, planting, walk, stop, head, name, bytes, width, height, taken,
                            recorded_ms, offset_min, made_hlc, made_device, made_seq)
         VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11, ?12, ?13, ?14, ?15)
         ON CONFLICT (id) DO UPDATE SET
           planting = excluded.planting, walk = excluded.walk, stop = excluded.stop,
           head = excluded.head, name = excluded.name, bytes = excluded.bytes,
           width = excluded.width, height = excluded.height, taken = excluded.taken,
           recorded_ms = excluded.recorded_ms, offset_min = excluded.offset_min,
           made_hlc = excluded.made_hlc, made_device = excluded.made_device,
           made_seq = excluded.made_seq
         WHERE made_hlc IS NULL
            OR (excluded.made_hlc, excluded.made_device, excluded.made_seq)
               < (made_hlc, made_device, made_seq)",
    )?
    .execute(params![
        photo.id,
        photo.planting,
        photo.walk,
        photo.stop,
        photo.head,
        photo.name,
        photo.bytes,
        photo.width,
        photo.height,
        photo.taken,
        change.recorded_ms,
        change.offset_min,
        change.hlc.number(),
        change.device,
        change.seq,
    ])?;
    shared::lay_over(db, Row::Photo, photo.id)
}
