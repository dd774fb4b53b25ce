//! Taking back the last thing done about a planting's harvest, or about the
//! terms of all: a further change that says the opposite.

use std::collections::BTreeSet;

use rusqlite::Connection;
use uuid::Uuid;

use super::pages::HarvestStep;
use crate::live::live_planting;
use crate::walks::last_step::{just_did, own_changes};
use crate::{Done, Problem, Reply, Service};
use notebook::StoreError;
use notebook::fact::{Act, Body, Fact};
use notebook::log::{self, Change};
use notebook::views::harvest;

/// A change that an undo would take back.
pub(super) struct Step {
    change: Change,
    body: Body,
    pub what: HarvestStep,
}

/// The last thing that `device` did about the harvest of a planting (nil: of
/// all) and has not taken back.
pub(super) fn last_step(
    db: &Connection,
    device: Uuid,
    planting: Uuid,
) -> Result<Option<Step>, StoreError> {
    let mut undone: BTreeSet<u64> = BTreeSet::new();
    for seq in own_changes(db, device, planting)? {
        let Some(change) = log::change_at(db, device, seq?)? else {
            continue;
        };
        let what = match change.act() {
            Act::Observed => HarvestStep::Observation,
            Act::ObservationCorrected => HarvestStep::Correction,
            Act::ObservationRemoved => HarvestStep::Removal,
            Act::TermsSet => HarvestStep::Terms,
            Act::HarvestUndone => {
                undone.extend(Body::read(&change.body).undoes);
                continue;
            }
            _ => continue,
        };
        if !undone.contains(&change.seq) {
            let body = Body::read(&change.body);
            return Ok(Some(Step { change, body, what }));
        }
    }
    Ok(None)
}

impl Service {
    pub(crate) fn undo_harvest(
        &mut self,
        request: Option<Uuid>,
        planting: Option<Uuid>,
    ) -> Result<Reply<Done>, Problem> {
        let of = planting.unwrap_or_default();
        let ((), touched) = self.notebook.write(|writer| {
            if let Some(planting) = planting {
                live_planting(writer.db(), planting)?;
            }
            let device = writer.device();
            if let Some(request) = request
                && just_did(writer.db(), device, of, request)?
            {
                return Ok(());
            }
            let Some(step) = last_step(writer.db(), device, of)? else {
                return Err(Problem::conflict(
                    "there is nothing of this device to take back here",
                ));
            };
            let mut facts = Vec::new();
            for fact in step.body.facts.iter().rev() {
                facts.extend(opposite(writer.db(), fact)?);
            }
            if facts.is_empty() {
                // Others changed it since, and theirs stays. This still counts
                // as the step back, and must be found under the planting.
                facts.push(Fact::Terms {
                    planting,
                    to: Default::default(),
                    was: Default::default(),
                });
            }
            let body = Body {
                facts,
                undoes: vec![step.change.seq],
                request,
                again: None,
            };
            Ok(writer.record(Act::HarvestUndone, &body)?)
        })?;
        let changed = self.changed(&touched)?;
        Ok(Reply {
            answer: Done {},
            changed,
        })
    }
}

/// What takes a fact back, as far as it still stands.
pub(crate) fn opposite(db: &Connection, fact: &Fact) -> Result<Option<Fact>, Problem> {
    Ok(match fact {
        Fact::Observed { planting, id, .. } => Some(Fact::RemoveObserved {
            planting: *planting,
            id: *id,
            removed: true,
        }),
        Fact::CorrectObserved {
            planting,
            id,
            to,
            was,
            was_corrected,
            ..
        } => harvest::one(db, *id)?
            .filter(|known| known.seen == *to)
            .map(|_| Fact::CorrectObserved {
                planting: *planting,
                id: *id,
                to: was.clone(),
                was: to.clone(),
                was_corrected: true,
                as_first_told: !was_corrected,
            }),
        Fact::RemoveObserved {
            planting,
            id,
            removed,
        } => Some(Fact::RemoveObserved {
            planting: *planting,
            id: *id,
            removed: !removed,
        }),
        Fact::Terms { planting, to, was } => {
            let standing = harvest::terms(db, planting.unwrap_or_default())?;
            let null = serde_json::Value::Null;
            let back: std::collections::BTreeMap<_, _> = to
                .iter()
                .filter(|(name, value)| standing.get(*name).unwrap_or(&null) == *value)
                .map(|(name, _)| (name.clone(), was.get(name).unwrap_or(&null).clone()))
                .collect();
            (!back.is_empty()).then(|| Fact::Terms {
                planting: *planting,
                was: back
                    .keys()
                    .filter_map(|name| Some((name.clone(), to.get(name)?.clone())))
                    .collect(),
                to: back,
            })
        }
        _ => None,
    })
}
