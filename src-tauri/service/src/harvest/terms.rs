//! The numbers that a harvest is weighed by: each the user's own for one
//! planting, the user's own for all, counted in the planting, or a default that
//! says whose it is.

use std::collections::BTreeMap;

use ripening::dry_down::TARGETS;
use ripening::grain::{
    DiscountSchedule, DiscountTable, DryerUse, Factor, Fuel, MOST_SHRINK_PER_POINT, PUBLISHED_BASE,
    Sample, buyer_weight_off, least_shrink_per_point,
};
use ripening::harvest::{
    Dryer, Freeze, Guess, HarvestPlan, Outlet, SEEDS_PER_HEAD, SEEDS_PER_POUND, StandingLoss,
    Weathering, WetGrainCost, Whose,
};
use rusqlite::Connection;
use serde::{Deserialize, Serialize};
use serde_json::{Value, json};
use uuid::Uuid;

use super::pages::{HarvestTerms, OutletWay, SetFor, TermView, TermsEdit, WetGrainWay};
use crate::Problem;
use notebook::StoreError;
use notebook::views::harvest;

/// A number that a harvest is weighed by. Money in dollars, the rest in US
/// units; the screens show others.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum HarvestTerm {
    /// What stands, hundredweights an acre at base moisture.
    Yield,
    /// Price, dollars a hundredweight at base moisture.
    Price,
    /// Moisture that the price is for, percent.
    BaseMoisture,
    /// The planting's own target, percent.
    TargetMoisture,
    /// Wettest grain to be cut at all, percent.
    WettestToCut,
    /// Loss of what stands, percent a day.
    LossPerDay,
    /// Moisture below which losses begin, percent.
    LossBelowMoisture,
    /// Further loss on a wet day, percent.
    LossPerWetDay,
    /// Plants lodged, share 0-1.
    Lodged,
    /// How many times faster a lodged plant loses.
    LodgedFactor,
    /// How many times faster all lose after a killing freeze.
    AfterFreezeFactor,
    /// Weight lost to a freeze at hard dough, percent.
    FreezeAtHardDough,
    /// Weight lost to a freeze at soft dough, percent.
    FreezeAtSoftDough,
    /// Points of damage that a wet day adds.
    DamagePerWetDay,
    /// Pounds of test weight that a wet day takes.
    TestWeightPerWetDay,
    /// Weight that the buyer takes off for a point of moisture, percent.
    ShrinkPerPoint,
    /// What the buyer charges to dry, dollars a wet bushel and a point.
    DryingCharge,
    /// Price of the dryer's fuel, dollars a unit.
    FuelPrice,
    /// Fuel that drying takes, gallons of propane for a bushel and a point.
    FuelUse,
    /// Dollars to handle a wet bushel at the dryer.
    Handling,
    /// What the dryer takes, bushels times points a day.
    DryerCapacity,
    /// What the combine cuts, acres a day.
    CombineRate,
    /// Dollars an acre to cut and haul.
    CuttingCost,
    /// Test weight now, pounds a bushel.
    TestWeight,
    /// Heat-damaged kernels now, percent.
    HeatDamage,
    /// Damaged kernels now, percent.
    TotalDamage,
    /// Foreign material now, percent.
    ForeignMaterial,
    /// Broken kernels and foreign material now, percent.
    BrokenAndForeign,
    /// Seeds to a pound.
    SeedsPerPound,
    /// Seeds of a whole head.
    SeedsPerHead,
}

use HarvestTerm as T;

/// How far the truth may lie from a number that the user gave without ends.
enum Spread {
    /// Not at all, as far as the choice is concerned.
    None,
    /// By this share of it to each side.
    Share(f64),
    /// By so much to each side.
    By(f64),
}

impl HarvestTerm {
    /// All of them, in the order shown.
    pub const ALL: [HarvestTerm; 30] = [
        T::Yield,
        T::Price,
        T::BaseMoisture,
        T::TargetMoisture,
        T::WettestToCut,
        T::LossPerDay,
        T::LossBelowMoisture,
        T::LossPerWetDay,
        T::Lodged,
        T::LodgedFactor,
        T::AfterFreezeFactor,
        T::FreezeAtHardDough,
        T::FreezeAtSoftDough,
        T::DamagePerWetDay,
        T::TestWeightPerWetDay,
        T::ShrinkPerPoint,
        T::DryingCharge,
        T::FuelPrice,
        T::FuelUse,
        T::Handling,
        T::DryerCapacity,
        T::CombineRate,
        T::CuttingCost,
        T::TestWeight,
        T::HeatDamage,
        T::TotalDamage,
        T::ForeignMaterial,
        T::BrokenAndForeign,
        T::SeedsPerPound,
        T::SeedsPerHead,
    ];

