//! A hybrid by itself: what the tables say of it, and what its plantings add.

use super::bloom_heat::BloomHeat;
use super::forecast::LEVEL;
use super::pace::PaceBelief;
use super::together::Followed;
use crate::Band;
use crate::heat::{HeatScale, MaturityClass};

/// Standard deviations from the middle of a bell curve to its P10 and P90.
const P90_AT: f64 = 1.281_552;

/// A hybrid's pace and earliness; bands are P10 to P90.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HybridLearned {
    /// The hybrid's own pace from half bloom on, against the published tables.
    pub pace: Band,
    /// Pace of one more planting of it.
    pub next_planting: Band,
    /// Its heat from planting to half bloom, units of the scale.
    pub half_bloom: Band,
    /// Plantings that its pace was learned from.
    pub plantings: usize,
}

/// What is believed of a hybrid of this class once these plantings of it, each
/// followed by itself, have been laid over the tables.
/// With none it is what the tables say.
pub fn learn_hybrid(
    scale: &HeatScale,
    class: Option<MaturityClass>,
    plantings: &[&Followed],
) -> HybridLearned {
    let mut belief = PaceBelief::published();
    let mut bloom_heat = BloomHeat::published(scale, class);
    for followed in plantings {
        if let Some(evidence) = followed.track.pace_evidence() {
            let season = &followed.season;
            bloom_heat = followed
                .track
                .learn_bloom_heat(season, &belief, &bloom_heat);
            belief = belief.with(&evidence);
        }
    }
    let reach = P90_AT * bloom_heat.sd;
    HybridLearned {
        pace: belief.band(LEVEL),
        next_planting: belief.planting_band(LEVEL),
        half_bloom: Band {
            low: bloom_heat.mean - reach,
            mid: bloom_heat.mean,
            high: bloom_heat.mean + reach,
        },
        plantings: belief.plantings(),
    }
}
