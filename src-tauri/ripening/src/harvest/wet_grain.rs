//! What wet grain costs a seller beside the weight of its water. Nothing is
//! assumed of it: while nobody has said, no day can be named, since grain at
//! 25 % would be paid for like grain at base moisture.

use serde::{Deserialize, Serialize};

use super::HarvestError;
use super::guess::{Guess, Whose};
use super::net_return::Terms;
use super::plan::{HarvestPlan, Outlet};
use crate::grain::{
    DryerUse, Factor, Fuel, GrainError, PUBLISHED_BASE, buyer_weight_off, drying_cost,
};

/// What is known of the cost of wet grain that a buyer shrinks to base
/// moisture. The buyer's own table of moisture discounts counts beside either.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
#[serde(tag = "way", rename_all = "snake_case")]
pub enum WetGrainCost {
    /// The energy that drying takes, fuel and fans, comes off the pay.
    Energy {
        /// What is burned.
        fuel: Fuel,
        /// Dollars a unit of fuel (0-100).
        fuel_price: Guess,
        /// Energy, gallons of propane for a bushel and a point.
        energy_use: Guess,
    },
    /// A shrink factor that takes the place of the weight of the water, and a
    /// charge for drying.
    Shrink {
        /// Percent of the weight for each point above base moisture; not below
        /// what the water alone weighs.
        per_point: f64,
        /// Dollars a wet bushel for each point above base moisture (0-1).
        charge_per_bushel_point: f64,
    },
}

impl WetGrainCost {
    /// The rule of thumb for all energy, at a price of fuel.
    pub fn energy(fuel: Fuel, fuel_price: Guess) -> WetGrainCost {
        let DryerUse { low, typical, high } = DryerUse::ALL_ENERGY;
        WetGrainCost::Energy {
            fuel,
            fuel_price,
            energy_use: Guess::new(low, typical, high, Whose::Published),
        }
    }

    /// Dollars for one wet bushel and one point.
    pub(super) fn per_bushel_point(&self) -> Result<f64, GrainError> {
        match self {
            WetGrainCost::Energy {
                fuel,
                fuel_price,
                energy_use,
            } => {
                let usage = DryerUse {
                    low: energy_use.low,
                    typical: energy_use.value,
                    high: energy_use.high,
                };
                let base = PUBLISHED_BASE;
                Ok(drying_cost(base + 1.0, base, *fuel, fuel_price.value, usage)?.typical)
            }
            WetGrainCost::Shrink {
                charge_per_bushel_point,
                ..
            } => Ok(*charge_per_bushel_point),
        }
    }

    /// Percent of the weight that comes off for each point; absent where it is
    /// the water's own.
    pub(super) fn shrink_per_point(&self) -> Option<f64> {
        match self {
            WetGrainCost::Energy { .. } => None,
            WetGrainCost::Shrink { per_point, .. } => Some(*per_point),
        }
    }

    pub(super) fn checked(&self, base: f64) -> Result<(), GrainError> {
        if let WetGrainCost::Shrink {
            per_point,
            charge_per_bushel_point,
        } = *self
        {
            buyer_weight_off(base, base, per_point)?;
            crate::grain::in_range(
                "charge per bushel and point",
                charge_per_bushel_point,
                0.0,
                1.0,
            )?;
        }
        Ok(())
    }
}

impl HarvestPlan {
    /// Whether anything says what wet grain costs: a dryer of one's own, a
    /// known cost, or lines of moisture discounts. A table that only refuses
    /// does not say it.
    pub fn wet_grain_cost_known(&self) -> bool {
        let by_table = self
            .discounts
            .table(Factor::Moisture)
            .is_some_and(|table| !table.steps.is_empty());
        match self.outlet {
            Outlet::DriedFirst(_) => true,
            Outlet::SoldAsCut { shrunk } => by_table || (shrunk && self.wet_cost.is_some()),
        }
    }
}

/// Pay for a hundredweight as cut, at one moisture.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct WetGrainPay {
    /// Percent wet basis.
    pub moisture: f64,
    /// Percent of the weight as cut that is not paid for.
    pub weight_off: f64,
    /// Dollars a hundredweight as cut that drying or charges take.
    pub charged: f64,
    /// Dollars a hundredweight as cut, after all of it; absent where the buyer
    /// refuses.
    pub dollars_per_cwt: Option<f64>,
}

/// Pay at base moisture, four points above it, and at the wettest that is to
/// be cut, in that order: three moistures at which a user can compare the terms
/// with the buyer's ticket before they count.
///
/// # Errors
/// [`HarvestError`] when a number of the plan cannot be.
pub fn wet_grain_pay(plan: &HarvestPlan) -> Result<[WetGrainPay; 3], HarvestError> {
    let terms = Terms::new(plan, 0)?;
    let base = plan.base_moisture;
    let middle = base + 4.0;
    let wettest = plan.wettest_to_cut.max(middle + 1.0);
    Ok([base, middle, wettest].map(|moisture| pay_at(&terms, moisture)))
}

/// Pay at one moisture.
///
/// # Errors
/// [`HarvestError`] when a number of the plan cannot be, or the moisture is
/// outside 0-60 %.
pub fn pay_for_a_cwt(plan: &HarvestPlan, moisture: f64) -> Result<WetGrainPay, HarvestError> {
    crate::grain::in_range("moisture", moisture, 0.0, 60.0)?;
    Ok(pay_at(&Terms::new(plan, 0)?, moisture))
}

fn pay_at(terms: &Terms<'_>, moisture: f64) -> WetGrainPay {
    let paid = terms.paid(moisture, 0);
    WetGrainPay {
        moisture,
        weight_off: 100.0 * (1.0 - paid.share),
        charged: paid.charged,
        dollars_per_cwt: paid.price.map(|price| paid.share * price - paid.charged),
    }
}
