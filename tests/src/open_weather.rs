//! Real daily weather (`tests/open-data`), and seasons made of it.

use std::fs::File;

use chrono::{Datelike, NaiveDate};
use readers::weather_file::{self, Watch};
use ripening::weather::{Day, RawDay, WeatherRecord, clean};

/// A city of the open data.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum City {
    /// Warm summers: sorghum ripens here in September.
    NewYork,
    /// Cool summers: base 50 F heat never reaches black layer.
    Seattle,
}

impl City {
    /// Its file, from the top of the repository.
    pub fn file(self) -> &'static str {
        match self {
            City::NewYork => "tests/open-data/new_york_2012_2015.csv",
            City::Seattle => "tests/open-data/seattle_2012_2015.csv",
        }
    }
}

/// The rows of a city's file, as the program reads them.
pub fn rows(city: City) -> Vec<RawDay> {
    let path = crate::repository().join(city.file());
    let file = File::open(&path).unwrap_or_else(|e| unreachable!("{}: {e}", path.display()));
    let read = weather_file::read(file, &mut Watch::none())
        .unwrap_or_else(|e| unreachable!("{}: {e}", path.display()));
    read.stations
        .into_iter()
        .flat_map(|station| station.rows)
        .collect()
}

/// The cleaned record of a city.
pub fn record(city: City) -> WeatherRecord {
    clean(&rows(city), None)
        .unwrap_or_else(|e| unreachable!("{e}"))
        .record
}

/// A record in which `season` comes last, as 2015, and the other three years of
/// the open data before it in the order given, warmed by so many degrees F.
pub fn seasons_in_order(record: &WeatherRecord, years: [i32; 4], warmed_f: f64) -> WeatherRecord {
    let days = (2012..).zip(years).flat_map(|(as_year, year)| {
        record.days().iter().filter_map(move |day| {
            (day.date.year() == year).then_some(())?;
            Some(Day {
                // 29 February has no place in another year.
                date: day.date.with_year(as_year)?,
                high_f: day.high_f + warmed_f,
                low_f: day.low_f + warmed_f,
                ..*day
            })
        })
    });
    let mut days: Vec<Day> = days.collect();
    // The leap year of the record may have fallen on a year that is none.
    if let Some(missing) = NaiveDate::from_ymd_opt(2012, 2, 29)
        && !days.iter().any(|day| day.date == missing)
        && let Some(before) = days
            .iter()
            .find(|day| Some(day.date) == missing.pred_opt())
            .copied()
    {
        days.push(Day {
            date: missing,
            ..before
        });
    }
    WeatherRecord::from_days(days)
}
