//! What is said between a face and the service about ripe grain and its harvest.

use chrono::{DateTime, FixedOffset, NaiveDate};
use ripening::dry_down::{DryDownNow, MoistureDay, MoistureWindow};
use ripening::grain::{
    DiscountTable, Discounts, DryingCost, Fuel, GradeAnswer, StorageDays, Worked,
};
use ripening::harvest::{
    Guess, HarvestChoice, OrderWay, SensitivityRow, StandingScore, WetGrainPay,
};
use ripening::outlook::Why;
use serde::{Deserialize, Serialize};
use uuid::Uuid;

use super::terms::HarvestTerm;
use notebook::fact::Observation;

/// An observation to be stored, or what a stored one should say.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS), ts(optional_fields = nullable))]
pub struct NewObservation {
    /// Civil date; today where absent.
    pub on: Option<NaiveDate>,
    /// What was seen.
    pub what: Observation,
    /// Who looked; the name in the settings where absent.
    pub scout: Option<String>,
    /// Free words.
    pub note: Option<String>,
}

/// A stored observation.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct ObservedView {
    /// Id of the observation.
    pub id: Uuid,
    /// Civil date.
    pub on: NaiveDate,
    /// What was seen.
    pub what: Observation,
    /// Who looked.
    pub scout: String,
    /// Free words.
    pub note: Option<String>,
    /// When it was stored.
    pub recorded_at: DateTime<FixedOffset>,
    /// Whether it was corrected since.
    pub corrected: bool,
}

/// What was seen of a planting's ripe grain.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct ObservationsPage {
    /// The planting.
    pub planting: Uuid,
    /// Its name.
    pub name: String,
    /// Today, as the notebook's clock has it.
    pub today: NaiveDate,
    /// By day.
    pub rows: Vec<ObservedView>,
    /// The marks on the heads of each walk, by day.
    pub heads: Vec<StandingScore>,
    /// What each ground count comes to, by day.
    pub ground: Vec<GroundLoss>,
    /// Loss a day from the first to the last of the counts; absent before there
    /// are two days.
    pub loss_per_day: Option<Guess>,
    /// Seeds of a whole head on the ground, which the counts rest on.
    pub seeds_per_head: TermView,
    /// Seeds to a pound, which the counts rest on.
    pub seeds_per_pound: TermView,
    /// Whether there is something of this device to take back.
    pub undo: Option<HarvestStep>,
}

/// What a ground count comes to.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct GroundLoss {
    /// Its observation.
    pub id: Uuid,
    /// Civil date.
    pub on: NaiveDate,
    /// Seeds a square foot, heads included.
    pub seeds_per_square_foot: f64,
    /// Bushels an acre on the ground, over the range of seeds to a pound.
    pub bushels_per_acre: Guess,
    /// Percent of the crop, at the yield of the terms.
    pub percent: f64,
    /// The formula with its numbers.
    pub worked: Worked,
}

/// The last thing that an undo would take back.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum HarvestStep {
    /// An observation.
    Observation,
    /// A correction of one.
    Correction,
    /// The removal of one.
    Removal,
    /// New terms.
    Terms,
}

/// A planting's dry-down.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct DryDownPage {
    /// The planting.
    pub planting: Uuid,
    /// Its name.
    pub name: String,
    /// The day it is made for: today, or the last of the planting's own season.
    pub as_of: NaiveDate,
    /// Whether that season is over.
    pub over: bool,
    /// The day it was cut, if it was.
    pub cut_on: Option<NaiveDate>,
    /// What is known today; `None` with `why`.
    pub now: Option<DryDownNow>,
    /// Why nothing can be said.
    pub why: Option<Why>,
    /// Moisture day by day from today on, P10, P50 and P90.
    pub fan: Vec<MoistureDay>,
    /// Windows of 20, 18, 16 and 14 %, and of the planting's own target among
    /// them.
    pub windows: Vec<MoistureWindow>,
    /// The planting's own target.
    pub target: TermView,
    /// The same target by the other published constants of equilibrium for
    /// sorghum, to show how much the answer depends on them.
    pub other_constants: Option<MoistureWindow>,
    /// Moisture readings, by day.
    pub readings: Vec<ObservedView>,
    /// Courses of the weather ahead, which are past seasons.
    pub seasons: u32,
}

