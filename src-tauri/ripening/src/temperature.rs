//! Degrees Fahrenheit and Celsius.

use serde::{Deserialize, Serialize};

/// Unit of a temperature, and so of the heat units counted in it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum TempUnit {
    /// Degrees Fahrenheit.
    Fahrenheit,
    /// Degrees Celsius.
    Celsius,
}

/// Degrees Fahrenheit to degrees Celsius.
pub fn celsius_from_fahrenheit(f: f64) -> f64 {
    (f - 32.0) / 1.8
}

/// Degrees Celsius to degrees Fahrenheit.
pub fn fahrenheit_from_celsius(c: f64) -> f64 {
    c * 1.8 + 32.0
}
