//! The change log of each crew.

use super::members;
use crate::store::{
    CrewRoom, Member, Quotas, Room, StoreFault, Stored, Tally, admitted, fresh_part,
};
use deadpool_postgres::{Object, Transaction};
use exchange::wire::{Heads, Mark, PAGE_CHANGES, Page, Refusal, Run, Span, Tag};
use futures_util::TryStreamExt;
use serde_bytes::ByteBuf;
use std::collections::BTreeMap;
use tokio_postgres::Row;
use tokio_postgres::types::ToSql;
use uuid::Uuid;

fn number(seq: u64) -> Stored<i64> {
    i64::try_from(seq).map_err(|_| StoreFault::Refused(Refusal::OutOfBounds))
}

fn mark(row: &Row, head: usize, tag: usize) -> Stored<Mark> {
    Ok(Mark {
        seq: row.get::<_, i64>(head).unsigned_abs(),
        tag: Tag::from_digest(row.get(tag))
            .ok_or_else(|| StoreFault::Failed("a tag is too short".into()))?,
    })
}

pub(super) async fn heads(client: &Object, crew: Uuid) -> Stored<Heads> {
    let query = client
        .prepare_cached("SELECT device, head, tag FROM series WHERE crew = $1")
        .await?;
    client
        .query(&query, &[&crew])
        .await?
        .iter()
        .map(|row| Ok((row.get(0), mark(row, 1, 2)?)))
        .collect()
}

pub(super) async fn forked(
    client: &Object,
    crew: Uuid,
    marks: &[(Uuid, Mark)],
) -> Stored<Vec<Uuid>> {
    let devices: Vec<Uuid> = marks.iter().map(|(device, _)| *device).collect();
    let seqs: Vec<i64> = marks
        .iter()
        .map(|(_, mark)| number(mark.seq))
        .collect::<Stored<_>>()?;
    let query = client
        .prepare_cached(
            "SELECT series.device, change.body
             FROM unnest($2::uuid[], $3::bigint[]) AS asked (device, seq)
             JOIN series ON series.crew = $1 AND series.device = asked.device
             JOIN change ON change.series = series.id AND change.seq = asked.seq",
        )
        .await?;
    let known: BTreeMap<Uuid, Mark> = marks.iter().copied().collect();
    let rows = client.query(&query, &[&crew, &devices, &seqs]).await?;
    let mut forked: Vec<Uuid> = rows
        .iter()
        .map(|row| (row.get(0), Tag::of(row.get(1))))
        .filter(|(device, tag)| known.get(device).is_some_and(|mark| mark.tag != *tag))
        .map(|(device, _)| device)
        .collect();
    forked.sort_unstable();
    Ok(forked)
}

pub(super) async fn append(
    client: &mut Object,
    by: Uuid,
    page: &Page,
    now: i64,
    quotas: &Quotas,
) -> Stored<Heads> {
    let tx = client.transaction().await?;
    // Held until the commit: a phone removed meanwhile waits for this page, one
    // removed before stores nothing, and two pages of one phone are counted one after
    // the other.
    let lock = tx
        .prepare_cached(
            "SELECT device.series_made, device.bytes_stored
             FROM device JOIN person ON person.id = device.person
             WHERE device.id = $1 FOR NO KEY UPDATE OF device FOR SHARE OF person",
        )
        .await?;
    let stored = tx.query_opt(&lock, &[&by]).await?;
    let member = admitted(members::member(&tx, by).await?)?;
    let stored = |column| {
        stored
            .as_ref()
            .map_or(0, |row| row.get::<_, i64>(column).unsigned_abs())
    };
    let mut tally = Tally::new(quotas.of(member.role), stored(0), stored(1));
    begin_series(&tx, &member, page, &mut tally).await?;
    let mut series = lock_series(&tx, member.crew, page).await?;
    let mut heads = Heads::new();
    for run in page.iter() {
        let row = series
            .get_mut(&run.device)
            .ok_or_else(|| StoreFault::Failed("a series is missing".into()))?;
        append_run(&tx, row, run, now, &mut tally).await?;
        heads.insert(run.device, row.1);
    }
    if let Some((series, change_bytes)) = tally.grown() {
        let update = tx
            .prepare_cached("UPDATE device SET series_made = $2, bytes_stored = $3 WHERE id = $1")
            .await?;
        tx.execute(&update, &[&by, &number(series)?, &number(change_bytes)?])
            .await?;
    }
    tx.commit().await?;
    Ok(heads)
}

async fn begin_series(
    tx: &Transaction<'_>,
    by: &Member,
    page: &Page,
    tally: &mut Tally,
) -> Stored<()> {
    let mut devices: Vec<Uuid> = page.iter().map(|run| run.device).collect();
    devices.sort_unstable();
    devices.dedup();
    let insert = tx
        .prepare_cached(
            "INSERT INTO series (crew, device, head, tag, made_by)
             SELECT $1, device, 0, '\\x0000000000000000', $3
             FROM unnest($2::uuid[]) AS given (device)
             WHERE NOT EXISTS (
                 SELECT 1 FROM series WHERE series.crew = $1 AND series.device = given.device)
             ON CONFLICT (crew, device) DO NOTHING",
        )
        .await?;
    let begun = tx
        .execute(&insert, &[&by.crew, &devices, &by.device])
        .await?;
    if begun == 0 {
        return Ok(());
    }
    let row = tx
        .query_one(
            "SELECT count(*), count(*) FILTER (WHERE device.removed_at IS NULL)
             FROM series LEFT JOIN device ON device.id = series.made_by
             WHERE series.crew = $1",
            &[&by.crew],
        )
        .await?;
    // The new ones are among them.
    let before = |column| {
        row.get::<_, i64>(column)
            .unsigned_abs()
            .saturating_sub(begun)
    };
    let (all, counted) = (before(0), before(1));
    for begun in 0..begun {
        tally.begin_series(CrewRoom {
            all: all + begun,
            counted: counted + begun,
        })?;
    }
    Ok(())
}

