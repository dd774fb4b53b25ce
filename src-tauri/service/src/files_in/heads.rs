//! From rows to walks.
//!
//! A file is read whole before anything is written: what makes it unusable is known
//! by then, and nothing holds the notebook meanwhile. Only a file of more than
//! [`PART`] heads is written part by part, so that one of any size needs little
//! memory beyond one count for each different row.

use std::collections::{BTreeMap, HashMap, HashSet};
use std::io::Read;

use chrono::NaiveDate;
use serde::{Deserialize, Serialize};
use serde_json::{Map, Value, json};
use uuid::Uuid;

use super::placed::{Placed, PlacedHead, each_stop};
use super::stored::StoredElsewhere;
use super::told::{HeadOfFile, StopOfFile, WalkOfFile};
use super::write::{Ending, planting_in};
use crate::rows;
use crate::{HeadFileReview, Problem, RefusedRow};
use kinds::Keep;
use notebook::Notebook;
use notebook::apply::Touched;
use notebook::fact::{Fact, Field, Row};
use notebook::views::known_places::KnownPlaces;
use notebook::views::walks::{self, Held};
use readers::head_file::{HeadFileError, RowFault};

/// How the latitude and longitude of a file are taken.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum PlaceOrder {
    /// As written; where they seem to be swapped, nothing is stored.
    #[default]
    Ask,
    /// As written.
    AsWritten,
    /// The other way round.
    Swapped,
}

/// Why a file was not read to its end.
enum Unread {
    /// The file itself.
    File(HeadFileError),
    /// Something in it, or the store.
    Problem(Problem),
}

impl From<HeadFileError> for Unread {
    fn from(error: HeadFileError) -> Self {
        Unread::File(error)
    }
}

impl From<Problem> for Unread {
    fn from(problem: Problem) -> Self {
        Unread::Problem(problem)
    }
}

/// Refused rows told in a review.
const TOLD: usize = 100;
/// Heads gathered before they are written: some 100 MB of them.
const PART: usize = 1_250_000;
/// Stops that a file may give to one walk.
pub(super) const MOST_STOPS: u32 = 400;
/// Heads that a file may give to one walk.
pub(super) const MOST_HEADS: u32 = 30_000;

/// An import under way.
pub(super) struct FileImport<'n> {
    pub notebook: &'n mut Notebook,
    keep: Keep,
    order: PlaceOrder,
    /// Places of the notebook, read when the file first names one.
    known_places: Option<KnownPlaces>,
    review: HeadFileReview,
    /// The planting of each name, where it was here.
    plantings: HashMap<String, Option<Uuid>>,
    pub walks: HashMap<Uuid, WalkHere>,
    /// Those that the file names.
    pub stops: HashSet<Uuid>,
    /// Heads that the file names, of walks that an import before this one began.
    pub heads_of_begun: HashSet<Uuid>,
    /// By the ids of the walks, and so by day: what lies together in the store is
    /// written together.
    pub gathered: BTreeMap<Uuid, WalkOfFile>,
    pub heads_gathered: usize,
    pub ending: Ending,
    /// Whether a part of the file was written.
    pub parts: bool,
    pub touched: Touched,
}

/// A walk that the file names.
pub(super) struct WalkHere {
    pub planting: String,
    pub walked_on: NaiveDate,
    pub scout: String,
    /// Whether the notebook holds the walk, and perhaps some of its heads.
    pub known: bool,
    /// Whether it holds stops of the walk and not the walk: an import was cut off.
    pub begun: bool,
    /// Heads of that day that were stored otherwise.
    elsewhere: StoredElsewhere,
    stops: u32,
    heads: u32,
}

impl<'n> FileImport<'n> {
    pub(super) fn run(
        notebook: &'n mut Notebook,
        source: impl Read + Send,
        keep: Keep,
        order: PlaceOrder,
        mut on_fault: impl FnMut(&RowFault) -> Result<(), Problem>,
    ) -> Result<(HeadFileReview, Touched), Problem> {
        let mut import = FileImport {
            notebook,
            keep,
            order,
            known_places: None,
            review: HeadFileReview {
                heads: 0,
                walks: 0,
                stops: 0,
                new_plantings: Vec::new(),
                already_here: 0,
                swapped_places: 0,
                refused: 0,
                refused_rows: Vec::new(),
            },
            plantings: HashMap::new(),
            walks: HashMap::new(),
            stops: HashSet::new(),
            heads_of_begun: HashSet::new(),
            gathered: BTreeMap::new(),
            heads_gathered: 0,
            ending: Ending::default(),
            parts: false,
            touched: Touched::default(),
        };
        let read = each_stop(source, order == PlaceOrder::Swapped, |stop| {
            match stop {
                Ok(placed) => import.heads(placed)?,
                Err(fault) => {
                    on_fault(&fault)?;
                    import.refuse(fault);
                }
            }
            Ok::<(), Unread>(())
        });
        match read {
            // Nothing in it is good as written, and the review asks whether it is swapped.
            Err(Unread::File(HeadFileError::NoGoodRow { .. }))
                if keep == Keep::Nothing && import.review.swapped_places > 0 => {}
            Err(Unread::File(error)) => return Err(error.into()),
            Err(Unread::Problem(problem)) => return Err(problem),
            Ok(()) => {}
        }
        import.review.walks = count(import.walks.len());
        import.review.stops = count(import.stops.len());
        if keep == Keep::GoodRows {
            import.ask_about_places()?;
            import.write_all()?;
        }
        Ok((import.review, import.touched))
    }

