//! Loss counted on the ground: seeds in a square foot, to bushels an acre and
//! to percent of the crop a day.

use chrono::NaiveDate;
use serde::{Deserialize, Serialize};

use super::guess::{Guess, Whose};
use crate::grain::{
    Formula, GrainError, POUNDS_PER_BUSHEL, Quantity, Term, Unit, Worked, in_range,
};

const SQUARE_FEET_PER_ACRE: f64 = 43_560.0;
/// 80 % of a normal distribution lies within this many standard deviations.
const EIGHTY_PERCENT: f64 = 1.281_55;

/// Seeds to a pound: behind the published 16-21 seeds a square foot for a
/// bushel an acre (Texas Coastal Bend, 2010).
pub const SEEDS_PER_POUND: Guess = Guess::new(13_000.0, 14_500.0, 16_000.0, Whose::Published);

/// Seeds of a whole head that lies on the ground (from memory: heads of grain
/// sorghum commonly hold eight hundred to a few thousand).
pub const SEEDS_PER_HEAD: Guess = Guess::new(800.0, 1500.0, 2500.0, Whose::Assumed);

/// Bushels an acre that lie on the ground.
///
/// # Errors
/// [`GrainError`] outside 0-5000 seeds a square foot or 5000-40000 a pound.
pub fn bushels_per_acre(
    seeds_per_square_foot: f64,
    seeds_per_pound: f64,
) -> Result<f64, GrainError> {
    in_range("seeds per square foot", seeds_per_square_foot, 0.0, 5000.0)?;
    in_range("seeds per pound", seeds_per_pound, 5000.0, 40_000.0)?;
    Ok(seeds_per_square_foot * SQUARE_FEET_PER_ACRE / seeds_per_pound / POUNDS_PER_BUSHEL)
}

/// [`bushels_per_acre`] with its numbers.
///
/// # Errors
/// As [`bushels_per_acre`].
pub fn ground_loss_worked(
    seeds_per_square_foot: f64,
    seeds_per_pound: f64,
) -> Result<Worked, GrainError> {
    let loss = bushels_per_acre(seeds_per_square_foot, seeds_per_pound)?;
    Ok(Worked::new(
        Formula::GroundLoss,
        vec![
            Term::new(
                "N",
                Quantity::SeedsOnGround,
                seeds_per_square_foot,
                Unit::SeedsPerSquareFoot,
            ),
            Term::new(
                "S",
                Quantity::SeedsPerPound,
                seeds_per_pound,
                Unit::SeedsPerPound,
            ),
        ],
        Term::new("", Quantity::Loss, loss, Unit::BushelsPerAcre),
    ))
}

/// Seeds counted on the ground on one day, each number from one square foot at
/// its own place.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct GroundCount {
    /// The day.
    pub on: NaiveDate,
    /// Seeds, one number for each square foot looked at.
    pub seeds: Vec<f64>,
}

impl GroundCount {
    /// Whether the numbers can be.
    pub fn usable(&self) -> bool {
        (1..=200).contains(&self.seeds.len())
            && self.seeds.iter().all(|n| (0.0..=5000.0).contains(n))
    }

    /// Mean seeds a square foot.
    pub fn mean(&self) -> f64 {
        self.seeds.iter().sum::<f64>() / self.seeds.len() as f64
    }

    /// Variance of the mean: from the scatter of places, and never below that
    /// of a plain count.
    fn variance(&self) -> f64 {
        let n = self.seeds.len() as f64;
        let mean = self.mean();
        let squares: f64 = self.seeds.iter().map(|s| (s - mean) * (s - mean)).sum();
        let plain = mean.max(1.0) / n;
        if n < 2.0 {
            // One place says nothing of the scatter: taken as large as the count.
            return plain + mean * mean;
        }
        plain.max(squares / (n - 1.0) / n)
    }
}

/// Loss in percent of the standing crop a day, from the first and the last of
/// the counts; `None` when there are no two days, or no crop.
pub fn counted_loss_per_day(
    counts: &[GroundCount],
    yield_cwt_per_acre: f64,
    seeds_per_pound: f64,
) -> Option<Guess> {
    let usable = || counts.iter().filter(|count| count.usable());
    let first = usable().min_by_key(|count| count.on)?;
    let last = usable().max_by_key(|count| count.on)?;
    let days = (last.on - first.on).num_days() as f64;
    let one_percent = yield_cwt_per_acre;
    if days < 1.0 || one_percent <= 0.0 {
        return None;
    }
    let percent = |seeds: f64| {
        let pounds = seeds * SQUARE_FEET_PER_ACRE / seeds_per_pound;
        pounds / one_percent / days
    };
    let value = percent(last.mean() - first.mean()).max(0.0);
    let spread = EIGHTY_PERCENT * percent((first.variance() + last.variance()).sqrt());
    Some(Guess::new(
        (value - spread).max(0.0),
        value,
        value + spread,
        Whose::Counted,
    ))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn count(day: u32, seeds: &[f64]) -> GroundCount {
        GroundCount {
            on: NaiveDate::from_ymd_opt(2025, 10, day).unwrap(),
            seeds: seeds.to_vec(),
        }
    }

    #[test]
    fn two_counts_give_a_loss_with_its_range() {
        let counts = [count(11, &[40.0, 36.0, 44.0]), count(1, &[4.0, 6.0, 5.0])];
        let loss = counted_loss_per_day(&counts, 50.0, 14_500.0).unwrap();
        // 35 seeds a square foot are 105 lb an acre: 2.1 % of 5000 lb in ten days.
        assert!((loss.value - 0.2103).abs() < 0.001);
        assert!(loss.low < loss.value && loss.value < loss.high);
        assert_eq!(loss.whose, Whose::Counted);
    }

    #[test]
    fn one_day_is_no_rate_and_less_on_the_ground_is_no_gain() {
        assert_eq!(
            counted_loss_per_day(&[count(1, &[5.0])], 50.0, 14_500.0),
            None
        );
        let fewer = [count(1, &[30.0, 31.0]), count(8, &[20.0, 21.0])];
        let loss = counted_loss_per_day(&fewer, 50.0, 14_500.0).unwrap();
        assert_eq!((loss.low, loss.value), (0.0, 0.0));
    }
}
