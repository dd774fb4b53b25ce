//! The last change that the notebook holds, written down in a small file beside it.
//!
//! After every commit the newest change is named here, so that a notebook file or a
//! -wal of an earlier day in the notebook's place is told from the notebook. The file
//! is not waited for (a tap would pay for two disks' worth of waiting): the process
//! may be killed at any point and it is current all the same, and after a power cut
//! it may name an earlier change, which proves less and never something wrong.
//!
//! Two slots are written by turns, each sealed, so that one that was cut off in the
//! middle leaves the other.

use std::fs::{File, OpenOptions, TryLockError};
use std::io::{self, Read as _, Seek as _, SeekFrom, Write as _};
use std::path::{Path, PathBuf};
use std::thread;
use std::time::Duration;

use rusqlite::{Connection, OptionalExtension as _};
use sha2::{Digest as _, Sha256};
use uuid::Uuid;

use super::files;
use crate::clock::{Clock as _, SystemClock};
use crate::error::StoreError;
use crate::log::{self, Digest};

/// Ending of the file's name.
pub(crate) const ENDING: &str = "-last";
/// First bytes of a slot.
const MARKER: [u8; 8] = *b"HwLast1\n";
/// Bytes of a slot that are sealed, and with the seal.
const SEALED: usize = 72;
const SLOT: usize = SEALED + 32;
/// Slots lie in disk blocks of their own.
const APART: u64 = 4096;
/// Tries before the lock of another counts as kept.
const TRIES: u32 = 200;
const PAUSE: Duration = Duration::from_millis(5);

/// A change that was shown as saved, by its place in the log.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct LastSaved {
    /// Device that wrote it.
    pub device: Uuid,
    /// Its number in the device's series.
    pub seq: u64,
    /// Digest of the series up to there.
    pub digest: Digest,
}

impl LastSaved {
    /// The change that came last into this notebook; none in an empty one.
    pub fn of(db: &Connection) -> Result<Option<LastSaved>, StoreError> {
        Ok(db
            .prepare_cached("SELECT device, seq, digest FROM change ORDER BY arrival DESC LIMIT 1")?
            .query_row([], |row| {
                Ok(LastSaved {
                    device: row.get(0)?,
                    seq: row.get(1)?,
                    digest: row.get(2)?,
                })
            })
            .optional()?)
    }

    /// Whether a notebook holds it, also where its branch moved to another series.
    pub fn is_in(&self, db: &Connection) -> bool {
        if let Ok(Some(digest)) = log::digest_at(db, self.device, self.seq) {
            return digest == self.digest;
        }
        db.query_row(
            "SELECT EXISTS (SELECT 1 FROM moved_series JOIN change
                ON change.device = moved_series.series
               AND change.seq = ?2 - moved_series.first + 1
             WHERE moved_series.device = ?1 AND moved_series.first <= ?2)",
            (self.device, self.seq),
            |row| row.get(0),
        )
        .unwrap_or(false)
    }
}

/// The open file.
pub(crate) struct LastSavedFile {
    file: File,
}

/// Where the file of a notebook lies.
pub(crate) fn path_of(notebook: &Path) -> PathBuf {
    files::beside(notebook, ENDING)
}

/// Moves the file out of the way of a new notebook, where the one it speaks of is
/// gone altogether.
pub(crate) fn set_aside(notebook: &Path) {
    let from = path_of(notebook);
    if from.exists() {
        let left = files::dated(notebook, "left", SystemClock.now());
        let _ = std::fs::rename(&from, path_of(&left));
    }
}

/// What the file beside a notebook names; none where there is none, or nothing in it
/// that its seal fits.
pub(crate) fn read(notebook: &Path) -> Option<LastSaved> {
    newest(&File::open(path_of(notebook)).ok()?).map(|(_, _, last)| last)
}

impl LastSavedFile {
    /// The file beside a notebook, made where there is none; none where it cannot be
    /// written.
    pub fn beside(notebook: &Path) -> Option<LastSavedFile> {
        let file = files::private(OpenOptions::new().read(true).write(true).create(true))
            .open(path_of(notebook))
            .ok()?;
        Some(LastSavedFile { file })
    }

    /// What it names.
    pub fn last(&self) -> Option<LastSaved> {
        newest(&self.file).map(|(_, _, last)| last)
    }