/// Row id and end of each series of the page, locked in one order everywhere.
async fn lock_series(
    tx: &Transaction<'_>,
    crew: Uuid,
    page: &Page,
) -> Stored<BTreeMap<Uuid, (i64, Mark)>> {
    let devices: Vec<Uuid> = page.iter().map(|run| run.device).collect();
    let query = tx
        .prepare_cached(
            "SELECT device, id, head, tag FROM series
             WHERE crew = $1 AND device = ANY ($2) ORDER BY device FOR UPDATE",
        )
        .await?;
    tx.query(&query, &[&crew, &devices])
        .await?
        .iter()
        .map(|row| Ok((row.get(0), (row.get(1), mark(row, 2, 3)?))))
        .collect()
}

async fn append_run(
    tx: &Transaction<'_>,
    series: &mut (i64, Mark),
    run: &Run,
    now: i64,
    tally: &mut Tally,
) -> Stored<()> {
    let (row, end) = *series;
    let stored = if run.after < end.seq {
        let query = tx.prepare_cached(BODIES).await?;
        let rows = tx
            .query(
                &query,
                &[
                    &row,
                    &number(run.after)?,
                    &number(run.last())?,
                    &(PAGE_CHANGES as i64),
                ],
            )
            .await?;
        rows.iter().map(|row| row.get(0)).collect()
    } else {
        Vec::<Vec<u8>>::new()
    };
    let piece = fresh_part(end.seq, &stored, run)?;
    let Some(end) = piece.end else {
        return Ok(());
    };
    tally.store(piece.bodies)?;
    series.1 = end;
    let seqs: Vec<i64> = (number(piece.first)?..).take(piece.bodies.len()).collect();
    let bodies: Vec<&[u8]> = piece.bodies.iter().map(|body| body.as_slice()).collect();
    let insert = tx
        .prepare_cached(
            "INSERT INTO change (series, seq, received_at, body)
             SELECT $1, seq, $2, body FROM unnest($3::bigint[], $4::bytea[]) AS fresh (seq, body)",
        )
        .await?;
    tx.execute(&insert, &[&row, &now, &seqs, &bodies]).await?;
    let update = tx
        .prepare_cached("UPDATE series SET head = $2, tag = $3 WHERE id = $1")
        .await?;
    let tag: &[u8] = &series.1.tag.0;
    tx.execute(&update, &[&row, &number(series.1.seq)?, &tag])
        .await?;
    Ok(())
}

const BODIES: &str = "SELECT body FROM change
     WHERE series = $1 AND seq > $2 AND seq <= $3 ORDER BY seq LIMIT $4";

async fn series_row(client: &Object, crew: Uuid, device: Uuid) -> Stored<Option<i64>> {
    let query = client
        .prepare_cached("SELECT id FROM series WHERE crew = $1 AND device = $2")
        .await?;
    let row = client.query_opt(&query, &[&crew, &device]).await?;
    Ok(row.map(|row| row.get(0)))
}

pub(super) async fn read(client: &Object, crew: Uuid, spans: &[Span]) -> Stored<Page> {
    let mut room = Room::new();
    let mut runs = Vec::new();
    let query = client.prepare_cached(BODIES).await?;
    for span in spans {
        if room.changes() == 0 {
            break;
        }
        let Some(series) = series_row(client, crew, span.device).await? else {
            continue;
        };
        let (after, to, most) = (number(span.after)?, number(span.to)?, room.changes() as i64);
        let values: [&(dyn ToSql + Sync); 4] = [&series, &after, &to, &most];
        // A stream, so that a page's worth of long changes is not read whole.
        let rows = client.query_raw(&query, values).await?;
        futures_util::pin_mut!(rows);
        let mut taken = Vec::new();
        let mut full = false;
        while let Some(row) = rows.try_next().await? {
            let body: Vec<u8> = row.get(0);
            if !room.take(body.len()) {
                full = true;
                break;
            }
            taken.push(ByteBuf::from(body));
        }
        if !taken.is_empty() {
            runs.push(Run {
                device: span.device,
                after: span.after,
                bodies: taken.into(),
            });
        }
        if full {
            break;
        }
    }
    Ok(runs.into())
}

pub(super) async fn tags(client: &Object, crew: Uuid, span: Span) -> Stored<Vec<Tag>> {
    let Some(series) = series_row(client, crew, span.device).await? else {
        return Ok(Vec::new());
    };
    let query = client.prepare_cached(BODIES).await?;
    let rows = client
        .query(
            &query,
            &[
                &series,
                &number(span.after)?,
                &number(span.to)?,
                &(PAGE_CHANGES as i64),
            ],
        )
        .await?;
    Ok(rows.iter().map(|row| Tag::of(row.get(0))).collect())
}
