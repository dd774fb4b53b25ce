//! A guess with its two ends.

use serde::{Deserialize, Serialize};

/// An interval estimate: the middle (posterior median) and the two ends of a
/// central credible interval. The level is stated beside it, by whoever made it.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct Band {
    /// Lower end.
    pub low: f64,
    /// Median.
    pub mid: f64,
    /// Upper end.
    pub high: f64,
}

impl Band {
    /// How far apart the ends are, in the unit of the band.
    pub fn width(&self) -> f64 {
        self.high - self.low
    }
}
