//! Simulated sorghum fields whose truth is known, and what a scout reads there.
//!
//! Written from the botany and the contract of the head file alone, not from the
//! model it is used to judge: kernels ripen from the top of a head to its base,
//! heads differ, places differ, and scouts err. [`field`] grows the planting,
//! [`scout`] reads it, [`rivals`] answers with textbook intervals, [`judge`] sets
//! answers beside the truth, and [`tally`] counts who was right.

pub mod field;
pub mod judge;
pub mod plan;
pub mod rivals;
pub mod scout;
pub mod tally;
