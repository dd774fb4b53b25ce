//! Answers to walks as screens show them.

use chrono::NaiveDate;
use ripening::{Advice, WholeField};
use serde::{Deserialize, Serialize};
use uuid::Uuid;

/// A walk as a list shows it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct WalkBrief {
    /// Id of the walk.
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

/// Why something of a walk cannot be worked out, and what to do.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
#[serde(tag = "kind", rename_all = "snake_case")]
pub enum WalkNotice {
    /// The walk's date cannot be: correct it. Until then no other walk's answer stands on
    /// this walk.
    DateNotPlausible {
        /// First date that can be.
        first: NaiveDate,
        /// Last date that can be.
        last: NaiveDate,
    },
    /// The walk has more stops or heads than are rolled up: there is no answer for it.
    TooLarge {
        /// Most stops that are rolled up.
        most_stops: u32,
        /// Most heads that are rolled up.
        most_heads: u32,
    },
}
