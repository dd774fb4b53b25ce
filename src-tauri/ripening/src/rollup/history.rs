//! An earlier posterior, moved forward by heat: the history of a planting.

use std::sync::Arc;

use super::grid::Grid;
use super::nodes::{Node, Nodes, Parts};
use super::population::{SHAPES, SPANS};
use super::posterior::Posterior;

/// What earlier walks say of a planting's mean age today, and of its spreads.
pub(crate) struct History {
    nodes: Arc<Nodes>,
    /// The means of the posterior, moved, and room for the blur.
    grid: Grid,
    /// Joint probability of row and mean.
    mass: Vec<f64>,
    /// Where the mean lies.
    pub(crate) extent: (f64, f64),
    pub(crate) heads: u32,
    pub(crate) stops: u32,
}

impl History {
    /// Moves a posterior by `by` heat units, blurred by a normal spread `sd`.
    pub(crate) fn moved(posterior: &Posterior, by: f64, sd: f64) -> History {
        let before = posterior.nodes.grid();
        let reach = (4.5 * sd / before.step) as usize + 1;
        let mut kernel: Vec<f64> = (0..=2 * reach)
            .map(|i| {
                let z = (i as f64 - reach as f64) * before.step / sd;
                libm::exp(-0.5 * z * z)
            })
            .collect();
        let total: f64 = kernel.iter().sum();
        for weight in &mut kernel {
            *weight /= total;
        }
        let start = before.mean(posterior.window.first as i64 - reach as i64);
        let grid = Grid {
            first: start + by,
            step: before.step,
            points: posterior.window.len + 2 * reach,
        };
        let mut mass = vec![0.0; posterior.nodes.rows() * grid.points];
        for (row, _, values) in posterior.live_rows() {
            let to = &mut mass[row * grid.points..][..grid.points];
            for (i, &value) in values.iter().enumerate() {
                if value <= 1e-14 {
                    continue;
                }
                for (to, weight) in to[i..].iter_mut().zip(&kernel) {
                    *to += value * weight;
                }
            }
        }
        drift(&posterior.nodes, &mut mass, grid.points);
        let (low, high) = posterior.extent();
        History {
            nodes: posterior.nodes.clone(),
            grid,
            mass,
            extent: (low + by - 4.0 * sd, high + by + 4.0 * sd),
            heads: posterior.heads,
            stops: posterior.stops,
        }
    }

    /// The same probability on other nodes: the ratio of history to weak prior
    /// is read between the nodes it was computed on, and given to `nodes`.
    pub(crate) fn on(&self, nodes: &Nodes) -> Vec<f64> {
        let (from, to) = (self.grid, nodes.grid());
        let heads = between(&self.nodes.heads, &nodes.heads);
        let stops = between(&self.nodes.stops, &nodes.stops);
        let mut mass = vec![0.0; nodes.rows() * to.points];
        let mut line = vec![0.0; from.points];
        // The means of the new nodes that the history reaches.
        let first = to.place(from.mean(0)).max(0.0) as usize;
        let last = to.place(from.mean(from.points as i64)).max(0.0) as usize + 1;
        for span in 0..SPANS.len() {
            for (head, head_parts) in heads.iter().enumerate() {
                for shape in 0..SHAPES.len() {
                    for (stop, stop_parts) in stops.iter().enumerate() {
                        line.fill(0.0);
                        let weight = nodes.heads[head].weight * nodes.stops[stop].weight;
                        for &(h, head_part) in head_parts {
                            for &(s, stop_part) in stop_parts {
                                let row = self.nodes.row(Parts {
                                    span,
                                    head: h,
                                    shape,
                                    stop: s,
                                });
                                let prior = self.nodes.heads[h].weight * self.nodes.stops[s].weight;
                                let factor = head_part * stop_part * weight / prior;
                                if factor > 0.0 {
                                    let values = &self.mass[row * from.points..][..from.points];
                                    for (to, value) in line.iter_mut().zip(values) {
                                        *to += factor * value;
                                    }
                                }
                            }
                        }
                        let row = nodes.row(Parts {
                            span,
                            head,
                            shape,
                            stop,
                        });
                        let out = &mut mass[row * to.points..][..to.points];
                        for (i, out) in out.iter_mut().enumerate().take(last).skip(first) {
                            let place = from.place(to.mean(i as i64));
                            if place < 0.0 || place > (from.points - 1) as f64 {
                                continue;
                            }
                            let low = (place as usize).min(from.points - 2);
                            let part = place - low as f64;
                            let here = line[low] + part * (line[low + 1] - line[low]);
                            *out = here * to.step / from.step;
                        }
                    }
                }
            }
        }
        mass
    }
}

