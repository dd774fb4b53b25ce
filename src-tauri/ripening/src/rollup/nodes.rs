//! The points over what a walk does not show directly: the spread of heads at a
//! stop and of stops in the planting, beside the spans and shapes.

use std::sync::{Arc, OnceLock};

use super::grid::Grid;
use super::likelihoods::Likelihoods;
use super::population::{Level, SHAPES, SPANS};
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
    /// For each pair (head spread, stop spread).
    wholes: Vec<Whole>,
    /// For each head spread.
    likelihoods: Vec<Arc<Likelihoods>>,
    log_flat: Vec<f64>,
}

/// The spread of heads and stops together.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Whole {
    pub(crate) spread: f64,
    pub(crate) level: Level,
    /// Equal for spreads that are near together.
    pub(crate) like: usize,
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
        let wholes = wholes_of(&heads, &stops);
        let mut before = 0.0;
        let smoothing = stops
            .iter()
            .map(|stop| {
                let smoothing = Smoothing::new(before, stop.value, key.grid.step);
                before = stop.value;
                smoothing
            })
            .collect();
        let likelihoods = heads
            .iter()
            .map(|node| Likelihoods::of(key.grid, node.value))
            .collect();
        let mut nodes = Nodes {
            key,
            heads,
            stops,
            smoothing,
            wholes,
            likelihoods,
            log_flat: Vec::new(),
        };
        nodes.log_flat = (0..nodes.rows())
            .map(|row| libm::log(nodes.flat(row)))
            .collect();
        nodes
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

    /// The logarithm of [`Nodes::flat`].
    pub(crate) fn log_flat(&self, row: usize) -> f64 {
        self.log_flat[row]
    }

    /// The whole spread of a row.
    pub(crate) fn whole(&self, parts: Parts) -> Whole {
        self.wholes[parts.head * self.stops.len() + parts.stop]
    }

    /// How many whole spreads are told apart.
    pub(crate) fn kinds_of_whole(&self) -> usize {
        1 + self
            .wholes
            .iter()
            .map(|whole| whole.like)
            .fold(0, usize::max)
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
        &self.likelihoods[head].of_kind(kind, span, lag)[first..]
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
        log_sd: 0.6,
    },
};

/// Whole spreads nearer together than this ratio are told as one.
const ONE_LEVEL: f64 = 1.05;

/// The whole spreads of all pairs (head spread, stop spread), head by head.
fn wholes_of(heads: &[Node], stops: &[Node]) -> Vec<Whole> {
    let mut wholes = Vec::with_capacity(heads.len() * stops.len());
    for head in heads {
        for stop in stops {
            let spread = (head.value * head.value + stop.value * stop.value).sqrt();
            wholes.push(Whole {
                spread,
                level: Level::of(spread),
                like: 0,
            });
        }
    }
    let mut order: Vec<usize> = (0..wholes.len()).collect();
    order.sort_by(|one, other| wholes[*one].spread.total_cmp(&wholes[*other].spread));
    let (mut like, mut limit) = (
        0,
        order
            .first()
            .map_or(0.0, |least| ONE_LEVEL * wholes[*least].spread),
    );
    for whole in order {
        let spread = wholes[whole].spread;
        if spread > limit {
            like += 1;
            limit = ONE_LEVEL * spread;
        }
        wholes[whole].like = like;
    }
    wholes
}

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