    /// Keeps the other programs from writing and closing, but does not wait for ever.
    pub fn lock(&self) {
        for _ in 0..TRIES {
            match self.file.try_lock() {
                Err(TryLockError::WouldBlock) => thread::sleep(PAUSE),
                // A system without such locks: a phone, where one program runs alone.
                Ok(()) | Err(TryLockError::Error(_)) => return,
            }
        }
    }

    /// Names the notebook's newest change. Read and written under one lock: a program
    /// that committed earlier never names its change over a later one.
    pub fn note(&self, db: &Connection) -> Result<(), StoreError> {
        self.lock();
        let noted = LastSaved::of(db).map(|last| {
            if let Some(last) = last {
                // An earlier name proves less and is still right.
                let _ = self.write(last);
            }
        });
        let _ = self.file.unlock();
        noted
    }

    /// Waits until what it names is on the disk.
    pub fn sync(&self) {
        let _ = self.file.sync_data();
    }

    fn write(&self, last: LastSaved) -> io::Result<()> {
        let (count, slot) = match newest(&self.file) {
            Some((_, _, known)) if known == last => return Ok(()),
            Some((count, slot, _)) => (count + 1, 1 - slot),
            None => (1, 0),
        };
        let mut bytes = Vec::with_capacity(SLOT);
        bytes.extend_from_slice(&MARKER);
        bytes.extend_from_slice(&count.to_be_bytes());
        bytes.extend_from_slice(last.device.as_bytes());
        bytes.extend_from_slice(&last.seq.to_be_bytes());
        bytes.extend_from_slice(&last.digest);
        bytes.extend_from_slice(&Sha256::digest(&bytes));
        let mut file = &self.file;
        file.seek(SeekFrom::Start(slot * APART))?;
        file.write_all(&bytes)
    }
}

/// The newest slot that its seal fits: its count, which it is, and what it names.
fn newest(file: &File) -> Option<(u64, u64, LastSaved)> {
    (0..2)
        .filter_map(|slot| {
            let mut file = file;
            let mut bytes = [0; SLOT];
            file.seek(SeekFrom::Start(slot * APART)).ok()?;
            file.read_exact(&mut bytes).ok()?;
            let (count, last) = parse(&bytes)?;
            Some((count, slot, last))
        })
        .max_by_key(|(count, ..)| *count)
}

fn parse(bytes: &[u8; SLOT]) -> Option<(u64, LastSaved)> {
    let (sealed, seal) = bytes.split_at(SEALED);
    if Sha256::digest(sealed).as_slice() != seal {
        return None;
    }
    let rest = sealed.strip_prefix(&MARKER)?;
    let (count, rest) = rest.split_first_chunk::<8>()?;
    let (device, rest) = rest.split_first_chunk::<16>()?;
    let (seq, rest) = rest.split_first_chunk::<8>()?;
    let (digest, _) = rest.split_first_chunk::<32>()?;
    let last = LastSaved {
        device: Uuid::from_bytes(*device),
        seq: u64::from_be_bytes(*seq),
        digest: *digest,
    };
    Some((u64::from_be_bytes(*count), last))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn saved(seq: u64) -> LastSaved {
        LastSaved {
            device: Uuid::from_u128(7),
            seq,
            digest: [3; 32],
        }
    }

    #[test]
    fn a_slot_that_was_cut_off_leaves_the_one_before_it() {
        let folder = tempfile::tempdir().unwrap();
        let notebook = folder.path().join("notebook.db");
        let file = LastSavedFile::beside(&notebook).unwrap();
        assert_eq!(read(&notebook), None);
        for seq in 1..=4 {
            file.write(saved(seq)).unwrap();
            assert_eq!(read(&notebook), Some(saved(seq)));
        }
        // The fourth lies in the second slot.
        let mut bytes = std::fs::read(path_of(&notebook)).unwrap();
        bytes[4096 + 40] ^= 1;
        std::fs::write(path_of(&notebook), &bytes).unwrap();
        assert_eq!(read(&notebook), Some(saved(3)));
        bytes[40] ^= 1;
        std::fs::write(path_of(&notebook), &bytes).unwrap();
        assert_eq!(read(&notebook), None);
    }
}
