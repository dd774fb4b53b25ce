//! A named set: base, upper limit, method and mark tables that belong together.

use serde::{Deserialize, Serialize};
use thiserror::Error;

use super::daily::Method;
use super::mark::{Mark, MarkTable};
use crate::temperature::{TempUnit, celsius_from_fahrenheit};
use crate::weather::Day;

/// A heat scale. Its parts are fixed together when it is made, so a sum can
/// never be held against the marks of another scale.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
#[serde(try_from = "UncheckedScale")]
pub struct HeatScale {
    name: String,
    source: String,
    unit: TempUnit,
    base: f64,
    upper: f64,
    method: Method,
    tables: Vec<MarkTable>,
}

/// Why a heat scale was refused.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum HeatError {
    /// No name.
    #[error("a heat scale needs a name")]
    NoName,
    /// Base not below the upper limit, or one of them no number.
    #[error("heat scale '{0}': the base must be below the upper limit")]
    Limits(String),
    /// No table.
    #[error("heat scale '{0}' has no table of marks: give at least half bloom and black layer")]
    NoTable(String),
    /// A table without half bloom or black layer.
    #[error("heat scale '{0}', table '{1}': give at least half bloom and black layer")]
    MarkMissing(String, String),
    /// Units do not rise from mark to mark.
    #[error("heat scale '{0}', table '{1}': units must rise from mark to mark")]
    NotRising(String, String),
    /// A base that no sorghum table has.
    #[error(
        "heat scale '{0}': a base of {1} is unlikely for sorghum; use {2:.0} to {3:.0}, or the other unit"
    )]
    BaseUnlikely(String, f64, f64, f64),
    /// An upper limit that no sorghum table has.
    #[error(
        "heat scale '{0}': an upper limit of {1} is unlikely for sorghum; use {2:.0} to {3:.0}, or the other unit"
    )]
    UpperUnlikely(String, f64, f64, f64),
    /// Half bloom too soon or too late.
    #[error(
        "heat scale '{0}', table '{1}': half bloom would take {2} ordinary summer days from planting, sorghum takes 40 to 95; check the unit and that units count from planting"
    )]
    HalfBloomUnlikely(String, String, f64),
    /// Black layer too soon or too late after half bloom.
    #[error(
        "heat scale '{0}', table '{1}': black layer would come {2} ordinary summer days after half bloom, sorghum takes 15 to 70; check the unit and that units count from planting"
    )]
    BlackLayerUnlikely(String, String, f64),
    /// A mark out of its place.
    #[error(
        "heat scale '{0}', table '{1}': {2} at {3} % of the heat from half bloom to black layer is out of its place; check its units"
    )]
    MarkUnlikely(String, String, &'static str, f64),
}

impl HeatScale {
    /// Puts a set together.
    ///
    /// # Errors
    /// [`HeatError`] when the limits or a table make no sense.
    pub fn new(
        name: impl Into<String>,
        source: impl Into<String>,
        (unit, base, upper, method): (TempUnit, f64, f64, Method),
        tables: Vec<MarkTable>,
    ) -> Result<HeatScale, HeatError> {
        let name = name.into();
        if name.trim().is_empty() {
            return Err(HeatError::NoName);
        }
        if !(base.is_finite() && upper.is_finite() && base < upper) {
            return Err(HeatError::Limits(name));
        }
        if tables.is_empty() {
            return Err(HeatError::NoTable(name));
        }
        for table in &tables {
            if table.at(Mark::HalfBloom).is_none() || table.at(Mark::BlackLayer).is_none() {
                return Err(HeatError::MarkMissing(name, table.maturity.clone()));
            }
            let rising = table.marks.windows(2).all(|pair| match pair {
                [a, b] => a.mark < b.mark && a.units < b.units,
                _ => true,
            });
            let sound = table
                .marks
                .iter()
                .all(|entry| entry.units.is_finite() && entry.units > 0.0);
            if !(rising && sound) {
                return Err(HeatError::NotRising(name, table.maturity.clone()));
            }
        }
        Ok(HeatScale {
            name,
            source: source.into(),
            unit,
            base,
            upper,
            method,
            tables,
        })
    }

    /// Puts a set together unchecked: for the published sets, which a test
    /// takes through [`HeatScale::new`].
    pub(super) fn assume_sound(
        name: &str,
        source: &str,
        (unit, base, upper, method): (TempUnit, f64, f64, Method),
        tables: Vec<MarkTable>,
    ) -> HeatScale {
        HeatScale {
            name: name.to_owned(),
            source: source.to_owned(),
            unit,
            base,
            upper,
            method,
            tables,
        }
    }

