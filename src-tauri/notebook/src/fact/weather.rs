//! Days of weather as a change tells them.

use chrono::NaiveDate;
use ripening::temperature::TempUnit;
use serde::{Deserialize, Serialize};

/// One day as it was read or typed, in a form that keeps a long file short:
/// date, high, low, rain (inches), humidity (percent).
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct WeatherTold(
    /// The day.
    pub NaiveDate,
    /// High.
    pub Option<f64>,
    /// Low.
    pub Option<f64>,
    /// Rain, inches.
    pub Option<f64>,
    /// Mean relative humidity, percent.
    pub Option<f64>,
);

/// Days of one station, in one unit of temperature.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct WeatherDays {
    /// The station's name.
    pub station: String,
    /// Unit of high and low.
    pub unit: TempUnit,
    /// Typed in rather than read from a file.
    #[serde(default, skip_serializing_if = "super::is_false")]
    pub typed: bool,
    /// The days.
    pub days: Vec<WeatherTold>,
}
