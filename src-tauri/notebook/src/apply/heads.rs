//! Heads: read once, corrected and removed by later facts that may come first.

use std::sync::LazyLock;

use rusqlite::{Connection, params};
use uuid::Uuid;

use super::{search, telling};
use crate::error::StoreError;
use crate::fact::{HeadRead, Said};
use crate::log::{Change, Stamp};

static READ: LazyLock<String> = LazyLock::new(|| {
    let plain = [
        "stop",
        "extra",
        "recorded_ms",
        "offset_min",
        "place_in_change",
    ];
    telling::first(
        "head",
        "read",
        &plain,
        &["reading", "share", "flags", "note"],
    )
});
static CORRECT: LazyLock<String> = LazyLock::new(|| {
    let columns = ["reading", "share", "flags", "note", "corrected"];
    telling::last("head", "corrected", &columns)
});
static REMOVE: LazyLock<String> = LazyLock::new(|| telling::last("head", "removed", &["removed"]));

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
    let mut statement = db.prepare_cached(&READ)?;
    for (place, head) in heads.iter().enumerate() {
        let extra = head.extra.as_ref().map(serde_json::to_string).transpose()?;
        statement.execute(params![
            head.id,
            stop,
            extra,
            change.recorded_ms,
            change.offset_min,
            i64::try_from(place).unwrap_or(i64::MAX),
            head.said.head.reading().word(),
            head.said.head.share().map(ripening::Share::percent),
            flag_words(&head.said),
            head.said.note,
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
    db.prepare_cached(&CORRECT)?.execute(params![
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
    db.prepare_cached(&REMOVE)?.execute(params![
        head,
        removed,
        stamp.hlc.number(),
        stamp.device,
        stamp.seq
    ])?;
    Ok(())
}
