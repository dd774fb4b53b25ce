//! A backup in the place of the notebook.

use std::fs;
use std::path::{Path, PathBuf};

use crate::clock::Clock;
use crate::disk::backup::open_to_read;
use crate::disk::files;
use crate::disk::hold::Hold;
use crate::disk::integrity::integrity;
use crate::disk::lease::{OnDisk, close_mark};
use crate::disk::log_faults::log_faults;
use crate::error::StoreError;
use crate::ids::Randomness;
use crate::notebook::Notebook;
use crate::open;

/// What a restore did.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Restored {
    /// Where the notebook lies that was in its place, if there was one.
    pub set_aside: Option<PathBuf>,
    /// Changes in the notebook now.
    pub changes: u64,
}

/// Puts a backup in the place of the notebook at `path`. What lay there is set
/// aside, never deleted. The device writes under a new id from then on: what it
/// wrote after the backup may lie in a crew's hub under the old one.
///
/// # Errors
/// When the backup is not whole or lacks what it once held, or another program has the notebook open; the
/// notebook stays as it is then.
pub fn restore(
    path: &Path,
    backup: &Path,
    clock: Box<dyn Clock>,
    randomness: Box<dyn Randomness>,
) -> Result<Restored, StoreError> {
    let _hold = Hold::against_all(path)?;
    let now = clock.now();
    let restoring = files::beside(path, files::RESTORING);
    files::discard(&restoring)?;
    let restored = (|| {
        let on_disk = OnDisk::at(backup);
        files::make_private(&restoring);
        fs::copy(backup, &restoring).map_err(files::failed("cannot be copied", backup))?;
        let wal = files::beside(backup, "-wal");
        if on_disk.wal {
            fs::copy(&wal, files::beside(&restoring, "-wal"))
                .map_err(files::failed("cannot be copied", &wal))?;
        }
        files::keep_all_private(&restoring);
        {
            let db = open_to_read(&restoring)?;
            open::check_owner(&db)?;
            let found = integrity(&db)?.into_iter().next();
            if let Some(fault) = found {
                return Err(StoreError::Damaged(fault));
            }
            if let Some(fault) = log_faults(&db)?.1.first() {
                return Err(StoreError::Damaged(fault.to_string()));
            }
            on_disk.judge(&db)?;
        }
        let mut notebook = Notebook::open_alone(&restoring, clock, randomness)?;
        close_mark(notebook.db())?;
        notebook.take_new_device_id()?;
        notebook.rebuild()?;
        let changes = notebook
            .db()
            .query_row("SELECT count(*) FROM change", [], |row| row.get(0))?;
        notebook.close()?;
        Ok(Restored {
            set_aside: files::replace(path, &restoring, files::BEFORE_RESTORE, now)?,
            changes,
        })
    })();
    if restored.is_err() {
        let _ = files::discard(&restoring);
    }
    restored
}
