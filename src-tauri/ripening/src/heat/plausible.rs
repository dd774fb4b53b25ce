//! Whether a set makes sense for sorghum: base, upper limit, method and table
//! held together against what is published.

use super::daily::Method;
use super::mark::Mark;
use super::scale::{HeatError, HeatScale};
use crate::temperature::{TempUnit, celsius_from_fahrenheit};

/// An ordinary summer day, deg F: high and low.
const SUMMER_DAY_F: (f64, f64) = (86.0, 64.0);
/// Days of that kind from planting to half bloom that a table may give. Half bloom
/// is published at 60 days from emergence (Vanderlip & Reeves 1972); the published
/// sets give 56 to 80 such days.
const DAYS_TO_HALF_BLOOM: (f64, f64) = (40.0, 95.0);
/// Such days from half bloom to black layer. Published: 35 days (the same); the
/// published sets give 21 to 55.
const DAYS_TO_BLACK_LAYER: (f64, f64) = (15.0, 70.0);
/// Base temperatures, deg F: every published sorghum table here has 50.
const BASES_F: (f64, f64) = (39.0, 61.0);
/// Upper limits, deg F: the published ones are 86 and 100.
const UPPERS_F: (f64, f64) = (80.0, 115.0);
/// Shares of the way from half bloom to black layer: soft dough is published at
/// 0.23 to 0.44, hard dough at 0.56 to 0.80.
const SOFT_DOUGH_SHARE: (f64, f64) = (0.10, 0.55);
const HARD_DOUGH_SHARE: (f64, f64) = (0.45, 0.92);

impl HeatScale {
    /// Whether the set could be one for sorghum.
    ///
    /// # Errors
    /// [`HeatError`] naming the first thing that could not be.
    pub fn check_for_sorghum(&self) -> Result<(), HeatError> {
        let name = || self.name().to_owned();
        let in_unit = |f: f64| match self.unit() {
            TempUnit::Fahrenheit => f,
            TempUnit::Celsius => celsius_from_fahrenheit(f),
        };
        let within = |value: f64, (low, high): (f64, f64)| (low..=high).contains(&value);
        let limits = |(low, high): (f64, f64)| (in_unit(low), in_unit(high));
        if !within(self.base(), limits(BASES_F)) {
            let (low, high) = limits(BASES_F);
            return Err(HeatError::BaseUnlikely(name(), self.base(), low, high));
        }
        // A plain mean knows no upper limit.
        if self.method() != Method::PlainMean && !within(self.upper(), limits(UPPERS_F)) {
            let (low, high) = limits(UPPERS_F);
            return Err(HeatError::UpperUnlikely(name(), self.upper(), low, high));
        }
        let a_day = self.method().day(
            in_unit(SUMMER_DAY_F.0),
            in_unit(SUMMER_DAY_F.1),
            self.base(),
            self.upper(),
        );
        for table in self.tables() {
            let column = || table.maturity.clone();
            let (Some(bloom), Some(way)) = (
                table.at(Mark::HalfBloom),
                table.from_half_bloom(Mark::BlackLayer),
            ) else {
                return Err(HeatError::MarkMissing(name(), column()));
            };
            let days = bloom / a_day;
            if !within(days, DAYS_TO_HALF_BLOOM) {
                return Err(HeatError::HalfBloomUnlikely(name(), column(), days.round()));
            }
            let days = way / a_day;
            if !within(days, DAYS_TO_BLACK_LAYER) {
                return Err(HeatError::BlackLayerUnlikely(
                    name(),
                    column(),
                    days.round(),
                ));
            }
            for (mark, limits, what) in [
                (Mark::SoftDough, SOFT_DOUGH_SHARE, "soft dough"),
                (Mark::HardDough, HARD_DOUGH_SHARE, "hard dough"),
            ] {
                if let Some(past) = table.from_half_bloom(mark)
                    && !within(past / way, limits)
                {
                    let percent = (100.0 * past / way).round();
                    return Err(HeatError::MarkUnlikely(name(), column(), what, percent));
                }
            }
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::heat::{MarkAt, MarkTable, published_scales};

    #[test]
    fn published_sets_make_sense() {
        for scale in published_scales() {
            assert_eq!(scale.check_for_sorghum(), Ok(()), "{}", scale.name());
        }
    }

    fn set(
        (unit, base, upper): (TempUnit, f64, f64),
        marks: &[(Mark, f64)],
    ) -> Result<(), HeatError> {
        let marks = marks
            .iter()
            .map(|&(mark, units)| MarkAt { mark, units })
            .collect();
        let table = MarkTable {
            maturity: "ours".to_owned(),
            marks,
        };
        HeatScale::new(
            "ours",
            "us",
            (unit, base, upper, Method::BothLimits),
            vec![table],
        )
        .and_then(|scale| scale.check_for_sorghum())
    }

    /// The default table's figures, each put where it does not belong.
    #[test]
    fn daft_sets_are_refused() {
        let marks = [(Mark::HalfBloom, 1440.0), (Mark::BlackLayer, 2556.0)];
        let f = |base, upper| (TempUnit::Fahrenheit, base, upper);
        assert_eq!(set(f(50.0, 100.0), &marks), Ok(()));
        assert!(matches!(
            set(f(10.0, 38.0), &marks),
            Err(HeatError::BaseUnlikely(..))
        ));
        assert!(matches!(
            set(f(50.0, 60.0), &marks),
            Err(HeatError::UpperUnlikely(..))
        ));
        // Fahrenheit units with Celsius limits.
        assert!(matches!(
            set((TempUnit::Celsius, 10.0, 38.0), &marks),
            Err(HeatError::HalfBloomUnlikely(..))
        ));
        // Counted from emergence to bloom and from bloom on, not from planting.
        assert!(matches!(
            set(
                f(50.0, 100.0),
                &[(Mark::HalfBloom, 1440.0), (Mark::BlackLayer, 1500.0)]
            ),
            Err(HeatError::BlackLayerUnlikely(..))
        ));
        assert!(matches!(
            set(
                f(50.0, 100.0),
                &[
                    (Mark::HalfBloom, 1440.0),
                    (Mark::SoftDough, 2400.0),
                    (Mark::BlackLayer, 2556.0),
                ]
            ),
            Err(HeatError::MarkUnlikely(..))
        ));
    }
}
