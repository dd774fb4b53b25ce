//! A buyer's discounts, as tables that the user fills in from the buyer's own
//! sheet. None is built in: schedules differ from place to place and day to day.

use serde::{Deserialize, Serialize};
use thiserror::Error;

use super::{Factor, Sample};

/// One line of a table: beyond this limit, that many cents.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct DiscountStep {
    /// Limit, in the factor's unit: above it, or for test weight below it.
    pub beyond: f64,
    /// Cents off a hundredweight (0 to 10,000).
    pub cents_per_cwt: f64,
}

/// The discounts for one factor.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct DiscountTable {
    /// Which factor.
    pub factor: Factor,
    /// From mild to severe. The last line that is passed counts, alone.
    pub steps: Vec<DiscountStep>,
    /// Beyond this the buyer takes no grain at all.
    pub refused_beyond: Option<f64>,
}

/// What one table says of a value.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
#[serde(tag = "answer", content = "cents_per_cwt", rename_all = "snake_case")]
pub enum Discount {
    /// So many cents off a hundredweight.
    Cents(f64),
    /// Not taken.
    Refused,
}

impl DiscountTable {
    /// # Errors
    /// [`DiscountError`] when limits or cents do not grow more severe line by
    /// line, or a number is impossible.
    pub fn checked(&self) -> Result<(), DiscountError> {
        let factor = self.factor;
        if self.steps.len() > 100 {
            return Err(DiscountError::TooLong(factor.word()));
        }
        let number = |value: f64, most: f64| (0.0..=most).contains(&value);
        for (index, step) in self.steps.iter().enumerate() {
            let line = index + 1;
            if !number(step.beyond, 100.0) || !number(step.cents_per_cwt, 10_000.0) {
                return Err(DiscountError::OutOfRange(factor.word(), line));
            }
            let before = index.checked_sub(1).and_then(|i| self.steps.get(i));
            if let Some(before) = before {
                let further = factor.beyond(step.beyond, before.beyond);
                if !further || step.cents_per_cwt < before.cents_per_cwt {
                    return Err(DiscountError::OutOfOrder(factor.word(), line));
                }
            }
        }
        if let Some(limit) = self.refused_beyond {
            let before_last = self
                .steps
                .last()
                .is_some_and(|last| factor.beyond(last.beyond, limit));
            if !number(limit, 100.0) || before_last {
                return Err(DiscountError::RefusalTooEarly(factor.word()));
            }
        }
        Ok(())
    }

    /// What the table says of a value.
    pub fn discount(&self, value: f64) -> Discount {
        if self
            .refused_beyond
            .is_some_and(|limit| self.factor.beyond(value, limit))
        {
            return Discount::Refused;
        }
        let cents = self
            .steps
            .iter()
            .take_while(|step| self.factor.beyond(value, step.beyond))
            .last()
            .map_or(0.0, |step| step.cents_per_cwt);
        Discount::Cents(cents)
    }
}

/// All tables of one buyer, at most one for each factor.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct DiscountSchedule {
    /// In the order shown.
    pub tables: Vec<DiscountTable>,
}

/// What one factor cost a sample.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct DiscountLine {
    /// Which factor.
    pub factor: Factor,
    /// Its value in the sample.
    pub value: f64,
    /// What the table says.
    pub discount: Discount,
}

/// What a schedule says of a sample.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct Discounts {
    /// Cents off a hundredweight in all; absent when the grain is refused.
    pub cents_per_cwt: Option<f64>,
    /// Factor by factor, those that the sample has.
    pub lines: Vec<DiscountLine>,
    /// Factors that the schedule has a table for and the sample no value.
    pub not_given: Vec<Factor>,
}

impl DiscountSchedule {
    /// # Errors
    /// [`DiscountError`] as for the tables, or for two tables of one factor.
    pub fn checked(&self) -> Result<(), DiscountError> {
        for (index, table) in self.tables.iter().enumerate() {
            table.checked()?;
            if self.tables[..index]
                .iter()
                .any(|before| before.factor == table.factor)
            {
                return Err(DiscountError::Twice(table.factor.word()));
            }
        }
        Ok(())
    }

    /// The table for a factor.
    pub fn table(&self, factor: Factor) -> Option<&DiscountTable> {
        self.tables.iter().find(|table| table.factor == factor)
    }

