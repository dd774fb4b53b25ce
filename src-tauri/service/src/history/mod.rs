//! A planting's changes in the order of time, and two of its walks side by side.

pub(crate) mod ask;
pub(crate) mod pages;
pub(crate) mod undo_change;

use std::collections::{BTreeMap, BTreeSet};

use rusqlite::{Connection, OptionalExtension, params};
use serde_json::Value;
use uuid::Uuid;

use crate::live::live_walk;
use crate::plantings::brief;
use crate::rollups;
use crate::{
    ChangeName, HarvestTerm, HistoryEntry, HistoryLine, HistoryPage, HistoryWalk, NewHead, Problem,
    Reply, Service, WalkComparison, read_only, settings,
};
use notebook::StoreError;
use notebook::fact::{Act, Body, Fact, Field, HeadRecord, Row, Seen, SeenPart};
use notebook::log::{self, Change, Stamp};
use notebook::views::{conflicts, harvest, plantings, walks};

/// Changes of one page, where the asker does not say.
const PAGE: u32 = 50;
/// Most changes of one page.
const MOST: u32 = 500;
/// Heads of one change that are told one by one.
const FEW: usize = 3;

impl Service {
    pub(crate) fn history(
        &mut self,
        planting: Uuid,
        before: Option<ChangeName>,
        limit: Option<u32>,
    ) -> Result<Reply<HistoryPage>, Problem> {
        let db = self.notebook.db();
        let known = plantings::one(db, planting)?.ok_or_else(|| Problem::not_found("planting"))?;
        let limit = limit.unwrap_or(PAGE).clamp(1, MOST);
        let mut changes = changes(db, planting, before, limit + 1)?;
        let more = changes.len() > limit as usize;
        changes.truncate(limit as usize);
        let undone = undone(db, planting)?;
        let mut people = People::default();
        let mut entries = Vec::new();
        for change in &changes {
            entries.push(entry(
                db,
                self.notebook.device(),
                change,
                &undone,
                &mut people,
            )?);
        }
        let older = entries.last().map(|entry| entry.change).filter(|_| more);
        Ok(read_only(HistoryPage {
            planting: known.name,
            today: self.notebook.clock().today(),
            entries,
            older,
        }))
    }

    pub(crate) fn compare_walks(
        &mut self,
        one: Uuid,
        other: Uuid,
    ) -> Result<Reply<WalkComparison>, Problem> {
        let db = self.notebook.db();
        let settings = settings::read(db)?;
        let (one, other) = (live_walk(db, one)?, live_walk(db, other)?);
        if one.planting != other.planting {
            return Err(Problem::bad_input(
                "the walks are of two plantings: choose two of the same",
            ));
        }
        let (earlier, later) = if (one.walked_on, one.id) <= (other.walked_on, other.id) {
            (one, other)
        } else {
            (other, one)
        };
        let gained = rollups::gained(db, &settings, &earlier, &later)?;
        let all = walks::of_planting(db, earlier.planting)?;
        let told = self
            .kept
            .of_planting(self.notebook.db(), &settings, earlier.planting, &all)?;
        let brief_of = |walk: &walks::Walk| {
            all.iter()
                .zip(&told)
                .find(|(known, _)| known.id == walk.id)
                .map(|(known, now)| brief(known, now.clone()))
                .ok_or_else(|| Problem::not_found("walk"))
        };
        Ok(read_only(WalkComparison {
            today: self.notebook.clock().today(),
            earlier: brief_of(&earlier)?,
            later: brief_of(&later)?,
            days: (later.walked_on - earlier.walked_on).num_days(),
            planting: self.planting_row(earlier.planting)?,
            gained,
            level: settings.level,
        }))
    }
}

