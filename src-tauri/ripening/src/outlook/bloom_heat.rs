//! Heat from planting to half bloom, and how a hybrid's own is learned.

use serde::{Deserialize, Serialize};

use crate::heat::{HeatScale, MaturityClass, heat_to_half_bloom};

/// Spread of plantings of one hybrid: depth, soil warmth, stand.
const BETWEEN_PLANTINGS: f64 = 0.04;

/// Belief in a hybrid's heat from planting to half bloom, in units of the heat
/// scale it was made from.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct BloomHeat {
    /// Mean.
    pub mean: f64,
    /// Standard deviation, for the hybrid.
    pub sd: f64,
    /// Plantings it has learned from.
    #[cfg_attr(feature = "ts", ts(type = "number"))]
    pub plantings: usize,
}

impl BloomHeat {
    /// From the tables of a scale, for a hybrid of this maturity class where it is
    /// known.
    pub fn published(scale: &HeatScale, class: Option<MaturityClass>) -> BloomHeat {
        let (mean, share) = heat_to_half_bloom(scale, class);
        BloomHeat {
            mean,
            sd: share * mean,
            plantings: 0,
        }
    }

    /// With one more planting of the hybrid, whose heat at half bloom was found
    /// to be `mean` with spread `sd` starting from `prior` (which is taken out
    /// again, so that nothing counts twice).
    pub fn with(&self, mean: f64, sd: f64, prior: &BloomHeat) -> BloomHeat {
        let prior_sd = prior.planting_sd();
        let found = 1.0 / (sd * sd);
        let assumed = 1.0 / (prior_sd * prior_sd);
        let own = found - assumed;
        // A planting that has said next to nothing is left out.
        if !(own.is_finite() && own > 0.2 * assumed) {
            return *self;
        }
        let own_mean = (mean * found - prior.mean * assumed) / own;
        let between = BETWEEN_PLANTINGS * self.mean;
        let weight = 1.0 / (1.0 / own + between * between);
        let before = 1.0 / (self.sd * self.sd);
        BloomHeat {
            mean: (self.mean * before + own_mean * weight) / (before + weight),
            sd: (1.0 / (before + weight)).sqrt(),
            plantings: self.plantings + 1,
        }
    }

    /// Standard deviation for one planting of the hybrid.
    pub fn planting_sd(&self) -> f64 {
        let between = BETWEEN_PLANTINGS * self.mean;
        (self.sd * self.sd + between * between).sqrt()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::heat::us_50_100;

    #[test]
    fn learns_from_plantings_and_not_from_nothing() {
        let start = BloomHeat::published(&us_50_100(), None);
        assert_eq!(start.mean, 1674.0);
        assert_eq!(start.with(start.mean, start.planting_sd(), &start), start);
        let once = start.with(1500.0, 30.0, &start);
        assert!(once.mean < 1560.0 && once.mean > 1490.0, "{once:?}");
        assert!(once.sd < start.sd / 2.0);
        let known = BloomHeat::published(&us_50_100(), Some(MaturityClass::MediumLate));
        assert_eq!(known.mean, 1908.0);
    }
}
