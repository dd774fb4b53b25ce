//! Why something cannot be said.

use chrono::NaiveDate;
use serde::{Deserialize, Serialize};
use thiserror::Error;

use crate::weather::NoEnsemble;

/// Why a date, or a whole outlook, is missing.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, Error)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case", tag = "code")]
pub enum Why {
    /// The planting date lies after the day the outlook is made for.
    #[error("planted on {planted_on}, after the day of the outlook")]
    NotPlantedYet {
        /// The planting date.
        planted_on: NaiveDate,
    },
    /// Neither a planting date nor a walk.
    #[error("there is neither a planting date nor a walk up to the day of the outlook")]
    NothingToStartFrom,
    /// No weather up to the day of the outlook.
    #[error("there is no weather up to the day of the outlook")]
    NoWeather,
    /// The heat since planting is not known and no walk stands in for it.
    #[error(
        "the weather does not reach from planting to now without a gap (open from {open_from}), and there is no walk after the gap"
    )]
    HeatUnknown {
        /// First day without weather.
        open_from: NaiveDate,
    },
    /// The weather ends too long before the day of the outlook or the last walk.
    #[error("the weather ends on {ends_on}: bring it up to date")]
    WeatherEndsEarly {
        /// Last day of weather.
        ends_on: NaiveDate,
    },
    /// No past season to take the days ahead from.
    #[error("the days ahead cannot be told: {cause}")]
    NoDaysAhead {
        /// Why not.
        cause: NoEnsemble,
    },
    /// In too many of the possible seasons it does not come before they end.
    #[error(
        "in {in_hundred} of 100 possible seasons it does not come before a killing freeze or {horizon}"
    )]
    NotBefore {
        /// Last day looked at.
        horizon: NaiveDate,
        /// Seasons in a hundred in which it does not come.
        in_hundred: u32,
    },
    /// It lies before the first day with weather.
    #[error("it came before the weather begins")]
    BeforeWeather,
    /// Not forecast for this planting.
    #[error("no grain moisture is forecast for this planting")]
    NoGrain,
    /// The weather cannot drive the drying of grain.
    #[error("the dry-down cannot be told: {cause}")]
    NoDryDown {
        /// Why not.
        cause: String,
    },
}
