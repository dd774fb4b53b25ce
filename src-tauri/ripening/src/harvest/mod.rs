//! Harvest choice: cut now and pay for drying, or wait and lose heads, weight
//! and grade. An answer is a distribution of net return, not a rule, and says
//! which of its inputs are guesses and how much the answer depends on each.

mod choice;
mod ground_loss;
mod guess;
mod net_return;
mod order;
mod plan;
mod sensitivity;
mod standing;
mod wet_grain;

pub use choice::{BestDay, HarvestChoice, HarvestDay, NoBestDay, WaitingAWeek, harvest_choice};
pub use ground_loss::{
    GroundCount, SEEDS_PER_HEAD, SEEDS_PER_POUND, bushels_per_acre, counted_loss_per_day,
    ground_loss_worked,
};
pub use guess::{Guess, Whose};
pub use net_return::NetReturns;
pub use order::{EXACT_UP_TO, OrderRow, OrderWay, Ordered, PlantingToCut, harvest_order};
pub use plan::{
    Dryer, Freeze, HarvestInput, HarvestPlan, Outlet, StandingLoss, WET_DAY_MM, Weathering,
};
pub use sensitivity::{SensitivityRow, sensitivity};
pub use standing::{StandingCheck, StandingScore, standing_score};
pub use wet_grain::{WetGrainCost, WetGrainPay, pay_for_a_cwt, wet_grain_pay};

use thiserror::Error;

use crate::dry_down::DryDownError;
use crate::grain::{DiscountError, GrainError};

/// Why a harvest plan was refused.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum HarvestError {
    /// A number that cannot be.
    #[error(transparent)]
    Grain(#[from] GrainError),
    /// A discount table that cannot be.
    #[error(transparent)]
    Discount(#[from] DiscountError),
    /// No moisture ahead.
    #[error(transparent)]
    DryDown(#[from] DryDownError),
    /// A range whose ends do not enclose its value.
    #[error("the range of {0} does not enclose its value: put low, value and high in order")]
    RangeOutOfOrder(&'static str),
}
