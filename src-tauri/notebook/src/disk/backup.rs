//! Backups: whole copies of a notebook, made while it is in use.
//!
//! A copy is written under another name, closed, opened again as it lies on the
//! disk, checked page by page and change by change, and only then gets its name.
//! So a file that is called a backup is one.

use std::fs;
use std::path::{Path, PathBuf};
use std::thread;
use std::time::Duration;

use chrono::{DateTime, FixedOffset, NaiveDateTime, Timelike as _};
use rusqlite::backup::{Backup, StepResult};
use rusqlite::{Connection, OpenFlags};

use super::files;
use super::integrity::integrity;
use super::lease::close_mark;
use super::log_faults::log_faults;
use crate::error::StoreError;
use crate::log;

/// Folder of the backups, beside the notebook.
const FOLDER: &str = "backups";
/// Behind the name of a copy that is not finished.
const MAKING: &str = "-making";
/// Backups of this folder that are kept; older ones make room for newer.
const KEPT: usize = 5;
/// The time in a backup's name.
const TIME: &str = "%Y-%m-%d-%H%M%S";
/// Pages copied before others may write: about 4 MB.
const PAGES: i32 = 1024;
/// Tries while another program writes.
const TRIES: u32 = 200;
const PAUSE: Duration = Duration::from_millis(25);

/// A backup as it lies on the disk.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct BackupFile {
    /// Path of the file.
    pub path: PathBuf,
    /// Its size.
    pub bytes: u64,
    /// When it was made, local time, by its name; none where the name says nothing.
    pub made_at: Option<NaiveDateTime>,
    /// Which of those made within the same second.
    count: u32,
}

/// The folder in which a notebook's backups lie.
pub fn folder_of(notebook: &Path) -> PathBuf {
    notebook.with_file_name(FOLDER)
}

/// A name for a new backup of the notebook, with the time in it.
pub fn new_name(notebook: &Path, now: DateTime<FixedOffset>) -> PathBuf {
    let stem = notebook.file_stem().unwrap_or_default().to_string_lossy();
    let ending = notebook
        .extension()
        .map(|ending| format!(".{}", ending.to_string_lossy()))
        .unwrap_or_default();
    let second = now.naive_local().with_nanosecond(0);
    // Higher than any of this second, so that the newest is always the last.
    let count = backups(notebook)
        .iter()
        .filter(|other| other.made_at == second)
        .map(|other| other.count + 1)
        .max()
        .unwrap_or(1);
    let count = match count {
        1 => String::new(),
        count => format!("-{count}"),
    };
    let time = now.format(TIME);
    folder_of(notebook).join(format!("{stem}-{time}{count}{ending}"))
}

/// The backups of a notebook in its own folder, the newest first.
pub fn backups(notebook: &Path) -> Vec<BackupFile> {
    let stem = notebook.file_stem().unwrap_or_default().to_string_lossy();
    let Ok(listed) = fs::read_dir(folder_of(notebook)) else {
        return Vec::new();
    };
    let mut found: Vec<BackupFile> = listed
        .filter_map(|entry| {
            let entry = entry.ok()?;
            let path = entry.path();
            if path.extension() != notebook.extension() {
                return None;
            }
            let name = path.file_stem()?.to_string_lossy().into_owned();
            let time = name.strip_prefix(stem.as_ref())?.strip_prefix('-')?;
            let made_at = NaiveDateTime::parse_from_str(time.get(..17)?, TIME).ok()?;
            let count = match time.get(17..)? {
                "" => 1,
                more => more.strip_prefix('-')?.parse().ok()?,
            };
            Some(BackupFile {
                bytes: entry.metadata().ok()?.len(),
                made_at: Some(made_at),
                count,
                path,
            })
        })
        .collect();
    found.sort_by_key(|made| std::cmp::Reverse((made.made_at, made.count)));
    found
}

/// Copies in the folder of backups that were not finished.
pub(crate) fn unfinished(notebook: &Path) -> Vec<PathBuf> {
    let stem = notebook.file_stem().unwrap_or_default().to_string_lossy();
    let starts = format!("{stem}-");
    let listed = fs::read_dir(folder_of(notebook));
    let named = |path: &PathBuf| {
        let name = path.file_name().unwrap_or_default().to_string_lossy();
        name.starts_with(&starts) && name.ends_with(MAKING)
    };
    let paths = listed.into_iter().flatten().flatten().map(|it| it.path());
    paths.filter(named).collect()
}

