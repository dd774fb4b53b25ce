//! Walks as screens show them, and heads as they are typed.

use chrono::{DateTime, FixedOffset, NaiveDate};
use kinds::Place;
use ripening::{Advice, Flag, Head, WholeField};
use serde::{Deserialize, Serialize};
use uuid::Uuid;

use crate::history::pages::UndoWhat;
use crate::plantings::pages::PlantingRow;
use crate::safekeeping::set_aside_pages::WalkNotice;

/// A walk with its stops and heads.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct WalkPage {
    /// Its id.
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
    /// Its id.
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
    /// Its id.
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

/// A walk as a list shows it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct WalkBrief {
    /// Its id.
    pub id: Uuid,
    /// Civil date.
    pub walked_on: NaiveDate,
    /// Who walked.
    pub scout: String,
    /// Whether it was finished.
    pub finished: bool,
    /// The answer.
    pub now: Answers,
    /// What of it cannot be worked out, and what to do.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "ts", ts(optional))]
    pub notice: Option<WalkNotice>,
}

/// The answers of a walk: from its heads alone, and with what came before.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct Answers {
    /// From the heads of this walk alone; absent before the first head.
    pub alone: Option<WholeField>,
    /// With earlier walks moved forward; absent when there are none, or when
    /// this walk contradicts them. Before the first head: what they lead to
    /// expect today.
    pub with_history: Option<WholeField>,
    /// Set when this walk contradicts the earlier ones: the probability, 0-1,
    /// that they still apply to the planting these heads came from.
    pub contradiction: Option<f64>,
    /// Whether to go on, judged on the better of the two answers.
    pub advice: Advice,
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
