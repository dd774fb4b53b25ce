//! What is said between a face and the service about heat sets and hybrids.

use chrono::NaiveDate;
use ripening::Band;
use ripening::heat::{HeatScale, MarkTable, MaturityClass, Method};
use ripening::outlook::Why;
use ripening::outlook::{FanDay, Outlook};
use ripening::temperature::TempUnit;
use ripening::weather::Day;
use ripening::windows::MoneyWindow;
use serde::{Deserialize, Serialize};
use uuid::Uuid;

use crate::ChosenStation;

/// A heat set as a user gives it; always whole.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct NewHeatSet {
    /// Its name, unlike that of any other set.
    pub name: String,
    /// Where its table comes from.
    pub source: String,
    /// Unit of base, upper limit and heat units.
    pub unit: TempUnit,
    /// Base temperature.
    pub base: f64,
    /// Upper limit.
    pub upper: f64,
    /// How a day is counted.
    pub method: Method,
    /// Marks, one table for each maturity class, units from planting.
    pub tables: Vec<MarkTable>,
}

/// A heat set as a list shows it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct HeatSetRow {
    /// What plantings, hybrids and the notebook name it by.
    pub key: String,
    /// Id of a set of the notebook's own; none for a published one.
    pub own: Option<Uuid>,
    /// All of it.
    pub set: HeatScale,
}

/// What may choose a heat set: the narrower choice counts.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
#[serde(tag = "kind", content = "id", rename_all = "snake_case")]
pub enum HeatSetUser {
    /// The whole notebook.
    Notebook,
    /// A hybrid.
    Hybrid(Uuid),
    /// A planting.
    Planting(Uuid),
}

/// The heat set that an outlook is counted in.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct ChosenHeatSet {
    /// Its key.
    pub key: String,
    /// Its name.
    pub name: String,
    /// Where its table comes from.
    pub source: String,
    /// How it was chosen.
    pub by: SetChosenBy,
}

/// How a planting's heat set was chosen.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum SetChosenBy {
    /// For the planting.
    Planting,
    /// For its hybrid.
    Hybrid,
    /// For the whole notebook.
    Notebook,
    /// Nobody chose.
    Default,
}

/// A hybrid as a list shows it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct HybridRow {
    /// Id of the hybrid.
    pub id: Uuid,
    /// Its name.
    pub name: String,
    /// Its maturity class.
    pub maturity: Option<MaturityClass>,
    /// Its plantings in the notebook.
    pub plantings: u32,
}

/// What is known of a hybrid before any planting, and after this notebook's.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct HybridPage {
    /// Id of the hybrid.
    pub id: Uuid,
    /// Its name.
    pub name: String,
    /// Its maturity class.
    pub maturity: Option<MaturityClass>,
    /// Key of the heat set chosen for it.
    pub own_heat_set: Option<String>,
    /// Heat set that counts for it.
    pub heat_set: ChosenHeatSet,
    /// Heat to half bloom by class, in units of that set, for the choice.
    pub classes: Vec<ClassHeat>,
    /// The day it is asked for.
    pub as_of: NaiveDate,
    /// What the published tables say.
    pub published: HybridPace,
    /// With what its plantings have shown.
    pub learned: HybridPace,
    /// Its plantings, the latest first.
    pub plantings: Vec<HybridPlanting>,
}

/// Heat to half bloom of a maturity class.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct ClassHeat {
    /// The class.
    pub class: MaturityClass,
    /// Heat units from planting.
    pub units: f64,
}

/// A hybrid's pace and earliness; bands are P10 to P90.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct HybridPace {
    /// Pace from half bloom on against the published tables; 1.05 needs 5 % less
    /// heat.
    pub pace: Band,
    /// The same for one more planting of it.
    pub next_planting: Band,
    /// Heat units from planting to half bloom, of the set that counts.
    pub half_bloom: Band,
    /// Plantings it rests on.
    pub plantings: u32,
}

/// What one planting has shown of its hybrid.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct HybridPlanting {
    /// The planting.
    pub id: Uuid,
    /// Its name.
    pub name: String,
    /// Planting date.
    pub planted_on: Option<NaiveDate>,
    /// Walks and noted days of half bloom it rests on.
    pub sightings: u32,
    /// Its own pace, P10 to P90, from the published tables and its walks alone;
    /// none before the first walk.
    pub pace: Option<Band>,
    /// Why nothing can be said of it, if so.
    pub why: Option<Why>,
    /// It is counted in another heat set and so teaches nothing here.
    pub other_set: bool,
}

/// The heat sets to choose among.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct HeatSetList {
    /// Published sets first, then the notebook's own by name.
    pub rows: Vec<HeatSetRow>,
    /// Key of the one chosen for the notebook.
    pub notebook: Option<String>,
}

/// The hybrids known.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct HybridList {
    /// By name.
    pub rows: Vec<HybridRow>,
}

/// The outlook of one planting, as its page shows it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct OutlookPage {
    /// The planting.
    pub planting: Uuid,
    /// Its name.
    pub name: String,
    /// The day it is made for.
    pub as_of: NaiveDate,
    /// Station whose weather counts, and how it was chosen.
    pub station: Option<ChosenStation>,
    /// Heat set that it is counted in, and how it was chosen.
    pub heat_set: ChosenHeatSet,
    /// The hybrid's maturity class, where it is known.
    pub maturity: Option<MaturityClass>,
    /// The hybrid's page, where there is a hybrid.
    pub hybrid: Option<Uuid>,
    /// Day of half bloom that somebody noted.
    pub half_bloom_on: Option<NaiveDate>,
    /// Dates; `None` with `why`.
    pub outlook: Option<Outlook>,
    /// Why there are none.
    pub why: Option<Why>,
    /// The stage line over dates.
    pub fan: Vec<FanDay>,
    /// Walks as points on it: position band of the heads alone.
    pub walks: Vec<WalkPoint>,
    /// Weather behind, from planting on.
    pub weather: Vec<Day>,
    /// What is at stake when.
    pub windows: Vec<MoneyWindow>,
}

/// A walk on the outlook's chart.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct WalkPoint {
    /// Civil date.
    pub on: NaiveDate,
    /// Position of its heads alone, on the 0-9 scale.
    pub position: Band,
}

/// A planting's windows in the days ahead.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct FortnightRow {
    /// The planting.
    pub planting: Uuid,
    /// Its name.
    pub name: String,
    /// Windows that may be open within the fortnight, the earliest first.
    pub windows: Vec<MoneyWindow>,
    /// Why there is nothing to say, if so.
    pub why: Option<Why>,
}

/// Windows that may be open in the next fortnight.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct FortnightPage {
    /// Its first day.
    pub from: NaiveDate,
    /// Its last day.
    pub to: NaiveDate,
    /// All plantings, by name.
    pub rows: Vec<FortnightRow>,
}
