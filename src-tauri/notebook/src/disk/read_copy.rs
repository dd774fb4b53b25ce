//! A copy of a notebook's files, as they stood at one time, to be read.

use std::fs;
use std::path::{Path, PathBuf};
use std::time::SystemTime;

use tempfile::TempDir;

use super::files;
use super::lease::OnDisk;
use crate::error::StoreError;

/// Tries before a notebook that changes under the copy is given up.
const TRIES: u32 = 5;

/// The copy that a notebook is read from, removed when dropped.
pub(crate) struct ReadCopy {
    folder: TempDir,
    /// What lay in the original's place.
    pub found: OnDisk,
}

impl ReadCopy {
    /// Copies the notebook at `path`.
    pub(crate) fn of(path: &Path) -> Result<ReadCopy, StoreError> {
        let folder = tempfile::tempdir().map_err(files::failed("cannot be copied", path))?;
        let found = copied(path, &within(&folder))?;
        Ok(ReadCopy { folder, found })
    }

    /// The file of the copy.
    pub(crate) fn path(&self) -> PathBuf {
        within(&self.folder)
    }
}

fn within(folder: &TempDir) -> PathBuf {
    folder.path().join("notebook.db")
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
