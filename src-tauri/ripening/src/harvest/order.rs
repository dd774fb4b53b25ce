//! Which planting is cut first: one combine and one dryer for all of them.
//!
//! The rule: plantings are cut one after another, each in one go, in half days;
//! the combine never runs ahead of the dryer; a planting starts only on a day
//! on which its grain is more likely than not fit; the combine may stand idle
//! when waiting pays. Of all such orders the one with the highest sum of mean
//! net returns is taken: the best there is for few plantings, and for many the
//! best that moving and swapping single plantings by a few places finds.

use chrono::{Days, NaiveDate};
use serde::{Deserialize, Serialize};

use super::net_return::NetReturns;

/// Up to so many plantings the best order is found for certain.
pub const EXACT_UP_TO: usize = 10;

const SLOTS_PER_DAY: usize = 2;
const LIKELY_FIT: f64 = 0.5;
/// No planting is given more than this many half days.
const LONGEST_CUT: usize = 400;
/// Rounds of moving and swapping.
const ROUNDS: usize = 30;
/// A planting is moved or swapped by at most so many places at once.
const REACH: usize = 8;

/// A planting that waits for the combine. All plantings of one question begin
/// on the same day 0.
#[derive(Debug, Clone, PartialEq)]
pub struct PlantingToCut {
    /// Acres.
    pub acres: f64,
    /// Mean dollars an acre when cut on the very day.
    pub net: Vec<f64>,
    /// Probability that the grain is fit on a day.
    pub fit: Vec<f64>,
    /// Bushel-points an acre that the dryer has to take.
    pub dryer_load: Vec<f64>,
}

impl PlantingToCut {
    /// From the net returns of a planting.
    pub fn new(acres: f64, returns: &NetReturns) -> PlantingToCut {
        let by_day = |value: &dyn Fn(usize) -> f64| (0..returns.days()).map(value).collect();
        PlantingToCut {
            acres,
            net: by_day(&|day| returns.mean_on_the_day(day)),
            fit: by_day(&|day| returns.fit(day)),
            dryer_load: by_day(&|day| returns.dryer_load(day)),
        }
    }
}

/// One planting in the order.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct OrderRow {
    /// Which, counted from 0 in the question.
    pub planting: usize,
    /// First day of cutting.
    pub from: NaiveDate,
    /// Last day of cutting.
    pub to: NaiveDate,
    /// Mean net return of the whole planting, dollars.
    pub net: f64,
    /// Dollars that it loses against having the combine to itself.
    pub given_up: f64,
}

/// How the order was found.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum OrderWay {
    /// It is the best there is.
    Exact,
    /// Too many plantings for that; no near move or swap of one improves it.
    Improved,
}

/// The harvest order.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct Ordered {
    /// In the order of cutting.
    pub rows: Vec<OrderRow>,
    /// Plantings that are not likely fit on any day looked at.
    pub not_fit: Vec<usize>,
    /// Sum of the rows' returns, dollars.
    pub net: f64,
    /// How it was found.
    pub way: OrderWay,
}

/// Cutting one planting from one half day on.
#[derive(Debug, Clone, Copy)]
struct Run {
    end: usize,
    dollars: f64,
}

/// All runs of a planting; `None` on days on which it may not start.
type Runs = Vec<Option<Run>>;

/// Finds the order for a combine of so many acres a day and a dryer of so many
/// bushel-points a day (absent when it never holds up the combine). `today` is
/// day 0 of the plantings.
pub fn harvest_order(
    plantings: &[PlantingToCut],
    combine_acres_per_day: f64,
    dryer_bushel_points_per_day: Option<f64>,
    today: NaiveDate,
) -> Ordered {
    order_with_limit(
        plantings,
        combine_acres_per_day,
        dryer_bushel_points_per_day,
        today,
        EXACT_UP_TO,
    )
}

