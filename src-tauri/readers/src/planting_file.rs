//! Planting files: `planting,hybrid,planted_on,purpose`, optionally `field`,
//! `station`, `acres` or `hectares`, `half_bloom_on`. Other columns are passed
//! over.

use std::collections::BTreeMap;
use std::fmt;
use std::io::Read;

use chrono::NaiveDate;
use csv::{ByteRecord, StringRecord};
use ripening::calendar::{YEARS, is_plausible};
use thiserror::Error;

use crate::head_file::{Lines, first_line, next_row};
use crate::watch::Watch;
use kinds::cell;
use kinds::one_line;
use kinds::{Area, Detail, Purpose};

/// A planting as a file gives it.
#[derive(Debug, Clone, PartialEq)]
pub struct FilePlanting {
    /// Line of the file, from 1.
    pub line: u64,
    /// Name.
    pub planting: String,
    /// Hybrid.
    pub hybrid: Option<String>,
    /// Planting date.
    pub planted_on: NaiveDate,
    /// What it is grown for.
    pub purpose: Purpose,
    /// Field.
    pub field: Option<String>,
    /// Station whose weather counts for it.
    pub station: Option<String>,
    /// Area.
    pub area: Option<Area>,
    /// Noted date of half bloom.
    pub half_bloom_on: Option<NaiveDate>,
}

/// What a planting file holds.
#[derive(Debug, Clone, PartialEq)]
pub struct PlantingFile {
    /// Plantings, in the order of the file, each name once.
    pub plantings: Vec<FilePlanting>,
    /// Lines that could not be used.
    pub problems: Vec<PlantingProblem>,
}

/// A line that was not used.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
#[error("line {line}: {fault}")]
pub struct PlantingProblem {
    /// Line of the file, from 1.
    pub line: u64,
    /// What is wrong.
    pub fault: PlantingFault,
}

/// What is wrong with a line.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum PlantingFault {
    /// No name.
    NoName,
    /// The name came before.
    NameAgain {
        /// The name.
        name: String,
        /// Line of the first.
        first: u64,
    },
    /// Not a date.
    NoDate {
        /// Which column.
        column: &'static str,
        /// What stands there.
        text: String,
    },
    /// A date of another century.
    FarDate {
        /// Which column.
        column: &'static str,
        /// What stands there.
        date: NaiveDate,
    },
    /// Not a purpose.
    NoPurpose(String),
    /// Not an area.
    NoArea {
        /// Which column.
        column: &'static str,
        /// What stands there.
        text: String,
    },
    /// Bloomed before it was planted.
    BloomBeforePlanting {
        /// Planting date.
        planted_on: NaiveDate,
        /// Noted date of half bloom.
        half_bloom_on: NaiveDate,
    },
}

impl From<&PlantingFault> for Detail {
    fn from(fault: &PlantingFault) -> Self {
        use PlantingFault as Fault;
        match fault {
            Fault::NoName => Self::PlantingUnnamed,
            Fault::NameAgain { name, first } => Self::PlantingAgain {
                name: name.clone(),
                first: u32::try_from(*first).unwrap_or(u32::MAX),
            },
            Fault::NoDate { column, text } => Self::NotADate {
                column: (*column).to_owned(),
                text: text.clone(),
            },
            Fault::FarDate { column, date } => Self::FarDate {
                column: (*column).to_owned(),
                date: date.to_string(),
                first: YEARS.start().to_string(),
                last: YEARS.end().to_string(),
            },
            Fault::NoPurpose(text) => Self::UnknownPurpose { text: text.clone() },
            Fault::NoArea { column, text } => Self::NotAnArea {
                column: (*column).to_owned(),
                text: text.clone(),
            },
            Fault::BloomBeforePlanting {
                planted_on,
                half_bloom_on,
            } => Self::BloomBeforePlanting {
                bloom: half_bloom_on.to_string(),
                planted: planted_on.to_string(),
            },
        }
    }
}

impl fmt::Display for PlantingFault {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        Detail::from(self).fmt(out)
    }
}

/// Why a planting file was not read.
#[derive(Debug, Error)]
pub enum PlantingFileError {
    /// Could not be read.
    #[error("the file cannot be read: {0}")]
    Unreadable(#[from] csv::Error),
    /// Not UTF-8.
    #[error(
        "line {0}: the text is not UTF-8: save the file as UTF-8 (\"CSV UTF-8\") and try again"
    )]
    NotUtf8(u64),
    /// Semicolons between the columns.
    #[error("{}", cell::SEMICOLONS)]
    Semicolons,
    /// A column is missing.
    #[error(
        "not a planting file: the header needs planting, hybrid, planted_on and purpose; '{0}' is missing"
    )]
    ColumnMissing(&'static str),
    /// Nothing usable.
    #[error("no usable row ({bad} bad)")]
    NoGoodRow {
        /// Bad rows.
        bad: usize,
    },
    /// More than one file may hold.
    #[error("the file holds more than {0} rows: split it")]
    TooLong(usize),
    /// The watch said stop.
    #[error("stopped; nothing was stored")]
    Stopped,
}

/// Rows that one file may hold: more plantings than any crew has, and memory that a
/// phone has.
const MOST: usize = 200_000;

