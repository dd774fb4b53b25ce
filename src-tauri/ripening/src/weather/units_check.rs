//! Temperatures given in one unit that only make sense in the other.

use chrono::Datelike;

use super::clean::RawDay;
use super::problem::WeatherRefusal;
use crate::temperature::{TempUnit, celsius_from_fahrenheit, fahrenheit_from_celsius};

/// No field that ripens sorghum has its warmest summer day below this.
const COOLEST_WARMEST_DAY: f64 = 55.0;
/// No field has highs above this in Celsius (the world record is 56.7 C).
const HOTTEST_C: f64 = 58.0;
/// Days within which neighbours are asked.
const NEIGHBOURHOOD: i64 = 15;
/// A row this far from its neighbours, and near them once converted, is in the
/// other unit (deg F).
const FAR_F: f64 = 25.0;
const NEAR_F: f64 = 12.0;

/// Refuses a file that is as a whole in the other unit. In Fahrenheit columns:
/// at least 30 days from May to September, or 150 days in all, and no high
/// reaches 55. In Celsius columns: at least a tenth of the highs above 58.
pub(super) fn whole_file_in_other_unit(rows: &[RawDay]) -> Result<(), WeatherRefusal> {
    let highs = |unit| {
        rows.iter()
            .filter(move |row| row.unit == unit)
            .filter_map(|row| Some((row.date, row.high?)))
    };
    let highest_of = |unit| highs(unit).max_by(|a, b| a.1.total_cmp(&b.1));

    let days = highs(TempUnit::Fahrenheit).count();
    let summer_days = highs(TempUnit::Fahrenheit)
        .filter(|(date, _)| (5..=9).contains(&date.month()))
        .count();
    if (summer_days >= 30 || days >= 150)
        && let Some((on, highest)) = highest_of(TempUnit::Fahrenheit)
        && highest < COOLEST_WARMEST_DAY
    {
        return Err(WeatherRefusal::LooksLikeCelsius { highest, on });
    }

    let days = highs(TempUnit::Celsius).count();
    let hot = highs(TempUnit::Celsius)
        .filter(|(_, high)| *high > HOTTEST_C)
        .count();
    if hot > 0
        && hot * 10 >= days
        && let Some((on, highest)) = highest_of(TempUnit::Celsius)
    {
        return Err(WeatherRefusal::LooksLikeFahrenheit { highest, on });
    }
    Ok(())
}

/// Places of rows that are far from the median of their neighbours as they
/// stand and near it in the other unit. Rows must be in order, each date once.
pub(super) fn lone_rows_in_other_unit(rows: &[RawDay]) -> Vec<usize> {
    let given: Vec<(usize, i64, f64, f64)> = rows
        .iter()
        .enumerate()
        .filter_map(|(place, row)| {
            let (high, low) = row.temperatures_f()?;
            let number = i64::from(row.date.num_days_from_ce());
            Some((place, number, high, low))
        })
        .collect();
    let mut odd = Vec::new();
    let mut start = 0;
    let mut end = 0;
    let mut highs = Vec::new();
    let mut lows = Vec::new();
    for &(place, number, high, low) in &given {
        // The cheap question first: almost no row needs its neighbours' median.
        let Some(row) = rows.get(place) else { continue };
        let (other_high, other_low) = match row.unit {
            TempUnit::Fahrenheit => (fahrenheit_from_celsius(high), fahrenheit_from_celsius(low)),
            TempUnit::Celsius => (celsius_from_fahrenheit(high), celsius_from_fahrenheit(low)),
        };
        while given
            .get(start)
            .is_some_and(|day| day.1 < number - NEIGHBOURHOOD)
        {
            start += 1;
        }
        while given
            .get(end)
            .is_some_and(|day| day.1 <= number + NEIGHBOURHOOD)
        {
            end += 1;
        }
        let Some(around) = given.get(start..end) else {
            continue;
        };
        let far_from_next = around
            .iter()
            .filter(|day| day.0 != place && (day.2 - high).abs() > FAR_F - NEAR_F)
            .count();
        if around.len() < 6 || far_from_next * 2 < around.len() - 1 {
            continue;
        }
        highs.clear();
        lows.clear();
        highs.extend(around.iter().filter(|day| day.0 != place).map(|day| day.2));
        lows.extend(around.iter().filter(|day| day.0 != place).map(|day| day.3));
        let (usual_high, usual_low) = (median(&mut highs), median(&mut lows));
        if (high - usual_high).abs() > FAR_F
            && (low - usual_low).abs() > FAR_F / 2.0
            && (other_high - usual_high).abs() < NEAR_F
            && (other_low - usual_low).abs() < NEAR_F
        {
            odd.push(place);
        }
    }
    odd
}

fn median(values: &mut [f64]) -> f64 {
    values.sort_by(f64::total_cmp);
    let middle = values.len() / 2;
    values.get(middle).copied().unwrap_or(0.0)
}
