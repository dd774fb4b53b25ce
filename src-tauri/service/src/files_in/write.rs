//! What was gathered goes to the log: a small file in one transaction, a large one
//! in lots ([`notebook::import_ending`] says why, and how that stays all or nothing).

use std::collections::BTreeMap;
use std::iter::Peekable;
use std::thread;
use std::time::{Duration, Instant};

use rusqlite::Connection;
use serde_json::json;
use uuid::Uuid;

use super::heads::{FileImport, WalkHere, set_removed_stop};
use super::told::WalkOfFile;
use crate::Problem;
use crate::rows;
use notebook::fact::{Act, Body, Fact, Field, Row};
use notebook::ids::content_id;
use notebook::views::{plantings, walks};
use notebook::{StoreError, import_ending};

/// Heads up to which a file is written in one transaction.
const AT_ONCE: usize = 2_000;
/// Heads of a lot: at first, at least and at most. A walk is never parted.
const FIRST_LOT: usize = 2_000;
const LEAST_LOT: usize = 500;
const LARGEST_LOT: usize = 20_000;
/// How long a lot should hold the notebook; the next one is larger or smaller by how
/// long the last one did.
const HELD: Duration = Duration::from_millis(80);
/// How long the notebook is free between two lots, at least: a tap that waits looks
/// every two milliseconds.
const FREE: Duration = Duration::from_millis(4);
/// Facts of the last changes that one of them holds, at most.
const FACTS: usize = 300;

/// What is written when all heads are.
#[derive(Default)]
pub(super) struct Ending {
    /// The names of the file's plantings, in its order.
    pub plantings: Vec<String>,
    /// By walk: what restores, or sets aside, what an import before this one left.
    pub mends: BTreeMap<Uuid, Vec<Fact>>,
    /// What comes to walks that are shown already.
    additions: Vec<WalkOfFile>,
}

impl FileImport<'_> {
    /// Writes what was gathered, and brings the import to its end.
    pub(super) fn write_all(&mut self) -> Result<(), Problem> {
        self.set_leftovers_aside()?;
        if !self.parts && self.heads_gathered <= AT_ONCE {
            return self.write_at_once();
        }
        self.write_part()?;
        self.write_ending()
    }

    /// An import that was cut off may have been of another file. What it left of a
    /// walk, and this file does not have, must not be shown with it. What other
    /// devices wrote is left alone: theirs may still be under way.
    fn set_leftovers_aside(&mut self) -> Result<(), Problem> {
        let db = self.notebook.db();
        let own = self.notebook.device();
        for (walk, _) in self.walks.iter().filter(|(_, here)| here.begun) {
            let mut facts = Vec::new();
            for head in walks::heads_read_by(db, *walk, own)? {
                if !self.heads_of_begun.contains(&head) {
                    facts.push(Fact::Remove {
                        walk: *walk,
                        head,
                        removed: true,
                    });
                }
            }
            for stop in walks::stops_made_by(db, *walk, own)? {
                if !self.stops.contains(&stop) {
                    facts.push(set_removed_stop(*walk, stop, true));
                }
            }
            self.ending.mends.entry(*walk).or_default().extend(facts);
        }
        Ok(())
    }

    fn write_at_once(&mut self) -> Result<(), Problem> {
        let FileImport {
            notebook,
            walks,
            gathered,
            ending,
            touched,
            ..
        } = self;
        let nothing_new = gathered.is_empty()
            && walks.values().all(|walk| walk.known)
            && ending.mends.values().all(Vec::is_empty);
        let (_, of_write) = notebook.write(|writer| {
            let mut ids = BTreeMap::new();
            for name in &ending.plantings {
                let (id, missing) = planting_in(writer.db(), name)?;
                if let Some(fact) = missing {
                    writer.record_one_of_many(Act::FileImported, &Body::of(vec![fact]))?;
                }
                ids.insert(name.clone(), id);
            }
            if nothing_new {
                return Ok(());
            }
            for (walk, facts) in &ending.mends {
                if !facts.is_empty() {
                    let body = Body::of(facts.clone());
                    writer.record_one_of_many(Act::FileImported, &body)?;
                    gathered.entry(*walk).or_insert_with(|| WalkOfFile {
                        id: *walk,
                        stops: Vec::new(),
                    });
                }
            }
            for walk in walks
                .iter()
                .filter(|(_, here)| !here.known)
                .map(|(id, _)| id)
            {
                gathered.entry(*walk).or_insert_with(|| WalkOfFile {
                    id: *walk,
                    stops: Vec::new(),
                });
            }
            for (id, of_walk) in std::mem::take(gathered) {
                let made = walks
                    .get(&id)
                    .filter(|here| !here.known)
                    .and_then(|here| Some(made(id, here, *ids.get(&here.planting)?)));
                for body in of_walk.bodies(made) {
                    writer.record_one_of_many(Act::FileImported, &body)?;
                }
            }
            Ok::<_, StoreError>(())
        })?;
        touched.join(of_write);
        Ok(())
    }

    /// Writes the stops and heads of walks that nobody sees yet.
    pub(super) fn write_part(&mut self) -> Result<(), Problem> {
        self.parts = true;
        self.heads_gathered = 0;
        let mut hidden = Vec::with_capacity(self.gathered.len());
        for (id, of_walk) in std::mem::take(&mut self.gathered) {
            if self.walks.get(&id).is_some_and(|here| here.known) {
                self.ending.additions.push(of_walk);
            } else {
                hidden.push(of_walk);
            }
        }
        let FileImport {
            notebook, touched, ..
        } = self;
        notebook.with_large_cache(|notebook| {
            let mut hidden = hidden.into_iter().peekable();
            let mut heads_of_lot = FIRST_LOT;
            let mut freed = Instant::now();
            while hidden.peek().is_some() {
                let lot = next_lot(&mut hidden, heads_of_lot)?;
                thread::sleep(FREE.saturating_sub(freed.elapsed()));
                let mut began = None;
                let ((), of_lot) = notebook.write(|writer| {
                    began = Some(Instant::now());
                    for (body, json) in lot {
                        writer.record_written(Act::FileImported, &body, json)?;
                    }
                    Ok::<_, StoreError>(())
                })?;
                freed = Instant::now();
                touched.join(of_lot);
                heads_of_lot = size_after(heads_of_lot, began.map(|began| began.elapsed()));
            }
            Ok::<_, Problem>(())
        })
    }

    /// Decides the import, and records what it was decided by.
    fn write_ending(&mut self) -> Result<(), Problem> {
        let mut of_planting: BTreeMap<&str, Vec<(Uuid, &WalkHere)>> = BTreeMap::new();
        for (id, here) in &self.walks {
            of_planting
                .entry(&here.planting)
                .or_default()
                .push((*id, here));
        }
        for walks in of_planting.values_mut() {
            walks.sort_unstable_by_key(|(id, _)| *id);
        }
        let mut additions = Vec::new();
        for of_walk in std::mem::take(&mut self.ending.additions) {
            for body in of_walk.bodies(None) {
                additions.push(serde_json::to_string(&body).map_err(StoreError::from)?);
            }
        }
        let FileImport {
            notebook, ending, ..
        } = self;
        let ((), _) = notebook.write(|writer| {
            let mut bodies = Vec::new();
            for name in &ending.plantings {
                let (id, missing) = planting_in(writer.db(), name)?;
                let mut facts: Vec<Fact> = missing.into_iter().collect();
                for (walk, here) in of_planting.get(name.as_str()).into_iter().flatten() {
                    facts.extend(ending.mends.remove(walk).into_iter().flatten());
                    if !here.known {
                        facts.push(made(*walk, here, id));
                    }
                    if facts.len() >= FACTS {
                        push_bodies(&mut bodies, std::mem::take(&mut facts))?;
                    }
                }
                push_bodies(&mut bodies, facts)?;
            }
            bodies.append(&mut additions);
            import_ending::decide(writer, &bodies)
        })?;
        self.touched.join(import_ending::finish(self.notebook)?);
        Ok(())
    }
}

