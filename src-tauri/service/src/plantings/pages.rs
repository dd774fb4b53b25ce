//! Plantings as screens show them.

use chrono::NaiveDate;
use serde::{Deserialize, Serialize};
use uuid::Uuid;

use crate::rollups::pages::WalkBrief;
use crate::{FieldConflict, MergeConflict, PlantingRow};

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
