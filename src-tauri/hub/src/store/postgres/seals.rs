//! Keys, owners and seals of series.

use crate::store::{Right, Standing, StoreFault, Stored};
use deadpool_postgres::{GenericClient, Object, Transaction};
use std::collections::BTreeMap;
use tokio_postgres::Row;
use uuid::Uuid;
use wire::seal::{Link, Origin, PublicKey, Signature, Writer};
use wire::{Refusal, RosterEntry};

pub(super) fn number(seq: u64) -> Stored<i64> {
    i64::try_from(seq).map_err(|_| StoreFault::Refused(Refusal::OutOfBounds))
}

fn bytes32(bytes: &[u8]) -> Stored<[u8; 32]> {
    bytes
        .try_into()
        .map_err(|_| StoreFault::Failed("a key or a link has another length".into()))
}

/// The key in a column.
pub(super) fn key(bytes: Option<&[u8]>) -> Stored<Option<PublicKey>> {
    bytes.map(bytes32).transpose().map(|key| key.map(PublicKey))
}

/// The signature in a column.
pub(super) fn signature(bytes: Option<&[u8]>) -> Stored<Option<Signature>> {
    let whole = |bytes: &[u8]| {
        let whole: Result<[u8; 64], _> = bytes.try_into();
        whole.map_err(|_| StoreFault::Failed("a signature has another length".into()))
    };
    Ok(bytes.map(whole).transpose()?.map(Signature::from_bytes))
}

pub(super) async fn introduce(
    client: &mut Object,
    by: Uuid,
    given: PublicKey,
    own: Uuid,
) -> Stored<()> {
    let tx = client.transaction().await?;
    let row = tx
        .query_opt("SELECT key FROM device WHERE id = $1 FOR UPDATE", &[&by])
        .await?
        .ok_or(Refusal::Unknown)?;
    if key(row.get(0))?.is_some_and(|known| known != given) {
        return Err(Refusal::OtherKey.into());
    }
    let bytes: &[u8] = &given.0;
    tx.execute("UPDATE device SET key = $2 WHERE id = $1", &[&by, &bytes])
        .await?;
    tx.execute(
        "UPDATE series SET owner = $1
         WHERE device = $2 AND owner IS NULL AND key IS NULL AND crew =
           (SELECT person.crew FROM device JOIN person ON person.id = device.person
            WHERE device.id = $1)",
        &[&by, &own],
    )
    .await?;
    tx.commit().await?;
    Ok(())
}

pub(super) async fn writers(client: &Object, crew: Uuid) -> Stored<BTreeMap<Uuid, RosterEntry>> {
    let query = client
        .prepare_cached("SELECT device, key, owner FROM series WHERE crew = $1 AND key IS NOT NULL")
        .await?;
    let mut writers = BTreeMap::new();
    for row in client.query(&query, &[&crew]).await? {
        if let Some(key) = key(row.get(1))? {
            let member = row.get(2);
            writers.insert(row.get(0), RosterEntry { key, member });
        }
    }
    Ok(writers)
}

/// Columns of a series that [`read`] takes, in its order.
pub(super) const COLUMNS: &str =
    "series.id, series.head, series.owner, series.key, series.origin, series.origin_seq,
     series.origin_link, seal.link";
/// The tables of those columns.
pub(super) const TABLES: &str =
    "series LEFT JOIN seal ON seal.series = series.id AND seal.seq = series.head";

/// A series as it stands, and its row, from the columns after `first`.
pub(super) fn read(row: &Row, first: usize) -> Stored<(i64, Standing)> {
    let key = key(row.get(first + 3))?;
    let origin: Option<Uuid> = row.get(first + 4);
    let origin = match origin {
        None => None,
        Some(series) => Some(Origin {
            series,
            seq: row.get::<_, i64>(first + 5).unsigned_abs(),
            link: Link(bytes32(row.get(first + 6))?),
        }),
    };
    let link: Option<&[u8]> = row.get(first + 7);
    let standing = Standing {
        end: row.get::<_, i64>(first + 1).unsigned_abs(),
        owner: row.get(first + 2),
        writer: key.map(|key| Writer { key, origin }),
        link: link.map(bytes32).transpose()?.map(Link),
    };
    Ok((row.get(first), standing))
}

pub(super) async fn standing<C: GenericClient>(
    client: &C,
    crew: Uuid,
    device: Uuid,
) -> Stored<Option<(i64, Standing)>> {
    let query =
        format!("SELECT {COLUMNS} FROM {TABLES} WHERE series.crew = $1 AND series.device = $2");
    let query = client.prepare_cached(&query).await?;
    let row = client.query_opt(&query, &[&crew, &device]).await?;
    row.map(|row| read(&row, 0)).transpose()
}

/// The membership of a crew whose key this is, one that is still in it before others.
pub(super) async fn member_of(
    tx: &Transaction<'_>,
    crew: Uuid,
    key: PublicKey,
) -> Stored<Option<Uuid>> {
    let query = tx
        .prepare_cached(
            "SELECT device.id FROM device JOIN person ON person.id = device.person
             WHERE person.crew = $1 AND device.key = $2
             ORDER BY device.removed_at IS NOT NULL, device.id DESC LIMIT 1",
        )
        .await?;
    let bytes: &[u8] = &key.0;
    let row = tx.query_opt(&query, &[&crew, &bytes]).await?;
    Ok(row.map(|row| row.get(0)))
}

/// Keeps by what right changes up to a number were taken.
pub(super) async fn note(
    tx: &Transaction<'_>,
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
            write_key(tx, row, writer).await?;
        }
        keep(tx, row, seq, signature, *link).await?;
    }
    if standing.owner.is_none() {
        let update = tx
            .prepare_cached("UPDATE series SET owner = $2 WHERE id = $1")
            .await?;
        tx.execute(&update, &[&row, &owner]).await?;
    }
    Ok(())
}

pub(super) async fn write_key(tx: &Transaction<'_>, row: i64, writer: &Writer) -> Stored<()> {
    let update = tx
        .prepare_cached(
            "UPDATE series SET key = $2, origin = $3, origin_seq = $4, origin_link = $5
             WHERE id = $1",
        )
        .await?;
    let key: &[u8] = &writer.key.0;
    let origin = writer.origin;
    let series = origin.map(|origin| origin.series);
    let seq = origin.map(|origin| number(origin.seq)).transpose()?;
    let link: Option<&[u8]> = origin.as_ref().map(|origin| origin.link.0.as_slice());
    tx.execute(&update, &[&row, &key, &series, &seq, &link])
        .await?;
    Ok(())
}

pub(super) async fn keep(
    tx: &Transaction<'_>,
    row: i64,
    seq: u64,
    signature: &Signature,
    link: Link,
) -> Stored<()> {
    let insert = tx
        .prepare_cached(
            "INSERT INTO seal (series, seq, signature, link) VALUES ($1, $2, $3, $4)
             ON CONFLICT (series, seq) DO UPDATE
             SET signature = excluded.signature, link = excluded.link",
        )
        .await?;
    let whole = signature.to_bytes();
    let (signature, link): (&[u8], &[u8]) = (&whole, &link.0);
    tx.execute(&insert, &[&row, &number(seq)?, &signature, &link])
        .await?;
    Ok(())
}
