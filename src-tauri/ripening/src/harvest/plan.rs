//! What a harvest choice is worked out from: the planting, the outlet, the
//! dryer, and what standing longer costs. The sliders change this.

use serde::{Deserialize, Serialize};

use super::HarvestError;
use super::guess::{Guess, Whose};
use super::wet_grain::WetGrainCost;
use crate::grain::{
    DiscountSchedule, DryerUse, Fuel, GrainError, PUBLISHED_BASE, Sample, drying_cost, in_range,
};

/// A day with this much rain, mm, counts as wet for weathering and storm loss
/// (our convention).
pub const WET_DAY_MM: f64 = 5.0;

/// Where the grain goes.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
#[serde(tag = "way", rename_all = "snake_case")]
pub enum Outlet {
    /// Sold as it is cut.
    SoldAsCut {
        /// Whether the buyer shrinks wet grain to base; otherwise moisture is
        /// paid for as grain and only the discount table speaks.
        shrunk: bool,
    },
    /// Dried to base first, then sold.
    DriedFirst(Dryer),
}

/// A dryer of one's own.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct Dryer {
    /// What it burns.
    pub fuel: Fuel,
    /// Dollars a unit of fuel (0-100).
    pub fuel_price: Guess,
    /// Fuel use, gallons of propane for a bushel and a point.
    pub fuel_use: Guess,
    /// Dollars to handle a wet bushel, fans and labor included (0-10).
    pub handling_per_bushel: f64,
    /// Bushels times points a day; absent when it never holds up the combine.
    pub bushel_points_per_day: Option<f64>,
}

impl Dryer {
    /// A dryer with the published fuel use and nothing else known of it.
    pub fn published(fuel: Fuel, fuel_price: f64) -> Dryer {
        let DryerUse { low, typical, high } = DryerUse::PUBLISHED;
        Dryer {
            fuel,
            fuel_price: Guess::exact(fuel_price, Whose::User),
            fuel_use: Guess::new(low, typical, high, Whose::Published),
            handling_per_bushel: 0.0,
            bushel_points_per_day: None,
        }
    }

    /// Dollars of fuel for one wet bushel and one point.
    pub(super) fn fuel_per_point(&self) -> Result<f64, GrainError> {
        let usage = DryerUse {
            low: self.fuel_use.low,
            typical: self.fuel_use.value,
            high: self.fuel_use.high,
        };
        let base = PUBLISHED_BASE;
        Ok(drying_cost(base + 1.0, base, self.fuel, self.fuel_price.value, usage)?.typical)
    }
}

/// What standing in the field loses. No published loss per day was found for
/// sorghum: it is the user's number, or counted on the ground.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct StandingLoss {
    /// Percent of what stands, a day; absent when nobody has said.
    pub percent_per_day: Option<Guess>,
    /// Losses begin below this moisture (Purdue: losses by lodging and shatter
    /// grow below 20 %).
    pub below_moisture: Guess,
    /// Further percent on a wet day.
    pub percent_per_wet_day: Guess,
    /// Share of plants lodged now, 0-1, from the marks on heads.
    pub lodged: Guess,
    /// How many times faster a lodged plant loses.
    pub lodged_factor: Guess,
    /// How many times faster all lose after a killing freeze.
    pub after_freeze_factor: Guess,
}

impl Default for StandingLoss {
    fn default() -> StandingLoss {
        StandingLoss {
            percent_per_day: None,
            below_moisture: Guess::new(18.0, 20.0, 22.0, Whose::Published),
            percent_per_wet_day: Guess::exact(0.0, Whose::User),
            lodged: Guess::exact(0.0, Whose::Counted),
            lodged_factor: Guess::new(1.0, 3.0, 6.0, Whose::Assumed),
            after_freeze_factor: Guess::new(1.0, 1.5, 3.0, Whose::Assumed),
        }
    }
}

/// What a freeze before black layer costs in weight, percent.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct Freeze {
    /// At hard dough, taken as 15 days before black layer (Staggenborg &
    /// Vanderlip 1996: 6.5 to 27 % after four hours of 28 F).
    pub at_hard_dough: Guess,
    /// At soft dough, taken as 30 days before it (the same: 27 to 52 %).
    pub at_soft_dough: Guess,
}

impl Default for Freeze {
    fn default() -> Freeze {
        Freeze {
            at_hard_dough: Guess::new(6.5, 16.75, 27.0, Whose::Published),
            at_soft_dough: Guess::new(27.0, 39.5, 52.0, Whose::Published),
        }
    }
}

/// What weather does to the grade; each wet day counts.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct Weathering {
    /// The grain as it is now; its moisture is not looked at.
    pub now: Sample,
    /// Points of total damage that each wet day adds.
    pub damage_per_wet_day: Guess,
    /// Pounds of test weight that each wet day takes.
    pub test_weight_per_wet_day: Guess,
}

