//! The id under which this device writes, sealed: neither the log nor a rebuild
//! proves it, and under an altered one it would write into another's series.

use rusqlite::Connection;
use sha2::{Digest as _, Sha256};
use uuid::Uuid;

use crate::error::StoreError;

/// The seal of an id.
pub(crate) fn seal(device: Uuid) -> [u8; 32] {
    let mut hash = Sha256::new_with_prefix("this_device");
    hash.update(device.as_bytes());
    hash.finalize().into()
}

/// Gives this device an id.
pub(crate) fn store(db: &Connection, device: Uuid) -> Result<(), StoreError> {
    db.execute(
        "UPDATE this_device SET id = ?1, seal = ?2",
        (device, seal(device)),
    )?;
    Ok(())
}

/// Seals the id of a notebook that an older version made.
pub(crate) fn seal_once(db: &Connection, device: Uuid) -> Result<(), StoreError> {
    let sealed: bool = db.query_row("SELECT seal IS NOT NULL FROM this_device", [], |row| {
        row.get(0)
    })?;
    if !sealed {
        db.execute(
            "UPDATE this_device SET seal = ?1 WHERE seal IS NULL",
            [seal(device)],
        )?;
    }
    Ok(())
}

/// Whether the id is another than was given.
///
/// # Errors
/// When the store fails.
pub(crate) fn is_altered(db: &Connection) -> Result<bool, StoreError> {
    let (device, sealed): (Uuid, Option<Vec<u8>>) =
        db.query_row("SELECT id, seal FROM this_device", [], |row| {
            Ok((row.get(0)?, row.get(1)?))
        })?;
    Ok(sealed.is_some_and(|sealed| sealed != seal(device)))
}