    /// Name of the set.
    pub fn name(&self) -> &str {
        &self.name
    }

    /// Where the table is published, or who made it.
    pub fn source(&self) -> &str {
        &self.source
    }

    /// Unit of base, upper limit and heat units.
    pub fn unit(&self) -> TempUnit {
        self.unit
    }

    /// Base temperature, in [`HeatScale::unit`].
    pub fn base(&self) -> f64 {
        self.base
    }

    /// Upper limit, in [`HeatScale::unit`].
    pub fn upper(&self) -> f64 {
        self.upper
    }

    /// How a day is counted.
    pub fn method(&self) -> Method {
        self.method
    }

    /// The tables, one for each maturity class, earliest first.
    pub fn tables(&self) -> &[MarkTable] {
        &self.tables
    }

    /// Heat units of one day, in this scale's unit.
    pub fn day(&self, day: &Day) -> f64 {
        let (high, low) = match self.unit {
            TempUnit::Fahrenheit => (day.high_f, day.low_f),
            TempUnit::Celsius => (
                celsius_from_fahrenheit(day.high_f),
                celsius_from_fahrenheit(day.low_f),
            ),
        };
        self.method.day(high, low, self.base, self.upper)
    }

    /// Mean over the maturity classes of the units from planting to half bloom.
    pub fn mean_to_half_bloom(&self) -> f64 {
        self.mean_of(|table| table.at(Mark::HalfBloom))
    }

    /// Mean over the maturity classes of the units from half bloom to black layer.
    pub fn mean_half_bloom_to_black_layer(&self) -> f64 {
        self.mean_of(|table| table.from_half_bloom(Mark::BlackLayer))
    }

    fn mean_of(&self, value: impl Fn(&MarkTable) -> Option<f64>) -> f64 {
        let mut sum = 0.0;
        let mut count = 0.0;
        for units in self.tables.iter().filter_map(value) {
            sum += units;
            count += 1.0;
        }
        sum / count
    }
}

#[derive(Deserialize)]
struct UncheckedScale {
    name: String,
    source: String,
    unit: TempUnit,
    base: f64,
    upper: f64,
    method: Method,
    tables: Vec<MarkTable>,
}

impl TryFrom<UncheckedScale> for HeatScale {
    type Error = HeatError;
    fn try_from(scale: UncheckedScale) -> Result<HeatScale, HeatError> {
        HeatScale::new(
            scale.name,
            scale.source,
            (scale.unit, scale.base, scale.upper, scale.method),
            scale.tables,
        )
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::heat::MarkAt;

    fn table(marks: &[(Mark, f64)]) -> Vec<MarkTable> {
        vec![MarkTable {
            maturity: "one".to_owned(),
            marks: marks
                .iter()
                .map(|&(mark, units)| MarkAt { mark, units })
                .collect(),
        }]
    }

    #[test]
    fn a_set_that_makes_no_sense_is_refused() {
        let limits = (TempUnit::Fahrenheit, 50.0, 100.0, Method::BothLimits);
        let good = [(Mark::HalfBloom, 1500.0), (Mark::BlackLayer, 2600.0)];
        assert!(HeatScale::new("ours", "us", limits, table(&good)).is_ok());
        assert_eq!(
            HeatScale::new(" ", "us", limits, table(&good)),
            Err(HeatError::NoName)
        );
        assert_eq!(
            HeatScale::new(
                "ours",
                "us",
                (TempUnit::Fahrenheit, 100.0, 100.0, Method::BothLimits),
                table(&good)
            ),
            Err(HeatError::Limits("ours".to_owned()))
        );
        assert_eq!(
            HeatScale::new("ours", "us", limits, Vec::new()),
            Err(HeatError::NoTable("ours".to_owned()))
        );
        assert!(matches!(
            HeatScale::new("ours", "us", limits, table(&good[..1])),
            Err(HeatError::MarkMissing(..))
        ));
        let falling = [(Mark::HalfBloom, 1500.0), (Mark::BlackLayer, 1400.0)];
        assert!(matches!(
            HeatScale::new("ours", "us", limits, table(&falling)),
            Err(HeatError::NotRising(..))
        ));
    }

    #[test]
    fn a_stored_set_is_checked_when_read() {
        let scale = crate::heat::us_50_100();
        let text = serde_json::to_string(&scale).unwrap();
        assert_eq!(serde_json::from_str::<HeatScale>(&text).unwrap(), scale);
        let bad = text.replace("\"base\":50.0", "\"base\":150.0");
        assert!(serde_json::from_str::<HeatScale>(&bad).is_err());
    }
}