impl Default for Weathering {
    fn default() -> Weathering {
        Weathering {
            now: Sample::default(),
            damage_per_wet_day: Guess::exact(0.0, Whose::User),
            test_weight_per_wet_day: Guess::exact(0.0, Whose::User),
        }
    }
}

/// All that the net return of a planting is worked out from, beside its moisture.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct HarvestPlan {
    /// Acres (0.01-100000).
    pub acres: f64,
    /// What stands today, hundredweights an acre at base moisture.
    pub yield_cwt_per_acre: Guess,
    /// Dollars a hundredweight at base moisture.
    pub price_per_cwt: Guess,
    /// Base moisture, percent.
    pub base_moisture: f64,
    /// Wettest grain that is to be cut at all, percent.
    pub wettest_to_cut: f64,
    /// Where it goes.
    pub outlet: Outlet,
    /// What wet grain costs where the buyer shrinks it; absent while nobody has
    /// said. Of no account for the other outlets.
    pub wet_cost: Option<WetGrainCost>,
    /// The buyer's discounts.
    pub discounts: DiscountSchedule,
    /// What standing loses.
    pub loss: StandingLoss,
    /// What weather does to the grade.
    pub weathering: Weathering,
    /// What a freeze costs.
    pub freeze: Freeze,
    /// Acres that the combine cuts in a day.
    pub combine_acres_per_day: f64,
    /// Dollars an acre to cut and haul.
    pub cutting_cost_per_acre: f64,
}

impl HarvestPlan {
    /// A plan with the published numbers, and nothing of the user's beyond area,
    /// yield and price. It sells as cut, shrunk to base 14 %, at a cost of wet
    /// grain that is not known.
    pub fn new(acres: f64, yield_cwt_per_acre: Guess, price_per_cwt: Guess) -> HarvestPlan {
        HarvestPlan {
            acres,
            yield_cwt_per_acre,
            price_per_cwt,
            base_moisture: PUBLISHED_BASE,
            wettest_to_cut: 25.0,
            outlet: Outlet::SoldAsCut { shrunk: true },
            wet_cost: None,
            discounts: DiscountSchedule::default(),
            loss: StandingLoss::default(),
            weathering: Weathering::default(),
            freeze: Freeze::default(),
            combine_acres_per_day: 80.0,
            cutting_cost_per_acre: 0.0,
        }
    }

    /// # Errors
    /// [`HarvestError`] for the first number or table that cannot be.
    pub fn checked(&self) -> Result<(), HarvestError> {
        in_range("acres", self.acres, 0.01, 100_000.0)?;
        in_range("base moisture", self.base_moisture, 5.0, 30.0)?;
        in_range("wettest to cut", self.wettest_to_cut, 8.0, 45.0)?;
        in_range(
            "combine acres per day",
            self.combine_acres_per_day,
            0.1,
            10_000.0,
        )?;
        in_range(
            "cutting cost per acre",
            self.cutting_cost_per_acre,
            0.0,
            10_000.0,
        )?;
        if let Outlet::DriedFirst(dryer) = &self.outlet {
            in_range("handling per bushel", dryer.handling_per_bushel, 0.0, 10.0)?;
            if let Some(capacity) = dryer.bushel_points_per_day {
                in_range("bushel points per day", capacity, 1.0, 1e9)?;
            }
        }
        if let Some(cost) = &self.wet_cost {
            cost.checked(self.base_moisture)?;
        }
        self.discounts.checked()?;
        self.weathering.now.checked()?;
        for input in HarvestInput::ALL {
            let Some(guess) = input.of(self) else {
                continue;
            };
            let (least, most) = input.range();
            guess.checked(input.word(), least, most)?;
        }
        Ok(())
    }
}

/// The inputs that have a range.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum HarvestInput {
    /// What stands today.
    Yield,
    /// Price of grain.
    Price,
    /// Loss a day.
    LossPerDay,
    /// Moisture below which losses begin.
    LossBelowMoisture,
    /// Further loss on a wet day.
    LossPerWetDay,
    /// Share of plants lodged.
    Lodged,
    /// How much faster a lodged plant loses.
    LodgedFactor,
    /// How much faster all lose after a freeze.
    AfterFreezeFactor,
    /// Weight lost to a freeze at hard dough.
    FreezeAtHardDough,
    /// Weight lost to a freeze at soft dough.
    FreezeAtSoftDough,
    /// Damage that a wet day adds.
    DamagePerWetDay,
    /// Test weight that a wet day takes.
    TestWeightPerWetDay,
    /// Fuel that drying takes.
    FuelUse,
    /// Price of that fuel.
    FuelPrice,
}

