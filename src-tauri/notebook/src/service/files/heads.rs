//! From rows to changes.
//!
//! Rows are gathered by walk and written some thousands at a time, so a file
//! of any size needs little memory beyond one count for each different row, and
//! what the writer holds back of heads for their view.

use std::collections::{BTreeMap, BTreeSet};
use std::io::Read;

use chrono::NaiveDate;
use serde_json::{Map, Value, json};
use uuid::Uuid;

use super::placed::{Placed, each_row};
use super::stored::StoredElsewhere;
use crate::fact::{Body, Fact, HeadRead, Row, Said, act};
use crate::head_file::{FileHead, RowFault};
use crate::ids::content_id;
use crate::notebook::Writer;
use crate::service::{HeadFileReview, Place, Problem, RefusedRow};
use crate::views::{plantings, walks};

/// Whether an import stores what it read.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Keep {
    /// No: it only says what it would do.
    Nothing,
    /// Yes: the good rows, all or nothing.
    GoodRows,
}

/// Refused rows told in a review.
const TOLD: usize = 100;
/// Heads gathered before they are written.
const GATHERED: usize = 20_000;
/// Size of a change's facts, in bytes or so, above which the next one begins.
const CHANGE_SIZE: usize = 64 * 1024;

/// An import under way.
pub(super) struct FileImport<'w, 'n> {
    writer: &'w mut Writer<'n>,
    review: HeadFileReview,
    plantings: BTreeMap<String, Uuid>,
    walks: BTreeMap<Uuid, WalkHere>,
    stops: BTreeSet<Uuid>,
    /// Of the row before: rows of a stop mostly come together.
    before: Option<StopBefore>,
    gathered: BTreeMap<(Uuid, NaiveDate), WalkOfFile>,
    heads_gathered: usize,
}

/// What the notebook held of a walk before this file.
struct WalkHere {
    /// Whether it held the walk itself, and perhaps some of its heads.
    known: bool,
    /// Whether this file has made it meanwhile.
    made: bool,
    /// Heads of that day that were stored otherwise.
    elsewhere: StoredElsewhere,
}

/// The stop of the row before.
struct StopBefore {
    id: Uuid,
    planting: Uuid,
    /// Whether no row of this file had named it before these.
    first_here: bool,
}

/// What was gathered of one walk.
struct WalkOfFile {
    id: Uuid,
    /// The walk's own fact, where it is new.
    made: Option<Fact>,
    scout: Option<String>,
    stops: Vec<StopOfFile>,
}

struct StopOfFile {
    id: Uuid,
    place: Option<(f64, f64)>,
    /// The stop's own fact, where it is new.
    made: Option<Fact>,
    heads: Vec<HeadRead>,
}

impl<'w, 'n> FileImport<'w, 'n> {
    pub(super) fn run(
        writer: &'w mut Writer<'n>,
        source: impl Read + Send,
        mut on_fault: impl FnMut(&RowFault) -> Result<(), Problem>,
    ) -> Result<HeadFileReview, Problem> {
        let mut import = FileImport {
            writer,
            review: HeadFileReview {
                heads: 0,
                walks: 0,
                stops: 0,
                new_plantings: Vec::new(),
                already_here: 0,
                refused: 0,
                refused_rows: Vec::new(),
            },
            plantings: BTreeMap::new(),
            walks: BTreeMap::new(),
            stops: BTreeSet::new(),
            before: None,
            gathered: BTreeMap::new(),
            heads_gathered: 0,
        };
        each_row(source, |row| {
            match row {
                Ok(placed) => import.head(placed)?,
                Err(fault) => {
                    on_fault(&fault)?;
                    import.refuse(fault);
                }
            }
            Ok::<(), Problem>(())
        })?;
        import.write_gathered()?;
        import.review.walks = count(import.walks.len());
        import.review.stops = count(import.stops.len());
        Ok(import.review)
    }

    fn refuse(&mut self, fault: RowFault) {
        self.review.refused = self.review.refused.saturating_add(1);
        if self.review.refused_rows.len() < TOLD {
            self.review.refused_rows.push(RefusedRow {
                line: u32::try_from(fault.line).unwrap_or(u32::MAX),
                reason: fault.reason,
            });
        }
    }

