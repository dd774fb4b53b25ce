//! What this device knows of photos' files: which the hub holds, and which had
//! their room freed. Never exchanged, and proved by neither the log nor a rebuild,
//! so each row is sealed; one whose seal does not fit counts as nothing known, which
//! is the safe side: such a file is not freed, and the hub is asked again.

use std::collections::BTreeMap;

use rusqlite::{Connection, OptionalExtension as _, Row};
use sha2::{Digest as _, Sha256};

use super::PhotoName;
use crate::error::StoreError;

/// What is known of one file.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Mark {
    /// The hub is known to hold it whole.
    pub on_hub: bool,
    /// Its room was freed, so that it is not missed here.
    pub freed: bool,
}

/// All that is known.
#[derive(Debug, Default)]
pub(crate) struct Marks {
    /// By the file's name.
    pub kept: BTreeMap<PhotoName, Mark>,
    /// Rows whose seal does not fit.
    pub altered: u64,
}

impl Marks {
    /// What is known of a file; nothing where there is no row.
    pub fn of(&self, name: PhotoName) -> Mark {
        self.kept.get(&name).copied().unwrap_or_default()
    }
}

const COLUMNS: &str = "name, on_hub, freed, seal";

/// What is known of a file; none where there is no row that holds.
pub(crate) fn of(db: &Connection, name: PhotoName) -> Result<Option<Mark>, StoreError> {
    let found = db
        .prepare_cached(&format!("SELECT {COLUMNS} FROM photo_file WHERE name = ?1"))?
        .query_row([name], read)
        .optional()?;
    Ok(found.flatten().map(|(_, mark)| mark))
}

/// All that is known.
pub(crate) fn all(db: &Connection) -> rusqlite::Result<Marks> {
    let mut marks = Marks::default();
    let mut statement = db.prepare_cached(&format!("SELECT {COLUMNS} FROM photo_file"))?;
    for row in statement.query_map([], read)? {
        match row? {
            Some((name, mark)) => {
                marks.kept.insert(name, mark);
            }
            None => marks.altered += 1,
        }
    }
    Ok(marks)
}

/// Remembers what is known of a file.
pub(crate) fn keep(db: &Connection, name: PhotoName, mark: Mark) -> Result<(), StoreError> {
    db.prepare_cached(
        "INSERT INTO photo_file (name, on_hub, freed, seal) VALUES (?1, ?2, ?3, ?4)
         ON CONFLICT (name) DO UPDATE SET on_hub = excluded.on_hub, freed = excluded.freed,
           seal = excluded.seal",
    )?
    .execute((name, mark.on_hub, mark.freed, seal(&name.0, mark)))?;
    Ok(())
}

/// Changes what is known of a file.
pub(crate) fn change(
    db: &Connection,
    name: PhotoName,
    change: impl FnOnce(Mark) -> Mark,
) -> Result<(), StoreError> {
    keep(db, name, change(of(db, name)?.unwrap_or_default()))
}

/// Takes out the rows that do not hold; nothing is known of these files then.
pub(crate) fn drop_altered(db: &Connection) -> Result<(), StoreError> {
    let holding = all(db)?.kept;
    db.execute("DELETE FROM photo_file", [])?;
    for (name, mark) in holding {
        keep(db, name, mark)?;
    }
    Ok(())
}

/// None where the row does not say what was kept.
fn read(row: &Row) -> rusqlite::Result<Option<(PhotoName, Mark)>> {
    let name: Vec<u8> = row.get(0)?;
    let mark = Mark {
        on_hub: row.get(1)?,
        freed: row.get(2)?,
    };
    let sealed: Option<Vec<u8>> = row.get(3)?;
    let fits = sealed.is_some_and(|sealed| sealed == seal(&name, mark));
    let name: Option<[u8; 32]> = name.try_into().ok();
    Ok(name.filter(|_| fits).map(|name| (PhotoName(name), mark)))
}

fn seal(name: &[u8], mark: Mark) -> [u8; 32] {
    let mut hash = Sha256::new();
    hash.update(name);
    hash.update([u8::from(mark.on_hub), u8::from(mark.freed)]);
    hash.finalize().into()
}
