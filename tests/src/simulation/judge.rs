//! From a field's truth and an answer to cases that can be counted.

use ripening::rollup::Prior;
use ripening::{Head, Stage, WholeField};

use super::field::{Spread, Truth};
use super::rivals::StopCount;
use super::tally::{Case, Interval};

/// The stages that the limits speak of.
pub const GRAIN_STAGES: [Stage; 4] = [
    Stage::Milk,
    Stage::SoftDough,
    Stage::HardDough,
    Stage::BlackLayer,
];

/// The floor: the model's prior, but told both spreads, to a twentieth.
pub fn told(spread: Spread) -> Prior {
    Prior::with_spreads(spread.stop, spread.head, 0.05)
}

/// Whether a share is one that the limits speak of.
pub fn judged(share: f64) -> bool {
    (0.05..=0.95).contains(&share)
}

/// Cases of the shares of heads that have reached each stage.
pub fn reached_cases(field: usize, truth: &Truth, answer: &WholeField) -> Vec<Case> {
    cases(field, |stage| {
        (
            *truth.reached.get(stage),
            (*answer.reached.get(stage)).into(),
        )
    })
}

/// Cases of the shares of grain that have reached each stage.
pub fn grain_cases(field: usize, truth: &Truth, answer: &WholeField) -> Vec<Case> {
    cases(field, |stage| {
        (*truth.grain.get(stage), (*answer.grain.get(stage)).into())
    })
}

/// The same for a rival, which sees the heads alone.
pub fn rival_cases(
    field: usize,
    truth: &Truth,
    walk: &[Vec<Head>],
    band: impl Fn(&StopCount) -> Interval,
) -> Vec<Case> {
    cases(field, |stage| {
        (*truth.reached.get(stage), band(&StopCount::of(walk, stage)))
    })
}

/// The band of the position, where the truth lies between half bloom and black layer.
pub fn position_case(field: usize, truth: &Truth, answer: &WholeField) -> Option<Case> {
    truth
        .position
        .filter(|position| *position < 9.0)
        .map(|position| Case {
            band: answer.position.into(),
            truth: position,
            field,
        })
}

fn cases(field: usize, of_stage: impl Fn(Stage) -> (f64, Interval)) -> Vec<Case> {
    GRAIN_STAGES
        .into_iter()
        .map(of_stage)
        .filter(|(truth, _)| judged(*truth))
        .map(|(truth, band)| Case { band, truth, field })
        .collect()
}
