//! How a planting stands and weathers, from the marks on its heads.

use chrono::NaiveDate;
use serde::{Deserialize, Serialize};

use crate::{Band, Flag};

/// Marks counted on the heads of one walk.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct StandingCheck {
    /// Date of the walk.
    pub on: NaiveDate,
    /// Heads looked at.
    pub heads: u32,
    /// On lodged plants.
    pub lodged: u32,
    /// With mold on the grain.
    pub moldy: u32,
    /// Fed on by birds.
    pub bird_fed: u32,
}

impl StandingCheck {
    /// Counts the marks of a walk's heads.
    pub fn of<'a>(on: NaiveDate, heads: impl IntoIterator<Item = &'a [Flag]>) -> StandingCheck {
        let mut check = StandingCheck {
            on,
            heads: 0,
            lodged: 0,
            moldy: 0,
            bird_fed: 0,
        };
        for flags in heads {
            let has = |flag| u32::from(flags.contains(&flag));
            check.heads += 1;
            check.lodged += has(Flag::LodgedPlant);
            check.moldy += has(Flag::Moldy);
            check.bird_fed += has(Flag::BirdFed);
        }
        check
    }
}

/// Shares of heads (0-1) with their 80 % bands: the lower, the better it stands
/// and the less it has weathered.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct StandingScore {
    /// Date of the walk.
    pub on: NaiveDate,
    /// Heads looked at.
    pub heads: u32,
    /// On lodged plants.
    pub lodged: Band,
    /// Moldy.
    pub moldy: Band,
    /// Fed on by birds.
    pub bird_fed: Band,
}

/// The score of one check; `None` without heads.
///
/// Bands are Wilson's at 80 %, with the share itself in the middle; they take
/// the heads as independent, so for heads of few stops they are too narrow.
pub fn standing_score(check: &StandingCheck) -> Option<StandingScore> {
    (check.heads > 0).then(|| StandingScore {
        on: check.on,
        heads: check.heads,
        lodged: wilson(check.lodged, check.heads),
        moldy: wilson(check.moldy, check.heads),
        bird_fed: wilson(check.bird_fed, check.heads),
    })
}

fn wilson(hits: u32, heads: u32) -> Band {
    const Z: f64 = 1.281_551_565_5;
    let n = f64::from(heads);
    let p = f64::from(hits.min(heads)) / n;
    let center = (p + Z * Z / (2.0 * n)) / (1.0 + Z * Z / n);
    let half = Z / (1.0 + Z * Z / n) * (p * (1.0 - p) / n + Z * Z / (4.0 * n * n)).sqrt();
    Band {
        low: (center - half).max(0.0).min(p),
        mid: p,
        high: (center + half).min(1.0).max(p),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn marks_are_counted_and_banded() {
        let on = NaiveDate::from_ymd_opt(2025, 10, 1).unwrap();
        let heads: [&[Flag]; 4] = [
            &[Flag::LodgedPlant],
            &[],
            &[Flag::Moldy, Flag::LodgedPlant],
            &[],
        ];
        let check = StandingCheck::of(on, heads);
        assert_eq!((check.heads, check.lodged, check.moldy), (4, 2, 1));
        let score = standing_score(&check).unwrap();
        assert_eq!(score.lodged.mid, 0.5);
        assert!(score.lodged.low < 0.3 && score.lodged.high > 0.7);
        assert_eq!(score.bird_fed.low, 0.0);
        assert!(score.bird_fed.high > 0.2);
        assert_eq!(standing_score(&StandingCheck::of(on, [])), None);
    }
}
