//! How fast a hybrid ages by heat, and how that is learned.

use libm::{exp, log};

use crate::Band;

/// Spread (standard deviation of the logarithm) of hybrids' paces around the
/// published tables. The heat from bloom to maturity is published as 800 to 1200
/// units (K-State): three standard deviations of about 7 % either way. That range
/// holds all that makes fields differ, so the parts below it are taken out:
/// `0.07^2 = HYBRID_SPREAD^2 + PLANTING_SPREAD^2 + 0.012^2`, the last being what
/// the days between bloom and maturity add while it is tracked.
pub const HYBRID_SPREAD: f64 = 0.062;
/// Spread of plantings of one hybrid around the hybrid's own pace: soil, stand
/// and water (no published number; of the order of the disagreement of one
/// hybrid between two sites).
pub const PLANTING_SPREAD: f64 = 0.03;

/// How far learning may be off for all plantings of a hybrid alike: its marks
/// differ from the tables' in their shares too, and every walk reads those.
const COMMON_SPREAD: f64 = 0.025;

/// Logarithms of the paces looked at: -0.36 to 0.36 in steps of 0.02.
const NODES: usize = 37;
const STEP: f64 = 0.02;

/// Logarithm of pace of a node.
fn log_pace(node: usize) -> f64 {
    (node as f64 - 18.0) * STEP
}

/// All paces looked at.
pub(super) fn paces() -> [f64; NODES] {
    std::array::from_fn(|node| exp(log_pace(node)))
}

/// What is believed of a hybrid's pace: 1 ages as the published tables do, 1.05
/// needs 5 % less heat.
#[derive(Debug, Clone, PartialEq)]
pub struct PaceBelief {
    /// Weight of each pace for the hybrid; sums to 1.
    hybrid: [f64; NODES],
    plantings: usize,
}

/// What one planting says of its pace: a likelihood over the paces.
#[derive(Debug, Clone, PartialEq)]
pub struct PaceEvidence {
    pub(super) likelihood: [f64; NODES],
}

impl PaceBelief {
    /// Before any planting of the hybrid was followed: the published tables.
    pub fn published() -> PaceBelief {
        let mut hybrid = std::array::from_fn(|node| bell(log_pace(node), HYBRID_SPREAD));
        normalize(&mut hybrid);
        PaceBelief {
            hybrid,
            plantings: 0,
        }
    }

    /// With what one more planting of the hybrid says. Plantings differ from
    /// the hybrid by [`PLANTING_SPREAD`], so one planting never settles it.
    pub fn with(&self, evidence: &PaceEvidence) -> PaceBelief {
        let mut hybrid = self.hybrid;
        for (node, weight) in hybrid.iter_mut().enumerate() {
            *weight *= around(node, &evidence.likelihood, PLANTING_SPREAD);
        }
        if normalize(&mut hybrid) {
            PaceBelief {
                hybrid,
                plantings: self.plantings + 1,
            }
        } else {
            self.clone()
        }
    }

    /// Plantings it has learned from.
    pub fn plantings(&self) -> usize {
        self.plantings
    }

    /// The hybrid's pace: median and the central interval of this level.
    pub fn band(&self, level: f64) -> Band {
        band(&self.hybrid, level)
    }

    /// The pace of a planting of the hybrid that was not seen yet.
    pub fn planting_band(&self, level: f64) -> Band {
        band(&self.for_planting(), level)
    }

    /// Weights of the paces for a planting not yet seen.
    pub(super) fn for_planting(&self) -> [f64; NODES] {
        let common = if self.plantings > 0 {
            COMMON_SPREAD
        } else {
            0.0
        };
        let spread = (PLANTING_SPREAD * PLANTING_SPREAD + common * common).sqrt();
        let mut planting = std::array::from_fn(|node| around(node, &self.hybrid, spread));
        normalize(&mut planting);
        planting
    }
}

/// Median and central interval of weights over the paces, linear between nodes.
pub(super) fn band(weights: &[f64; NODES], level: f64) -> Band {
    let quantile = |p: f64| {
        let mut below = 0.0;
        for (node, weight) in weights.iter().enumerate() {
            if *weight > 0.0 && below + weight >= p {
                let part = (p - below) / weight;
                return exp(log_pace(node) + (part - 0.5) * STEP);
            }
            below += weight;
        }
        exp(log_pace(NODES - 1))
    };
    Band {
        low: quantile((1.0 - level) / 2.0),
        mid: quantile(0.5),
        high: quantile((1.0 + level) / 2.0),
    }
}

/// Mean of `values` over paces near a node, by a normal spread.
fn around(node: usize, values: &[f64; NODES], spread: f64) -> f64 {
    let mut sum = 0.0;
    let mut all = 0.0;
    for (other, value) in values.iter().enumerate() {
        let weight = bell(log_pace(other) - log_pace(node), spread);
        sum += weight * value;
        all += weight;
    }
    sum / all
}

fn bell(x: f64, spread: f64) -> f64 {
    let z = x / spread;
    exp(-0.5 * z * z)
}

/// `false` (and nothing done) when nothing is left to scale.
fn normalize(weights: &mut [f64; NODES]) -> bool {
    let sum: f64 = weights.iter().sum();
    let sound = sum.is_finite() && sum > 0.0;
    if sound {
        for weight in weights {
            *weight /= sum;
        }
    }
    sound
}

impl PaceEvidence {
    /// A pace measured by other means, as a bell curve on its logarithm; for
    /// notebooks that bring a hybrid's pace with them.
    pub fn measured(pace: f64, spread: f64) -> Option<PaceEvidence> {
        (pace > 0.0 && spread > 0.0).then(|| PaceEvidence {
            likelihood: std::array::from_fn(|node| bell(log_pace(node) - log(pace), spread)),
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn belief_moves_towards_plantings_and_narrows() {
        let start = PaceBelief::published();
        assert!((start.band(0.8).mid - 1.0).abs() < 1e-9);
        let fast = PaceEvidence::measured(1.10, 0.02).unwrap();
        let once = start.with(&fast);
        let thrice = once.with(&fast).with(&fast);
        let mid = |belief: &PaceBelief| belief.band(0.8).mid;
        assert!(1.04 < mid(&once) && mid(&once) < mid(&thrice) && mid(&thrice) < 1.10);
        assert!(once.band(0.8).width() < start.band(0.8).width());
        assert!(thrice.band(0.8).width() < once.band(0.8).width());
        assert_eq!(thrice.plantings(), 3);
    }

    /// Normal prior and normal evidence have a closed form.
    #[test]
    fn agrees_with_the_closed_form() {
        let belief = PaceBelief::published().with(&PaceEvidence::measured(1.08, 0.03).unwrap());
        let prior = 1.0 / (HYBRID_SPREAD * HYBRID_SPREAD);
        let data = 1.0 / (0.03 * 0.03 + PLANTING_SPREAD * PLANTING_SPREAD);
        let mean = log(1.08) * data / (prior + data);
        let sd = (1.0 / (prior + data)).sqrt();
        let band = belief.band(0.8);
        assert!((log(band.mid) - mean).abs() < 0.002);
        assert!((log(band.high) - mean - 1.2816 * sd).abs() < 0.003);
    }

    #[test]
    fn a_planting_is_less_sure_than_its_hybrid() {
        let belief = PaceBelief::published().with(&PaceEvidence::measured(1.0, 0.01).unwrap());
        assert!(band(&belief.for_planting(), 0.8).width() > belief.band(0.8).width());
    }
}
