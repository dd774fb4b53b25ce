//! The change log of each crew.

use super::seals::{self, number};
use super::{bytes, id, members};
use crate::store::{
    Claim, CrewRoom, Member, Quotas, Reading, Right, Room, StoreFault, Stored, Tally, admitted,
    fresh_part, given_run, right_to_append,
};
use rusqlite::{Connection, OptionalExtension};
use serde_bytes::ByteBuf;
use uuid::Uuid;
use wire::seal::Signature;
use wire::{Heads, Mark, PAGE_CHANGES, Page, Refusal, Run, SealedPage, SealedRun, Span, Tag};

fn series(db: &Connection, crew: Uuid, device: Uuid) -> Stored<Option<(i64, u64)>> {
    Ok(db
        .prepare_cached("SELECT id, head FROM series WHERE crew = ?1 AND device = ?2")?
        .query_row((bytes(crew), bytes(device)), |row| {
            Ok((row.get(0)?, row.get::<_, i64>(1)?.unsigned_abs()))
        })
        .optional()?)
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
    page: &SealedPage,
    now: i64,
    quotas: &Quotas,
) -> Stored<Heads> {
    let member = admitted(members::member(db, by)?)?;
    let (series, change_bytes): (i64, i64) = db
        .prepare_cached("SELECT series_made, bytes_stored FROM device WHERE id = ?1")?
        .query_row([bytes(by)], |row| Ok((row.get(0)?, row.get(1)?)))?;
    let tally = Tally::new(
        quotas.of(member.role),
        series.unsigned_abs(),
        change_bytes.unsigned_abs(),
    );
    let mut appending = Appending {
        db,
        member,
        now,
        tally,
    };
    let mut heads = Heads::new();
    for came in page.iter() {
        heads.insert(came.run.device, appending.append_run(came)?);
    }
    if let Some((series, change_bytes)) = appending.tally.grown() {
        db.prepare_cached("UPDATE device SET series_made = ?2, bytes_stored = ?3 WHERE id = ?1")?
            .execute((bytes(by), number(series)?, number(change_bytes)?))?;
    }
    Ok(heads)
}

/// Keeps the first seals of a series that is the member's.
pub(super) fn seal(
    db: &Connection,
    by: Uuid,
    device: Uuid,
    given: &[(u64, Signature)],
) -> Stored<()> {
    let member = admitted(members::member(db, by)?)?;
    let (row, standing) = seals::standing(db, member.crew, device)?.ok_or(Refusal::Unknown)?;
    if standing
        .writer
        .is_some_and(|writer| Some(writer.key) == member.key)
    {
        // The answer was lost the first time.
        return Ok(());
    }
    let mut claim = Claim::new(&member, device, &standing, given)?;
    let mut query = db.prepare_cached("SELECT body FROM change WHERE series = ?1 ORDER BY seq")?;
    let mut rows = query.query([row])?;
    while let Some(row) = rows.next()? {
        claim.take(row.get_ref(0)?.as_blob().unwrap_or_default())?;
    }
    let (writer, proved) = claim.proved()?;
    seals::write_key(db, row, &writer)?;
    for (seq, signature, link) in proved {
        seals::keep(db, row, seq, &signature, link)?;
    }
    db.execute(
        "UPDATE series SET owner = ?2 WHERE id = ?1",
        (row, bytes(by)),
    )?;
    Ok(())
}

/// The membership that a new series is counted to: whose key seals it, or else who
/// brings it.
fn owner_of(db: &Connection, by: &Member, right: &Right) -> Stored<Uuid> {
    match right {
        Right::Sealed { writer, .. } if by.key != Some(writer.key) => {
            Ok(seals::member_of(db, by.crew, writer.key)?.unwrap_or(by.device))
        }
        _ => Ok(by.device),
    }
}

/// One page on its way into the log.
struct Appending<'a> {
    db: &'a Connection,
    member: Member,
    now: i64,
    tally: Tally,
}

impl Appending<'_> {
    fn append_run(&mut self, came: &SealedRun) -> Stored<Mark> {
        let (db, run) = (self.db, &came.run);
        let found = seals::standing(db, self.member.crew, run.device)?;
        let (row, standing) = found.unwrap_or_default();
        let head = standing.end;
        let stored = if run.after < head {
            bodies(db, row, run.after, run.last(), PAGE_CHANGES)?
        } else {
            Vec::new()
        };
        let piece = fresh_part(head, &stored, run)?;
        let Some(end) = piece.end else {
            return mark(db, row);
        };
        let origin = came.seal.and_then(|seal| seal.origin);
        let origin_key = match origin.filter(|_| standing.writer.is_none()) {
            Some(origin) => seals::standing(db, self.member.crew, origin.series)?
                .and_then(|(_, origin)| origin.writer)
                .map(|writer| writer.key),
            None => None,
        };
        let right = right_to_append(&self.member, &standing, came, piece.fresh, origin_key)?;
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
        let owner = owner_of(db, &self.member, &right)?;
        seals::note(db, row, &standing, &right, owner, end.seq)?;
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
            .query_row([bytes(self.member.crew)], |row| {
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
                bytes(self.member.crew),
                bytes(device),
                number(end.seq)?,
                end.tag.0,
                bytes(self.member.device),
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

/// As [`read`], each run up to a seal where its series carries seals.
pub(super) fn read_sealed(db: &Connection, crew: Uuid, spans: &[Span]) -> Stored<SealedPage> {
    let mut room = Room::new();
    let mut runs = Vec::new();
    let mut query = db.prepare_cached(
        "SELECT change.body, seal.signature FROM change
         LEFT JOIN seal ON seal.series = change.series AND seal.seq = change.seq
         WHERE change.series = ?1 AND change.seq > ?2 AND change.seq <= ?3 ORDER BY change.seq",
    )?;
    for span in spans {
        if room.changes() == 0 {
            break;
        }
        let Some((row, standing)) = seals::standing(db, crew, span.device)? else {
            continue;
        };
        let (mut reading, mut full) = (Reading::default(), false);
        let mut rows = query.query((row, number(span.after)?, number(span.to)?))?;
        while let Some(row) = rows.next()? {
            let body: Vec<u8> = row.get(0)?;
            if !room.take(body.len()) {
                full = true;
                break;
            }
            let signature: Option<[u8; 64]> = row.get(1)?;
            reading.push(body, signature.map(Signature::from_bytes));
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

pub(super) fn tags(db: &Connection, crew: Uuid, span: Span) -> Stored<Vec<Tag>> {
    let Some((row, _)) = series(db, crew, span.device)? else {
        return Ok(Vec::new());
    };
    let bodies = bodies(db, row, span.after, span.to, PAGE_CHANGES)?;
    Ok(bodies.iter().map(|body| Tag::of(body)).collect())
}
