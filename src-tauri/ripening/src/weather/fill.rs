//! Gaps, filled by rule or left open, and always reported.

use chrono::{Datelike, Days, NaiveDate};

use super::clean::RawDay;
use super::day::{Day, Span, WeatherRecord};
use super::problem::{Treatment, WeatherFault, WeatherProblem};

/// Longest gap, in days, that a straight line between its two neighbours fills.
pub const LONGEST_LINE: i64 = 5;
/// Longest gap, in days, that the mean of other years fills.
pub const LONGEST_MEAN: i64 = 62;
/// Other years that must have a date before their mean may fill it.
const YEARS_FOR_MEAN: usize = 2;

/// Fills the gaps between the first and the last day. Rain and humidity are
/// never made up; what the rows say of them on a filled day is kept.
pub(super) fn fill(
    record: WeatherRecord,
    rows: &[RawDay],
    problems: &mut Vec<WeatherProblem>,
) -> WeatherRecord {
    let mut days = record.days().to_vec();
    for gap in record.gaps() {
        let filled = match gap.days() {
            days if days <= LONGEST_LINE => {
                by_line(&record, gap).map(|days| (days, Treatment::FilledByLine))
            }
            days if days <= LONGEST_MEAN => {
                by_mean(&record, gap).map(|days| (days, Treatment::FilledByMean))
            }
            _ => None,
        };
        let treatment = match filled {
            Some((new_days, treatment)) => {
                days.extend(new_days);
                treatment
            }
            None => Treatment::LeftOpen,
        };
        problems.push(WeatherProblem {
            line: None,
            span: gap,
            fault: WeatherFault::Gap,
            treatment,
        });
    }
    for day in days.iter_mut().filter(|day| day.filled) {
        if let Ok(place) = rows.binary_search_by_key(&day.date, |row| row.date)
            && let Some(row) = rows.get(place)
        {
            day.rain_in = row.rain_in;
            day.humidity = row.humidity;
        }
    }
    WeatherRecord::from_days(days)
}

fn neighbours(record: &WeatherRecord, gap: Span) -> Option<(Day, Day)> {
    let before = record.on(gap.from.pred_opt()?)?;
    let after = record.on(gap.to.succ_opt()?)?;
    Some((*before, *after))
}

fn filled_day(date: NaiveDate, high_f: f64, low_f: f64) -> Day {
    Day {
        date,
        high_f: high_f.max(low_f),
        low_f: high_f.min(low_f),
        rain_in: None,
        humidity: None,
        filled: true,
    }
}

fn dates(gap: Span) -> impl Iterator<Item = (f64, NaiveDate)> {
    let all = gap.days() as f64;
    (0..gap.days()).filter_map(move |place| {
        let date = gap
            .from
            .checked_add_days(Days::new(u64::try_from(place).ok()?))?;
        // 0 at the day before the gap, 1 at the day after it.
        Some(((place as f64 + 1.0) / (all + 1.0), date))
    })
}

fn by_line(record: &WeatherRecord, gap: Span) -> Option<Vec<Day>> {
    let (before, after) = neighbours(record, gap)?;
    let days = dates(gap).map(|(part, date)| {
        filled_day(
            date,
            before.high_f + part * (after.high_f - before.high_f),
            before.low_f + part * (after.low_f - before.low_f),
        )
    });
    Some(days.collect())
}

/// The mean of the same dates in other years, plus how far the three days on
/// either side of the gap lie from their own such means.
fn by_mean(record: &WeatherRecord, gap: Span) -> Option<Vec<Day>> {
    let offset = |from: NaiveDate, to: NaiveDate| {
        let mut sum = (0.0, 0.0);
        let mut count = 0.0;
        for day in record.between(from, to) {
            let (high, low) = other_years(record, day.date)?;
            sum = (sum.0 + day.high_f - high, sum.1 + day.low_f - low);
            count += 1.0;
        }
        (count > 0.0).then_some((sum.0 / count, sum.1 / count))
    };
    let three = Days::new(3);
    let before = offset(gap.from.checked_sub_days(three)?, gap.from.pred_opt()?)?;
    let after = offset(gap.to.succ_opt()?, gap.to.checked_add_days(three)?)?;
    dates(gap)
        .map(|(part, date)| {
            let (high, low) = other_years(record, date)?;
            Some(filled_day(
                date,
                high + before.0 + part * (after.0 - before.0),
                low + before.1 + part * (after.1 - before.1),
            ))
        })
        .collect()
}

fn other_years(record: &WeatherRecord, date: NaiveDate) -> Option<(f64, f64)> {
    let span = record.span()?;
    let mut sum = (0.0, 0.0);
    let mut count = 0_usize;
    for year in span.from.year()..=span.to.year() {
        if year == date.year() {
            continue;
        }
        // 29 February borrows from 28 February of ordinary years.
        let same = date
            .with_year(year)
            .or_else(|| NaiveDate::from_ymd_opt(year, 2, 28))?;
        if let Some(day) = record.on(same) {
            sum = (sum.0 + day.high_f, sum.1 + day.low_f);
            count += 1;
        }
    }
    (count >= YEARS_FOR_MEAN).then(|| (sum.0 / count as f64, sum.1 / count as f64))
}