fn order_with_limit(
    plantings: &[PlantingToCut],
    combine: f64,
    dryer: Option<f64>,
    today: NaiveDate,
    exact_up_to: usize,
) -> Ordered {
    let looked_at = plantings.iter().map(|p| p.net.len()).max().unwrap_or(0);
    let cut: Vec<usize> = (0..plantings.len())
        .filter(|&i| plantings[i].fit.iter().any(|&fit| fit >= LIKELY_FIT))
        .collect();
    let not_fit = (0..plantings.len()).filter(|i| !cut.contains(i)).collect();
    // Beyond the days looked at all stays as on the last of them, so that
    // everything gets cut somewhere.
    let longest: usize = cut
        .iter()
        .map(|&i| slots_to_cut(&plantings[i], combine, dryer))
        .sum();
    let slots = SLOTS_PER_DAY * looked_at + longest;
    let runs: Vec<Runs> = cut
        .iter()
        .map(|&i| runs(&plantings[i], combine, dryer, slots))
        .collect();
    let (order, way) = if cut.len() <= exact_up_to {
        (exact(&runs, slots), OrderWay::Exact)
    } else {
        (improved(&runs, slots), OrderWay::Improved)
    };
    let rows: Vec<OrderRow> = timed(&order, &runs, slots)
        .into_iter()
        .map(|(which, start, run)| {
            let alone = runs[which]
                .iter()
                .flatten()
                .fold(run.dollars, |best, other| best.max(other.dollars));
            OrderRow {
                planting: cut[which],
                from: date_of(today, start),
                to: date_of(today, run.end.max(start + 1) - 1),
                net: run.dollars,
                given_up: alone - run.dollars,
            }
        })
        .collect();
    Ordered {
        net: rows.iter().map(|row| row.net).sum(),
        rows,
        not_fit,
        way,
    }
}

fn date_of(today: NaiveDate, slot: usize) -> NaiveDate {
    let days = u64::try_from(slot / SLOTS_PER_DAY).unwrap_or(0);
    today
        .checked_add_days(Days::new(days))
        .unwrap_or(NaiveDate::MAX)
}

/// Value of a day, the last one's beyond the end.
fn held(values: &[f64], day: usize) -> f64 {
    values.get(day).or(values.last()).copied().unwrap_or(0.0)
}

/// Acres cut in a half day.
fn acres_in_slot(planting: &PlantingToCut, combine: f64, dryer: Option<f64>, slot: usize) -> f64 {
    let load = held(&planting.dryer_load, slot / SLOTS_PER_DAY);
    let by_dryer = match dryer {
        Some(capacity) if load > 0.0 => capacity / load,
        _ => combine,
    };
    combine.min(by_dryer) / SLOTS_PER_DAY as f64
}

/// Half days that a planting takes at most.
fn slots_to_cut(planting: &PlantingToCut, combine: f64, dryer: Option<f64>) -> usize {
    let days = planting.net.len();
    let slowest = (0..days)
        .map(|day| acres_in_slot(planting, combine, dryer, day * SLOTS_PER_DAY))
        .fold(combine, f64::min);
    ((planting.acres / slowest.max(1e-9)).ceil() as usize).clamp(1, LONGEST_CUT)
}

fn runs(planting: &PlantingToCut, combine: f64, dryer: Option<f64>, slots: usize) -> Runs {
    (0..slots)
        .map(|start| {
            if held(&planting.fit, start / SLOTS_PER_DAY) < LIKELY_FIT
                && start / SLOTS_PER_DAY < planting.fit.len()
            {
                return None;
            }
            let mut left = planting.acres;
            let mut dollars = 0.0;
            let mut slot = start;
            while left > 1e-9 && slot < slots && slot < start + LONGEST_CUT {
                let acres = acres_in_slot(planting, combine, dryer, slot).min(left);
                dollars += acres * held(&planting.net, slot / SLOTS_PER_DAY);
                left -= acres;
                slot += 1;
            }
            let rest = held(&planting.net, slot / SLOTS_PER_DAY);
            Some(Run {
                end: slot,
                dollars: dollars + left.max(0.0) * rest,
            })
        })
        .collect()
}

/// The best order, over all sets already cut and all half days.
fn exact(runs: &[Runs], slots: usize) -> Vec<usize> {
    let count = runs.len();
    let full = (1_usize << count) - 1;
    let width = slots + 1;
    // Most dollars still to be had, by what is cut already and the half day.
    let mut most = vec![f64::NEG_INFINITY; (full + 1) * width];
    for value in &mut most[full * width..] {
        *value = 0.0;
    }
    for done in (0..full).rev() {
        for slot in (0..slots).rev() {
            let mut best = most[done * width + slot + 1];
            for (which, of) in runs.iter().enumerate().filter(|(w, _)| done >> w & 1 == 0) {
                if let Some(run) = of[slot] {
                    let then = most[(done | 1 << which) * width + run.end];
                    best = best.max(run.dollars + then);
                }
            }
            most[done * width + slot] = best;
        }
    }
    let (mut done, mut slot, mut order) = (0, 0, Vec::with_capacity(count));
    while done != full && slot < slots {
        let here = most[done * width + slot];
        let next = runs.iter().enumerate().find_map(|(which, of)| {
            let run = of[slot].filter(|_| done >> which & 1 == 0)?;
            let then = most[(done | 1 << which) * width + run.end];
            (run.dollars + then == here).then_some((which, run.end))
        });
        // Where waiting is as good, waiting is not chosen.
        match next {
            Some((which, end)) => {
                order.push(which);
                done |= 1 << which;
                slot = end;
            }
            None => slot += 1,
        }
    }
    // What no longer fits goes last.
    order.extend((0..count).filter(|which| done >> which & 1 == 0));
    order
}

