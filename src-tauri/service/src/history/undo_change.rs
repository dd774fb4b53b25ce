//! Taking back any change of one's own: a further change that says the opposite
//! of what of it still stands. Nothing is erased, and what others said since
//! stays.

use std::collections::BTreeMap;

use rusqlite::{Connection, OptionalExtension, params};
use serde_json::{Value, json};
use uuid::Uuid;

use crate::harvest::opposite as harvest_opposite;
use crate::history::{undone, value_before};
use crate::plantings::name_is_free;
use crate::rows;
use crate::walks::undo::opposite;
use crate::{Done, Problem, Reply, Service};
use notebook::StoreError;
use notebook::fact::{Act, Body, ChangeName, Fact, Field, Row};
use notebook::log::{self, Stamp};
use notebook::notebook::Writer;
use notebook::views::{plantings, walks};

impl Service {
    pub(crate) fn undo_change(&mut self, planting: Uuid, seq: u64) -> Result<Reply<Done>, Problem> {
        let ((), touched) = self.notebook.write(|writer| {
            let db = writer.db();
            let device = writer.device();
            plantings::one(db, planting)?.ok_or_else(|| Problem::not_found("planting"))?;
            if !speaks_of(db, planting, device, seq)? {
                return Err(Problem::not_found("change"));
            }
            if undone(db, planting)?.contains(&(device, seq)) {
                // The same request once more.
                return Ok(());
            }
            let change =
                log::change_at(db, device, seq)?.ok_or_else(|| Problem::not_found("change"))?;
            let mut facts = Vec::new();
            let mut harvested = false;
            let told = Body::read(&change.body).facts;
            // A walk that goes takes its stops and heads along.
            let begun: Vec<Uuid> = told
                .iter()
                .filter_map(|fact| match fact {
                    Fact::Walk { id, .. } => Some(*id),
                    _ => None,
                })
                .collect();
            for fact in told.iter().rev() {
                match fact {
                    Fact::Stop { walk, .. } | Fact::Heads { walk, .. } if begun.contains(walk) => {}
                    Fact::Set {
                        row, id, walk, to, ..
                    } => {
                        set_back(writer, change.stamp(), (*row, *id, *walk), to, &mut facts)?;
                    }
                    Fact::Observed { .. }
                    | Fact::CorrectObserved { .. }
                    | Fact::RemoveObserved { .. }
                    | Fact::Terms { .. } => {
                        harvested = true;
                        facts.extend(harvest_opposite(db, fact)?);
                    }
                    Fact::Walk { id, .. } => walk_back(db, device, *id, &mut facts)?,
                    other => opposite(db, other, &mut facts)?,
                }
            }
            let mut standing = Vec::new();
            for fact in facts {
                if !is_so_already(db, &fact)? {
                    standing.push(fact);
                }
            }
            let facts = standing;
            if facts.is_empty() {
                return Err(Problem::conflict(
                    "nothing of this change stands any more: it was changed again since",
                ));
            }
            let body = Body {
                facts,
                undoes: vec![seq],
                request: None,
                again: None,
            };
            // The undo of the harvest's screens must know it for one of its own.
            let kind = if harvested {
                Act::HarvestUndone
            } else {
                Act::Undone
            };
            Ok(writer.record(kind, &body)?)
        })?;
        Ok(Reply {
            answer: Done {},
            changed: self.changed(&touched)?,
        })
    }
}

/// Whether a head is out, or in, as the fact would have it.
fn is_so_already(db: &Connection, fact: &Fact) -> Result<bool, StoreError> {
    match fact {
        Fact::Remove { head, removed, .. } => {
            Ok(walks::head(db, *head)?.is_none_or(|head| head.removed == *removed))
        }
        _ => Ok(false),
    }
}

fn speaks_of(db: &Connection, planting: Uuid, device: Uuid, seq: u64) -> Result<bool, StoreError> {
    Ok(db
        .prepare_cached(
            "SELECT 1 FROM spoken_of WHERE device = ?2 AND seq = ?3
             AND id IN (SELECT ?1 UNION ALL SELECT id FROM walk WHERE planting = ?1)",
        )?
        .exists(params![planting, device, seq])?)
}

