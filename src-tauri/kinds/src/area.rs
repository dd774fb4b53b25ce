//! Size of a planting.

use serde::{Deserialize, Serialize};

/// An area, in the unit it was given in.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
#[serde(tag = "unit", content = "size", rename_all = "snake_case")]
pub enum Area {
    /// Acres.
    Acres(f64),
    /// Hectares.
    Hectares(f64),
}
