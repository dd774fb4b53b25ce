//! The way to end what a notebook is doing, from another thread.
//!
//! SQLite ends the statement that runs; what goes on between statements (a long file
//! that is read, the lots of an import) asks here.

use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};

use rusqlite::{Connection, InterruptHandle, ffi};

use crate::error::StoreError;

/// Ends what one notebook is doing, for good: it is about to be closed.
pub struct Ender {
    ended: Ended,
    interrupt: InterruptHandle,
}

/// Whether a notebook is about to be closed.
#[derive(Clone, Default)]
pub struct Ended(Arc<AtomicBool>);

impl Ender {
    /// An ender of what a connection and its notebook do.
    pub fn of(db: &Connection, ended: &Ended) -> Ender {
        Ender {
            ended: ended.clone(),
            interrupt: db.get_interrupt_handle(),
        }
    }

    /// Ends it. Nothing is stored of what has not been committed.
    pub fn end(&self) {
        self.ended.0.store(true, Ordering::SeqCst);
        self.interrupt.interrupt();
    }
}

impl Ended {
    /// Goes on only where nobody has ended it.
    ///
    /// # Errors
    /// As SQLite has it where a statement is interrupted.
    pub fn check(&self) -> Result<(), StoreError> {
        if self.0.load(Ordering::SeqCst) {
            let interrupted = ffi::Error::new(ffi::SQLITE_INTERRUPT);
            return Err(rusqlite::Error::SqliteFailure(interrupted, None).into());
        }
        Ok(())
    }
}
