//! The harvest choice of one planting.

use chrono::NaiveDate;
use serde::{Deserialize, Serialize};

use super::HarvestError;
use super::guess::Whose;
use super::net_return::NetReturns;
use super::plan::{HarvestInput, HarvestPlan};
use crate::Band;
use crate::dry_down::{MoisturePaths, band};

/// A day may be chosen when the grain is more likely than not fit to cut.
const LIKELY_FIT: f64 = 0.5;
const WEEK: usize = 7;

/// Net return of beginning to cut on one day, as soon as the grain is fit.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct HarvestDay {
    /// The day.
    pub date: NaiveDate,
    /// Dollars an acre: P10, P50 and P90.
    pub net: Band,
    /// Mean, dollars an acre.
    pub mean: f64,
    /// Probability that the grain is fit to cut on that day.
    pub fit: f64,
}

/// The day with the highest mean.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct BestDay {
    /// The day, with its return.
    pub day: HarvestDay,
    /// Days, from the first to the last, whose mean is within one percent of it:
    /// the choice among them hardly matters.
    pub as_good_from: NaiveDate,
    /// See `as_good_from`.
    pub as_good_to: NaiveDate,
    /// It is the last day looked at, so a later one may be better.
    pub at_the_end: bool,
}

/// What waiting a week costs against cutting on the first day that is fit.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct WaitingAWeek {
    /// The first day likely fit.
    pub from: NaiveDate,
    /// Dollars an acre lost by waiting, P10, P50 and P90; below zero is a gain.
    pub cost: Band,
    /// Mean, dollars an acre.
    pub mean: f64,
    /// Probability that waiting loses.
    pub loses: f64,
}

/// Why no day is named.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum NoBestDay {
    /// Nobody has said or counted what standing loses; without it, waiting
    /// would always look free.
    LossNotKnown,
    /// Nobody has said what wet grain costs; without it, the wettest grain
    /// would be paid for like grain at base moisture.
    WetGrainCostNotKnown,
    /// The grain is not likely fit on any day looked at.
    NotFitInTime,
}

/// The harvest choice of one planting.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct HarvestChoice {
    /// Level of the bands, 0-1.
    pub level: f64,
    /// Day by day from today.
    pub days: Vec<HarvestDay>,
    /// The best day.
    pub best: Option<BestDay>,
    /// What waiting a week costs.
    pub waiting: Option<WaitingAWeek>,
    /// Why there is no best day.
    pub why: Option<NoBestDay>,
    /// Inputs that are the user's guess or our assumption.
    pub guesses: Vec<HarvestInput>,
}

/// Works out the choice.
///
/// # Errors
/// [`HarvestError`] when a number of the plan cannot be.
pub fn harvest_choice(
    plan: &HarvestPlan,
    paths: &MoisturePaths,
) -> Result<HarvestChoice, HarvestError> {
    let returns = NetReturns::new(plan, paths)?;
    let mut values = Vec::with_capacity(returns.courses());
    let days: Vec<HarvestDay> = (0..returns.days())
        .map(|day| {
            values.clear();
            values.extend(returns.on(day));
            let mean = values.iter().sum::<f64>() / values.len() as f64;
            HarvestDay {
                date: paths.date(day),
                net: band(&mut values),
                mean,
                fit: returns.fit(day),
            }
        })
        .collect();
    let first_fit = days.iter().position(|day| day.fit >= LIKELY_FIT);
    let loss_known = plan.loss.percent_per_day.is_some();
    let why = match (loss_known, plan.wet_grain_cost_known(), first_fit) {
        (false, _, _) => Some(NoBestDay::LossNotKnown),
        (true, false, _) => Some(NoBestDay::WetGrainCostNotKnown),
        (true, true, None) => Some(NoBestDay::NotFitInTime),
        (true, true, Some(_)) => None,
    };
    let named = why.is_none().then_some(first_fit).flatten();
    let best = named.and_then(|from| best_day(&days, from));
    let waiting = named
        .filter(|&from| from + WEEK < returns.days())
        .map(|from| waiting(&returns, paths, from, &mut values));
    let guesses = HarvestInput::ALL
        .into_iter()
        .filter(|input| {
            input
                .of(plan)
                .is_some_and(|guess| matches!(guess.whose, Whose::User | Whose::Assumed))
        })
        .collect();
    Ok(HarvestChoice {
        level: 0.8,
        days,
        best,
        waiting,
        why,
        guesses,
    })
}

fn best_day(days: &[HarvestDay], from: usize) -> Option<BestDay> {
    let choosable = || days.iter().skip(from).filter(|day| day.fit >= LIKELY_FIT);
    // The earliest of equals.
    let day = choosable()
        .copied()
        .reduce(|best, day| if day.mean > best.mean { day } else { best })?;
    let margin = 0.01 * if day.mean < 0.0 { -day.mean } else { day.mean };
    let mut good = choosable().filter(|other| day.mean - other.mean <= margin);
    let as_good_from = good.next()?.date;
    let as_good_to = good.next_back().map_or(as_good_from, |last| last.date);
    Some(BestDay {
        day,
        as_good_from,
        as_good_to,
        at_the_end: days.last().is_some_and(|last| last.date == day.date),
    })
}

fn waiting(
    returns: &NetReturns,
    paths: &MoisturePaths,
    from: usize,
    values: &mut Vec<f64>,
) -> WaitingAWeek {
    values.clear();
    values.extend(
        (0..returns.courses())
            .map(|course| returns.net(course, from) - returns.net(course, from + WEEK)),
    );
    let count = values.len() as f64;
    let losing = values.iter().filter(|&&cost| cost > 0.0).count();
    let mean = values.iter().sum::<f64>() / count;
    WaitingAWeek {
        from: paths.date(from),
        cost: band(values),
        mean,
        loses: losing as f64 / count,
    }
}
