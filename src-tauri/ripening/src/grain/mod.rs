//! Grain and money: what a load is worth at the moisture it is cut at.

mod discount;
mod drying;
mod grade;
mod shrink;
mod storage;
mod worked;

pub use discount::{
    Discount, DiscountError, DiscountLine, DiscountSchedule, DiscountStep, DiscountTable, Discounts,
};
pub use drying::{DryerUse, DryingCost, Fuel, all_energy_cents_per_point, drying_cost};
pub use grade::{FactorGrade, Grade, GradeAnswer, grade};
pub use shrink::{
    MOST_SHRINK_PER_POINT, POUNDS_PER_BUSHEL, PUBLISHED_BASE, buyer_shrink_worked,
    buyer_weight_off, dry_share, least_shrink_per_point, pounds_equal_to_a_bushel, shrink_worked,
    value_per_cwt, value_worked, water_per_point,
};
pub use storage::{StorageDays, StorageStretch, storage_days, storage_used};
pub use worked::{Formula, Quantity, Term, Unit, Worked};

use serde::{Deserialize, Serialize};
use thiserror::Error;

/// A factor that grain is graded or discounted by.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum Factor {
    /// Percent wet basis. Not a grade factor.
    Moisture,
    /// Pounds per bushel; the only factor that is worse when lower.
    TestWeight,
    /// Heat-damaged kernels, percent.
    HeatDamage,
    /// Damaged kernels in all, percent.
    TotalDamage,
    /// Foreign material, percent.
    ForeignMaterial,
    /// Broken kernels and foreign material, percent.
    BrokenAndForeign,
}

impl Factor {
    /// All factors, in the order they are shown.
    pub const ALL: [Factor; 6] = [
        Factor::Moisture,
        Factor::TestWeight,
        Factor::HeatDamage,
        Factor::TotalDamage,
        Factor::ForeignMaterial,
        Factor::BrokenAndForeign,
    ];

    /// Name in files and on the command line.
    pub fn word(self) -> &'static str {
        match self {
            Factor::Moisture => "moisture",
            Factor::TestWeight => "test_weight",
            Factor::HeatDamage => "heat_damage",
            Factor::TotalDamage => "total_damage",
            Factor::ForeignMaterial => "foreign_material",
            Factor::BrokenAndForeign => "broken_and_foreign",
        }
    }

    /// Whether `value` is on the worse side of `limit`.
    pub(crate) fn beyond(self, value: f64, limit: f64) -> bool {
        match self {
            Factor::TestWeight => value < limit,
            _ => value > limit,
        }
    }
}

/// What was measured on a sample of grain; absent where it was not.
#[derive(Debug, Clone, Copy, Default, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
#[serde(default)]
pub struct Sample {
    /// Percent wet basis.
    pub moisture: Option<f64>,
    /// Pounds per bushel.
    pub test_weight: Option<f64>,
    /// Heat-damaged kernels, percent.
    pub heat_damage: Option<f64>,
    /// Damaged kernels in all, percent.
    pub total_damage: Option<f64>,
    /// Foreign material, percent.
    pub foreign_material: Option<f64>,
    /// Broken kernels and foreign material, percent.
    pub broken_and_foreign: Option<f64>,
    /// Musty, sour, heating, badly weathered or otherwise of distinctly low
    /// quality, in the eyes of the one who looked.
    pub distinctly_low_quality: bool,
}

impl Sample {
    /// The value of one factor.
    pub fn get(&self, factor: Factor) -> Option<f64> {
        match factor {
            Factor::Moisture => self.moisture,
            Factor::TestWeight => self.test_weight,
            Factor::HeatDamage => self.heat_damage,
            Factor::TotalDamage => self.total_damage,
            Factor::ForeignMaterial => self.foreign_material,
            Factor::BrokenAndForeign => self.broken_and_foreign,
        }
    }

    /// # Errors
    /// [`GrainError`] when a value is impossible.
    pub fn checked(&self) -> Result<(), GrainError> {
        for factor in Factor::ALL {
            let Some(value) = self.get(factor) else {
                continue;
            };
            let (low, high) = match factor {
                Factor::Moisture => (0.0, 60.0),
                Factor::TestWeight => (20.0, 80.0),
                _ => (0.0, 100.0),
            };
            in_range(factor.word(), value, low, high)?;
        }
        Ok(())
    }
}

/// Why a grain value was refused.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum GrainError {
    /// A shrink factor below the weight of the water.
    #[error(
        "a shrink of {per_point} % a point pays for water: at base {base} % water alone is \
         {least} %, use {least} or more"
    )]
    PaysForWater {
        /// The factor.
        per_point: f64,
        /// Base moisture, percent.
        base: f64,
        /// Least that is accepted.
        least: f64,
    },
    /// A number outside what can be.
    #[error("{name} {value} is out of range: use {low} to {high}")]
    OutOfRange {
        /// What the number stands for.
        name: &'static str,
        /// The number.
        value: f64,
        /// Least that is accepted.
        low: f64,
        /// Most that is accepted.
        high: f64,
    },
}

/// Refuses a number that is not within its range (or not a number).
pub(crate) fn in_range(
    name: &'static str,
    value: f64,
    low: f64,
    high: f64,
) -> Result<f64, GrainError> {
    if (low..=high).contains(&value) {
        Ok(value)
    } else {
        Err(GrainError::OutOfRange {
            name,
            value,
            low,
            high,
        })
    }
}
