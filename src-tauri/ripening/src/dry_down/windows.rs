//! When the grain will be dry enough, and the fan of its moisture.

use chrono::NaiveDate;
use serde::{Deserialize, Serialize};

use super::paths::MoisturePaths;
use crate::Band;

/// Moistures that harvest commonly waits for, percent.
pub const TARGETS: [f64; 4] = [20.0, 18.0, 16.0, 14.0];

/// Dates by which something has happened with probability 0.1, 0.5 and 0.9;
/// absent where that is beyond the days ahead.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct Window {
    /// One chance in ten that it is earlier.
    pub p10: Option<NaiveDate>,
    /// As likely earlier as later.
    pub p50: Option<NaiveDate>,
    /// One chance in ten that it is later.
    pub p90: Option<NaiveDate>,
}

/// The window of a target moisture.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct MoistureWindow {
    /// The target, percent wet basis.
    pub target: f64,
    /// First day at or below it; today where it is so already.
    pub window: Window,
    /// Probability that it is at or below today.
    pub today: f64,
    /// Probability that it gets there within the days looked ahead.
    pub ahead: f64,
}

/// Moisture on one day ahead, P10, P50 and P90.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct MoistureDay {
    /// The day.
    pub date: NaiveDate,
    /// Percent wet basis, 80 % level.
    pub moisture: Band,
}

impl MoisturePaths {
    /// First day, counted from today, at which each share of the courses has
    /// come down to `target`.
    pub fn window(&self, target: f64) -> MoistureWindow {
        let mut firsts = vec![0_usize; self.days()];
        for scenario in 0..self.scenarios().len() {
            let first = self.course(scenario).iter().position(|&m| m <= target);
            if let Some(count) = first.and_then(|day| firsts.get_mut(day)) {
                *count += 1;
            }
        }
        let all = self.scenarios().len() as f64;
        let by = |probability: f64| {
            let mut sum = 0;
            firsts
                .iter()
                .position(|&count| {
                    sum += count;
                    sum as f64 >= probability * all
                })
                .map(|day| self.date(day))
        };
        MoistureWindow {
            target,
            window: Window {
                p10: by(0.1),
                p50: by(0.5),
                p90: by(0.9),
            },
            today: firsts.first().map_or(0.0, |&count| count as f64 / all),
            ahead: firsts.iter().sum::<usize>() as f64 / all,
        }
    }

    /// The fan of moisture, day by day from today.
    pub fn fan(&self) -> Vec<MoistureDay> {
        (0..self.days())
            .map(|day| {
                let mut values: Vec<f64> = (0..self.scenarios().len())
                    .filter_map(|scenario| self.course(scenario).get(day).copied())
                    .collect();
                MoistureDay {
                    date: self.date(day),
                    moisture: band(&mut values),
                }
            })
            .collect()
    }
}

/// P10, P50 and P90 of equally likely values.
pub(crate) fn band(values: &mut [f64]) -> Band {
    values.sort_unstable_by(f64::total_cmp);
    Band {
        low: sorted_quantile(values, 0.1),
        mid: sorted_quantile(values, 0.5),
        high: sorted_quantile(values, 0.9),
    }
}

/// Quantile of sorted, equally likely values, between neighbors in proportion.
fn sorted_quantile(sorted: &[f64], probability: f64) -> f64 {
    let place = (probability * sorted.len() as f64 - 0.5).clamp(0.0, sorted.len() as f64 - 1.0);
    let below = place.floor();
    let index = below as usize;
    match (sorted.get(index), sorted.get(index + 1)) {
        (Some(&low), Some(&high)) => low + (place - below) * (high - low),
        (Some(&only), None) => only,
        _ => f64::NAN,
    }
}
