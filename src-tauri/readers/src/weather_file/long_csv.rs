//! The two comma-separated layouts of GHCN-Daily. By station: one line for a day
//! and element, `station,date,element,value,measurement,quality,source,time`,
//! with or without a header. Daily summaries: one line for a day, a header with
//! `STATION`, `DATE`, `TMAX`, `TMIN` and their `_ATTRIBUTES`. Values in tenths of
//! a degree C and of a millimetre.

use std::io::Read;

use csv::ByteRecord;

use super::daily_rows::{Element, ElementRows, NOT_MEASURED};
use super::fields::{date, day, number, shown};
use super::problem::{RowFault, RowProblem, WeatherFileError};
use super::{Layout, WeatherFile, within};
use crate::head_file::{Lines, first_line, next_row};
use crate::watch::Watch;

/// Whether a first line without a header is of the by-station layout.
pub(super) fn is_by_station_row(fields: &[String]) -> bool {
    matches!(fields, [_, day, element, value, ..]
        if date(day.as_bytes()).is_some() && element.len() == 4 && value.parse::<i64>().is_ok())
}

pub(super) fn read_by_station(
    from: impl Read,
    watch: &mut Watch<'_>,
) -> Result<WeatherFile, WeatherFileError> {
    let mut rows = ElementRows::default();
    let mut problems = Vec::new();
    each_record(
        from,
        watch,
        |record, line| {
            let field = |column: usize| record.get(column).ok_or(RowFault::TooShort);
            let name = field(2)?.trim_ascii();
            let Some(element) = Element::named(name) else {
                // Other elements, and the header where there is one.
                return Ok(rows.days());
            };
            let date = day(field(1)?.trim_ascii())?;
            let Some(value) = value(field(3)?)? else {
                return Ok(rows.days());
            };
            quality(record.get(5), name, date)?;
            rows.add(field(0)?.trim_ascii(), date, line, element, value);
            Ok(rows.days())
        },
        &mut problems,
    )?;
    Ok(WeatherFile {
        layout: Layout::ByStation,
        stations: rows.into_rows(),
        problems,
    })
}

pub(super) fn read_summaries(
    from: impl Read,
    watch: &mut Watch<'_>,
) -> Result<WeatherFile, WeatherFileError> {
    let mut rows = ElementRows::default();
    let mut problems = Vec::new();
    let mut columns: Option<SummaryColumns> = None;
    each_record(
        from,
        watch,
        |record, line| {
            let Some(columns) = &columns else {
                columns = Some(SummaryColumns::of(record));
                return Ok(0);
            };
            let text = columns.date.and_then(|column| record.get(column));
            let date = day(text.ok_or(RowFault::TooShort)?.trim_ascii())?;
            let station = columns
                .station
                .and_then(|column| record.get(column))
                .unwrap_or_default()
                .trim_ascii();
            for (element, name, column, attributes) in &columns.elements {
                let Some(value) = value(record.get(*column).unwrap_or_default())? else {
                    continue;
                };
                // Attributes: measurement, quality, source, with commas between.
                let flags = attributes.and_then(|column| record.get(column));
                let flag = flags.and_then(|flags| flags.split(|&byte| byte == b',').nth(1));
                quality(flag, name, date)?;
                rows.add(station, date, line, *element, value);
            }
            Ok(rows.days())
        },
        &mut problems,
    )?;
    Ok(WeatherFile {
        layout: Layout::DailySummaries,
        stations: rows.into_rows(),
        problems,
    })
}

struct SummaryColumns {
    station: Option<usize>,
    date: Option<usize>,
    elements: Vec<(Element, &'static [u8], usize, Option<usize>)>,
}

impl SummaryColumns {
    fn of(header: &ByteRecord) -> SummaryColumns {
        let place = |name: &[u8]| {
            header
                .iter()
                .position(|column| column.trim_ascii().eq_ignore_ascii_case(name))
        };
        let names: [&'static [u8]; 4] = [b"TMAX", b"TMIN", b"PRCP", b"RHAV"];
        SummaryColumns {
            station: place(b"STATION"),
            date: place(b"DATE"),
            elements: names
                .into_iter()
                .filter_map(|name| {
                    let attributes = place(&[name, b"_ATTRIBUTES"].concat());
                    Some((Element::named(name)?, name, place(name)?, attributes))
                })
                .collect(),
        }
    }
}

fn each_record(
    from: impl Read,
    watch: &mut Watch<'_>,
    mut take: impl FnMut(&ByteRecord, u64) -> Result<usize, RowFault>,
    problems: &mut Vec<RowProblem>,
) -> Result<(), WeatherFileError> {
    let mut reader = csv::ReaderBuilder::new()
        .has_headers(false)
        .flexible(true)
        .from_reader(Lines::new(from));
    let mut record = ByteRecord::new();
    while next_row(&mut reader, &mut record)? {
        if !watch.row() {
            return Err(WeatherFileError::Stopped);
        }
        let line = first_line(&reader, record.as_slice());
        match take(&record, line) {
            Ok(days) => within(days, problems)?,
            Err(fault) => {
                problems.push(RowProblem { line, fault });
                within(0, problems)?;
            }
        }
    }
    Ok(())
}

fn value(text: &[u8]) -> Result<Option<f64>, RowFault> {
    number(text)
        .map(|value| value.filter(|&value| value != NOT_MEASURED))
        .map_err(|()| RowFault::NoNumber {
            column: "value",
            text: shown(text),
        })
}

/// A quality flag means that the value failed a check of the source.
fn quality(flag: Option<&[u8]>, name: &[u8], date: chrono::NaiveDate) -> Result<(), RowFault> {
    match flag.map(<[u8]>::trim_ascii).and_then(<[u8]>::first) {
        None => Ok(()),
        Some(&flag) => Err(RowFault::FailedQuality {
            element: format!("{} of {date}", String::from_utf8_lossy(name)),
            flag: char::from(flag),
        }),
    }
}
