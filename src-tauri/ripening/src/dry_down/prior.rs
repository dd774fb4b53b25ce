//! What is known of a planting's dry-down before its own readings.

use serde::{Deserialize, Serialize};

use super::component::Curve;

/// Mean moisture at black layer, percent: 14 % plus the published 23 days at
/// the published 0.76 point a day.
pub const BLACK_LAYER_MOISTURE: f64 = 31.5;

/// Spread of moisture at black layer between plantings, points: published
/// ranges run from 25 to 35 %.
pub const BLACK_LAYER_MOISTURE_SD: f64 = 2.0;

/// Mean published rate after black layer, points a day.
pub const PUBLISHED_RATE: f64 = 0.76;

/// Spread of the logarithm of the rate between plantings. Twenty hybrids lay
/// between 0.64 and 0.99: 3.7 standard deviations of a normal sample of twenty,
/// or 0.117; half as much again for places and seasons that the study did not see.
pub const RATE_LOG_SD: f64 = 0.175;

/// Grain before black layer loses about this much a day, points: from 50-60 %
/// at hard dough about 15 days earlier.
pub(super) const EARLIER_LOSS: f64 = 1.5;
/// How unsure that is, points for each day before black layer.
pub(super) const EARLIER_LOSS_SD: f64 = 0.5;

/// Moisture of grain of which nothing is known but that someone metered it.
pub(super) const UNKNOWN_MOISTURE: f64 = 25.0;
/// Its spread: wide, so that the first reading decides.
pub(super) const UNKNOWN_MOISTURE_SD: f64 = 12.0;

/// Prior of the rate, under the reference weather.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct RatePrior {
    /// Median, points a day from black layer to 14 %, under the reference weather.
    pub median: f64,
    /// Standard deviation of its logarithm.
    pub log_sd: f64,
}

impl Default for RatePrior {
    fn default() -> RatePrior {
        RatePrior {
            median: PUBLISHED_RATE,
            log_sd: RATE_LOG_SD,
        }
    }
}

/// How drying falls off near equilibrium, with how much each form is believed.
/// The study reports straight lines; thin layers of grain follow something
/// nearer an exponential; so both ends are carried and the readings judge.
pub(super) const CURVES: [(Curve, f64); 3] = [
    (
        Curve {
            half: 1.0,
            factor: 1.5533,
        },
        0.35,
    ),
    (
        Curve {
            half: 4.0,
            factor: 2.1666,
        },
        0.40,
    ),
    (
        Curve {
            half: 12.0,
            factor: 3.8725,
        },
        0.25,
    ),
];