    /// The one of a name in the log.
    pub(crate) fn of(name: &str) -> Option<HarvestTerm> {
        Self::ALL.into_iter().find(|term| term.word() == name)
    }

    /// Name in the log.
    pub(super) fn word(self) -> String {
        serde_json::to_value(self)
            .ok()
            .and_then(|word| word.as_str().map(str::to_owned))
            .unwrap_or_default()
    }

    /// Least and most that are accepted.
    pub fn range(self) -> (f64, f64) {
        match self {
            T::Yield => (0.0, 400.0),
            T::Price => (0.0, 1000.0),
            T::BaseMoisture => (5.0, 30.0),
            T::TargetMoisture | T::WettestToCut | T::LossBelowMoisture => (8.0, 45.0),
            T::LossPerDay | T::LossPerWetDay | T::LodgedFactor | T::AfterFreezeFactor => {
                (0.0, 50.0)
            }
            T::Lodged => (0.0, 1.0),
            T::FreezeAtHardDough
            | T::FreezeAtSoftDough
            | T::FuelPrice
            | T::HeatDamage
            | T::TotalDamage
            | T::ForeignMaterial
            | T::BrokenAndForeign => (0.0, 100.0),
            T::DamagePerWetDay => (0.0, 20.0),
            T::TestWeightPerWetDay => (0.0, 5.0),
            T::ShrinkPerPoint => (1.0, MOST_SHRINK_PER_POINT),
            T::DryingCharge => (0.0, 1.0),
            T::FuelUse => (0.0, 0.1),
            T::Handling => (0.0, 10.0),
            T::DryerCapacity => (1.0, 1e9),
            T::CombineRate => (0.1, 10_000.0),
            T::CuttingCost => (0.0, 10_000.0),
            T::TestWeight => (20.0, 80.0),
            T::SeedsPerPound => (5_000.0, 40_000.0),
            T::SeedsPerHead => (50.0, 10_000.0),
        }
    }

    /// What counts until somebody says otherwise; `None` where there is no
    /// number to be had.
    fn default(self, fuel: Fuel) -> Option<Guess> {
        let loss = StandingLoss::default();
        let freeze = Freeze::default();
        let assumed = |value| Guess::exact(value, Whose::Assumed);
        Some(match self {
            // Ordinary dryland and irrigated crops lie about here (from memory).
            T::Yield => Guess::new(30.0, 50.0, 80.0, Whose::Assumed),
            // Our assumption: prices move too much for a published one.
            T::Price => Guess::new(6.0, 7.5, 9.0, Whose::Assumed),
            T::BaseMoisture => Guess::exact(PUBLISHED_BASE, Whose::Published),
            T::WettestToCut => assumed(25.0),
            T::LossBelowMoisture => loss.below_moisture,
            T::LossPerWetDay | T::DamagePerWetDay | T::TestWeightPerWetDay => assumed(0.0),
            T::Lodged => Guess::new(0.0, 0.0, 0.1, Whose::Assumed),
            T::LodgedFactor => loss.lodged_factor,
            T::AfterFreezeFactor => loss.after_freeze_factor,
            T::FreezeAtHardDough => freeze.at_hard_dough,
            T::FreezeAtSoftDough => freeze.at_soft_dough,
            T::FuelPrice => {
                let price = match fuel {
                    Fuel::Propane => 2.0,
                    Fuel::NaturalGas => 1.0,
                    Fuel::Electricity => 0.12,
                };
                Guess::new(0.8 * price, price, 1.25 * price, Whose::Assumed)
            }
            T::FuelUse => {
                let DryerUse { low, typical, high } = DryerUse::PUBLISHED;
                Guess::new(low, typical, high, Whose::Published)
            }
            T::Handling | T::CuttingCost => assumed(0.0),
            T::CombineRate => assumed(80.0),
            T::SeedsPerPound => SEEDS_PER_POUND,
            T::SeedsPerHead => SEEDS_PER_HEAD,
            T::TargetMoisture
            | T::LossPerDay
            | T::ShrinkPerPoint
            | T::DryingCharge
            | T::DryerCapacity
            | T::TestWeight
            | T::HeatDamage
            | T::TotalDamage
            | T::ForeignMaterial
            | T::BrokenAndForeign => return None,
        })
    }

