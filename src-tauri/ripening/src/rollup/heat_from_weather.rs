//! Heat between two walks from a weather record.

use chrono::NaiveDate;

use super::HeatMoved;
use crate::heat::{HeatScale, HeatSum};
use crate::weather::WeatherRecord;

impl HeatMoved {
    /// Heat from the day of one walk to the day of the next: by the weather where
    /// there is a record, by the wide pace of [`HeatMoved::from_days`] otherwise.
    pub fn between(
        scale: &HeatScale,
        record: Option<&WeatherRecord>,
        from: NaiveDate,
        to: NaiveDate,
    ) -> HeatMoved {
        match record {
            Some(record) => HeatMoved::from_weather(scale, record, from, to),
            None => HeatMoved::from_days((to - from).num_days() as f64),
        }
    }

    /// Heat from the day of one walk to the day of the next, by a scale in deg F
    /// with base 50 and upper limit 100. The first day counts, the last does
    /// not: each is half of a day's ripening. Days that the record lacks move by
    /// the wide pace of [`HeatMoved::from_days`].
    pub fn from_weather(
        scale: &HeatScale,
        record: &WeatherRecord,
        from: NaiveDate,
        to: NaiveDate,
    ) -> HeatMoved {
        let Some(last) = to.pred_opt().filter(|last| *last >= from) else {
            return HeatMoved::from_days(0.0);
        };
        let sum = HeatSum::between(scale, record, from, last);
        let missing: i64 = sum.missing.iter().map(|span| span.days()).sum();
        let unknown = HeatMoved::from_days(missing as f64);
        HeatMoved {
            mean: sum.units + unknown.mean,
            sd: unknown.sd,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::heat::us_50_100;
    use crate::weather::Day;

    fn date(day: u32) -> NaiveDate {
        NaiveDate::from_ymd_opt(2026, 8, day).unwrap()
    }

    fn record(days: impl IntoIterator<Item = u32>) -> WeatherRecord {
        let day = |day| Day {
            date: date(day),
            high_f: 95.0,
            low_f: 65.0,
            rain_in: None,
            humidity: None,
            filled: false,
        };
        WeatherRecord::from_days(days.into_iter().map(day).collect())
    }

    #[test]
    fn measured_days_move_by_their_heat_and_missing_ones_by_the_pace() {
        // 95/65 is 30 units (references: K-State/Texas method).
        let scale = us_50_100();
        let whole = HeatMoved::from_weather(&scale, &record(1..=20), date(1), date(11));
        assert_eq!((whole.mean, whole.sd), (300.0, 0.0));
        let half = HeatMoved::from_weather(&scale, &record(1..=5), date(1), date(11));
        let pace = HeatMoved::from_days(5.0);
        assert_eq!((half.mean, half.sd), (150.0 + pace.mean, pace.sd));
        let same_day = HeatMoved::from_weather(&scale, &record(1..=5), date(3), date(3));
        assert_eq!((same_day.mean, same_day.sd), (0.0, 0.0));
    }
}
