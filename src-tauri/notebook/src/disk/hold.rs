//! Who has a notebook open: several programs may, but nobody while it is replaced.
//!
//! The window and the desk may hold one notebook at the same time. SQLite keeps
//! their writes apart, but a file that is set aside under a running program would
//! take that program's next heads with it. So every opener holds a lock on a
//! small file beside the notebook.

use std::fs::{File, OpenOptions, TryLockError};
use std::path::{Path, PathBuf};
use std::thread;
use std::time::Duration;

use super::files::{self, beside};
use crate::error::StoreError;

const LOCK: &str = "-hold";
/// Tries before another's lock counts as kept.
const TRIES: u32 = 100;
const PAUSE: Duration = Duration::from_millis(20);

/// A lock, given up when dropped.
pub(crate) struct Hold {
    file: Option<File>,
    /// Nobody else had the notebook open when it was taken.
    pub alone: bool,
}

impl Hold {
    /// Holds the notebook open beside others.
    pub(crate) fn beside_others(notebook: &Path) -> Result<Hold, StoreError> {
        let Some(file) = lock_file(notebook) else {
            return Ok(Hold {
                file: None,
                alone: true,
            });
        };
        let alone = match file.try_lock() {
            Ok(()) => {
                // From all to shared; where the system cannot, giving it up first.
                if file.try_lock_shared().is_err() {
                    let _ = file.unlock();
                }
                true
            }
            Err(TryLockError::WouldBlock) => false,
            // A system without such locks: a phone, where one program runs alone.
            Err(TryLockError::Error(_)) => {
                return Ok(Hold {
                    file: None,
                    alone: true,
                });
            }
        };
        for _ in 0..TRIES {
            match file.try_lock_shared() {
                Ok(()) => {
                    return Ok(Hold {
                        file: Some(file),
                        alone,
                    });
                }
                Err(TryLockError::WouldBlock) => thread::sleep(PAUSE),
                Err(TryLockError::Error(_)) => break,
            }
        }
        Err(StoreError::InUse)
    }

    /// Holds the notebook against everybody.
    pub(crate) fn against_all(notebook: &Path) -> Result<Hold, StoreError> {
        let Some(file) = lock_file(notebook) else {
            return Ok(Hold {
                file: None,
                alone: true,
            });
        };
        for _ in 0..TRIES {
            match file.try_lock() {
                Ok(()) => {
                    return Ok(Hold {
                        file: Some(file),
                        alone: true,
                    });
                }
                Err(TryLockError::WouldBlock) => thread::sleep(PAUSE),
                Err(TryLockError::Error(_)) => {
                    return Ok(Hold {
                        file: None,
                        alone: true,
                    });
                }
            }
        }
        Err(StoreError::InUse)
    }
}

impl Hold {
    /// Turns this one into a lock against everybody, if nobody else has the notebook
    /// open. For a program that closes it now.
    pub(crate) fn becomes_only_one(&self) -> bool {
        let Some(file) = &self.file else {
            return true;
        };
        let _ = file.unlock();
        let only_one = file.try_lock().is_ok();
        if !only_one {
            // Until the file is closed, nobody may set it aside.
            let _ = file.try_lock_shared();
        }
        only_one
    }
}

/// The file that is locked.
pub(crate) fn lock_path(notebook: &Path) -> PathBuf {
    beside(notebook, LOCK)
}

/// None where no file can be made: the notebook cannot be written there either.
fn lock_file(notebook: &Path) -> Option<File> {
    files::private(OpenOptions::new().read(true).write(true).create(true))
        .truncate(false)
        .open(lock_path(notebook))
        .ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn several_may_hold_it_and_none_while_it_is_replaced() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("notebook.db");
        let first = Hold::beside_others(&path).unwrap();
        let second = Hold::beside_others(&path).unwrap();
        assert!(first.alone);
        assert!(!second.alone);
        assert!(matches!(Hold::against_all(&path), Err(StoreError::InUse)));
        drop((first, second));
        let all = Hold::against_all(&path).unwrap();
        assert!(matches!(Hold::beside_others(&path), Err(StoreError::InUse)));
        drop(all);
        assert!(Hold::beside_others(&path).unwrap().alone);
    }
}