    /// What the schedule says of a sample.
    pub fn discounts(&self, sample: &Sample) -> Discounts {
        let mut lines = Vec::new();
        let mut not_given = Vec::new();
        for table in &self.tables {
            match sample.get(table.factor) {
                Some(value) => lines.push(DiscountLine {
                    factor: table.factor,
                    value,
                    discount: table.discount(value),
                }),
                None => not_given.push(table.factor),
            }
        }
        let cents_per_cwt = lines.iter().try_fold(0.0, |sum, line| match line.discount {
            Discount::Cents(cents) => Some(sum + cents),
            Discount::Refused => None,
        });
        Discounts {
            cents_per_cwt,
            lines,
            not_given,
        }
    }
}

/// Why a table was refused.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum DiscountError {
    /// A limit or an amount that cannot be.
    #[error(
        "{0} discounts, line {1}: use a limit from 0 to 100 and 0 to 10000 cents per hundredweight"
    )]
    OutOfRange(&'static str, usize),
    /// Milder than the line before.
    #[error(
        "{0} discounts, line {1} is milder than the line before: order them from mild to severe"
    )]
    OutOfOrder(&'static str, usize),
    /// Lines beyond the limit of refusal.
    #[error("{0} discounts: the limit of refusal must not come before the last line")]
    RefusalTooEarly(&'static str),
    /// More than one table for a factor.
    #[error("{0} discounts are given twice: keep one table for each factor")]
    Twice(&'static str),
    /// More than 100 lines.
    #[error("{0} discounts have more than 100 lines: shorten the table")]
    TooLong(&'static str),
}

#[cfg(test)]
mod tests {
    use super::*;

    fn table(factor: Factor, steps: &[(f64, f64)], refused_beyond: Option<f64>) -> DiscountTable {
        DiscountTable {
            factor,
            steps: steps
                .iter()
                .map(|&(beyond, cents_per_cwt)| DiscountStep {
                    beyond,
                    cents_per_cwt,
                })
                .collect(),
            refused_beyond,
        }
    }

    #[test]
    fn the_last_line_passed_counts_alone() {
        let wet = table(
            Factor::Moisture,
            &[(14.0, 8.0), (14.5, 16.0), (15.0, 24.0)],
            Some(18.0),
        );
        assert_eq!(wet.checked(), Ok(()));
        assert_eq!(wet.discount(14.0), Discount::Cents(0.0));
        assert_eq!(wet.discount(14.1), Discount::Cents(8.0));
        assert_eq!(wet.discount(15.0), Discount::Cents(16.0));
        assert_eq!(wet.discount(18.0), Discount::Cents(24.0));
        assert_eq!(wet.discount(18.1), Discount::Refused);
    }

    #[test]
    fn test_weight_is_worse_when_lower() {
        let light = table(Factor::TestWeight, &[(55.0, 2.0), (54.0, 5.0)], Some(45.0));
        assert_eq!(light.checked(), Ok(()));
        assert_eq!(light.discount(55.0), Discount::Cents(0.0));
        assert_eq!(light.discount(54.9), Discount::Cents(2.0));
        assert_eq!(light.discount(50.0), Discount::Cents(5.0));
        assert_eq!(light.discount(44.0), Discount::Refused);
    }

    #[test]
    fn a_table_out_of_order_is_refused_with_its_line() {
        let wet = table(Factor::Moisture, &[(15.0, 8.0), (14.5, 16.0)], None);
        assert_eq!(wet.checked(), Err(DiscountError::OutOfOrder("moisture", 2)));
        let early = table(Factor::Moisture, &[(15.0, 8.0)], Some(14.0));
        assert_eq!(
            early.checked(),
            Err(DiscountError::RefusalTooEarly("moisture"))
        );
        let twice = DiscountSchedule {
            tables: vec![
                table(Factor::Moisture, &[], None),
                table(Factor::Moisture, &[], None),
            ],
        };
        assert_eq!(twice.checked(), Err(DiscountError::Twice("moisture")));
    }

    #[test]
    fn a_schedule_adds_up_and_says_what_it_did_not_know() {
        let schedule = DiscountSchedule {
            tables: vec![
                table(Factor::Moisture, &[(14.0, 10.0)], None),
                table(Factor::TotalDamage, &[(5.0, 4.0)], Some(20.0)),
                table(Factor::ForeignMaterial, &[(2.0, 3.0)], None),
            ],
        };
        let sample = Sample {
            moisture: Some(15.0),
            total_damage: Some(6.0),
            ..Sample::default()
        };
        let answer = schedule.discounts(&sample);
        assert_eq!(answer.cents_per_cwt, Some(14.0));
        assert_eq!(answer.not_given, vec![Factor::ForeignMaterial]);
        let refused = Sample {
            total_damage: Some(21.0),
            ..sample
        };
        assert_eq!(schedule.discounts(&refused).cents_per_cwt, None);
    }
}
