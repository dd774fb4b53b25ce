//! The model's answers for walks, and keeping them.
//!
//! A walk's answer takes milliseconds, and its history takes as many times
//! that as the planting has earlier walks. So finished answers are kept in
//! memory and in the table `answer`, from which every change drops those of the
//! walk it touches and of the walks after it; and the walk that is being walked
//! stays open here, so that a tap recomputes one stop. An answer with history also
//! stands on the walks before and the heat between them: kept answers name these,
//! and no longer count when they are others.

mod heat;
mod kept;
pub(crate) mod notice;
pub(crate) mod pages;
mod rolled;
pub(crate) mod side_by_side;

use std::collections::{BTreeMap, BTreeSet};

use heat::{Heat, KnownWeather, Way};
use kept::{MadeBy, ToKeep};
use ripening::{Band, PerStage};
use rolled::{Rolled, WalkHeads, heads_of};
use rusqlite::Connection;
use side_by_side::side_by_side;
use uuid::Uuid;

use crate::{Answers, Problem, Settings};
use notebook::StoreError;
use notebook::apply::Touched;
use notebook::views::plantings::Planting;
use notebook::views::walks::{self, Walk};

/// Position bands that a list shows before the latest walk's.
const EARLIER: usize = 4;

/// Most stops of a walk that are rolled up: several times those of the longest walk that
/// anybody makes. Each takes up to half a megabyte, and a second of work for a hundred.
pub(crate) const MOST_STOPS: u32 = 200;
/// Most heads of a walk that are rolled up.
pub(crate) const MOST_HEADS: u32 = 20_000;

pub(crate) use rolled::is_too_large;

