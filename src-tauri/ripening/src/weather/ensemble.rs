//! The days ahead, as the past seasons of the station had them.

use chrono::{Datelike, Days, NaiveDate};
use serde::{Deserialize, Serialize};
use thiserror::Error;

use super::day::{Day, WeatherRecord};
use super::normal::YearlyCourse;

/// Past seasons from which on they are used just as they were.
pub const ENOUGH_SEASONS: usize = 10;

/// Of more seasons than this only the last are used: thirty years is the length
/// of the climate normals of the World Meteorological Organization.
pub const MOST_SEASONS: usize = 30;

/// With fewer seasons, each is also used moved by these days, its departure from
/// the usual course kept, and made warmer and cooler.
const MOVES: [i64; 5] = [-14, -7, 0, 7, 14];
/// Spread of the mean of a month of summer from year to year at any one station,
/// deg F (common practice), and how many years of a station's own it weighs as
/// much as.
const SEASON_SPREAD_F: f64 = 1.75;
const SPREAD_WEIGHS_YEARS: f64 = 4.0;
/// Days over which seasons are compared to find that spread.
const MONTH: usize = 30;
/// Three points that carry a normal spread exactly up to its variance when they
/// count alike: 0 and plus and minus sqrt(3/2).
const THREE_POINTS: [f64; 3] = [-1.224_744_871_391_589, 0.0, 1.224_744_871_391_589];

/// One way the days ahead may go.
#[derive(Debug, Clone, PartialEq)]
pub struct Member {
    /// The season it was taken from: the year of its first day.
    pub season: i32,
    /// Days by which the season was moved; 0 for a season as it was.
    pub moved_days: i64,
    /// Degrees F added to the whole season; 0 for a season as it was.
    pub warmed_f: f64,
    /// The days, dated as days ahead, without a gap.
    pub days: Vec<Day>,
}

/// How an ensemble was made.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case", tag = "way")]
pub enum EnsembleMaking {
    /// Each past season once, as it was.
    PastSeasons {
        /// How many.
        seasons: usize,
    },
    /// Too few past seasons: each used several times, moved by up to two weeks
    /// and made warmer and cooler by the spread of seasons.
    FewSeasonsWidened {
        /// How many.
        seasons: usize,
    },
}

/// The days ahead as a set of equally likely courses, each as long as the others.
/// Nothing is weighted.
#[derive(Debug, Clone, PartialEq)]
pub struct WeatherEnsemble {
    from: NaiveDate,
    making: EnsembleMaking,
    members: Vec<Member>,
}

/// Why there is no ensemble.
#[derive(Debug, Clone, PartialEq, Eq, Error, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case", tag = "code")]
pub enum NoEnsemble {
    /// No weather at all.
    #[error("there is no weather for this station up to this date")]
    NoWeather,
    /// No past season has the days ahead.
    #[error("no past season in the weather has the {days} days after {after}")]
    NoPastSeason {
        /// The last day before the days ahead.
        after: NaiveDate,
        /// How many days ahead were asked for.
        days: usize,
    },
}

impl WeatherEnsemble {
    /// The `length` days from `from` on, as the seasons of `record` before `from`
    /// had them. Days of the record from `from` on are not looked at. A season
    /// counts when it has every one of the days (filled ones too).
    ///
    /// # Errors
    /// [`NoEnsemble`] when no season has them.
    pub fn from_past(
        record: &WeatherRecord,
        from: NaiveDate,
        length: usize,
    ) -> Result<WeatherEnsemble, NoEnsemble> {
        let past = record.until(from.pred_opt().unwrap_or(from));
        let span = past.span().ok_or(NoEnsemble::NoWeather)?;
        let starts = season_starts(&past, span.from, from, length);
        let seasons = starts.len();
        if seasons == 0 {
            return Err(NoEnsemble::NoPastSeason {
                after: from.pred_opt().unwrap_or(from),
                days: length,
            });
        }
        if seasons >= ENOUGH_SEASONS {
            let members = starts
                .iter()
                .filter_map(|&start| season(&past, start, length, from))
                .collect();
            return Ok(WeatherEnsemble {
                from,
                making: EnsembleMaking::PastSeasons { seasons },
                members,
            });
        }
        Ok(WeatherEnsemble {
            from,
            making: EnsembleMaking::FewSeasonsWidened { seasons },
            members: widened(&past, &starts, length, from),
        })
    }

