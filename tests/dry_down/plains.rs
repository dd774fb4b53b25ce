//! Invented autumns like those of the central Plains, hour by hour.
//!
//! Nothing of this is shared with the model under test: days come from an
//! autoregressive mean and dew point with a wet-day chain; hours from a daily
//! wave of temperature over a dew point that drifts.

use chrono::{Datelike, Days, NaiveDate};
use rand::RngExt;
use rand_chacha::ChaCha8Rng;
use ripening::weather::Day;

/// One day as it was.
#[derive(Debug, Clone, Copy)]
pub struct TrueDay {
    pub date: NaiveDate,
    pub mean_c: f64,
    /// Half of the day's range.
    pub swing_c: f64,
    pub dew_c: f64,
    pub rain_mm: f64,
    /// Hour in which the rain starts, and for how long it lasts.
    pub rain_from: usize,
    pub rain_hours: usize,
    /// Share of the sun that gets through, 0-1.
    pub sun: f64,
}

/// Kind of autumn.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Autumn {
    Ordinary,
    /// Twice the rain, damper air and fewer clear days.
    Wet,
}

pub fn normal(rng: &mut ChaCha8Rng) -> f64 {
    let u: f64 = 1.0 - rng.random::<f64>();
    let v: f64 = rng.random();
    (-2.0 * u.ln()).sqrt() * (std::f64::consts::TAU * v).cos()
}

/// The usual daily mean of a date, degrees C: 25 in late July, 13 in the middle
/// of October (from memory of central Kansas).
fn usual_mean(date: NaiveDate) -> f64 {
    let angle = std::f64::consts::TAU * (f64::from(date.ordinal()) - 202.0) / 365.25;
    12.5 + 13.5 * angle.cos()
}

/// `days` days from `from` on.
pub fn season(rng: &mut ChaCha8Rng, autumn: Autumn, from: NaiveDate, days: usize) -> Vec<TrueDay> {
    let (wet_after_dry, wet_after_wet, damper) = match autumn {
        Autumn::Ordinary => (0.16, 0.34, 0.0),
        Autumn::Wet => (0.32, 0.60, 2.0),
    };
    let warm = 1.0 * normal(rng);
    let damp = damper + 0.5 * normal(rng);
    let (mut anomaly, mut depression, mut wet) = (4.0 * normal(rng), 2.0 * normal(rng), false);
    (0..days)
        .map(|i| {
            let date = from.checked_add_days(Days::new(i as u64)).unwrap();
            anomaly = 0.65 * anomaly + 2.5 * normal(rng);
            depression = 0.6 * depression + 1.6 * normal(rng);
            let chance = if wet { wet_after_wet } else { wet_after_dry };
            wet = rng.random::<f64>() < chance;
            let rain_mm = if wet {
                (-9.0 * (1.0 - rng.random::<f64>()).ln()).max(0.3)
            } else {
                0.0
            };
            let sun = if wet {
                0.15 + 0.35 * rng.random::<f64>()
            } else {
                0.55 + 0.45 * rng.random::<f64>()
            };
            let mean_c = usual_mean(date) + warm + anomaly - if wet { 1.5 } else { 0.0 };
            let swing_c = 2.5 + 5.5 * sun + 0.5 * normal(rng);
            let below = (8.3 + depression - damp - if wet { 4.0 } else { 0.0 }).max(0.8);
            TrueDay {
                date,
                mean_c,
                swing_c: swing_c.max(1.5),
                dew_c: mean_c - below,
                rain_mm,
                rain_from: rng.random_range(0..24),
                rain_hours: rng.random_range(2..10),
                sun,
            }
        })
        .collect()
}

/// Saturation vapor pressure by Magnus with other constants than the model's, kPa.
pub fn saturation(temp_c: f64) -> f64 {
    0.61094 * (17.625 * temp_c / (temp_c + 243.04)).exp()
}

impl TrueDay {
    /// Temperature and relative humidity (0-1) of an hour; warmest at 15.
    pub fn hour(&self, hour: usize) -> (f64, f64) {
        let angle = std::f64::consts::TAU * (hour as f64 - 15.0) / 24.0;
        let temp = self.mean_c + self.swing_c * angle.cos();
        let rh = (saturation(self.dew_c.min(temp)) / saturation(temp)).min(0.99);
        (temp, rh)
    }

    pub fn raining(&self, hour: usize) -> bool {
        self.rain_mm > 0.0 && (self.rain_from..self.rain_from + self.rain_hours).contains(&hour)
    }

    /// What a weather station would have written down.
    pub fn observed(&self, with_humidity: bool) -> Day {
        let fahrenheit = |c: f64| (c * 1.8 + 32.0).round();
        let mean_rh = (0..8).map(|third| self.hour(3 * third).1).sum::<f64>() / 8.0;
        Day {
            date: self.date,
            high_f: fahrenheit(self.mean_c + self.swing_c),
            low_f: fahrenheit(self.mean_c - self.swing_c),
            rain_in: Some((self.rain_mm / 25.4 * 100.0).round() / 100.0),
            humidity: with_humidity.then_some((mean_rh * 100.0).round()),
            filled: false,
        }
    }
}
