//! Progress of a long read, and the means to stop it.

/// Whether to go on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Going {
    /// Go on.
    On,
    /// Stop; nothing read so far is used.
    Stop,
}

/// Told now and then how many rows have been read, and asked whether to go on.
pub struct Watch<'a> {
    tell: Option<&'a mut dyn FnMut(u64) -> Going>,
    rows: u64,
}

/// Rows between two questions: a few milliseconds of work.
const EVERY: u64 = 2048;

impl<'a> Watch<'a> {
    /// Nobody watches.
    pub fn none() -> Watch<'static> {
        Watch {
            tell: None,
            rows: 0,
        }
    }

    /// Asks `tell` about every two thousand rows.
    pub fn with(tell: &'a mut dyn FnMut(u64) -> Going) -> Watch<'a> {
        Watch {
            tell: Some(tell),
            rows: 0,
        }
    }

    /// Counts one row. `false` when the reader should stop.
    pub(crate) fn row(&mut self) -> bool {
        self.rows += 1;
        if !self.rows.is_multiple_of(EVERY) {
            return true;
        }
        match &mut self.tell {
            Some(tell) => tell(self.rows) == Going::On,
            None => true,
        }
    }
}
