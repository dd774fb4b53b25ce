//! What many changes tell, to be stored together.
//!
//! Stops and heads are stored in the order in which they lie in the file: in any
//! other, of a great many most would each fetch a page anew.

use std::rc::Rc;

use rusqlite::Connection;

use super::heads::ToldHead;
use super::walks::ToldStop;
use crate::error::StoreError;
use crate::log::{Change, Stamp};

/// Stops and heads that changes told.
#[derive(Default)]
pub(crate) struct Told {
    pub(super) stops: Vec<ToldStop>,
    pub(super) heads: Vec<ToldHead>,
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

    /// Stores them; none is left here.
    pub fn store(&mut self, db: &Connection) -> Result<(), StoreError> {
        ToldStop::store(db, std::mem::take(&mut self.stops))?;
        ToldHead::store(db, std::mem::take(&mut self.heads))
    }
}
