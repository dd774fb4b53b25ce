//! One stop's heads, integrated over the stop's own mean.

use super::grid::Window;
use super::nodes::Nodes;
use super::population::{LONGEST_LAG, SHAPES, SPANS};
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
#[derive(Clone)]
pub(crate) struct StopTable {
    pub(crate) values: Box<[f64]>,
    pub(crate) scales: Box<[f64]>,
}

/// Smallest relative likelihood kept: a guard against underflow, far below
/// anything that could still matter.
pub(crate) const FLOOR: f64 = 1e-60;

/// Heads multiplied between two rescalings.
const HEADS_PER_RESCALE: u32 = 16;

impl StopTable {
    /// A table that is still to be computed.
    pub(crate) fn empty() -> StopTable {
        StopTable {
            values: Box::default(),
            scales: Box::default(),
        }
    }

    pub(crate) fn new(nodes: &Nodes, window: Window, content: &Content) -> StopTable {
        let stops = nodes.stops.len();
        let mut values = vec![0.0; nodes.rows() * window.len].into_boxed_slice();
        let mut scales = vec![0.0; nodes.rows()].into_boxed_slice();
        let mut product = vec![1.0; window.len];
        let mut term = vec![1.0; window.len];
        let mut room = Vec::new();
        let mut base = 0;
        for span in 0..SPANS.len() {
            for head in 0..nodes.heads.len() {
                for shape in SHAPES {
                    product.fill(1.0);
                    let mut scale = 0.0;
                    let mut since = 0;
                    for &(kind, count) in content {
                        let row = &nodes.kind(kind, span, head)[window.first..];
                        let main = &row[LONGEST_LAG..][..window.len];
                        let late = &row[LONGEST_LAG - shape.lag..][..window.len];
                        for ((term, main), late) in term.iter_mut().zip(main).zip(late) {
                            *term = (1.0 - shape.late) * main + shape.late * late;
                        }
                        for _ in 0..count {
                            for (value, term) in product.iter_mut().zip(&term) {
                                *value *= term;
                            }
                            since += 1;
                            if since == HEADS_PER_RESCALE {
                                scale += rescale(&mut product);
                                since = 0;
                            }
                        }
                    }
                    scale += rescale(&mut product);
                    let rows = &mut values[base * stops * window.len..][..stops * window.len];
                    for (stop, smoothing) in nodes.smoothing.iter().enumerate() {
                        let (done, rest) = rows.split_at_mut(stop * window.len);
                        let to = &mut rest[..window.len];
                        if stop == 0 {
                            smoothing.apply(&product, to, &mut room);
                        } else {
                            let from = &done[(stop - 1) * window.len..];
                            smoothing.apply(from, to, &mut room);
                        }
                    }
                    for stop in 0..stops {
                        scales[base * stops + stop] = scale;
                    }
                    base += 1;
                }
            }
        }
        StopTable { values, scales }
    }
}

/// Brings the largest value to 1 and lifts what is below the floor; returns the
/// logarithm of what was divided out.
pub(crate) fn rescale(values: &mut [f64]) -> f64 {
    let largest = values
        .iter()
        .fold(0.0_f64, |a, &b| if b > a { b } else { a });
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
