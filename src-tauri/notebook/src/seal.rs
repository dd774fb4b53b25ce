//! Which keys and seals a notebook keeps.

use rusqlite::{Connection, OptionalExtension, Row, params};
use uuid::Uuid;

use crate::error::StoreError;
use crate::log;
use wire::seal::{Link, Origin, PublicKey, Signature, Writer};

/// Bytes of changes read at once while links are worked out.
const PIECE: usize = 1 << 20;

/// A seal of a series as it is kept.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Sealed {
    /// The series.
    pub series: Uuid,
    /// The number up to which it is sealed.
    pub seq: u64,
    /// The signature.
    pub signature: Signature,
    /// The link there.
    pub link: Link,
}

/// The writer that a series was first seen with; none where it never carried a seal.
///
/// # Errors
/// When the store fails.
pub fn writer(db: &Connection, series: Uuid) -> Result<Option<Writer>, StoreError> {
    Ok(db
        .prepare_cached(
            "SELECT key, origin, origin_seq, origin_link FROM writer WHERE device = ?1",
        )?
        .query_row([series], |row| read_writer(row, 0))
        .optional()?)
}

fn read_writer(row: &Row, first: usize) -> rusqlite::Result<Writer> {
    let series: Option<Uuid> = row.get(first + 1)?;
    let origin = match series {
        None => None,
        Some(series) => Some(Origin {
            series,
            seq: row.get(first + 2)?,
            link: Link(row.get(first + 3)?),
        }),
    };
    Ok(Writer {
        key: PublicKey(row.get(first)?),
        origin,
    })
}

/// Keeps the writer of a series, unless one is known.
pub(crate) fn pin(db: &Connection, series: Uuid, writer: &Writer) -> Result<(), StoreError> {
    let origin = writer.origin;
    db.prepare_cached(
        "INSERT OR IGNORE INTO writer (device, key, origin, origin_seq, origin_link)
         VALUES (?1, ?2, ?3, ?4, ?5)",
    )?
    .execute(params![
        series,
        writer.key.0,
        origin.map(|origin| origin.series),
        origin.map(|origin| origin.seq),
        origin.map(|origin| origin.link.0),
    ])?;
    Ok(())
}

/// Keeps a seal, and with the first one the writer.
///
/// # Errors
/// When the store fails.
pub fn keep(db: &Connection, writer: &Writer, sealed: &Sealed) -> Result<(), StoreError> {
    pin(db, sealed.series, writer)?;
    db.prepare_cached(
        "INSERT INTO seal (device, seq, signature, link) VALUES (?1, ?2, ?3, ?4)
         ON CONFLICT (device, seq) DO UPDATE
         SET signature = excluded.signature, link = excluded.link",
    )?
    .execute(params![
        sealed.series,
        sealed.seq,
        sealed.signature.to_bytes(),
        sealed.link.0
    ])?;
    Ok(())
}

/// The number up to which a series is sealed here, 0 where it is not.
///
/// # Errors
/// When the store fails.
pub fn last(db: &Connection, series: Uuid) -> Result<u64, StoreError> {
    let seq: Option<u64> = db
        .prepare_cached("SELECT max(seq) FROM seal WHERE device = ?1")?
        .query_row([series], |row| row.get(0))?;
    Ok(seq.unwrap_or(0))
}

/// The farthest seal of a series in `after + 1 ..= to`; where there is none, the
/// next one behind.
///
/// # Errors
/// When the store fails.
pub fn next_after(
    db: &Connection,
    series: Uuid,
    after: u64,
    to: u64,
) -> Result<Option<Sealed>, StoreError> {
    let read = |row: &Row| {
        Ok(Sealed {
            series,
            seq: row.get(0)?,
            signature: Signature::from_bytes(row.get(1)?),
            link: Link(row.get(2)?),
        })
    };
    let within = db
        .prepare_cached(
            "SELECT seq, signature, link FROM seal
             WHERE device = ?1 AND seq > ?2 AND seq <= ?3 ORDER BY seq DESC LIMIT 1",
        )?
        .query_row(params![series, after, to], read)
        .optional()?;
    if within.is_some() {
        return Ok(within);
    }
    Ok(db
        .prepare_cached(
            "SELECT seq, signature, link FROM seal
             WHERE device = ?1 AND seq > ?2 ORDER BY seq LIMIT 1",
        )?
        .query_row(params![series, after], read)
        .optional()?)
}

/// The link of a series at a number that is held. `start` is the link before
/// change 1.
///
/// # Errors
/// When the store fails, or the series does not reach so far.
pub fn link_at(db: &Connection, series: Uuid, seq: u64, start: Link) -> Result<Link, StoreError> {
    let known: Option<(u64, [u8; 32])> = db
        .prepare_cached(
            "SELECT seq, link FROM seal WHERE device = ?1 AND seq <= ?2
             ORDER BY seq DESC LIMIT 1",
        )?
        .query_row(params![series, seq], |row| Ok((row.get(0)?, row.get(1)?)))
        .optional()?;
    let (mut at, mut link) = known.map_or((0, start), |(at, link)| (at, Link(link)));
    while at < seq {
        let before = at;
        for change in log::after(db, series, at, PIECE)? {
            if at == seq {
                break;
            }
            link = link.after(&log::pack(&change)?);
            at = change.seq;
        }
        if at == before {
            return Err(StoreError::Damaged(format!(
                "change {} of device {series} is missing",
                at + 1
            )));
        }
    }
    Ok(link)
}

/// Takes the seals of `series` after `after` away, since its changes move to the
/// series `to`. Where the branch goes on with its seals, as `branch` says, they
/// become those of `to`.
pub(crate) fn move_to(
    db: &Connection,
    series: Uuid,
    after: u64,
    to: Uuid,
    branch: Option<Writer>,
) -> Result<(), StoreError> {
    if let Some(writer) = branch {
        pin(db, to, &writer)?;
        db.execute(
            "INSERT OR IGNORE INTO seal (device, seq, signature, link)
             SELECT ?3, seq - ?2, signature, link FROM seal WHERE device = ?1 AND seq > ?2",
            params![series, after, to],
        )?;
    }
    db.execute(
        "DELETE FROM seal WHERE device = ?1 AND seq > ?2",
        params![series, after],
    )?;
    Ok(())
}

/// Every seal with its writer, by series and number.
pub(crate) fn all(db: &Connection) -> Result<Vec<(Writer, Sealed)>, StoreError> {
    let mut statement = db.prepare(
        "SELECT writer.key, writer.origin, writer.origin_seq, writer.origin_link,
                seal.device, seal.seq, seal.signature, seal.link
         FROM seal JOIN writer ON writer.device = seal.device ORDER BY seal.device, seal.seq",
    )?;
    let rows = statement.query_map([], |row| {
        let sealed = Sealed {
            series: row.get(4)?,
            seq: row.get(5)?,
            signature: Signature::from_bytes(row.get(6)?),
            link: Link(row.get(7)?),
        };
        Ok((read_writer(row, 0)?, sealed))
    })?;
    Ok(rows.collect::<Result<_, _>>()?)
}

/// The writer of every series that is known to have one.
pub(crate) fn writers(db: &Connection) -> Result<Vec<(Uuid, Writer)>, StoreError> {
    let mut statement = db.prepare(
        "SELECT key, origin, origin_seq, origin_link, device FROM writer ORDER BY device",
    )?;
    let rows = statement.query_map([], |row| Ok((row.get(4)?, read_writer(row, 0)?)))?;
    Ok(rows.collect::<Result<_, _>>()?)
}
