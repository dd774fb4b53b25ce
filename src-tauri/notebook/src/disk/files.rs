//! Files beside a notebook, and putting one in another's place.

use std::ffi::OsString;
use std::fs::{self, File, OpenOptions};
use std::io;
use std::path::{Path, PathBuf};

use chrono::{DateTime, FixedOffset};

use super::last_saved;
use crate::clock::{Clock as _, SystemClock};
use crate::error::StoreError;

/// A replacement that is complete and waits to take the notebook's place.
const NEXT: &str = "-next";
/// What stands in the name of a notebook that was set aside: it was damaged, or a
/// backup took its place.
pub(crate) const DAMAGED: &str = "damaged";
pub(crate) const BEFORE_RESTORE: &str = "before-restore";
const ASIDE: [&str; 2] = [DAMAGED, BEFORE_RESTORE];
/// What belongs to a notebook's file and goes where it goes.
const COMPANIONS: [&str; 3] = ["-wal", "-shm", last_saved::ENDING];
/// Endings of copies of ours that are not finished.
pub(crate) const RESTORING: &str = "-restoring";
pub(crate) const SALVAGING: &str = "-salvaging";

/// The file's path with something behind its name.
pub(crate) fn beside(path: &Path, ending: &str) -> PathBuf {
    let mut name = path.file_name().map_or_else(OsString::new, OsString::from);
    name.push(ending);
    path.with_file_name(name)
}

/// A path as SQLite is to be given it: a name that begins with `file:` or a colon
/// means something else there.
pub(crate) fn as_name(path: &Path) -> PathBuf {
    if path.is_relative() {
        Path::new(".").join(path)
    } else {
        path.to_owned()
    }
}

/// A file made with these options is its owner's alone.
pub(crate) fn private(options: &mut OpenOptions) -> &mut OpenOptions {
    #[cfg(unix)]
    {
        use std::os::unix::fs::OpenOptionsExt as _;
        options.mode(0o600);
    }
    options
}

/// Makes an empty file that is its owner's alone, where there is none; trouble is
/// told by whoever writes to it.
pub(crate) fn make_private(path: &Path) {
    let _ = private(OpenOptions::new().write(true).create_new(true)).open(path);
}

/// Takes a file of ours out of the sight of others. One that is not ours stays as
/// it is.
pub(crate) fn keep_private(path: &Path) {
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt as _;
        let shared = fs::metadata(path)
            .is_ok_and(|file| file.is_file() && file.permissions().mode() & 0o077 != 0);
        if shared {
            let _ = fs::set_permissions(path, fs::Permissions::from_mode(0o600));
        }
    }
    #[cfg(not(unix))]
    let _ = path;
}

/// Takes a notebook and all that lies beside it out of the sight of others.
pub(crate) fn keep_all_private(notebook: &Path) {
    keep_private(notebook);
    for ending in COMPANIONS {
        keep_private(&beside(notebook, ending));
    }
    keep_private(&super::hold::lock_path(notebook));
    for path in set_aside(notebook) {
        keep_private(&path);
    }
    for backup in super::backup::backups(notebook) {
        keep_private(&backup.path);
    }
}

/// Takes away what a program left half made that was killed at it. Only while nobody
/// else has the notebook open.
pub(crate) fn discard_unfinished(notebook: &Path) {
    for ending in [RESTORING, SALVAGING] {
        // One that cannot be removed takes room and does no other harm.
        let _ = discard(&beside(notebook, ending));
    }
    for making in super::backup::unfinished(notebook) {
        let _ = discard(&making);
    }
}

/// `notebook.db` with a word and the time: `notebook-WORD-2026-09-16-143000.db`.
/// Where that is taken, a count goes behind it.
pub(crate) fn dated(path: &Path, word: &str, now: DateTime<FixedOffset>) -> PathBuf {
    let stem = path
        .file_stem()
        .unwrap_or_default()
        .to_string_lossy()
        .into_owned();
    let ending = path
        .extension()
        .map(|ending| format!(".{}", ending.to_string_lossy()))
        .unwrap_or_default();
    let time = now.format("%Y-%m-%d-%H%M%S");
    let word = if word.is_empty() {
        String::new()
    } else {
        format!("-{word}")
    };
    (1..)
        .map(|count| match count {
            1 => format!("{stem}{word}-{time}{ending}"),
            _ => format!("{stem}{word}-{time}-{count}{ending}"),
        })
        .map(|name| path.with_file_name(name))
        .find(|path| !path.exists())
        .unwrap_or_else(|| path.to_owned())
}

