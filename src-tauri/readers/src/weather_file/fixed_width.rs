//! GHCN-Daily `.dly`: one line for a station, month and element. Station in
//! columns 1-11, year 12-15, month 16-17, element 18-21, then for each day of 31
//! a value of 5 columns and a measurement, a quality and a source flag. Values
//! in tenths of a degree C and of a millimetre; -9999 for "not measured"; a
//! quality flag means that the value failed a check.

use std::io::{BufRead, BufReader, Read};

use chrono::NaiveDate;

use super::daily_rows::{Element, ElementRows, NOT_MEASURED};
use super::fields::{plausible, whole};
use super::problem::{RowFault, RowProblem, WeatherFileError};
use super::{Layout, WeatherFile, within};
use crate::watch::Watch;

const FIRST_DAY: usize = 21;
const DAY_WIDTH: usize = 8;
const DAYS: usize = 31;
/// Longest line read, bytes: many times one of 31 days.
const LONGEST: u64 = 4096;

/// Whether a file's first line is of this layout.
pub(super) fn is_line(line: &str) -> bool {
    parts(line.as_bytes()).is_some_and(|(_, year, month, _)| {
        (1700..2300).contains(&year) && (1..=12).contains(&month)
    })
}

fn parts(line: &[u8]) -> Option<(&[u8], i32, u32, &[u8])> {
    let station = line.get(..11)?;
    let year = i32::try_from(whole(line.get(11..15)?)?).ok()?;
    let month = whole(line.get(15..17)?)?;
    let element = line.get(17..FIRST_DAY)?;
    let named = station
        .iter()
        .all(|byte| byte.is_ascii_graphic() && *byte != b',');
    (named && element.iter().all(u8::is_ascii_alphanumeric))
        .then_some((station, year, month, element))
}

pub(super) fn read(
    from: impl Read,
    watch: &mut Watch<'_>,
) -> Result<WeatherFile, WeatherFileError> {
    let mut reader = BufReader::new(from);
    let mut rows = ElementRows::default();
    let mut problems = Vec::new();
    let mut line = Vec::new();
    let mut number = 0;
    loop {
        line.clear();
        // What is longer is no line of this layout, and is told as such in pieces.
        if reader.by_ref().take(LONGEST).read_until(b'\n', &mut line)? == 0 {
            break;
        }
        number += 1;
        if !watch.row() {
            return Err(WeatherFileError::Stopped);
        }
        while line.last().is_some_and(u8::is_ascii_whitespace) && line.len() > FIRST_DAY {
            line.pop();
        }
        if line.trim_ascii().is_empty() {
            continue;
        }
        if let Err(fault) = month(&line, number, &mut rows, &mut problems) {
            problems.push(RowProblem {
                line: number,
                fault,
            });
        }
        within(rows.days(), &problems)?;
    }
    Ok(WeatherFile {
        layout: Layout::FixedWidth,
        stations: rows.into_rows(),
        problems,
    })
}

fn month(
    line: &[u8],
    number: u64,
    rows: &mut ElementRows,
    problems: &mut Vec<RowProblem>,
) -> Result<(), RowFault> {
    let (station, year, month, name) = parts(line).ok_or(RowFault::NotOfLayout)?;
    let Some(element) = Element::named(name) else {
        return Ok(());
    };
    for (day, place) in (1_u32..).zip((0..DAYS).map(|day| FIRST_DAY + day * DAY_WIDTH)) {
        let Some(text) = line.get(place..place + 5) else {
            break;
        };
        let value = signed(text).ok_or_else(|| RowFault::NoNumber {
            column: "value",
            text: String::from_utf8_lossy(text).into_owned(),
        })?;
        if value == NOT_MEASURED {
            continue;
        }
        // Days that the month has not are "not measured" in a sound file.
        let date = NaiveDate::from_ymd_opt(year, month, day)
            .ok_or_else(|| RowFault::NoDate(format!("{year}-{month:02}-{day:02}")))
            .and_then(plausible)?;
        match line.get(place + 6) {
            None | Some(b' ') => rows.add(station, date, number, element, value),
            Some(&flag) => problems.push(RowProblem {
                line: number,
                fault: RowFault::FailedQuality {
                    element: format!("{} of {date}", String::from_utf8_lossy(name)),
                    flag: char::from(flag),
                },
            }),
        }
    }
    Ok(())
}

/// A whole number, blanks before it.
fn signed(text: &[u8]) -> Option<f64> {
    let text = text.trim_ascii();
    let (sign, digits) = match text.strip_prefix(b"-") {
        Some(digits) => (-1.0, digits),
        None => (1.0, text),
    };
    Some(sign * f64::from(whole(digits)?))
}