    fn head(&mut self, placed: Placed) -> Result<(), Problem> {
        self.review.heads = self.review.heads.saturating_add(1);
        let planting = self.planting_of(&placed)?;
        if self.is_here(&placed)? {
            self.review.already_here = self.review.already_here.saturating_add(1);
            return Ok(());
        }
        self.gather(placed, planting)?;
        self.heads_gathered += 1;
        if self.heads_gathered >= GATHERED {
            self.write_gathered()?;
        }
        Ok(())
    }

    /// The planting of a row, whose walk and stop are known from here on.
    fn planting_of(&mut self, placed: &Placed) -> Result<Uuid, Problem> {
        let Placed {
            row, walk, stop, ..
        } = placed;
        if let Some(before) = &self.before
            && before.id == *stop
        {
            return Ok(before.planting);
        }
        let planting = self.planting(&row.planting)?;
        if !self.walks.contains_key(walk) {
            let db = self.writer.db();
            let here = WalkHere {
                known: walks::walk(db, *walk)?.is_some(),
                made: false,
                elsewhere: StoredElsewhere::read(db, planting, row.walked_on, *walk)?,
            };
            self.walks.insert(*walk, here);
        }
        self.before = Some(StopBefore {
            id: *stop,
            planting,
            first_here: self.stops.insert(*stop),
        });
        Ok(planting)
    }

    /// The planting of this name, made or brought back where need be.
    fn planting(&mut self, name: &str) -> Result<Uuid, Problem> {
        if let Some(id) = self.plantings.get(name) {
            return Ok(*id);
        }
        let made_of_name = content_id(None, &["planting", name]);
        let id = match plantings::by_name(self.writer.db(), name)? {
            Some(id) => id,
            None => {
                // It may have been made by an earlier import, and renamed since.
                let known = plantings::one(self.writer.db(), made_of_name)?;
                let to = match known {
                    None => Some(("name".to_owned(), json!(name))),
                    Some(planting) if planting.removed => {
                        Some(("removed".to_owned(), json!(false)))
                    }
                    Some(_) => None,
                };
                if let Some(to) = to {
                    let fact = Fact::Set {
                        row: Row::Planting,
                        id: made_of_name,
                        walk: None,
                        to: BTreeMap::from([to]),
                        replaces: BTreeMap::new(),
                    };
                    self.writer
                        .record_one_of_many(act::FILE_IMPORTED, &Body::of(vec![fact]))?;
                    self.review.new_plantings.push(name.to_owned());
                }
                made_of_name
            }
        };
        self.plantings.insert(name.to_owned(), id);
        Ok(id)
    }

    /// Whether the notebook holds this head: from an earlier import, or from
    /// the walk itself, of which the file is an export.
    fn is_here(&mut self, placed: &Placed) -> Result<bool, Problem> {
        let Some(here) = self.walks.get_mut(&placed.walk) else {
            return Ok(false);
        };
        // Heads get their ids from the file's rows only in the walk that the rows
        // make; where that was not here, neither are they.
        if here.known && walks::has_head(self.writer.db(), placed.head)? {
            return Ok(true);
        }
        Ok(here.elsewhere.take(&placed.row))
    }

    fn gather(&mut self, placed: Placed, planting: Uuid) -> Result<(), Problem> {
        let Placed {
            row,
            walk,
            stop,
            head,
        } = placed;
        let key = (planting, row.walked_on);
        if !self.gathered.contains_key(&key) {
            // In the notebook, or made of this file's rows before these.
            let perhaps_made = self
                .walks
                .get_mut(&walk)
                .is_none_or(|here| std::mem::replace(&mut here.made, true) || here.known);
            let known = if perhaps_made {
                walks::walk(self.writer.db(), walk)?
            } else {
                None
            };
            let scout = match &known {
                Some(known) => Some(known.scout.clone()),
                None => row.scout.clone(),
            };
            let made = known.is_none().then(|| Fact::Walk {
                id: walk,
                planting,
                walked_on: row.walked_on,
                scout: scout.clone().unwrap_or_default(),
                finished: true,
            });
            self.gathered.insert(
                key,
                WalkOfFile {
                    id: walk,
                    made,
                    scout,
                    stops: Vec::new(),
                },
            );
        }
        let Some(WalkOfFile { stops, scout, .. }) = self.gathered.get_mut(&key) else {
            return Ok(());
        };
        let place = if let Some(place) = stops.iter().position(|known| known.id == stop) {
            place
        } else {
            // In a walk that was not here, a stop is only where this file put it.
            let walk_was_here = self.walks.get(&walk).is_none_or(|here| here.known);
            let first_here = self.before.as_ref().is_some_and(|stop| stop.first_here);
            let known = if walk_was_here || !first_here {
                walks::stop(self.writer.db(), stop)?
            } else {
                None
            };
            let made = known.is_none().then(|| Fact::Stop {
                id: stop,
                walk,
                number: number_of(&row.stop),
                label: Some(row.stop.clone())
                    .filter(|label| *label != number_of(label).to_string()),
                place: row.place.map(|(latitude, longitude)| Place {
                    latitude,
                    longitude,
                    accuracy_m: None,
                    age_s: None,
                }),
            });
            stops.push(StopOfFile {
                id: stop,
                place: known.map_or(row.place, |known| {
                    known.place.map(|place| (place.latitude, place.longitude))
                }),
                made,
                heads: Vec::new(),
            });
            stops.len() - 1
        };
        if let Some(of_stop) = stops.get_mut(place) {
            let extra = extra(&row, scout.as_deref(), of_stop.place);
            of_stop.heads.push(HeadRead {
                id: head,
                said: Said {
                    head: row.head,
                    flags: row.flags,
                    note: row.note,
                },
                extra,
            });
        }
        Ok(())
    }