/// Part of the probability of a share of late heads that goes, from one walk to the
/// next, to each share beside it: the next walk sees other places of the planting,
/// and its true share lies between those weighed. Without it, heads of many walks
/// would decide for one of them ever more surely.
const DRIFT: f64 = 0.05;

/// Lets the share of late heads drift.
fn drift(nodes: &Nodes, mass: &mut [f64], points: usize) {
    let before = mass.to_vec();
    for row in 0..nodes.rows() {
        let parts = nodes.parts(row);
        let to = &mut mass[row * points..][..points];
        for (shape, other) in SHAPES.iter().enumerate() {
            if !other.is_beside(SHAPES[parts.shape]) {
                continue;
            }
            let come = &before[nodes.row(Parts { shape, ..parts }) * points..];
            let go = &before[row * points..];
            for ((to, come), go) in to.iter_mut().zip(come).zip(go) {
                *to += DRIFT * (come - go);
            }
        }
    }
}

/// For each new node, the old nodes around it (on the logarithm) and their
/// parts; none where it lies more than half a step outside.
fn between(old: &[Node], new: &[Node]) -> Vec<[(usize, f64); 2]> {
    let logs: Vec<f64> = old.iter().map(|node| libm::log(node.value)).collect();
    let last = logs.len() - 1;
    let half = 0.5 * (logs[1] - logs[0]);
    new.iter()
        .map(|node| {
            let log = libm::log(node.value);
            if log < logs[0] - half || log > logs[last] + half {
                return [(0, 0.0), (0, 0.0)];
            }
            let above = logs.iter().position(|&l| l >= log).unwrap_or(last).max(1);
            let part = ((log - logs[above - 1]) / (logs[above] - logs[above - 1])).clamp(0.0, 1.0);
            [(above - 1, 1.0 - part), (above, part)]
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// What becomes of all probability on one shape: shape by shape.
    fn drifted(shape: usize) -> Vec<f64> {
        let nodes = Nodes::usual();
        let at = |shape| {
            nodes.row(Parts {
                span: 1,
                head: 2,
                shape,
                stop: 3,
            })
        };
        let mut mass = vec![0.0; nodes.rows()];
        mass[at(shape)] = 1.0;
        drift(&nodes, &mut mass, 1);
        let all: f64 = mass.iter().sum();
        assert!((all - 1.0).abs() < 1e-12, "{all}");
        (0..SHAPES.len()).map(|shape| mass[at(shape)]).collect()
    }

    #[test]
    fn a_share_drifts_to_those_beside_it_at_the_same_lag() {
        for (shape, from) in SHAPES.iter().enumerate() {
            for (to, part) in drifted(shape).into_iter().enumerate() {
                let near = (SHAPES[to].late - from.late).abs() < 0.2
                    && from.late > 0.0
                    && SHAPES[to].late > 0.0;
                if to != shape && near && SHAPES[to].lag == from.lag {
                    assert!((part - DRIFT).abs() < 1e-12, "{shape} to {to}: {part}");
                } else if to != shape {
                    assert_eq!(part, 0.0, "{shape} to {to}");
                }
            }
        }
    }

    #[test]
    fn one_peak_stays_one_peak() {
        assert_eq!(drifted(0)[0], 1.0);
    }
}
