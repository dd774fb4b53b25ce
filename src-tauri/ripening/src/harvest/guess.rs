//! A number with the range it may lie in, and whose number it is.

use serde::{Deserialize, Serialize};

use super::HarvestError;
use crate::grain::in_range;

/// Whose a number is; guesses look like guesses on the screens.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum Whose {
    /// The user's own guess.
    User,
    /// Counted or measured in this planting.
    Counted,
    /// Published for the crop.
    Published,
    /// Our assumption; no published number was found.
    Assumed,
}

/// A number that the answer depends on.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct Guess {
    /// Low end of where it may lie.
    pub low: f64,
    /// The number used.
    pub value: f64,
    /// High end.
    pub high: f64,
    /// Whose it is.
    pub whose: Whose,
}

impl Guess {
    /// A guess with its ends.
    pub const fn new(low: f64, value: f64, high: f64, whose: Whose) -> Guess {
        Guess {
            low,
            value,
            high,
            whose,
        }
    }

    /// A number without a range.
    pub const fn exact(value: f64, whose: Whose) -> Guess {
        Guess::new(value, value, value, whose)
    }

    pub(super) fn checked(
        &self,
        name: &'static str,
        least: f64,
        most: f64,
    ) -> Result<(), HarvestError> {
        for number in [self.low, self.value, self.high] {
            in_range(name, number, least, most)?;
        }
        if self.low <= self.value && self.value <= self.high {
            Ok(())
        } else {
            Err(HarvestError::RangeOutOfOrder(name))
        }
    }
}
