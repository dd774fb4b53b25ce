//! An earlier posterior, moved forward by heat: the history of a planting.

use std::sync::Arc;

use super::nodes::{Node, Nodes};
use super::population::{SHAPES, SPANS};
use super::posterior::Posterior;

/// What earlier walks say of a planting's mean age today, and of its spreads.
pub(crate) struct History {
    nodes: Arc<Nodes>,
    /// Joint probability of row and mean over the whole grid.
    mass: Vec<f64>,
    /// Where the mean lies.
    pub(crate) extent: (f64, f64),
    pub(crate) heads: u32,
    pub(crate) stops: u32,
}

impl History {
    /// Moves a posterior by `by` heat units, blurred by a normal spread `sd`.
    pub(crate) fn moved(posterior: &Posterior, by: f64, sd: f64) -> History {
        let grid = posterior.nodes.grid();
        let points = grid.points;
        let reach = (4.5 * sd / grid.step) as i64 + 1;
        let whole = (by / grid.step) as i64;
        let kernel: Vec<f64> = (-reach..=reach)
            .map(|i| {
                let z = ((whole + i) as f64 * grid.step - by) / sd;
                libm::exp(-0.5 * z * z)
            })
            .collect();
        let total: f64 = kernel.iter().sum();
        let mut mass = vec![0.0; posterior.nodes.rows() * points];
        for (row, _, values) in posterior.live_rows() {
            let to = &mut mass[row * points..][..points];
            for (i, &value) in values.iter().enumerate() {
                if value <= 1e-14 {
                    continue;
                }
                let start = (posterior.window.first + i) as i64 + whole - reach;
                for (j, weight) in kernel.iter().enumerate() {
                    // What moves past the end of the grid stays at its end.
                    let place = (start + j as i64).clamp(0, points as i64 - 1) as usize;
                    to[place] += value * weight / total;
                }
            }
        }
        let (low, high) = posterior.extent();
        History {
            nodes: posterior.nodes.clone(),
            mass,
            extent: (low + by - 4.0 * sd, high + by + 4.0 * sd),
            heads: posterior.heads,
            stops: posterior.stops,
        }
    }

    /// The same probability on other nodes: the ratio of history to weak prior
    /// is read between the nodes it was computed on, and given to `nodes`.
    pub(crate) fn on(&self, nodes: &Nodes) -> Vec<f64> {
        let (from, to) = (self.nodes.grid(), nodes.grid());
        let heads = between(&self.nodes.heads, &nodes.heads);
        let stops = between(&self.nodes.stops, &nodes.stops);
        let mut mass = vec![0.0; nodes.rows() * to.points];
        let mut line = vec![0.0; from.points];
        for span in 0..SPANS.len() {
            for (head, head_parts) in heads.iter().enumerate() {
                for shape in 0..SHAPES.len() {
                    for (stop, stop_parts) in stops.iter().enumerate() {
                        line.fill(0.0);
                        let weight = nodes.heads[head].weight * nodes.stops[stop].weight;
                        for &(h, head_part) in head_parts {
                            for &(s, stop_part) in stop_parts {
                                let row = self.nodes.row(super::nodes::Parts {
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
                        let row = nodes.row(super::nodes::Parts {
                            span,
                            head,
                            shape,
                            stop,
                        });
                        let out = &mut mass[row * to.points..][..to.points];
                        for (i, out) in out.iter_mut().enumerate() {
                            let place = from.place(to.mean(i as i64));
                            let low = (place as usize).min(from.points - 2);
                            let part = (place - low as f64).min(1.0);
                            *out = (line[low] + part * (line[low + 1] - line[low])) * to.step
                                / from.step;
                        }
                    }
                }
            }
        }
        mass
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
