//! Planting files into the notebook: plantings found by name or made, and only
//! what the file says otherwise is set.

use std::collections::{BTreeMap, BTreeSet};
use std::io::Read;

use rusqlite::Connection;
use serde_json::{Value, json};
use uuid::Uuid;

use super::Keep;
use crate::rows;
use crate::{PlantingFileReview, Problem, RefusedRow, checks};
use notebook::apply::Touched;
use notebook::fact::{Body, Fact, Field, Row};
use notebook::ids::content_id;
use notebook::views::{names, plantings};
use notebook::{Notebook, StoreError, import_ending};
use readers::planting_file::{self, FilePlanting, PlantingProblem};
use readers::watch::Watch;

/// Refused rows told in a review.
const TOLD: usize = 100;

/// Reads a planting file and stores what is new in it, all or nothing; with
/// [`Keep::Nothing`] it says what that would do.
/// `on_fault` hears of every bad row, and may make it fatal.
///
/// # Errors
/// When the file is unusable, `on_fault` says so, or the store fails; nothing
/// is stored then.
pub fn import_plantings(
    notebook: &mut Notebook,
    source: impl Read,
    keep: Keep,
    mut on_fault: impl FnMut(&PlantingProblem) -> Result<(), Problem>,
) -> Result<(PlantingFileReview, Touched), Problem> {
    let file = planting_file::read(source, &mut Watch::none())
        .map_err(|error| Problem::bad_input(error.to_string()))?;
    let mut review = PlantingFileReview {
        plantings: 0,
        new_plantings: Vec::new(),
        updated: 0,
        refused: u32::try_from(file.problems.len()).unwrap_or(u32::MAX),
        refused_rows: Vec::new(),
    };
    for problem in &file.problems {
        on_fault(problem)?;
        if review.refused_rows.len() < TOLD {
            review.refused_rows.push(RefusedRow {
                line: u32::try_from(problem.line).unwrap_or(u32::MAX),
                reason: (&problem.fault).into(),
            });
        }
    }
    // One state of the notebook, which others may go on from meanwhile.
    let moment = notebook
        .db()
        .unchecked_transaction()
        .map_err(StoreError::from)?;
    let (mut made, mut bodies) = (Made::default(), Vec::new());
    for row in &file.plantings {
        let body = facts(&moment, row, &mut made, &mut review)
            .map_err(|problem| in_line(problem, row.line))?;
        bodies.extend(body);
    }
    drop(moment);
    let touched = match keep {
        Keep::GoodRows => import_ending::record_all(notebook, &bodies)?,
        Keep::Nothing => Touched::default(),
    };
    Ok((review, touched))
}

/// Hybrids and fields that earlier rows of the file make.
#[derive(Default)]
struct Made(BTreeSet<Uuid>);

fn in_line(problem: Problem, line: u64) -> Problem {
    Problem {
        message: format!("line {line}: {}", problem.message),
        ..problem
    }
}

/// What a row says that is not known yet.
fn facts(
    db: &Connection,
    row: &FilePlanting,
    made: &mut Made,
    review: &mut PlantingFileReview,
) -> Result<Option<Body>, Problem> {
    review.plantings = review.plantings.saturating_add(1);
    let name = checks::name("planting", &row.planting)?;
    let hybrid = checks::optional_name("hybrid", row.hybrid.as_deref())?;
    let field = checks::optional_name("field", row.field.as_deref())?;
    let station = checks::optional_name("station", row.station.as_deref())?;
    let made_of_name = content_id(None, &["planting", &name]);
    let id = plantings::by_name(db, &name)?.unwrap_or(made_of_name);
    let known = plantings::one(db, id)?;
    let mut facts = Vec::new();
    let mut to: BTreeMap<Field, Value> = BTreeMap::new();
    let mut say = |field: Field, value: Value, is_known: bool| {
        if !is_known {
            to.insert(field, value);
        }
    };
    let known = known.as_ref();
    if known.is_none_or(|known| known.removed) {
        review.new_plantings.push(name.clone());
    }
    say(Field::Name, json!(name), known.is_some());
    say(
        Field::Removed,
        json!(false),
        !known.is_some_and(|known| known.removed),
    );
    say(
        Field::Purpose,
        json!(row.purpose),
        known.is_some_and(|known| known.purpose == row.purpose),
    );
    say(
        Field::PlantedOn,
        json!(row.planted_on),
        known.is_some_and(|known| known.planted_on == Some(row.planted_on)),
    );
    if let Some(area) = row.area {
        say(
            Field::Area,
            json!(area),
            known.is_some_and(|known| known.area == Some(area)),
        );
    }
    if let Some(day) = row.half_bloom_on {
        say(
            Field::HalfBloomOn,
            json!(day),
            known.is_some_and(|known| known.half_bloom_on == Some(day)),
        );
    }
    if let Some(station) = station {
        let is_known = known.is_some_and(|known| known.station.as_ref() == Some(&station));
        say(Field::Station, json!(station), is_known);
    }
    if let Some(hybrid) = hybrid
        && known.is_none_or(|known| known.hybrid.as_ref() != Some(&hybrid))
    {
        let of_name = content_id(None, &["hybrid", &hybrid]);
        let found = names::hybrid(db, &hybrid)?;
        let id = made.find_or_make(&mut facts, Row::Hybrid, found, of_name, &hybrid);
        say(Field::Hybrid, json!(id), false);
    }
    if let Some(field) = field
        && known.is_none_or(|known| known.field.as_ref() != Some(&field))
    {
        let of_name = content_id(None, &["field", &field]);
        let found = names::field(db, None, &field)?;
        let id = made.find_or_make(&mut facts, Row::Field, found, of_name, &field);
        say(Field::Field, json!(id), false);
    }
    if to.is_empty() {
        return Ok(None);
    }
    if known.is_some_and(|known| !known.removed) {
        review.updated = review.updated.saturating_add(1);
    }
    facts.push(rows::giving(db, Row::Planting, id, None, to)?);
    Ok(Some(Body::of(facts)))
}

impl Made {
    /// The row of this name, or a new one whose id comes from the name, so that two
    /// phones that read the same file make the same row.
    fn find_or_make(
        &mut self,
        facts: &mut Vec<Fact>,
        row: Row,
        found: Option<Uuid>,
        of_name: Uuid,
        name: &str,
    ) -> Uuid {
        if let Some(found) = found {
            return found;
        }
        if self.0.insert(of_name) {
            facts.push(rows::first(
                row,
                of_name,
                None,
                BTreeMap::from([(Field::Name, json!(name))]),
            ));
        }
        of_name
    }
}
