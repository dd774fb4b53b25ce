//! What many changes tell, to be stored together.
//!
//! Stops and heads are stored in the order in which they lie in the file: in any
//! other, of a great many most would each fetch a page anew.

use std::collections::BTreeSet;
use std::rc::Rc;

use rusqlite::Connection;
use uuid::Uuid;

use super::heads::ToldHead;
use super::merged;
use super::walks::ToldStop;
use crate::error::StoreError;
use crate::log::{Change, Stamp};

/// Stops and heads that changes told.
#[derive(Default)]
pub(crate) struct Told {
    pub(super) stops: Vec<ToldStop>,
    pub(super) heads: Vec<ToldHead>,
    /// Whether a planting was merged, or made one of its own again.
    pub(super) merges: bool,
    /// Whether a planting was named: one that others were merged into may have arrived.
    pub(super) named: bool,
    /// Whether a change counts so far that never should, since its device told it again.
    pub(super) recount: bool,
}

/// The change that told it.
pub(super) struct Teller {
    pub stamp: Stamp,
    pub recorded_ms: i64,
    pub offset_min: i32,
}

impl Teller {
    pub fn of(change: &Change) -> Rc<Teller> {
        Rc::new(Teller {
            stamp: change.stamp(),
            recorded_ms: change.recorded_ms,
            offset_min: change.offset_min,
        })
    }
}

impl Told {
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
        ToldStop::store(db, std::mem::take(&mut self.stops))?;
        ToldHead::store(db, std::mem::take(&mut self.heads))?;
        let (merges, named) = (self.merges, self.named);
        (self.merges, self.named) = (false, false);
        if merges || (named && merged::any(db)?) {
            merged::resolve(db)
        } else {
            Ok(BTreeSet::new())
        }
    }
}