    /// Counts the heads whose latitude and longitude seem to be swapped.
    fn look_at_places(&mut self, placed: &Placed) -> Result<(), Problem> {
        if self.order != PlaceOrder::Ask {
            return Ok(());
        }
        let mut swapped = 0;
        for place in placed.heads.iter().filter_map(|head| head.place) {
            let known = match &self.known_places {
                Some(known) => known,
                None => self
                    .known_places
                    .insert(KnownPlaces::read(self.notebook.db())?),
            };
            swapped += u32::from(known.seem_swapped(place));
        }
        self.review.swapped_places = self.review.swapped_places.saturating_add(swapped);
        Ok(())
    }

    fn ask_about_places(&self) -> Result<(), Problem> {
        match self.review.swapped_places {
            0 => Ok(()),
            swapped => Err(Problem::bad_input(format!(
                "the places of {swapped} heads are far from every place in the notebook, and near \
                 one with latitude and longitude swapped: swap the two names in the header"
            ))),
        }
    }

    fn refuse(&mut self, fault: RowFault) {
        self.review.refused = self.review.refused.saturating_add(1);
        if fault.good_swapped && self.order == PlaceOrder::Ask && self.keep == Keep::Nothing {
            self.review.swapped_places = self.review.swapped_places.saturating_add(1);
        }
        if self.review.refused_rows.len() < TOLD {
            self.review.refused_rows.push(RefusedRow {
                line: u32::try_from(fault.line).unwrap_or(u32::MAX),
                reason: fault.reason,
            });
        }
    }

    fn heads(&mut self, mut placed: Placed) -> Result<(), Problem> {
        self.notebook.go_on()?;
        let found = count(placed.heads.len());
        self.review.heads = self.review.heads.saturating_add(found);
        self.look_at_places(&placed)?;
        self.meet_planting(&placed.planting)?;
        self.meet_walk(&placed)?;
        let first_here = self.stops.insert(placed.stop);
        self.check_size(&placed, found, first_here)?;
        self.leave_out_known(&mut placed)?;
        if placed.heads.is_empty() || self.keep == Keep::Nothing {
            return Ok(());
        }
        self.heads_gathered += placed.heads.len();
        self.gather(placed, first_here)?;
        if self.heads_gathered >= PART {
            self.ask_about_places()?;
            self.write_part()?;
        }
        Ok(())
    }

    /// Looks up whether the notebook holds the planting, where the file comes to it
    /// first.
    fn meet_planting(&mut self, name: &str) -> Result<(), Problem> {
        if !self.plantings.contains_key(name) {
            let (id, missing) = planting_in(self.notebook.db(), name)?;
            if missing.is_some() {
                self.review.new_plantings.push(name.to_owned());
            }
            self.ending.plantings.push(name.to_owned());
            let made = matches!(&missing, Some(Fact::Set { to, .. }) if to.contains_key("name"));
            self.plantings
                .insert(name.to_owned(), (!made).then_some(id));
        }
        Ok(())
    }

    /// Looks up what the notebook holds of a walk, where the file comes to it first.
    fn meet_walk(&mut self, placed: &Placed) -> Result<(), Problem> {
        if self.walks.contains_key(&placed.walk) {
            return Ok(());
        }
        let db = self.notebook.db();
        let walk = walks::walk(db, placed.walk)?;
        let known = walk.is_some();
        let elsewhere = match self.plantings.get(&placed.planting) {
            Some(Some(planting)) => {
                StoredElsewhere::read(db, *planting, placed.walked_on, placed.walk)?
            }
            _ => StoredElsewhere::default(),
        };
        let here = WalkHere {
            planting: placed.planting.clone(),
            walked_on: placed.walked_on,
            scout: walk.map_or_else(
                || placed.scout.clone().unwrap_or_default(),
                |walk| walk.scout,
            ),
            known,
            begun: !known && walks::has_stops(db, placed.walk)?,
            elsewhere,
            stops: 0,
            heads: 0,
        };
        self.walks.insert(placed.walk, here);
        Ok(())
    }

