//! The usual course of highs and lows over the year at a station.

use chrono::{Datelike, NaiveDate};
use libm::{cos, sin};

use super::day::{Day, WeatherRecord};

/// Terms of the yearly course: a mean and two waves.
const TERMS: usize = 5;
/// Days needed before a yearly course may be drawn.
const DAYS_NEEDED: usize = 300;

/// Mean yearly course of high and low: a constant and two waves a year, fitted
/// by least squares to every day read.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct YearlyCourse {
    high: [f64; TERMS],
    low: [f64; TERMS],
}

impl YearlyCourse {
    /// `None` with fewer than 300 days, or when they leave the course open.
    pub(super) fn fit(record: &WeatherRecord) -> Option<YearlyCourse> {
        let days: Vec<&Day> = record.days().iter().filter(|day| !day.filled).collect();
        if days.len() < DAYS_NEEDED {
            return None;
        }
        let mut normal = [[0.0; TERMS]; TERMS];
        let mut high = [0.0; TERMS];
        let mut low = [0.0; TERMS];
        for day in days {
            let x = terms(day.date);
            for i in 0..TERMS {
                for j in 0..TERMS {
                    normal[i][j] += x[i] * x[j];
                }
                high[i] += x[i] * day.high_f;
                low[i] += x[i] * day.low_f;
            }
        }
        Some(YearlyCourse {
            high: solve(normal, high)?,
            low: solve(normal, low)?,
        })
    }

    /// Usual high and low of a date, deg F.
    pub(super) fn on(&self, date: NaiveDate) -> (f64, f64) {
        let x = terms(date);
        let value = |weights: &[f64; TERMS]| weights.iter().zip(x).map(|(w, x)| w * x).sum();
        (value(&self.high), value(&self.low))
    }
}

fn terms(date: NaiveDate) -> [f64; TERMS] {
    let turn = 2.0 * std::f64::consts::PI * f64::from(date.ordinal0()) / 365.25;
    [1.0, sin(turn), cos(turn), sin(2.0 * turn), cos(2.0 * turn)]
}

/// Gaussian elimination with row exchange; `None` for a singular system.
fn solve(mut a: [[f64; TERMS]; TERMS], mut b: [f64; TERMS]) -> Option<[f64; TERMS]> {
    for column in 0..TERMS {
        let pivot =
            (column..TERMS).max_by(|&i, &j| a[i][column].abs().total_cmp(&a[j][column].abs()))?;
        if a[pivot][column].abs() < 1e-6 {
            return None;
        }
        a.swap(column, pivot);
        b.swap(column, pivot);
        let (pivot_row, pivot_value) = (a[column], b[column]);
        for (row, value) in a.iter_mut().zip(&mut b).skip(column + 1) {
            let factor = row[column] / pivot_row[column];
            for (cell, above) in row.iter_mut().zip(pivot_row) {
                *cell -= factor * above;
            }
            *value -= factor * pivot_value;
        }
    }
    let mut x = [0.0; TERMS];
    for row in (0..TERMS).rev() {
        let known: f64 = (row + 1..TERMS).map(|k| a[row][k] * x[k]).sum();
        x[row] = (b[row] - known) / a[row][row];
    }
    Some(x)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn finds_a_wave_again() {
        let start = NaiveDate::from_ymd_opt(2013, 1, 1).unwrap();
        let days = (0..730)
            .map(|i| {
                let date = start + chrono::Days::new(i);
                let x = terms(date);
                Day {
                    date,
                    high_f: 70.0 - 20.0 * x[2] + 3.0 * x[3],
                    low_f: 50.0 - 18.0 * x[2],
                    rain_in: None,
                    humidity: None,
                    filled: false,
                }
            })
            .collect();
        let course = YearlyCourse::fit(&WeatherRecord::from_days(days)).unwrap();
        let july = NaiveDate::from_ymd_opt(2015, 7, 15).unwrap();
        let x = terms(july);
        let (high, low) = course.on(july);
        assert!((high - (70.0 - 20.0 * x[2] + 3.0 * x[3])).abs() < 1e-8);
        assert!((low - (50.0 - 18.0 * x[2])).abs() < 1e-8);
    }

    #[test]
    fn too_few_days_give_none() {
        assert_eq!(YearlyCourse::fit(&WeatherRecord::default()), None);
    }
}