/// Answers kept, and the open walk.
pub(crate) struct KeptAnswers {
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
pub(crate) struct Latest {
    /// The latest walk with heads.
    pub last: Option<(Uuid, Answers)>,
    /// Position bands of the walks with heads before it, oldest first.
    pub earlier: Vec<Band>,
}

/// A walk's roll-ups, alone and with its history.
struct OpenWalk {
    walk: Uuid,
    planting: Uuid,
    /// How the planting came to this walk.
    way: Option<Way>,
    rolled: Rolled,
    /// Changes of its heads that it has not taken in.
    behind: u32,
}

/// SQLite's count of commits by other connections to the same file.
pub(crate) fn data_version(db: &Connection) -> Result<i64, StoreError> {
    Ok(db
        .prepare_cached("PRAGMA data_version")?
        .query_row([], |row| row.get(0))?)
}

impl KeptAnswers {
    /// None yet; see [`data_version`].
    pub(crate) fn as_of(data_version: i64) -> KeptAnswers {
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
    pub(crate) fn forget(&mut self, plantings: &BTreeSet<Uuid>, touched: &Touched) {
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
        if let Some(open) = self.open.as_mut()
            && plantings.contains(&open.planting)
        {
            open.behind += 1;
        }
    }

    /// The open walk's answer after the heads of one of its stops changed.
    pub(crate) fn after_stop(
        &mut self,
        db: &Connection,
        settings: &Settings,
        walk: &Walk,
        stop: Uuid,
    ) -> Result<Answers, Problem> {
        let open = self.opened(db, walk)?;
        if open.behind > 1 || is_too_large(db, walk.id)? {
            open.rolled.set_stops(&WalkHeads::read(db, walk)?);
        } else {
            open.rolled.set_stop(stop, &heads_of(db, stop)?);
        }
        open.behind = 0;
        Ok(open.rolled.answers(settings))
    }

    /// A walk's answer, kept ready for taps.
    pub(crate) fn of_open(
        &mut self,
        db: &Connection,
        settings: &Settings,
        walk: &Walk,
    ) -> Result<Answers, Problem> {
        // A stop's place may have made another station the nearest.
        let walks = until(db, walk)?;
        let station = self.weather.station(db, walk.planting, &walks)?;
        let way = self.weather.of(station.as_deref()).ways(&walks).pop();
        if self.open.as_ref().is_some_and(|open| open.way != way) {
            self.open = None;
        }
        let open = self.opened(db, walk)?;
        // Stops may have come or gone since, or their heads changed.
        open.rolled.set_stops(&WalkHeads::read(db, walk)?);
        open.behind = 0;
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
                    way: heat.ways(&walks).pop(),
                    rolled: Rolled::of_walk(&heads, history.as_ref().map(|known| (known, heat))),
                    behind: 0,
                }
            }
        };
        Ok(self.open.insert(open))
    }

    /// The answers of all of a planting's walks, in their order.
    pub(crate) fn of_planting(
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
        let made_by = MadeBy::of(settings, &heat.ways(walks));
        let answers = match kept::whole(db, &made_by, walks)? {
            Some(answers) => answers,
            None => {
                let computed = computed(&read_all(db, walks)?, heat, settings);
                let keep = ToKeep {
                    walks,
                    made_by: &made_by,
                    answers: &computed,
                };
                kept::keep(db, self.as_of, &[keep]);
                computed
            }
        };
        self.whole.insert(planting, answers.clone());
        Ok(answers)
    }

    /// What a list shows of each planting, where it is kept; nothing is computed.
    pub(crate) fn kept_of_list(
        &mut self,
        db: &Connection,
        settings: &Settings,
        plantings: &[(Planting, Vec<Walk>)],
    ) -> Result<Vec<Option<Latest>>, Problem> {
        let mut all = Vec::with_capacity(plantings.len());
        for (planting, walks) in plantings {
            if let Some(latest) = self.latest.get(&planting.id) {
                all.push(Some(latest.clone()));
                continue;
            }
            let station = self.weather.station_of(db, planting, walks)?;
            let heat = self.weather.of(station.as_deref());
            let ways = heat.ways(walks);
            all.push(self.known(db, settings, &ways, planting.id, walks)?);
        }
        Ok(all)
    }

    fn known(
        &mut self,
        db: &Connection,
        settings: &Settings,
        ways: &[Way],
        planting: Uuid,
        walks: &[Walk],
    ) -> Result<Option<Latest>, Problem> {
        let known = match self.whole.get(&planting).filter(|a| a.len() == walks.len()) {
            Some(answers) => Some(Latest::of(walks, answers)),
            None => {
                let made_by = MadeBy::of(settings, ways);
                let of_last = self.open_answers(settings, ways, walks);
                if let (Some(answers), [.., last]) = (&of_last, walks)
                    && last.finished
                {
                    // No tap will change it soon.
                    let keep = ToKeep {
                        walks: std::slice::from_ref(last),
                        made_by: &made_by.of_last(),
                        answers: std::slice::from_ref(answers),
                    };
                    kept::keep(db, self.as_of, &[keep]);
                }
                kept::latest(db, &made_by, planting, walks, of_last)?
            }
        };
        if let Some(latest) = &known {
            self.latest.insert(planting, latest.clone());
        }
        Ok(known)
    }

    /// The answer of the open walk, where it is the last of these and up to date.
    fn open_answers(&self, settings: &Settings, ways: &[Way], walks: &[Walk]) -> Option<Answers> {
        let open = self.open.as_ref()?;
        let is_last = walks.last()?.id == open.walk && ways.last() == open.way.as_ref();
        (is_last && open.behind == 0).then(|| open.rolled.answers(settings))
    }

    /// What a list shows of each planting; those not kept are computed side by
    /// side.
    pub(crate) fn of_list(
        &mut self,
        db: &Connection,
        settings: &Settings,
        plantings: &[(Uuid, Vec<Walk>)],
    ) -> Result<Vec<Latest>, Problem> {
        let mut to_compute = Vec::new();
        for (planting, walks) in plantings {
            if self.latest.contains_key(planting) {
                continue;
            }
            let station = self.weather.station(db, *planting, walks)?;
            let heat = self.weather.of(station.as_deref());
            let ways = heat.ways(walks);
            if self.known(db, settings, &ways, *planting, walks)?.is_none() {
                to_compute.push(ToCompute {
                    planting: *planting,
                    walks,
                    station,
                    made_by: MadeBy::of(settings, &ways),
                    heads: read_all(db, walks)?,
                });
            }
        }
        let weather = &self.weather;
        let computed = side_by_side(&to_compute, |one| {
            computed(&one.heads, weather.of(one.station.as_deref()), settings)
        });
        let done: Vec<ToKeep<'_>> = to_compute
            .iter()
            .zip(&computed)
            .map(|(one, answers)| ToKeep {
                walks: one.walks,
                made_by: &one.made_by,
                answers,
            })
            .collect();
        kept::keep(db, self.as_of, &done);
        for (one, answers) in to_compute.iter().zip(&computed) {
            self.latest
                .insert(one.planting, Latest::of(one.walks, answers));
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
pub(crate) fn gained(
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
    made_by: MadeBy,
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
