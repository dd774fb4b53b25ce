//! One day's weather, and the days of a station in order.

use chrono::NaiveDate;
use serde::{Deserialize, Serialize};

/// One day's weather. Temperatures are always there; the rest where known.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct Day {
    /// The day.
    pub date: NaiveDate,
    /// Highest temperature, deg F.
    pub high_f: f64,
    /// Lowest temperature, deg F; never above the high.
    pub low_f: f64,
    /// Rain, inches.
    pub rain_in: Option<f64>,
    /// Mean relative humidity, percent.
    pub humidity: Option<f64>,
    /// The temperatures were not read but filled by rule.
    pub filled: bool,
}

impl Day {
    /// Mean of high and low, deg F.
    pub fn mean_f(&self) -> f64 {
        (self.high_f + self.low_f) / 2.0
    }
}

/// A stretch of days, both ends counted.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct Span {
    /// First day.
    pub from: NaiveDate,
    /// Last day.
    pub to: NaiveDate,
}

impl Span {
    /// Days in it.
    pub fn days(&self) -> i64 {
        (self.to - self.from).num_days() + 1
    }
}

/// The days of one station, each date at most once, in order. There may be
/// gaps.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct WeatherRecord {
    days: Vec<Day>,
}

impl WeatherRecord {
    /// No day at all.
    pub const fn empty() -> WeatherRecord {
        WeatherRecord { days: Vec::new() }
    }

    /// From days in any order; of several with one date the last is kept.
    pub fn from_days(mut days: Vec<Day>) -> WeatherRecord {
        days.sort_by_key(|day| day.date);
        let mut kept: Vec<Day> = Vec::with_capacity(days.len());
        for day in days {
            match kept.last_mut() {
                Some(last) if last.date == day.date => *last = day,
                _ => kept.push(day),
            }
        }
        WeatherRecord { days: kept }
    }

    /// All days, in order.
    pub fn days(&self) -> &[Day] {
        &self.days
    }

    /// The day of that date.
    pub fn on(&self, date: NaiveDate) -> Option<&Day> {
        let place = self.days.binary_search_by_key(&date, |day| day.date).ok()?;
        self.days.get(place)
    }

    /// The days from `from` to `to`, both counted.
    pub fn between(&self, from: NaiveDate, to: NaiveDate) -> &[Day] {
        let start = self.days.partition_point(|day| day.date < from);
        let end = self.days.partition_point(|day| day.date <= to);
        self.days.get(start..end).unwrap_or(&[])
    }

    /// First and last day.
    pub fn span(&self) -> Option<Span> {
        Some(Span {
            from: self.days.first()?.date,
            to: self.days.last()?.date,
        })
    }

    /// The same record with nothing later than `last`.
    pub fn until(&self, last: NaiveDate) -> WeatherRecord {
        let end = self.days.partition_point(|day| day.date <= last);
        WeatherRecord {
            days: self.days.iter().take(end).copied().collect(),
        }
    }

    /// Stretches without a day between the first and the last.
    pub fn gaps(&self) -> Vec<Span> {
        self.days
            .windows(2)
            .filter_map(|pair| match pair {
                [a, b] if (b.date - a.date).num_days() > 1 => Some(Span {
                    from: a.date.succ_opt()?,
                    to: b.date.pred_opt()?,
                }),
                _ => None,
            })
            .collect()
    }
}
