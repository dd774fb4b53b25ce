//! What can be wrong with a weather file and its lines.

use std::fmt;

use chrono::NaiveDate;
use ripening::calendar::WEATHER_YEARS;
use thiserror::Error;

use kinds::{Detail, cell};

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
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum RowFault {
    /// Not a date.
    NoDate(String),
    /// A date of which no weather can be known.
    FarDate(NaiveDate),
    /// Not a number.
    NoNumber {
        /// Which column.
        column: &'static str,
        /// What stands there.
        text: String,
    },
    /// Fewer columns than the header.
    TooShort,
    /// Not of the layout.
    NotOfLayout,
    /// The value failed the source's own quality check.
    FailedQuality {
        /// Which element.
        element: String,
        /// The source's flag.
        flag: char,
    },
}

impl From<&RowFault> for Detail {
    fn from(fault: &RowFault) -> Self {
        match fault {
            RowFault::NoDate(text) => Self::NotADate {
                column: "date".to_owned(),
                text: text.clone(),
            },
            RowFault::FarDate(date) => Self::FarDate {
                column: "date".to_owned(),
                date: date.to_string(),
                first: WEATHER_YEARS.start().to_string(),
                last: WEATHER_YEARS.end().to_string(),
            },
            RowFault::NoNumber { column, text } => Self::NotANumber {
                column: (*column).to_owned(),
                text: text.clone(),
            },
            RowFault::TooShort => Self::RowTooShort,
            RowFault::NotOfLayout => Self::NotOfLayout,
            RowFault::FailedQuality { element, flag } => Self::FailedQuality {
                element: element.clone(),
                flag: flag.to_string(),
            },
        }
    }
}

impl fmt::Display for RowFault {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        Detail::from(self).fmt(out)
    }
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
