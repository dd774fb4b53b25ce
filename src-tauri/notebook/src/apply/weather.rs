//! Weather: for each station and day the latest change that speaks of it stands.

use ripening::temperature::TempUnit;
use rusqlite::{Connection, params};

use crate::error::StoreError;
use crate::fact::WeatherDays;
use crate::log::Stamp;
use kinds::Place;

/// Days were read or typed.
pub(super) fn days(db: &Connection, stamp: Stamp, told: &WeatherDays) -> Result<(), StoreError> {
    let unit = match told.unit {
        TempUnit::Fahrenheit => "f",
        TempUnit::Celsius => "c",
    };
    let mut statement = db.prepare_cached(
        "INSERT INTO weather_day
           (station, date, unit, high, low, rain_in, humidity, typed, hlc, device, seq)
         VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11)
         ON CONFLICT (station, date) DO UPDATE SET
           unit = excluded.unit, high = excluded.high, low = excluded.low,
           rain_in = excluded.rain_in, humidity = excluded.humidity,
           typed = excluded.typed, hlc = excluded.hlc, device = excluded.device,
           seq = excluded.seq
         WHERE (excluded.hlc, excluded.device, excluded.seq)
             >= (weather_day.hlc, weather_day.device, weather_day.seq)",
    )?;
    for day in &told.days {
        statement.execute(params![
            told.station,
            day.0,
            unit,
            day.1,
            day.2,
            day.3,
            day.4,
            told.typed,
            stamp.hlc.number(),
            stamp.device,
            stamp.seq
        ])?;
    }
    Ok(())
}

/// A station was given a place.
pub(super) fn place(
    db: &Connection,
    stamp: Stamp,
    name: &str,
    place: Option<&Place>,
) -> Result<(), StoreError> {
    db.prepare_cached(
        "INSERT INTO station (name, latitude, longitude, hlc, device, seq)
         VALUES (?1, ?2, ?3, ?4, ?5, ?6)
         ON CONFLICT (name) DO UPDATE SET
           latitude = excluded.latitude, longitude = excluded.longitude,
           hlc = excluded.hlc, device = excluded.device, seq = excluded.seq
         WHERE (excluded.hlc, excluded.device, excluded.seq)
             > (station.hlc, station.device, station.seq)",
    )?
    .execute(params![
        name,
        place.map(|place| place.latitude),
        place.map(|place| place.longitude),
        stamp.hlc.number(),
        stamp.device,
        stamp.seq
    ])?;
    Ok(())
}