    /// The usual spreads are our assumption; whoever knows better gives the ends.
    fn spread(self) -> Spread {
        match self {
            T::Yield | T::FuelPrice => Spread::Share(0.15),
            T::Price => Spread::Share(0.1),
            T::LossPerDay
            | T::LossPerWetDay
            | T::LodgedFactor
            | T::AfterFreezeFactor
            | T::FreezeAtHardDough
            | T::FreezeAtSoftDough
            | T::DamagePerWetDay
            | T::TestWeightPerWetDay => Spread::Share(0.5),
            T::FuelUse => Spread::Share(0.3),
            T::SeedsPerPound => Spread::Share(0.1),
            T::SeedsPerHead => Spread::Share(0.4),
            T::LossBelowMoisture => Spread::By(2.0),
            T::Lodged => Spread::By(0.1),
            _ => Spread::None,
        }
    }

    /// A number of the user's with its ends.
    pub(super) fn users(
        self,
        value: f64,
        low: Option<f64>,
        high: Option<f64>,
    ) -> Result<Guess, Problem> {
        let (least, most) = self.range();
        let by = match self.spread() {
            Spread::None => 0.0,
            Spread::Share(share) => share * value,
            Spread::By(by) => by,
        };
        let low = low.unwrap_or((value - by).max(least));
        let high = high.unwrap_or((value + by).min(most));
        let name = self.word().replace('_', " ");
        for number in [low, value, high] {
            if !(least..=most).contains(&number) {
                return Err(Problem::bad_input(format!(
                    "{name} {number} is out of range: use {least} to {most}"
                )));
            }
        }
        if !(low <= value && value <= high) {
            return Err(Problem::bad_input(format!(
                "the range of {name} does not enclose its value: put low, value and high in order"
            )));
        }
        Ok(Guess::new(low, value, high, Whose::User))
    }
}

/// What was said of the terms, and what was counted.
#[derive(Debug, Clone)]
pub(super) struct Terms {
    numbers: BTreeMap<HarvestTerm, TermView>,
    pub outlet: OutletWay,
    outlet_for: Option<SetFor>,
    pub wet_grain: Option<WetGrainWay>,
    wet_grain_for: Option<SetFor>,
    pub fuel: Fuel,
    fuel_for: Option<SetFor>,
    pub discounts: DiscountSchedule,
}

/// Name of a discount table in the log.
fn table_name(factor: Factor) -> String {
    format!("discounts_{}", factor.word())
}

const OUTLET: &str = "outlet";
const WET_GRAIN: &str = "wet_grain";
const FUEL: &str = "fuel";

impl Terms {
    /// The terms of one planting, or of all where none is named. Values that
    /// this version cannot read count as not said.
    pub fn read(db: &Connection, planting: Option<Uuid>) -> Result<Terms, StoreError> {
        let own = planting.map_or_else(
            || Ok(BTreeMap::new()),
            |planting| harvest::terms(db, planting),
        )?;
        let all = harvest::terms(db, Uuid::nil())?;
        let said = |name: &str| {
            own.get(name)
                .map(|value| (value, SetFor::Planting))
                .or_else(|| all.get(name).map(|value| (value, SetFor::All)))
        };
        let (outlet, outlet_for) = chosen(said(OUTLET), OutletWay::SoldShrunk);
        let (wet_grain, wet_grain_for) = chosen(said(WET_GRAIN), None);
        let (fuel, fuel_for) = chosen(said(FUEL), Fuel::Propane);
        let numbers = HarvestTerm::ALL
            .into_iter()
            .map(|term| {
                let told = said(&term.word()).and_then(|(value, whom)| {
                    let guess: Guess = serde_json::from_value(value.clone()).ok()?;
                    Some((guess, whom))
                });
                let (least, most) = term.range();
                let view = TermView {
                    term,
                    guess: told.map_or_else(|| term.default(fuel), |(guess, _)| Some(guess)),
                    set_for: told.map(|(_, whom)| whom),
                    least,
                    most,
                };
                (term, view)
            })
            .collect();
        let tables = Factor::ALL
            .into_iter()
            .filter_map(|factor| {
                let (value, _) = said(&table_name(factor))?;
                let table: DiscountTable = serde_json::from_value(value.clone()).ok()?;
                let says = !table.steps.is_empty() || table.refused_beyond.is_some();
                (says && table.factor == factor && table.checked().is_ok()).then_some(table)
            })
            .collect();
        Ok(Terms {
            numbers,
            outlet,
            outlet_for,
            wet_grain,
            wet_grain_for,
            fuel,
            fuel_for,
            discounts: DiscountSchedule { tables },
        })
    }