/// Facts as bodies, none of them too long for a change.
fn push_bodies(bodies: &mut Vec<String>, facts: Vec<Fact>) -> Result<(), StoreError> {
    let mut facts = facts.into_iter().peekable();
    while facts.peek().is_some() {
        let body = Body::of(facts.by_ref().take(FACTS).collect());
        bodies.push(serde_json::to_string(&body)?);
    }
    Ok(())
}

/// The changes of the next walks, whole walks, until there are so many heads.
fn next_lot(
    walks: &mut Peekable<impl Iterator<Item = WalkOfFile>>,
    heads: usize,
) -> Result<Vec<(Body, String)>, StoreError> {
    let mut lot = Vec::new();
    let mut gathered = 0;
    while gathered < heads
        && let Some(walk) = walks.next_if(|walk| {
            // A walk may be larger than a lot; then it is one alone.
            gathered == 0 || gathered + walk.heads() <= LARGEST_LOT
        })
    {
        gathered += walk.heads();
        for body in walk.bodies(None) {
            let json = serde_json::to_string(&body)?;
            lot.push((body, json));
        }
    }
    Ok(lot)
}

/// Heads of the lot after one that held the notebook for `took`.
fn size_after(heads: usize, took: Option<Duration>) -> usize {
    let took = took.unwrap_or(HELD);
    let next = if took < HELD / 2 {
        heads * 2
    } else if took > HELD {
        heads * 2 / 3
    } else {
        heads
    };
    next.clamp(LEAST_LOT, LARGEST_LOT)
}

/// The fact that makes a walk.
fn made(id: Uuid, here: &WalkHere, planting: Uuid) -> Fact {
    Fact::Walk {
        id,
        planting,
        walked_on: here.walked_on,
        scout: here.scout.clone(),
        finished: true,
    }
}

/// The planting of a name, and the fact that makes it or brings it back where that
/// is needed.
pub(super) fn planting_in(db: &Connection, name: &str) -> Result<(Uuid, Option<Fact>), StoreError> {
    if let Some(id) = plantings::by_name(db, name)? {
        return Ok((id, None));
    }
    // It may have been made by an earlier import, and renamed since.
    let id = content_id(None, &["planting", name]);
    let to = match plantings::one(db, id)? {
        None => Some((Field::Name, json!(name))),
        Some(planting) if planting.removed => Some((Field::Removed, json!(false))),
        Some(_) => None,
    };
    let fact = to.map(|to| rows::first(Row::Planting, id, None, BTreeMap::from([to])));
    Ok((id, fact))
}
