//! Reading the log, and adding to it.

use std::collections::BTreeMap;

use rusqlite::{Connection, OptionalExtension, Row, params};
use uuid::Uuid;

use super::{Change, Digest, Hlc};
use crate::error::StoreError;

/// How far a series is held.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Head {
    /// Highest number; all before it are held too.
    pub seq: u64,
    /// Digest of the series up to there.
    pub digest: Digest,
}

/// The cursor of an exchange: for each device, how far its series is held.
///
/// # Errors
/// When the store fails.
pub fn heads(db: &Connection) -> Result<BTreeMap<Uuid, Head>, StoreError> {
    let mut statement = db.prepare_cached("SELECT device, head, digest FROM series")?;
    let rows = statement.query_map([], |row| {
        let head = Head {
            seq: row.get(1)?,
            digest: row.get(2)?,
        };
        Ok((row.get(0)?, head))
    })?;
    Ok(rows.collect::<Result<_, _>>()?)
}

/// The latest instant that this notebook's clock follows: of any change held, but for
/// those that lay too far ahead when they came.
///
/// # Errors
/// When the store fails.
pub fn latest_hlc(db: &Connection) -> Result<Hlc, StoreError> {
    let latest: Option<i64> = db
        .prepare_cached("SELECT max(hlc) FROM series")?
        .query_row([], |row| row.get(0))?;
    Ok(latest.and_then(Hlc::new).unwrap_or(Hlc::ZERO))
}

/// A page of a series: the changes after number `seq`, in order, until
/// `max_bytes` of bodies are gathered (at least one change, if there is one).
///
/// # Errors
/// When the store fails.
pub fn after(
    db: &Connection,
    device: Uuid,
    seq: u64,
    max_bytes: usize,
) -> Result<Vec<Change>, StoreError> {
    let mut statement = db.prepare_cached(
        "SELECT device, seq, hlc, recorded_ms, offset_min, kind, body, raw FROM change
         WHERE device = ?1 AND seq > ?2 ORDER BY seq",
    )?;
    let mut rows = statement.query(params![device, seq])?;
    let mut page = Vec::new();
    let mut bytes = 0;
    while let Some(row) = rows.next()? {
        let change = read(row)?;
        bytes += change.kind.len() + change.body.len();
        if bytes > max_bytes && !page.is_empty() {
            break;
        }
        page.push(change);
    }
    Ok(page)
}

/// One change.
///
/// # Errors
/// When the store fails.
pub fn change_at(db: &Connection, device: Uuid, seq: u64) -> Result<Option<Change>, StoreError> {
    let mut statement = db.prepare_cached(
        "SELECT device, seq, hlc, recorded_ms, offset_min, kind, body, raw FROM change
         WHERE device = ?1 AND seq = ?2",
    )?;
    Ok(statement.query_row(params![device, seq], read).optional()?)
}

/// Digest of a series up to a change that is held.
///
/// # Errors
/// When the store fails.
pub fn digest_at(db: &Connection, device: Uuid, seq: u64) -> Result<Option<Digest>, StoreError> {
    let mut statement =
        db.prepare_cached("SELECT digest FROM change WHERE device = ?1 AND seq = ?2")?;
    Ok(statement
        .query_row(params![device, seq], |row| row.get(0))
        .optional()?)
}

/// Adds a change that follows the end of its series. The clock of this notebook follows
/// its stamp unless that lies beyond `horizon` ([`crate::clock::horizon`]).
pub(crate) fn append(
    db: &Connection,
    change: &Change,
    received_ms: i64,
    horizon: Hlc,
) -> Result<(), StoreError> {
    let before: Option<Digest> = db
        .prepare_cached("SELECT digest FROM series WHERE device = ?1")?
        .query_row([change.device], |row| row.get(0))
        .optional()?;
    let digest = change.digest(before.as_ref());
    db.prepare_cached(
        "INSERT INTO change
           (device, seq, hlc, recorded_ms, offset_min, received_ms, kind, body, digest, raw)
         VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10)",
    )?
    .execute(params![
        change.device,
        change.seq,
        change.hlc.number(),
        change.recorded_ms,
        change.offset_min,
        received_ms,
        change.kind,
        change.body,
        digest,
        change.raw,
    ])?;
    db.prepare_cached(
        "INSERT INTO series (device, head, hlc, digest) VALUES (?1, ?2, ?3, ?4)
         ON CONFLICT (device) DO UPDATE
         SET head = excluded.head, hlc = max(hlc, excluded.hlc), digest = excluded.digest",
    )?
    .execute(params![
        change.device,
        change.seq,
        if change.hlc <= horizon {
            change.hlc.number()
        } else {
            0
        },
        digest
    ])?;
    Ok(())
}

