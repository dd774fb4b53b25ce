//! From a change to the views.
//!
//! [`apply`] depends on nothing but the change and the views, and the order in
//! which changes are applied makes no difference to the outcome: each fact
//! either adds a row under its own key, or competes for a place by its stamp.

mod harvest;
mod heads;
pub(crate) mod merged;
mod photos;
mod search;
mod shared;
mod tables;
mod telling;
mod told;
mod walks;
mod weather;

use std::collections::BTreeSet;

use rusqlite::{Connection, params};
use uuid::Uuid;

use crate::error::StoreError;
use crate::fact::{Body, Fact, Row};
use crate::log::{Change, each_in_order};
use crate::views;

pub(crate) use tables::{digest, digests, view_names};
use told::Teller;
pub(crate) use told::Told;

/// Version of this code's reading of the log. Raised when the same log would
/// give other views; a notebook of an older version rebuilds them once.
pub(crate) const VIEWS: i64 = 3;

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
}

impl Touched {
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
    }
}

/// Brings the views up to date with one change, within the caller's transaction.
pub(crate) fn apply(db: &Connection, change: &Change, body: &Body) -> Result<Touched, StoreError> {
    let mut told = Told::default();
    let touched = apply_and_gather(db, change, body, &mut told)?;
    told.store(db)?;
    Ok(touched)
}

/// The same, but for the stops and heads it tells: they go to `told`, to be stored
/// with those of other changes.
pub(crate) fn apply_and_gather(
    db: &Connection,
    change: &Change,
    body: &Body,
    told: &mut Told,
) -> Result<Touched, StoreError> {
    let by = Teller::of(change);
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
                shared::set(db, change.stamp(), *row, *id, to, replaces)?;
                match row {
                    Row::Planting => {
                        touched.plantings.insert(*id);
                        let merged = to.contains_key(merged::MERGED_INTO)
                            || (to.contains_key("name") && merged::any(db)?);
                        if merged {
                            touched.plantings.extend(merged::resolve(db)?);
                        }
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
                told.stops.push(stop);
                touched.walks.insert(*walk);
                spoken_of.insert(*walk);
            }
            Fact::Heads {
                walk,
                stop,
                heads: read,
            } => {
                heads::read(&by, *stop, read, &mut told.heads)?;
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
            Fact::Weather(told) => {
                weather::days(db, change.stamp(), told)?;
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
    let mut statement =
        db.prepare_cached("INSERT OR IGNORE INTO spoken_of (id, device, seq) VALUES (?1, ?2, ?3)")?;
    for id in spoken_of {
        statement.execute(params![id, change.device, change.seq])?;
    }
    Ok(touched)
}

/// Empties the views and fills them from the log, within the caller's transaction.
pub(crate) fn rebuild(db: &Connection) -> Result<(), StoreError> {
    tables::empty(db)?;
    search::empty(db)?;
    each_in_order(db, |change| {
        apply(db, change, &Body::read(&change.body)).map(|_| ())
    })?;
    db.execute("UPDATE this_device SET views = ?1", [VIEWS])?;
    Ok(())
}
