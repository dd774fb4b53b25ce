//! The textbook answers a scout could work out without the model.

use ripening::{Head, Reading, Stage};
use statrs::distribution::{Beta, ContinuousCDF, Normal, StudentsT};

use crate::simulation::tally::Interval;

/// Wilson's score interval for a share `p` out of `n` (not necessarily whole),
/// with the normal (or t) quantile `z`. Wilson 1927; NIST e-Handbook 7.2.4.1.
pub fn wilson(p: f64, n: f64, z: f64) -> Interval {
    let z2 = z * z;
    let scale = 1.0 + z2 / n;
    let center = (p + z2 / (2.0 * n)) / scale;
    let half = z * (p * (1.0 - p) / n + z2 / (4.0 * n * n)).sqrt() / scale;
    Interval {
        low: (center - half).max(0.0),
        high: (center + half).min(1.0),
    }
}

/// Clopper and Pearson's exact interval for `hits` of `n` (NIST e-Handbook 7.2.4.2).
pub fn exact(hits: u32, n: u32, level: f64) -> Interval {
    let tail = 0.5 * (1.0 - level);
    let (k, n) = (f64::from(hits), f64::from(n));
    let quantile = |a: f64, b: f64, p: f64| Beta::new(a, b).map(|beta| beta.inverse_cdf(p));
    Interval {
        low: quantile(k, n - k + 1.0, tail).unwrap_or(0.0),
        high: quantile(k + 1.0, n - k, 1.0 - tail).unwrap_or(1.0),
    }
}

/// Normal quantile of a central interval.
pub fn normal_quantile(level: f64) -> f64 {
    Normal::standard().inverse_cdf(0.5 + 0.5 * level)
}

/// Quantile of Student's t on `stops - 1` degrees of freedom; one stop counts as two.
pub fn t_quantile(level: f64, stops: usize) -> f64 {
    let freedom = stops.max(2) as f64 - 1.0;
    StudentsT::new(0.0, 1.0, freedom).map_or(f64::NAN, |t| t.inverse_cdf(0.5 + 0.5 * level))
}

/// Whether a head, as read, has reached a stage: at least half of its length
/// shows it or a later one; for half bloom any part in bloom.
pub fn head_reached(head: &Head, stage: Stage) -> bool {
    let first = match stage {
        Stage::Boot => return true,
        Stage::Heading => Reading::Emerging,
        Stage::HalfBloom => Reading::Bloom,
        Stage::Milk => Reading::Liquid,
        Stage::SoftDough => Reading::Pliable,
        Stage::HardDough => Reading::Dented,
        Stage::BlackLayer => Reading::DarkSpot,
    };
    let half = head.share().is_some_and(|share| share.percent() >= 50);
    head.reading() > first || (head.reading() == first && (half || stage <= Stage::HalfBloom))
}

/// What the stops say of one stage.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StopCount {
    /// Share of all heads.
    pub share: f64,
    /// Number of independent heads that would say as much.
    pub effective: f64,
    /// Stops.
    pub stops: usize,
    /// Heads.
    pub heads: usize,
}

impl StopCount {
    /// Effective heads: p(1-p) over the variance of the stops' shares divided by
    /// the stops, between the number of stops and the number of heads.
    pub fn of(walk: &[Vec<Head>], stage: Stage) -> StopCount {
        let stops: Vec<&Vec<Head>> = walk.iter().filter(|stop| !stop.is_empty()).collect();
        let hits = |stop: &Vec<Head>| stop.iter().filter(|head| head_reached(head, stage)).count();
        let heads: usize = stops.iter().map(|stop| stop.len()).sum();
        let share = stops.iter().map(|stop| hits(stop)).sum::<usize>() as f64 / heads as f64;
        let shares: Vec<f64> = stops
            .iter()
            .map(|stop| hits(stop) as f64 / stop.len() as f64)
            .collect();
        let k = shares.len() as f64;
        let mean = shares.iter().sum::<f64>() / k;
        let variance = shares.iter().map(|s| (s - mean) * (s - mean)).sum::<f64>() / (k - 1.0);
        let raw = share * (1.0 - share) / (variance / k);
        // Stops that all say the same (0/0 or x/0) count every head; one stop counts as one.
        let effective = if shares.len() < 2 {
            1.0
        } else if raw.is_nan() {
            heads as f64
        } else {
            raw.clamp(k, heads as f64)
        };
        StopCount {
            share,
            effective,
            stops: shares.len(),
            heads,
        }
    }

    /// Wilson on effective heads, normal quantile.
    pub fn normal(&self, level: f64) -> Interval {
        wilson(self.share, self.effective, normal_quantile(level))
    }

    /// Wilson on effective heads, t quantile.
    pub fn t(&self, level: f64) -> Interval {
        wilson(self.share, self.effective, t_quantile(level, self.stops))
    }

    /// Wilson as if all heads were independent.
    pub fn naive(&self, level: f64) -> Interval {
        wilson(self.share, self.heads as f64, normal_quantile(level))
    }

    /// Chance that at least half of the planting has reached the stage: Jeffreys'
    /// posterior on effective heads.
    pub fn chance_of_half(&self) -> f64 {
        let n = self.effective;
        Beta::new(0.5 + n * self.share, 0.5 + n * (1.0 - self.share))
            .map_or(f64::NAN, |beta| beta.sf(0.5))
    }
}

/// The rival's probability of each stage, in the order of growth.
pub fn stage_chances(walk: &[Vec<Head>]) -> [f64; 7] {
    let mut at_least = [1.0; 8];
    at_least[7] = 0.0;
    for stage in Stage::ALL {
        if stage > Stage::Boot {
            let chance = StopCount::of(walk, stage).chance_of_half();
            at_least[stage.index()] = chance.min(at_least[stage.index() - 1]);
        }
    }
    std::array::from_fn(|i| at_least[i] - at_least[i + 1])
}
