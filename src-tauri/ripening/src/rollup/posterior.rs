//! The joint posterior of a planting's mean age and everything around it.

use std::sync::Arc;

use super::grid::{Grid, Window};
use super::nodes::Nodes;
use super::population::{HALF, heads_passed};
use super::stop::{FLOOR, StopTable, largest, rescale};

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
    /// Heads and stops behind it, earlier walks included.
    pub(crate) heads: u32,
    pub(crate) stops: u32,
}

/// Stops multiplied between two rescalings; their floors stay far from the
/// smallest number.
const STOPS_PER_RESCALE: usize = 4;

/// Rows and means below this logarithm of the likeliest row are left out.
const NEGLIGIBLE: f64 = -16.0;

/// Distance between the ages of [`Posterior::middle_ages`], heat units.
const AGE_STEP: f64 = 12.0;
/// By how much the middle head may be younger than the mean, heat units.
const MIDDLE_LAG: f64 = 276.0;

impl Posterior {
    /// Multiplies the stops (in canonical order) into the prior: `prior` gives
    /// the probability of each row and mean of the whole grid, or of each row
    /// alone where every mean is as likely.
    pub(crate) fn new(
        nodes: &Arc<Nodes>,
        prior: Option<&[f64]>,
        window: Window,
        stops: &[&StopTable],
    ) -> Posterior {
        let rows = nodes.rows();
        let points = nodes.grid().points;
        // The prior of a row along the window; none where every mean is as likely.
        let prior_of =
            |row: usize| prior.map(|prior| &prior[row * points + window.first..][..window.len]);
        // No row can come above its prior's largest times each stop's largest.
        let bounds: Vec<f64> = (0..rows)
            .map(|row| {
                let highest = match prior_of(row) {
                    None => nodes.flat(row),
                    Some(values) => largest(values),
                };
                let scales = stops.iter().map(|stop| stop.scales[row]);
                libm::log(highest.max(FLOOR)) + scales.sum::<f64>()
            })
            .collect();
        let mut mass = vec![0.0; rows * window.len];
        let mut logs = vec![f64::NEG_INFINITY; rows];
        let multiply = |row: usize, values: &mut [f64]| {
            let mut log = match prior_of(row) {
                None => {
                    values.fill(1.0);
                    libm::log(nodes.flat(row))
                }
                Some(prior) => {
                    values.copy_from_slice(prior);
                    rescale(values)
                }
            };
            for (i, stop) in stops.iter().enumerate() {
                log += stop.scales[row];
                let factors = &stop.values[row * window.len..][..window.len];
                for (value, factor) in values.iter_mut().zip(factors) {
                    *value *= f64::from(*factor);
                }
                if (i + 1) % STOPS_PER_RESCALE == 0 {
                    log += rescale(values);
                }
            }
            log + rescale(values)
        };
        // The row that may come highest first: what cannot come near it is left out.
        let first =
            bounds.iter().enumerate().fold(
                0,
                |best, (row, bound)| if *bound > bounds[best] { row } else { best },
            );
        logs[first] = multiply(first, &mut mass[first * window.len..][..window.len]);
        let mut highest = logs[first];
        for (row, values) in mass.chunks_exact_mut(window.len).enumerate() {
            // Tables are rounded to seven places, so that a bound may be passed by a hair.
            if row == first || bounds[row] + 1.0 < highest + NEGLIGIBLE {
                continue;
            }
            logs[row] = multiply(row, values);
            if logs[row] > highest {
                highest = logs[row];
            }
        }
        let mut total = 0.0;
        for (log, values) in logs.iter().zip(mass.chunks_exact_mut(window.len)) {
            let below = log - highest;
            if below < NEGLIGIBLE {
                values.fill(0.0);
                continue;
            }
            let factor = libm::exp(below);
            for value in values {
                *value = if *value > 2.0 * FLOOR {
                    *value * factor
                } else {
                    0.0
                };
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
            log_evidence: highest + libm::log(total),
            heads: 0,
            stops: 0,
        }
    }

    /// The rows that have any probability, with it.
    pub(crate) fn live_rows(&self) -> impl Iterator<Item = (usize, f64, &[f64])> {
        self.mass
            .chunks_exact(self.window.len)
            .enumerate()
            .map(|(row, values)| (row, values.iter().sum::<f64>(), values))
            .filter(|(_, weight, _)| *weight > 0.0)
    }

    /// The means between which all but a millionth of the probability lies.
    pub(crate) fn extent(&self) -> (f64, f64) {
        let n = self.window.len;
        let mut sums = vec![0.0; n];
        for (_, _, values) in self.live_rows() {
            for (sum, value) in sums.iter_mut().zip(values) {
                *sum += value;
            }
        }
        let first = sums.iter().position(|&v| v > 1e-7).unwrap_or(0);
        let last = sums.iter().rposition(|&v| v > 1e-7).unwrap_or(n - 1);
        let mean = |i: usize| self.nodes.grid().mean((self.window.first + i) as i64);
        (mean(first), mean(last))
    }

    /// Age of the planting's middle head (half of the heads are older) and its
    /// probability, at equal steps of age. Under [`Prior::fresh`] this is the
    /// likelihood of that age from the heads alone.
    ///
    /// The ends are left out where the grid over the mean age cannot fill them:
    /// the first and the last entry stand for everything beyond.
    pub fn middle_ages(&self) -> Vec<(f64, f64)> {
        let ages = Grid::widest(AGE_STEP);
        let grid = self.nodes.grid();
        let mut bins = vec![0.0; ages.points];
        for (row, _, values) in self.live_rows() {
            let before = self.middle_before_mean(row);
            for (i, &value) in values.iter().enumerate() {
                let mean = grid.mean((self.window.first + i) as i64);
                let place = ages.place(mean - before);
                if place >= 0.0 {
                    let below = place as usize;
                    let part = place - below as f64;
                    bins[below.min(ages.points - 1)] += (1.0 - part) * value;
                    bins[(below + 1).min(ages.points - 1)] += part * value;
                }
            }
        }
        bins.truncate(ages.points - (MIDDLE_LAG / AGE_STEP) as usize);
        bins.into_iter()
            .enumerate()
            .map(|(i, bin)| (ages.mean(i as i64), bin))
            .skip(1)
            .collect()
    }

    /// Expected age of the planting's middle head, heat units.
    pub(crate) fn middle(&self) -> f64 {
        let grid = self.nodes.grid();
        let low = grid.mean(self.window.first as i64);
        let mut sum = 0.0;
        for (row, weight, values) in self.live_rows() {
            let first: f64 = values.iter().enumerate().map(|(i, v)| i as f64 * v).sum();
            sum += weight * (low - self.middle_before_mean(row)) + grid.step * first;
        }
        sum
    }

    /// How far the middle head's age lies before the planting's mean, for a row.
    pub(crate) fn middle_before_mean(&self, row: usize) -> f64 {
        let parts = self.nodes.parts(row);
        let (level, part) = self.nodes.level(parts);
        let at = |level| heads_passed().of(level, parts.shape)[HALF];
        at(level) + part * (at(level + 1) - at(level))
    }
}
