//! The app's own weather table: `date` and `high_f,low_f` or `high_c,low_c`,
//! optionally `rain_in` or `rain_mm`, `humidity` and `station`. Other columns
//! are passed over.

use std::io::Read;

use csv::ByteRecord;
use ripening::temperature::TempUnit;
use ripening::weather::RawDay;

use super::daily_rows::Stations;
use super::fields::{day, number, shown};
use super::problem::{RowFault, RowProblem, WeatherFileError};
use super::{Layout, WeatherFile, within};
use crate::head_file::{Lines, first_line, next_row};
use crate::watch::Watch;
use kinds::cell;

const MM_PER_INCH: f64 = 25.4;

struct Columns {
    date: usize,
    unit: TempUnit,
    high: usize,
    low: usize,
    rain: Option<(usize, f64)>,
    humidity: Option<usize>,
    station: Option<usize>,
}

impl Columns {
    fn of(header: &ByteRecord) -> Result<Columns, WeatherFileError> {
        let place = |name: &str| {
            header
                .iter()
                .position(|column| column.trim_ascii().eq_ignore_ascii_case(name.as_bytes()))
        };
        let temperatures = [
            (TempUnit::Fahrenheit, "high_f", "low_f"),
            (TempUnit::Celsius, "high_c", "low_c"),
        ]
        .into_iter()
        .find_map(|(unit, high, low)| Some((unit, place(high)?, place(low)?)));
        let (unit, high, low) = temperatures.ok_or(WeatherFileError::ColumnsMissing)?;
        Ok(Columns {
            date: place("date").ok_or(WeatherFileError::ColumnsMissing)?,
            unit,
            high,
            low,
            rain: place("rain_in")
                .map(|column| (column, 1.0))
                .or_else(|| place("rain_mm").map(|column| (column, MM_PER_INCH))),
            humidity: place("humidity"),
            station: place("station"),
        })
    }
}

pub(super) fn read(
    from: impl Read,
    watch: &mut Watch<'_>,
) -> Result<WeatherFile, WeatherFileError> {
    let mut reader = csv::ReaderBuilder::new()
        .flexible(true)
        .from_reader(Lines::new(from));
    let columns = Columns::of(reader.byte_headers()?)?;
    let mut stations = Stations::default();
    let mut problems = Vec::new();
    let mut record = ByteRecord::new();
    while next_row(&mut reader, &mut record)? {
        if !watch.row() {
            return Err(WeatherFileError::Stopped);
        }
        let line = first_line(&reader, record.as_slice());
        match row(&columns, &record, line) {
            Ok(row) => {
                let station = columns
                    .station
                    .and_then(|column| record.get(column))
                    .map(<[u8]>::trim_ascii)
                    .map(|name| {
                        std::str::from_utf8(name)
                            .map_or(name, |name| cell::as_meant(name).as_bytes())
                    })
                    .filter(|name| !name.is_empty());
                stations.push(station, row);
            }
            Err(fault) => problems.push(RowProblem { line, fault }),
        }
        within(stations.days(), &problems)?;
    }
    Ok(WeatherFile {
        layout: Layout::Table,
        stations: stations.into_rows(),
        problems,
    })
}

fn row(columns: &Columns, record: &ByteRecord, line: u64) -> Result<RawDay, RowFault> {
    let field = |column: usize| record.get(column).ok_or(RowFault::TooShort);
    let value = |column: usize, name: &'static str| {
        let text = field(column)?;
        number(text).map_err(|()| RowFault::NoNumber {
            column: name,
            text: shown(text),
        })
    };
    let text = field(columns.date)?.trim_ascii();
    // Rain: "T" is a trace, too little to measure. A missing mark is missing.
    let rain = match columns.rain {
        Some((column, _))
            if record
                .get(column)
                .is_none_or(|text| text.trim_ascii() == b"T") =>
        {
            record.get(column).map(|_| 0.0)
        }
        Some((column, per_inch)) => value(column, "rain")?
            .filter(|rain| rain.abs() < 999.0)
            .map(|rain| rain / per_inch),
        None => None,
    };
    let humidity = match columns.humidity {
        Some(column) if record.get(column).is_some() => {
            value(column, "humidity")?.filter(|value| value.abs() < 999.0)
        }
        _ => None,
    };
    Ok(RawDay {
        line: Some(line),
        date: day(text)?,
        unit: columns.unit,
        high: value(columns.high, "high")?,
        low: value(columns.low, "low")?,
        rain_in: rain,
        humidity,
    })
}
