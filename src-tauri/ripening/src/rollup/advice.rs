//! Whether to go on walking: what more stops are expected to buy.

use super::answer::Gathered;
use super::marks::head_mark;
use super::normal::below;
use super::posterior::Posterior;
use crate::{Advice, MoreStops, Stage, Verdict};

/// How precise an answer is wanted. It is met when either holds.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Target {
    /// The most probable stage has at least this probability, 0-1.
    pub stage_chance: f64,
    /// The band of the position is no wider than this, in stages.
    pub position_width: f64,
}

impl Default for Target {
    fn default() -> Target {
        Target {
            stage_chance: 0.90,
            position_width: 0.5,
        }
    }
}

impl Target {
    fn met(&self, chance: f64, width: f64) -> bool {
        chance >= self.stage_chance || width <= self.position_width
    }
}

/// What walking costs, from the scout's settings.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WalkingCost {
    /// Getting to one more stop, minutes.
    pub minutes_per_stop: f64,
    /// Pulling and squeezing one head, minutes.
    pub minutes_per_head: f64,
    /// Heads at a stop.
    pub heads_per_stop: u32,
}

impl Default for WalkingCost {
    fn default() -> WalkingCost {
        WalkingCost {
            minutes_per_stop: 3.0,
            minutes_per_head: 0.5,
            heads_per_stop: 5,
        }
    }
}

/// Fewest stops at which a walk may be called enough: with fewer, nothing in the
/// walk itself tells how much stops differ.
pub const FEWEST_STOPS: u32 = 3;

/// Most further stops weighed.
const MOST_MORE_STOPS: u32 = 6;

pub(crate) fn advice(
    posterior: &Posterior,
    gathered: &Gathered,
    heads: u32,
    stops: u32,
    level: f64,
    target: &Target,
    cost: &WalkingCost,
) -> Advice {
    let position_width = gathered.position(level).width();
    let chances = gathered.chance();
    let stage_chance = Stage::ALL
        .iter()
        .map(|stage| *chances.get(*stage))
        .fold(0.0, f64::max);
    let enough = stops >= FEWEST_STOPS && target.met(stage_chance, position_width);
    if heads > 0 && enough {
        return Advice {
            verdict: Verdict::Enough,
            position_width,
            stage_chance,
            more: Vec::new(),
        };
    }
    let middle = Middle::of(posterior);
    let per_stop = cost.heads_per_stop.max(1);
    let more: Vec<MoreStops> = (1..=MOST_MORE_STOPS)
        .map(|k| {
            let narrower = middle.narrower(k, per_stop);
            let width = position_width * narrower;
            let chance = middle.expected_chance(narrower).max(stage_chance);
            MoreStops {
                stops: k,
                heads_per_stop: per_stop,
                position_width: width,
                stage_chance: chance,
                minutes: f64::from(k)
                    * (cost.minutes_per_stop + cost.minutes_per_head * f64::from(per_stop)),
                meets_target: stops + k >= FEWEST_STOPS && target.met(chance, width),
            }
        })
        .collect();
    let verdict = if heads == 0 {
        Verdict::NoHeads
    } else if more.iter().any(|more| more.meets_target) {
        Verdict::MoreStops
    } else {
        Verdict::OutOfReach
    };
    Advice {
        verdict,
        position_width,
        stage_chance,
        more,
    }
}

/// The middle head's age: one line for each row of the posterior.
struct Middle {
    rows: Vec<Row>,
    mean: f64,
    variance: f64,
}

struct Row {
    weight: f64,
    mean: f64,
    variance: f64,
    head: f64,
    stop: f64,
}

impl Middle {
    fn of(posterior: &Posterior) -> Middle {
        let nodes = &posterior.nodes;
        let grid = nodes.grid();
        let low = grid.mean(posterior.window.first as i64);
        let mut rows = Vec::new();
        for (row, weight, values) in posterior.live_rows() {
            if weight < 1e-6 {
                continue;
            }
            let (mut first, mut second) = (0.0, 0.0);
            for (i, value) in values.iter().enumerate() {
                let x = i as f64;
                first += x * value;
                second += x * x * value;
            }
            let center = first / weight;
            let parts = nodes.parts(row);
            rows.push(Row {
                weight,
                mean: low + grid.step * center - posterior.middle_before_mean(row),
                variance: (second / weight - center * center).max(0.01) * grid.step * grid.step,
                head: nodes.heads[parts.head].value,
                stop: nodes.stops[parts.stop].value,
            });
        }
        let total: f64 = rows.iter().map(|row| row.weight).sum();
        let mean = rows.iter().map(|row| row.weight * row.mean).sum::<f64>() / total;
        let variance = rows
            .iter()
            .map(|row| row.weight * (row.variance + (row.mean - mean) * (row.mean - mean)))
            .sum::<f64>()
            / total;
        Middle {
            rows,
            mean,
            variance,
        }
    }

    /// Expected spread of the middle head's age after `k` more stops of `n`
    /// heads, relative to now. In each row a stop's mean measures the planting's
    /// with variance `stop^2 + head^2 / n`.
    fn narrower(&self, k: u32, n: u32) -> f64 {
        let total: f64 = self.rows.iter().map(|row| row.weight).sum();
        let after: f64 = self
            .rows
            .iter()
            .map(|row| {
                let now = row.variance + (row.mean - self.mean) * (row.mean - self.mean);
                let noise = row.stop * row.stop + row.head * row.head / f64::from(n);
                row.weight / (1.0 / now + f64::from(k) / noise)
            })
            .sum::<f64>()
            / total;
        (after / self.variance).sqrt().min(1.0)
    }

    /// Expected probability of the then most probable stage, when the spread of
    /// the middle head's age has shrunk by `narrower`: the center it will have
    /// is normal around today's.
    fn expected_chance(&self, narrower: f64) -> f64 {
        let after = (self.variance.sqrt() * narrower).max(1.0);
        let shift = (self.variance * (1.0 - narrower * narrower))
            .max(0.0)
            .sqrt();
        let span = 168.0;
        let (mut sum, mut weights) = (0.0, 0.0);
        for i in -12..=12 {
            let z = f64::from(i) * 0.25;
            let weight = super::normal::density(z);
            let center = self.mean + z * shift;
            let mut best = 0.0_f64;
            let mut above = 1.0;
            for stage in Stage::ALL {
                let next = match Stage::ALL.get(stage.index() + 1) {
                    Some(next) => below((center - head_mark(*next, span)) / after),
                    None => 0.0,
                };
                best = best.max(above - next);
                above = next;
            }
            sum += weight * best;
            weights += weight;
        }
        sum / weights
    }
}
