//! What this device keeps for itself, beside the log; never exchanged.

use rusqlite::{Connection, OptionalExtension};
use sha2::{Digest as _, Sha256};

use crate::error::StoreError;

/// What was kept under a name. A value that its seal does not fit was altered on
/// the disk.
pub fn read(db: &Connection, name: &str) -> Result<Option<String>, StoreError> {
    let found: Option<(String, Option<Vec<u8>>)> = db
        .prepare_cached("SELECT value, seal FROM setting WHERE name = ?1")?
        .query_row([name], |row| Ok((row.get(0)?, row.get(1)?)))
        .optional()?;
    match found {
        Some((value, sealed)) if fits(name, &value, sealed.as_deref()) => Ok(Some(value)),
        Some(_) => Err(StoreError::Damaged(altered(name))),
        None => Ok(None),
    }
}

/// Keeps a value and its seal.
pub fn keep(db: &Connection, name: &str, json: &str) -> Result<(), StoreError> {
    db.execute(
        "INSERT INTO setting (name, value, seal) VALUES (?1, ?2, ?3)
         ON CONFLICT (name) DO UPDATE SET value = excluded.value, seal = excluded.seal",
        (name, json, seal(name, json)),
    )?;
    Ok(())
}

/// All settings.
#[derive(Default)]
pub(crate) struct All {
    /// Names and values that their seals fit.
    pub kept: Vec<(String, String)>,
    /// Names of the others.
    pub altered: Vec<String>,
}

/// Reads all settings.
pub(crate) fn all(db: &Connection) -> rusqlite::Result<All> {
    let mut all = All::default();
    let sealed = db.column_exists(None::<&str>, "setting", "seal")?;
    let mut statement = db.prepare(if sealed {
        "SELECT name, value, seal FROM setting ORDER BY name"
    } else {
        "SELECT name, value, NULL FROM setting ORDER BY name"
    })?;
    let mut rows = statement.query([])?;
    while let Some(row) = rows.next()? {
        let (name, value): (String, String) = (row.get(0)?, row.get(1)?);
        let sealed: Option<Vec<u8>> = row.get(2)?;
        if fits(&name, &value, sealed.as_deref()) {
            all.kept.push((name, value));
        } else {
            all.altered.push(name);
        }
    }
    Ok(all)
}

/// What is said of a value that its seal does not fit.
pub(crate) fn altered(name: &str) -> String {
    format!("the setting '{name}' does not say what was kept")
}

fn fits(name: &str, value: &str, sealed: Option<&[u8]>) -> bool {
    sealed.is_none_or(|sealed| sealed == seal(name, value))
}

fn seal(name: &str, value: &str) -> [u8; 32] {
    let mut hash = Sha256::new();
    hash.update((name.len() as u64).to_be_bytes());
    hash.update(name);
    hash.update(value);
    hash.finalize().into()
}