    /// A walk of more is a mistake in the file, and what follows from it would take
    /// minutes.
    fn check_size(&mut self, placed: &Placed, heads: u32, new_stop: bool) -> Result<(), Problem> {
        let Some(here) = self.walks.get_mut(&placed.walk) else {
            return Ok(());
        };
        here.stops += u32::from(new_stop);
        here.heads = here.heads.saturating_add(heads);
        let (what, most, column) = if here.stops > MOST_STOPS {
            ("stops", MOST_STOPS, "stop")
        } else if here.heads > MOST_HEADS {
            ("heads", MOST_HEADS, "planting")
        } else {
            return Ok(());
        };
        Err(Problem::bad_input(format!(
            "line {}: the walk of '{}' on {} has more than {most} {what}, the most that one walk \
             may have: check the column {column}",
            placed.line, placed.planting, placed.walked_on
        )))
    }

    /// Leaves out the heads that the notebook holds: from an earlier import, or from
    /// the walk itself, of which the file is an export.
    fn leave_out_known(&mut self, placed: &mut Placed) -> Result<(), Problem> {
        let Some(here) = self.walks.get_mut(&placed.walk) else {
            return Ok(());
        };
        if !here.known && !here.begun && here.elsewhere.is_empty() {
            return Ok(());
        }
        let db = self.notebook.db();
        let mut restored: Vec<Fact> = Vec::new();
        for head in std::mem::take(&mut placed.heads) {
            if here.begun {
                self.heads_of_begun.insert(head.id);
            }
            // Heads get their ids from the file's rows only in the walk that the
            // rows make; where nothing of that was here, neither are they.
            let held = if here.known || here.begun {
                walks::held_head(db, head.id)?
            } else {
                Held::No
            };
            match held {
                // Written before the import was cut off: nobody has seen it.
                Held::Yes if here.begun => continue,
                Held::SetAsideByImport => {
                    restored.push(Fact::Remove {
                        walk: placed.walk,
                        head: head.id,
                        removed: false,
                    });
                    continue;
                }
                Held::Yes => {}
                Held::No => {
                    if !here.elsewhere.take(&placed.name, &head.said) {
                        placed.heads.push(head);
                        continue;
                    }
                }
            }
            self.review.already_here = self.review.already_here.saturating_add(1);
        }
        if !restored.is_empty() && walks::stop_removed_by_import(db, placed.stop)? {
            restored.push(set_removed_stop(placed.walk, placed.stop, false));
        }
        self.ending
            .mends
            .entry(placed.walk)
            .or_default()
            .extend(restored);
        Ok(())
    }

    /// `first_here`: no row of this file had named the stop before these.
    fn gather(&mut self, placed: Placed, first_here: bool) -> Result<(), Problem> {
        let Placed {
            scout: row_scout,
            name,
            walk,
            stop,
            heads,
            ..
        } = placed;
        let Some(here) = self.walks.get(&walk) else {
            return Ok(());
        };
        let scout = row_scout.filter(|row| *row != here.scout);
        let of_walk = self.gathered.entry(walk).or_insert_with(|| WalkOfFile {
            id: walk,
            stops: Vec::new(),
        });
        let place = if let Some(place) = of_walk.stops.iter().position(|known| known.id == stop) {
            place
        } else {
            // Of a walk of which nothing was here, a stop is only where this file
            // put it.
            let known = if here.known || here.begun || !first_here {
                walks::stop(self.notebook.db(), stop)?
            } else {
                None
            };
            let row_place = heads.first().and_then(|head| head.place);
            of_walk.stops.push(StopOfFile {
                id: stop,
                is_new: known.is_none(),
                place: known.map_or(row_place, |known| {
                    known.place.map(|place| (place.latitude, place.longitude))
                }),
                name,
                heads: Vec::new(),
            });
            of_walk.stops.len() - 1
        };
        if let Some(of_stop) = of_walk.stops.get_mut(place) {
            for head in heads {
                let extra = extra(&head, scout.as_deref(), of_stop.place);
                of_stop.heads.push(HeadOfFile::new(head, extra));
            }
        }
        Ok(())
    }
}

/// A stop is removed, or restored.
pub(super) fn set_removed_stop(walk: Uuid, stop: Uuid, removed: bool) -> Fact {
    let to = BTreeMap::from([(Field::Removed, json!(removed))]);
    rows::first(Row::Stop, stop, Some(walk), to)
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

fn count(number: usize) -> u32 {
    u32::try_from(number).unwrap_or(u32::MAX)
}
