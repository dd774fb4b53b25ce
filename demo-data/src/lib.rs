//! An invented season of sorghum, made from one seed.
//!
//! Nothing here is measured and nothing is real: the assumptions are written
//! down in the `README.md` beside this crate. The generator shares no code with
//! `ripening`, so that the demo cannot agree with the model by construction.

#![forbid(unsafe_code)]

mod chance;
mod fields;
mod files;
mod kernels;
mod plantings;
mod ripe;
mod walks;
mod weather;

pub use files::{FileError, Files};

use chrono::NaiveDate;

/// The one seed of the invented season.
pub const SEED: u64 = 19_720_301;

/// The year of the season under way.
pub const YEAR: i32 = 2026;

/// The day on which the demo is looked at: weather and walks end here.
///
/// # Panics
/// Never: the date exists.
pub fn today() -> NaiveDate {
    day(YEAR, 9, 16)
}

/// Makes the five files of the season.
///
/// # Errors
/// When a row cannot be written, which in memory does not happen.
pub fn season() -> Result<Files, FileError> {
    let weather = weather::invent(SEED);
    let fields = fields::outlines();
    let plantings = plantings::grow(SEED, &weather);
    let heads = walks::walk_all(SEED, &plantings, &fields);
    let seen = ripe::look_at_all(SEED, &plantings, &weather);
    files::write(&weather, &fields, &plantings, &heads, &seen)
}

/// A calendar day of the generator's own tables.
fn day(year: i32, month: u32, day: u32) -> NaiveDate {
    NaiveDate::from_ymd_opt(year, month, day).unwrap_or_default()
}
