//! Weather files: the plain table of the app, and the public layouts of
//! GHCN-Daily (fixed width, by station, and daily summaries). [`read`] tells
//! them apart by their first line.
//!
//! A reader gives rows as they stand and says what was wrong with a line; what
//! the rows are worth is decided in [`ripening::weather::clean`].

mod daily_rows;
mod fields;
mod fixed_width;
mod long_csv;
mod problem;
mod table;

use std::io::{Cursor, Read};

use ripening::weather::RawDay;

pub use crate::watch::{Going, Watch};
use kinds::cell;
pub use problem::{RowFault, RowProblem, WeatherFileError};

/// What a weather file holds.
#[derive(Debug, Clone, PartialEq)]
pub struct WeatherFile {
    /// Which layout it is in.
    pub layout: Layout,
    /// Rows by station, in the order of the file.
    pub stations: Vec<StationRows>,
    /// Lines that could not be used, or not wholly.
    pub problems: Vec<RowProblem>,
}

/// The rows of one station.
#[derive(Debug, Clone, PartialEq)]
pub struct StationRows {
    /// Its name or number; `None` where the file names none.
    pub station: Option<String>,
    /// Rows as they stand, in the order of the file.
    pub rows: Vec<RawDay>,
}

/// Layouts of weather files.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Layout {
    /// `date,high_f,low_f,...` with a header.
    Table,
    /// GHCN-Daily `.dly`: one line for a station, month and element.
    FixedWidth,
    /// GHCN-Daily by station: one line for a day and element.
    ByStation,
    /// Daily summaries: one line for a day, with a header.
    DailySummaries,
}

/// Longest first line looked at to tell the layouts apart.
const FIRST_LINE: usize = 16 * 1024;

/// Days, and faults, that one file may hold: 2,700 years of one station, and memory
/// that a phone has.
const MOST: usize = 1_000_000;

/// An error where a file holds more than that.
fn within(days: usize, problems: &[RowProblem]) -> Result<(), WeatherFileError> {
    if days + problems.len() > MOST {
        return Err(WeatherFileError::TooLong(MOST));
    }
    Ok(())
}

/// Reads a weather file of any of the layouts.
///
/// # Errors
/// [`WeatherFileError`]: unreadable, of no known layout, without a usable row, or
/// stopped by the watch.
pub fn read(mut from: impl Read, watch: &mut Watch<'_>) -> Result<WeatherFile, WeatherFileError> {
    let mut start = Vec::with_capacity(FIRST_LINE);
    from.by_ref()
        .take(FIRST_LINE as u64)
        .read_to_end(&mut start)?;
    if start.starts_with(b"\xef\xbb\xbf") {
        start.drain(..3);
    }
    let first = start.split(|&byte| byte == b'\n').next().unwrap_or(&[]);
    let first = String::from_utf8_lossy(first).trim().to_owned();
    let layout = layout_of(&first).ok_or_else(|| {
        if cell::has_semicolons(first.split(',')) {
            WeatherFileError::Semicolons
        } else {
            WeatherFileError::UnknownLayout
        }
    })?;
    let whole = Cursor::new(start).chain(from);
    let file = match layout {
        Layout::Table => table::read(whole, watch)?,
        Layout::FixedWidth => fixed_width::read(whole, watch)?,
        Layout::ByStation => long_csv::read_by_station(whole, watch)?,
        Layout::DailySummaries => long_csv::read_summaries(whole, watch)?,
    };
    if file.stations.iter().all(|station| station.rows.is_empty()) {
        return Err(WeatherFileError::NoGoodRow {
            bad: file.problems.len(),
            first: file.problems.first().map(ToString::to_string),
        });
    }
    Ok(file)
}

/// The layout of a weather file by its first line; `None` for anything else.
pub fn layout_of(first: &str) -> Option<Layout> {
    if fixed_width::is_line(first) {
        return Some(Layout::FixedWidth);
    }
    let names: Vec<String> = first
        .split(',')
        .map(|name| name.trim().trim_matches('"').to_ascii_lowercase())
        .collect();
    let has = |name: &str| names.iter().any(|other| other == name);
    if has("date") && (has("high_f") || has("high_c") || has("low_f") || has("low_c")) {
        Some(Layout::Table)
    } else if has("date") && (has("tmax") || has("tmin")) {
        Some(Layout::DailySummaries)
    } else if has("element") && has("date") || long_csv::is_by_station_row(&names) {
        Some(Layout::ByStation)
    } else {
        None
    }
}