impl HarvestInput {
    /// All of them, in the order shown.
    pub const ALL: [HarvestInput; 14] = [
        HarvestInput::Yield,
        HarvestInput::Price,
        HarvestInput::LossPerDay,
        HarvestInput::LossBelowMoisture,
        HarvestInput::LossPerWetDay,
        HarvestInput::Lodged,
        HarvestInput::LodgedFactor,
        HarvestInput::AfterFreezeFactor,
        HarvestInput::FreezeAtHardDough,
        HarvestInput::FreezeAtSoftDough,
        HarvestInput::DamagePerWetDay,
        HarvestInput::TestWeightPerWetDay,
        HarvestInput::FuelUse,
        HarvestInput::FuelPrice,
    ];

    /// Name in messages.
    pub fn word(self) -> &'static str {
        match self {
            HarvestInput::Yield => "yield",
            HarvestInput::Price => "price per cwt",
            HarvestInput::LossPerDay => "loss per day",
            HarvestInput::LossBelowMoisture => "moisture below which losses begin",
            HarvestInput::LossPerWetDay => "loss per wet day",
            HarvestInput::Lodged => "lodged share",
            HarvestInput::LodgedFactor => "lodged factor",
            HarvestInput::AfterFreezeFactor => "after-freeze factor",
            HarvestInput::FreezeAtHardDough => "freeze loss at hard dough",
            HarvestInput::FreezeAtSoftDough => "freeze loss at soft dough",
            HarvestInput::DamagePerWetDay => "damage per wet day",
            HarvestInput::TestWeightPerWetDay => "test weight per wet day",
            HarvestInput::FuelUse => "fuel use",
            HarvestInput::FuelPrice => "fuel price",
        }
    }

    /// Least and most that are accepted.
    pub fn range(self) -> (f64, f64) {
        match self {
            HarvestInput::Yield => (0.0, 400.0),
            HarvestInput::Price => (0.0, 1000.0),
            HarvestInput::LossPerDay | HarvestInput::LossPerWetDay => (0.0, 50.0),
            HarvestInput::LossBelowMoisture => (8.0, 45.0),
            HarvestInput::Lodged => (0.0, 1.0),
            HarvestInput::LodgedFactor | HarvestInput::AfterFreezeFactor => (0.0, 50.0),
            HarvestInput::FreezeAtHardDough
            | HarvestInput::FreezeAtSoftDough
            | HarvestInput::FuelPrice => (0.0, 100.0),
            HarvestInput::DamagePerWetDay => (0.0, 20.0),
            HarvestInput::TestWeightPerWetDay => (0.0, 5.0),
            HarvestInput::FuelUse => (0.0, 0.1),
        }
    }

    /// Its value in a plan; `None` where the plan has none.
    pub fn of(self, plan: &HarvestPlan) -> Option<Guess> {
        let mut copy = plan.clone();
        self.place(&mut copy).copied()
    }

    /// The plan with this input at another value.
    pub(super) fn put(self, plan: &HarvestPlan, value: f64) -> HarvestPlan {
        let mut changed = plan.clone();
        if let Some(place) = self.place(&mut changed) {
            *place = Guess::exact(value, place.whose);
        }
        changed
    }

    fn place(self, plan: &mut HarvestPlan) -> Option<&mut Guess> {
        Some(match self {
            HarvestInput::Yield => &mut plan.yield_cwt_per_acre,
            HarvestInput::Price => &mut plan.price_per_cwt,
            HarvestInput::LossPerDay => plan.loss.percent_per_day.as_mut()?,
            HarvestInput::LossBelowMoisture => &mut plan.loss.below_moisture,
            HarvestInput::LossPerWetDay => &mut plan.loss.percent_per_wet_day,
            HarvestInput::Lodged => &mut plan.loss.lodged,
            HarvestInput::LodgedFactor => &mut plan.loss.lodged_factor,
            HarvestInput::AfterFreezeFactor => &mut plan.loss.after_freeze_factor,
            HarvestInput::FreezeAtHardDough => &mut plan.freeze.at_hard_dough,
            HarvestInput::FreezeAtSoftDough => &mut plan.freeze.at_soft_dough,
            HarvestInput::DamagePerWetDay => &mut plan.weathering.damage_per_wet_day,
            HarvestInput::TestWeightPerWetDay => &mut plan.weathering.test_weight_per_wet_day,
            HarvestInput::FuelUse => energy_of(plan)?.0,
            HarvestInput::FuelPrice => energy_of(plan)?.1,
        })
    }
}

/// Use and price of the fuel that dries the grain of this plan: in one's own
/// dryer, or by the rule that wet grain is charged with.
fn energy_of(plan: &mut HarvestPlan) -> Option<(&mut Guess, &mut Guess)> {
    match (&mut plan.outlet, &mut plan.wet_cost) {
        (Outlet::DriedFirst(dryer), _) => Some((&mut dryer.fuel_use, &mut dryer.fuel_price)),
        (
            Outlet::SoldAsCut { shrunk: true },
            Some(WetGrainCost::Energy {
                fuel_price,
                energy_use,
                ..
            }),
        ) => Some((energy_use, fuel_price)),
        (Outlet::SoldAsCut { .. }, _) => None,
    }
}
