//! Why an archive was refused.

use std::io;

use thiserror::Error;
use uuid::Uuid;
use zip::result::ZipError;

use crate::error::{IngestError, StoreError};

/// Why an archive was refused. Nothing of it is stored then.
#[derive(Debug, Error)]
pub enum ArchiveFault {
    /// No zip file, or cut off.
    #[error(
        "the file is no archive of a notebook, or was cut off ({0}): have it made or sent again"
    )]
    NoArchive(String),
    /// It cannot be read from where it lies.
    #[error("the file cannot be read: {0}")]
    Unreadable(io::Error),
    /// A zip file of something else.
    #[error("the file is a zip file but no notebook: it has no '{0}'")]
    EntryMissing(&'static str),
    /// Of a later version.
    #[error(
        "the archive has version {found}, this Headwalk reads up to {known}: use the newer version"
    )]
    FromNewerApp {
        /// In the file.
        found: u32,
        /// The newest this version reads.
        known: u32,
    },
    /// The manifest says something that cannot be.
    #[error("the archive's list of contents cannot be used ({0}): have it made again")]
    Manifest(String),
    /// An entry's name leads out of the archive, or is otherwise not to be had.
    #[error("the archive holds '{0}', which no archive of a notebook holds: do not trust it")]
    Name(String),
    /// Encrypted, linked, overlapping, or packed in a way that is not used.
    #[error("'{name}' in the archive is {what}: do not trust it")]
    Packed {
        /// Which entry.
        name: String,
        /// What is wrong.
        what: &'static str,
    },
    /// More than a notebook can be.
    #[error("the archive unpacks to more than {most} MB: do not trust it")]
    TooLarge {
        /// What may be.
        most: u64,
    },
    /// An entry is not what the manifest says.
    #[error("'{0}' in the archive is damaged: have it made or sent again")]
    Damaged(String),
    /// A line of the log is no change.
    #[error("line {line} of the archive's log is no change ({reason}): have it made again")]
    Line {
        /// From 1.
        line: u64,
        /// What is wrong.
        reason: String,
    },
    /// Changes of a series whose writer is known here, without its writer's seal.
    #[error(
        "change {seq} of device {device} in the archive was not signed by that device: do not trust it"
    )]
    NotSigned {
        /// Whose series.
        device: Uuid,
        /// The number.
        seq: u64,
    },
    /// A series under another key than the one it was first seen with.
    #[error(
        "the archive names another key for device {0} than the one known here: do not trust it"
    )]
    OtherKey(Uuid),
    /// Somebody asked to stop.
    #[error("stopped; nothing was stored")]
    Stopped,
    /// The log does not fit what is here.
    #[error("the archive's log does not hold together ({0}): have it made again")]
    Log(IngestError),
    /// The notebook failed.
    #[error(transparent)]
    Store(#[from] StoreError),
}

impl From<ZipError> for ArchiveFault {
    fn from(error: ZipError) -> Self {
        match error {
            ZipError::Io(error) => error.into(),
            other => ArchiveFault::NoArchive(other.to_string()),
        }
    }
}

/// A file that ends early or does not unpack is told by the kind of the error.
impl From<io::Error> for ArchiveFault {
    fn from(error: io::Error) -> Self {
        match error.kind() {
            io::ErrorKind::UnexpectedEof
            | io::ErrorKind::InvalidData
            | io::ErrorKind::InvalidInput
            | io::ErrorKind::Other => ArchiveFault::NoArchive(error.to_string()),
            _ => ArchiveFault::Unreadable(error),
        }
    }
}

impl From<IngestError> for ArchiveFault {
    fn from(error: IngestError) -> Self {
        match error {
            IngestError::Store(error) => ArchiveFault::Store(error),
            other => ArchiveFault::Log(other),
        }
    }
}
