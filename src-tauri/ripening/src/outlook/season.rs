//! The heat of one season at one station: behind, and ahead.

use chrono::{Days, NaiveDate};
use thiserror::Error;

use super::why::Why;
use crate::heat::{HeatLine, HeatScale};
use crate::rollup::marks::{BLACK_LAYER, head_mark};
use crate::stage::Stage;
use crate::weather::{Day, NoEnsemble, WeatherEnsemble, WeatherRecord};

/// Days the weather may lag behind the last walk or the day of the outlook; they
/// are taken as the days before them were.
const LONGEST_LAG: i64 = 14;
/// Days over which "as the days before were" is counted.
const LAG_LIKE: usize = 7;
/// Lengths tried for the days ahead, longest first.
const LONGEST_AHEAD: usize = 240;
const SHORTEST_AHEAD: usize = 30;

/// The season up to a day, and the days after it. All heat is in the model's
/// units: units of the scale, stretched so that the way from half bloom to black
/// layer is the model's.
#[derive(Debug, Clone)]
pub struct Season {
    as_of: NaiveDate,
    /// Units of the model in a unit of the scale.
    stretch: f64,
    /// Days from `unbroken_from` to `end`, known or assumed.
    days: Vec<Day>,
    /// Heat by the evening of each of them.
    sums: Vec<f64>,
    known_until: NaiveDate,
    filled_days: usize,
    ahead: Result<Ahead, NoEnsemble>,
}

/// The days ahead.
#[derive(Debug, Clone)]
pub(super) struct Ahead {
    pub(super) ensemble: WeatherEnsemble,
    /// For each member, heat by the evening of each day since the season's end.
    pub(super) sums: Vec<Vec<f64>>,
}

/// Why an ensemble was not taken.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum AheadRefusal {
    /// It does not begin the day after the season's known days.
    #[error("the days ahead must begin on {wanted}, not {given}")]
    Begins {
        /// Day after the last known or assumed day.
        wanted: NaiveDate,
        /// First day of the ensemble.
        given: NaiveDate,
    },
}

impl Season {
    /// From a station's record; nothing in it after `as_of` is looked at. (Clean
    /// the rows with the same date as `until`, or a later row may still have
    /// filled an earlier gap.)
    ///
    /// # Errors
    /// [`Why::NoWeather`], [`Why::WeatherEndsEarly`].
    pub fn new(scale: &HeatScale, record: &WeatherRecord, as_of: NaiveDate) -> Result<Season, Why> {
        let past = record.until(as_of);
        let known_until = past.span().ok_or(Why::NoWeather)?.to;
        if (as_of - known_until).num_days() > LONGEST_LAG {
            return Err(Why::WeatherEndsEarly {
                ends_on: known_until,
            });
        }
        let unbroken_from = past
            .gaps()
            .last()
            .map_or(past.span().ok_or(Why::NoWeather)?.from, |gap| {
                gap.to.succ_opt().unwrap_or(gap.to)
            });
        let mut days = past.between(unbroken_from, known_until).to_vec();
        let filled_days = days.iter().filter(|day| day.filled).count();
        assume_lag(&mut days, as_of);
        let stretch = (BLACK_LAYER - head_mark(Stage::HalfBloom, 0.0))
            / scale.mean_half_bloom_to_black_layer();
        let sums = sums(scale, &days, stretch);
        let next = next_day(days.last().map_or(as_of, |day| day.date));
        let ahead = days_ahead(&past, next).map(|ensemble| Ahead {
            sums: member_sums(scale, &ensemble, stretch),
            ensemble,
        });
        Ok(Season {
            as_of,
            stretch,
            days,
            sums,
            known_until,
            filled_days,
            ahead,
        })
    }

    /// The same season with other days ahead (a forecast, say).
    ///
    /// # Errors
    /// [`AheadRefusal`] unless it begins the day after [`Season::end`].
    pub fn with_ahead(
        self,
        scale: &HeatScale,
        ensemble: WeatherEnsemble,
    ) -> Result<Season, AheadRefusal> {
        let wanted = next_day(self.end());
        if ensemble.from() != wanted {
            return Err(AheadRefusal::Begins {
                wanted,
                given: ensemble.from(),
            });
        }
        let sums = member_sums(scale, &ensemble, self.stretch);
        Ok(Season {
            ahead: Ok(Ahead { ensemble, sums }),
            ..self
        })
    }

    /// The day the outlook is made for.
    pub fn as_of(&self) -> NaiveDate {
        self.as_of
    }

    /// First day from which the weather has no gap.
    pub fn unbroken_from(&self) -> NaiveDate {
        self.days.first().map_or(self.as_of, |day| day.date)
    }

    /// Last day with weather of its own.
    pub fn known_until(&self) -> NaiveDate {
        self.known_until
    }

