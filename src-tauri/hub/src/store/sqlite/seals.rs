//! Keys, owners and seals of series.

use super::{bytes, id};
use crate::store::{Right, Standing, StoreFault, Stored};
use rusqlite::{Connection, OptionalExtension, Row};
use std::collections::BTreeMap;
use uuid::Uuid;
use wire::seal::{Link, Origin, PublicKey, Signature, Writer};
use wire::{Refusal, RosterEntry};

pub(super) fn number(seq: u64) -> Stored<i64> {
    i64::try_from(seq).map_err(|_| StoreFault::Refused(Refusal::OutOfBounds))
}

pub(super) fn introduce(db: &Connection, by: Uuid, key: PublicKey, own: Uuid) -> Stored<()> {
    let known: Option<[u8; 32]> = db
        .query_row("SELECT key FROM device WHERE id = ?1", [bytes(by)], |row| {
            row.get(0)
        })
        .optional()?
        .ok_or(Refusal::Unknown)?;
    if known.is_some_and(|known| known != key.0) {
        return Err(Refusal::OtherKey.into());
    }
    db.execute(
        "UPDATE device SET key = ?2 WHERE id = ?1",
        (bytes(by), key.0),
    )?;
    db.execute(
        "UPDATE series SET owner = ?1
         WHERE device = ?2 AND owner IS NULL AND key IS NULL AND crew =
           (SELECT person.crew FROM device JOIN person ON person.id = device.person
            WHERE device.id = ?1)",
        (bytes(by), bytes(own)),
    )?;
    Ok(())
}

pub(super) fn writers(db: &Connection, crew: Uuid) -> Stored<BTreeMap<Uuid, RosterEntry>> {
    let mut query = db.prepare_cached(
        "SELECT series.device, series.key, series.owner FROM series
         WHERE series.crew = ?1 AND series.key IS NOT NULL",
    )?;
    let rows = query.query_map([bytes(crew)], |row| {
        let owner: Option<Vec<u8>> = row.get(2)?;
        let entry = RosterEntry {
            key: PublicKey(row.get(1)?),
            member: owner.map(id).transpose()?,
        };
        Ok((id(row.get(0)?)?, entry))
    })?;
    Ok(rows.collect::<Result<_, _>>()?)
}

/// A series as it stands, and its row.
pub(super) fn standing(
    db: &Connection,
    crew: Uuid,
    device: Uuid,
) -> Stored<Option<(i64, Standing)>> {
    let found = db
        .prepare_cached(
            "SELECT id, head, owner, key, origin, origin_seq, origin_link FROM series
             WHERE crew = ?1 AND device = ?2",
        )?
        .query_row((bytes(crew), bytes(device)), |row| {
            let owner: Option<Vec<u8>> = row.get(2)?;
            let standing = Standing {
                end: row.get::<_, i64>(1)?.unsigned_abs(),
                owner: owner.map(id).transpose()?,
                writer: writer(row)?,
                link: None,
            };
            Ok((row.get::<_, i64>(0)?, standing))
        })
        .optional()?;
    let Some((row, mut standing)) = found else {
        return Ok(None);
    };
    if standing.writer.is_some() {
        standing.link = db
            .prepare_cached("SELECT link FROM seal WHERE series = ?1 AND seq = ?2")?
            .query_row((row, number(standing.end)?), |row| row.get(0))
            .optional()?
            .map(Link);
    }
    Ok(Some((row, standing)))
}

/// The writer in the columns from the fourth on: key, origin, its number, its link.
fn writer(row: &Row) -> rusqlite::Result<Option<Writer>> {
    let (key, origin): (Option<[u8; 32]>, Option<Vec<u8>>) = (row.get(3)?, row.get(4)?);
    let Some(key) = key.map(PublicKey) else {
        return Ok(None);
    };
    let origin = match origin {
        None => None,
        Some(series) => Some(Origin {
            series: id(series)?,
            seq: row.get::<_, i64>(5)?.unsigned_abs(),
            link: Link(row.get(6)?),
        }),
    };
    Ok(Some(Writer { key, origin }))
}

/// The membership of a crew whose key this is, one that is still in it before others.
pub(super) fn member_of(db: &Connection, crew: Uuid, key: PublicKey) -> Stored<Option<Uuid>> {
    let found: Option<Vec<u8>> = db
        .prepare_cached(
            "SELECT device.id FROM device JOIN person ON person.id = device.person
             WHERE person.crew = ?1 AND device.key = ?2
             ORDER BY device.removed_at IS NOT NULL, device.id DESC LIMIT 1",
        )?
        .query_row((bytes(crew), key.0), |row| row.get(0))
        .optional()?;
    Ok(found.map(id).transpose()?)
}

/// Keeps by what right changes up to a number were taken.
pub(super) fn note(
    db: &Connection,
    row: i64,
    standing: &Standing,
    right: &Right,
    owner: Uuid,
    seq: u64,
) -> Stored<()> {
    if let Right::Sealed {
        writer,
        signature,
        link,
    } = right
    {
        if standing.writer.is_none() {
            write_key(db, row, writer)?;
        }
        keep(db, row, seq, signature, *link)?;
    }
    if standing.owner.is_none() {
        db.prepare_cached("UPDATE series SET owner = ?2 WHERE id = ?1")?
            .execute((row, bytes(owner)))?;
    }
    Ok(())
}

pub(super) fn write_key(db: &Connection, row: i64, writer: &Writer) -> Stored<()> {
    let origin = writer.origin;
    let seq = origin.map(|origin| number(origin.seq)).transpose()?;
    db.prepare_cached(
        "UPDATE series SET key = ?2, origin = ?3, origin_seq = ?4, origin_link = ?5
         WHERE id = ?1",
    )?
    .execute((
        row,
        writer.key.0,
        origin.map(|origin| bytes(origin.series)),
        seq,
        origin.map(|origin| origin.link.0),
    ))?;
    Ok(())
}

pub(super) fn keep(
    db: &Connection,
    row: i64,
    seq: u64,
    signature: &Signature,
    link: Link,
) -> Stored<()> {
    db.prepare_cached(
        "INSERT OR REPLACE INTO seal (series, seq, signature, link) VALUES (?1, ?2, ?3, ?4)",
    )?
    .execute((row, number(seq)?, signature.to_bytes(), link.0))?;
    Ok(())
}