/// Most dollars of one fixed order, with the best waiting in between: `most[k]`
/// by half day, for the plantings from the k-th on.
fn table(order: &[usize], runs: &[Runs], slots: usize) -> Vec<Vec<f64>> {
    let mut most = vec![vec![0.0; slots + 1]; order.len() + 1];
    for (k, &which) in order.iter().enumerate().rev() {
        let (here, after) = most.split_at_mut(k + 1);
        fill(&mut here[k], &after[0], &runs[which], slots);
    }
    most
}

/// Most dollars from each half day on, when one planting comes before `after`.
fn fill(here: &mut [f64], after: &[f64], runs: &Runs, slots: usize) {
    here[slots] = f64::NEG_INFINITY;
    for slot in (0..slots).rev() {
        let start = runs[slot].map_or(f64::NEG_INFINITY, |run| run.dollars + after[run.end]);
        here[slot] = start.max(here[slot + 1]);
    }
}

/// Start and run of each planting of a fixed order.
fn timed(order: &[usize], runs: &[Runs], slots: usize) -> Vec<(usize, usize, Run)> {
    let most = table(order, runs, slots);
    let mut slot = 0;
    let mut rows = Vec::with_capacity(order.len());
    for (k, &which) in order.iter().enumerate() {
        let start = (slot..slots).find_map(|start| {
            let run = runs[which][start]?;
            (run.dollars + most[k + 1][run.end] >= most[k][start]).then_some((start, run))
        });
        if let Some((start, run)) = start {
            rows.push((which, start, run));
            slot = run.end;
        }
    }
    rows
}

/// A good order: from two plain ones, moved and swapped until nothing improves.
fn improved(runs: &[Runs], slots: usize) -> Vec<usize> {
    let best_slot = |which: usize| {
        (0..slots)
            .filter_map(|slot| Some((slot, runs[which][slot]?.dollars)))
            .reduce(|best, other| if other.1 > best.1 { other } else { best })
            .map_or(slots, |(slot, _)| slot)
    };
    let first_slot = |which: usize| {
        (0..slots)
            .find(|&slot| runs[which][slot].is_some())
            .unwrap_or(slots)
    };
    let sorted = |key: &dyn Fn(usize) -> usize| {
        let mut order: Vec<usize> = (0..runs.len()).collect();
        order.sort_by_key(|&which| key(which));
        order
    };
    [sorted(&best_slot), sorted(&first_slot)]
        .into_iter()
        .map(|order| climb(order, runs, slots))
        .reduce(|best, other| if other.1 > best.1 { other } else { best })
        .map_or_else(Vec::new, |(order, _)| order)
}

fn climb(mut order: Vec<usize>, runs: &[Runs], slots: usize) -> (Vec<usize>, f64) {
    let mut most = table(&order, runs, slots);
    let mut value = most[0][0];
    for _ in 0..ROUNDS {
        let before = value;
        for from in 0..order.len() {
            let near = from.saturating_sub(REACH)..(from + REACH + 1).min(order.len());
            for to in near {
                if from == to {
                    continue;
                }
                for swap in [false, true] {
                    let mut candidate = order.clone();
                    if swap {
                        candidate.swap(from, to);
                    } else {
                        let which = candidate.remove(from);
                        candidate.insert(to, which);
                    }
                    let other = worth_changed(&candidate, &most, from.max(to), runs, slots);
                    if other > value + 1e-9 {
                        order = candidate;
                        most = table(&order, runs, slots);
                        value = most[0][0];
                    }
                }
            }
        }
        if value <= before {
            break;
        }
    }
    (order, value)
}

/// Worth of an order that differs from the one of `most` only up to place `last`.
fn worth_changed(
    order: &[usize],
    most: &[Vec<f64>],
    last: usize,
    runs: &[Runs],
    slots: usize,
) -> f64 {
    let mut after = most[last + 1].clone();
    let mut here = vec![f64::NEG_INFINITY; slots + 1];
    for &which in order[..=last].iter().rev() {
        fill(&mut here, &after, &runs[which], slots);
        std::mem::swap(&mut here, &mut after);
    }
    after[0]
}

#[cfg(test)]
mod tests {
    use super::*;

    fn worth(order: &[usize], runs: &[Runs], slots: usize) -> f64 {
        table(order, runs, slots)[0][0]
    }

    fn today() -> NaiveDate {
        NaiveDate::from_ymd_opt(2025, 9, 20).unwrap()
    }