/// For which plantings a term was set.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum SetFor {
    /// For this one.
    Planting,
    /// For all.
    All,
}

/// A term as it counts for a planting.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct TermView {
    /// The term.
    pub term: HarvestTerm,
    /// Its value, and whose it is; absent where nobody has said.
    pub guess: Option<Guess>,
    /// For whom it was set; absent for a default or a count.
    pub set_for: Option<SetFor>,
    /// Least that is accepted.
    pub least: f64,
    /// Most that is accepted.
    pub most: f64,
}

/// Where the grain goes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum OutletWay {
    /// Sold as cut, wet grain shrunk to base by the buyer.
    SoldShrunk,
    /// Sold as cut by its weight, with only the discounts against its moisture.
    SoldByWeight,
    /// Dried to base in a dryer of one's own.
    DriedFirst,
}

/// How a buyer who shrinks wet grain to base charges for it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum WetGrainWay {
    /// By a shrink factor for each point, and maybe a drying charge.
    Shrink,
    /// By a table of moisture discounts alone.
    Table,
    /// Not told; the energy that drying takes stands for it.
    Energy,
}

/// All that a harvest is weighed by.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct HarvestTerms {
    /// The numbers, in the order shown.
    pub numbers: Vec<TermView>,
    /// Where the grain goes.
    pub outlet: OutletWay,
    /// For whom that was said; absent for the default.
    pub outlet_for: Option<SetFor>,
    /// How wet grain is charged for; absent where nobody has said.
    pub wet_grain: Option<WetGrainWay>,
    /// For whom that was said.
    pub wet_grain_for: Option<SetFor>,
    /// Whether the terms say what wet grain costs; no day is named before.
    pub wet_grain_cost_known: bool,
    /// Least shrink factor that does not pay for water, at this base moisture.
    pub least_shrink_per_point: f64,
    /// What the dryer burns.
    pub fuel: Fuel,
    /// For whom that was said; absent for the default.
    pub fuel_for: Option<SetFor>,
    /// The buyer's discounts, one table for each factor that has one.
    pub discounts: Vec<DiscountTable>,
}

/// A value for a term.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS), ts(optional_fields = nullable))]
pub struct TermValue {
    /// The term.
    pub term: HarvestTerm,
    /// The number; none takes the user's own back, and the default counts.
    pub value: Option<f64>,
    /// Low end of where it may lie; by a usual spread where absent.
    pub low: Option<f64>,
    /// High end.
    pub high: Option<f64>,
}

/// New terms; what is absent stays.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS), ts(optional_fields = nullable))]
#[serde(default)]
pub struct TermsEdit {
    /// Numbers.
    pub numbers: Vec<TermValue>,
    /// Where the grain goes.
    pub outlet: Option<OutletWay>,
    /// How wet grain is charged for.
    pub wet_grain: Option<WetGrainWay>,
    /// What the dryer burns.
    pub fuel: Option<Fuel>,
    /// Tables of discounts; each takes the place of the one of its factor, one
    /// without lines and limit takes it away.
    pub discounts: Vec<DiscountTable>,
}

/// Pay for wet grain by terms that are being tried.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct WetGrainPage {
    /// Whether these terms say what wet grain costs.
    pub known: bool,
    /// Pay at base moisture, four points above it, and at the wettest that is
    /// to be cut.
    pub pay: Vec<WetGrainPay>,
}

/// The terms of all plantings, or of one.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct TermsPage {
    /// Of which planting; absent for all.
    pub planting: Option<Uuid>,
    /// Its name.
    pub name: Option<String>,
    /// As they count.
    pub terms: HarvestTerms,
    /// What an undo of this device would take back.
    pub undo: Option<HarvestStep>,
}

