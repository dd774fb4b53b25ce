//! Daily weather of two invented stations: ten seasons past, and this one up to
//! the demo's day.

use std::collections::BTreeMap;

use chrono::{Datelike, NaiveDate};

use crate::chance::Chance;
use crate::{YEAR, day, today};

/// First year of the past seasons.
const FIRST_YEAR: i32 = YEAR - 10;

/// The stations, with how much warmer each is than the place's mean, deg F.
pub const STATIONS: [(&str, f64); 2] = [("demo-north", -0.6), ("demo-south", 0.6)];

/// One day at one station.
pub struct Day {
    /// Civil date.
    pub date: NaiveDate,
    /// Highest temperature, deg F.
    pub high: f64,
    /// Lowest temperature, deg F.
    pub low: f64,
    /// Rain, inches.
    pub rain: f64,
    /// Mean relative humidity, percent.
    pub humidity: f64,
}

/// Every station's days, in the order of [`STATIONS`].
pub struct Weather {
    /// Days in order, by station.
    pub stations: Vec<(&'static str, Vec<Day>)>,
}

impl Weather {
    /// Heat units from `from` (not counted) to each later day of this year,
    /// summed: base 50 F, highs capped at 100, lows raised to 50.
    pub fn heat_since(&self, station: &str, from: NaiveDate) -> BTreeMap<NaiveDate, f64> {
        let mut sum = 0.0;
        self.stations
            .iter()
            .filter(|(name, _)| *name == station)
            .flat_map(|(_, days)| days)
            .filter(|day| day.date > from)
            .map(|day| {
                sum += ((day.high.min(100.0) + day.low.max(50.0)) / 2.0 - 50.0).max(0.0);
                (day.date, sum)
            })
            .collect()
    }
}

/// Makes the weather of all stations.
///
/// The region has one sky (anomaly and wet days); the stations differ by a
/// steady offset, a little noise, and showers that miss one of them.
pub fn invent(seed: u64) -> Weather {
    let mut sky = Chance::stream(seed, 1);
    let mut local = Chance::stream(seed, 2);
    let mut stations: Vec<(&'static str, Vec<Day>)> = STATIONS
        .iter()
        .map(|(name, _)| (*name, Vec::new()))
        .collect();
    let (mut anomaly, mut wet, mut year_warmth) = (0.0, false, 0.0);
    for date in day(FIRST_YEAR, 1, 1)
        .iter_days()
        .take_while(|date| *date <= today())
    {
        if date.ordinal() == 1 {
            year_warmth = sky.normal(0.0, 1.4);
        }
        let season = season_wave(date);
        // Weather swings more in winter than in summer, and hangs on from day to day.
        anomaly = 0.68 * anomaly + sky.normal(0.0, 5.2 - 1.6 * season);
        wet = sky.happens(if wet { 0.42 } else { 0.17 + 0.05 * season });
        let mean = 56.0 + 23.5 * season + year_warmth + anomaly + spell(date);
        let half_range = if wet { 8.5 } else { 13.5 } + sky.normal(0.0, 2.0);
        let half_range = half_range.clamp(4.0, 20.0);
        let shower = if wet { sky.exponential(0.34) } else { 0.0 };
        let humidity = 57.0 + if wet { 19.0 } else { 0.0 } - 0.7 * anomaly + sky.normal(0.0, 6.0);
        for ((_, days), (_, offset)) in stations.iter_mut().zip(STATIONS) {
            let high = tenth(mean + half_range + offset + local.normal(0.0, 0.7));
            let low = tenth(mean - half_range + offset + local.normal(0.0, 0.9));
            let missed = local.happens(0.2);
            let here = shower * local.between(0.6, 1.4);
            days.push(Day {
                date,
                high,
                low: low.min(high),
                rain: if missed { 0.0 } else { hundredth(here) },
                humidity: (humidity + local.normal(0.0, 2.0))
                    .clamp(22.0, 98.0)
                    .round(),
            });
        }
    }
    Weather { stations }
}

/// 1 in mid July, -1 in mid January.
fn season_wave(date: NaiveDate) -> f64 {
    let turn = (f64::from(date.ordinal()) - 199.0) / 365.25;
    libm::cos(2.0 * std::f64::consts::PI * turn)
}

/// Two spells written into this year: heat over the bloom of the early
/// plantings, and cold nights while the late one is in the boot.
fn spell(date: NaiveDate) -> f64 {
    if (day(YEAR, 7, 17)..=day(YEAR, 7, 22)).contains(&date) {
        9.0
    } else if (day(YEAR, 8, 19)..=day(YEAR, 8, 23)).contains(&date) {
        -9.0
    } else {
        0.0
    }
}

fn tenth(value: f64) -> f64 {
    (value * 10.0).round() / 10.0
}

fn hundredth(value: f64) -> f64 {
    (value * 100.0).round() / 100.0
}
