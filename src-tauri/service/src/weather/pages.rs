//! What is said between a face and the service about weather and dates.

use chrono::NaiveDate;
use ripening::temperature::TempUnit;
use ripening::weather::Span;
use serde::{Deserialize, Serialize};

use crate::{Place, RefusedRow};

/// A day's weather as typed on the phone.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS), ts(optional_fields = nullable))]
pub struct TypedDay {
    /// Station.
    pub station: String,
    /// The day.
    pub date: NaiveDate,
    /// Unit of high and low.
    pub unit: TempUnit,
    /// High.
    pub high: f64,
    /// Low.
    pub low: f64,
    /// Rain, inches.
    pub rain_in: Option<f64>,
    /// Mean relative humidity, percent.
    pub humidity: Option<f64>,
}

/// A station as a list shows it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct StationRow {
    /// Its name.
    pub name: String,
    /// Where, if known.
    pub place: Option<Place>,
    /// Days held.
    pub days: u32,
    /// First day.
    pub first: Option<NaiveDate>,
    /// Last day.
    pub last: Option<NaiveDate>,
    /// Days filled by rule, when used today.
    pub filled: u32,
    /// Stretches left open.
    pub open: Vec<Span>,
    /// Why its weather cannot be used as it is, if so.
    pub refused: Option<String>,
}

/// A station near a place.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct NearStation {
    /// Its name.
    pub name: String,
    /// Distance, km.
    pub km: f64,
}

/// The stations as a planting may choose among them.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct StationChoice {
    /// The planting's name.
    pub planting: String,
    /// Its field's.
    pub field: Option<String>,
    /// The station that counts now, and why.
    pub chosen: Option<ChosenStation>,
    /// Whether the place of the planting is known (from its stops).
    pub placed: bool,
    /// All stations with weather, the nearest first, those without a place last.
    pub rows: Vec<StationOption>,
}

/// A station that a planting may choose.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct StationOption {
    /// Its name.
    pub name: String,
    /// Distance from the planting, km, where both have a place.
    pub km: Option<f64>,
    /// Last day with weather.
    pub last: Option<NaiveDate>,
}

/// What a weather file holds, and what of it is stored.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct WeatherFileReview {
    /// Stations, with what they hold.
    pub stations: Vec<StationReview>,
    /// Number of rows refused.
    pub refused: u32,
    /// The first of the refused rows, at most 100.
    pub refused_rows: Vec<RefusedRow>,
}

/// What a weather file holds of one station.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct StationReview {
    /// Name it is stored under.
    pub station: String,
    /// Usable rows.
    pub rows: u32,
    /// Of these, already here with the same values; not stored again.
    pub already_here: u32,
    /// First day.
    pub first: NaiveDate,
    /// Last day.
    pub last: NaiveDate,
    /// What the cleaning rules found, the first 100, in one line each.
    pub found: Vec<String>,
    /// How much they found in all.
    pub found_in_all: u32,
}

/// The station used for a planting.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct ChosenStation {
    /// Its name.
    pub name: String,
    /// How it was chosen.
    pub by: ChosenBy,
}

/// How a planting's station was chosen.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
#[serde(tag = "how", rename_all = "snake_case")]
pub enum ChosenBy {
    /// The planting names it.
    Planting,
    /// It was chosen for the planting's field.
    Field,
    /// It is the nearest to the planting's stops.
    Nearest {
        /// Distance, km.
        km: f64,
    },
    /// It is the only one.
    Only,
}

/// The weather stations held.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct StationList {
    /// By name.
    pub rows: Vec<StationRow>,
}

/// Stations with a known place.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct NearStations {
    /// The nearest first.
    pub rows: Vec<NearStation>,
}
