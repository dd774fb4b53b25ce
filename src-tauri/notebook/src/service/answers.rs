//! The model's answers for walks, and keeping them.
//!
//! A walk's answer takes milliseconds, and its history takes as many times
//! that as the planting has earlier walks. So finished answers are kept in
//! memory and in the table `answer`, from which every change drops those it
//! touches; and the walk that is being walked stays open here, so that a tap
//! recomputes one stop. An answer with history also stands on the heat between
//! the walks: kept answers name it, and no longer count when it is another.

mod heat;
mod kept;
mod rolled;
pub(super) mod side_by_side;

use std::collections::{BTreeMap, BTreeSet};

use ripening::{Band, PerStage};
use rusqlite::Connection;
use uuid::Uuid;

use super::{Answers, Problem, Settings};
use crate::StoreError;
use crate::apply::Touched;
use crate::views::walks::{self, Walk};
use heat::{Heat, KnownWeather};
use rolled::{Rolled, WalkHeads, heads_of};
use side_by_side::side_by_side;

/// Position bands that a list shows before the latest walk's.
const EARLIER: usize = 4;

/// Answers kept, and the open walk.
pub(super) struct KeptAnswers {
    /// SQLite's count of other connections' commits when these began to be kept.
    as_of: i64,
    /// By planting: the answer of each of its walks.
    whole: BTreeMap<Uuid, Vec<Answers>>,
    /// By planting: what a list shows.
    latest: BTreeMap<Uuid, Latest>,
    weather: KnownWeather,
    open: Option<OpenWalk>,
}

/// What a list shows of a planting's walks.
#[derive(Clone, Default)]
pub(super) struct Latest {
    /// The latest walk with heads.
    pub last: Option<(Uuid, Answers)>,
    /// Position bands of the walks with heads before it, oldest first.
    pub earlier: Vec<Band>,
}

/// A walk's roll-ups, alone and with its history.
struct OpenWalk {
    walk: Uuid,
    planting: Uuid,
    /// Heat between the walks up to this one.
    moves: String,
    rolled: Rolled,
}

/// SQLite's count of commits by other connections to the same file.
pub(super) fn data_version(db: &Connection) -> Result<i64, StoreError> {
    Ok(db
        .prepare_cached("PRAGMA data_version")?
        .query_row([], |row| row.get(0))?)
}

impl KeptAnswers {
    /// None yet; see [`data_version`].
    pub(super) fn as_of(data_version: i64) -> KeptAnswers {
        KeptAnswers {
            as_of: data_version,
            whole: BTreeMap::new(),
            latest: BTreeMap::new(),
            weather: KnownWeather::default(),
            open: None,
        }
    }

