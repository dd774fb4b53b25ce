//! A place on the ground, as a phone finds it.

use serde::{Deserialize, Serialize};

/// A position from the device (WGS 84).
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS), ts(optional_fields = nullable))]
pub struct Place {
    /// Degrees, -90 to 90.
    pub latitude: f64,
    /// Degrees, -180 to 180.
    pub longitude: f64,
    /// Radius of the device's own 68 % circle, metres, if it said so.
    pub accuracy_m: Option<f64>,
    /// Seconds between the fix and its telling, if known.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub age_s: Option<f64>,
}