    /// How many past seasons of `record` have every one of the `length` days from
    /// `from` on (at most [`MOST_SEASONS`]).
    pub fn past_seasons(record: &WeatherRecord, from: NaiveDate, length: usize) -> usize {
        let past = record.until(from.pred_opt().unwrap_or(from));
        past.span().map_or(0, |span| {
            season_starts(&past, span.from, from, length).len()
        })
    }

    /// From courses made elsewhere (a forecast, a test). `None` unless there is
    /// at least one and all are consecutive, start at `from` and are of one length.
    pub fn from_members(
        from: NaiveDate,
        making: EnsembleMaking,
        members: Vec<Member>,
    ) -> Option<WeatherEnsemble> {
        let length = members.first()?.days.len();
        let sound = length > 0
            && members.iter().all(|member| {
                member.days.len() == length
                    && (0_u64..)
                        .zip(&member.days)
                        .all(|(i, day)| from.checked_add_days(Days::new(i)) == Some(day.date))
            });
        sound.then_some(WeatherEnsemble {
            from,
            making,
            members,
        })
    }

    /// First day ahead.
    pub fn from(&self) -> NaiveDate {
        self.from
    }

    /// How it was made.
    pub fn making(&self) -> EnsembleMaking {
        self.making
    }

    /// The courses. At least one.
    pub fn members(&self) -> &[Member] {
        &self.members
    }

    /// Days in each course.
    pub fn length(&self) -> usize {
        self.members.first().map_or(0, |member| member.days.len())
    }
}

/// First days of the past seasons that have every one of the days.
fn season_starts(
    past: &WeatherRecord,
    first: NaiveDate,
    from: NaiveDate,
    length: usize,
) -> Vec<NaiveDate> {
    let mut starts: Vec<NaiveDate> = (first.year() - 1..from.year())
        .rev()
        .filter_map(|year| same_day(from, year))
        .filter(|&start| {
            last_day(start, length).is_some_and(|end| past.between(start, end).len() == length)
        })
        .take(MOST_SEASONS)
        .collect();
    starts.reverse();
    starts
}

fn last_day(start: NaiveDate, length: usize) -> Option<NaiveDate> {
    let days = u64::try_from(length).ok()?.checked_sub(1)?;
    start.checked_add_days(Days::new(days))
}

/// The same month and day in another year; 29 February becomes 1 March where
/// there is none.
fn same_day(date: NaiveDate, year: i32) -> Option<NaiveDate> {
    date.with_year(year)
        .or_else(|| NaiveDate::from_ymd_opt(year, 3, 1))
}

/// The season as it was, dated from `from` on. Days run on by count, so 29
/// February neither doubles nor drops a day.
fn season(
    past: &WeatherRecord,
    start: NaiveDate,
    length: usize,
    from: NaiveDate,
) -> Option<Member> {
    let days = past.between(start, last_day(start, length)?);
    if days.len() != length {
        return None;
    }
    let days = (0_u64..)
        .zip(days)
        .map(|(i, day)| {
            Some(Day {
                date: from.checked_add_days(Days::new(i))?,
                ..*day
            })
        })
        .collect::<Option<Vec<Day>>>()?;
    Some(Member {
        season: start.year(),
        moved_days: 0,
        warmed_f: 0.0,
        days,
    })
}

