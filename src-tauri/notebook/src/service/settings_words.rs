//! What the app is set to on this device.

use serde::{Deserialize, Serialize};

/// Settings of this device.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct Settings {
    /// Who walks, by default.
    pub scout: String,
    /// `en` or `es`.
    pub language: String,
    /// Units shown.
    pub units: Units,
    /// Mirror the walk screen for the left hand.
    pub left_hand: bool,
    /// Colours.
    pub theme: Theme,
    /// Level of the bands, 0.5-0.99.
    pub level: f64,
    /// Target: probability of the stage, 0.5-0.99.
    pub target_stage_chance: f64,
    /// Target: width of the position band, stages.
    pub target_position_width: f64,
    /// Minutes to reach one more stop.
    pub minutes_per_stop: f64,
    /// Minutes to read one head.
    pub minutes_per_head: f64,
    /// Heads usually read at a stop.
    pub heads_per_stop: u32,
    /// Whether the squeeze key has been shown once.
    pub key_seen: bool,
    /// Stops of a planned walk.
    #[serde(default = "super::settings::plan_stops")]
    pub plan_stops: u32,
    /// Places in reserve beside them.
    #[serde(default = "super::settings::plan_spare")]
    pub plan_spare: u32,
    /// Meters that a plan keeps off every edge.
    #[serde(default = "super::settings::plan_edge_m")]
    pub plan_edge_m: f64,
}

/// Units shown on the screens.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum Units {
    /// Degrees F, acres, bushels.
    Us,
    /// Degrees C, hectares, tonnes.
    Metric,
}

/// Colours of the screens.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum Theme {
    /// As the system says.
    System,
    /// Light.
    Light,
    /// Dark.
    Dark,
}