    /// One of them as it counts.
    pub fn view(&self, term: HarvestTerm) -> TermView {
        self.numbers.get(&term).copied().unwrap_or(TermView {
            term,
            guess: None,
            set_for: None,
            least: term.range().0,
            most: term.range().1,
        })
    }

    /// Its guess, where there is one.
    pub fn guess(&self, term: HarvestTerm) -> Option<Guess> {
        self.view(term).guess
    }

    /// Its value, where there is one.
    pub fn value(&self, term: HarvestTerm) -> Option<f64> {
        Some(self.guess(term)?.value)
    }

    /// Puts what was counted in the planting where the user has not said
    /// otherwise for this very planting.
    pub fn count(&mut self, term: HarvestTerm, guess: Guess) {
        if let Some(view) = self.numbers.get_mut(&term)
            && view.set_for != Some(SetFor::Planting)
        {
            view.guess = Some(guess);
            view.set_for = None;
        }
    }

    /// Tries other terms, of which nothing is stored.
    pub fn try_out(&mut self, edit: &TermsEdit) -> Result<(), Problem> {
        for number in &edit.numbers {
            let guess = match number.value {
                Some(value) => Some(number.term.users(value, number.low, number.high)?),
                None => number.term.default(self.fuel),
            };
            if let Some(view) = self.numbers.get_mut(&number.term) {
                view.guess = guess;
            }
        }
        if let Some(outlet) = edit.outlet {
            self.outlet = outlet;
        }
        if edit.wet_grain.is_some() {
            self.wet_grain = edit.wet_grain;
        }
        if let Some(fuel) = edit.fuel {
            self.fuel = fuel;
        }
        for table in &edit.discounts {
            table
                .checked()
                .map_err(|error| Problem::bad_input(error.to_string()))?;
            self.discounts
                .tables
                .retain(|known| known.factor != table.factor);
            self.discounts.tables.push(table.clone());
        }
        // Only what is being changed is refused for not fitting what stands.
        if edit.changes_shrink()
            && let Some(per_point) = self.value(T::ShrinkPerPoint)
        {
            buyer_weight_off(self.base(), self.base(), per_point)
                .map_err(|error| Problem::bad_input(error.to_string()))?;
        }
        Ok(())
    }

    fn base(&self) -> f64 {
        self.value(T::BaseMoisture).unwrap_or(PUBLISHED_BASE)
    }

    /// What wet grain costs, where it is known apart from a table of discounts.
    /// A factor that pays for water at another base moisture than it was given
    /// for says nothing.
    fn wet_cost(&self) -> Option<WetGrainCost> {
        match self.wet_grain? {
            WetGrainWay::Table => None,
            WetGrainWay::Energy => {
                let price = self.guess(T::FuelPrice)?;
                Some(WetGrainCost::energy(self.fuel, price))
            }
            WetGrainWay::Shrink => {
                let per_point = self.value(T::ShrinkPerPoint)?;
                buyer_weight_off(self.base(), self.base(), per_point).ok()?;
                Some(WetGrainCost::Shrink {
                    per_point,
                    charge_per_bushel_point: self.value(T::DryingCharge).unwrap_or_default(),
                })
            }
        }
    }

    /// The planting's own target, or the driest that is commonly waited for.
    pub fn target(&self) -> f64 {
        self.value(T::TargetMoisture)
            .unwrap_or(TARGETS.into_iter().fold(f64::INFINITY, f64::min))
    }

    /// The grain as it is now, its moisture aside.
    pub fn sample(&self) -> Sample {
        Sample {
            moisture: None,
            test_weight: self.value(T::TestWeight),
            heat_damage: self.value(T::HeatDamage),
            total_damage: self.value(T::TotalDamage),
            foreign_material: self.value(T::ForeignMaterial),
            broken_and_foreign: self.value(T::BrokenAndForeign),
            distinctly_low_quality: false,
        }
    }

    /// A dryer of these terms.
    pub fn dryer(&self) -> Dryer {
        let published = Dryer::published(self.fuel, 0.0);
        Dryer {
            fuel: self.fuel,
            fuel_price: self.guess(T::FuelPrice).unwrap_or(published.fuel_price),
            fuel_use: self.guess(T::FuelUse).unwrap_or(published.fuel_use),
            handling_per_bushel: self.value(T::Handling).unwrap_or_default(),
            bushel_points_per_day: self.value(T::DryerCapacity),
        }
    }

