//! What can go wrong in the store.

use std::io;
use std::path::PathBuf;

use thiserror::Error;
use uuid::Uuid;

/// Trouble with the notebook file or what it stands on.
#[derive(Debug, Error)]
pub enum StoreError {
    /// SQLite refused.
    #[error("{0}")]
    Sqlite(#[from] rusqlite::Error),
    /// The schema could not be brought up to date.
    #[error("the notebook's tables could not be brought up to date: {0}")]
    Migration(#[from] rusqlite_migration::Error),
    /// Written by a newer version of the app.
    #[error(
        "the notebook has schema {found}, this version of Headwalk knows up to {known}: use the newer version"
    )]
    FromNewerApp {
        /// In the file.
        found: i64,
        /// The newest this version knows.
        known: i64,
    },
    /// An SQLite file of something else.
    #[error("the file is no Headwalk notebook: give the path of a notebook, or of a new file")]
    NotANotebook,
    /// It may be read and not written.
    #[error("the notebook may be read but not written: check the rights of its file and folder")]
    ReadOnly,
    /// Another program has it open.
    #[error("another program has the notebook open: close its window or desk and try again")]
    InUse,
    /// A file of this name is there already.
    #[error("{0} is there already: give another name")]
    Taken(PathBuf),
    /// A file beside the notebook, or a copy of it.
    #[error("{path} {what}: {source}", path = path.display())]
    File {
        /// What could not be done.
        what: &'static str,
        /// Which file.
        path: PathBuf,
        /// Why.
        source: io::Error,
    },
    /// It does not hold what it showed as saved: it is a copy made while it was open,
    /// or an earlier one, or lies beside an earlier -wal.
    #[error(
        "this copy of the notebook lacks changes that were shown as saved: {0}; put back the files that lay beside it, restore a backup, or go on with what is here by headwalk check --salvage"
    )]
    Lacks(String),
    /// What is stored does not hold together.
    #[error("the notebook is damaged: {0}")]
    Damaged(String),
    /// A change could not be written as JSON.
    #[error("a change could not be written: {0}")]
    Json(#[from] serde_json::Error),
    /// A change of ours is not a possible one (too long, for instance).
    #[error("the change cannot be stored: {0}")]
    Unwritable(&'static str),
    /// A value of ours breaks a bound.
    #[error("the value of '{0}' is out of range: correct it")]
    OutOfBounds(&'static str),
    /// The disk failed with a photo's file.
    #[error("the file of a photo cannot be kept or read: {0}")]
    Photo(#[source] std::io::Error),
    /// A photo's file is not what its name says.
    #[error("the file of photo {0} is damaged")]
    PhotoDamaged(kinds::PhotoName),
    /// A notebook in memory has no place for files.
    #[error("this notebook is kept in memory and has no place for photos")]
    NoPhotoFolder,
    /// No random bytes to be had.
    #[error("the system gives no random numbers: {0}")]
    Randomness(String),
}

impl StoreError {
    /// Where only statements of ours were run: one that SQLite makes no sense of
    /// tells that the tables are not those that we made, which is damage.
    pub(crate) fn or_damage(self) -> StoreError {
        match self {
            StoreError::Sqlite(error)
            | StoreError::Migration(rusqlite_migration::Error::RusqliteError {
                err: error, ..
            }) if makes_no_sense(&error) => {
                let error = error.to_string();
                let first = error.lines().next().unwrap_or_default();
                StoreError::Damaged(format!("its tables are not as they were made: {first}"))
            }
            other => other,
        }
    }
}

fn makes_no_sense(error: &rusqlite::Error) -> bool {
    match error {
        rusqlite::Error::SqlInputError { .. } => true,
        rusqlite::Error::SqliteFailure(cause, _) => {
            cause.extended_code == rusqlite::ffi::SQLITE_ERROR
        }
        _ => false,
    }
}

/// Why a page of another device's changes was refused. Nothing of the page is
/// stored then.
#[derive(Debug, Error)]
pub enum IngestError {
    /// A number is missing before this one.
    #[error("change {got} of device {device} came before change {expected}")]
    Gap {
        /// Whose series.
        device: Uuid,
        /// The next number that fits.
        expected: u64,
        /// The number that came.
        got: u64,
    },
    /// The number is taken by other content: the device was copied or set back.
    #[error("change {seq} of device {device} differs from the one already here")]
    Fork {
        /// Whose series.
        device: Uuid,
        /// The number.
        seq: u64,
        /// Whether the series is this device's own; it then takes a new id.
        own: bool,
    },
    /// Not a possible change.
    #[error("change {seq} of device {device} is malformed: {reason}")]
    Malformed {
        /// Whose series.
        device: Uuid,
        /// The number.
        seq: u64,
        /// What is wrong.
        reason: &'static str,
    },
    /// The store failed.
    #[error(transparent)]
    Store(#[from] StoreError),
}

impl From<rusqlite::Error> for IngestError {
    fn from(error: rusqlite::Error) -> Self {
        IngestError::Store(error.into())
    }
}
