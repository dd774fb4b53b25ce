//! Observation files: `planting,observed_on,what`, where `what` is `moisture`,
//! `ground`, `standing` or `cut`, with the columns that it needs:
//!
//! - moisture: `percents` (blanks between samples), `meter` (hand, bench or
//!   oven; hand where empty), `meter_name`, `meter_error`
//! - ground: `frame_square_feet` (1 where empty), `seeds` (blanks between
//!   frames), `heads`
//! - standing: `lodged` (percent), `weathering` (0-9), `weak_stalks` (percent)
//!
//! and for each `scout` and `note`. Other columns are passed over.

use std::io::Read;
use std::str::FromStr;

use chrono::NaiveDate;
use csv::StringRecord;
use ripening::calendar::{YEARS, is_plausible};
use ripening::dry_down::Meter;
use thiserror::Error;

use kinds::cell;
use kinds::short;
use kinds::{Observation, Seen};

/// Most rows, good and bad.
const MOST: usize = 200_000;
/// Longest file, in bytes.
const LONGEST: u64 = 32 << 20;

/// An observation as a file gives it.
#[derive(Debug, Clone, PartialEq)]
pub struct FileObservation {
    /// Line of the file, from 1.
    pub line: u64,
    /// Name of the planting.
    pub planting: String,
    /// What was seen.
    pub seen: Seen,
}

/// What an observation file holds.
#[derive(Debug, Clone, PartialEq)]
pub struct ObservationFile {
    /// In the order of the file.
    pub observations: Vec<FileObservation>,
    /// Lines that could not be used.
    pub problems: Vec<ObservationProblem>,
}

/// A line that was not used.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
#[error("line {line}: {fault}")]
pub struct ObservationProblem {
    /// Line of the file, from 1.
    pub line: u64,
    /// What is wrong.
    pub fault: ObservationFault,
}

/// What is wrong with a line.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum ObservationFault {
    /// No name.
    #[error("the planting has no name")]
    NoName,
    /// Not a date.
    #[error("observed_on '{0}' is no date: write it as 2026-09-30")]
    NoDate(String),
    /// A date of another century.
    #[error("observed_on {0} is outside {first} to {last}: check the year",
        first = YEARS.start(), last = YEARS.end())]
    FarDate(NaiveDate),
    /// Not a kind of observation.
    #[error("what '{0}' is not known: use moisture, ground, standing or cut")]
    NoKind(String),
    /// Not a meter.
    #[error("meter '{0}' is not known: use hand, bench or oven")]
    NoMeter(String),
    /// A number is missing or cannot be read.
    #[error("{column} '{text}' is no number (several are parted by blanks)")]
    NoNumber {
        /// Which column.
        column: &'static str,
        /// What stands there.
        text: String,
    },
    /// The numbers cannot be, in the words of the service.
    #[error("{0}")]
    Impossible(String),
}

/// Why an observation file was not read.
#[derive(Debug, Error)]
pub enum ObservationFileError {
    /// Could not be read.
    #[error("the file cannot be read: {0}")]
    Unreadable(#[from] csv::Error),
    /// Semicolons between the columns.
    #[error("{}", cell::SEMICOLONS)]
    Semicolons,
    /// A column is missing.
    #[error(
        "not an observation file: the header needs planting, observed_on and what; '{0}' is missing"
    )]
    ColumnMissing(&'static str),
    /// More rows, or bytes, than any crew's ripe grain.
    #[error("the file holds more than {MOST} rows or 32 MB: split it")]
    TooLong,
    /// Nothing usable.
    #[error("no usable row ({bad} bad)")]
    NoGoodRow {
        /// Bad rows.
        bad: usize,
    },
}

/// A row with its header.
struct Row<'a> {
    header: &'a StringRecord,
    record: &'a StringRecord,
}

