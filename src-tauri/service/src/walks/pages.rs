//! Walks as screens show them, and heads as they are typed.

use chrono::{DateTime, FixedOffset, NaiveDate};
use ripening::{Flag, Head};
use serde::{Deserialize, Serialize};
use uuid::Uuid;

use crate::plantings::details::PlantingRow;
use crate::{Answers, WalkNotice};
use kinds::Place;

/// A walk with its stops and heads.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct WalkPage {
    /// Id of the walk.
    pub id: Uuid,
    /// Its planting.
    pub planting: PlantingRow,
    /// Civil date.
    pub walked_on: NaiveDate,
    /// Who walks.
    pub scout: String,
    /// Whether it was finished.
    pub finished: bool,
    /// In the order walked.
    pub stops: Vec<StopView>,
    /// The answer so far.
    pub now: Answers,
    /// What `undo` would take back.
    pub undo: Option<UndoWhat>,
    /// What of it cannot be worked out, and what to do.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "ts", ts(optional))]
    pub notice: Option<WalkNotice>,
}

/// A stop of a walk.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct StopView {
    /// Id of the stop.
    pub id: Uuid,
    /// 1, 2, 3...
    pub number: u32,
    /// Where, if known.
    pub place: Option<Place>,
    /// In the order read.
    pub heads: Vec<HeadView>,
}

/// A head of a stop.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct HeadView {
    /// Id of the head.
    pub id: Uuid,
    /// 1, 2, 3... within the stop.
    pub number: u32,
    /// Reading and share.
    pub head: Head,
    /// Marks.
    pub flags: Vec<Flag>,
    /// Free words.
    pub note: Option<String>,
    /// When it was stored.
    pub recorded_at: DateTime<FixedOffset>,
    /// Whether it was corrected since.
    pub corrected: bool,
}

/// After a head was stored or corrected.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct HeadSaved {
    /// Of which walk.
    pub walk: Uuid,
    /// At which stop.
    pub stop: Uuid,
    /// The head as stored.
    pub head: HeadView,
    /// The answer with it.
    pub now: Answers,
    /// What `undo` would take back.
    pub undo: Option<UndoWhat>,
}

/// What was read on one head.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS), ts(optional_fields = nullable))]
pub struct NewHead {
    /// Reading and share.
    pub head: Head,
    /// Marks, each at most once.
    #[serde(default)]
    pub flags: Vec<Flag>,
    /// Free words.
    #[serde(default)]
    pub note: Option<String>,
}

/// What an undo would reverse.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum UndoWhat {
    /// The last head.
    Head,
    /// The last correction.
    Correction,
    /// The last removal.
    Removal,
    /// The last stop.
    Stop,
    /// The last photo.
    Photo,
}
