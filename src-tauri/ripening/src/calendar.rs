//! The dates that this program takes for possible: one rule for what is typed, for
//! every file that is read and for what other devices send.
//!
//! A mistyped year ("2062", "0206") is the usual reason for a date outside. Such a
//! date costs more than a wrong page: heat is added up from day to day, so the span
//! of the dates bounds the work and the memory of whatever is worked out from them.

use std::ops::RangeInclusive;

use chrono::NaiveDate;

/// Years in which a field can be planted, walked or harvested.
pub const YEARS: RangeInclusive<i32> = 1950..=2100;

/// Years of which daily weather can be known: the oldest long records of daily
/// temperatures begin in the eighteenth century.
pub const WEATHER_YEARS: RangeInclusive<i32> = 1750..=*YEARS.end();

/// First day on which a walk, planting, half bloom or look at ripe grain may lie.
pub const FIRST_DAY: NaiveDate = day(*YEARS.start(), 1, 1);

/// Last day on which anything may lie.
pub const LAST_DAY: NaiveDate = day(*YEARS.end(), 12, 31);

/// First day of weather.
pub const FIRST_WEATHER_DAY: NaiveDate = day(*WEATHER_YEARS.start(), 1, 1);

/// Whether a walk, planting, half bloom or look at ripe grain can lie on a day.
pub fn is_plausible(date: NaiveDate) -> bool {
    (FIRST_DAY..=LAST_DAY).contains(&date)
}

/// Whether a day of weather can lie on a day.
pub fn is_plausible_for_weather(date: NaiveDate) -> bool {
    (FIRST_WEATHER_DAY..=LAST_DAY).contains(&date)
}

/// What is wrong with a date that is not plausible, in words that fit behind the
/// name of the value: "must lie between 1950-01-01 and 2100-12-31".
pub fn span_in_words() -> String {
    format!("must lie between {FIRST_DAY} and {LAST_DAY}")
}

/// The same for a day of weather.
pub fn weather_span_in_words() -> String {
    format!("must lie between {FIRST_WEATHER_DAY} and {LAST_DAY}")
}

const fn day(year: i32, month: u32, day: u32) -> NaiveDate {
    match NaiveDate::from_ymd_opt(year, month, day) {
        Some(date) => date,
        None => NaiveDate::MIN,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_ends_are_inside_and_the_days_beyond_are_not() {
        assert_eq!(FIRST_DAY.to_string(), "1950-01-01");
        assert_eq!(LAST_DAY.to_string(), "2100-12-31");
        assert_eq!(FIRST_WEATHER_DAY.to_string(), "1750-01-01");
        assert!(is_plausible(FIRST_DAY) && is_plausible(LAST_DAY));
        let before = FIRST_DAY.pred_opt().unwrap();
        let after = LAST_DAY.succ_opt().unwrap();
        assert!(!is_plausible(before) && !is_plausible(after));
        assert!(is_plausible_for_weather(before) && !is_plausible_for_weather(after));
        assert!(!is_plausible(NaiveDate::MIN) && !is_plausible(NaiveDate::MAX));
    }
}
