//! What an open connection to a notebook holds: the lock beside others, the mark in
//! the file that says it is open, and the file that names the last change saved.
//!
//! | the mark says | -wal | `-last` names | the notebook |
//! | --- | --- | --- | --- |
//! | anything | anything | a change that is here | holds all that was shown as saved |
//! | anything | anything | a change that is not here | lacks changes: told |
//! | open | there | nothing | was cut off or copied with its -wal: checked and used |
//! | open | none | nothing | was copied without its -wal: told |
//! | closed | anything | nothing | was closed, and then copied: used |
//!
//! A file that SQLite wrote as one piece (`VACUUM INTO`) may say that it is open and
//! never had a -wal; it is known by its journal mode.

use std::fs::File;
use std::io::Read as _;
use std::path::Path;

use rusqlite::{Connection, OptionalExtension as _};

use super::files;
use super::hold::Hold;
use super::last_saved::{self, LastSaved, LastSavedFile};
use crate::error::StoreError;

/// Place of the two bytes of a database that say how it is written, and their value
/// for write-ahead logging.
const WRITTEN_BY: usize = 18;
const WRITE_AHEAD: [u8; 2] = [2, 2];

/// The lease of one connection, given up when dropped.
pub(crate) struct Lease {
    /// Before the last file, whose lock keeps closing programs apart.
    hold: Hold,
    last: Option<LastSavedFile>,
    /// The file itself says that it is open.
    marked: bool,
    left: bool,
}

impl Lease {
    /// Of a notebook that is held.
    pub fn of(path: &Path, hold: Hold) -> Lease {
        Lease {
            hold,
            last: LastSavedFile::beside(path),
            marked: false,
            left: false,
        }
    }

    /// Sees to it that the file itself, without its -wal, says that it is open.
    ///
    /// # Errors
    /// When the mark cannot be written; neither can what was to follow, then.
    pub fn before_writing(&mut self, db: &Connection) -> Result<(), StoreError> {
        if self.marked {
            return Ok(());
        }
        let marks = state(db) != Some(State::Open);
        if marks {
            db.execute("UPDATE open_mark SET state = 'open'", [])?;
        }
        // After a cut-off the mark may lie in the -wal alone, like all the rest. The
        // -wal is not emptied: where nothing more comes, it says that all is here.
        self.marked = if marks || self.hold.alone {
            db.query_row("PRAGMA wal_checkpoint(PASSIVE)", [], |row| {
                let (busy, all, moved): (i64, i64, i64) = (row.get(0)?, row.get(1)?, row.get(2)?);
                Ok(busy == 0 && all == moved)
            })
            .unwrap_or(false)
        } else {
            true
        };
        Ok(())
    }

    /// Names the newest change, after a commit.
    pub fn after_writing(&self, db: &Connection) -> Result<(), StoreError> {
        match &self.last {
            Some(last) => last.note(db),
            None => Ok(()),
        }
    }

    /// The last change that was shown as saved, where that is known.
    pub fn named(&self) -> Option<LastSaved> {
        self.last.as_ref()?.last()
    }

    /// Before the connection is closed: the last one marks the file as closed. Others
    /// that close wait until this one is dropped.
    pub fn leave(&mut self, db: &Connection) {
        if self.left || !db.is_autocommit() {
            return;
        }
        self.left = true;
        if let Some(last) = &self.last {
            last.lock();
        }
        if self.hold.becomes_only_one() {
            // Where this fails the mark stays, and the last change named proves all.
            let _ = close_mark(db);
            if let Some(last) = &self.last {
                last.sync();
            }
        }
    }
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum State {
    Open,
    Closed,
}

/// What the mark says; none in a notebook of an older schema.
fn state(db: &Connection) -> Option<State> {
    let said: Option<String> = db
        .query_row("SELECT state FROM open_mark", [], |row| row.get(0))
        .optional()
        .ok()
        .flatten();
    match said.as_deref() {
        Some("open") => Some(State::Open),
        Some("closed") => Some(State::Closed),
        _ => None,
    }
}

/// Marks a notebook as closed: nothing of it will lie in a -wal.
///
/// # Errors
/// When it cannot be written.
pub(crate) fn close_mark(db: &Connection) -> Result<(), StoreError> {
    if state(db) == Some(State::Open) {
        db.execute("UPDATE open_mark SET state = 'closed'", [])?;
    }
    Ok(())
}

/// What lies on the disk of a notebook that nobody has open.
#[derive(Debug, Clone, Copy)]
pub(crate) struct OnDisk {
    /// Its -wal holds something: the last program that had it open did not close it.
    pub wal: bool,
    /// The file was last written with a -wal.
    write_ahead: bool,
    /// The last change that it showed as saved, where that is known.
    pub named: Option<LastSaved>,
}

impl OnDisk {
    /// Looks at the files, before any is opened as a database.
    pub fn at(notebook: &Path) -> OnDisk {
        let mut header = [0; WRITTEN_BY + 2];
        let read = File::open(notebook).and_then(|mut file| file.read_exact(&mut header));
        OnDisk {
            wal: has_wal(notebook),
            write_ahead: read.is_ok() && header.ends_with(&WRITE_AHEAD),
            named: last_saved::read(notebook),
        }
    }

    /// Refuses a notebook that lacks what it showed as saved.
    pub fn judge(&self, db: &Connection) -> Result<(), StoreError> {
        match &self.named {
            Some(named) if named.is_in(db) => Ok(()),
            Some(named) => Err(StoreError::Lacks(lacks(named))),
            None if self.was_parted(db) => Err(StoreError::Lacks(
                "it was copied while it was open, without the -wal file that lay beside it"
                    .to_owned(),
            )),
            None => Ok(()),
        }
    }

    /// Whether it had a -wal that is not here.
    pub fn was_parted(&self, db: &Connection) -> bool {
        // Another program may have opened it since the look, and marked it: then its
        // -wal is here.
        let written_since = || db.path().is_some_and(|path| has_wal(Path::new(path)));
        let marked = self.write_ahead && !self.wal && state(db) == Some(State::Open);
        marked && !written_since()
    }
}

/// Whether a -wal with anything in it lies beside a notebook.
fn has_wal(notebook: &Path) -> bool {
    let wal = files::beside(notebook, "-wal");
    std::fs::metadata(wal).is_ok_and(|wal| wal.len() > 0)
}

/// What is said where a change is not here.
pub(crate) fn lacks(named: &LastSaved) -> String {
    format!(
        "change {} of device {} is not in it, nor what may have come with it",
        named.seq, named.device
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Notebook, SystemClock, SystemRandomness};

    fn open(path: &Path) -> Notebook {
        Notebook::open(path, Box::new(SystemClock), Box::new(SystemRandomness)).unwrap()
    }

    #[test]
    fn a_mark_that_another_program_set_since_the_look_is_no_copy() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("notebook.db");
        open(&path).close().unwrap();
        let looked = OnDisk::at(&path);
        let mut other = open(&path);
        other.write(|_| Ok::<(), StoreError>(())).unwrap();
        let db = Connection::open(&path).unwrap();
        assert_eq!(state(&db), Some(State::Open));
        looked.judge(&db).unwrap();
        // A copy made now, without the -wal, is told all the same.
        let copy = folder.path().join("copy.db");
        std::fs::copy(&path, &copy).unwrap();
        let looked = OnDisk::at(&copy);
        let db = Connection::open(&copy).unwrap();
        assert!(matches!(looked.judge(&db), Err(StoreError::Lacks(_))));
    }
}
