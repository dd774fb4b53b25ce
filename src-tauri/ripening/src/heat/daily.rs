//! One day's heat from its high and its low.

use serde::{Deserialize, Serialize};

/// How a day's high and low become one day's heat.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum Method {
    /// High lowered to the upper limit, low raised to the base, mean less
    /// base. The way of the Kansas and Texas sorghum tables; that the low is
    /// raised too is stated for corn and taken over for sorghum from memory.
    BothLimits,
    /// High lowered to the upper limit, low as it is, mean less base.
    UpperLimitOnly,
    /// Mean of high and low as they are, less base.
    PlainMean,
}

impl Method {
    /// Heat units of one day, never below 0. All four in the same unit.
    pub fn day(self, high: f64, low: f64, base: f64, upper: f64) -> f64 {
        let (high, low) = match self {
            // Both ends within both limits: a low above the upper limit counts
            // as the upper limit, a high below the base as the base.
            Method::BothLimits => (high.min(upper).max(base), low.max(base).min(upper)),
            Method::UpperLimitOnly => (high.min(upper), low.min(upper)),
            Method::PlainMean => (high, low),
        };
        ((high + low) / 2.0 - base).max(0.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Worked days for base 50, upper 100 (K-State and Texas sorghum sheets;
    /// 72/48 is Iowa State's worked corn day, which gives the same here; 70/50
    /// Iowa State).
    #[test]
    fn worked_days() {
        for (high, low, units) in [
            (95.0, 65.0, 30.0),
            (105.0, 70.0, 35.0),
            (112.0, 102.0, 50.0),
            (80.0, 45.0, 15.0),
            (48.0, 35.0, 0.0),
            (72.0, 48.0, 11.0),
            (70.0, 50.0, 10.0),
        ] {
            assert_eq!(
                Method::BothLimits.day(high, low, 50.0, 100.0),
                units,
                "{high}/{low}"
            );
        }
    }

    #[test]
    fn methods_differ_where_they_should() {
        assert_eq!(Method::UpperLimitOnly.day(80.0, 45.0, 50.0, 100.0), 12.5);
        assert_eq!(Method::PlainMean.day(105.0, 70.0, 50.0, 100.0), 37.5);
        assert_eq!(Method::PlainMean.day(48.0, 35.0, 50.0, 100.0), 0.0);
    }
}
