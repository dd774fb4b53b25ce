//! The removed memberships, in a file beside the hub's: `HUB.removed`.
//!
//! A backup of the hub is older than the removals that came after it. Whoever restores
//! it over the hub's file leaves this one as it is, so that the removed stay removed:
//! it is only ever added to, on the disk before a removal is answered, and honored when
//! the hub's file is opened. A line is a membership and the time of its removal,
//! milliseconds since 1970; what is no such line is passed over.
//!
//! A database server is restored with everything in it, so its store has no such file;
//! there, and where the file is lost too, the owners' phones remove them again.

use super::{bytes, id, private};
use crate::store::{StoreFault, Stored};
use rusqlite::Connection;
use std::collections::BTreeSet;
use std::fmt::Write as _;
use std::fs::File;
use std::io::{Read as _, Seek as _, SeekFrom, Write as _};
use std::path::{Path, PathBuf};
use uuid::Uuid;

/// The file of removed memberships.
#[derive(Debug, Clone)]
pub(super) struct Removals {
    path: PathBuf,
}

impl Removals {
    /// The one beside a hub's file.
    pub(super) fn beside(hub: &Path) -> Self {
        Self {
            path: private::beside(hub, ".removed"),
        }
    }

    /// Adds memberships; on the disk when this returns.
    pub(super) fn add(&self, removed: &[(Uuid, i64)]) -> Stored<()> {
        let mut lines = String::new();
        for (device, at) in removed {
            // Writing to a String does not fail.
            let _ = writeln!(lines, "{device} {at}");
        }
        let mut write = || -> std::io::Result<()> {
            let is_new = !self.path.exists();
            let mut file = private::make(&self.path)?;
            if !ends_a_line(&self.path)? {
                lines.insert(0, '\n');
            }
            file.write_all(lines.as_bytes())?;
            file.sync_all()?;
            if is_new && let Some(folder) = self.path.parent() {
                sync_folder(folder)?;
            }
            Ok(())
        };
        write().map_err(|error| self.fault(&error))
    }

    /// Removes in the hub's file what was removed before it was restored, and adds what
    /// only that file knows.
    pub(super) fn honor(&self, db: &mut Connection) -> Stored<()> {
        private::close_to_others(&self.path);
        let listed = self.read()?;
        let tx = db.transaction()?;
        let mut again = 0;
        for (device, at) in &listed {
            again += tx.execute(
                "UPDATE device SET removed_at = ?2 WHERE id = ?1 AND removed_at IS NULL",
                (bytes(*device), at),
            )?;
        }
        let known: BTreeSet<Uuid> = listed.iter().map(|(device, _)| *device).collect();
        let mut query =
            tx.prepare("SELECT id, removed_at FROM device WHERE removed_at IS NOT NULL")?;
        let rows = query.query_map([], |row| Ok((id(row.get(0)?)?, row.get(1)?)))?;
        let removed = rows.collect::<Result<Vec<(Uuid, i64)>, _>>()?;
        drop(query);
        tx.commit()?;
        if again > 0 {
            tracing::warn!(
                phones = again,
                "the hub's file was older than some removals"
            );
        }
        let unlisted: Vec<_> = removed
            .into_iter()
            .filter(|(device, _)| !known.contains(device))
            .collect();
        if unlisted.is_empty() {
            return Ok(());
        }
        self.add(&unlisted)
    }

    fn read(&self) -> Stored<Vec<(Uuid, i64)>> {
        let text = match std::fs::read(&self.path) {
            Ok(bytes) => String::from_utf8_lossy(&bytes).into_owned(),
            Err(error) if error.kind() == std::io::ErrorKind::NotFound => return Ok(Vec::new()),
            Err(error) => return Err(self.fault(&error)),
        };
        let line = |line: &str| {
            let (device, at) = line.trim().split_once(' ')?;
            Some((Uuid::try_parse(device).ok()?, at.parse().ok()?))
        };
        Ok(text.lines().filter_map(line).collect())
    }

    fn fault(&self, error: &std::io::Error) -> StoreFault {
        StoreFault::Failed(format!("{}: {error}", self.path.display()))
    }
}

/// False where a write was cut: the next line would become part of the torn one.
fn ends_a_line(path: &Path) -> std::io::Result<bool> {
    let mut file = File::open(path)?;
    if file.metadata()?.len() == 0 {
        return Ok(true);
    }
    file.seek(SeekFrom::End(-1))?;
    let mut last = [0];
    file.read_exact(&mut last)?;
    Ok(last == *b"\n")
}

#[cfg(unix)]
fn sync_folder(folder: &Path) -> std::io::Result<()> {
    let here = Path::new(".");
    let folder = if folder.as_os_str().is_empty() {
        here
    } else {
        folder
    };
    File::open(folder)?.sync_all()
}

#[cfg(not(unix))]
fn sync_folder(_: &Path) -> std::io::Result<()> {
    Ok(())
}
