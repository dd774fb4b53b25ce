//! From rows to changes.
//!
//! Rows are gathered by walk and written some thousands at a time, so a file
//! of any size needs little memory beyond one count for each different row, and
//! what the writer holds back of heads for their view.

use std::collections::{BTreeMap, HashMap, HashSet};
use std::io::Read;

use chrono::NaiveDate;
use serde_json::{Map, Value, json};
use uuid::Uuid;

use super::placed::{Placed, PlacedHead, each_stop};
use super::stored::StoredElsewhere;
use crate::fact::{Body, Fact, HeadRead, Row, act};
use crate::head_file::RowFault;
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
    plantings: HashMap<String, PlantingHere>,
    walks: HashMap<Uuid, WalkHere>,
    stops: HashSet<Uuid>,
    gathered: BTreeMap<(Uuid, NaiveDate), WalkOfFile>,
    heads_gathered: usize,
}

#[derive(Clone, Copy)]
struct PlantingHere {
    id: Uuid,
    /// Whether this file has made it.
    made: bool,
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
            plantings: HashMap::new(),
            walks: HashMap::new(),
            stops: HashSet::new(),
            gathered: BTreeMap::new(),
            heads_gathered: 0,
        };
        each_stop(source, |stop| {
            match stop {
                Ok(placed) => import.heads(placed)?,
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

    fn heads(&mut self, mut placed: Placed) -> Result<(), Problem> {
        let found = placed.heads.len();
        self.review.heads = self.review.heads.saturating_add(count(found));
        let planting = self.planting(&placed.planting)?;
        self.meet_walk(&placed, planting)?;
        self.leave_out_known(&mut placed)?;
        let new = placed.heads.len();
        self.review.already_here = self.review.already_here.saturating_add(count(found - new));
        let first_here = self.stops.insert(placed.stop);
        if new == 0 {
            return Ok(());
        }
        self.gather(placed, planting.id, first_here)?;
        self.heads_gathered += new;
        if self.heads_gathered >= GATHERED {
            self.write_gathered()?;
        }
        Ok(())
    }

    /// Looks up what the notebook held of a walk, where the file comes to it first.
    fn meet_walk(&mut self, placed: &Placed, planting: PlantingHere) -> Result<(), Problem> {
        if self.walks.contains_key(&placed.walk) {
            return Ok(());
        }
        let mut here = WalkHere {
            known: false,
            made: false,
            elsewhere: StoredElsewhere::default(),
        };
        // Of a planting that was not here, no walk was.
        if !planting.made {
            let db = self.writer.db();
            here.known = walks::walk(db, placed.walk)?.is_some();
            here.elsewhere = StoredElsewhere::read(db, planting.id, placed.walked_on, placed.walk)?;
        }
        self.walks.insert(placed.walk, here);
        Ok(())
    }

    /// The planting of this name, made or brought back where need be.
    fn planting(&mut self, name: &str) -> Result<PlantingHere, Problem> {
        if let Some(here) = self.plantings.get(name) {
            return Ok(*here);
        }
        let made_of_name = content_id(None, &["planting", name]);
        let here = match plantings::by_name(self.writer.db(), name)? {
            Some(id) => PlantingHere { id, made: false },
            None => {
                // It may have been made by an earlier import, and renamed since.
                let known = plantings::one(self.writer.db(), made_of_name)?;
                let made = known.is_none();
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
                PlantingHere {
                    id: made_of_name,
                    made,
                }
            }
        };
        self.plantings.insert(name.to_owned(), here);
        Ok(here)
    }

    /// Leaves out the heads that the notebook holds: from an earlier import, or from
    /// the walk itself, of which the file is an export.
    fn leave_out_known(&mut self, placed: &mut Placed) -> Result<(), Problem> {
        let Some(here) = self.walks.get_mut(&placed.walk) else {
            return Ok(());
        };
        if !here.known && here.elsewhere.is_empty() {
            return Ok(());
        }
        let db = self.writer.db();
        for head in std::mem::take(&mut placed.heads) {
            // Heads get their ids from the file's rows only in the walk that the
            // rows make; where that was not here, neither are they.
            let known = here.known && walks::has_head(db, head.id)?
                || here.elsewhere.take(&placed.name, &head.said);
            if !known {
                placed.heads.push(head);
            }
        }
        Ok(())
    }

    /// `first_here`: no row of this file had named the stop before these.
    fn gather(&mut self, placed: Placed, planting: Uuid, first_here: bool) -> Result<(), Problem> {
        let Placed {
            walked_on,
            scout: row_scout,
            name,
            walk,
            stop,
            heads,
            ..
        } = placed;
        let key = (planting, walked_on);
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
                None => row_scout.clone(),
            };
            let made = known.is_none().then(|| Fact::Walk {
                id: walk,
                planting,
                walked_on,
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
            let known = if walk_was_here || !first_here {
                self.writer.settle()?;
                walks::stop(self.writer.db(), stop)?
            } else {
                None
            };
            let row_place = heads.first().and_then(|head| head.place);
            let made = known.is_none().then(|| Fact::Stop {
                id: stop,
                walk,
                number: number_of(&name),
                label: Some(name).filter(|label| *label != number_of(label).to_string()),
                place: row_place.map(|(latitude, longitude)| Place {
                    latitude,
                    longitude,
                    accuracy_m: None,
                    age_s: None,
                }),
            });
            stops.push(StopOfFile {
                id: stop,
                place: known.map_or(row_place, |known| {
                    known.place.map(|place| (place.latitude, place.longitude))
                }),
                made,
                heads: Vec::new(),
            });
            stops.len() - 1
        };
        if let Some(of_stop) = stops.get_mut(place) {
            let scout = row_scout.filter(|row| Some(row) != scout.as_ref());
            for head in heads {
                let extra = extra(&head, scout.as_deref(), of_stop.place);
                of_stop.heads.push(HeadRead {
                    id: head.id,
                    said: head.said,
                    extra,
                });
            }
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

/// What of a row the walk, the stop and the head do not hold themselves. `scout`:
/// who read it, where that is not who walked.
fn extra(
    head: &PlacedHead,
    scout: Option<&str>,
    stop_place: Option<(f64, f64)>,
) -> Option<Map<String, Value>> {
    let mut extra: Map<String, Value> = head
        .extra
        .iter()
        .map(|(column, value)| (column.clone(), Value::from(value.clone())))
        .collect();
    if let Some(scout) = scout {
        extra.insert("scout".to_owned(), json!(scout));
    }
    if let Some((latitude, longitude)) = head.place
        && head.place != stop_place
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
