//! Heads: read once, corrected and removed by later facts that may come first.

use rusqlite::{Connection, params};
use uuid::Uuid;

use super::search;
use crate::error::StoreError;
use crate::fact::{HeadRead, Said};
use crate::log::{Change, Stamp};

/// Flags as the view holds them.
fn flag_words(said: &Said) -> String {
    let mut words = String::new();
    for flag in &said.flags {
        if !words.is_empty() {
            words.push(' ');
        }
        words.push_str(crate::head_file::flag_word(*flag));
    }
    words
}

/// Heads were read at a stop. Told twice, the earliest stamp stands.
pub(super) fn read(
    db: &Connection,
    change: &Change,
    stop: Uuid,
    heads: &[HeadRead],
) -> Result<(), StoreError> {
    let mut statement = db.prepare_cached(
        "INSERT INTO head (id, stop, reading, share, flags, note, extra, recorded_ms, offset_min,
                           place_in_change, read_hlc, read_device, read_seq)
         VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11, ?12, ?13)
         ON CONFLICT (id) DO UPDATE SET
           stop = excluded.stop,
           extra = excluded.extra,
           recorded_ms = excluded.recorded_ms,
           offset_min = excluded.offset_min,
           place_in_change = excluded.place_in_change,
           read_hlc = excluded.read_hlc,
           read_device = excluded.read_device,
           read_seq = excluded.read_seq,
           reading = CASE WHEN corrected_hlc IS NULL THEN excluded.reading ELSE reading END,
           share = CASE WHEN corrected_hlc IS NULL THEN excluded.share ELSE share END,
           flags = CASE WHEN corrected_hlc IS NULL THEN excluded.flags ELSE flags END,
           note = CASE WHEN corrected_hlc IS NULL THEN excluded.note ELSE note END
         WHERE read_hlc IS NULL
            OR (excluded.read_hlc, excluded.read_device, excluded.read_seq)
               < (read_hlc, read_device, read_seq)",
    )?;
    for (place, head) in heads.iter().enumerate() {
        let extra = head.extra.as_ref().map(serde_json::to_string).transpose()?;
        statement.execute(params![
            head.id,
            stop,
            head.said.head.reading().word(),
            head.said.head.share().map(ripening::Share::percent),
            flag_words(&head.said),
            head.said.note,
            extra,
            change.recorded_ms,
            change.offset_min,
            i64::try_from(place).unwrap_or(i64::MAX),
            change.hlc.number(),
            change.device,
            change.seq,
        ])?;
        if head.said.note.is_some() {
            search::note(db, head.id)?;
        }
    }
    Ok(())
}

/// A head should say something else. The latest correction stands, and any
/// correction stands above the first reading.
pub(super) fn correct(
    db: &Connection,
    stamp: Stamp,
    head: Uuid,
    to: &Said,
    corrected: bool,
) -> Result<(), StoreError> {
    db.prepare_cached(
        "INSERT INTO head (id, reading, share, flags, note, corrected,
                           corrected_hlc, corrected_device, corrected_seq)
         VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9)
         ON CONFLICT (id) DO UPDATE SET
           reading = excluded.reading,
           share = excluded.share,
           flags = excluded.flags,
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
        head,
        to.head.reading().word(),
        to.head.share().map(ripening::Share::percent),
        flag_words(to),
        to.note,
        corrected,
        stamp.hlc.number(),
        stamp.device,
        stamp.seq,
    ])?;
    search::note(db, head)
}

/// A head was taken out or brought back; the latest word stands.
pub(super) fn remove(
    db: &Connection,
    stamp: Stamp,
    head: Uuid,
    removed: bool,
) -> Result<(), StoreError> {
    db.prepare_cached(
        "INSERT INTO head (id, removed, removed_hlc, removed_device, removed_seq)
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
        head,
        removed,
        stamp.hlc.number(),
        stamp.device,
        stamp.seq
    ])?;
    Ok(())
}
