//! What a face is told when a request cannot be carried out.

use serde::{Deserialize, Serialize};

/// The few kinds of trouble a face can act on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum ProblemCode {
    /// The input is not usable; nothing was stored.
    BadInput,
    /// The thing named does not exist (any more).
    NotFound,
    /// The request does not fit what is stored, for instance a head for a removed stop.
    Conflict,
    /// No room on the device; nothing was stored, what was stored before is whole.
    DiskFull,
    /// The notebook is in use, read-only or cannot be reached; try again.
    Unavailable,
    /// The notebook was written by a newer version of the app; nothing was touched.
    FromNewerApp,
    /// The notebook file is damaged.
    Damaged,
    /// A fault of ours.
    Internal,
}

/// One clear line: what, where, what to do.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct Problem {
    /// Kind of trouble; the screens have words for each in every language.
    pub code: ProblemCode,
    /// What and where, in English, for the log and the command line.
    pub message: String,
}
