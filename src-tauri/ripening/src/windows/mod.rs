//! Windows that cost money: when something is at stake, from the planting's own
//! dates. Each carries a code for its source and one for its caution; the words,
//! in every language, are with the screens.
//!
//! Nothing here decides: labels, local rules and licensed advisers do, and the
//! caution says so where it matters.

mod bloom;
mod boot;
mod code;
mod forage;
mod freeze_cost;
mod span;
mod timed;

use serde::{Deserialize, Serialize};

pub use bloom::BloomWeather;
pub use boot::BootNights;
pub use code::{Caution, Source};
pub use forage::{ForageRisk, FreezePast};
pub use freeze_cost::{FREEZE_LOSSES, FreezeLoss};
pub use span::{SpanBand, Standing};

use crate::outlook::Followed;
use crate::stage::Stage;

/// What the planting is grown for, as far as windows differ.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Use {
    /// Dry grain or seed.
    Grain,
    /// Whole-plant silage or other forage.
    Forage,
}

/// One window.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct MoneyWindow {
    /// What it is about.
    pub kind: WindowKind,
    /// When; `None` where the dates cannot be said.
    pub span: Option<SpanBand>,
    /// Whether it is ahead, open or past on the day of the outlook.
    pub standing: Standing,
    /// Where its numbers come from.
    pub source: Source,
    /// What to keep in mind, and who decides.
    pub caution: Caution,
}

/// What a window is about, with what was found.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case", tag = "what")]
pub enum WindowKind {
    /// Cold nights at boot can make pollen sterile.
    BootNights(BootNights),
    /// Heat and rain over bloom.
    BloomWeather(BloomWeather),
    /// Last irrigation, around soft dough.
    LastIrrigation,
    /// Silage cut, at soft dough.
    Silage,
    /// Harvest aid may be considered: black layer and below 30 % moisture.
    HarvestAid,
    /// Freeze before black layer, and what it would cost.
    Freeze(FreezeLoss),
    /// Prussic acid after a freeze, in forage.
    PrussicAcid(ForageRisk),
    /// Nitrate in forage after drought or a freeze.
    Nitrate(ForageRisk),
}

/// All windows of a followed planting, in the order of the season. `dry_enough`
/// are the dates by which its grain is below 30 % moisture, where known.
pub fn windows(
    followed: &Followed,
    purpose: Use,
    dry_enough: Option<&crate::dry_down::Window>,
) -> Vec<MoneyWindow> {
    let dates = span::Dates::of(followed);
    let mut windows = vec![boot::window(&dates), bloom::window(&dates)];
    windows.push(timed::window(
        &dates,
        WindowKind::LastIrrigation,
        Stage::SoftDough,
    ));
    match purpose {
        Use::Grain => windows.push(timed::harvest_aid(&dates, dry_enough)),
        Use::Forage => windows.push(timed::window(&dates, WindowKind::Silage, Stage::SoftDough)),
    }
    windows.push(freeze_cost::window(&dates));
    if purpose == Use::Forage {
        windows.push(forage::prussic_acid(&dates));
        windows.push(forage::nitrate(&dates));
    }
    windows
}