/// The values before a change, of those fields whose value still stands.
fn set_back(
    writer: &Writer,
    stamp: Stamp,
    (row, id, walk): (Row, Uuid, Option<Uuid>),
    to: &BTreeMap<String, Value>,
    facts: &mut Vec<Fact>,
) -> Result<(), Problem> {
    // Names that were made along the way do no harm and may be in use.
    if matches!(row, Row::Farm | Row::Field | Row::Hybrid) {
        return Ok(());
    }
    let db = writer.db();
    let told = ChangeName {
        device: stamp.device,
        seq: stamp.seq,
    };
    let made = row == Row::Planting
        && to.contains_key("name")
        && value_before(db, id, "name", stamp)?.is_none();
    let mut back = BTreeMap::new();
    if made {
        // Whatever was said of it since.
        back.insert("removed".to_owned(), Value::Bool(true));
    }
    for (field, value) in to.iter().filter(|_| !made) {
        if !stands(db, id, field, told)? {
            continue;
        }
        let was = value_before(db, id, field, stamp)?;
        let was = match (was, value) {
            (Some(was), _) => was,
            (None, Value::Bool(flag)) => Value::Bool(!flag),
            (None, _) if row == Row::Walk && field == "walked_on" => first_date(db, id)?,
            (None, _) => Value::Null,
        };
        back.insert(field.clone(), was);
    }
    if row == Row::Planting {
        if let Some(name) = back.get("name").and_then(Value::as_str) {
            name_is_free(writer, name, Some(id))?;
        }
        if back.get("removed") == Some(&Value::Bool(false))
            && let Some(planting) = plantings::one(db, id)?
        {
            name_is_free(writer, &planting.name, Some(id))?;
        }
    }
    if back.is_empty() {
        return Ok(());
    }
    facts.push(rows::giving_named(db, row, id, walk, back)?);
    Ok(())
}

/// The date under which a walk was first told.
fn first_date(db: &Connection, walk: Uuid) -> Result<Value, Problem> {
    let maker: Option<(Uuid, u64)> = db
        .prepare_cached("SELECT made_device, made_seq FROM walk WHERE id = ?1")?
        .query_row([walk], |row| Ok((row.get(0)?, row.get(1)?)))
        .optional()?;
    let change = match maker {
        Some((device, seq)) => log::change_at(db, device, seq)?,
        None => None,
    };
    let told = change.map(|change| Body::read(&change.body).facts);
    told.into_iter()
        .flatten()
        .find_map(|fact| match fact {
            Fact::Walk { id, walked_on, .. } if id == walk => Some(json!(walked_on)),
            _ => None,
        })
        .ok_or_else(|| Problem::not_found("walk"))
}

/// Whether the value of a field is the one that a change gave it.
fn stands(db: &Connection, id: Uuid, field: &str, told: ChangeName) -> Result<bool, StoreError> {
    let latest: Option<(Uuid, u64)> = db
        .prepare_cached(
            "SELECT device, seq FROM field_value WHERE id = ?1 AND field = ?2
             ORDER BY hlc DESC, device DESC, seq DESC LIMIT 1",
        )?
        .query_row(params![id, field], |row| Ok((row.get(0)?, row.get(1)?)))
        .optional()?;
    Ok(latest == Some((told.device, told.seq)))
}

/// A walk that was begun goes, unless another device has read heads in it.
fn walk_back(
    db: &Connection,
    device: Uuid,
    walk: Uuid,
    facts: &mut Vec<Fact>,
) -> Result<(), Problem> {
    let of_others = db
        .prepare_cached(
            "SELECT 1 FROM head JOIN stop ON stop.id = head.stop
             WHERE stop.walk = ?1 AND head.read_device <> ?2 AND NOT head.removed",
        )
        .and_then(|mut statement| statement.exists(params![walk, device]))?;
    if of_others {
        return Err(Problem::conflict(
            "the walk holds heads of another device: remove those first",
        ));
    }
    let body = rows::set_flag(db, Row::Walk, walk, Field::Removed, true)?;
    facts.extend(body.facts);
    Ok(())
}