struct Columns {
    planting: usize,
    hybrid: usize,
    planted_on: usize,
    purpose: usize,
    field: Option<usize>,
    station: Option<usize>,
    acres: Option<usize>,
    hectares: Option<usize>,
    half_bloom_on: Option<usize>,
}

/// Reads a planting file.
///
/// # Errors
/// [`PlantingFileError`].
pub fn read(from: impl Read, watch: &mut Watch<'_>) -> Result<PlantingFile, PlantingFileError> {
    let mut rows = csv::ReaderBuilder::new()
        .has_headers(false)
        .flexible(true)
        .from_reader(Lines::new(from));
    let mut row = ByteRecord::new();
    let mut read =
        |row: &mut ByteRecord| -> Result<Option<(u64, StringRecord)>, PlantingFileError> {
            if !next_row(&mut rows, row)? {
                return Ok(None);
            }
            let line = first_line(&rows, row.as_slice());
            let text = StringRecord::from_byte_record(std::mem::take(row))
                .map_err(|_| PlantingFileError::NotUtf8(line))?;
            Ok(Some((line, text)))
        };
    let header = read(&mut row)?
        .map(|(_, header)| header)
        .unwrap_or_default();
    if cell::has_semicolons(header.iter()) {
        return Err(PlantingFileError::Semicolons);
    }
    let columns = columns(&header)?;
    let mut plantings: Vec<FilePlanting> = Vec::new();
    let mut first_line: BTreeMap<String, u64> = BTreeMap::new();
    let mut problems = Vec::new();
    while let Some((line, record)) = read(&mut row)? {
        if !watch.row() {
            return Err(PlantingFileError::Stopped);
        }
        let planting = planting(&columns, &record, line).and_then(|planting| {
            match first_line.get(&planting.planting) {
                Some(&first) => Err(PlantingFault::NameAgain {
                    name: one_line(&planting.planting),
                    first,
                }),
                None => Ok(planting),
            }
        });
        match planting {
            Ok(planting) => {
                first_line.insert(planting.planting.clone(), line);
                plantings.push(planting);
            }
            Err(fault) => problems.push(PlantingProblem { line, fault }),
        }
        if plantings.len() + problems.len() > MOST {
            return Err(PlantingFileError::TooLong(MOST));
        }
    }
    if plantings.is_empty() {
        return Err(PlantingFileError::NoGoodRow {
            bad: problems.len(),
        });
    }
    Ok(PlantingFile {
        plantings,
        problems,
    })
}

fn columns(header: &StringRecord) -> Result<Columns, PlantingFileError> {
    let place = |name: &str| {
        header.iter().position(|column| {
            column
                .trim_start_matches('\u{feff}')
                .trim()
                .eq_ignore_ascii_case(name)
        })
    };
    let needed = |name: &'static str| place(name).ok_or(PlantingFileError::ColumnMissing(name));
    Ok(Columns {
        planting: needed("planting")?,
        hybrid: needed("hybrid")?,
        planted_on: needed("planted_on")?,
        purpose: needed("purpose")?,
        field: place("field"),
        station: place("station"),
        acres: place("acres"),
        hectares: place("hectares"),
        half_bloom_on: place("half_bloom_on"),
    })
}

fn planting(
    columns: &Columns,
    record: &StringRecord,
    line: u64,
) -> Result<FilePlanting, PlantingFault> {
    let text = |column: usize| cell::as_meant(record.get(column).map_or("", str::trim));
    let some = |column: Option<usize>| {
        column
            .map(text)
            .filter(|text| !text.is_empty())
            .map(str::to_owned)
    };
    let date = |column: &'static str, text: &str| {
        let date = text
            .parse::<NaiveDate>()
            .map_err(|_| PlantingFault::NoDate {
                column,
                text: one_line(text),
            })?;
        if is_plausible(date) {
            Ok(date)
        } else {
            Err(PlantingFault::FarDate { column, date })
        }
    };
    let area = |column: &'static str, text: &str| {
        text.parse::<f64>()
            .ok()
            .filter(|size| size.is_finite() && *size > 0.0)
            .ok_or_else(|| PlantingFault::NoArea {
                column,
                text: one_line(text),
            })
    };
    let name = text(columns.planting);
    if name.is_empty() {
        return Err(PlantingFault::NoName);
    }
    let planted_on = date("planted_on", text(columns.planted_on))?;
    let half_bloom_on = some(columns.half_bloom_on)
        .map(|text| date("half_bloom_on", &text))
        .transpose()?;
    if let Some(half_bloom_on) = half_bloom_on
        && half_bloom_on < planted_on
    {
        return Err(PlantingFault::BloomBeforePlanting {
            planted_on,
            half_bloom_on,
        });
    }
    let acres = some(columns.acres)
        .map(|text| area("acres", &text).map(Area::Acres))
        .transpose()?;
    let hectares = some(columns.hectares)
        .map(|text| area("hectares", &text).map(Area::Hectares))
        .transpose()?;
    Ok(FilePlanting {
        line,
        planting: name.to_owned(),
        hybrid: some(Some(columns.hybrid)),
        planted_on,
        purpose: match text(columns.purpose) {
            "grain" => Purpose::Grain,
            "silage" => Purpose::Silage,
            "seed" => Purpose::Seed,
            other => return Err(PlantingFault::NoPurpose(one_line(other))),
        },
        field: some(columns.field),
        station: some(columns.station),
        area: acres.or(hectares),
        half_bloom_on,
    })
}
