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

    /// Whether the other differs only in the share of late heads, by one step.
    pub(crate) fn is_beside(self, other: Shape) -> bool {
        let step_of = |shape: Shape| LATE_SHARES.iter().position(|late| *late == shape.late);
        self.lag == other.lag
            && step_of(self)
                .zip(step_of(other))
                .is_some_and(|(one, other)| one.abs_diff(other) == 1)
    }
}

/// Prior probability that a planting's heads have one peak.
const ONE_PEAK: f64 = 1.0 / 3.0;

/// Shares of the heads that may be late: tillers, up to nearly half of them in a
/// second flush after a dry start. Two shares would not do: over some walks the
/// heads decide for one of them, and neither is near enough to a third.
const LATE_SHARES: [f64; 3] = [0.17, 0.31, 0.45];

/// The shapes weighed: one peak, or a share of late heads. The lags are 5, 9 and
/// 13 days at 24 units a day; few heads that are little late look like one peak.
pub(crate) const SHAPES: [Shape; 9] = {
    const fn late(late: f64, lag: f64) -> Shape {
        Shape {
            late,
            lag,
            weight: (1.0 - ONE_PEAK) / 8.0,
        }
    }
    let [few, some, many] = LATE_SHARES;
    [
        Shape {
            late: 0.0,
            lag: 0.0,
            weight: ONE_PEAK,
        },
        late(few, 216.0),
        late(few, 312.0),
        late(some, 120.0),
        late(some, 216.0),
        late(some, 312.0),
        late(many, 120.0),
        late(many, 216.0),
        late(many, 312.0),
    ]
};

/// Longest lag of any shape, heat units.
pub(crate) const LONGEST_LAG: f64 = 312.0;

/// Late heads are not late by one lag: standard deviation around it, heat units, a
/// day and a half.
const LATE_SPREAD: f64 = 45.0;

/// Heat from a head's top to its base, as a discrete prior: 4 to 9 days of
/// bloom along a head at about 24 units a day.
pub(crate) const SPANS: [(f64, f64); 3] = [(120.0, 0.3), (168.0, 0.4), (224.0, 0.3)];

/// Levels of the whole spread (heads and stops together) that distances are
/// tabulated for: equal steps of its logarithm.
const LEVELS: usize = 27;
const FIRST_LEVEL: f64 = 18.0;
const LEVEL_STEP: f64 = 0.125;

fn level_spread(level: usize) -> f64 {
    FIRST_LEVEL * libm::exp(LEVEL_STEP * level as f64)
}

/// A whole spread between two levels.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Level {
    below: usize,
    /// How far it lies towards the one above, 0-1.
    part: f64,
}

impl Level {
    pub(crate) fn of(spread: f64) -> Level {
        let place = (libm::log(spread / FIRST_LEVEL) / LEVEL_STEP).clamp(0.0, (LEVELS - 1) as f64);
        let below = (place as usize).min(LEVELS - 2);
        let (low, high) = (level_spread(below), level_spread(below + 1));
        Level {
            below,
            // By the spread itself: distances grow with it.
            part: ((spread - low) / (high - low)).clamp(0.0, 1.0),
        }
    }
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
    /// Edge by edge, level by level, shape by shape.
    values: Vec<f64>,
}

/// Such distances at one edge.
#[derive(Clone, Copy)]
pub(crate) struct Distances<'a>(&'a [f64]);

impl Passed {
    fn build(share: impl Fn(f64, f64, Shape) -> f64, reach: f64) -> Passed {
        let mut values = vec![0.0; LEVELS * SHAPES.len() * (EDGES + 1)];
        for level in 0..LEVELS {
            let spread = level_spread(level);
            for (number, shape) in SHAPES.into_iter().enumerate() {
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
                    values[(index * LEVELS + level) * SHAPES.len() + number] = place + part * step;
                }
            }
        }
        Passed { values }
    }

    /// Distances of all populations at an edge.
    pub(crate) fn at(&self, edge: usize) -> Distances<'_> {
        let columns = LEVELS * SHAPES.len();
        Distances(&self.values[edge * columns..][..columns])
    }
}

impl Distances<'_> {
    /// That of one population.
    pub(crate) fn of(self, level: Level, shape: usize) -> f64 {
        let column = level.below * SHAPES.len() + shape;
        let (below, above) = (self.0[column], self.0[column + SHAPES.len()]);
        below + level.part * (above - below)
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
    (1.0 - shape.late) * below(past / spread)
        + shape.late * below((past - shape.lag) / with_late(spread))
}

/// Share of grain past it: kernels lie evenly over the span around a head's age.
fn share_of_grain(past: f64, spread: f64, shape: Shape, span: f64) -> f64 {
    let part = |past: f64, spread: f64| {
        spread / span
            * (below_integral((past + 0.5 * span) / spread)
                - below_integral((past - 0.5 * span) / spread))
    };
    (1.0 - shape.late) * part(past, spread) + shape.late * part(past - shape.lag, with_late(spread))
}

/// The spread of late heads where that of all others is `spread`.
pub(crate) fn with_late(spread: f64) -> f64 {
    (spread * spread + LATE_SPREAD * LATE_SPREAD).sqrt()
}
