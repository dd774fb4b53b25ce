//! The roll-up: from a few heads at a few stops to the whole planting, with
//! bands that hold their level.
//!
//! # The model
//! Ages are in heat units since bloom ([`marks`]). A head's age is
//! `mean + stop effect + head effect`:
//! - `mean`: the planting's, flat prior from before boot to past ripeness;
//! - stop effect: `Normal(0, stop spread)`, the spread lognormal with median 40
//!   and logarithmic standard deviation 0.8;
//! - head effect: `Normal(0, head spread)`, the spread lognormal with median 80
//!   and logarithmic standard deviation 0.6; with prior probability one half,
//!   a share of the heads (15, 35 or 60 %) is late by 112, 192 or 288 units
//!   more (tillers, a second flush).
//!
//! A reading and its share measure a head's age with the errors of
//! [`reading_error`]; a head's span is 120, 168 or 224 units (prior 0.3, 0.4,
//! 0.3). Everything is summed over a grid: each stop is integrated over its own
//! effect, kept, and multiplied into the whole, so that a tap recomputes one
//! stop. Stops are multiplied in an order that depends on their content only:
//! the order of entry changes no bit.

mod advice;
mod answer;
mod contradiction;
mod grid;
mod heat_from_weather;
mod history;
mod layer;
pub mod marks;
mod nodes;
pub(crate) mod normal;
mod population;
mod posterior;
mod prior;
pub mod reading_error;
mod roll_up;
mod smoothing;
mod stop;

pub use advice::{FEWEST_STOPS, Target, WalkingCost};
pub use contradiction::{Contradiction, contradiction};
pub use posterior::Posterior;
pub use prior::{HeatMoved, PROCESS_NOISE, Prior};
pub use roll_up::{RollUp, roll_up};