    /// The plan that these terms make for so many acres.
    pub fn plan(&self, acres: f64) -> HarvestPlan {
        let nothing = Guess::exact(0.0, Whose::Assumed);
        let guess = |term: HarvestTerm| self.guess(term).unwrap_or(nothing);
        let value = |term: HarvestTerm, otherwise: f64| self.value(term).unwrap_or(otherwise);
        HarvestPlan {
            base_moisture: value(T::BaseMoisture, PUBLISHED_BASE),
            wettest_to_cut: value(T::WettestToCut, 25.0),
            outlet: match self.outlet {
                OutletWay::SoldShrunk => Outlet::SoldAsCut { shrunk: true },
                OutletWay::SoldByWeight => Outlet::SoldAsCut { shrunk: false },
                OutletWay::DriedFirst => Outlet::DriedFirst(self.dryer()),
            },
            wet_cost: self.wet_cost(),
            discounts: self.discounts.clone(),
            loss: StandingLoss {
                percent_per_day: self.guess(T::LossPerDay),
                below_moisture: guess(T::LossBelowMoisture),
                percent_per_wet_day: guess(T::LossPerWetDay),
                lodged: guess(T::Lodged),
                lodged_factor: guess(T::LodgedFactor),
                after_freeze_factor: guess(T::AfterFreezeFactor),
            },
            weathering: Weathering {
                now: self.sample(),
                damage_per_wet_day: guess(T::DamagePerWetDay),
                test_weight_per_wet_day: guess(T::TestWeightPerWetDay),
            },
            freeze: Freeze {
                at_hard_dough: guess(T::FreezeAtHardDough),
                at_soft_dough: guess(T::FreezeAtSoftDough),
            },
            combine_acres_per_day: value(T::CombineRate, 80.0),
            cutting_cost_per_acre: value(T::CuttingCost, 0.0),
            ..HarvestPlan::new(acres, guess(T::Yield), guess(T::Price))
        }
    }

    /// As the screens show them.
    pub fn shown(&self) -> HarvestTerms {
        HarvestTerms {
            numbers: HarvestTerm::ALL.map(|term| self.view(term)).to_vec(),
            outlet: self.outlet,
            outlet_for: self.outlet_for,
            wet_grain: self.wet_grain,
            wet_grain_for: self.wet_grain_for,
            wet_grain_cost_known: self.plan(1.0).wet_grain_cost_known(),
            least_shrink_per_point: least_shrink_per_point(self.base()).unwrap_or_default(),
            fuel: self.fuel,
            fuel_for: self.fuel_for,
            discounts: self.discounts.tables.clone(),
        }
    }
}

impl TermsEdit {
    /// Whether it bears on what a shrink factor is held against.
    fn changes_shrink(&self) -> bool {
        self.numbers
            .iter()
            .any(|number| matches!(number.term, T::ShrinkPerPoint | T::BaseMoisture))
    }
}

fn chosen<V: for<'de> Deserialize<'de>>(
    said: Option<(&Value, SetFor)>,
    otherwise: V,
) -> (V, Option<SetFor>) {
    said.and_then(|(value, whom)| Some((serde_json::from_value(value.clone()).ok()?, Some(whom))))
        .unwrap_or((otherwise, None))
}

/// The values that an edit puts into the log, checked.
pub(super) fn edited(edit: &TermsEdit) -> Result<BTreeMap<String, Value>, Problem> {
    let mut to = BTreeMap::new();
    for number in &edit.numbers {
        let value = match number.value {
            Some(value) => json!(number.term.users(value, number.low, number.high)?),
            None => Value::Null,
        };
        to.insert(number.term.word(), value);
    }
    if let Some(outlet) = edit.outlet {
        to.insert(OUTLET.to_owned(), json!(outlet));
    }
    if let Some(way) = edit.wet_grain {
        to.insert(WET_GRAIN.to_owned(), json!(way));
    }
    if let Some(fuel) = edit.fuel {
        to.insert(FUEL.to_owned(), json!(fuel));
    }
    for table in &edit.discounts {
        table
            .checked()
            .map_err(|error| Problem::bad_input(error.to_string()))?;
        if to.insert(table_name(table.factor), json!(table)).is_some() {
            return Err(Problem::bad_input(format!(
                "{} discounts are given twice: keep one table for each factor",
                table.factor.word()
            )));
        }
    }
    Ok(to)
}
