//! How much the answer depends on each input, one at a time.

use chrono::NaiveDate;
use serde::{Deserialize, Serialize};

use super::HarvestError;
use super::guess::Guess;
use super::net_return::NetReturns;
use super::plan::{HarvestInput, HarvestPlan};
use crate::dry_down::MoisturePaths;

/// The answer with one input at its two ends, the others as they are.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct SensitivityRow {
    /// Which input.
    pub input: HarvestInput,
    /// Its value and ends, and whose they are.
    pub guess: Guess,
    /// Mean dollars an acre on the best day, with the input at its low end.
    pub net_at_low: f64,
    /// With it at its high end.
    pub net_at_high: f64,
    /// The best day with it at its low end; absent where no day is fit.
    pub best_at_low: Option<NaiveDate>,
    /// With it at its high end.
    pub best_at_high: Option<NaiveDate>,
    /// Dollars an acre given away by keeping to the day that is best now, if
    /// the input truly is at the worse of its ends: what knowing it is worth.
    pub regret: f64,
}

/// One row for each input that has a range, the one with most regret first,
/// then the one that moves the return most.
///
/// # Errors
/// [`HarvestError`] when a number of the plan cannot be.
pub fn sensitivity(
    plan: &HarvestPlan,
    paths: &MoisturePaths,
) -> Result<Vec<SensitivityRow>, HarvestError> {
    let chosen = best(&NetReturns::new(plan, paths)?);
    let mut rows = Vec::new();
    for input in HarvestInput::ALL {
        let Some(guess) = input.of(plan).filter(|guess| guess.low < guess.high) else {
            continue;
        };
        let low = NetReturns::new(&input.put(plan, guess.low), paths)?;
        let high = NetReturns::new(&input.put(plan, guess.high), paths)?;
        let regret = |returns: &NetReturns| match (chosen, best(returns)) {
            (Some((day, _)), Some((_, most))) => most - returns.mean(day),
            _ => 0.0,
        };
        let (at_low, at_high) = (best(&low), best(&high));
        rows.push(SensitivityRow {
            input,
            guess,
            net_at_low: at_low.map_or(0.0, |(_, net)| net),
            net_at_high: at_high.map_or(0.0, |(_, net)| net),
            best_at_low: at_low.map(|(day, _)| paths.date(day)),
            best_at_high: at_high.map(|(day, _)| paths.date(day)),
            regret: regret(&low).max(regret(&high)),
        });
    }
    let swing = |row: &SensitivityRow| (row.net_at_high - row.net_at_low).abs();
    rows.sort_by(|a, b| {
        b.regret
            .total_cmp(&a.regret)
            .then_with(|| swing(b).total_cmp(&swing(a)))
    });
    Ok(rows)
}

/// Best likely fit day and its mean.
fn best(returns: &NetReturns) -> Option<(usize, f64)> {
    (0..returns.days())
        .filter(|&day| returns.fit(day) >= 0.5)
        .map(|day| (day, returns.mean(day)))
        .reduce(|best, day| if day.1 > best.1 { day } else { best })
}
