//! The change log of each crew.

use super::{bytes, id, members};
use crate::store::{CrewRoom, Quotas, Room, StoreFault, Stored, Tally, admitted, fresh_part};
use exchange::wire::{Heads, Mark, PAGE_CHANGES, Page, Refusal, Run, Span, Tag};
use rusqlite::{Connection, OptionalExtension};
use serde_bytes::ByteBuf;
use uuid::Uuid;

fn series(db: &Connection, crew: Uuid, device: Uuid) -> Stored<Option<(i64, u64)>> {
    Ok(db
        .prepare_cached("SELECT id, head FROM series WHERE crew = ?1 AND device = ?2")?
        .query_row((bytes(crew), bytes(device)), |row| {
            Ok((row.get(0)?, row.get::<_, i64>(1)?.unsigned_abs()))
        })
        .optional()?)
}

fn number(seq: u64) -> Stored<i64> {
    i64::try_from(seq).map_err(|_| StoreFault::Refused(Refusal::OutOfBounds))
}

pub(super) fn heads(db: &Connection, crew: Uuid) -> Stored<Heads> {
    let mut query =
        db.prepare_cached("SELECT device, head, tag FROM series WHERE crew = ?1 ORDER BY device")?;
    let mut rows = query.query([bytes(crew)])?;
    let mut heads = Heads::new();
    while let Some(row) = rows.next()? {
        let tag: Vec<u8> = row.get(2)?;
        heads.insert(
            id(row.get(0)?)?,
            Mark {
                seq: row.get::<_, i64>(1)?.unsigned_abs(),
                tag: Tag::from_digest(&tag)
                    .ok_or_else(|| StoreFault::Failed("a tag is too short".into()))?,
            },
        );
    }
    Ok(heads)
}

pub(super) fn forked(db: &Connection, crew: Uuid, marks: &[(Uuid, Mark)]) -> Stored<Vec<Uuid>> {
    let mut query = db.prepare_cached(
        "SELECT change.body FROM change JOIN series ON series.id = change.series
         WHERE series.crew = ?1 AND series.device = ?2 AND change.seq = ?3",
    )?;
    let mut forked = Vec::new();
    for (device, mark) in marks {
        let body: Option<Vec<u8>> = query
            .query_row((bytes(crew), bytes(*device), number(mark.seq)?), |row| {
                row.get(0)
            })
            .optional()?;
        if body.is_some_and(|body| Tag::of(&body) != mark.tag) {
            forked.push(*device);
        }
    }
    Ok(forked)
}

pub(super) fn append(
    db: &Connection,
    by: Uuid,
    page: &Page,
    now: i64,
    quotas: &Quotas,
) -> Stored<Heads> {
    let member = admitted(members::member(db, by)?)?;
    let (series, change_bytes): (i64, i64) = db
        .prepare_cached("SELECT series_made, bytes_stored FROM device WHERE id = ?1")?
        .query_row([bytes(by)], |row| Ok((row.get(0)?, row.get(1)?)))?;
    let mut appending = Appending {
        db,
        crew: member.crew,
        by,
        now,
        tally: Tally::new(
            quotas.of(member.role),
            series.unsigned_abs(),
            change_bytes.unsigned_abs(),
        ),
    };
    let mut heads = Heads::new();
    for run in page.iter() {
        heads.insert(run.device, appending.append_run(run)?);
    }
    if let Some((series, change_bytes)) = appending.tally.grown() {
        db.prepare_cached("UPDATE device SET series_made = ?2, bytes_stored = ?3 WHERE id = ?1")?
            .execute((bytes(by), number(series)?, number(change_bytes)?))?;
    }
    Ok(heads)
}

/// One page on its way into the log.
struct Appending<'a> {
    db: &'a Connection,
    crew: Uuid,
    by: Uuid,
    now: i64,
    tally: Tally,
}

