//! A freeze before black layer, and what it would cost at the stage it meets.

use serde::{Deserialize, Serialize};

use super::code::{Caution, Source};
use super::span::Dates;
use super::{MoneyWindow, WindowKind};
use crate::outlook::FreezeChance;
use crate::stage::Stage;

/// Published loss of grain weight, percent, after 28 F for four hours
/// (Staggenborg & Vanderlip 1996): stage met, least, most.
pub const FREEZE_LOSSES: [(Stage, f64, f64); 3] = [
    (Stage::SoftDough, 27.0, 52.0),
    (Stage::HardDough, 6.5, 27.0),
    // No loss after physiological maturity.
    (Stage::BlackLayer, 0.0, 0.0),
];

/// Chances of freezes, and the published loss at the stage the first of 28 F would
/// most likely meet.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct FreezeLoss {
    /// By temperature, warmest first; empty when the days ahead cannot be told.
    pub chances: Vec<FreezeChance>,
    /// Stage that a freeze of 28 F before black layer would most likely meet;
    /// `None` where it is before soft dough, of which no published loss was found.
    pub meets: Option<Stage>,
    /// Published loss of grain weight there, percent: least.
    pub loss_low: Option<f64>,
    /// Most.
    pub loss_high: Option<f64>,
}

pub(super) fn window(dates: &Dates<'_>) -> MoneyWindow {
    let span = dates.between((Stage::SoftDough, 0), (Stage::BlackLayer, 0));
    let chances = dates
        .freezes()
        .map(|freezes| freezes.by_temperature)
        .unwrap_or_default();
    let meets = chances
        .iter()
        .find(|chance| chance.at_f == crate::outlook::INJURY_F)
        .filter(|chance| chance.before_black_layer > 0.0)
        .and_then(|chance| {
            let stages = [
                (None, chance.before_soft_dough),
                (Some(Stage::SoftDough), chance.at_soft_dough),
                (Some(Stage::HardDough), chance.at_hard_dough),
            ];
            stages
                .into_iter()
                .max_by(|a, b| a.1.total_cmp(&b.1))
                .and_then(|(stage, _)| stage)
        });
    let loss = FREEZE_LOSSES
        .into_iter()
        .find(|(stage, _, _)| Some(*stage) == meets);
    MoneyWindow {
        kind: WindowKind::Freeze(FreezeLoss {
            chances,
            meets,
            loss_low: loss.map(|(_, low, _)| low),
            loss_high: loss.map(|(_, _, high)| high),
        }),
        standing: dates.standing(span),
        span,
        source: Source::FreezeLoss,
        caution: Caution::LowGroundFreezesFirst,
    }
}
