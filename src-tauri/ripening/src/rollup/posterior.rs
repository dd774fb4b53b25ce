//! The joint posterior of a planting's mean age and everything around it.

use std::sync::Arc;

use super::grid::{FIRST, POINTS, STEP, Window, mean_at};
use super::nodes::Nodes;
use super::population::{HALF, heads_passed};
use super::prior::Prior;
use super::stop::{FLOOR, StopTable, rescale};

/// What is known of a planting after a walk, on the nodes it was computed on.
#[derive(Clone)]
pub struct Posterior {
    pub(crate) nodes: Arc<Nodes>,
    pub(crate) window: Window,
    /// Probability of each row and mean, summing to 1.
    pub(crate) mass: Vec<f64>,
    /// Logarithm of the probability of the heads under the prior (up to a
    /// factor that depends on the heads only).
    pub(crate) log_evidence: f64,
}

/// Stops multiplied between two rescalings; their floors stay far from the
/// smallest number.
const STOPS_PER_RESCALE: usize = 4;

/// Steps by which the middle head may be younger than the mean.
const MIDDLE_LAG: usize = 34;

impl Posterior {
    /// Multiplies the stops (in canonical order) into the prior.
    pub(crate) fn new(prior: &Prior, window: Window, stops: &[&StopTable]) -> Posterior {
        let nodes = &prior.nodes;
        let rows = nodes.rows();
        let mut mass = vec![0.0; rows * window.len];
        let mut logs = vec![0.0; rows];
        for row in 0..rows {
            let values = &mut mass[row * window.len..][..window.len];
            for (i, value) in values.iter_mut().enumerate() {
                let probability = prior.probability(row, window.first + i);
                *value = if probability > FLOOR {
                    probability
                } else {
                    FLOOR
                };
            }
            let mut log = rescale(values);
            for (i, stop) in stops.iter().enumerate() {
                log += stop.scales[row];
                let factors = &stop.values[row * window.len..][..window.len];
                for (value, factor) in values.iter_mut().zip(factors) {
                    *value *= factor;
                }
                if (i + 1) % STOPS_PER_RESCALE == 0 {
                    log += rescale(values);
                }
            }
            logs[row] = log + rescale(values);
        }
        let largest = logs
            .iter()
            .fold(f64::NEG_INFINITY, |a, &b| if b > a { b } else { a });
        let mut total = 0.0;
        for (row, log) in logs.iter().enumerate() {
            let values = &mut mass[row * window.len..][..window.len];
            let below = log - largest;
            if below < -40.0 {
                values.fill(0.0);
                continue;
            }
            let factor = libm::exp(below);
            for value in values {
                *value = if *value > 1e-30 { *value * factor } else { 0.0 };
                total += *value;
            }
        }
        let factor = 1.0 / total;
        for value in &mut mass {
            *value *= factor;
        }
        Posterior {
            nodes: nodes.clone(),
            window,
            mass,
            log_evidence: largest + libm::log(total),
        }
    }

    /// The joint probability over the whole grid after a normal move.
    pub(crate) fn moved(&self, by: f64, sd: f64) -> Arc<[f64]> {
        let n = self.window.len;
        let rows = self.nodes.rows();
        let reach = (5.0 * sd / STEP) as i64 + 1;
        let whole = (by / STEP) as i64;
        let kernel: Vec<f64> = (-reach..=reach)
            .map(|i| {
                let z = ((whole + i) as f64 * STEP - by) / sd;
                libm::exp(-0.5 * z * z)
            })
            .collect();
        let total: f64 = kernel.iter().sum();
        let mut moved = vec![0.0; rows * POINTS];
        for row in 0..rows {
            let from = &self.mass[row * n..][..n];
            let to = &mut moved[row * POINTS..][..POINTS];
            for (i, &value) in from.iter().enumerate() {
                if value <= 1e-14 {
                    continue;
                }
                let start = (self.window.first + i) as i64 + whole - reach;
                for (j, weight) in kernel.iter().enumerate() {
                    // What moves past the end of the grid stays at its end.
                    let place = (start + j as i64).clamp(0, POINTS as i64 - 1) as usize;
                    to[place] += value * weight / total;
                }
            }
        }
        moved.into()
    }

    /// Where [`Posterior::moved`] has its mass.
    pub(crate) fn extent_moved(&self, by: f64, sd: f64) -> Window {
        let n = self.window.len;
        let mut sums = vec![0.0; n];
        for row in self.mass.chunks_exact(n) {
            for (sum, value) in sums.iter_mut().zip(row) {
                *sum += value;
            }
        }
        let first = sums.iter().position(|&v| v > 1e-6).unwrap_or(0);
        let last = sums.iter().rposition(|&v| v > 1e-6).unwrap_or(n - 1);
        Window::covering(
            mean_at(self.window.first + first) + by - 4.0 * sd,
            mean_at(self.window.first + last) + by + 4.0 * sd,
        )
    }

    /// Age of the planting's middle head (half of the heads are older) and its
    /// probability, at equal steps of age. Under [`Prior::fresh`] this is the
    /// likelihood of that age from the heads alone.
    ///
    /// The ends are left out where the grid over the mean age cannot fill them:
    /// the first and the last entry stand for everything beyond.
    pub fn middle_ages(&self) -> Vec<(f64, f64)> {
        let n = self.window.len;
        let mut bins = vec![0.0; POINTS];
        for (row, values) in self.mass.chunks_exact(n).enumerate() {
            let shift = self.window.first as f64 - self.middle_before_mean(row) / STEP;
            for (i, &value) in values.iter().enumerate() {
                let place = i as f64 + shift;
                if place >= 0.0 {
                    let below = place as usize;
                    let part = place - below as f64;
                    bins[below.min(POINTS - 1)] += (1.0 - part) * value;
                    bins[(below + 1).min(POINTS - 1)] += part * value;
                }
            }
        }
        bins.truncate(POINTS - MIDDLE_LAG);
        (0..)
            .map(|i: u32| FIRST + STEP * f64::from(i))
            .zip(bins)
            .skip(1)
            .collect()
    }

    /// Expected age of the planting's middle head, heat units.
    pub(crate) fn middle(&self) -> f64 {
        let n = self.window.len;
        let mut sum = 0.0;
        for (row, values) in self.mass.chunks_exact(n).enumerate() {
            let weight: f64 = values.iter().sum();
            if weight > 0.0 {
                let first: f64 = values.iter().enumerate().map(|(i, v)| i as f64 * v).sum();
                sum += weight * (self.window.low() - self.middle_before_mean(row)) + STEP * first;
            }
        }
        sum
    }

    /// How far the middle head's age lies before the planting's mean, for a row.
    pub(crate) fn middle_before_mean(&self, row: usize) -> f64 {
        let (_, head, shape, stop) = self.nodes.parts(row);
        let (level, part) = self.nodes.levels[head * self.nodes.stops.len() + stop];
        let at = |level| heads_passed().of(level, shape)[HALF];
        at(level) + part * (at(level + 1) - at(level))
    }
}
