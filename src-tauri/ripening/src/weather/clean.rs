//! From rows as they stand to a record that can be summed. The rules, in the
//! order in which they are applied:
//!
//! 1. Rows dated after `until` do not exist.
//! 2. 999 and beyond (any sign) means "not measured".
//! 3. A file whose temperatures as a whole look like the other unit is refused;
//!    a single row that only makes sense in the other unit loses its
//!    temperatures ([`super::units_check`]).
//! 4. A low above its high: if at least nine rows in ten have it so, the columns
//!    are exchanged; otherwise the day loses its temperatures.
//! 5. Values outside -80 to 140 F lose the day its temperatures; rain outside 0
//!    to 40 inches and humidity outside 0 to 100 % lose only themselves.
//! 6. Of two rows with one date the later row of the file counts.
//! 7. Rows out of order are put in order.
//! 8. Gaps of up to [`super::LONGEST_LINE`] days are filled by a straight line,
//!    up to [`super::LONGEST_MEAN`] days by other years, longer ones stay open
//!    ([`super::fill`]).
//!
//! 29 February is a day like any other: missing in a leap year it is a gap of
//! one day, given in another year it is no date and the reader refuses the row.

use chrono::NaiveDate;

use super::day::{Day, Span, WeatherRecord};
use super::fill::fill;
use super::problem::{Treatment, WeatherFault, WeatherProblem, WeatherRefusal};
use super::units_check::{lone_rows_in_other_unit, whole_file_in_other_unit};
use crate::temperature::{TempUnit, fahrenheit_from_celsius};

const BELIEVABLE_F: std::ops::RangeInclusive<f64> = -80.0..=140.0;
const BELIEVABLE_RAIN_IN: std::ops::RangeInclusive<f64> = 0.0..=40.0;
const MISSING_MARK: f64 = 999.0;

/// One row as it stands in a file or was typed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RawDay {
    /// Line of the file, from 1.
    pub line: Option<u64>,
    /// The day.
    pub date: NaiveDate,
    /// Unit of high and low.
    pub unit: TempUnit,
    /// High, as it stands.
    pub high: Option<f64>,
    /// Low, as it stands.
    pub low: Option<f64>,
    /// Rain, inches (already converted; a missing mark must be left out).
    pub rain_in: Option<f64>,
    /// Mean relative humidity, percent.
    pub humidity: Option<f64>,
}

impl RawDay {
    /// High and low in deg F, where both are there.
    pub(super) fn temperatures_f(&self) -> Option<(f64, f64)> {
        let (high, low) = (self.high?, self.low?);
        Some(match self.unit {
            TempUnit::Fahrenheit => (high, low),
            TempUnit::Celsius => (fahrenheit_from_celsius(high), fahrenheit_from_celsius(low)),
        })
    }
}

/// A record that can be summed, and everything that was done to get it.
#[derive(Debug, Clone, PartialEq)]
pub struct Cleaned {
    /// The days.
    pub record: WeatherRecord,
    /// What was found and done, by date.
    pub problems: Vec<WeatherProblem>,
}

