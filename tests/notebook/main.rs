//! Checks of the store and its service.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod clock;
mod faces;
mod harvest;
mod head_files;
mod history;
mod kept_answers;
mod large_imports;
mod last_stop;
mod log;
mod lots;
mod merging;
mod outlook;
mod photos;
mod places;
mod planting_files;
mod plantings;
mod season;
mod set_aside;
mod shared;
mod undo;
mod walk;
