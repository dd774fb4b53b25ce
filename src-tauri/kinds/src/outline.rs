//! Outlines: whose, and of what corners.

use serde::{Deserialize, Serialize};
use uuid::Uuid;

/// Whose outline.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
#[serde(tag = "kind", content = "id", rename_all = "snake_case")]
pub enum OutlineOf {
    /// A planting's own.
    Planting(Uuid),
    /// A field's, and so of every planting in it that has none of its own.
    Field(Uuid),
}

/// Longitude and latitude, degrees.
pub type Corner = [f64; 2];
/// Parts of an outline; of each its edge, then its holes.
pub type Rings = Vec<Vec<Vec<Corner>>>;
