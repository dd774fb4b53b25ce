//! What a face is told when a request cannot be carried out.

use std::io::ErrorKind;

use rusqlite::ErrorCode;
use serde::{Deserialize, Serialize};
use thiserror::Error;

use kinds::one_line;
use notebook::error::StoreError;
use readers::head_file::HeadFileError;

/// The few kinds of trouble a face can act on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum ProblemCode {
    /// The input is not usable; nothing was stored.
    BadInput,
    /// The thing named does not exist (any more).
    NotFound,
    /// The request does not fit what is stored, for instance a head for a removed stop.
    Conflict,
    /// No room on the device; nothing was stored, what was stored before is whole.
    DiskFull,
    /// The notebook may be read but not written; nothing was stored.
    ReadOnly,
    /// The notebook is in use or cannot be reached; try again.
    Unavailable,
    /// The notebook was written by a newer version of the app; nothing was touched.
    FromNewerApp,
    /// The notebook file is damaged.
    Damaged,
    /// The notebook lacks changes that were shown as saved; nothing was touched.
    Incomplete,
    /// Stopped as was asked; nothing was stored.
    Stopped,
    /// A fault of ours.
    Internal,
}

/// One clear line: what, where, what to do.
#[derive(Debug, Clone, PartialEq, Eq, Error, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
#[error("{message}")]
pub struct Problem {
    /// Kind of trouble; the screens have words for each in every language.
    pub code: ProblemCode,
    /// What and where, in English, for the log and the command line.
    pub message: String,
}

impl Problem {
    /// The input cannot be used.
    pub fn bad_input(message: impl Into<String>) -> Problem {
        Problem {
            code: ProblemCode::BadInput,
            message: one_line(&message.into()),
        }
    }

    /// The thing named is not there (any more).
    pub fn not_found(what: &str) -> Problem {
        Problem {
            code: ProblemCode::NotFound,
            message: format!("this {what} is not in the notebook (any more): go back to the list"),
        }
    }

    /// The request does not fit what is stored.
    pub fn conflict(message: impl Into<String>) -> Problem {
        Problem {
            code: ProblemCode::Conflict,
            message: message.into(),
        }
    }
}

/// The one place where trouble of the store gets its code.
impl From<StoreError> for Problem {
    fn from(error: StoreError) -> Problem {
        let (code, message) = match &error {
            StoreError::Sqlite(sqlite) => return of_sqlite(sqlite),
            StoreError::Migration(rusqlite_migration::Error::RusqliteError { err, .. }) => {
                return of_sqlite(err);
            }
            StoreError::FromNewerApp { .. } => (ProblemCode::FromNewerApp, error.to_string()),
            StoreError::NotANotebook
            | StoreError::Unwritable(_)
            | StoreError::OutOfBounds(_)
            | StoreError::Taken(_) => (ProblemCode::BadInput, error.to_string()),
            StoreError::ReadOnly => (ProblemCode::ReadOnly, error.to_string()),
            StoreError::InUse => (ProblemCode::Unavailable, error.to_string()),
            StoreError::File { source, .. } => {
                let code = match source.kind() {
                    ErrorKind::StorageFull | ErrorKind::QuotaExceeded => ProblemCode::DiskFull,
                    ErrorKind::PermissionDenied | ErrorKind::ReadOnlyFilesystem => {
                        ProblemCode::ReadOnly
                    }
                    _ => ProblemCode::Unavailable,
                };
                (code, error.to_string())
            }
            StoreError::Damaged(_) => (ProblemCode::Damaged, error.to_string()),
            StoreError::Lacks(_) => (ProblemCode::Incomplete, error.to_string()),
            StoreError::Photo(disk) => return of_disk(disk, &error),
            StoreError::PhotoDamaged(_) => (
                ProblemCode::NotFound,
                format!("{error}: fetch it from the hub again, or take it again"),
            ),
            StoreError::NoPhotoFolder => (ProblemCode::Unavailable, error.to_string()),
            StoreError::Migration(_) | StoreError::Json(_) | StoreError::Randomness(_) => {
                (ProblemCode::Internal, error.to_string())
            }
        };
        Problem { code, message }
    }
}

