//! The points over what a walk does not show directly: the spread of heads at a
//! stop and of stops in the planting, beside the spans and shapes.

use std::sync::{Arc, OnceLock};

use super::grid::Grid;
use super::population::{LONGEST_LAG, SHAPES, SPANS, level_of};
use super::reading_error::Kind;
use super::smoothing::Smoothing;

/// One value and its prior probability.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Node {
    pub(crate) value: f64,
    pub(crate) weight: f64,
}

/// A lognormal prior of a spread.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Spread {
    /// Median, heat units.
    pub(crate) median: f64,
    /// Standard deviation of the logarithm.
    pub(crate) log_sd: f64,
}

/// Where the nodes of one spread lie: `count` of them, `step` apart in the
/// logarithm, `center` steps off the prior's median in the middle.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Placement {
    pub(crate) step: f64,
    pub(crate) count: usize,
    pub(crate) center: i64,
}

/// The prior of both spreads.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Spreads {
    pub(crate) head: Spread,
    pub(crate) stop: Spread,
}

/// Which nodes: equal keys are equal nodes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Key {
    pub(crate) spreads: Spreads,
    pub(crate) head: Placement,
    pub(crate) stop: Placement,
    pub(crate) grid: Grid,
}

/// All nodes, with what can be tabulated once for them.
pub(crate) struct Nodes {
    pub(crate) key: Key,
    pub(crate) heads: Vec<Node>,
    pub(crate) stops: Vec<Node>,
    pub(crate) smoothing: Vec<Smoothing>,
    /// For each pair (head spread, stop spread): level below and part above.
    levels: Vec<(usize, f64)>,
    kinds: Vec<OnceLock<Box<[f32]>>>,
    /// Room before the grid for the longest lag, in points.
    room: usize,
}

/// Place of a row in the tables: stop spread fastest, then shape, head spread, span.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Parts {
    pub(crate) span: usize,
    pub(crate) head: usize,
    pub(crate) shape: usize,
    pub(crate) stop: usize,
}

impl Nodes {
    pub(crate) fn new(key: Key) -> Nodes {
        let heads = nodes_of(key.spreads.head, key.head);
        let stops = nodes_of(key.spreads.stop, key.stop);
        let mut levels = Vec::with_capacity(heads.len() * stops.len());
        for head in &heads {
            for stop in &stops {
                let whole = head.value * head.value + stop.value * stop.value;
                levels.push(level_of(whole.sqrt()));
            }
        }
        let mut before = 0.0;
        let smoothing = stops
            .iter()
            .map(|stop| {
                let smoothing = Smoothing::new(before, stop.value, key.grid.step);
                before = stop.value;
                smoothing
            })
            .collect();
        Nodes {
            key,
            heads,
            stops,
            smoothing,
            levels,
            kinds: (0..Kind::COUNT).map(|_| OnceLock::new()).collect(),
            room: (LONGEST_LAG / key.grid.step) as usize,
        }
    }

    /// Nodes over the whole weak prior, for walks of the usual size.
    pub(crate) fn usual() -> Arc<Nodes> {
        static USUAL: OnceLock<Arc<Nodes>> = OnceLock::new();
        USUAL
            .get_or_init(|| {
                Arc::new(Nodes::new(Key {
                    spreads: WEAK,
                    head: Placement {
                        step: 0.38,
                        count: 6,
                        center: 0,
                    },
                    stop: Placement {
                        step: 0.7,
                        count: 6,
                        center: 0,
                    },
                    grid: Grid::widest(12.0),
                }))
            })
            .clone()
    }

    pub(crate) fn grid(&self) -> Grid {
        self.key.grid
    }

    pub(crate) fn rows(&self) -> usize {
        SPANS.len() * self.heads.len() * SHAPES.len() * self.stops.len()
    }

    pub(crate) fn parts(&self, row: usize) -> Parts {
        let (base, stop) = (row / self.stops.len(), row % self.stops.len());
        let (base, shape) = (base / SHAPES.len(), base % SHAPES.len());
        Parts {
            span: base / self.heads.len(),
            head: base % self.heads.len(),
            shape,
            stop,
        }
    }

    pub(crate) fn row(&self, parts: Parts) -> usize {
        let base = (parts.span * self.heads.len() + parts.head) * SHAPES.len() + parts.shape;
        base * self.stops.len() + parts.stop
    }

    /// Prior probability of a row.
    pub(crate) fn row_weight(&self, row: usize) -> f64 {
        let parts = self.parts(row);
        SPANS[parts.span].1
            * self.heads[parts.head].weight
            * SHAPES[parts.shape].weight
            * self.stops[parts.stop].weight
    }

    /// Prior probability of a row and one of its means, where every mean from
    /// before boot to ripeness is as likely.
    pub(crate) fn flat(&self, row: usize) -> f64 {
        self.row_weight(row) / Grid::widest(self.key.grid.step).points as f64
    }

    /// Level of the whole spread of a row, and the part that goes to the next.
    pub(crate) fn level(&self, parts: Parts) -> (usize, f64) {
        self.levels[parts.head * self.stops.len() + parts.stop]
    }

    /// Likelihood of a kind along the grid, for heads that are late by `lag`
    /// heat units, from point `first` on.
    pub(crate) fn kind(
        &self,
        kind: Kind,
        span: usize,
        head: usize,
        lag: f64,
        first: usize,
    ) -> &[f32] {
        let padded = self.room + self.key.grid.points;
        let table = self.kinds[kind.index()].get_or_init(|| {
            let mut table = Vec::with_capacity(SPANS.len() * self.heads.len() * padded);
            for (span, _) in SPANS {
                for node in &self.heads {
                    for place in 0..padded {
                        let mean = self.key.grid.mean(place as i64 - self.room as i64);
                        table.push(kind.likelihood(mean, node.value, span) as f32);
                    }
                }
            }
            table.into_boxed_slice()
        });
        let start = (span * self.heads.len() + head) * padded;
        let lag = (lag / self.key.grid.step) as usize;
        &table[start + self.room + first - lag..start + padded - lag]
    }
}

/// The weak prior of both spreads. Heads of a field mature over 10 to 14 days
/// and a fairly uniform field blooms over 16 to 24, of which a single head takes
/// 4 to 9 (Mississippi State 2021 and other extension services): a whole spread
/// of 60 to 120 units, most of it between neighboring heads. Either is known to
/// a factor of two at most.
pub(crate) const WEAK: Spreads = Spreads {
    head: Spread {
        median: 80.0,
        log_sd: 0.4,
    },
    stop: Spread {
        median: 40.0,
        log_sd: 0.7,
    },
};

fn nodes_of(spread: Spread, placement: Placement) -> Vec<Node> {
    let middle = 0.5 * (placement.count - 1) as f64;
    let height = placement.step / spread.log_sd * 0.398_942_280_401_432_7;
    (0..placement.count)
        .map(|i| {
            let log = (placement.center as f64 + i as f64 - middle) * placement.step;
            let z = log / spread.log_sd;
            Node {
                value: spread.median * libm::exp(log),
                weight: height * libm::exp(-0.5 * z * z),
            }
        })
        .collect()
}
