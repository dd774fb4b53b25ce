//! Which dates are plausible.
//!
//! A year typed wrong (9999, 0026) is a date all the same. The heat between two
//! dates is reckoned day by day, so such a date would cost time and memory without
//! end. Every way in refuses it.

use std::ops::RangeInclusive;

use chrono::{Datelike, NaiveDate};

/// Years in which a field can have been planted, walked or harvested.
pub const PLAUSIBLE_YEARS: RangeInclusive<i32> = 1950..=2100;

/// Years for which a day of weather can be given: the oldest daily records of the
/// world's stations begin in the 1750s.
pub const PLAUSIBLE_WEATHER_YEARS: RangeInclusive<i32> = 1750..=2100;

/// Whether something can have been done in a field on this date.
#[must_use]
pub fn plausible_date(date: NaiveDate) -> bool {
    PLAUSIBLE_YEARS.contains(&date.year())
}

/// Whether there can be a record, or a forecast, of this day's weather.
#[must_use]
pub fn plausible_weather_date(date: NaiveDate) -> bool {
    PLAUSIBLE_WEATHER_YEARS.contains(&date.year())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn date(text: &str) -> NaiveDate {
        text.parse().unwrap()
    }

    #[test]
    fn the_span_ends_with_its_last_day() {
        assert!(plausible_date(date("1950-01-01")));
        assert!(plausible_date(date("2100-12-31")));
        assert!(!plausible_date(date("1949-12-31")));
        assert!(!plausible_date(date("2101-01-01")));
        assert!(!plausible_date(NaiveDate::MAX));
        assert!(!plausible_date(NaiveDate::MIN));
    }

    #[test]
    fn a_station_may_have_records_of_two_centuries_ago() {
        assert!(plausible_weather_date(date("1893-01-01")));
        assert!(!plausible_weather_date(date("1749-12-31")));
        assert!(!plausible_weather_date(date("2101-01-01")));
    }
}