    /// Writes what was gathered: one change a walk, or more where it is large.
    fn write_gathered(&mut self) -> Result<(), Problem> {
        for of_walk in std::mem::take(&mut self.gathered).into_values() {
            for body in bodies_of(of_walk) {
                self.writer.record_one_of_many(act::FILE_IMPORTED, &body)?;
            }
        }
        self.heads_gathered = 0;
        self.before = None;
        Ok(())
    }
}

/// The changes that tell a walk.
fn bodies_of(of_walk: WalkOfFile) -> Vec<Body> {
    let mut bodies = Vec::new();
    let mut facts: Vec<Fact> = of_walk.made.into_iter().collect();
    let mut size = 0;
    for of_stop in of_walk.stops {
        facts.extend(of_stop.made);
        size += 200;
        let mut heads = Vec::new();
        for head in of_stop.heads {
            size += size_of_head(&head);
            heads.push(head);
            if size > CHANGE_SIZE {
                facts.push(Fact::Heads {
                    walk: of_walk.id,
                    stop: of_stop.id,
                    heads: std::mem::take(&mut heads),
                });
                bodies.push(Body::of(std::mem::take(&mut facts)));
                size = 0;
            }
        }
        if !heads.is_empty() {
            facts.push(Fact::Heads {
                walk: of_walk.id,
                stop: of_stop.id,
                heads,
            });
        }
    }
    if !facts.is_empty() {
        bodies.push(Body::of(facts));
    }
    bodies
}

/// What of a row the walk, the stop and the head do not hold themselves.
fn extra(
    row: &FileHead,
    walk_scout: Option<&str>,
    stop_place: Option<(f64, f64)>,
) -> Option<Map<String, Value>> {
    let mut extra: Map<String, Value> = row
        .extra
        .iter()
        .map(|(column, value)| (column.clone(), Value::from(value.clone())))
        .collect();
    if let Some(scout) = &row.scout
        && Some(scout.as_str()) != walk_scout
    {
        extra.insert("scout".to_owned(), json!(scout));
    }
    if let Some((latitude, longitude)) = row.place
        && row.place != stop_place
    {
        extra.insert("latitude".to_owned(), json!(latitude));
        extra.insert("longitude".to_owned(), json!(longitude));
    }
    (!extra.is_empty()).then_some(extra)
}

/// The order of a stop among its walk's: the first number in its name.
fn number_of(stop: &str) -> u32 {
    let digits: String = stop
        .chars()
        .skip_while(|letter| !letter.is_ascii_digit())
        .take_while(char::is_ascii_digit)
        .collect();
    digits.parse().unwrap_or(0)
}

fn size_of_head(head: &HeadRead) -> usize {
    let extra = head.extra.as_ref().map_or(0, |extra| {
        extra
            .iter()
            .map(|(column, value)| column.len() + value.to_string().len() + 8)
            .sum()
    });
    60 + extra
        + head.said.note.as_ref().map_or(0, |note| 2 * note.len())
        + 20 * head.said.flags.len()
}

fn count(number: usize) -> u32 {
    u32::try_from(number).unwrap_or(u32::MAX)
}
