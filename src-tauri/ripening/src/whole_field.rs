//! The answer for a whole planting on one day, as every face shows it.

use serde::{Deserialize, Serialize};

use crate::{Band, PerStage, Stage};

/// What the heads of a walk (and, where asked, the history) say of a planting.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct WholeField {
    /// Heads read.
    pub heads: u32,
    /// Stops with at least one head.
    pub stops: u32,
    /// Level of every band here, 0-1.
    pub level: f64,
    /// Latest stage reached by at least half of the planting's heads.
    pub stage: Stage,
    /// The same on the published 0-9 scale, linear in heat between the marks.
    pub position: Band,
    /// Share (0-1) of the planting's heads that have reached each stage. Where a
    /// stage has hardly begun or is all but over, the band reaches further into
    /// the middle than a central one, so that it holds among fields in which the
    /// stage is under way too.
    pub reached: PerStage<Band>,
    /// Share (0-1) of all grain (head length) that has reached each stage.
    pub grain: PerStage<Band>,
    /// Probability that the planting's stage is that stage; sums to 1.
    pub chance: PerStage<f64>,
}

/// Whether to go on walking, and what it would buy.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct Advice {
    /// The short of it.
    pub verdict: Verdict,
    /// Width of the position band now, in stages.
    pub position_width: f64,
    /// Probability of the most probable stage now, 0-1.
    pub stage_chance: f64,
    /// What more stops are expected to buy, cheapest first; empty when no more
    /// walking is worth weighing.
    pub more: Vec<MoreStops>,
}

/// The short of an advice.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum Verdict {
    /// No head read yet.
    NoHeads,
    /// The target precision is met.
    Enough,
    /// More stops are expected to meet the target.
    MoreStops,
    /// More stops help, but are not expected to meet the target today.
    OutOfReach,
}

/// The expected answer after more walking.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct MoreStops {
    /// Further stops.
    pub stops: u32,
    /// Heads at each of them.
    pub heads_per_stop: u32,
    /// Expected width of the position band, in stages.
    pub position_width: f64,
    /// Expected probability of the stage that will then be most probable, 0-1.
    pub stage_chance: f64,
    /// Walking and squeezing time, minutes, from the scout's settings.
    pub minutes: f64,
    /// Whether the target is then expected to be met.
    pub meets_target: bool,
}
