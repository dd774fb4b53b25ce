//! Walks and stops: made once, edited by field.

use std::rc::Rc;
use std::sync::LazyLock;

use chrono::NaiveDate;
use rusqlite::{Connection, ToSql, params};
use uuid::Uuid;

use super::batch::Provenance;
use super::{search, shared, telling};
use crate::error::StoreError;
use crate::fact::Row;
use crate::log::Stamp;
use kinds::Place;

const OF_WALK: [&str; 4] = ["planting", "walked_on", "scout", "finished"];
const OF_STOP: [&str; 7] = [
    "walk",
    "number",
    "label",
    "latitude",
    "longitude",
    "accuracy_m",
    "age_s",
];

/// How the making of a thing is told.
struct Making {
    /// Of most things it is the first that is heard.
    unheard_of: String,
    first: String,
}

impl Making {
    fn of(table: &str, columns: &[&str]) -> Making {
        Making {
            unheard_of: telling::unheard_of(table, "made", columns),
            first: telling::first(table, "made", columns, &[]),
        }
    }

    /// Tells it; values that were told for its id already stand above.
    fn tell(
        &self,
        db: &Connection,
        row: Row,
        id: Uuid,
        values: &[&dyn ToSql],
    ) -> Result<(), StoreError> {
        let heard_before = db.prepare_cached(&self.unheard_of)?.execute(values)? == 0;
        if heard_before {
            db.prepare_cached(&self.first)?.execute(values)?;
        }
        if shared::is_told(db, id)? {
            shared::lay_over(db, row, id)?;
        }
        Ok(())
    }
}

static WALK: LazyLock<Making> = LazyLock::new(|| Making::of("walk", &OF_WALK));
static STOP: LazyLock<Making> = LazyLock::new(|| Making::of("stop", &OF_STOP));

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
    let values = params![
        walk.id,
        walk.planting,
        walk.walked_on,
        walk.scout,
        walk.finished,
        stamp.hlc.number(),
        stamp.device,
        stamp.seq
    ];
    WALK.tell(db, Row::Walk, walk.id, values)?;
    search::name(db, "walk", walk.id)
}

/// A stop as a change told it. There may be many to be stored, so it is small.
pub(super) struct BatchStop {
    id: Uuid,
    walk: Uuid,
    number: u32,
    by: Rc<Provenance>,
    /// What few stops of a file have.
    more: Option<Box<More>>,
}

#[derive(Default)]
struct More {
    label: Option<String>,
    place: Option<Place>,
}

/// A stop was made.
pub(super) fn stop(
    by: &Rc<Provenance>,
    id: Uuid,
    walk: Uuid,
    number: u32,
    label: Option<&str>,
    place: Option<&Place>,
) -> BatchStop {
    let more = (label.is_some() || place.is_some()).then(|| {
        Box::new(More {
            label: label.map(str::to_owned),
            place: place.copied(),
        })
    });
    BatchStop {
        id,
        walk,
        number,
        by: Rc::clone(by),
        more,
    }
}

impl BatchStop {
    /// Stores stops; as [`walk`].
    pub fn store(db: &Connection, mut told: Vec<BatchStop>) -> Result<(), StoreError> {
        told.sort_by_key(|told| told.id);
        for told in &told {
            let none = More::default();
            let More { label, place } = told.more.as_deref().unwrap_or(&none);
            let Stamp { hlc, device, seq } = told.by.stamp;
            let values = params![
                told.id,
                told.walk,
                told.number,
                label,
                place.map(|place| place.latitude),
                place.map(|place| place.longitude),
                place.and_then(|place| place.accuracy_m),
                place.and_then(|place| place.age_s),
                hlc.number(),
                device,
                seq
            ];
            STOP.tell(db, Row::Stop, told.id, values)?;
        }
        Ok(())
    }
}
