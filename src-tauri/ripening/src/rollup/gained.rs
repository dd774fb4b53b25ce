//! How much two walks differ.

use super::answer::Gathered;
use super::population::{EDGES, edge};
use super::roll_up::RollUp;
use crate::{Band, PerStage, Stage};

/// Places from -1 to 1 between which the probability of a difference is kept.
const PLACES: usize = 400;

/// By how much the share of heads that have reached each stage grew from one
/// walk to a later one, -1 to 1: median and central band of the given level.
///
/// Each walk is taken at its own heads alone and the two as independent; that
/// heads do not grow younger is not put in, so a band that reaches below 0 says
/// that these heads cannot tell whether anything moved.
pub fn gained(earlier: &RollUp, later: &RollUp, level: f64) -> PerStage<Band> {
    let (earlier, later) = (earlier.gathered(), later.gathered());
    PerStage::from_fn(|stage| difference(&cells(earlier, stage), &cells(later, stage), level))
}

/// Probability of each cell of the share, and the middle of the cell.
fn cells(of: &Gathered, stage: Stage) -> Vec<(f64, f64)> {
    let mut before = 0.0;
    (0..EDGES)
        .map(|k| {
            let below = of.heads_below(stage, k + 1);
            let cell = (0.5 * (edge(k) + edge(k + 1)), below - before);
            before = below;
            cell
        })
        .collect()
}

fn difference(earlier: &[(f64, f64)], later: &[(f64, f64)], level: f64) -> Band {
    let mut weight = vec![0.0; PLACES + 1];
    for (from, p) in earlier {
        for (to, q) in later {
            // Between two places, shared out by how near each is.
            let place = 0.5 * PLACES as f64 * (to - from + 1.0);
            let low = (place as usize).min(PLACES - 1);
            let part = place - low as f64;
            weight[low] += p * q * (1.0 - part);
            weight[low + 1] += p * q * part;
        }
    }
    let total: f64 = weight.iter().sum();
    let tail = 0.5 * (1.0 - level.clamp(0.0, 0.999_999));
    let at = |wanted: f64| {
        let mut below = 0.0;
        for (place, weight) in weight.iter().enumerate() {
            below += weight / total;
            if below >= wanted {
                return 2.0 * place as f64 / PLACES as f64 - 1.0;
            }
        }
        1.0
    };
    Band {
        low: at(tail),
        mid: at(0.5),
        high: at(1.0 - tail),
    }
}
