//! Heads: read once, corrected and removed by later facts that may come first.

use std::rc::Rc;
use std::sync::LazyLock;

use ripening::{Flag, Head};
use rusqlite::{Connection, params};
use uuid::Uuid;

use super::{search, telling};
use crate::error::StoreError;
use crate::fact::{HeadRead, Said};
use crate::head_file::flag_words;
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

/// Heads that changes told, to be stored together: in the order in which they lie
/// in the file, where in any other most of them would each fetch a page anew.
#[derive(Default)]
pub(crate) struct ToldHeads(Vec<Told>);

/// One of them. There may be a million, so it is small.
struct Told {
    id: Uuid,
    stop: Uuid,
    /// Its order among the heads that were told together.
    place: u32,
    head: Head,
    by: Rc<Teller>,
    /// What few heads have.
    more: Option<Box<More>>,
}

/// The change that told it.
struct Teller {
    stamp: Stamp,
    recorded_ms: i64,
    offset_min: i32,
}

struct More {
    flags: Vec<Flag>,
    note: Option<String>,
    extra: Option<String>,
}

impl ToldHeads {
    /// How many there are.
    pub fn count(&self) -> usize {
        self.0.len()
    }

    /// Heads were read at a stop.
    pub(super) fn tell(
        &mut self,
        change: &Change,
        stop: Uuid,
        heads: &[HeadRead],
    ) -> Result<(), StoreError> {
        let by = Rc::new(Teller {
            stamp: change.stamp(),
            recorded_ms: change.recorded_ms,
            offset_min: change.offset_min,
        });
        for (place, head) in (0..).zip(heads) {
            let HeadRead { id, said, extra } = head;
            let more = if head.is_plain() {
                None
            } else {
                Some(Box::new(More {
                    flags: said.flags.clone(),
                    note: said.note.clone(),
                    extra: extra.as_ref().map(serde_json::to_string).transpose()?,
                }))
            };
            self.0.push(Told {
                id: *id,
                stop,
                place,
                head: said.head,
                by: Rc::clone(&by),
                more,
            });
        }
        Ok(())
    }

    /// Stores them; none is left here. Told twice, the earliest stamp stands.
    pub fn store(&mut self, db: &Connection) -> Result<(), StoreError> {
        if self.0.is_empty() {
            return Ok(());
        }
        let mut told = std::mem::take(&mut self.0);
        told.sort_unstable_by_key(|told| (told.id, told.place));
        let mut statement = db.prepare_cached(&READ)?;
        for Told {
            id,
            stop,
            place,
            head,
            by,
            more,
        } in told
        {
            let more = more.as_deref();
            let note = more.and_then(|more| more.note.as_deref());
            statement.execute(params![
                id,
                stop,
                more.and_then(|more| more.extra.as_deref()),
                by.recorded_ms,
                by.offset_min,
                place,
                head.reading().word(),
                head.share().map(ripening::Share::percent),
                flag_words(more.map_or(&[], |more| &more.flags)),
                note,
                by.stamp.hlc.number(),
                by.stamp.device,
                by.stamp.seq,
            ])?;
            if note.is_some() {
                search::note(db, id)?;
            }
        }
        Ok(())
    }
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
        flag_words(&to.flags),
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