impl Row<'_> {
    fn text(&self, column: &str) -> &str {
        let cell = place(self.header, column).and_then(|at| self.record.get(at));
        cell::as_meant(cell.unwrap_or_default().trim())
    }

    fn optional<T: FromStr>(&self, column: &'static str) -> Result<Option<T>, ObservationFault> {
        let text = self.text(column);
        if text.is_empty() {
            return Ok(None);
        }
        text.parse().map(Some).map_err(|_| self.no_number(column))
    }

    fn needed<T: FromStr>(&self, column: &'static str) -> Result<T, ObservationFault> {
        self.optional(column)?.ok_or_else(|| self.no_number(column))
    }

    fn list<T: FromStr>(&self, column: &'static str) -> Result<Vec<T>, ObservationFault> {
        self.text(column)
            .split_whitespace()
            .map(|text| text.parse().map_err(|_| self.no_number(column)))
            .collect()
    }

    fn no_number(&self, column: &'static str) -> ObservationFault {
        ObservationFault::NoNumber {
            column,
            text: short(self.text(column)),
        }
    }
}

fn place(header: &StringRecord, name: &str) -> Option<usize> {
    header.iter().position(|column| {
        column
            .trim_start_matches('\u{feff}')
            .trim()
            .eq_ignore_ascii_case(name)
    })
}

/// Reads an observation file. Whether its numbers can be is for the service to
/// say.
///
/// # Errors
/// [`ObservationFileError`].
pub fn read(from: impl Read) -> Result<ObservationFile, ObservationFileError> {
    let mut reader = csv::ReaderBuilder::new()
        .flexible(true)
        .from_reader(from.take(LONGEST + 1));
    let header = reader.headers()?.clone();
    if cell::has_semicolons(header.iter()) {
        return Err(ObservationFileError::Semicolons);
    }
    for column in ["planting", "observed_on", "what"] {
        if place(&header, column).is_none() {
            return Err(ObservationFileError::ColumnMissing(column));
        }
    }
    let mut file = ObservationFile {
        observations: Vec::new(),
        problems: Vec::new(),
    };
    let mut record = StringRecord::new();
    while reader.read_record(&mut record)? {
        let line = record.position().map_or(0, csv::Position::line);
        let row = Row {
            header: &header,
            record: &record,
        };
        match observation(&row, line) {
            Ok(observation) => file.observations.push(observation),
            Err(fault) => file.problems.push(ObservationProblem { line, fault }),
        }
        if file.observations.len() + file.problems.len() > MOST {
            return Err(ObservationFileError::TooLong);
        }
    }
    if reader.position().byte() > LONGEST {
        return Err(ObservationFileError::TooLong);
    }
    if file.observations.is_empty() {
        return Err(ObservationFileError::NoGoodRow {
            bad: file.problems.len(),
        });
    }
    Ok(file)
}

fn observation(row: &Row, line: u64) -> Result<FileObservation, ObservationFault> {
    let planting = row.text("planting");
    if planting.is_empty() {
        return Err(ObservationFault::NoName);
    }
    let date = row.text("observed_on");
    let on: NaiveDate = date
        .parse()
        .map_err(|_| ObservationFault::NoDate(short(date)))?;
    if !is_plausible(on) {
        return Err(ObservationFault::FarDate(on));
    }
    let what = match row.text("what") {
        "moisture" => Observation::Moisture {
            meter: meter(row.text("meter"))?,
            meter_name: row.text("meter_name").to_owned(),
            meter_error: row.optional("meter_error")?,
            percents: row.list("percents")?,
        },
        "ground" => Observation::Ground {
            frame_square_feet: row.optional("frame_square_feet")?.unwrap_or(1.0),
            seeds: row.list("seeds")?,
            heads: row.optional("heads")?.unwrap_or_default(),
        },
        "standing" => Observation::Standing {
            lodged: row.needed("lodged")?,
            weak_stalks: row.optional("weak_stalks")?,
            weathering: row.needed("weathering")?,
        },
        "cut" => Observation::Cut,
        other => return Err(ObservationFault::NoKind(short(other))),
    };
    let note = row.text("note");
    Ok(FileObservation {
        line,
        planting: planting.to_owned(),
        seen: Seen {
            on,
            what,
            scout: row.text("scout").to_owned(),
            note: (!note.is_empty()).then(|| note.to_owned()),
        },
    })
}

fn meter(word: &str) -> Result<Meter, ObservationFault> {
    match word {
        "" | "hand" => Ok(Meter::Hand),
        "bench" => Ok(Meter::Bench),
        "oven" => Ok(Meter::Oven),
        other => Err(ObservationFault::NoMeter(short(other))),
    }
}
