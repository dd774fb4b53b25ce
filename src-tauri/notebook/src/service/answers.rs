//! The model's answers for walks, and keeping them.
//!
//! A walk's answer takes milliseconds, and its history takes as many times
//! that as the planting has earlier walks. So finished answers are kept in
//! memory and in the table `answer`, from which every change drops those it
//! touches; and the walk that is being walked stays open here, so that a tap
//! recomputes one stop.

use std::collections::{BTreeMap, BTreeSet};

use ripening::Head;
use ripening::rollup::{HeatMoved, Posterior, Prior, RollUp, contradiction};
use rusqlite::Connection;
use uuid::Uuid;

use super::{Answers, Problem, Settings};
use crate::StoreError;
use crate::views::walks::{self, Walk};

/// Raised when the model's answer to the same heads changes.
const MODEL: u32 = 1;

/// Answers kept, and the open walk.
#[derive(Default)]
pub(super) struct KeptAnswers {
    /// By planting: the answer of each of its walks.
    answers: BTreeMap<Uuid, Vec<(Uuid, Answers)>>,
    open: Option<OpenWalk>,
}

/// A walk's roll-ups, alone and with its history.
struct OpenWalk {
    walk: Uuid,
    planting: Uuid,
    rolled: Rolled,
}

impl KeptAnswers {
    /// Drops what stands on these plantings. The open walk stays if it is the
    /// only thing touched: whoever touched it sets its stops anew.
    pub(super) fn forget(&mut self, plantings: &BTreeSet<Uuid>, walks: &BTreeSet<Uuid>) {
        for planting in plantings {
            self.answers.remove(planting);
        }
        let stays = self.open.as_ref().is_some_and(|open| {
            !plantings.contains(&open.planting) || walks.iter().all(|walk| *walk == open.walk)
        });
        if !stays {
            self.open = None;
        }
    }

    /// The open walk's answer after the heads of one of its stops changed.
    pub(super) fn after_stop(
        &mut self,
        db: &Connection,
        settings: &Settings,
        walk: &Walk,
        stop: Uuid,
    ) -> Result<Answers, Problem> {
        let open = self.opened(db, walk)?;
        open.rolled.set_stop(stop, &heads_of(db, stop)?);
        Ok(open.rolled.answers(settings))
    }

    /// A walk's answer, kept ready for taps.
    pub(super) fn of_open(
        &mut self,
        db: &Connection,
        settings: &Settings,
        walk: &Walk,
    ) -> Result<Answers, Problem> {
        // Stops may have come or gone since.
        self.open = None;
        Ok(self.opened(db, walk)?.rolled.answers(settings))
    }

    fn opened(&mut self, db: &Connection, walk: &Walk) -> Result<&mut OpenWalk, Problem> {
        let fits = |open: &OpenWalk| open.walk == walk.id && open.planting == walk.planting;
        let open = match self.open.take() {
            Some(open) if fits(&open) => open,
            _ => {
                let mut history = None;
                for earlier in walks::of_planting(db, walk.planting)? {
                    if (earlier.walked_on, earlier.id) >= (walk.walked_on, walk.id) {
                        break;
                    }
                    history = Rolled::of_walk(db, &earlier, history.as_ref())?
                        .carried(&earlier)
                        .or(history);
                }
                OpenWalk {
                    walk: walk.id,
                    planting: walk.planting,
                    rolled: Rolled::of_walk(db, walk, history.as_ref())?,
                }
            }
        };
        Ok(self.open.insert(open))
    }

    /// The answers of a planting's walks, from what is kept where it is whole.
    pub(super) fn of_planting(
        &mut self,
        db: &Connection,
        settings: &Settings,
        planting: Uuid,
        walks: &[Walk],
    ) -> Result<Vec<Answers>, Problem> {
        if let Some(kept) = self.answers.get(&planting)
            && kept.len() == walks.len()
            && kept.iter().zip(walks).all(|((id, _), walk)| *id == walk.id)
        {
            return Ok(kept.iter().map(|(_, answer)| answer.clone()).collect());
        }
        let made_by = made_by(settings);
        let stored = walks
            .iter()
            .map(|walk| stored(db, walk, &made_by))
            .collect::<Result<Option<Vec<_>>, _>>()?;
        let answers = match stored {
            Some(answers) => answers,
            None => {
                let answers = computed(db, settings, walks)?;
                // Keeping them is a convenience: a full or read-only device
                // must not stand in the way of the answer.
                let _ = keep(db, walks, &answers, &made_by);
                answers
            }
        };
        let ids = walks.iter().map(|walk| walk.id);
        self.answers
            .insert(planting, ids.zip(answers.iter().cloned()).collect());
        Ok(answers)
    }
}

