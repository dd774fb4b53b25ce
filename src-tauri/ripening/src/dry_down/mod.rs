//! Dry-down: from black layer, or from any moisture reading, to the moistures
//! that harvest waits for.
//!
//! A day takes from the grain a share of what it holds above its equilibrium
//! with the air; how large a share depends on the pull of the air, on the
//! planting's own rate, and on how the rate falls off near equilibrium. The
//! rate starts from the published 0.64-0.99 (mean 0.76) point a day after black
//! layer (Kansas Agric. Exp. Stn Research Reports 7(5) art. 6, 2021) and is
//! learned from hand-meter readings. Rain and damp air put water back.

mod component;
mod day;
mod filter;
mod normal;
mod paths;
mod prior;
mod reading;
mod windows;

pub use day::{DryingDay, REFERENCE_WEATHER, ReferenceDay};
pub use filter::{DryDown, DryDownInput, DryDownNow, PastDays, ReadingFit, dry_down};
pub use paths::{MoisturePaths, Scenario};
pub use prior::{
    BLACK_LAYER_MOISTURE, BLACK_LAYER_MOISTURE_SD, PUBLISHED_RATE, RATE_LOG_SD, RatePrior,
};
pub use reading::{Meter, MoistureReading};
pub(crate) use windows::band;
pub use windows::{MoistureDay, MoistureWindow, TARGETS, Window};

use thiserror::Error;

/// Why there is no dry-down answer.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum DryDownError {
    /// No date of black layer and no moisture reading up to the day asked for.
    #[error(
        "no date of black layer and no moisture reading: read the moisture once, or walk the heads"
    )]
    NothingToStartFrom,
    /// No weather for the days ahead.
    #[error("no weather for the days ahead: add past seasons of a station nearby")]
    NoWeatherAhead,
    /// A black layer date with a weight that is negative or no number, or all zero.
    #[error("the weights of the black layer dates are not usable")]
    BadWeights,
    /// A reading that cannot be.
    #[error("moisture reading of {0}: use 1 to 30 readings from 3 to 70 percent")]
    BadReading(chrono::NaiveDate),
}
