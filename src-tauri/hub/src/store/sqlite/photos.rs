//! Which photos are held, and how much of each.

use super::bytes;
use crate::store::{PhotoPart, PhotoState, Quotas, StoreFault, Stored, begin_photo};
use rusqlite::{Connection, OptionalExtension};
use uuid::Uuid;
use wire::Refusal;

pub(super) fn states(
    db: &Connection,
    crew: Uuid,
    names: &[[u8; 32]],
) -> Stored<Vec<Option<PhotoState>>> {
    let mut query = db.prepare_cached(
        "SELECT size, have, whole_at IS NOT NULL FROM photo WHERE crew = ?1 AND name = ?2",
    )?;
    names
        .iter()
        .map(|name| {
            Ok(query
                .query_row((bytes(crew), name), |row| {
                    Ok(PhotoState {
                        size: row.get::<_, i64>(0)?.unsigned_abs(),
                        have: row.get::<_, i64>(1)?.unsigned_abs(),
                        whole: row.get(2)?,
                    })
                })
                .optional()?)
        })
        .collect()
}

fn size(bytes: u64) -> Stored<i64> {
    i64::try_from(bytes).map_err(|_| StoreFault::Refused(Refusal::OutOfBounds))
}

pub(super) fn grew(db: &Connection, crew: Uuid, part: PhotoPart, quotas: &Quotas) -> Stored<bool> {
    if part.have == 0 {
        let (by, role) = part.by;
        let begun: i64 = db
            .prepare_cached(
                "SELECT coalesce(sum(size), 0) FROM photo
                 WHERE begun_by = ?1 AND NOT (crew = ?2 AND name = ?3)",
            )?
            .query_row((bytes(by), bytes(crew), part.name), |row| row.get(0))?;
        begin_photo(quotas.of(role), begun.unsigned_abs(), part.size)?;
        db.execute(
            "INSERT INTO photo (crew, name, size, have, begun_by) VALUES (?1, ?2, ?3, 0, ?4)
             ON CONFLICT (crew, name) DO UPDATE
             SET size = excluded.size, begun_by = excluded.begun_by
             WHERE have = 0 AND whole_at IS NULL",
            (bytes(crew), part.name, size(part.size)?, bytes(by)),
        )?;
    }
    let changed = db.execute(
        "UPDATE photo SET have = ?5
         WHERE crew = ?1 AND name = ?2 AND size = ?3 AND have = ?4 AND whole_at IS NULL",
        (
            bytes(crew),
            part.name,
            size(part.size)?,
            size(part.have)?,
            size(part.have.saturating_add(part.length))?,
        ),
    )?;
    Ok(changed == 1)
}

pub(super) fn ended(
    db: &Connection,
    crew: Uuid,
    name: [u8; 32],
    whole_at: Option<i64>,
) -> Stored<()> {
    match whole_at {
        Some(at) => db.execute(
            "UPDATE photo SET whole_at = ?3
             WHERE crew = ?1 AND name = ?2 AND have = size AND whole_at IS NULL",
            (bytes(crew), name, at),
        )?,
        None => db.execute(
            "DELETE FROM photo WHERE crew = ?1 AND name = ?2 AND whole_at IS NULL",
            (bytes(crew), name),
        )?,
    };
    Ok(())
}

pub(super) fn lost(db: &Connection, crew: Uuid, name: [u8; 32]) -> Stored<()> {
    db.execute(
        "DELETE FROM photo WHERE crew = ?1 AND name = ?2 AND whole_at IS NOT NULL",
        (bytes(crew), name),
    )?;
    Ok(())
}
