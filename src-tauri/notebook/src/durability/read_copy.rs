//! Reading a notebook that cannot be opened where it lies: its folder may only be
//! read, or it lacks what it showed as saved. SQLite wants to write beside a file even
//! to read it, and an older notebook is brought up to date first, so a copy is read.

use std::fs;
use std::path::Path;
use std::time::SystemTime;

use tempfile::TempDir;

use super::lease::OnDisk;
use super::{check, files};
use crate::clock::Clock;
use crate::error::StoreError;
use crate::ids::Randomness;
use crate::notebook::Notebook;

/// Tries before a notebook that changes under the copy is given up.
const TRIES: u32 = 5;

/// The copy that a notebook is read from, removed when dropped.
pub(crate) struct ReadCopy {
    _folder: TempDir,
    /// What lay in the original's place.
    pub found: OnDisk,
}

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
        let folder = tempfile::tempdir().map_err(files::failed("cannot be copied", path))?;
        let copy = folder.path().join("notebook.db");
        let found = copied(path, &copy)?;
        let mut notebook = Notebook::open_alone(&copy, clock, randomness)?;
        if found.wal
            && let Some(fault) = check::integrity(notebook.db())?.into_iter().next()
        {
            return Err(StoreError::Damaged(fault));
        }
        notebook.lies_at(
            path,
            ReadCopy {
                _folder: folder,
                found,
            },
        );
        Ok(notebook)
    }
}

/// Copies the file and its -wal as they stand at one time.
fn copied(from: &Path, to: &Path) -> Result<OnDisk, StoreError> {
    let wal = files::beside(from, "-wal");
    for _ in 0..TRIES {
        let before = (stand(from), stand(&wal));
        let found = OnDisk::at(from);
        files::make_private(to);
        fs::copy(from, to).map_err(files::failed("cannot be copied", from))?;
        if found.wal {
            fs::copy(&wal, files::beside(to, "-wal"))
                .map_err(files::failed("cannot be copied", &wal))?;
        }
        // The copy is written to, whatever the rights of the original.
        set_writable(to);
        set_writable(&files::beside(to, "-wal"));
        if before == (stand(from), stand(&wal)) {
            return Ok(found);
        }
    }
    Err(StoreError::InUse)
}

/// Length of a file and when it was last written.
fn stand(path: &Path) -> Option<(u64, Option<SystemTime>)> {
    let file = fs::metadata(path).ok()?;
    Some((file.len(), file.modified().ok()))
}

fn set_writable(path: &Path) {
    if let Ok(file) = fs::metadata(path) {
        let mut rights = file.permissions();
        #[cfg(unix)]
        {
            use std::os::unix::fs::PermissionsExt as _;
            rights.set_mode(0o600);
        }
        #[cfg(not(unix))]
        rights.set_readonly(false);
        let _ = fs::set_permissions(path, rights);
    }
}