fn computed(db: &Connection, settings: &Settings, walks: &[Walk]) -> Result<Vec<Answers>, Problem> {
    let mut history: Option<History> = None;
    let mut answers = Vec::with_capacity(walks.len());
    for walk in walks {
        let rolled = Rolled::of_walk(db, walk, history.as_ref())?;
        answers.push(rolled.answers(settings));
        history = rolled.carried(walk).or(history);
    }
    Ok(answers)
}

/// What an earlier walk left behind.
struct History {
    posterior: Posterior,
    walked_on: chrono::NaiveDate,
}

impl History {
    /// As the prior of a later day. Heat is not known here: a wide pace.
    fn on(&self, day: chrono::NaiveDate) -> Prior {
        let days = (day - self.walked_on).num_days().max(0);
        #[allow(clippy::cast_precision_loss)] // days of one season
        self.posterior.forward(HeatMoved::from_days(days as f64))
    }
}

/// A walk's heads under the weak prior, and under its history.
struct Rolled {
    alone: RollUp,
    with_history: Option<(Prior, RollUp)>,
    /// The key by which the roll-up knows each stop.
    keys: BTreeMap<Uuid, u64>,
}

impl Rolled {
    fn of_walk(db: &Connection, walk: &Walk, history: Option<&History>) -> Result<Rolled, Problem> {
        let mut rolled = Rolled {
            alone: RollUp::new(Prior::fresh()),
            with_history: history.map(|history| {
                let prior = history.on(walk.walked_on);
                (prior.clone(), RollUp::new(prior))
            }),
            keys: BTreeMap::new(),
        };
        for stop in walks::stops(db, walk.id)? {
            rolled.set_stop(stop.id, &heads_of(db, stop.id)?);
        }
        Ok(rolled)
    }

    fn set_stop(&mut self, stop: Uuid, heads: &[Head]) {
        let next = self.keys.len() as u64;
        let key = *self.keys.entry(stop).or_insert(next);
        self.alone.set_stop(key, heads);
        if let Some((_, rolled)) = &mut self.with_history {
            rolled.set_stop(key, heads);
        }
    }

    fn answers(&self, settings: &Settings) -> Answers {
        let contradiction = self.contradiction();
        let best = match &self.with_history {
            Some((_, rolled)) if contradiction.is_none() => rolled,
            _ => &self.alone,
        };
        Answers {
            alone: (self.alone.heads() > 0).then(|| self.alone.whole_field(settings.level)),
            with_history: self
                .with_history
                .as_ref()
                .filter(|_| contradiction.is_none())
                .map(|(_, rolled)| rolled.whole_field(settings.level)),
            contradiction,
            advice: best.advice(&settings.target(), &settings.walking_cost()),
        }
    }

    fn contradiction(&self) -> Option<f64> {
        let (history, _) = self.with_history.as_ref()?;
        contradiction(&self.alone, history).map(|found| found.history_applies)
    }

    /// What the next walk inherits; nothing from a walk without heads.
    fn carried(&self, walk: &Walk) -> Option<History> {
        if self.alone.heads() == 0 {
            return None;
        }
        let posterior = match &self.with_history {
            Some((_, rolled)) if self.contradiction().is_none() => rolled.posterior(),
            _ => self.alone.posterior(),
        };
        Some(History {
            posterior,
            walked_on: walk.walked_on,
        })
    }
}

fn heads_of(db: &Connection, stop: Uuid) -> Result<Vec<Head>, StoreError> {
    Ok(walks::heads(db, stop)?
        .into_iter()
        .map(|head| head.said.head)
        .collect())
}

/// Everything but the heads that an answer stands on.
fn made_by(settings: &Settings) -> String {
    format!(
        "model {MODEL}, level {}, target {} {}, cost {} {} {}",
        settings.level,
        settings.target_stage_chance,
        settings.target_position_width,
        settings.minutes_per_stop,
        settings.minutes_per_head,
        settings.heads_per_stop
    )
}

fn stored(db: &Connection, walk: &Walk, made_by: &str) -> Result<Option<Answers>, StoreError> {
    let mut statement = db.prepare_cached(
        "SELECT value FROM answer WHERE walk = ?1 AND planting = ?2 AND made_by = ?3",
    )?;
    let mut rows = statement.query((walk.id, walk.planting, made_by))?;
    let Some(row) = rows.next()? else {
        return Ok(None);
    };
    Ok(serde_json::from_str(row.get_ref(0)?.as_str().unwrap_or_default()).ok())
}

fn keep(
    db: &Connection,
    walks: &[Walk],
    answers: &[Answers],
    made_by: &str,
) -> Result<(), StoreError> {
    let tx = db.unchecked_transaction()?;
    {
        let mut statement = tx.prepare_cached(
            "INSERT OR REPLACE INTO answer (walk, planting, made_by, value)
             VALUES (?1, ?2, ?3, ?4)",
        )?;
        for (walk, answer) in walks.iter().zip(answers) {
            statement.execute((
                walk.id,
                walk.planting,
                made_by,
                serde_json::to_string(answer)?,
            ))?;
        }
    }
    tx.commit()?;
    Ok(())
}