/// The changes that speak of a planting or one of its walks, the latest first.
fn changes(
    db: &Connection,
    planting: Uuid,
    before: Option<ChangeName>,
    limit: u32,
) -> Result<Vec<Change>, StoreError> {
    let before = match before {
        Some(name) => log::change_at(db, name.device, name.seq)?.map(|change| change.stamp()),
        None => None,
    };
    let mut statement = db.prepare_cached(
        "SELECT DISTINCT change.hlc, change.device, change.seq
         FROM spoken_of
         JOIN change ON change.device = spoken_of.device AND change.seq = spoken_of.seq
         WHERE spoken_of.id IN (SELECT ?1 UNION ALL SELECT id FROM walk WHERE planting = ?1)
           AND (?2 IS NULL OR (change.hlc, change.device, change.seq) < (?2, ?3, ?4))
         ORDER BY change.hlc DESC, change.device DESC, change.seq DESC LIMIT ?5",
    )?;
    let names = statement
        .query_map(
            params![
                planting,
                before.map(|stamp| stamp.hlc.number()),
                before.map(|stamp| stamp.device),
                before.map(|stamp| stamp.seq),
                limit
            ],
            |row| Ok((row.get(1)?, row.get(2)?)),
        )?
        .collect::<Result<Vec<(Uuid, u64)>, _>>()?;
    let mut changes = Vec::new();
    for (device, seq) in names {
        changes.extend(log::change_at(db, device, seq)?);
    }
    Ok(changes)
}

/// The changes about a planting that a later one takes back, unless that one
/// was itself taken back.
pub(crate) fn undone(db: &Connection, planting: Uuid) -> Result<BTreeSet<(Uuid, u64)>, StoreError> {
    let mut statement = db.prepare_cached(
        "SELECT DISTINCT change.device, change.seq, change.body
         FROM spoken_of
         JOIN change ON change.device = spoken_of.device AND change.seq = spoken_of.seq
         WHERE spoken_of.id IN (SELECT ?1 UNION ALL SELECT id FROM walk WHERE planting = ?1)
           AND change.kind IN (?2, ?3)
         ORDER BY change.device, change.seq DESC",
    )?;
    let mut rows = statement.query(params![
        planting,
        Act::Undone.name(),
        Act::HarvestUndone.name()
    ])?;
    let mut undone = BTreeSet::new();
    while let Some(row) = rows.next()? {
        let (device, seq): (Uuid, u64) = (row.get(0)?, row.get(1)?);
        if !undone.contains(&(device, seq)) {
            let body = Body::read(row.get_ref(2)?.as_str().unwrap_or_default());
            undone.extend(body.undoes.into_iter().map(|seq| (device, seq)));
        }
    }
    Ok(undone)
}

fn entry(
    db: &Connection,
    own: Uuid,
    change: &Change,
    undone: &BTreeSet<(Uuid, u64)>,
    people: &mut People,
) -> Result<HistoryEntry, StoreError> {
    let body = Body::read(&change.body);
    let undone = undone.contains(&(change.device, change.seq));
    let mut lines = Vec::new();
    for fact in &body.facts {
        tell(db, change.stamp(), fact, &mut lines)?;
    }
    Ok(HistoryEntry {
        change: ChangeName {
            device: change.device,
            seq: change.seq,
        },
        recorded_at: change.recorded_at(),
        own: change.device == own,
        who: people.of(db, change.device)?,
        act: change.act(),
        walk: walk_of(db, &body)?,
        can_undo: change.device == own && !undone && !lines.is_empty(),
        lines: in_short(lines),
        undone,
    })
}

/// Person who uses a device: the scout of the latest walk begun on it.
///
/// # Errors
/// When the store fails.
pub fn who_uses(db: &Connection, device: Uuid) -> Result<Option<String>, StoreError> {
    People::default().of(db, device)
}

/// Who uses a device: the scout of the latest walk begun on it.
#[derive(Default)]
pub(crate) struct People(BTreeMap<Uuid, Option<String>>);

