//! What is said between a face and the service about the past: what was changed,
//! by whom, two walks side by side, and what a search found.

use chrono::{DateTime, FixedOffset, NaiveDate};
use notebook::fact::{Act, Field, SeenPart};
use ripening::{Band, PerStage};
use serde::{Deserialize, Serialize};
use uuid::Uuid;

use crate::{ChangeName, HarvestTerm, NewHead, PlantingRow, WalkBrief};

/// A stretch of a planting's history, the latest first.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct HistoryPage {
    /// The planting's name.
    pub planting: String,
    /// Today, as the notebook's clock has it.
    pub today: NaiveDate,
    /// Its changes.
    pub entries: Vec<HistoryEntry>,
    /// Ask on from here; none at the end.
    pub older: Option<ChangeName>,
}

/// One change as a person reads it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct HistoryEntry {
    /// Which change.
    pub change: ChangeName,
    /// When, by the writer's clock.
    pub recorded_at: DateTime<FixedOffset>,
    /// Whether it was made on this device.
    pub own: bool,
    /// Who uses that device: the scout of its latest walk, where there is one.
    pub who: Option<String>,
    /// What the person did.
    pub act: Act,
    /// In which walk, where it was in one.
    pub walk: Option<HistoryWalk>,
    /// What it says, and what was before.
    pub lines: Vec<HistoryLine>,
    /// Whether it was taken back since.
    pub undone: bool,
    /// Whether it can be taken back here.
    pub can_undo: bool,
}

/// The walk that a change speaks of.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct HistoryWalk {
    /// Id of the walk.
    pub id: Uuid,
    /// Its date.
    pub walked_on: NaiveDate,
    /// Whether it can be opened.
    pub live: bool,
}

/// One thing that a change says.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
#[serde(tag = "what", rename_all = "snake_case")]
pub enum HistoryLine {
    /// A field of the planting, the walk or the stop.
    Field {
        /// Which field.
        field: Field,
        /// What it said before, where it said something.
        was: Option<String>,
        /// What it says; an area as JSON.
        to: String,
    },
    /// Ripe grain was looked at, or an observation was corrected.
    Seen {
        /// Which part of the observation.
        part: SeenPart,
        /// What it said before, where it said something.
        was: Option<String>,
        /// What it says.
        to: String,
    },
    /// A term of the harvest was set.
    Term {
        /// Which number; none for the outlet, the fuel, a table of discounts, and what a
        /// newer version wrote.
        term: Option<HarvestTerm>,
        /// What it said before, where it said something.
        was: Option<String>,
        /// What it says.
        to: String,
    },
    /// A walk was begun.
    Walk {
        /// Its date.
        walked_on: NaiveDate,
        /// Who walked.
        scout: String,
    },
    /// A stop was opened.
    Stop {
        /// Its number.
        number: u32,
    },
    /// A head was read.
    Head {
        /// What it said.
        said: NewHead,
    },
    /// A photo was taken or chosen.
    Photo,
    /// Many heads were read or brought in.
    Heads {
        /// How many.
        count: u32,
    },
    /// A head was corrected.
    Corrected {
        /// What it said before.
        was: NewHead,
        /// What it says.
        to: NewHead,
    },
    /// A head was removed.
    TakenOut {
        /// What it said, where that is known here.
        said: Option<NewHead>,
    },
    /// A head was restored.
    BroughtBack {
        /// What it says, where that is known here.
        said: Option<NewHead>,
    },
}

/// Two walks of a planting side by side, the earlier one first.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct WalkComparison {
    /// Today, as the notebook's clock has it.
    pub today: NaiveDate,
    /// The planting.
    pub planting: PlantingRow,
    /// The earlier walk.
    pub earlier: WalkBrief,
    /// The later walk.
    pub later: WalkBrief,
    /// Days between them.
    pub days: i64,
    /// By how much the share of heads that had reached each stage grew, -1 to 1,
    /// from the heads of each walk alone; none where one has no head.
    pub gained: Option<PerStage<Band>>,
    /// Level of those bands.
    pub level: f64,
}