impl From<rusqlite::Error> for Problem {
    fn from(error: rusqlite::Error) -> Problem {
        of_sqlite(&error)
    }
}

impl From<notebook::photo::PictureError> for Problem {
    fn from(error: notebook::photo::PictureError) -> Problem {
        Problem::bad_input(error.to_string())
    }
}

impl From<HeadFileError> for Problem {
    fn from(error: HeadFileError) -> Problem {
        Problem::bad_input(error.to_string())
    }
}

fn of_disk(disk: &std::io::Error, error: &StoreError) -> Problem {
    let (code, words) = match disk.kind() {
        ErrorKind::StorageFull | ErrorKind::QuotaExceeded => (
            ProblemCode::DiskFull,
            "the device is full: the photo was not stored, make room and try again",
        ),
        ErrorKind::PermissionDenied | ErrorKind::ReadOnlyFilesystem => (
            ProblemCode::ReadOnly,
            "photos may not be written beside the notebook: check the rights of its folder",
        ),
        _ => (
            ProblemCode::Unavailable,
            "the device failed to read or write a photo: try again",
        ),
    };
    Problem {
        code,
        message: format!("{words} ({error})"),
    }
}
/// What SQLite says when the file of its shared memory finds no room.
const NO_ROOM_FOR_SHARED_MEMORY: i32 = rusqlite::ffi::SQLITE_IOERR_SHMSIZE;

fn is_of_another_kind(error: &rusqlite::Error) -> bool {
    matches!(
        error,
        rusqlite::Error::FromSqlConversionFailure(..)
            | rusqlite::Error::IntegralValueOutOfRange(..)
            | rusqlite::Error::InvalidColumnType(..)
            | rusqlite::Error::Utf8Error(..)
    )
}

fn of_sqlite(error: &rusqlite::Error) -> Problem {
    let extended = error.sqlite_error().map(|error| error.extended_code);
    let known = match extended {
        Some(NO_ROOM_FOR_SHARED_MEMORY) => Some(ErrorCode::DiskFull),
        // A value that is not of its column's kind was altered on the disk.
        _ if is_of_another_kind(error) => Some(ErrorCode::DatabaseCorrupt),
        _ => error.sqlite_error_code(),
    };
    let (code, words) = match known {
        Some(ErrorCode::DiskFull) => (
            ProblemCode::DiskFull,
            "the device is full: nothing of this was stored, make room and try again",
        ),
        Some(ErrorCode::DatabaseBusy | ErrorCode::DatabaseLocked) => (
            ProblemCode::Unavailable,
            "the notebook is in use by another program: try again",
        ),
        Some(ErrorCode::ReadOnly | ErrorCode::PermissionDenied) => (
            ProblemCode::ReadOnly,
            "the notebook may not be written to: check the rights of its file and folder",
        ),
        Some(ErrorCode::CannotOpen) => (
            ProblemCode::Unavailable,
            "the notebook cannot be opened: check that its folder exists and may be written to",
        ),
        Some(ErrorCode::SystemIoFailure) => (
            ProblemCode::Unavailable,
            "the device failed to read or write the notebook: nothing of this was stored, try again",
        ),
        Some(ErrorCode::OperationInterrupted) => (
            ProblemCode::Stopped,
            "stopped, since Headwalk was closed: nothing of this was stored",
        ),
        Some(ErrorCode::DatabaseCorrupt | ErrorCode::NotADatabase) => (
            ProblemCode::Damaged,
            "the notebook is damaged: close what has it open and let Headwalk save what can be read",
        ),
        _ => (ProblemCode::Internal, "the notebook failed"),
    };
    let error = error.to_string();
    Problem {
        code,
        // A statement stands on several lines.
        message: format!("{words} ({})", error.lines().next().unwrap_or_default()),
    }
}
