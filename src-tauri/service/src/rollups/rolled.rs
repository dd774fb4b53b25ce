//! One walk's heads under the weak prior, and under its history.

use std::collections::BTreeMap;

use chrono::NaiveDate;
use ripening::calendar::is_plausible;
use ripening::rollup::{Posterior, Prior, RollUp, contradiction, gained};
use ripening::{Band, Head, PerStage};
use rusqlite::Connection;
use uuid::Uuid;

use super::heat::Heat;
use super::{MOST_HEADS, MOST_STOPS};
use crate::{Answers, Settings};
use notebook::StoreError;
use notebook::views::walks::{self, Walk};

/// What the model needs of a walk.
pub(super) struct WalkHeads {
    pub walked_on: NaiveDate,
    stops: Vec<(Uuid, Vec<Head>)>,
}

impl WalkHeads {
    /// The heads of a walk; none where there are more than are rolled up.
    pub(super) fn read(db: &Connection, walk: &Walk) -> Result<WalkHeads, StoreError> {
        if is_too_large(db, walk.id)? {
            return Ok(WalkHeads {
                walked_on: walk.walked_on,
                stops: Vec::new(),
            });
        }
        let stops = walks::stops(db, walk.id)?
            .into_iter()
            .map(|stop| Ok((stop.id, heads_of(db, stop.id)?)))
            .collect::<Result<_, StoreError>>()?;
        Ok(WalkHeads {
            walked_on: walk.walked_on,
            stops,
        })
    }
}

/// Whether a walk has more stops or heads than are rolled up.
pub(crate) fn is_too_large(db: &Connection, walk: Uuid) -> Result<bool, StoreError> {
    let more_than = |sql: &str, most: u32| -> Result<bool, StoreError> {
        let found: u32 = db
            .prepare_cached(&format!("SELECT count(*) FROM ({sql} LIMIT ?2)"))?
            .query_row((walk, most + 1), |row| row.get(0))?;
        Ok(found > most)
    };
    Ok(more_than(
        "SELECT 1 FROM stop WHERE walk = ?1 AND made_hlc IS NOT NULL AND NOT removed",
        MOST_STOPS,
    )? || more_than(
        "SELECT 1 FROM stop JOIN head ON head.stop = stop.id
         WHERE stop.walk = ?1 AND stop.made_hlc IS NOT NULL AND NOT stop.removed
           AND head.read_hlc IS NOT NULL AND NOT head.removed",
        MOST_HEADS,
    )?)
}

/// The heads of a stop, as the model takes them.
pub(super) fn heads_of(db: &Connection, stop: Uuid) -> Result<Vec<Head>, StoreError> {
    Ok(walks::heads(db, stop)?
        .into_iter()
        .map(|head| head.said.head)
        .collect())
}

/// What an earlier walk left behind.
pub(super) struct History {
    posterior: Posterior,
    walked_on: NaiveDate,
}

impl History {
    /// As the prior of a later day.
    fn on(&self, day: NaiveDate, heat: Heat<'_>) -> Prior {
        self.posterior.forward(heat.between(self.walked_on, day))
    }
}

/// A walk's roll-ups.
pub(super) struct Rolled {
    alone: RollUp,
    with_history: Option<(Prior, RollUp)>,
    /// The key by which the roll-up knows each stop, and its heads.
    stops: BTreeMap<Uuid, (u64, Vec<Head>)>,
}

impl Rolled {
    pub(super) fn of_walk(walk: &WalkHeads, history: Option<(&History, Heat<'_>)>) -> Rolled {
        // Of a walk on a day that cannot be, nothing says what came before it.
        let history = history.filter(|_| is_plausible(walk.walked_on));
        let mut rolled = Rolled {
            alone: RollUp::new(Prior::fresh()),
            with_history: history.map(|(history, heat)| {
                let prior = history.on(walk.walked_on, heat);
                (prior.clone(), RollUp::new(prior))
            }),
            stops: BTreeMap::new(),
        };
        rolled.set_stops(walk);
        rolled
    }

    /// Makes the stops those of the walk; what is the same costs nothing.
    pub(super) fn set_stops(&mut self, walk: &WalkHeads) {
        let gone: Vec<Uuid> = self
            .stops
            .keys()
            .filter(|known| !walk.stops.iter().any(|(stop, _)| stop == *known))
            .copied()
            .collect();
        let gone = gone.iter().map(|stop| (*stop, &[][..]));
        let there = walk.stops.iter().map(|(stop, heads)| (*stop, &heads[..]));
        self.set(gone.chain(there));
    }

    /// Sets the heads of one stop.
    pub(super) fn set_stop(&mut self, stop: Uuid, heads: &[Head]) {
        self.set([(stop, heads)]);
    }

    fn set<'a>(&mut self, stops: impl IntoIterator<Item = (Uuid, &'a [Head])>) {
        let mut news: Vec<(u64, &[Head])> = Vec::new();
        for (stop, heads) in stops {
            let next = self.stops.len() as u64;
            let (key, known) = self.stops.entry(stop).or_insert((next, Vec::new()));
            if known != heads {
                heads.clone_into(known);
                news.push((*key, heads));
            }
        }
        if news.is_empty() {
            return;
        }
        self.alone.set_stops(news.iter().copied());
        if let Some((_, rolled)) = &mut self.with_history {
            rolled.set_stops(news);
        }
    }

    pub(super) fn answers(&self, settings: &Settings) -> Answers {
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

    /// By how much more of the heads had reached each stage than in an earlier
    /// walk, each judged by its own heads.
    pub(super) fn gained_since(&self, earlier: &Rolled, level: f64) -> Option<PerStage<Band>> {
        let both = self.alone.heads() > 0 && earlier.alone.heads() > 0;
        both.then(|| gained(&earlier.alone, &self.alone, level))
    }

    fn contradiction(&self) -> Option<f64> {
        let (history, _) = self.with_history.as_ref()?;
        contradiction(&self.alone, history).map(|found| found.history_applies)
    }

    /// What the next walk inherits; nothing from a walk without heads, or on a day that
    /// cannot be.
    pub(super) fn carried(&self, walked_on: NaiveDate) -> Option<History> {
        if self.alone.heads() == 0 || !is_plausible(walked_on) {
            return None;
        }
        let posterior = match &self.with_history {
            Some((_, rolled)) if self.contradiction().is_none() => rolled.posterior(),
            _ => self.alone.posterior(),
        };
        Some(History {
            posterior,
            walked_on,
        })
    }
}
