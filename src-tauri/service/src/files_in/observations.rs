//! Observation files into the notebook.

use std::collections::BTreeMap;
use std::io::Read;

use uuid::Uuid;

use super::Keep;
use crate::{Problem, checks, harvest};
use notebook::apply::Touched;
use notebook::fact::{Body, Fact};
use notebook::ids::content_id;
use notebook::views::{harvest as views, plantings};
use notebook::{Notebook, StoreError, import_ending};
use readers::observation_file::{self, ObservationFault, ObservationProblem};

/// Facts of a change, none of which is so long that they make no change together.
const FACTS: usize = 300;

/// What an import of an observation file did.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct ObservationsStored {
    /// Good rows.
    pub rows: u32,
    /// Of these, here already; not stored again.
    pub already_here: u32,
    /// Plantings they speak of.
    pub plantings: u32,
}

/// Reads an observation file and stores what is new in it, all or nothing. Its
/// plantings must be in the notebook. `on_fault` hears of every bad row, and may
/// make it fatal.
///
/// # Errors
/// When the file is unusable, `on_fault` says so, or the store fails; nothing
/// is stored then.
pub fn import_observations(
    notebook: &mut Notebook,
    source: impl Read,
    on_fault: impl FnMut(&ObservationProblem) -> Result<(), Problem>,
) -> Result<(ObservationsStored, Touched), Problem> {
    observations(notebook, source, Keep::GoodRows, on_fault)
}

/// Says what [`import_observations`] would store, and stores nothing.
///
/// # Errors
/// As there.
pub fn review_observations(
    notebook: &mut Notebook,
    source: impl Read,
    on_fault: impl FnMut(&ObservationProblem) -> Result<(), Problem>,
) -> Result<(ObservationsStored, Touched), Problem> {
    observations(notebook, source, Keep::Nothing, on_fault)
}

fn observations(
    notebook: &mut Notebook,
    source: impl Read,
    keep: Keep,
    mut on_fault: impl FnMut(&ObservationProblem) -> Result<(), Problem>,
) -> Result<(ObservationsStored, Touched), Problem> {
    let file =
        observation_file::read(source).map_err(|error| Problem::bad_input(error.to_string()))?;
    for problem in &file.problems {
        on_fault(problem)?;
    }
    // One state of the notebook, which others may go on from meanwhile.
    let moment = notebook
        .db()
        .unchecked_transaction()
        .map_err(StoreError::from)?;
    let mut stored = ObservationsStored::default();
    let mut facts: BTreeMap<Uuid, Vec<Fact>> = BTreeMap::new();
    // A row that is there twice is meant twice: its place among its equals
    // is part of its id.
    let mut equals: BTreeMap<String, u32> = BTreeMap::new();
    for row in file.observations {
        let mut refuse = |fault: String| {
            on_fault(&ObservationProblem {
                line: row.line,
                fault: ObservationFault::Impossible(fault),
            })
        };
        let Some(planting) = plantings::by_name(&moment, &row.planting)? else {
            refuse(format!(
                "planting '{}' is not in the notebook: import the plantings first",
                row.planting
            ))?;
            continue;
        };
        let mut seen = row.seen;
        seen.what = match harvest::observation(seen.what) {
            Ok(what) => what,
            Err(problem) => {
                refuse(problem.message)?;
                continue;
            }
        };
        seen.note = checks::note(seen.note)?;
        let told = serde_json::to_string(&seen).map_err(notebook::StoreError::from)?;
        let place = equals.entry(format!("{planting}{told}")).or_default();
        *place += 1;
        let id = content_id(
            Some(seen.on),
            &["observation", &row.planting, &told, &place.to_string()],
        );
        stored.rows = stored.rows.saturating_add(1);
        if views::one(&moment, id)?.is_some() {
            stored.already_here = stored.already_here.saturating_add(1);
            continue;
        }
        facts
            .entry(planting)
            .or_default()
            .push(Fact::Observed { planting, id, seen });
    }
    stored.plantings = u32::try_from(facts.len()).unwrap_or(u32::MAX);
    drop(moment);
    let touched = match keep {
        Keep::Nothing => Touched::default(),
        Keep::GoodRows => {
            let bodies: Vec<Body> = facts
                .values()
                .flat_map(|facts| facts.chunks(FACTS))
                .map(|facts| Body::of(facts.to_vec()))
                .collect();
            import_ending::record_all(notebook, &bodies)?
        }
    };
    Ok((stored, touched))
}