fn widened(
    past: &WeatherRecord,
    starts: &[NaiveDate],
    length: usize,
    from: NaiveDate,
) -> Vec<Member> {
    let moved = moved_seasons(past, starts, length, from);
    let spread = missing_spread(&moved, starts.len());
    moved
        .into_iter()
        .flat_map(|member| THREE_POINTS.map(|point| warmed(&member, point * spread)))
        .collect()
}

/// Each season as it was and moved, its departure from the usual course kept.
fn moved_seasons(
    past: &WeatherRecord,
    starts: &[NaiveDate],
    length: usize,
    from: NaiveDate,
) -> Vec<Member> {
    let course = YearlyCourse::fit(past);
    let mut members = Vec::new();
    for &start in starts {
        for moved_days in MOVES {
            let moved_start = if moved_days < 0 {
                start.checked_sub_days(Days::new(moved_days.unsigned_abs()))
            } else {
                start.checked_add_days(Days::new(moved_days.unsigned_abs()))
            };
            // Without a yearly course a moved season would also move the season
            // itself; then only the unmoved one is used.
            if moved_days != 0 && course.is_none() {
                continue;
            }
            let Some(mut member) =
                moved_start.and_then(|moved_start| season(past, moved_start, length, from))
            else {
                continue;
            };
            member.season = start.year();
            member.moved_days = moved_days;
            for day in &mut member.days {
                let (high, low) = usual_change(course.as_ref(), day.date, moved_days);
                day.high_f += high;
                day.low_f += low;
            }
            members.push(member);
        }
    }
    members
}

fn warmed(member: &Member, by_f: f64) -> Member {
    let mut member = member.clone();
    member.warmed_f = by_f;
    for day in &mut member.days {
        day.high_f += by_f;
        day.low_f = (day.low_f + by_f).min(day.high_f);
    }
    member
}

/// What `n` seasons leave out, deg F. Seasons of spread `s` show a spread of
/// `s^2 (1 - 1/n)` around their own mean, and the season ahead lies around that
/// mean by `s^2 (1 + 1/n)`: `2 s^2 / n` is missing. What moving the seasons has
/// already brought in is taken off. `s` is the station's own, drawn towards the
/// usual one.
fn missing_spread(moved: &[Member], seasons: usize) -> f64 {
    let unmoved: Vec<f64> = moved
        .iter()
        .filter(|member| member.moved_days == 0)
        .map(first_month)
        .collect();
    let all: Vec<f64> = moved.iter().map(first_month).collect();
    let (n, between) = (seasons as f64, variance(&unmoved));
    // Squares around the mean, so that one season says nothing.
    let own = between * unmoved.len() as f64;
    let usual = SPREAD_WEIGHS_YEARS * SEASON_SPREAD_F * SEASON_SPREAD_F;
    let season = (usual + own) / (SPREAD_WEIGHS_YEARS + n - 1.0);
    let brought_in = (variance(&all) - between).max(0.0);
    (2.0 * season / n - brought_in).max(0.0).sqrt()
}

/// Mean temperature of the first month of a course, deg F.
fn first_month(member: &Member) -> f64 {
    let days = member.days.iter().take(MONTH);
    let count = days.len().max(1) as f64;
    days.map(|day| 0.5 * (day.high_f + day.low_f)).sum::<f64>() / count
}

fn variance(values: &[f64]) -> f64 {
    let count = values.len().max(1) as f64;
    let mean = values.iter().sum::<f64>() / count;
    values
        .iter()
        .map(|value| (value - mean) * (value - mean))
        .sum::<f64>()
        / count
}

/// Usual high and low of the date less those of the date the day was taken from.
fn usual_change(course: Option<&YearlyCourse>, date: NaiveDate, moved_days: i64) -> (f64, f64) {
    let source = date.checked_add_signed(chrono::TimeDelta::days(moved_days));
    match (course, source) {
        (Some(course), Some(source)) if moved_days != 0 => {
            let here = course.on(date);
            let there = course.on(source);
            (here.0 - there.0, here.1 - there.1)
        }
        _ => (0.0, 0.0),
    }
}
