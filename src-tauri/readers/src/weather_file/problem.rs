//! What can be wrong with a weather file and its lines.

use chrono::NaiveDate;
use ripening::calendar::WEATHER_YEARS;
use thiserror::Error;

use kinds::cell;

/// A line that was not used, or not wholly.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
#[error("line {line}: {fault}")]
pub struct RowProblem {
    /// Line of the file, from 1.
    pub line: u64,
    /// What is wrong.
    pub fault: RowFault,
}

/// What is wrong with a line.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum RowFault {
    /// Not a date.
    #[error("'{0}' is no date: write it as 2026-07-31")]
    NoDate(String),
    /// A date of which no weather can be known.
    #[error("{0} is outside {first} to {last}: check the year",
        first = WEATHER_YEARS.start(), last = WEATHER_YEARS.end())]
    FarDate(NaiveDate),
    /// Not a number.
    #[error("{column} '{text}' is no number")]
    NoNumber {
        /// Which column.
        column: &'static str,
        /// What stands there.
        text: String,
    },
    /// Fewer columns than the header.
    #[error("the line is too short")]
    TooShort,
    /// Not of the layout.
    #[error("the line is not of this layout")]
    NotOfLayout,
    /// The value failed the source's own quality check.
    #[error("{element} failed the source's quality check '{flag}': left out")]
    FailedQuality {
        /// Which element.
        element: String,
        /// The source's flag.
        flag: char,
    },
}

/// Why a weather file was not read.
#[derive(Debug, Error)]
pub enum WeatherFileError {
    /// Could not be read.
    #[error("the file cannot be read: {0}")]
    Unreadable(#[from] std::io::Error),
    /// None of the layouts.
    #[error(
        "not a weather file: give a header with date and high_f,low_f (or high_c,low_c), or a GHCN-Daily file"
    )]
    UnknownLayout,
    /// Semicolons between the columns.
    #[error("{}", cell::SEMICOLONS)]
    Semicolons,
    /// High without low, or the two in different units.
    #[error("the header needs both high_f and low_f, or both high_c and low_c")]
    ColumnsMissing,
    /// Nothing usable.
    #[error("no usable row ({bad} bad{}{})", if first.is_some() { "; the first: " } else { "" }, first.as_deref().unwrap_or(""))]
    NoGoodRow {
        /// Bad rows.
        bad: usize,
        /// What is wrong with the first.
        first: Option<String>,
    },
    /// More than one file may hold.
    #[error("the file holds more than {0} days or bad lines: split it by station")]
    TooLong(usize),
    /// The watch said stop.
    #[error("stopped; nothing was stored")]
    Stopped,
}

impl From<csv::Error> for WeatherFileError {
    fn from(error: csv::Error) -> WeatherFileError {
        WeatherFileError::Unreadable(std::io::Error::other(error.to_string()))
    }
}
