//! Whole-field ripening of sorghum from the heads that a scout reads.
//!
//! Everything here is pure: no file, clock, thread, network or ambient
//! randomness. Time, seeds and weather are parameters, and the elementary
//! functions come from `libm`, so the same input gives the same bits on every
//! phone.

#![forbid(unsafe_code)]

pub mod air;
pub mod band;
pub mod calendar;
pub mod dry_down;
pub mod grain;
pub mod harvest;
pub mod head;
pub mod heat;
pub mod outlook;
pub mod rollup;
pub mod stage;
pub mod stop_plan;
pub mod temperature;
pub mod weather;
pub mod whole_field;
pub mod windows;

pub use band::Band;
pub use head::{Flag, Head, HeadError, Reading, Share};
pub use stage::{PerStage, Stage};
pub use whole_field::{Advice, MoreStops, Verdict, WholeField};
