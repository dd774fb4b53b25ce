//! Plantings as screens show them, and as they are typed.

use chrono::NaiveDate;
use ripening::Band;
use serde::{Deserialize, Serialize};
use uuid::Uuid;

use crate::rollups::pages::WalkBrief;
use crate::season::due::Due;
use crate::{FieldConflict, MergeConflict};
use kinds::{Area, Purpose};

/// A planting as a list shows it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct PlantingRow {
    /// Id of the planting.
    pub id: Uuid,
    /// Its name.
    pub name: String,
    /// Farm.
    pub farm: Option<String>,
    /// Field.
    pub field: Option<String>,
    /// Hybrid.
    pub hybrid: Option<String>,
    /// Planting date.
    pub planted_on: Option<NaiveDate>,
    /// Purpose.
    pub purpose: Purpose,
    /// Area.
    pub area: Option<Area>,
    /// The hybrid's id, which leads to its page.
    pub hybrid_id: Option<Uuid>,
    /// Day on which half of the heads were seen in bloom, where somebody noted it.
    pub half_bloom_on: Option<NaiveDate>,
    /// The latest walk with heads.
    pub last_walk: Option<WalkBrief>,
    /// Position bands of up to four walks before it, oldest first.
    pub earlier: Vec<Band>,
    /// A walk that was started and not finished.
    pub open_walk: Option<Uuid>,
    /// Why and how soon it needs a walk.
    pub due: Due,
    /// Set while the answers of its walks are not worked out yet: no stage is
    /// shown then, rather than an old one.
    pub working_out: bool,
}

/// A planting's own page.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct PlantingPage {
    /// Today, as the notebook's clock has it.
    pub today: NaiveDate,
    /// The planting.
    pub planting: PlantingRow,
    /// Its walks, the newest first.
    pub walks: Vec<WalkBrief>,
}

/// What tells two plantings apart.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct PlantingBrief {
    /// Id of the planting.
    pub id: Uuid,
    /// Its name.
    pub name: String,
    /// Field.
    pub field: Option<String>,
    /// Hybrid.
    pub hybrid: Option<String>,
    /// Planting date.
    pub planted_on: Option<NaiveDate>,
    /// Walks recorded on it.
    pub walks: u32,
    /// Who walked it, sorted.
    pub scouts: Vec<String>,
}

/// Two plantings that may be one.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct DuplicatePair {
    /// The one with more walks.
    pub one: PlantingBrief,
    /// The one that would be shown as it.
    pub other: PlantingBrief,
}

/// A new planting. Farm, field and hybrid are found by name, made where new.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS), ts(optional_fields = nullable))]
pub struct NewPlanting {
    /// Id chosen by the caller.
    pub id: Option<Uuid>,
    /// Name that the crew uses, and the key in head files; unique in a notebook.
    pub name: String,
    /// Farm, if it has a name.
    pub farm: Option<String>,
    /// Field, if it has a name.
    pub field: Option<String>,
    /// Hybrid.
    pub hybrid: Option<String>,
    /// Planting date.
    pub planted_on: Option<NaiveDate>,
    /// What it is grown for.
    pub purpose: Purpose,
    /// Its area.
    pub area: Option<Area>,
}

/// New values for fields of a planting; absent fields stay as they are.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS), ts(optional_fields = nullable))]
#[serde(default)]
pub struct PlantingEdit {
    /// Name.
    pub name: Option<String>,
    /// Farm.
    pub farm: Option<String>,
    /// Field.
    pub field: Option<String>,
    /// Hybrid.
    pub hybrid: Option<String>,
    /// Planting date.
    pub planted_on: Option<NaiveDate>,
    /// Purpose.
    pub purpose: Option<Purpose>,
    /// Area.
    pub area: Option<Area>,
    /// Day on which half of the heads were seen in bloom.
    pub half_bloom_on: Option<NaiveDate>,
    /// Fields to empty. (An absent value says "as it is", so that no value is lost
    /// to a screen that does not know the field.)
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub clear: Vec<Emptied>,
}

/// A field of a planting that can be emptied.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum Emptied {
    /// Planting date.
    PlantedOn,
    /// Day of half bloom.
    HalfBloomOn,
    /// Area.
    Area,
}

/// All plantings, as the list shows them.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct PlantingList {
    /// Today, as the notebook's clock has it.
    pub today: NaiveDate,
    /// The one that most needs a walk first.
    pub rows: Vec<PlantingRow>,
}

/// Answers that the list lacked.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct WorkedOut {
    /// Rows whose answer is there now.
    pub rows: Vec<PlantingRow>,
    /// Rows that still lack theirs.
    pub left: u32,
}

/// What people said differently of a planting.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct Conflicts {
    /// By field; none where everybody agrees.
    pub fields: Vec<FieldConflict>,
    /// By planting that was merged differently; those that concern this one.
    pub merges: Vec<MergeConflict>,
}

/// Pairs of plantings that may be one.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct DuplicatePairs {
    /// None where none are alike.
    pub pairs: Vec<DuplicatePair>,
}

/// Plantings in short.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct PlantingBriefs {
    /// By name.
    pub rows: Vec<PlantingBrief>,
}
