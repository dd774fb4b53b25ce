//! The index of words, kept beside the views it is made of.

use rusqlite::{Connection, OptionalExtension, params};
use uuid::Uuid;

use crate::error::StoreError;

/// Brings the index up to date with the name of a row.
pub(super) fn name(db: &Connection, table: &'static str, id: Uuid) -> Result<(), StoreError> {
    let column = if table == "walk" { "scout" } else { "name" };
    say(
        db,
        table,
        id,
        &format!("SELECT {column} FROM {table} WHERE id = ?1"),
    )
}

/// Brings the index up to date with the note of a head.
pub(super) fn note(db: &Connection, id: Uuid) -> Result<(), StoreError> {
    say(db, "head", id, "SELECT note FROM head WHERE id = ?1")
}

fn say(db: &Connection, kind: &str, id: Uuid, now: &str) -> Result<(), StoreError> {
    let now = db
        .prepare_cached(now)?
        .query_row([id], |row| row.get::<_, Option<String>>(0))
        .optional()?
        .flatten()
        .filter(|text| !text.is_empty());
    let was: Option<(i64, String)> = db
        .prepare_cached("SELECT row, text FROM searchable WHERE kind = ?1 AND id = ?2")?
        .query_row(params![kind, id], |row| Ok((row.get(0)?, row.get(1)?)))
        .optional()?;
    if was.as_ref().map(|(_, text)| text) == now.as_ref() {
        return Ok(());
    }
    if let Some((row, text)) = was {
        db.prepare_cached(
            "INSERT INTO search_index (search_index, rowid, text) VALUES ('delete', ?1, ?2)",
        )?
        .execute(params![row, text])?;
        db.prepare_cached("DELETE FROM searchable WHERE row = ?1")?
            .execute([row])?;
    }
    if let Some(text) = now {
        db.prepare_cached("INSERT INTO searchable (kind, id, text) VALUES (?1, ?2, ?3)")?
            .execute(params![kind, id, text])?;
        db.prepare_cached("INSERT INTO search_index (rowid, text) VALUES (?1, ?2)")?
            .execute(params![db.last_insert_rowid(), text])?;
    }
    Ok(())
}

/// Empties it.
pub(super) fn empty(db: &Connection) -> Result<(), StoreError> {
    db.execute("DELETE FROM searchable", [])?;
    db.execute(
        "INSERT INTO search_index (search_index) VALUES ('delete-all')",
        [],
    )?;
    Ok(())
}
