//! Files of a hub that only its user may read and write.

use std::ffi::OsString;
use std::fs::{File, OpenOptions};
use std::io;
use std::path::{Path, PathBuf};

/// Makes a file, where absent, for its user alone.
pub(super) fn make(path: &Path) -> io::Result<File> {
    options().create(true).open(path)
}

/// Makes a file that must not be there yet, for its user alone.
pub(super) fn make_new(path: &Path) -> io::Result<File> {
    options().create_new(true).open(path)
}

/// Takes from others what an earlier version let them read: a database and the files
/// that lie beside it while it is open.
pub(super) fn close_to_others(path: &Path) {
    for ending in ["", "-wal", "-shm"] {
        set_mode(&beside(path, ending));
    }
}

/// The path of a file that lies beside another one.
pub(super) fn beside(path: &Path, ending: &str) -> PathBuf {
    let mut name = OsString::from(path);
    name.push(ending);
    name.into()
}

fn options() -> OpenOptions {
    let mut options = OpenOptions::new();
    options.append(true);
    #[cfg(unix)]
    {
        use std::os::unix::fs::OpenOptionsExt as _;
        options.mode(0o600);
    }
    options
}

#[cfg(unix)]
fn set_mode(path: &Path) {
    use std::os::unix::fs::PermissionsExt as _;
    let Ok(known) = path.metadata() else { return };
    if known.permissions().mode() & 0o777 == 0o600 {
        return;
    }
    let only_user = std::fs::Permissions::from_mode(0o600);
    if let Err(error) = std::fs::set_permissions(path, only_user) {
        tracing::warn!(%error, "others may read the hub's file");
    }
}

#[cfg(not(unix))]
fn set_mode(_: &Path) {}