/// Cleans rows by the rules above. With `until`, rows dated later have no
/// influence whatever.
///
/// # Errors
/// [`WeatherRefusal`] when the rows as a whole cannot be trusted.
pub fn clean(rows: &[RawDay], until: Option<NaiveDate>) -> Result<Cleaned, WeatherRefusal> {
    let mut problems = Vec::new();
    let mut rows: Vec<RawDay> = rows
        .iter()
        .filter(|row| until.is_none_or(|last| row.date <= last))
        .copied()
        .collect();
    let mut report = |row: &RawDay, fault, treatment| {
        problems.push(WeatherProblem {
            line: row.line,
            span: Span {
                from: row.date,
                to: row.date,
            },
            fault,
            treatment,
        });
    };

    for row in &mut rows {
        let seen = *row;
        for value in [&mut row.high, &mut row.low] {
            if let Some(mark) = value.filter(|value| value.abs() >= MISSING_MARK || value.is_nan())
            {
                *value = None;
                report(
                    &seen,
                    WeatherFault::MissingMark { value: mark },
                    Treatment::TemperaturesLeftOut,
                );
            }
        }
        let marked = (seen.high, seen.low) != (row.high, row.low);
        if !marked && row.high.is_some() != row.low.is_some() {
            report(
                &seen,
                WeatherFault::NotGiven,
                Treatment::TemperaturesLeftOut,
            );
        }
        clean_rain_and_humidity(row, &mut report);
    }

    whole_file_in_other_unit(&rows)?;

    let with_both = rows.iter().filter_map(RawDay::temperatures_f).count();
    let reversed = rows
        .iter()
        .filter_map(RawDay::temperatures_f)
        .filter(|(high, low)| low > high)
        .count();
    let exchange = with_both >= 10 && reversed * 10 >= with_both * 9;
    for row in &mut rows {
        let Some((high_f, low_f)) = row.temperatures_f() else {
            continue;
        };
        let mut drop = |row: &mut RawDay, fault| {
            report(row, fault, Treatment::TemperaturesLeftOut);
            row.high = None;
            row.low = None;
        };
        if let Some(&value_f) = [high_f, low_f]
            .iter()
            .find(|value| !BELIEVABLE_F.contains(value))
        {
            drop(row, WeatherFault::NotBelievable { value_f });
        } else if exchange {
            // A row that is the right way round is the odd one in such a file.
            if low_f > high_f {
                std::mem::swap(&mut row.high, &mut row.low);
            } else if low_f < high_f {
                drop(
                    row,
                    WeatherFault::LowAboveHigh {
                        high_f: low_f,
                        low_f: high_f,
                    },
                );
            }
        } else if low_f > high_f {
            drop(row, WeatherFault::LowAboveHigh { high_f, low_f });
        }
    }
    if exchange && let Some(first) = rows.iter().find(|row| row.high.is_some()).copied() {
        let (high_f, low_f) = first.temperatures_f().unwrap_or_default();
        let last = rows.iter().map(|row| row.date).max().unwrap_or(first.date);
        problems.push(WeatherProblem {
            line: first.line,
            span: Span {
                from: first.date.min(last),
                to: last,
            },
            // As it stood in the file.
            fault: WeatherFault::LowAboveHigh {
                high_f: low_f,
                low_f: high_f,
            },
            treatment: Treatment::Exchanged,
        });
    }

    let mut rows = in_order_once(rows, &mut problems);
    for place in lone_rows_in_other_unit(&rows) {
        if let Some(row) = rows.get_mut(place) {
            let (high_f, low_f) = row.temperatures_f().unwrap_or_default();
            problems.push(WeatherProblem {
                line: row.line,
                span: Span {
                    from: row.date,
                    to: row.date,
                },
                fault: WeatherFault::OtherUnit { high_f, low_f },
                treatment: Treatment::TemperaturesLeftOut,
            });
            row.high = None;
            row.low = None;
        }
    }

    let read: Vec<Day> = rows
        .iter()
        .filter_map(|row| {
            let (high_f, low_f) = row.temperatures_f()?;
            Some(Day {
                date: row.date,
                high_f,
                low_f,
                rain_in: row.rain_in,
                humidity: row.humidity,
                filled: false,
            })
        })
        .collect();
    if read.is_empty() {
        return Err(WeatherRefusal::NoDay);
    }
    let record = fill(WeatherRecord::from_days(read), &rows, &mut problems);
    // A gap comes after the rows it comes from.
    problems.sort_by_key(|problem| (problem.span.from, problem.line.unwrap_or(u64::MAX)));
    Ok(Cleaned { record, problems })
}

fn clean_rain_and_humidity(
    row: &mut RawDay,
    report: &mut impl FnMut(&RawDay, WeatherFault, Treatment),
) {
    let seen = *row;
    if let Some(value_in) = row.rain_in
        && !BELIEVABLE_RAIN_IN.contains(&value_in)
    {
        row.rain_in = None;
        report(
            &seen,
            WeatherFault::Rain { value_in },
            Treatment::ValueLeftOut,
        );
    }
    if let Some(value) = row.humidity
        && !(0.0..=100.0).contains(&value)
    {
        row.humidity = None;
        report(
            &seen,
            WeatherFault::Humidity { value },
            Treatment::ValueLeftOut,
        );
    }
}

/// Rules 6 and 7.
fn in_order_once(rows: Vec<RawDay>, problems: &mut Vec<WeatherProblem>) -> Vec<RawDay> {
    let mut kept: Vec<RawDay> = Vec::with_capacity(rows.len());
    let mut previous: Option<NaiveDate> = None;
    // Place in the file, so that a stable sort keeps the later row later.
    let mut ordered = rows;
    for row in &ordered {
        if previous.is_some_and(|before| row.date < before) {
            problems.push(WeatherProblem {
                line: row.line,
                span: Span {
                    from: row.date,
                    to: row.date,
                },
                fault: WeatherFault::OutOfOrder,
                treatment: Treatment::PutInPlace,
            });
        }
        previous = Some(row.date);
    }
    ordered.sort_by_key(|row| row.date);
    for row in ordered {
        match kept.last_mut() {
            Some(last) if last.date == row.date => {
                let same = (last.high, last.low, last.rain_in, last.humidity)
                    == (row.high, row.low, row.rain_in, row.humidity)
                    && last.unit == row.unit;
                problems.push(WeatherProblem {
                    line: row.line,
                    span: Span {
                        from: row.date,
                        to: row.date,
                    },
                    fault: if same {
                        WeatherFault::SameAgain
                    } else {
                        WeatherFault::Differs
                    },
                    treatment: if same {
                        Treatment::Ignored
                    } else {
                        Treatment::LaterRowUsed
                    },
                });
                *last = merged(*last, row);
            }
            _ => kept.push(row),
        }
    }
    kept
}

/// The later row counts, but what it does not say is kept from the earlier one.
fn merged(earlier: RawDay, later: RawDay) -> RawDay {
    let temperatures = later.high.is_some() && later.low.is_some();
    let (unit, high, low) = if temperatures {
        (later.unit, later.high, later.low)
    } else {
        (earlier.unit, earlier.high, earlier.low)
    };
    RawDay {
        line: later.line,
        date: later.date,
        unit,
        high,
        low,
        rain_in: later.rain_in.or(earlier.rain_in),
        humidity: later.humidity.or(earlier.humidity),
    }
}
