//! Reading a notebook that cannot be opened where it lies: its folder may only be
//! read, or it lacks what it showed as saved. SQLite wants to write beside a file even
//! to read it, and an older notebook is brought up to date first, so a copy is read.

use std::path::Path;

use crate::clock::Clock;
use crate::disk::integrity::integrity;
use crate::disk::read_copy::ReadCopy;
use crate::error::StoreError;
use crate::ids::Randomness;
use crate::notebook::Notebook;

impl Notebook {
    /// Opens a copy of the notebook at `path`, to be read; what is written goes with
    /// the copy. Whether it lacks anything is told by [`Notebook::check`].
    ///
    /// # Errors
    /// When it cannot be copied, or the copy is no whole notebook.
    pub fn open_copy(
        path: &Path,
        clock: Box<dyn Clock>,
        randomness: Box<dyn Randomness>,
    ) -> Result<Notebook, StoreError> {
        let copy = ReadCopy::of(path)?;
        let mut notebook = Notebook::open_alone(&copy.path(), clock, randomness)?;
        if copy.found.wal
            && let Some(fault) = integrity(notebook.db())?.into_iter().next()
        {
            return Err(StoreError::Damaged(fault));
        }
        notebook.lies_at(path, copy);
        Ok(notebook)
    }
}
