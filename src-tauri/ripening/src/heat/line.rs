//! Heat summed over dates, with its gaps in sight.

use chrono::NaiveDate;
use serde::{Deserialize, Serialize};

use super::scale::HeatScale;
use crate::weather::{Day, Span, WeatherRecord};

/// Heat of a stretch of days, and what it rests on.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct HeatSum {
    /// Units, in the unit of the scale; days without weather count as nothing,
    /// so with `missing` not empty this is a lower bound.
    pub units: f64,
    /// Days with weather, filled ones too.
    pub days: u32,
    /// Of these, days whose temperatures were filled by rule.
    pub filled: u32,
    /// Stretches without weather.
    pub missing: Vec<Span>,
}

impl HeatSum {
    /// Sum over the days from `from` to `to`, both counted.
    pub fn between(
        scale: &HeatScale,
        record: &WeatherRecord,
        from: NaiveDate,
        to: NaiveDate,
    ) -> HeatSum {
        let mut sum = HeatSum {
            units: 0.0,
            days: 0,
            filled: 0,
            missing: Vec::new(),
        };
        let mut expected = from;
        for day in record.between(from, to) {
            if day.date > expected {
                sum.missing.push(Span {
                    from: expected,
                    to: day.date.pred_opt().unwrap_or(expected),
                });
            }
            sum.units += scale.day(day);
            sum.days += 1;
            sum.filled += u32::from(day.filled);
            expected = day.date.succ_opt().unwrap_or(day.date);
        }
        if expected <= to {
            sum.missing.push(Span { from: expected, to });
        }
        sum
    }
}

/// Running heat over consecutive days: the same days can be asked both ways,
/// for the heat at a date and for the date of a heat.
#[derive(Debug, Clone, PartialEq)]
pub struct HeatLine {
    first: NaiveDate,
    /// `sums[i]`: heat received from `first` to the evening of day `first + i`.
    sums: Vec<f64>,
}

impl HeatLine {
    /// From consecutive days, in order. `None` when there are none.
    pub fn new(scale: &HeatScale, days: &[Day]) -> Option<HeatLine> {
        let first = days.first()?.date;
        let mut running = 0.0;
        let sums = days
            .iter()
            .map(|day| {
                running += scale.day(day);
                running
            })
            .collect();
        Some(HeatLine { first, sums })
    }

    /// First day.
    pub fn first(&self) -> NaiveDate {
        self.first
    }

    /// Last day.
    pub fn last(&self) -> NaiveDate {
        self.date(self.sums.len().saturating_sub(1))
    }

    /// Running heat by the evening of each day, in order.
    pub fn sums(&self) -> &[f64] {
        &self.sums
    }

    /// Heat by the evening of `date`; 0 before the first day; `None` after the last.
    pub fn by(&self, date: NaiveDate) -> Option<f64> {
        let place = (date - self.first).num_days();
        match usize::try_from(place) {
            Err(_) => Some(0.0),
            Ok(place) => self.sums.get(place).copied(),
        }
    }

    /// First day by whose evening at least `units` have been received.
    pub fn reaches(&self, units: f64) -> Option<NaiveDate> {
        let place = self.sums.partition_point(|&sum| sum < units);
        (place < self.sums.len()).then(|| self.date(place))
    }

    fn date(&self, place: usize) -> NaiveDate {
        let days = u64::try_from(place).unwrap_or(u64::MAX);
        self.first
            .checked_add_days(chrono::Days::new(days))
            .unwrap_or(NaiveDate::MAX)
    }
}
