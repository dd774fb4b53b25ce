//! From a change to the views.
//!
//! `take` depends on nothing but the change and the views, and the order in
//! which changes are applied makes no difference to the outcome: each fact
//! either adds a row under its own key, or competes for a place by its stamp. What
//! cannot count is listed instead (`set_aside`). The cost of a change is bounded by
//! its bytes: what follows from all merges together is worked out once for many
//! changes (`Batch::store`), not once a fact.

mod batch;
mod harvest;
mod heads;
pub mod merged;
mod photos;
mod search;
mod set_aside;
mod shared;
mod tables;
mod telling;
mod walks;
mod weather;

use std::collections::BTreeSet;

use rusqlite::{Connection, params};
use uuid::Uuid;

use crate::error::StoreError;
use crate::fact::{self, Body, Fact, Row, SetAside, WHOLE_CHANGE};
use crate::log::{self, Change, Hlc, each_in_order};
use crate::views;

pub(crate) use batch::Batch;
use batch::Provenance;
pub use set_aside::told_again;
pub(crate) use set_aside::{Waiting, move_to as move_set_aside};
pub(crate) use tables::{digest, digests, view_names};

/// Version of this code's reading of the log. Raised when the same log would
/// give other views; a notebook of an older version rebuilds them once.
pub(crate) const VIEWS: i64 = 5;
/// The first version by which changes wait.
const FIRST_WAITING: i64 = 4;

/// What a change touched.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Touched {
    /// Plantings whose row changed, or the order of whose walks.
    pub plantings: BTreeSet<Uuid>,
    /// Walks whose row, stops or heads changed.
    pub walks: BTreeSet<Uuid>,
    /// Whether farms, fields or hybrids changed.
    pub names: bool,
    /// Whether stations or their weather changed.
    pub weather: bool,
    /// Plantings of whose ripe grain something was told.
    pub observed: BTreeSet<Uuid>,
    /// Whether terms of harvests were set.
    pub terms: bool,
    /// Whether photos changed.
    pub photos: bool,
    /// Whether heat sets changed, or which of them counts.
    pub heat_sets: bool,
    /// Whether something was set aside, or need not be any longer.
    pub set_aside: bool,
}

impl Touched {
    /// After the views were filled anew: whatever is not known by its id.
    pub(crate) fn all() -> Touched {
        Touched {
            names: true,
            weather: true,
            terms: true,
            photos: true,
            heat_sets: true,
            set_aside: true,
            ..Touched::default()
        }
    }

    /// Adds what another change touched.
    pub fn join(&mut self, other: Touched) {
        self.plantings.extend(other.plantings);
        self.walks.extend(other.walks);
        self.names |= other.names;
        self.weather |= other.weather;
        self.observed.extend(other.observed);
        self.terms |= other.terms;
        self.photos |= other.photos;
        self.heat_sets |= other.heat_sets;
        self.set_aside |= other.set_aside;
    }
}

/// Brings the views up to date with a change of any writer, within the caller's
/// transaction: what of it counts is applied, the rest is listed as set aside. What
/// `told` gathers is in the views once it is stored.
pub(crate) fn take(
    db: &Connection,
    change: &Change,
    waiting: &Waiting,
    batch: &mut Batch,
) -> Result<Touched, StoreError> {
    let aside = |aside: &SetAside| -> Result<Touched, StoreError> {
        set_aside::list(db, change, aside)?;
        Ok(Touched {
            set_aside: true,
            ..Touched::default()
        })
    };
    // A newer version may read what an older one could not.
    let read_again = match &change.raw {
        Some(raw) => match log::unpack(change.device, change.seq, raw) {
            Some(read) => Some(read),
            None => return aside(&SetAside::UNREADABLE),
        },
        None => None,
    };
    let change = read_again.as_ref().unwrap_or(change);
    if let Some(reason) = waiting.of(change) {
        return aside(&SetAside {
            fact: WHOLE_CHANGE,
            reason,
            what: "",
        });
    }
    count(db, change, batch)
}

/// The same for a change that need not wait.
fn count(db: &Connection, change: &Change, batch: &mut Batch) -> Result<Touched, StoreError> {
    let (body, set_aside) = fact::read(&change.body);
    let mut touched = apply_and_gather(db, change, &body, batch)?;
    for aside in &set_aside {
        set_aside::list(db, change, aside)?;
        touched.set_aside = true;
    }
    Ok(touched)
}

/// Applies the changes that waited and need not any longer.
pub(crate) fn take_due(db: &Connection, horizon: Hlc) -> Result<Touched, StoreError> {
    let mut batch = Batch::default();
    let mut touched = Touched::default();
    for change in set_aside::take_due(db, horizon)? {
        log::follow_to(db, change.device, change.hlc)?;
        touched.join(count(db, &change, &mut batch)?);
        touched.set_aside = true;
    }
    touched.plantings.extend(batch.store(db)?);
    Ok(touched)
}

