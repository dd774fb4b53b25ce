//! Moisture readings from the field.

use chrono::NaiveDate;
use serde::{Deserialize, Serialize};

/// What a reading was made with.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum Meter {
    /// A hand meter.
    Hand,
    /// A bench meter, as a buyer has.
    Bench,
    /// Oven, 130 C for 18 h (ASABE S352).
    Oven,
}

impl Meter {
    /// How far a meter is off for good, standard deviation in points. Hand and
    /// bench: common practice; oven: replicates agree within 0.2 point.
    pub(super) fn bias_sd(self) -> f64 {
        match self {
            Meter::Hand => 0.7,
            Meter::Bench => 0.3,
            Meter::Oven => 0.1,
        }
    }
}

/// Samples metered on one day with one meter, each from its own spot.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct MoistureReading {
    /// The day.
    pub on: NaiveDate,
    /// Kind of meter.
    pub meter: Meter,
    /// Which one, in the crew's words: readings of one meter share its error.
    pub meter_name: String,
    /// How far that meter is off for good, standard deviation in points, where
    /// the crew knows it (checked against an oven, say); else that of its kind.
    pub meter_error: Option<f64>,
    /// Percent wet basis, one for each sample.
    pub percents: Vec<f64>,
}

/// Scatter of single samples over a field, points (common practice).
const SAMPLE_SD: f64 = 0.8;
/// Samples that this prior scatter counts for.
const SAMPLE_PRIOR: f64 = 4.0;
/// Hand and bench meters lose their grip above this moisture.
const METER_REACH: f64 = 25.0;
/// Extra error for each point above it (common practice).
const BEYOND_REACH_SD: f64 = 0.1;

impl MoistureReading {
    /// Whether the numbers can be.
    pub fn usable(&self) -> bool {
        self.meter_error.is_none_or(|sd| (0.05..=5.0).contains(&sd))
            && (1..=30).contains(&self.percents.len())
            && self.percents.iter().all(|m| (3.0..=70.0).contains(m))
    }

    /// Standard deviation of the meter's own lasting error, points.
    pub(super) fn bias_sd(&self) -> f64 {
        self.meter_error.unwrap_or(self.meter.bias_sd())
    }

    /// Mean of the samples, percent.
    pub fn mean(&self) -> f64 {
        self.percents.iter().sum::<f64>() / self.percents.len() as f64
    }

    /// Variance of the mean apart from the meter's own lasting error.
    pub(super) fn variance(&self) -> f64 {
        let count = self.percents.len() as f64;
        let mean = self.mean();
        let squares: f64 = self.percents.iter().map(|m| (m - mean) * (m - mean)).sum();
        let scatter =
            (SAMPLE_PRIOR * SAMPLE_SD * SAMPLE_SD + squares) / (SAMPLE_PRIOR + count - 1.0);
        let beyond = match self.meter {
            Meter::Oven => 0.0,
            Meter::Hand | Meter::Bench => BEYOND_REACH_SD * (mean - METER_REACH).max(0.0),
        };
        scatter / count + beyond * beyond
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn reading(percents: &[f64]) -> MoistureReading {
        MoistureReading {
            on: NaiveDate::from_ymd_opt(2025, 9, 20).unwrap(),
            meter: Meter::Hand,
            meter_name: "truck".to_owned(),
            meter_error: None,
            percents: percents.to_vec(),
        }
    }

    #[test]
    fn repeats_narrow_and_scatter_widens() {
        let one = reading(&[18.0]).variance();
        let four = reading(&[18.0, 18.5, 17.5, 18.0]).variance();
        let wild = reading(&[18.0, 22.0, 14.0, 18.0]).variance();
        assert!(four < 0.5 * one && wild > four);
        assert!((one - 0.64).abs() < 1e-12);
    }

    #[test]
    fn impossible_samples_are_not_usable() {
        assert!(!reading(&[]).usable());
        assert!(!reading(&[18.0, 0.0]).usable());
        assert!(!reading(&[f64::NAN]).usable());
        assert!(reading(&[18.0]).usable());
    }
}
