//! One stop's heads, integrated over the stop's own mean.

use super::grid::Window;
use super::nodes::Nodes;
use super::population::{SHAPES, SPANS};
use super::reading_error::Kind;
use crate::Head;

/// The heads of a stop in canonical form: kinds in order, each with its count.
pub(crate) type Content = Vec<(Kind, u32)>;

pub(crate) fn content_of(heads: &[Head]) -> Content {
    let mut kinds: Vec<Kind> = heads.iter().map(|head| Kind::of(*head)).collect();
    kinds.sort_unstable();
    let mut content: Content = Vec::new();
    for kind in kinds {
        match content.last_mut() {
            Some((last, count)) if *last == kind => *count += 1,
            _ => content.push((kind, 1)),
        }
    }
    content
}

/// Likelihood of one stop's heads for every row of the nodes, over a window of
/// planting means. Each row is stored relative to `exp(scale)`.
pub(crate) struct StopTable {
    pub(crate) values: Vec<f32>,
    pub(crate) scales: Vec<f64>,
}

/// Smallest relative likelihood kept: a guard against underflow, far below
/// anything that could still matter.
pub(crate) const FLOOR: f64 = 1e-30;

/// Heads multiplied between two rescalings.
const HEADS_PER_RESCALE: u32 = 16;

impl StopTable {
    /// `room` is memory to use again: a table that is no longer wanted.
    pub(crate) fn new(
        nodes: &Nodes,
        window: Window,
        content: &Content,
        room: Option<StopTable>,
    ) -> StopTable {
        let n = window.len;
        let stops = nodes.stops.len();
        let (mut values, mut scales) = match room {
            Some(table) => (table.values, table.scales),
            None => (Vec::new(), Vec::new()),
        };
        values.resize(nodes.rows() * n, 0.0);
        scales.resize(nodes.rows(), 0.0);
        let mut product = vec![1.0; n];
        let mut sum = vec![1.0; n];
        let mut start = vec![1.0_f32; n];
        let mut room = Vec::new();
        let mut blocks = values.chunks_exact_mut(stops * n);
        let mut block_scales = scales.chunks_exact_mut(stops);
        for span in 0..SPANS.len() {
            for head in 0..nodes.heads.len() {
                for shape in SHAPES {
                    let (Some(rows), Some(scales)) = (blocks.next(), block_scales.next()) else {
                        continue;
                    };
                    let mut scale = f64::NEG_INFINITY;
                    let mut shares = 0.0;
                    for late in shape.late_at_stops() {
                        shares += 1.0;
                        let log = multiply(
                            nodes,
                            content,
                            (span, head),
                            (late, shape.lag),
                            window,
                            &mut product,
                        );
                        scale = add(&mut sum, scale, &product, log);
                    }
                    // Each share is as likely: their mean, not their sum.
                    scales.fill(scale + rescale(&mut sum) - libm::log(shares));
                    for (start, value) in start.iter_mut().zip(&sum) {
                        *start = *value as f32;
                    }
                    let mut from: &[f32] = &start;
                    for (to, smoothing) in rows.chunks_exact_mut(n).zip(&nodes.smoothing) {
                        smoothing.apply(from, to, &mut room);
                        from = to;
                    }
                }
            }
        }
        StopTable { values, scales }
    }
}

/// The likelihood of all heads along the grid when a share `late` of the stop's
/// heads is late by `lag`, relative to the logarithm returned.
fn multiply(
    nodes: &Nodes,
    content: &Content,
    (span, head): (usize, usize),
    (late, lag): (f64, f64),
    window: Window,
    product: &mut [f64],
) -> f64 {
    product.fill(1.0);
    let (on_time, delayed) = ((1.0 - late) as f32, late as f32);
    let mut scale = 0.0;
    let mut since = 0;
    for &(kind, count) in content {
        let main = nodes.kind(kind, span, head, 0.0, window.first);
        let late = nodes.kind(kind, span, head, lag, window.first);
        for _ in 0..count {
            for ((value, main), late) in product.iter_mut().zip(main).zip(late) {
                *value *= f64::from(on_time * main + delayed * late);
            }
            since += 1;
            if since == HEADS_PER_RESCALE {
                scale += rescale(product);
                since = 0;
            }
        }
    }
    scale + rescale(product)
}

/// Adds `product` (relative to `log`) to `sum` (relative to `scale`); returns the
/// scale of the sum.
fn add(sum: &mut [f64], scale: f64, product: &[f64], log: f64) -> f64 {
    if scale == f64::NEG_INFINITY {
        sum.copy_from_slice(product);
        return log;
    }
    let (to, old, new) = if log > scale {
        (log, libm::exp(scale - log), 1.0)
    } else {
        (scale, 1.0, libm::exp(log - scale))
    };
    for (sum, value) in sum.iter_mut().zip(product) {
        *sum = old * *sum + new * value;
    }
    to
}

/// Brings the largest value to 1 and lifts what is below the floor; returns the
/// logarithm of what was divided out.
pub(crate) fn rescale(values: &mut [f64]) -> f64 {
    let largest = largest(values);
    if largest <= 0.0 {
        values.fill(1.0);
        return -700.0;
    }
    let factor = 1.0 / largest;
    for value in values.iter_mut() {
        let scaled = *value * factor;
        *value = if scaled > FLOOR { scaled } else { FLOOR };
    }
    libm::log(largest)
}

/// The largest of some values that are not negative.
pub(crate) fn largest(values: &[f64]) -> f64 {
    // Four at a time, which the compiler can keep side by side.
    let mut lanes = [0.0_f64; 4];
    let chunks = values.chunks_exact(4);
    for &value in chunks.remainder() {
        lanes[0] = if value > lanes[0] { value } else { lanes[0] };
    }
    for chunk in chunks {
        for (lane, &value) in lanes.iter_mut().zip(chunk) {
            *lane = if value > *lane { value } else { *lane };
        }
    }
    lanes
        .into_iter()
        .fold(0.0, |a, b| if b > a { b } else { a })
}

/// The sum of some values, in a fixed order.
pub(crate) fn sum(values: &[f64]) -> f64 {
    let mut lanes = [0.0_f64; 4];
    let chunks = values.chunks_exact(4);
    for &value in chunks.remainder() {
        lanes[0] += value;
    }
    for chunk in chunks {
        for (lane, value) in lanes.iter_mut().zip(chunk) {
            *lane += value;
        }
    }
    (lanes[0] + lanes[1]) + (lanes[2] + lanes[3])
}