/// Brings the views up to date with the facts of a change, but for the stops and heads
/// it tells and for what follows from its merges: these go to `told`, to be stored with
/// those of other changes.
pub(crate) fn apply_and_gather(
    db: &Connection,
    change: &Change,
    body: &Body,
    batch: &mut Batch,
) -> Result<Touched, StoreError> {
    let by = Provenance::of(change);
    let mut touched = Touched::default();
    let mut spoken_of = BTreeSet::new();
    for fact in &body.facts {
        match fact {
            Fact::Set {
                row,
                id,
                walk,
                to,
                replaces,
            } => {
                shared::set(db, change.stamp(), *row, *id, to, replaces, batch)?;
                match row {
                    Row::Planting => {
                        touched.plantings.insert(*id);
                    }
                    Row::Walk => {
                        touched.walks.insert(*id);
                        // Moved among others, it changes what all of them stand on.
                        if to.contains_key("walked_on") || to.contains_key("planting") {
                            let moved = views::walks::walk(db, *id)?;
                            touched.plantings.extend(moved.map(|walk| walk.planting));
                        }
                    }
                    Row::Stop => touched.walks.extend(*walk),
                    Row::Farm | Row::Field | Row::Hybrid => touched.names = true,
                    Row::Photo => touched.photos = true,
                    Row::HeatSet | Row::WholeNotebook => touched.heat_sets = true,
                }
                spoken_of.insert(walk.unwrap_or(*id));
            }
            Fact::Walk {
                id,
                planting,
                walked_on,
                scout,
                finished,
            } => {
                let made = walks::Made {
                    id: *id,
                    planting: *planting,
                    walked_on: *walked_on,
                    scout,
                    finished: *finished,
                };
                walks::walk(db, change.stamp(), &made)?;
                touched.walks.insert(*id);
                spoken_of.insert(*id);
            }
            Fact::Stop {
                id,
                walk,
                number,
                label,
                place,
            } => {
                let stop = walks::stop(&by, *id, *walk, *number, label.as_deref(), place.as_ref());
                batch.stops.push(stop);
                touched.walks.insert(*walk);
                spoken_of.insert(*walk);
            }
            Fact::Heads {
                walk,
                stop,
                heads: read,
            } => {
                heads::read(&by, *stop, read, &mut batch.heads)?;
                touched.walks.insert(*walk);
                spoken_of.insert(*walk);
            }
            Fact::Correct {
                walk,
                head,
                to,
                as_first_read,
                ..
            } => {
                heads::correct(db, change.stamp(), *head, to, !as_first_read)?;
                touched.walks.insert(*walk);
                spoken_of.insert(*walk);
            }
            Fact::Photo(taken) => {
                photos::taken(db, change, taken)?;
                touched.photos = true;
                spoken_of.insert(taken.walk.unwrap_or(taken.planting));
            }
            Fact::Moved { device, first, to } => {
                db.prepare_cached(
                    "INSERT OR IGNORE INTO moved_series (series, device, first) VALUES (?1, ?2, ?3)",
                )?
                .execute(params![to, device, first])?;
            }
            Fact::Weather(batch) => {
                weather::days(db, change.stamp(), batch)?;
                touched.weather = true;
            }
            Fact::Station { name, place } => {
                weather::place(db, change.stamp(), name, place.as_ref())?;
                touched.weather = true;
            }
            Fact::Observed { planting, id, seen } => {
                harvest::observed(db, change, *planting, *id, seen)?;
                touched.observed.insert(*planting);
                spoken_of.insert(*planting);
            }
            Fact::CorrectObserved {
                planting,
                id,
                to,
                as_first_told,
                ..
            } => {
                harvest::correct(db, change.stamp(), *id, to, !as_first_told)?;
                touched.observed.insert(*planting);
                spoken_of.insert(*planting);
            }
            Fact::RemoveObserved {
                planting,
                id,
                removed,
            } => {
                harvest::remove(db, change.stamp(), *id, *removed)?;
                touched.observed.insert(*planting);
                spoken_of.insert(*planting);
            }
            Fact::Terms { planting, to, .. } => {
                let of = planting.unwrap_or_default();
                harvest::terms(db, change.stamp(), of, to)?;
                touched.terms = true;
                spoken_of.insert(of);
            }
            Fact::Remove {
                walk,
                head,
                removed,
            } => {
                heads::remove(db, change.stamp(), *head, *removed)?;
                touched.walks.insert(*walk);
                spoken_of.insert(*walk);
            }
        }
    }
    if let Some(again) = body.again {
        batch.recount |= set_aside::told_again_by(db, change, again)?;
    }
    let mut statement =
        db.prepare_cached("INSERT OR IGNORE INTO spoken_of (id, device, seq) VALUES (?1, ?2, ?3)")?;
    for id in spoken_of {
        statement.execute(params![id, change.device, change.seq])?;
    }
    Ok(touched)
}

/// Stops and heads that are stored together: 70 MB of them.
pub(crate) const BATCH_CHANGES: usize = 1_250_000;

/// Empties the views and fills them from the log, within the caller's transaction.
pub(crate) fn rebuild(db: &Connection, own: Uuid, horizon: Hlc) -> Result<(), StoreError> {
    let filled_by: i64 = db.query_row("SELECT views FROM this_device", [], |row| row.get(0))?;
    let waiting = if filled_by < FIRST_WAITING {
        Waiting::for_first_rebuild(db, own, horizon)?
    } else {
        Waiting::for_rebuild(db, horizon)?
    };
    tables::empty(db)?;
    search::empty(db)?;
    fill(db, db, &waiting)?;
    db.execute("UPDATE this_device SET views = ?1", [VIEWS])?;
    Ok(())
}

/// Fills the empty views of `to` from the log of `from`.
pub(crate) fn fill(
    from: &Connection,
    to: &Connection,
    waiting: &Waiting,
) -> Result<(), StoreError> {
    let mut batch = Batch::default();
    each_in_order(from, |change| -> Result<(), StoreError> {
        take(to, change, waiting, &mut batch)?;
        if batch.count() >= BATCH_CHANGES / 8 {
            batch.store(to)?;
        }
        Ok(())
    })?;
    batch.store(to)?;
    Ok(())
}
