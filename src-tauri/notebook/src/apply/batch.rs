//! What many changes record, to be stored together.
//!
//! Stops and heads are stored in the order in which they lie in the file: in any
//! other, of a great many most would each fetch a page anew.

use std::collections::BTreeSet;
use std::rc::Rc;

use rusqlite::Connection;
use uuid::Uuid;

use super::heads::BatchHead;
use super::merged;
use super::walks::BatchStop;
use crate::error::StoreError;
use crate::log::{Change, Stamp};

/// Stops and heads of many changes.
#[derive(Default)]
pub(crate) struct Batch {
    pub(super) stops: Vec<BatchStop>,
    pub(super) heads: Vec<BatchHead>,
    /// Whether a planting was merged, or made one of its own again.
    pub(super) merges: bool,
    /// Whether a planting was named: one that others were merged into may have arrived.
    pub(super) named: bool,
    /// Whether a change counts so far that never should, since its device told it again.
    pub(super) recount: bool,
}

/// The change that recorded a stop or a head: its stamp and its time.
pub(super) struct Provenance {
    pub stamp: Stamp,
    pub recorded_ms: i64,
    pub offset_min: i32,
}

impl Provenance {
    pub fn of(change: &Change) -> Rc<Provenance> {
        Rc::new(Provenance {
            stamp: change.stamp(),
            recorded_ms: change.recorded_ms,
            offset_min: change.offset_min,
        })
    }
}

impl Batch {
    /// How many there are.
    pub fn count(&self) -> usize {
        self.stops.len() + self.heads.len()
    }

    /// Whether the views must be filled anew.
    pub fn wants_rebuild(&self) -> bool {
        self.recount
    }

    /// Stores them, and works out what follows from all merges; nothing is left here.
    /// Gives the plantings that are shown as another than before.
    pub fn store(&mut self, db: &Connection) -> Result<BTreeSet<Uuid>, StoreError> {
        BatchStop::store(db, std::mem::take(&mut self.stops))?;
        BatchHead::store(db, std::mem::take(&mut self.heads))?;
        let (merges, named) = (self.merges, self.named);
        (self.merges, self.named) = (false, false);
        if merges || (named && merged::any(db)?) {
            merged::resolve(db)
        } else {
            Ok(BTreeSet::new())
        }
    }
}
