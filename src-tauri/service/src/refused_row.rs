//! Rows of a file that are not used.

use kinds::Detail;
use serde::{Deserialize, Serialize};

/// A row that was not used.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct RefusedRow {
    /// Line of the file, the header being line 1.
    pub line: u32,
    /// Why.
    pub reason: Detail,
}
