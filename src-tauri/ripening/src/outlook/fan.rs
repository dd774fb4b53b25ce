//! The stage line over dates: where the planting was, is and will be.

use chrono::NaiveDate;
use serde::{Deserialize, Serialize};

use super::need::{Need, half_bloom_age};
use super::pace::PaceBelief;
use super::season::Season;
use super::season_end::SeasonEnd;
use super::timing::{Timing, need_of_age};
use super::track::Track;
use crate::rollup::marks::age_at;

/// Where a planting stands on one day.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct FanDay {
    /// The day (evening).
    pub date: NaiveDate,
    /// Position on the published 0-9 scale that it has passed with 90, 50 and 10
    /// chances in 100: the lower end, the middle and the upper end.
    pub low: f64,
    /// See `low`.
    pub mid: f64,
    /// See `low`.
    pub high: f64,
    /// The day lies ahead.
    pub ahead: bool,
}

/// Positions told apart: 5.0 to 9.0 by tenths.
const TENTHS: usize = 41;

/// Every `every`-th day from the first day with weather to the horizon, from the
/// day the planting may have reached boot to the day it is at black layer.
pub fn position_fan(
    season: &Season,
    track: &Track,
    belief: &PaceBelief,
    every: usize,
) -> Vec<FanDay> {
    let span = -2.0 * half_bloom_age();
    let position = |tenth: usize| 5.0 + tenth as f64 / 10.0;
    let season_end = SeasonEnd::of(season, track, belief);
    let timings: Vec<Timing> = (0..TENTHS)
        .map(|tenth| {
            let need: Need = need_of_age(track, belief, age_at(position(tenth), span));
            Timing::of_need(season, &season_end, &need)
        })
        .collect();
    let end = season.end();
    let last = season.date_ahead(
        season
            .ensemble()
            .map_or(0, crate::weather::WeatherEnsemble::length),
    );
    let mut fan = Vec::new();
    for date in season.unbroken_from().iter_days().step_by(every.max(1)) {
        if date > last {
            break;
        }
        let passed: Vec<f64> = timings
            .iter()
            .map(|timing| timing.chance_by(date).unwrap_or(0.0))
            .collect();
        let upper_end = highest_passed(&passed, 0.1);
        if upper_end == 0.0 && passed.first().is_none_or(|&chance| chance < 0.1) {
            continue;
        }
        let day = FanDay {
            date,
            low: 5.0 + highest_passed(&passed, 0.9) / 10.0,
            mid: 5.0 + highest_passed(&passed, 0.5) / 10.0,
            high: 5.0 + upper_end / 10.0,
            ahead: date > end,
        };
        fan.push(day);
        if day.low >= 9.0 {
            break;
        }
    }
    fan
}

/// The tenth (with its part) up to which the chance is at least `p`; chances fall
/// along the line.
fn highest_passed(passed: &[f64], p: f64) -> f64 {
    let place = passed.iter().take_while(|&&chance| chance >= p).count();
    let Some(last) = place.checked_sub(1) else {
        return 0.0;
    };
    match (passed.get(last), passed.get(place)) {
        (Some(&above), Some(&below)) if above > below => {
            last as f64 + (above - p) / (above - below)
        }
        _ => last as f64,
    }
}
