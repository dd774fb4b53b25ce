//! The change log of each crew.

use super::members;
use super::seals::{self, number};
use crate::store::{
    Claim, CrewRoom, Member, Quotas, Reading, Right, Room, Standing, StoreFault, Stored, Tally,
    admitted, fresh_part, given_run, right_to_append,
};
use deadpool_postgres::{Object, Transaction};
use futures_util::TryStreamExt;
use serde_bytes::ByteBuf;
use std::collections::BTreeMap;
use tokio_postgres::Row;
use tokio_postgres::types::ToSql;
use uuid::Uuid;
use wire::seal::Signature;
use wire::{Heads, Mark, PAGE_CHANGES, Page, Refusal, Run, SealedPage, SealedRun, Span, Tag};

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

/// The member who gives something, if they may, with the series begun and the bytes
/// stored by it so far.
async fn giver(tx: &Transaction<'_>, by: Uuid) -> Stored<(Member, (u64, u64))> {
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
    let member = admitted(members::member(tx, by).await?)?;
    let stored = |column| {
        stored
            .as_ref()
            .map_or(0, |row| row.get::<_, i64>(column).unsigned_abs())
    };
    Ok((member, (stored(0), stored(1))))
}

pub(super) async fn append(
    client: &mut Object,
    by: Uuid,
    page: &SealedPage,
    now: i64,
    quotas: &Quotas,
) -> Stored<Heads> {
    let tx = client.transaction().await?;
    let (member, (series_made, bytes_stored)) = giver(&tx, by).await?;
    let mut tally = Tally::new(quotas.of(member.role), series_made, bytes_stored);
    begin_series(&tx, &member, page, &mut tally).await?;
    let mut series = lock_series(&tx, member.crew, page).await?;
    let mut heads = Heads::new();
    for came in page.iter() {
        let row = series
            .get_mut(&came.run.device)
            .ok_or_else(|| StoreFault::Failed("a series is missing".into()))?;
        append_run(&tx, &member, row, came, now, &mut tally).await?;
        heads.insert(came.run.device, row.mark);
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

/// Keeps the first seals of a series that is the member's.
pub(super) async fn seal(
    client: &mut Object,
    by: Uuid,
    device: Uuid,
    given: &[(u64, Signature)],
) -> Stored<()> {
    let tx = client.transaction().await?;
    let (member, _) = giver(&tx, by).await?;
    let lock = "SELECT id FROM series WHERE crew = $1 AND device = $2 FOR UPDATE";
    tx.query(lock, &[&member.crew, &device]).await?;
    let (row, standing) = seals::standing(&tx, member.crew, device)
        .await?
        .ok_or(Refusal::Unknown)?;
    if standing
        .writer
        .is_some_and(|writer| Some(writer.key) == member.key)
    {
        // The answer was lost the first time.
        return Ok(());
    }
    let mut claim = Claim::new(&member, device, &standing, given)?;
    let query = tx
        .prepare_cached("SELECT body FROM change WHERE series = $1 ORDER BY seq")
        .await?;
    let values: [&(dyn ToSql + Sync); 1] = [&row];
    {
        let rows = tx.query_raw(&query, values).await?;
        futures_util::pin_mut!(rows);
        while let Some(row) = rows.try_next().await? {
            claim.take(row.get(0))?;
        }
    }
    let (writer, proved) = claim.proved()?;
    seals::write_key(&tx, row, &writer).await?;
    for (seq, signature, link) in proved {
        seals::keep(&tx, row, seq, &signature, link).await?;
    }
    tx.execute("UPDATE series SET owner = $2 WHERE id = $1", &[&row, &by])
        .await?;
    tx.commit().await?;
    Ok(())
}

async fn begin_series(
    tx: &Transaction<'_>,
    by: &Member,
    page: &SealedPage,
    tally: &mut Tally,
) -> Stored<()> {
    let mut devices: Vec<Uuid> = page.iter().map(|came| came.run.device).collect();
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

/// A series that a page adds to.
struct Locked {
    row: i64,
    mark: Mark,
    standing: Standing,
}

/// The series of the page, locked in one order everywhere.
async fn lock_series(
    tx: &Transaction<'_>,
    crew: Uuid,
    page: &SealedPage,
) -> Stored<BTreeMap<Uuid, Locked>> {
    let devices: Vec<Uuid> = page.iter().map(|came| came.run.device).collect();
    let lock = tx
        .prepare_cached(
            "SELECT 1 FROM series
             WHERE crew = $1 AND device = ANY ($2) ORDER BY device FOR UPDATE",
        )
        .await?;
    tx.query(&lock, &[&crew, &devices]).await?;
    // Read anew: the seals are those of the moment after the wait for the locks.
    let query = format!(
        "SELECT series.device, series.head, series.tag, {} FROM {}
         WHERE series.crew = $1 AND series.device = ANY ($2)",
        seals::COLUMNS,
        seals::TABLES
    );
    let query = tx.prepare_cached(&query).await?;
    tx.query(&query, &[&crew, &devices])
        .await?
        .iter()
        .map(|found| {
            let (row, standing) = seals::read(found, 3)?;
            let mark = mark(found, 1, 2)?;
            let locked = Locked {
                row,
                mark,
                standing,
            };
            Ok((found.get(0), locked))
        })
        .collect()
}

async fn append_run(
    tx: &Transaction<'_>,
    by: &Member,
    series: &mut Locked,
    came: &SealedRun,
    now: i64,
    tally: &mut Tally,
) -> Stored<()> {
    let (row, end, run) = (series.row, series.mark, &came.run);
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
    let origin = came.seal.and_then(|seal| seal.origin);
    let origin_key = match origin.filter(|_| series.standing.writer.is_none()) {
        Some(origin) => seals::standing(tx, by.crew, origin.series)
            .await?
            .and_then(|(_, origin)| origin.writer)
            .map(|writer| writer.key),
        None => None,
    };
    let right = right_to_append(by, &series.standing, came, piece.fresh, origin_key)?;
    tally.store(piece.bodies)?;
    let owner = match &right {
        Right::Sealed { writer, .. } if by.key != Some(writer.key) => {
            let known = seals::member_of(tx, by.crew, writer.key).await?;
            known.unwrap_or(by.device)
        }
        _ => by.device,
    };
    seals::note(tx, row, &series.standing, &right, owner, end.seq).await?;
    series.mark = end;
    // A page may hold more of the series.
    series.standing.end = end.seq;
    series.standing.owner.get_or_insert(owner);
    if let Right::Sealed { writer, link, .. } = right {
        series.standing.writer = Some(writer);
        series.standing.link = Some(link);
    }
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
    let tag: &[u8] = &end.tag.0;
    tx.execute(&update, &[&row, &number(end.seq)?, &tag])
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

/// As [`read`], each run up to a seal where its series carries seals.
pub(super) async fn read_sealed(client: &Object, crew: Uuid, spans: &[Span]) -> Stored<SealedPage> {
    let mut room = Room::new();
    let mut runs = Vec::new();
    let query = client
        .prepare_cached(
            "SELECT change.body, seal.signature FROM change
             LEFT JOIN seal ON seal.series = change.series AND seal.seq = change.seq
             WHERE change.series = $1 AND change.seq > $2 AND change.seq <= $3
             ORDER BY change.seq LIMIT $4",
        )
        .await?;
    for span in spans {
        if room.changes() == 0 {
            break;
        }
        let Some((series, standing)) = seals::standing(client, crew, span.device).await? else {
            continue;
        };
        let (after, to, most) = (number(span.after)?, number(span.to)?, room.changes() as i64);
        let values: [&(dyn ToSql + Sync); 4] = [&series, &after, &to, &most];
        let rows = client.query_raw(&query, values).await?;
        futures_util::pin_mut!(rows);
        let (mut reading, mut full) = (Reading::default(), false);
        while let Some(row) = rows.try_next().await? {
            let body: Vec<u8> = row.get(0);
            if !room.take(body.len()) {
                full = true;
                break;
            }
            reading.push(body, seals::signature(row.get(1))?);
        }
        if let Some((bodies, signature)) = reading.given(standing.writer) {
            let run = Run {
                device: span.device,
                after: span.after,
                bodies: bodies.into(),
            };
            runs.push(given_run(run, standing.writer, signature));
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