/// The clock of this notebook follows a stamp of a series that it did not follow yet.
pub(crate) fn follow_to(db: &Connection, device: Uuid, hlc: Hlc) -> Result<(), StoreError> {
    db.prepare_cached("UPDATE series SET hlc = max(hlc, ?2) WHERE device = ?1")?
        .execute(params![device, hlc.number()])?;
    Ok(())
}

/// The clock of this notebook follows, of a series, the stamps up to `horizon` and no
/// others.
pub(crate) fn follow_again(db: &Connection, device: Uuid, horizon: Hlc) -> Result<(), StoreError> {
    db.execute(
        "UPDATE series SET hlc = coalesce(
           (SELECT max(hlc) FROM change WHERE device = ?1 AND hlc <= ?2), 0)
         WHERE device = ?1",
        params![device, horizon.number()],
    )?;
    Ok(())
}

/// Takes the changes of a series from a number on out of the log, each with the
/// time at which it came. For a branch that moves to another series.
pub(crate) fn take_branch(
    db: &Connection,
    device: Uuid,
    from: u64,
) -> Result<Vec<(Change, i64)>, StoreError> {
    let branch = db
        .prepare_cached(
            "SELECT device, seq, hlc, recorded_ms, offset_min, kind, body, raw, received_ms
             FROM change WHERE device = ?1 AND seq >= ?2 ORDER BY seq",
        )?
        .query_map(params![device, from], |row| Ok((read(row)?, row.get(8)?)))?
        .collect::<Result<Vec<_>, _>>()?;
    db.execute(
        "DELETE FROM change WHERE device = ?1 AND seq >= ?2",
        params![device, from],
    )?;
    db.execute("DELETE FROM series WHERE device = ?1", [device])?;
    db.execute(
        "INSERT INTO series (device, head, hlc, digest)
         SELECT device, seq, (SELECT max(hlc) FROM change WHERE device = ?1), digest
         FROM change WHERE device = ?1 ORDER BY seq DESC LIMIT 1",
        [device],
    )?;
    Ok(branch)
}

/// Calls `each` with every change in order of arrival.
pub(crate) fn each_in_order<E: From<StoreError>>(
    db: &Connection,
    mut each: impl FnMut(&Change) -> Result<(), E>,
) -> Result<(), E> {
    let mut statement = db
        .prepare(
            "SELECT device, seq, hlc, recorded_ms, offset_min, kind, body, raw FROM change
             ORDER BY arrival",
        )
        .map_err(StoreError::from)?;
    let mut rows = statement.query([]).map_err(StoreError::from)?;
    while let Some(row) = rows.next().map_err(StoreError::from)? {
        each(&read(row).map_err(StoreError::from)?)?;
    }
    Ok(())
}

/// Calls `each` with every change and its digest, series by series.
pub(crate) fn each_with_digest(
    db: &Connection,
    mut each: impl FnMut(&Change, Digest),
) -> Result<(), StoreError> {
    // A backup may be older than the column.
    let raw = raw_or_none(db)?;
    let mut statement = db.prepare(&format!(
        "SELECT device, seq, hlc, recorded_ms, offset_min, kind, body, {raw}, digest FROM change
         ORDER BY device, seq",
    ))?;
    let mut rows = statement.query([])?;
    while let Some(row) = rows.next()? {
        each(&read(row)?, row.get(8)?);
    }
    Ok(())
}

/// The column of a change's bytes, or what stands for it in a file without one.
pub(crate) fn raw_or_none(db: &Connection) -> rusqlite::Result<&'static str> {
    Ok(if db.column_exists(None::<&str>, "change", "raw")? {
        "raw"
    } else {
        "NULL"
    })
}

fn read(row: &Row) -> rusqlite::Result<Change> {
    Ok(Change {
        device: row.get(0)?,
        seq: row.get(1)?,
        hlc: Hlc::new(row.get(2)?).unwrap_or(Hlc::LATEST),
        recorded_ms: row.get(3)?,
        offset_min: row.get(4)?,
        kind: row.get(5)?,
        body: row.get(6)?,
        raw: row.get(7)?,
    })
}
