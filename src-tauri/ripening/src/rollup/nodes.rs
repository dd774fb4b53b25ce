//! The points over what a walk does not show directly: the span of a head, the
//! spread of heads at a stop and of stops in the planting.

use std::sync::{Arc, OnceLock};

use super::grid::{POINTS, STEP, mean_at};
use super::population::{LONGEST_LAG, SHAPES, SPANS, level_of};
use super::reading_error::Kind;

/// One value and its prior probability.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Node {
    pub(crate) value: f64,
    pub(crate) weight: f64,
}

/// Smoothing from one stop spread to the next larger one.
pub(crate) struct Smoothing {
    /// Distance between taps, in steps of the grid.
    pub(crate) stride: usize,
    /// Weights of the taps from the middle outwards.
    pub(crate) taps: Vec<f64>,
}

/// All nodes, with what can be tabulated once for them.
pub(crate) struct Nodes {
    pub(crate) heads: Vec<Node>,
    pub(crate) stops: Vec<Node>,
    pub(crate) smoothing: Vec<Smoothing>,
    /// For each pair (head spread, stop spread): level below and part above.
    pub(crate) levels: Vec<(usize, f64)>,
    kinds: Vec<OnceLock<Box<[f64]>>>,
}

/// Points of a tabulated kind: the grid, preceded by room for the longest lag.
const PADDED: usize = POINTS + LONGEST_LAG;

impl Nodes {
    pub(crate) fn new(heads: Vec<Node>, stops: Vec<Node>) -> Nodes {
        let levels = heads
            .iter()
            .flat_map(|head| {
                stops.iter().map(|stop| {
                    level_of((head.value * head.value + stop.value * stop.value).sqrt())
                })
            })
            .collect();
        let mut before = 0.0;
        let smoothing = stops
            .iter()
            .map(|stop| {
                let smoothing = Smoothing::new(before, stop.value);
                before = stop.value;
                smoothing
            })
            .collect();
        Nodes {
            heads,
            stops,
            smoothing,
            levels,
            kinds: (0..Kind::COUNT).map(|_| OnceLock::new()).collect(),
        }
    }

    /// The weak prior: head spread about 80 units, stop spread about 40, each
    /// known to a factor of about two.
    pub(crate) fn fresh() -> Arc<Nodes> {
        static FRESH: OnceLock<Arc<Nodes>> = OnceLock::new();
        FRESH
            .get_or_init(|| {
                Arc::new(Nodes::new(
                    lognormal(80.0, 0.6, 0.36, 7),
                    lognormal(40.0, 0.8, 0.6, 6),
                ))
            })
            .clone()
    }

    /// Rows of a table: span, head spread, shape, stop spread (fastest).
    pub(crate) fn rows(&self) -> usize {
        SPANS.len() * self.heads.len() * SHAPES.len() * self.stops.len()
    }

    /// Prior probability of a row.
    pub(crate) fn row_weight(&self, row: usize) -> f64 {
        let (span, head, shape, stop) = self.parts(row);
        SPANS[span].1 * self.heads[head].weight * SHAPES[shape].weight * self.stops[stop].weight
    }

    /// Places of a row's span, head spread, shape and stop spread.
    pub(crate) fn parts(&self, row: usize) -> (usize, usize, usize, usize) {
        let stop = row % self.stops.len();
        let row = row / self.stops.len();
        let shape = row % SHAPES.len();
        let row = row / SHAPES.len();
        (row / self.heads.len(), row % self.heads.len(), shape, stop)
    }

    /// Likelihood of a kind over the whole grid (with room for the lag before
    /// it) for a span and a head spread.
    pub(crate) fn kind(&self, kind: Kind, span: usize, head: usize) -> &[f64] {
        let table = self.kinds[kind.index()].get_or_init(|| {
            let mut table = Vec::with_capacity(SPANS.len() * self.heads.len() * PADDED);
            for (span, _) in SPANS {
                for node in &self.heads {
                    for place in 0..PADDED {
                        let mean = mean_at(place) - STEP * LONGEST_LAG as f64;
                        table.push(kind.likelihood(mean, node.value, span));
                    }
                }
            }
            table.into_boxed_slice()
        });
        let at = (span * self.heads.len() + head) * PADDED;
        &table[at..at + PADDED]
    }
}

/// Points at equal steps of the logarithm around a median, weighed by a
/// lognormal density.
pub(crate) fn lognormal(median: f64, log_sd: f64, step: f64, count: usize) -> Vec<Node> {
    let middle = 0.5 * (count - 1) as f64;
    let mut nodes: Vec<Node> = (0..count)
        .map(|i| {
            let log = (i as f64 - middle) * step;
            Node {
                value: median * libm::exp(log),
                weight: libm::exp(-0.5 * (log / log_sd) * (log / log_sd)),
            }
        })
        .collect();
    let total: f64 = nodes.iter().map(|node| node.weight).sum();
    for node in &mut nodes {
        node.weight /= total;
    }
    nodes
}

impl Smoothing {
    /// Smoothing that takes what has the normal spread `from` to spread `to`.
    fn new(from: f64, to: f64) -> Smoothing {
        let sd = (to * to - from * from).max(1e-6).sqrt();
        // What is smoothed has at least the spread `from`; the product of it and
        // the kernel is as wide as their harmonic mean, which sets how far apart
        // the taps may be.
        let width = if from > 0.0 {
            1.0 / (1.0 / (from * from) + 1.0 / (sd * sd)).sqrt()
        } else {
            0.0
        };
        let stride = ((1.2 * width / STEP) as usize).max(1);
        let distance = stride as f64 * STEP;
        let reach = (3.6 * sd / distance) as usize;
        let mut taps: Vec<f64> = (0..=reach)
            .map(|i| {
                let z = i as f64 * distance / sd;
                libm::exp(-0.5 * z * z)
            })
            .collect();
        let total = taps[0] + 2.0 * taps[1..].iter().sum::<f64>();
        for tap in &mut taps {
            *tap /= total;
        }
        Smoothing { stride, taps }
    }

    /// Smooths `from` into `to`; beyond its ends `from` is taken as constant.
    /// `room` is scratch space.
    pub(crate) fn apply(&self, from: &[f64], to: &mut [f64], room: &mut Vec<f64>) {
        let n = from.len();
        let reach = (self.taps.len() - 1) * self.stride;
        room.clear();
        room.resize(reach, from[0]);
        room.extend_from_slice(from);
        room.resize(n + 2 * reach, from[n - 1]);
        for (value, middle) in to.iter_mut().zip(&room[reach..]) {
            *value = self.taps[0] * middle;
        }
        for (i, tap) in self.taps.iter().enumerate().skip(1) {
            let back = &room[reach - i * self.stride..][..n];
            let ahead = &room[reach + i * self.stride..][..n];
            for ((value, back), ahead) in to.iter_mut().zip(back).zip(ahead) {
                *value += tap * (back + ahead);
            }
        }
    }
}
