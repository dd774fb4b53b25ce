//! How the heads of a planting may be spread: the shapes weighed against each
//! other, and what share of such a population has passed a mark.

use std::sync::OnceLock;

use super::normal::{below, below_integral};

/// A population of heads: most of them around the planting's mean, a part of
/// them late by a lag (tillers, or plants of a second flush of emergence).
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Shape {
    /// Share of the heads that is late, 0-1.
    pub(crate) late: f64,
    /// How late, heat units; a multiple of every grid's step.
    pub(crate) lag: f64,
    /// Prior probability of this shape.
    pub(crate) weight: f64,
}

impl Shape {
    /// Late heads come in patches: at half of the stops their share is lower
    /// than the planting's by this part of it, at the other half higher.
    const PATCH: f64 = 0.2;

    /// Shares of late heads at a stop, each as likely.
    pub(crate) fn late_at_stops(self) -> impl Iterator<Item = f64> {
        let (few, many) = (
            self.late * (1.0 - Shape::PATCH),
            self.late * (1.0 + Shape::PATCH),
        );
        let kinds = if self.late > 0.0 { 2 } else { 1 };
        [few, many].into_iter().take(kinds)
    }
}

/// Prior probability that a planting's heads have one peak.
const ONE_PEAK: f64 = 1.0 / 3.0;

/// The shapes weighed: one peak, or some late heads (tillers, few and one to two
/// weeks late) up to nearly half of them (a second flush after a dry start).
/// The lags are 5, 8, 11 and 14 days at 24 units a day.
pub(crate) const SHAPES: [Shape; 9] = {
    const fn late(late: f64, lag: f64) -> Shape {
        Shape {
            late,
            lag,
            weight: (1.0 - ONE_PEAK) / 8.0,
        }
    }
    [
        Shape {
            late: 0.0,
            lag: 0.0,
            weight: ONE_PEAK,
        },
        late(0.2, 120.0),
        late(0.2, 192.0),
        late(0.2, 264.0),
        late(0.2, 336.0),
        late(0.4, 120.0),
        late(0.4, 192.0),
        late(0.4, 264.0),
        late(0.4, 336.0),
    ]
};

/// Longest lag of any shape, heat units.
pub(crate) const LONGEST_LAG: f64 = 336.0;

/// Heat from a head's top to its base, as a discrete prior: 4 to 9 days of
/// bloom along a head at about 24 units a day.
pub(crate) const SPANS: [(f64, f64); 3] = [(120.0, 0.3), (168.0, 0.4), (224.0, 0.3)];

/// Levels of the whole spread (heads and stops together) that answers are
/// computed for: equal steps of its logarithm.
pub(crate) const LEVELS: usize = 27;
const FIRST_LEVEL: f64 = 18.0;
const LEVEL_STEP: f64 = 0.125;

fn level_spread(level: usize) -> f64 {
    FIRST_LEVEL * libm::exp(LEVEL_STEP * level as f64)
}

/// The level below a whole spread, and the part that goes to the one above.
pub(crate) fn level_of(spread: f64) -> (usize, f64) {
    let place = (libm::log(spread / FIRST_LEVEL) / LEVEL_STEP).clamp(0.0, (LEVELS - 1) as f64);
    let level = (place as usize).min(LEVELS - 2);
    (level, place - level as f64)
}

/// Shares at which answers are tabulated: close together towards 0 and 1.
pub(crate) const EDGES: usize = 160;

/// The share at an edge, 0 at the first and 1 at edge [`EDGES`].
pub(crate) fn edge(index: usize) -> f64 {
    0.5 * (1.0 - libm::cos(std::f64::consts::PI * index as f64 / EDGES as f64))
}

/// The edge at one half.
pub(crate) const HALF: usize = EDGES / 2;

/// For each population, how far its mean must be past a mark for a given share
/// of it to have passed the mark.
pub(crate) struct Passed {
    values: Vec<f64>,
}

impl Passed {
    fn build(share: impl Fn(f64, f64, Shape) -> f64, reach: f64) -> Passed {
        let mut values = Vec::with_capacity(LEVELS * SHAPES.len() * (EDGES + 1));
        for level in 0..LEVELS {
            let spread = level_spread(level);
            for shape in SHAPES {
                let from = -5.0 * spread - reach;
                let step = (shape.lag + 10.0 * spread + 2.0 * reach) / 600.0;
                let (mut place, mut before) = (from, 0.0);
                let mut after = share(from + step, spread, shape);
                for index in 0..=EDGES {
                    let wanted = edge(index);
                    while after < wanted && place < from + 600.0 * step {
                        place += step;
                        before = after;
                        after = share(place + step, spread, shape);
                    }
                    let part = if after > before {
                        ((wanted - before) / (after - before)).clamp(0.0, 1.0)
                    } else {
                        0.0
                    };
                    values.push(place + part * step);
                }
            }
        }
        Passed { values }
    }

    /// Distances of one population, by edge.
    pub(crate) fn of(&self, level: usize, shape: usize) -> &[f64] {
        let at = (level * SHAPES.len() + shape) * (EDGES + 1);
        &self.values[at..at + EDGES + 1]
    }
}

/// Heads that have passed a mark.
pub(crate) fn heads_passed() -> &'static Passed {
    static TABLE: OnceLock<Passed> = OnceLock::new();
    TABLE.get_or_init(|| Passed::build(share_of_heads, 0.0))
}

/// Grain (head length) that has passed a mark, for a span by its place in [`SPANS`].
pub(crate) fn grain_passed(span: usize) -> &'static Passed {
    static TABLES: [OnceLock<Passed>; SPANS.len()] = [const { OnceLock::new() }; SPANS.len()];
    let length = SPANS[span].0;
    TABLES[span].get_or_init(|| {
        Passed::build(
            |past, spread, shape| share_of_grain(past, spread, shape, length),
            0.5 * length,
        )
    })
}

/// Share of heads past a mark that the planting's mean is `past` units past.
pub(crate) fn share_of_heads(past: f64, spread: f64, shape: Shape) -> f64 {
    (1.0 - shape.late) * below(past / spread) + shape.late * below((past - shape.lag) / spread)
}

/// Share of grain past it: kernels lie evenly over the span around a head's age.
fn share_of_grain(past: f64, spread: f64, shape: Shape, span: f64) -> f64 {
    let part = |past: f64| {
        spread / span
            * (below_integral((past + 0.5 * span) / spread)
                - below_integral((past - 0.5 * span) / spread))
    };
    (1.0 - shape.late) * part(past) + shape.late * part(past - shape.lag)
}