impl People {
    pub(crate) fn of(
        &mut self,
        db: &Connection,
        device: Uuid,
    ) -> Result<Option<String>, StoreError> {
        if let Some(known) = self.0.get(&device) {
            return Ok(known.clone());
        }
        let who = db
            .prepare_cached(
                // A walk of a file was walked by whoever the file says.
                "SELECT walk.scout FROM walk
                 JOIN change ON change.device = walk.made_device AND change.seq = walk.made_seq
                 WHERE walk.made_device = ?1 AND walk.scout <> '' AND change.kind = ?2
                 ORDER BY walk.made_hlc DESC, walk.made_seq DESC LIMIT 1",
            )?
            .query_row(params![device, Act::WalkStarted.name()], |row| row.get(0))
            .optional()?;
        self.0.insert(device, who);
        Ok(self.0.get(&device).cloned().flatten())
    }
}

/// The walk that a change speaks of; none where it makes several, as the end of an
/// import does.
fn walk_of(db: &Connection, body: &Body) -> Result<Option<HistoryWalk>, StoreError> {
    let made = |fact: &&Fact| matches!(fact, Fact::Walk { .. });
    if body.facts.iter().filter(made).count() > 1 {
        return Ok(None);
    }
    let id = body.facts.iter().find_map(|fact| match fact {
        Fact::Set { row, id, walk, .. } => match row {
            Row::Walk => Some(*id),
            Row::Stop | Row::Photo => *walk,
            _ => None,
        },
        Fact::Walk { id, .. } => Some(*id),
        Fact::Stop { walk, .. }
        | Fact::Heads { walk, .. }
        | Fact::Correct { walk, .. }
        | Fact::Remove { walk, .. } => Some(*walk),
        Fact::Photo(taken) => taken.walk,
        _ => None,
    });
    let Some(id) = id else { return Ok(None) };
    Ok(walks::walk(db, id)?.map(|walk| HistoryWalk {
        id: walk.id,
        walked_on: walk.walked_on,
        live: !walk.removed,
    }))
}

fn head_of(said: &HeadRecord) -> NewHead {
    NewHead {
        head: said.head,
        flags: said.flags.clone(),
        note: said.note.clone(),
    }
}

fn tell(
    db: &Connection,
    stamp: Stamp,
    fact: &Fact,
    lines: &mut Vec<HistoryLine>,
) -> Result<(), StoreError> {
    match fact {
        Fact::Set { row, id, to, .. } => {
            // A name made for the planting is told by the planting's own field.
            if matches!(row, Row::Farm | Row::Field | Row::Hybrid) {
                return Ok(());
            }
            for (field, value) in to {
                let known = Field::of(field);
                if known == Field::Outline {
                    // Thousands of corners are nothing to read.
                    lines.push(HistoryLine::Field {
                        field: known,
                        was: None,
                        to: String::new(),
                    });
                    continue;
                }
                let was = value_before(db, *id, field, stamp)?;
                lines.push(HistoryLine::Field {
                    field: known,
                    was: was
                        .map(|value| conflicts::shown(db, field, &value))
                        .transpose()?
                        .filter(|shown| !shown.is_empty()),
                    to: conflicts::shown(db, field, value)?,
                });
            }
        }
        Fact::Walk {
            walked_on, scout, ..
        } => lines.push(HistoryLine::Walk {
            walked_on: *walked_on,
            scout: scout.clone(),
        }),
        Fact::Stop { number, .. } => lines.push(HistoryLine::Stop { number: *number }),
        Fact::Heads { heads, .. } => lines.extend(heads.iter().map(|head| HistoryLine::Head {
            said: head_of(&head.said),
        })),
        Fact::Correct { was, to, .. } => lines.push(HistoryLine::Corrected {
            was: head_of(was),
            to: head_of(to),
        }),
        Fact::Remove { head, removed, .. } => {
            let said = walks::head(db, *head)?.map(|head| head_of(&head.said));
            lines.push(if *removed {
                HistoryLine::TakenOut { said }
            } else {
                HistoryLine::BroughtBack { said }
            });
        }
        Fact::Photo(_) => lines.push(HistoryLine::Photo),
        Fact::Observed { seen, .. } => lines.extend(seen_lines(None, seen)?),
        Fact::CorrectObserved { was, to, .. } => lines.extend(seen_lines(Some(was), to)?),
        Fact::RemoveObserved { id, removed, .. } => {
            if let Some(known) = harvest::one(db, *id)? {
                lines.extend(seen_lines(None, &known.seen)?);
            }
            lines.push(HistoryLine::Seen {
                part: SeenPart::Removed,
                was: None,
                to: removed.to_string(),
            });
        }
        Fact::Terms { to, was, .. } => {
            lines.extend(to.iter().map(|(name, value)| HistoryLine::Term {
                term: HarvestTerm::of(name),
                was: was.get(name).and_then(plain),
                to: plain(value).unwrap_or_default(),
            }));
        }
        // These speak of no planting.
        Fact::Weather(_) | Fact::Station { .. } | Fact::Moved { .. } => {}
    }
    Ok(())
}

