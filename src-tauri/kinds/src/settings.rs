//! What the app is set to on this device.

use ripening::rollup::{Target, WalkingCost};
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
    #[serde(default = "plan_stops")]
    pub plan_stops: u32,
    /// Places in reserve beside them.
    #[serde(default = "plan_spare")]
    pub plan_spare: u32,
    /// Meters that a plan keeps off every edge.
    #[serde(default = "plan_edge_m")]
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

/// Stops of a planned walk, places in reserve, and meters kept off the edges:
/// common practice, to be set by the scout.
const PLAN_STOPS: u32 = 5;
const PLAN_SPARE: u32 = 3;
const PLAN_EDGE_M: f64 = 20.0;

/// What settings kept before there were plans are taken to say.
fn plan_stops() -> u32 {
    PLAN_STOPS
}

fn plan_spare() -> u32 {
    PLAN_SPARE
}

fn plan_edge_m() -> f64 {
    PLAN_EDGE_M
}

impl Default for Settings {
    /// A target of a stage certain to 90 % or a band within half a stage; the
    /// minutes are common practice, to be set by the scout.
    fn default() -> Settings {
        let target = Target::default();
        let cost = WalkingCost::default();
        Settings {
            scout: String::new(),
            language: "en".to_owned(),
            units: Units::Us,
            left_hand: false,
            theme: Theme::System,
            level: 0.9,
            target_stage_chance: target.stage_chance,
            target_position_width: target.position_width,
            minutes_per_stop: cost.minutes_per_stop,
            minutes_per_head: cost.minutes_per_head,
            heads_per_stop: cost.heads_per_stop,
            key_seen: false,
            plan_stops: PLAN_STOPS,
            plan_edge_m: PLAN_EDGE_M,
            plan_spare: PLAN_SPARE,
        }
    }
}

impl Settings {
    /// How precise an answer is wanted.
    pub fn target(&self) -> Target {
        Target {
            stage_chance: self.target_stage_chance,
            position_width: self.target_position_width,
        }
    }

    /// What walking costs.
    pub fn walking_cost(&self) -> WalkingCost {
        WalkingCost {
            minutes_per_stop: self.minutes_per_stop,
            minutes_per_head: self.minutes_per_head,
            heads_per_stop: self.heads_per_stop,
        }
    }
}
