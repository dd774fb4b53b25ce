//! Checks of the store and its service.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod faces;
mod harvest;
mod head_files;
mod history;
mod kept_answers;
mod last_stop;
mod log;
mod merging;
mod outlook;
mod photos;
mod places;
mod planting_files;
mod plantings;
mod season;
mod shared;
mod undo;
mod walk;