/// What of an observation is new, number by number.
fn seen_lines(was: Option<&Seen>, to: &Seen) -> Result<Vec<HistoryLine>, StoreError> {
    let was = was.map(serde_json::to_value).transpose()?;
    let to = serde_json::to_value(to)?;
    let parts = |seen: &Value| -> BTreeMap<String, Value> {
        let mut parts = BTreeMap::new();
        for (name, value) in seen.as_object().into_iter().flatten() {
            match value {
                Value::Object(inner) => {
                    parts.extend(
                        inner
                            .iter()
                            .map(|(name, value)| (name.clone(), value.clone())),
                    );
                }
                other => {
                    parts.insert(name.clone(), other.clone());
                }
            }
        }
        parts
    };
    let was = was.as_ref().map(parts).unwrap_or_default();
    Ok(parts(&to)
        .into_iter()
        .filter(|(name, value)| was.get(name) != Some(value))
        .map(|(name, value)| HistoryLine::Seen {
            part: SeenPart::of(&name),
            was: was.get(&name).and_then(plain),
            to: plain(&value).unwrap_or_default(),
        })
        .collect())
}

/// A value as text; none for null.
fn plain(value: &Value) -> Option<String> {
    match value {
        Value::Null => None,
        Value::String(text) => Some(text.clone()),
        other => Some(other.to_string()),
    }
}

/// The value of a field that stood before a change, where there was one.
pub(crate) fn value_before(
    db: &Connection,
    id: Uuid,
    field: &str,
    stamp: Stamp,
) -> Result<Option<Value>, StoreError> {
    let value: Option<String> = db
        .prepare_cached(
            "SELECT value FROM field_value
             WHERE id = ?1 AND field = ?2 AND (hlc, device, seq) < (?3, ?4, ?5)
             ORDER BY hlc DESC, device DESC, seq DESC LIMIT 1",
        )?
        .query_row(
            params![id, field, stamp.hlc.number(), stamp.device, stamp.seq],
            |row| row.get(0),
        )
        .optional()?;
    Ok(value
        .map(|value| serde_json::from_str(&value))
        .transpose()?)
}

/// Many heads, or many stops, of one change as their number.
fn in_short(lines: Vec<HistoryLine>) -> Vec<HistoryLine> {
    let is_head = |line: &HistoryLine| matches!(line, HistoryLine::Head { .. });
    let heads = lines.iter().filter(|line| is_head(line)).count();
    if heads <= FEW {
        return lines;
    }
    let mut short: Vec<HistoryLine> = lines
        .into_iter()
        .filter(|line| !is_head(line) && !matches!(line, HistoryLine::Stop { .. }))
        .collect();
    short.push(HistoryLine::Heads {
        count: u32::try_from(heads).unwrap_or(u32::MAX),
    });
    short
}
