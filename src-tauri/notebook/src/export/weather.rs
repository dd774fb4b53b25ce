//! Weather as the app's own table.

use std::io::Write;

use ripening::temperature::TempUnit;
use rusqlite::Connection;

use super::{ExportError, shown};
use crate::error::StoreError;
use crate::views::weather;
use kinds::cell::harmless;

/// The units in which days are stored.
pub fn stored_units(db: &Connection) -> Result<Vec<TempUnit>, StoreError> {
    let mut statement = db.prepare("SELECT DISTINCT unit FROM weather_day ORDER BY unit DESC")?;
    let units = statement.query_map([], |row| row.get::<_, String>(0))?;
    units
        .map(|unit| {
            Ok(if unit? == "c" {
                TempUnit::Celsius
            } else {
                TempUnit::Fahrenheit
            })
        })
        .collect()
}

/// Writes days in one unit of temperature, by station and date; returns their
/// number. Days stored in the other unit are left out, or turned into this one
/// and rounded to a hundredth of a degree.
pub fn weather(
    db: &Connection,
    unit: TempUnit,
    turn_others: bool,
    to: &mut dyn Write,
) -> Result<u64, ExportError> {
    let mut table = csv::Writer::from_writer(to);
    let (high, low) = match unit {
        TempUnit::Fahrenheit => ("high_f", "low_f"),
        TempUnit::Celsius => ("high_c", "low_c"),
    };
    table.write_record(["station", "date", high, low, "rain_in", "humidity"])?;
    let mut written = 0;
    for station in weather::stations(db)? {
        for day in weather::days(db, &station.name, weather::EVER)? {
            let same = day.unit == unit;
            if !same && !turn_others {
                continue;
            }
            let in_unit = |degrees: Option<f64>| {
                degrees.map(|degrees| if same { degrees } else { turned(degrees, unit) })
            };
            table.write_record([
                harmless(&station.name).into_owned(),
                day.date.to_string(),
                shown(in_unit(day.high)),
                shown(in_unit(day.low)),
                shown(day.rain_in),
                shown(day.humidity),
            ])?;
            written += 1;
        }
    }
    table.flush()?;
    Ok(written)
}

/// From the other unit into this one.
fn turned(degrees: f64, into: TempUnit) -> f64 {
    let exact = match into {
        TempUnit::Fahrenheit => degrees * 1.8 + 32.0,
        TempUnit::Celsius => (degrees - 32.0) / 1.8,
    };
    (exact * 100.0).round() / 100.0
}
