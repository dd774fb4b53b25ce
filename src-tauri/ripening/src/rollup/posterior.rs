//! The joint posterior of a planting's mean age and everything around it.

use std::sync::Arc;

use super::grid::{Grid, Window};
use super::nodes::Nodes;
use super::population::{HALF, heads_passed};
use super::stop::{FLOOR, StopTable, largest, rescale, sum};

/// What is known of a planting after a walk, on the nodes it was computed on.
#[derive(Clone)]
pub struct Posterior {
    pub(crate) nodes: Arc<Nodes>,
    /// Those that its next walk is computed on, as [`super::Prior`] has them; set where
    /// a walk ends ([`super::RollUp::posterior`]).
    pub(crate) usual: Arc<Nodes>,
    pub(crate) window: Window,
    /// The rows that are not left out, and the probability of each.
    live: Vec<(usize, f64)>,
    /// Probability of each mean of these rows, one row after the other; all of it
    /// comes to 1.
    mass: Vec<f64>,
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

/// A row as it was multiplied.
struct Found {
    row: usize,
    /// The logarithm of its largest value.
    log: f64,
    /// That value, and the sum of all, as they stand.
    peak: f64,
    sum: f64,
}

impl Posterior {
    /// Multiplies the stops (in canonical order) into the prior: `prior` gives
    /// the probability of each row and mean of the whole grid, or of each row
    /// alone where every mean is as likely. `room` is memory to use again.
    pub(crate) fn new(
        nodes: &Arc<Nodes>,
        prior: Option<&[f64]>,
        window: Window,
        stops: &[&StopTable],
        room: Vec<f64>,
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
                    None => nodes.log_flat(row),
                    Some(values) => libm::log(largest(values).max(FLOOR)),
                };
                let scales = stops.iter().map(|stop| stop.scales[row]);
                highest + scales.sum::<f64>()
            })
            .collect();
        let mut mass = room;
        mass.clear();
        mass.reserve(rows * window.len);
        // Puts a row behind the others; answers with the logarithm of its largest
        // value, and with that value and the sum of all as they stand.
        let multiply = |row: usize, mass: &mut Vec<f64>| {
            let start = mass.len();
            let at = row * window.len..(row + 1) * window.len;
            let mut log = stops.iter().map(|stop| stop.scales[row]).sum::<f64>();
            let mut rest = stops;
            match (prior_of(row), stops) {
                (Some(prior), _) => {
                    mass.extend_from_slice(prior);
                    log += rescale(&mut mass[start..]);
                }
                (None, [first, others @ ..]) => {
                    mass.extend(first.values[at.clone()].iter().copied().map(f64::from));
                    log += nodes.log_flat(row);
                    rest = others;
                }
                (None, []) => {
                    mass.resize(start + window.len, 1.0);
                    log += nodes.log_flat(row);
                }
            }
            let values = &mut mass[start..];
            for (i, stop) in rest.iter().enumerate() {
                if i > 0 && i % STOPS_PER_RESCALE == 0 {
                    log += rescale(values);
                }
                for (value, factor) in values.iter_mut().zip(&stop.values[at.clone()]) {
                    *value *= f64::from(*factor);
                }
            }
            let peak = largest(values);
            (log + libm::log(peak), peak, sum(values))
        };
        // The row that may come highest first: what cannot come near it is left out.
        let first =
            bounds.iter().enumerate().fold(
                0,
                |best, (row, bound)| if *bound > bounds[best] { row } else { best },
            );
        let (mut highest, _, _) = multiply(first, &mut mass);
        mass.clear();
        let mut found: Vec<Found> = Vec::with_capacity(rows);
        for (row, bound) in bounds.into_iter().enumerate() {
            // Tables are rounded to seven places, so that a bound may be passed by a hair.
            if row != first && bound + 1.0 < highest + NEGLIGIBLE {
                continue;
            }
            let start = mass.len();
            let (log, peak, sum) = multiply(row, &mut mass);
            if log < highest + NEGLIGIBLE {
                mass.truncate(start);
                continue;
            }
            found.push(Found {
                row,
                log,
                peak,
                sum,
            });
            if log > highest {
                highest = log;
            }
        }
        let mut live: Vec<(usize, f64)> = found
            .iter()
            .map(|found| {
                let to_highest = libm::exp(found.log - highest) / found.peak;
                (found.row, to_highest * found.sum)
            })
            .collect();
        let total: f64 = live.iter().map(|(_, weight)| weight).sum();
        let rows = found.iter().zip(&mut live);
        for ((found, (_, weight)), values) in rows.zip(mass.chunks_exact_mut(window.len)) {
            *weight /= total;
            let (factor, floor) = (*weight / found.sum, 2.0 * FLOOR * found.peak);
            for value in values {
                *value = if *value > floor { *value * factor } else { 0.0 };
            }
        }
        Posterior {
            nodes: nodes.clone(),
            usual: nodes.clone(),
            window,
            live,
            mass,
            log_evidence: highest + libm::log(total),
            heads: 0,
            stops: 0,
        }
    }

    /// The rows that have any probability, with it.
    pub(crate) fn live_rows(&self) -> impl Iterator<Item = (usize, f64, &[f64])> {
        self.live
            .iter()
            .zip(self.mass.chunks_exact(self.window.len))
            .map(|(&(row, weight), values)| (row, weight, values))
    }

    /// Its memory, to be used again.
    pub(crate) fn into_room(self) -> Vec<f64> {
        self.mass
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
    /// probability, at equal steps of age. Under [`super::Prior::fresh`] this is the
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
        let whole = self.nodes.whole(parts);
        heads_passed().at(HALF).of(whole.level, parts.shape)
    }
}
