//! Stations and their days as the views hold them.

use chrono::NaiveDate;
use ripening::temperature::TempUnit;
use ripening::weather::RawDay;
use rusqlite::{Connection, Row, params};

use crate::error::StoreError;

/// A station.
#[derive(Debug, Clone, PartialEq)]
pub struct Station {
    /// Name of the station.
    pub name: String,
    /// Latitude and longitude, degrees.
    pub place: Option<(f64, f64)>,
    /// Days of weather it has.
    pub days: u32,
    /// The first of them.
    pub first: Option<NaiveDate>,
    /// The last of them.
    pub last: Option<NaiveDate>,
}

/// All stations with a day or a place, by name.
pub fn stations(db: &Connection) -> Result<Vec<Station>, StoreError> {
    let mut statement = db.prepare_cached(
        "SELECT named.name, station.latitude, station.longitude,
                count(weather_day.date), min(weather_day.date), max(weather_day.date)
         FROM (SELECT name FROM station UNION SELECT DISTINCT station FROM weather_day) AS named
         LEFT JOIN station ON station.name = named.name
         LEFT JOIN weather_day ON weather_day.station = named.name
         GROUP BY named.name ORDER BY named.name",
    )?;
    let rows = statement.query_map([], |row| {
        let latitude: Option<f64> = row.get(1)?;
        let longitude: Option<f64> = row.get(2)?;
        Ok(Station {
            name: row.get(0)?,
            place: latitude.zip(longitude),
            days: row.get(3)?,
            first: row.get(4)?,
            last: row.get(5)?,
        })
    })?;
    Ok(rows.collect::<Result<_, _>>()?)
}

/// The last day that sorts as text (a later year has more digits).
pub const EVER: NaiveDate = match NaiveDate::from_ymd_opt(9999, 12, 31) {
    Some(date) => date,
    None => NaiveDate::MIN,
};

/// The days of a station up to and with `until`, by date.
pub fn days(db: &Connection, station: &str, until: NaiveDate) -> Result<Vec<RawDay>, StoreError> {
    let mut statement = db.prepare_cached(
        "SELECT date, unit, high, low, rain_in, humidity FROM weather_day
         WHERE station = ?1 AND date <= ?2 ORDER BY date",
    )?;
    let rows = statement.query_map(params![station, until], read)?;
    Ok(rows.collect::<Result<_, _>>()?)
}

fn read(row: &Row) -> rusqlite::Result<RawDay> {
    let unit: String = row.get(1)?;
    Ok(RawDay {
        line: None,
        date: row.get(0)?,
        unit: if unit == "c" {
            TempUnit::Celsius
        } else {
            TempUnit::Fahrenheit
        },
        high: row.get(2)?,
        low: row.get(3)?,
        rain_in: row.get(4)?,
        humidity: row.get(5)?,
    })
}

/// Id of a planting's field.
pub fn field_of(db: &Connection, planting: uuid::Uuid) -> Result<Option<uuid::Uuid>, StoreError> {
    Ok(db
        .prepare_cached("SELECT field FROM planting WHERE id = ?1")?
        .query_row([planting], |row| row.get(0))?)
}

/// Mean position of the stops of a planting's walks, degrees.
pub fn field_place(
    db: &Connection,
    planting: uuid::Uuid,
) -> Result<Option<(f64, f64)>, StoreError> {
    let mut statement = db.prepare_cached(
        "SELECT avg(stop.latitude), avg(stop.longitude) FROM stop
         JOIN walk ON walk.id = stop.walk
         WHERE walk.planting IN (SELECT ?1 UNION SELECT id FROM planting WHERE shown_as = ?1)
           AND NOT stop.removed AND NOT walk.removed
           AND stop.latitude IS NOT NULL AND stop.longitude IS NOT NULL",
    )?;
    let place = statement.query_row([planting], |row| {
        let latitude: Option<f64> = row.get(0)?;
        let longitude: Option<f64> = row.get(1)?;
        Ok(latitude.zip(longitude))
    })?;
    Ok(place)
}