    /// Drops what stands on these plantings, or on the weather. The open walk stays
    /// if it is the only thing touched: whoever touched it sets its stops anew.
    pub(super) fn forget(&mut self, plantings: &BTreeSet<Uuid>, touched: &Touched) {
        if touched.weather {
            *self = KeptAnswers::as_of(self.as_of);
            return;
        }
        for planting in plantings {
            self.whole.remove(planting);
            self.latest.remove(planting);
        }
        let stays = self.open.as_ref().is_some_and(|open| {
            !plantings.contains(&open.planting)
                || (!touched.plantings.contains(&open.planting)
                    && touched.walks.iter().all(|walk| *walk == open.walk))
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
        // A stop's place may have made another station the nearest.
        let walks = until(db, walk)?;
        let station = self.weather.station(db, walk.planting, &walks)?;
        let moves = self.weather.of(station.as_deref()).moves(&walks);
        if self.open.as_ref().is_some_and(|open| open.moves != moves) {
            self.open = None;
        }
        let open = self.opened(db, walk)?;
        // Stops may have come or gone since, or their heads changed.
        open.rolled.set_stops(&WalkHeads::read(db, walk)?);
        Ok(open.rolled.answers(settings))
    }

    fn opened(&mut self, db: &Connection, walk: &Walk) -> Result<&mut OpenWalk, Problem> {
        let fits = |open: &OpenWalk| open.walk == walk.id && open.planting == walk.planting;
        let open = match self.open.take() {
            Some(open) if fits(&open) => open,
            _ => {
                let walks = until(db, walk)?;
                let station = self.weather.station(db, walk.planting, &walks)?;
                let heat = self.weather.of(station.as_deref());
                let mut history = None;
                for earlier in walks.iter().filter(|earlier| earlier.id != walk.id) {
                    let earlier = WalkHeads::read(db, earlier)?;
                    history =
                        Rolled::of_walk(&earlier, history.as_ref().map(|known| (known, heat)))
                            .carried(earlier.walked_on)
                            .or(history);
                }
                let heads = WalkHeads::read(db, walk)?;
                OpenWalk {
                    walk: walk.id,
                    planting: walk.planting,
                    moves: heat.moves(&walks),
                    rolled: Rolled::of_walk(&heads, history.as_ref().map(|known| (known, heat))),
                }
            }
        };
        Ok(self.open.insert(open))
    }

    /// The answers of all of a planting's walks, in their order.
    pub(super) fn of_planting(
        &mut self,
        db: &Connection,
        settings: &Settings,
        planting: Uuid,
        walks: &[Walk],
    ) -> Result<Vec<Answers>, Problem> {
        if let Some(answers) = self.whole.get(&planting).filter(|a| a.len() == walks.len()) {
            return Ok(answers.clone());
        }
        let station = self.weather.station(db, planting, walks)?;
        let heat = self.weather.of(station.as_deref());
        let made_by = kept::made_by(settings, &heat.moves(walks));
        let answers = match kept::whole(db, &made_by, walks)? {
            Some(answers) => answers,
            None => {
                let computed = computed(&read_all(db, walks)?, heat, settings);
                kept::keep(db, self.as_of, &[(planting, &made_by, walks, &computed)]);
                computed
            }
        };
        self.whole.insert(planting, answers.clone());
        Ok(answers)
    }

    /// What a list shows of each planting, where it is kept; nothing is computed.
    pub(super) fn kept_of_list(
        &mut self,
        db: &Connection,
        settings: &Settings,
        plantings: &[(Uuid, Vec<Walk>)],
    ) -> Result<Vec<Option<Latest>>, Problem> {
        let mut all = Vec::with_capacity(plantings.len());
        for (planting, walks) in plantings {
            let station = self.weather.station(db, *planting, walks)?;
            let heat = self.weather.of(station.as_deref());
            let made_by = kept::made_by(settings, &heat.moves(walks));
            all.push(self.known(db, &made_by, *planting, walks)?);
        }
        Ok(all)
    }

    fn known(
        &mut self,
        db: &Connection,
        made_by: &str,
        planting: Uuid,
        walks: &[Walk],
    ) -> Result<Option<Latest>, Problem> {
        if let Some(latest) = self.latest.get(&planting) {
            return Ok(Some(latest.clone()));
        }
        let known = match self.whole.get(&planting).filter(|a| a.len() == walks.len()) {
            Some(answers) => Some(Latest::of(walks, answers)),
            None => kept::latest(db, made_by, planting, walks)?,
        };
        if let Some(latest) = &known {
            self.latest.insert(planting, latest.clone());
        }
        Ok(known)
    }

    /// What a list shows of each planting; those not kept are computed side by
    /// side.
    pub(super) fn of_list(
        &mut self,
        db: &Connection,
        settings: &Settings,
        plantings: &[(Uuid, Vec<Walk>)],
    ) -> Result<Vec<Latest>, Problem> {
        let mut to_compute = Vec::new();
        for (planting, walks) in plantings {
            let station = self.weather.station(db, *planting, walks)?;
            let heat = self.weather.of(station.as_deref());
            let made_by = kept::made_by(settings, &heat.moves(walks));
            if self.known(db, &made_by, *planting, walks)?.is_none() {
                to_compute.push(ToCompute {
                    planting: *planting,
                    walks,
                    station,
                    made_by,
                    heads: read_all(db, walks)?,
                });
            }
        }
        let weather = &self.weather;
        let computed = side_by_side(&to_compute, |one| {
            computed(&one.heads, weather.of(one.station.as_deref()), settings)
        });
        let done: Vec<(Uuid, &str, &[Walk], &Vec<Answers>)> = to_compute
            .iter()
            .zip(&computed)
            .map(|(one, answers)| (one.planting, one.made_by.as_str(), one.walks, answers))
            .collect();
        kept::keep(db, self.as_of, &done);
        for (planting, _, walks, answers) in done {
            self.latest.insert(planting, Latest::of(walks, answers));
        }
        Ok(plantings
            .iter()
            .map(|(planting, _)| self.latest.get(planting).cloned().unwrap_or_default())
            .collect())
    }
}

impl Latest {
    fn of(walks: &[Walk], answers: &[Answers]) -> Latest {
        let mut with_heads: Vec<(Uuid, &Answers)> = walks
            .iter()
            .map(|walk| walk.id)
            .zip(answers)
            .filter(|(_, answers)| answers.alone.is_some())
            .collect();
        let last = with_heads.pop();
        let first = with_heads.len().saturating_sub(EARLIER);
        Latest {
            last: last.map(|(walk, answers)| (walk, answers.clone())),
            earlier: with_heads
                .iter()
                .skip(first)
                .filter_map(|(_, answers)| position(answers))
                .collect(),
        }
    }
}

/// The position by the better of a walk's two answers.
fn position(answers: &Answers) -> Option<Band> {
    answers.alone?;
    Some(answers.with_history.or(answers.alone)?.position)
}

fn read_all(db: &Connection, walks: &[Walk]) -> Result<Vec<WalkHeads>, StoreError> {
    walks.iter().map(|walk| WalkHeads::read(db, walk)).collect()
}

/// By how much the share of heads that had reached each stage grew from one
/// walk to another, from the heads of each alone; none where one has no head.
pub(super) fn gained(
    db: &Connection,
    settings: &Settings,
    earlier: &Walk,
    later: &Walk,
) -> Result<Option<PerStage<Band>>, StoreError> {
    let alone = |walk| Ok::<_, StoreError>(Rolled::of_walk(&WalkHeads::read(db, walk)?, None));
    Ok(alone(later)?.gained_since(&alone(earlier)?, settings.level))
}

/// A planting whose answers are not kept.
struct ToCompute<'a> {
    planting: Uuid,
    walks: &'a [Walk],
    station: Option<String>,
    made_by: String,
    heads: Vec<WalkHeads>,
}

/// A planting's walks up to one of them, in order.
fn until(db: &Connection, walk: &Walk) -> Result<Vec<Walk>, StoreError> {
    let mut walks = walks::of_planting(db, walk.planting)?;
    walks.retain(|other| (other.walked_on, other.id) <= (walk.walked_on, walk.id));
    Ok(walks)
}

/// A planting's answers from walk to walk.
fn computed(walks: &[WalkHeads], heat: Heat<'_>, settings: &Settings) -> Vec<Answers> {
    let mut history = None;
    let mut answers = Vec::with_capacity(walks.len());
    for walk in walks {
        let rolled = Rolled::of_walk(walk, history.as_ref().map(|known| (known, heat)));
        answers.push(rolled.answers(settings));
        history = rolled.carried(walk.walked_on).or(history);
    }
    answers
}