    /// A planting that is fit from `from` on and then loses `drop` dollars a day.
    fn planting(acres: f64, from: usize, peak: f64, drop: f64) -> PlantingToCut {
        let day = |d: usize| peak - drop * d.saturating_sub(from) as f64;
        PlantingToCut {
            acres,
            net: (0..40).map(day).collect(),
            fit: (0..40).map(|d| if d < from { 0.0 } else { 1.0 }).collect(),
            dryer_load: vec![0.0; 40],
        }
    }

    /// The best of all orders, by trying every one.
    fn by_trying_all(runs: &[Runs], slots: usize) -> f64 {
        fn go(left: &mut Vec<usize>, order: &mut Vec<usize>, runs: &[Runs], slots: usize) -> f64 {
            if left.is_empty() {
                return worth(order, runs, slots);
            }
            let mut best = f64::NEG_INFINITY;
            for i in 0..left.len() {
                order.push(left.remove(i));
                best = best.max(go(left, order, runs, slots));
                if let Some(which) = order.pop() {
                    left.insert(i, which);
                }
            }
            best
        }
        go(&mut (0..runs.len()).collect(), &mut Vec::new(), runs, slots)
    }

    /// A fixed sequence that looks random enough (no generator in this crate).
    fn shuffle(seed: &mut u64) -> f64 {
        *seed = seed
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        (*seed >> 40) as f64 / (1_u64 << 24) as f64
    }

    fn farm(seed: &mut u64, count: usize) -> Vec<PlantingToCut> {
        (0..count)
            .map(|_| {
                planting(
                    40.0 + 300.0 * shuffle(seed),
                    (12.0 * shuffle(seed)) as usize,
                    200.0 + 200.0 * shuffle(seed),
                    10.0 * shuffle(seed),
                )
            })
            .collect()
    }

    #[test]
    fn the_one_that_loses_fast_goes_first() {
        let farm = [planting(80.0, 0, 300.0, 1.0), planting(80.0, 0, 300.0, 9.0)];
        let ordered = harvest_order(&farm, 80.0, None, today());
        assert_eq!(
            ordered.rows.iter().map(|r| r.planting).collect::<Vec<_>>(),
            [1, 0]
        );
        assert_eq!(ordered.rows[0].given_up, 0.0);
        // It waits one day: a dollar an acre.
        assert!((ordered.rows[1].given_up - 80.0).abs() < 1e-9);
        assert_eq!(ordered.rows[1].from, today() + Days::new(1));
    }

    #[test]
    fn the_combine_waits_when_that_pays() {
        let farm = [
            planting(400.0, 0, 300.0, 0.0),
            planting(80.0, 1, 300.0, 30.0),
        ];
        let ordered = harvest_order(&farm, 80.0, None, today());
        assert_eq!(ordered.rows[0].planting, 1);
        assert_eq!(ordered.rows[0].from, today() + Days::new(1));
    }

    #[test]
    fn a_small_dryer_holds_up_the_combine() {
        let mut wet = planting(80.0, 0, 300.0, 0.0);
        wet.dryer_load = vec![400.0; 40];
        let ordered = harvest_order(&[wet], 80.0, Some(8000.0), today());
        // 20 acres a day.
        assert_eq!(ordered.rows[0].to, today() + Days::new(3));
    }

    #[test]
    fn grain_that_never_gets_fit_is_named() {
        let farm = [
            planting(80.0, 60, 300.0, 0.0),
            planting(80.0, 2, 300.0, 1.0),
        ];
        let ordered = harvest_order(&farm, 80.0, None, today());
        assert_eq!(ordered.not_fit, [0]);
        assert_eq!(ordered.rows.len(), 1);
    }

    #[test]
    fn the_exact_order_is_the_best_of_all() {
        let mut seed = 1;
        for _ in 0..12 {
            let farm = farm(&mut seed, 5);
            let slots = 200;
            let runs: Vec<Runs> = farm.iter().map(|p| runs(p, 80.0, None, slots)).collect();
            let best = by_trying_all(&runs, slots);
            assert!((worth(&exact(&runs, slots), &runs, slots) - best).abs() < 1e-6);
        }
    }

    /// Moving and swapping came within 0.1 % of the best here; on other farms
    /// the gap may be wider.
    #[test]
    fn moving_and_swapping_comes_close_to_the_best() {
        let mut seed = 7;
        let mut worst: f64 = 0.0;
        for _ in 0..40 {
            let farm = farm(&mut seed, 8);
            let best = order_with_limit(&farm, 80.0, None, today(), 10);
            let near = order_with_limit(&farm, 80.0, None, today(), 0);
            assert_eq!((best.way, near.way), (OrderWay::Exact, OrderWay::Improved));
            worst = worst.max((best.net - near.net) / best.net);
        }
        println!("widest gap: {:.4} %", 100.0 * worst);
        assert!((-1e-9..0.001).contains(&worst));
    }
}