impl Appending<'_> {
    fn append_run(&mut self, run: &Run) -> Stored<Mark> {
        let db = self.db;
        let found = series(db, self.crew, run.device)?;
        let (row, head) = found.unwrap_or((0, 0));
        let stored = if run.after < head {
            bodies(db, row, run.after, run.last(), PAGE_CHANGES)?
        } else {
            Vec::new()
        };
        let piece = fresh_part(head, &stored, run)?;
        let Some(end) = piece.end else {
            return mark(db, row);
        };
        self.tally.store(piece.bodies)?;
        let row = match found {
            Some(_) => {
                db.prepare_cached("UPDATE series SET head = ?2, tag = ?3 WHERE id = ?1")?
                    .execute((row, number(end.seq)?, end.tag.0))?;
                row
            }
            None => self.begin_series(run.device, end)?,
        };
        let mut insert = db.prepare_cached(
            "INSERT INTO change (series, seq, received_at, body) VALUES (?1, ?2, ?3, ?4)",
        )?;
        for (seq, body) in (piece.first..).zip(piece.bodies) {
            insert.execute((row, number(seq)?, self.now, body.as_slice()))?;
        }
        Ok(end)
    }

    fn begin_series(&mut self, device: Uuid, end: Mark) -> Stored<i64> {
        let room = self
            .db
            .prepare_cached(
                "SELECT count(*), count(*) FILTER (WHERE device.removed_at IS NULL)
                 FROM series LEFT JOIN device ON device.id = series.made_by
                 WHERE series.crew = ?1",
            )?
            .query_row([bytes(self.crew)], |row| {
                Ok(CrewRoom {
                    all: row.get::<_, i64>(0)?.unsigned_abs(),
                    counted: row.get::<_, i64>(1)?.unsigned_abs(),
                })
            })?;
        self.tally.begin_series(room)?;
        self.db
            .prepare_cached(
                "INSERT INTO series (crew, device, head, tag, made_by) VALUES (?1, ?2, ?3, ?4, ?5)",
            )?
            .execute((
                bytes(self.crew),
                bytes(device),
                number(end.seq)?,
                end.tag.0,
                bytes(self.by),
            ))?;
        Ok(self.db.last_insert_rowid())
    }
}

fn mark(db: &Connection, row: i64) -> Stored<Mark> {
    let (head, tag): (i64, Vec<u8>) = db
        .prepare_cached("SELECT head, tag FROM series WHERE id = ?1")?
        .query_row([row], |row| Ok((row.get(0)?, row.get(1)?)))?;
    Ok(Mark {
        seq: head.unsigned_abs(),
        tag: Tag::from_digest(&tag)
            .ok_or_else(|| StoreFault::Failed("a tag is too short".into()))?,
    })
}

fn bodies(db: &Connection, row: i64, after: u64, to: u64, most: usize) -> Stored<Vec<Vec<u8>>> {
    let mut query = db.prepare_cached(
        "SELECT body FROM change WHERE series = ?1 AND seq > ?2 AND seq <= ?3 ORDER BY seq LIMIT ?4",
    )?;
    let rows = query.query_map(
        (
            row,
            number(after)?,
            number(to)?,
            i64::try_from(most).unwrap_or(i64::MAX),
        ),
        |row| row.get(0),
    )?;
    Ok(rows.collect::<Result<_, _>>()?)
}

pub(super) fn read(db: &Connection, crew: Uuid, spans: &[Span]) -> Stored<Page> {
    let mut room = Room::new();
    let mut runs = Vec::new();
    let mut query = db.prepare_cached(
        "SELECT body FROM change WHERE series = ?1 AND seq > ?2 AND seq <= ?3 ORDER BY seq",
    )?;
    for span in spans {
        if room.changes() == 0 {
            break;
        }
        let Some((row, _)) = series(db, crew, span.device)? else {
            continue;
        };
        let mut taken = Vec::new();
        let mut full = false;
        let mut rows = query.query((row, number(span.after)?, number(span.to)?))?;
        while let Some(row) = rows.next()? {
            let body: Vec<u8> = row.get(0)?;
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

pub(super) fn tags(db: &Connection, crew: Uuid, span: Span) -> Stored<Vec<Tag>> {
    let Some((row, _)) = series(db, crew, span.device)? else {
        return Ok(Vec::new());
    };
    let bodies = bodies(db, row, span.after, span.to, PAGE_CHANGES)?;
    Ok(bodies.iter().map(|body| Tag::of(body)).collect())
}