/// The harvest choice of one planting, and what it rests on.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct HarvestPage {
    /// The planting.
    pub planting: Uuid,
    /// Its name.
    pub name: String,
    /// The day it is made for.
    pub as_of: NaiveDate,
    /// Acres that were reckoned with.
    pub acres: f64,
    /// Set where the planting has no area and some had to be assumed.
    pub acres_assumed: bool,
    /// The terms.
    pub terms: HarvestTerms,
    /// Loss a day counted on the ground, whether or not it is the one used.
    pub loss_counted: Option<Guess>,
    /// Money day by day; `None` with `why`.
    pub choice: Option<HarvestChoice>,
    /// Why there is none.
    pub why: Option<Why>,
    /// How much the answer depends on each input, the most first.
    pub sensitivity: Vec<SensitivityRow>,
}

/// The harvest choice with other terms: short, because a thumb waits for it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct WhatIfAnswer {
    /// Money day by day; absent where nothing can be said of the moisture.
    pub choice: Option<HarvestChoice>,
    /// How much the answer depends on each input, where it was asked for.
    pub sensitivity: Vec<SensitivityRow>,
}

/// Which planting is cut first.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct HarvestOrderPage {
    /// The day it is made for.
    pub as_of: NaiveDate,
    /// In the order of cutting.
    pub rows: Vec<CutRow>,
    /// Plantings that are not in the order, and why.
    pub left_out: Vec<NotCut>,
    /// Sum of the rows' returns, dollars.
    pub net: f64,
    /// How the order was found.
    pub way: OrderWay,
    /// The one combine, and the one dryer where there is one.
    pub shared: Vec<TermView>,
}

/// One planting in the order.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct CutRow {
    /// The planting.
    pub planting: Uuid,
    /// Its name.
    pub name: String,
    /// Acres reckoned with.
    pub acres: f64,
    /// Set where some had to be assumed.
    pub acres_assumed: bool,
    /// First day of cutting.
    pub from: NaiveDate,
    /// Last day of cutting.
    pub to: NaiveDate,
    /// Mean net return of the whole planting, dollars.
    pub net: f64,
    /// Dollars that it loses against having the combine to itself.
    pub given_up: f64,
    /// Loss a day that it was weighed with; absent where nobody has said or
    /// counted, and then waiting looks free.
    pub loss_per_day: Option<Guess>,
    /// Whether its terms say what wet grain costs; else cutting wet looks free.
    pub wet_grain_cost_known: bool,
}

/// A planting that is not in the order.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct NotCut {
    /// The planting.
    pub planting: Uuid,
    /// Its name.
    pub name: String,
    /// Why not.
    pub why: NotCutWhy,
}

/// Why a planting is not in the harvest order.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
#[serde(tag = "reason", rename_all = "snake_case")]
pub enum NotCutWhy {
    /// It was cut already.
    Cut {
        /// The day of the cut.
        on: NaiveDate,
    },
    /// It is not likely fit on any day looked at.
    NotFit,
    /// It is grown for silage.
    Silage,
    /// Its season is over.
    Over,
    /// Nothing can be said of its moisture.
    Unknown {
        /// Why.
        why: Why,
    },
}

/// What grain is worth, with every formula and its numbers.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct GrainMoney {
    /// Moisture it was asked for, percent.
    pub moisture: f64,
    /// The terms it rests on.
    pub terms: HarvestTerms,
    /// Weight at base moisture per weight as cut.
    pub dry_share: f64,
    /// Dollars a hundredweight, before discounts and charges.
    pub value_per_cwt: f64,
    /// Dollars a hundredweight as cut that the buyer charges for drying.
    pub charged_per_cwt: f64,
    /// Cost of drying a bushel to base, where there is a dryer.
    pub drying: Option<DryingCost>,
    /// What the discount tables say.
    pub discounts: Discounts,
    /// Dollars a hundredweight as cut, after discounts and the fuel of drying;
    /// absent where the buyer refuses.
    pub net_per_cwt: Option<f64>,
    /// The grade that the factors given allow.
    pub grade: GradeAnswer,
    /// How long it keeps at the temperature asked for.
    pub storage: Option<StorageDays>,
    /// The formulas with their numbers.
    pub worked: Vec<Worked>,
}