    /// Last day known or assumed; the days ahead begin after it.
    pub fn end(&self) -> NaiveDate {
        self.days.last().map_or(self.as_of, |day| day.date)
    }

    /// Days whose temperatures were filled by rule.
    pub fn filled_days(&self) -> usize {
        self.filled_days
    }

    /// Days behind, known or assumed, without a gap.
    pub fn days(&self) -> &[Day] {
        &self.days
    }

    /// The days ahead, or why there are none.
    ///
    /// # Errors
    /// [`NoEnsemble`].
    pub fn ensemble(&self) -> Result<&WeatherEnsemble, NoEnsemble> {
        match &self.ahead {
            Ok(ahead) => Ok(&ahead.ensemble),
            Err(cause) => Err(cause.clone()),
        }
    }

    /// Last day told for: of the days ahead, or of those behind where there are none.
    pub fn horizon(&self) -> NaiveDate {
        self.date_ahead(self.ensemble().map_or(0, WeatherEnsemble::length))
    }

    pub(super) fn ahead(&self) -> Result<&Ahead, &NoEnsemble> {
        self.ahead.as_ref()
    }

    /// Heat by the evening of a day behind; 0 before the first.
    pub(super) fn evening(&self, date: NaiveDate) -> f64 {
        let place = (date - self.unbroken_from()).num_days();
        match usize::try_from(place) {
            Err(_) => 0.0,
            Ok(place) => self
                .sums
                .get(place)
                .or(self.sums.last())
                .copied()
                .unwrap_or(0.0),
        }
    }

    /// Heat by the morning of a day.
    pub(super) fn morning(&self, date: NaiveDate) -> f64 {
        date.pred_opt().map_or(0.0, |before| self.evening(before))
    }

    /// Heat by the middle of a day: when walks are made.
    pub(super) fn midday(&self, date: NaiveDate) -> f64 {
        0.5 * (self.morning(date) + self.evening(date))
    }

    /// Days after `from` up to `to` that had to be assumed.
    pub(super) fn assumed_between(&self, from: NaiveDate, to: NaiveDate) -> f64 {
        (to - from.max(self.known_until)).num_days().max(0) as f64
    }

    /// Heat of the scale in heat of the model.
    pub(super) fn in_model(&self, units: f64) -> f64 {
        units * self.stretch
    }

    /// Heat of the model in heat of the scale.
    pub(super) fn in_scale(&self, units: f64) -> f64 {
        units / self.stretch
    }
}

fn next_day(date: NaiveDate) -> NaiveDate {
    date.succ_opt().unwrap_or(date)
}

/// Days from the end of the weather to `as_of`, as the last week was on the mean.
fn assume_lag(days: &mut Vec<Day>, as_of: NaiveDate) {
    let Some(last) = days.last().copied() else {
        return;
    };
    let like: Vec<Day> = days.iter().rev().take(LAG_LIKE).copied().collect();
    let count = like.len() as f64;
    let high_f = like.iter().map(|day| day.high_f).sum::<f64>() / count;
    let low_f = like.iter().map(|day| day.low_f).sum::<f64>() / count;
    let mut date = last.date;
    while date < as_of {
        date = next_day(date);
        days.push(Day {
            date,
            high_f,
            low_f,
            rain_in: None,
            humidity: None,
            filled: true,
        });
    }
}

fn sums(scale: &HeatScale, days: &[Day], stretch: f64) -> Vec<f64> {
    HeatLine::new(scale, days).map_or(Vec::new(), |line| {
        line.sums().iter().map(|sum| sum * stretch).collect()
    })
}

fn member_sums(scale: &HeatScale, ensemble: &WeatherEnsemble, stretch: f64) -> Vec<Vec<f64>> {
    ensemble
        .members()
        .iter()
        .map(|member| sums(scale, &member.days, stretch))
        .collect()
}

/// The longest stretch of days ahead that at least four in five of the seasons
/// have which have the shortest one: stations kept only in summer serve too.
fn days_ahead(past: &WeatherRecord, from: NaiveDate) -> Result<WeatherEnsemble, NoEnsemble> {
    let seasons_at = |length| WeatherEnsemble::past_seasons(past, from, length);
    let most = seasons_at(SHORTEST_AHEAD);
    let length = (SHORTEST_AHEAD..=LONGEST_AHEAD)
        .rev()
        .step_by(10)
        .find(|&length| {
            let seasons = seasons_at(length);
            seasons > 0 && seasons * 5 >= most * 4
        })
        .unwrap_or(SHORTEST_AHEAD);
    WeatherEnsemble::from_past(past, from, length)
}

impl Season {
    /// The date `place` days after the end of the known days (1 is the next day).
    pub(super) fn date_ahead(&self, days: usize) -> NaiveDate {
        let days = u64::try_from(days).unwrap_or(u64::MAX);
        self.end()
            .checked_add_days(Days::new(days))
            .unwrap_or(NaiveDate::MAX)
    }
}
