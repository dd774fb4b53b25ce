//! What a planting is for.

use serde::{Deserialize, Serialize};

/// What a planting is grown for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum Purpose {
    /// Dry grain.
    Grain,
    /// Whole-plant silage.
    Silage,
    /// Seed.
    Seed,
}
