//! Heads: read once, corrected and removed by later facts that may come first.

use std::rc::Rc;
use std::sync::LazyLock;

use ripening::{Flag, Head};
use rusqlite::{Connection, Statement, ToSql, params};
use uuid::Uuid;

use super::batch::Provenance;
use super::{search, telling};
use crate::error::StoreError;
use crate::fact::{HeadRead, HeadRecord};
use crate::log::Stamp;
use kinds::flag_words;

const PLAIN: [&str; 5] = [
    "stop",
    "extra",
    "recorded_ms",
    "offset_min",
    "place_in_change",
];
const CORRECTED: [&str; 4] = ["reading", "share", "flags", "note"];

static UNHEARD_OF: LazyLock<String> = LazyLock::new(|| {
    let columns = [&PLAIN[..], &CORRECTED].concat();
    telling::unheard_of("head", "read", &columns)
});
static READ: LazyLock<String> =
    LazyLock::new(|| telling::first("head", "read", &PLAIN, &CORRECTED));
static CORRECT: LazyLock<String> = LazyLock::new(|| {
    let columns = ["reading", "share", "flags", "note", "corrected"];
    telling::last("head", "corrected", &columns)
});
static REMOVE: LazyLock<String> = LazyLock::new(|| telling::last("head", "removed", &["removed"]));

/// A head as a change told it. There may be a million to be stored, so it is small.
pub(super) struct BatchHead {
    id: Uuid,
    stop: Uuid,
    /// Its order among the heads that were told together.
    place: u32,
    head: Head,
    by: Rc<Provenance>,
    /// What few heads have.
    more: Option<Box<More>>,
}

struct More {
    flags: Vec<Flag>,
    note: Option<String>,
    extra: Option<String>,
}

/// Heads were read at a stop.
pub(super) fn read(
    by: &Rc<Provenance>,
    stop: Uuid,
    heads: &[HeadRead],
    told: &mut Vec<BatchHead>,
) -> Result<(), StoreError> {
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
        told.push(BatchHead {
            id: *id,
            stop,
            place,
            head: said.head,
            by: Rc::clone(by),
            more,
        });
    }
    Ok(())
}

impl BatchHead {
    /// Stores heads. Told twice, the earliest stamp stands.
    pub fn store(db: &Connection, mut told: Vec<BatchHead>) -> Result<(), StoreError> {
        if told.is_empty() {
            return Ok(());
        }
        // Told twice in one change, the first stands: the order of equal ids is kept.
        told.sort_by_key(|told| told.id);
        let mut unheard_of = db.prepare_cached(&UNHEARD_OF)?;
        let mut read = db.prepare_cached(&READ)?;
        let mut bound = Bound::default();
        for told in &told {
            bound.bind(&mut unheard_of, told)?;
            let heard_before = unheard_of.raw_execute()? == 0;
            if heard_before {
                Bound::default().bind(&mut read, told)?;
                read.raw_execute()?;
            }
            if heard_before || told.note().is_some() {
                search::note(db, told.id)?;
            }
        }
        Ok(())
    }

    fn note(&self) -> Option<&str> {
        self.more.as_deref()?.note.as_deref()
    }

    fn extra(&self) -> Option<&str> {
        self.more.as_deref()?.extra.as_deref()
    }

    fn flags(&self) -> &[Flag] {
        self.more.as_deref().map_or(&[], |more| &more.flags)
    }
}

/// What the parameters of a statement hold. Most are those of the head before, and are
/// not bound anew.
#[derive(Default)]
struct Bound<'a> {
    extra: Kept<Option<&'a str>>,
    recorded_ms: Kept<i64>,
    offset_min: Kept<i32>,
    reading: Kept<&'static str>,
    flags: Kept<&'a [Flag]>,
    note: Kept<Option<&'a str>>,
    device: Kept<Uuid>,
}

/// A value that a parameter holds, once there is one.
#[derive(Default)]
struct Kept<T>(Option<T>);

impl<T: PartialEq + Copy> Kept<T> {
    /// Whether the parameter is to be bound anew.
    fn is_other(&mut self, value: T) -> bool {
        self.0.replace(value) != Some(value)
    }

    fn bind(&mut self, to: &mut Statement, place: usize, value: T) -> rusqlite::Result<()>
    where
        T: ToSql,
    {
        if self.is_other(value) {
            to.raw_bind_parameter(place, value)?;
        }
        Ok(())
    }
}

impl<'a> Bound<'a> {
    fn bind(&mut self, to: &mut Statement, told: &'a BatchHead) -> rusqlite::Result<()> {
        let Provenance {
            stamp,
            recorded_ms,
            offset_min,
        } = *told.by;
        to.raw_bind_parameter(1, told.id)?;
        to.raw_bind_parameter(2, told.stop)?;
        self.extra.bind(to, 3, told.extra())?;
        self.recorded_ms.bind(to, 4, recorded_ms)?;
        self.offset_min.bind(to, 5, offset_min)?;
        to.raw_bind_parameter(6, told.place)?;
        self.reading.bind(to, 7, told.head.reading().word())?;
        to.raw_bind_parameter(8, told.head.share().map(ripening::Share::percent))?;
        if self.flags.is_other(told.flags()) {
            to.raw_bind_parameter(9, flag_words(told.flags()))?;
        }
        self.note.bind(to, 10, told.note())?;
        to.raw_bind_parameter(11, stamp.hlc.number())?;
        self.device.bind(to, 12, stamp.device)?;
        to.raw_bind_parameter(13, stamp.seq)
    }
}

/// A head should say something else. The latest correction stands, and any
/// correction stands above the first reading.
pub(super) fn correct(
    db: &Connection,
    stamp: Stamp,
    head: Uuid,
    to: &HeadRecord,
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

/// A head was removed or restored; the latest word stands.
pub(super) fn remove(
    db: &Connection,
    stamp: Stamp,
    head: Uuid,
    removed: bool,
) -> Result<(), StoreError> {
    telling::removed(db, &REMOVE, stamp, head, removed)
}