/// Whether notebooks lie beside this one that it took the place of. They may name
/// what this one does not know of.
pub(crate) fn others_were_set_aside(notebook: &Path) -> bool {
    !set_aside(notebook).is_empty()
}

fn set_aside(notebook: &Path) -> Vec<PathBuf> {
    let stem = notebook.file_stem().unwrap_or_default().to_string_lossy();
    let starts = ASIDE.map(|word| format!("{stem}-{word}-"));
    let folder = match notebook.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder,
        _ => Path::new("."),
    };
    let named = |entry: &fs::DirEntry| {
        let name = entry.file_name();
        let name = name.to_string_lossy();
        starts.iter().any(|start| name.starts_with(start))
    };
    let entries = fs::read_dir(folder).into_iter().flatten().flatten();
    entries.filter(named).map(|entry| entry.path()).collect()
}

/// Trouble with a file, in words.
pub(crate) fn failed(what: &'static str, path: &Path) -> impl FnOnce(io::Error) -> StoreError {
    let path = path.to_owned();
    move |source| StoreError::File { what, path, source }
}

/// What was written is on the disk when this returns.
pub(crate) fn sync(path: &Path) -> Result<(), StoreError> {
    // Windows flushes only what is open for writing.
    fs::OpenOptions::new()
        .read(true)
        .write(true)
        .open(path)
        .and_then(|file| file.sync_all())
        .map_err(failed("cannot be written out", path))
}

/// A renaming is on the disk when this returns.
pub(crate) fn sync_folder_of(path: &Path) -> Result<(), StoreError> {
    let folder = match path.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder,
        _ => Path::new("."),
    };
    if cfg!(unix) {
        File::open(folder)
            .and_then(|folder| folder.sync_all())
            .map_err(failed("cannot be written out", folder))?;
    }
    Ok(())
}

/// Moves a file; what SQLite keeps beside it goes along.
pub(crate) fn move_with_companions(from: &Path, to: &Path) -> Result<(), StoreError> {
    // The companions first: a database without its -wal would be taken for whole.
    for ending in COMPANIONS {
        let companion = beside(from, ending);
        if companion.exists() {
            fs::rename(&companion, beside(to, ending))
                .map_err(failed("cannot be moved", &companion))?;
        }
    }
    fs::rename(from, to).map_err(failed("cannot be moved", from))
}

/// Takes away an unfinished copy of ours, if there is one.
pub(crate) fn discard(path: &Path) -> Result<(), StoreError> {
    for path in [
        path.to_owned(),
        beside(path, "-wal"),
        beside(path, "-shm"),
        beside(path, "-journal"),
        beside(path, last_saved::ENDING),
    ] {
        match fs::remove_file(&path) {
            Err(error) if error.kind() != io::ErrorKind::NotFound => {
                return Err(failed("cannot be removed", &path)(error));
            }
            _ => {}
        }
    }
    Ok(())
}

/// Puts a complete notebook in the place of another, which is set aside under a
/// dated name. Interrupted at any point, [`finish`] brings it to its end.
pub(crate) fn replace(
    notebook: &Path,
    complete: &Path,
    word: &str,
    now: DateTime<FixedOffset>,
) -> Result<Option<PathBuf>, StoreError> {
    sync(complete)?;
    let next = beside(notebook, NEXT);
    fs::rename(complete, &next).map_err(failed("cannot be moved", complete))?;
    sync_folder_of(notebook)?;
    let aside = if notebook.exists() {
        let aside = dated(notebook, word, now);
        move_with_companions(notebook, &aside)?;
        sync_folder_of(notebook)?;
        Some(aside)
    } else {
        None
    };
    finish(notebook)?;
    Ok(aside)
}

/// Ends a replacement that was cut off after the old notebook was set aside. One
/// cut off before that is begun anew by whoever asked for it.
pub(crate) fn finish(notebook: &Path) -> Result<(), StoreError> {
    let next = beside(notebook, NEXT);
    if !notebook.exists() && next.exists() {
        // A companion left by the old one does not belong to this one.
        for ending in COMPANIONS {
            let left = beside(notebook, ending);
            if left.exists() {
                fs::rename(
                    &left,
                    beside(&dated(notebook, "left", SystemClock.now()), ending),
                )
                .map_err(failed("cannot be moved", &left))?;
            }
        }
        fs::rename(&next, notebook).map_err(failed("cannot be moved", &next))?;
        sync_folder_of(notebook)?;
    }
    Ok(())
}
