//! How long grain may be held at a moisture and temperature before mold costs
//! it a grade, and how much of that time is used up.

use serde::{Deserialize, Serialize};

use super::{GrainError, in_range};

/// Moistures of the table, percent.
const MOISTURES: [f64; 4] = [14.0, 16.0, 18.0, 20.0];
/// Temperatures of the table, degrees F.
const TEMPERATURES: [f64; 5] = [40.0, 50.0, 60.0, 70.0, 80.0];
/// Days, NDSU Extension, cereal grains.
const DAYS: [[f64; 5]; 4] = [
    [230.0, 230.0, 200.0, 200.0, 140.0],
    [230.0, 230.0, 120.0, 70.0, 40.0],
    [200.0, 90.0, 50.0, 30.0, 15.0],
    [90.0, 50.0, 25.0, 14.0, 7.0],
];

/// How many cells of each row, from the cool end, are blank in the publication.
/// They hold the most that a warmer or wetter published cell vouches for, and
/// are only ever used as "more than".
const BLANK: [usize; 4] = [3, 1, 0, 0];

/// Allowable storage time.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
#[serde(tag = "answer", content = "days", rename_all = "snake_case")]
pub enum StorageDays {
    /// About so many days.
    About(f64),
    /// Longer than that: the grain is drier or cooler than the table goes.
    MoreThan(f64),
    /// Shorter than that: the grain is wetter or warmer than the table goes.
    LessThan(f64),
}

impl StorageDays {
    /// The number, for adding up.
    fn days(self) -> f64 {
        match self {
            StorageDays::About(days)
            | StorageDays::MoreThan(days)
            | StorageDays::LessThan(days) => days,
        }
    }
}

/// Allowable days at `moisture` percent and `temp_f` degrees F: read off the
/// published table, between its points in proportion on a log scale of days.
///
/// # Errors
/// [`GrainError`] outside 5-40 % or 0-130 F.
pub fn storage_days(moisture: f64, temp_f: f64) -> Result<StorageDays, GrainError> {
    in_range("moisture", moisture, 5.0, 40.0)?;
    in_range("temperature", temp_f, 0.0, 130.0)?;
    let (row, down) = place(&MOISTURES, moisture);
    let (column, across) = place(&TEMPERATURES, temp_f);
    let mut published = true;
    let mut log_days = 0.0;
    for (r, row_weight) in [(row, 1.0 - down), (row + 1, down)] {
        for (c, weight) in [(column, 1.0 - across), (column + 1, across)] {
            if row_weight * weight == 0.0 {
                continue;
            }
            published &= c >= BLANK[r];
            log_days += row_weight * weight * libm::log(DAYS[r][c]);
        }
    }
    let days = libm::exp(log_days);
    let worse = moisture > MOISTURES[3] || temp_f > TEMPERATURES[4];
    let better = !published || moisture < MOISTURES[0] || temp_f < TEMPERATURES[0];
    Ok(match (worse, better) {
        // Beyond the table on one side and short of it on the other, the
        // number bounds nothing, and the careful side is taken.
        (true, _) => StorageDays::LessThan(days),
        (false, true) => StorageDays::MoreThan(days),
        (false, false) => StorageDays::About(days),
    })
}

/// Interval of `points` that holds `value`, and how far along it lies, 0-1;
/// held at the ends.
fn place(points: &[f64], value: f64) -> (usize, f64) {
    let last = points.len() - 2;
    let index = (0..last).find(|&i| value < points[i + 1]).unwrap_or(last);
    let along = (value - points[index]) / (points[index + 1] - points[index]);
    (index, along.clamp(0.0, 1.0))
}

/// Days spent at one moisture and temperature.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct StorageStretch {
    /// Percent wet basis.
    pub moisture: f64,
    /// Degrees F.
    pub temp_f: f64,
    /// Days at it.
    pub days: f64,
}

/// Share of the storage life used up by stretches one after another: 1 and
/// more means that it is spent. Use adds up; drying later gives nothing back.
///
/// # Errors
/// [`GrainError`] as [`storage_days`], or for days outside 0-3650.
pub fn storage_used(stretches: &[StorageStretch]) -> Result<f64, GrainError> {
    let mut used = 0.0;
    for stretch in stretches {
        in_range("days", stretch.days, 0.0, 3650.0)?;
        used += stretch.days / storage_days(stretch.moisture, stretch.temp_f)?.days();
    }
    Ok(used)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn wetter_and_warmer_never_keeps_longer() {
        for m in 28..=80 {
            for t in 8..=32 {
                let (m, t) = (f64::from(m) / 4.0 + 7.0, f64::from(t) * 2.5);
                let here = storage_days(m, t).unwrap().days();
                assert!(storage_days(m + 0.5, t).unwrap().days() <= here + 1e-9);
                assert!(storage_days(m, t + 2.5).unwrap().days() <= here + 1e-9);
            }
        }
    }

    #[test]
    fn outside_the_table_only_a_bound_is_said() {
        assert!(
            matches!(storage_days(13.0, 60.0), Ok(StorageDays::MoreThan(d)) if (d - 200.0).abs() < 1e-6)
        );
        assert!(
            matches!(storage_days(22.0, 70.0), Ok(StorageDays::LessThan(d)) if (d - 14.0).abs() < 1e-6)
        );
        assert!(
            matches!(storage_days(18.0, 95.0), Ok(StorageDays::LessThan(d)) if (d - 15.0).abs() < 1e-6)
        );
        assert!(storage_days(50.0, 70.0).is_err());
    }

    #[test]
    fn use_adds_up() {
        let stretch = |days| StorageStretch {
            moisture: 18.0,
            temp_f: 70.0,
            days,
        };
        let used = storage_used(&[stretch(15.0), stretch(7.5)]).unwrap();
        assert!((used - 0.75).abs() < 1e-12);
    }
}