/// Copies the notebook that `from` has open to `to`, which must not be there yet.
///
/// # Errors
/// When `to` is there, the disk is full, or the copy is not whole; nothing is left
/// at `to` then.
pub fn back_up(from: &Connection, to: &Path) -> Result<BackupFile, StoreError> {
    if to.exists() {
        return Err(StoreError::Taken(to.to_owned()));
    }
    let making = files::beside(to, MAKING);
    files::discard(&making)?;
    let made = copy(from, &making).and_then(|()| {
        fs::rename(&making, to).map_err(files::failed("cannot be moved", &making))?;
        files::sync_folder_of(to)?;
        let bytes = fs::metadata(to)
            .map_err(files::failed("cannot be read", to))?
            .len();
        Ok(BackupFile {
            path: to.to_owned(),
            bytes,
            made_at: None,
            count: 1,
        })
    });
    if made.is_err() {
        // What is half made takes room that may be the very thing missing.
        let _ = files::discard(&making);
    }
    made
}

/// Makes a backup in the notebook's own folder of backups, and lets the oldest go
/// where there are more than a handful.
///
/// # Errors
/// As [`back_up`].
pub fn back_up_beside(
    from: &Connection,
    notebook: &Path,
    now: DateTime<FixedOffset>,
) -> Result<BackupFile, StoreError> {
    let folder = folder_of(notebook);
    fs::create_dir_all(&folder).map_err(files::failed("cannot be made", &folder))?;
    let made = BackupFile {
        made_at: now.naive_local().with_nanosecond(0),
        ..back_up(from, &new_name(notebook, now))?
    };
    for old in backups(notebook).into_iter().skip(KEPT) {
        // One too many does no harm.
        let _ = fs::remove_file(old.path);
    }
    Ok(made)
}

fn copy(from: &Connection, making: &Path) -> Result<(), StoreError> {
    // One state of it all, which others may go on from meanwhile.
    let from = from.unchecked_transaction()?;
    let held = log::heads(&from)?;
    files::make_private(making);
    let mut into = Connection::open(files::as_name(making))?;
    {
        let backup = Backup::new(&from, &mut into)?;
        let mut waited = 0;
        loop {
            match backup.step(PAGES)? {
                StepResult::Done => break,
                StepResult::Busy | StepResult::Locked if waited >= TRIES => {
                    return Err(StoreError::InUse);
                }
                StepResult::Busy | StepResult::Locked => {
                    waited += 1;
                    thread::sleep(PAUSE);
                }
                _ => {}
            }
        }
    }
    // One file that needs nothing beside it, and says so.
    close_mark(&into)?;
    into.query_row("PRAGMA journal_mode = DELETE", [], |_| Ok(()))?;
    into.close().map_err(|(_, error)| error)?;
    files::sync(making)?;

    let copy = open_to_read(making)?;
    if let Some(fault) = integrity(&copy)?.into_iter().next() {
        return Err(StoreError::Damaged(format!(
            "the copy is not sound: {fault}"
        )));
    }
    let (_, faults) = log_faults(&copy)?;
    if let Some(fault) = faults.first() {
        return Err(StoreError::Damaged(format!(
            "the copy is not whole: {fault}"
        )));
    }
    for (device, head) in held {
        if log::digest_at(&copy, device, head.seq)? != Some(head.digest) {
            return Err(StoreError::Damaged(format!(
                "the copy lacks change {} of device {device}",
                head.seq
            )));
        }
    }
    Ok(())
}

/// Opens a file that is only looked at.
pub(crate) fn open_to_read(path: &Path) -> Result<Connection, StoreError> {
    let db = Connection::open_with_flags(
        files::as_name(path),
        OpenFlags::SQLITE_OPEN_READ_ONLY | OpenFlags::SQLITE_OPEN_NO_MUTEX,
    )?;
    db.busy_timeout(Duration::from_secs(5))?;
    db.execute_batch("PRAGMA trusted_schema = OFF; PRAGMA cell_size_check = ON;")?;
    Ok(db)
}
