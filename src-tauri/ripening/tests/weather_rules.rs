//! Every kind of bad weather row, by the rules stated in `weather::clean`.

#![allow(clippy::unwrap_used)]

use chrono::{Days, NaiveDate};
use ripening::heat::{HeatSum, us_50_100};
use ripening::temperature::TempUnit;
use ripening::weather::{
    EnsembleMaking, NoEnsemble, RawDay, Treatment, WeatherEnsemble, WeatherFault, WeatherRefusal,
    clean,
};

fn date(text: &str) -> NaiveDate {
    text.parse().unwrap()
}

fn row(line: u64, day: NaiveDate, high: f64, low: f64) -> RawDay {
    RawDay {
        line: Some(line),
        date: day,
        unit: TempUnit::Fahrenheit,
        high: Some(high),
        low: Some(low),
        rain_in: Some(0.0),
        humidity: None,
    }
}

/// `count` days from `from`, 85/60, lines from 2.
fn plain(from: &str, count: u64) -> Vec<RawDay> {
    (0..count)
        .map(|i| row(i + 2, date(from) + Days::new(i), 85.0, 60.0))
        .collect()
}

fn found(rows: &[RawDay]) -> Vec<(Option<u64>, WeatherFault, Treatment)> {
    clean(rows, None)
        .unwrap()
        .problems
        .into_iter()
        .map(|problem| (problem.line, problem.fault, problem.treatment))
        .collect()
}

#[test]
fn good_rows_pass_unchanged() {
    let cleaned = clean(&plain("2015-06-01", 40), None).unwrap();
    assert_eq!(cleaned.problems, []);
    assert_eq!(cleaned.record.days().len(), 40);
    assert!(cleaned.record.days().iter().all(|day| !day.filled));
}

#[test]
fn missing_mark_and_low_above_high_and_unbelievable_lose_the_day() {
    let mut rows = plain("2015-06-01", 20);
    rows[4].high = Some(999.0);
    rows[8].low = Some(95.0);
    rows[12].high = Some(185.0);
    rows[15].low = None;
    assert_eq!(
        found(&rows),
        [
            (
                Some(6),
                WeatherFault::MissingMark { value: 999.0 },
                Treatment::TemperaturesLeftOut
            ),
            (None, WeatherFault::Gap, Treatment::FilledByLine),
            (
                Some(10),
                WeatherFault::LowAboveHigh {
                    high_f: 85.0,
                    low_f: 95.0
                },
                Treatment::TemperaturesLeftOut
            ),
            (None, WeatherFault::Gap, Treatment::FilledByLine),
            (
                Some(14),
                WeatherFault::NotBelievable { value_f: 185.0 },
                Treatment::TemperaturesLeftOut
            ),
            (None, WeatherFault::Gap, Treatment::FilledByLine),
            (
                Some(17),
                WeatherFault::NotGiven,
                Treatment::TemperaturesLeftOut
            ),
            (None, WeatherFault::Gap, Treatment::FilledByLine),
        ]
    );
    let record = clean(&rows, None).unwrap().record;
    assert_eq!(record.days().len(), 20);
    assert_eq!(record.days().iter().filter(|day| day.filled).count(), 4);
    assert_eq!(
        record.days()[4].rain_in,
        Some(0.0),
        "rain of the day is kept"
    );
}

#[test]
fn columns_exchanged_throughout_are_put_right() {
    let mut rows = plain("2015-06-01", 30);
    for row in &mut rows {
        std::mem::swap(&mut row.high, &mut row.low);
    }
    let cleaned = clean(&rows, None).unwrap();
    assert_eq!(cleaned.problems.len(), 1);
    assert_eq!(cleaned.problems[0].treatment, Treatment::Exchanged);
    assert!(
        cleaned
            .record
            .days()
            .iter()
            .all(|day| (day.high_f, day.low_f) == (85.0, 60.0))
    );
}

#[test]
fn of_two_rows_with_one_date_the_later_counts() {
    let mut rows = plain("2015-06-01", 10);
    rows.push(row(12, date("2015-06-10"), 85.0, 60.0));
    rows.push(row(13, date("2015-06-10"), 80.0, 55.0));
    assert_eq!(
        found(&rows),
        [
            (Some(12), WeatherFault::SameAgain, Treatment::Ignored),
            (Some(13), WeatherFault::Differs, Treatment::LaterRowUsed)
        ]
    );
    let record = clean(&rows, None).unwrap().record;
    assert_eq!(record.on(date("2015-06-10")).unwrap().high_f, 80.0);
}

#[test]
fn rows_out_of_order_are_put_in_place() {
    let mut rows = plain("2015-06-01", 10);
    rows.swap(3, 4);
    assert_eq!(
        found(&rows),
        [(Some(5), WeatherFault::OutOfOrder, Treatment::PutInPlace)]
    );
    let record = clean(&rows, None).unwrap().record;
    assert!(record.days().windows(2).all(|p| p[0].date < p[1].date));
}

#[test]
fn a_row_in_the_other_unit_loses_its_temperatures() {
    let mut rows = plain("2015-06-01", 30);
    (rows[10].high, rows[10].low) = (Some(29.4), Some(15.6));
    let problems = clean(&rows, None).unwrap().problems;
    assert!(
        problems
            .iter()
            .any(|p| p.line == Some(12) && matches!(p.fault, WeatherFault::OtherUnit { .. })),
        "{problems:?}"
    );
    let day = *clean(&rows, None)
        .unwrap()
        .record
        .on(date("2015-06-11"))
        .unwrap();
    assert!(day.filled && day.high_f == 85.0);

    // The same in Celsius columns: 85/60 among 29/16.
    for row in &mut rows {
        row.unit = TempUnit::Celsius;
        (row.high, row.low) = (Some(29.4), Some(15.6));
    }
    (rows[10].high, rows[10].low) = (Some(50.0), Some(40.0));
    assert!(
        clean(&rows, None).unwrap().problems.is_empty(),
        "hot, but C"
    );
    (rows[10].high, rows[10].low) = (Some(85.0), Some(60.0));
    let problems = clean(&rows, None).unwrap().problems;
    assert!(problems.iter().any(|p| p.line == Some(12)), "{problems:?}");
}

#[test]
fn a_file_in_the_other_unit_is_refused() {
    let mut rows = plain("2015-06-01", 40);
    for row in &mut rows {
        (row.high, row.low) = (Some(31.0), Some(17.0));
    }
    assert!(matches!(
        clean(&rows, None),
        Err(WeatherRefusal::LooksLikeCelsius { .. })
    ));
    for row in &mut rows {
        row.unit = TempUnit::Celsius;
        (row.high, row.low) = (Some(88.0), Some(61.0));
    }
    assert!(matches!(
        clean(&rows, None),
        Err(WeatherRefusal::LooksLikeFahrenheit { .. })
    ));
}

#[test]
fn rain_and_humidity_lose_only_themselves() {
    let mut rows = plain("2015-06-01", 10);
    rows[2].rain_in = Some(-0.1);
    rows[3].humidity = Some(130.0);
    assert_eq!(
        found(&rows),
        [
            (
                Some(4),
                WeatherFault::Rain { value_in: -0.1 },
                Treatment::ValueLeftOut
            ),
            (
                Some(5),
                WeatherFault::Humidity { value: 130.0 },
                Treatment::ValueLeftOut
            )
        ]
    );
}

#[test]
fn leap_day_missing_is_a_gap_of_one_day() {
    let mut rows = plain("2012-02-20", 20);
    rows.remove(9);
    assert_eq!(
        found(&rows),
        [(None, WeatherFault::Gap, Treatment::FilledByLine)]
    );
    let record = clean(&rows, None).unwrap().record;
    assert!(record.on(date("2012-02-29")).unwrap().filled);
    assert_eq!(record.gaps(), []);
}

#[test]
fn a_missing_month_is_filled_by_other_years_or_left_open() {
    let year = |y: i32| plain(&format!("{y}-01-01"), 365);
    let without_july = |rows: &mut Vec<RawDay>, y: i32| {
        rows.retain(|row| {
            row.date < date(&format!("{y}-07-01")) || row.date > date(&format!("{y}-07-31"))
        });
    };
    let mut one_year = year(2015);
    without_july(&mut one_year, 2015);
    let cleaned = clean(&one_year, None).unwrap();
    assert_eq!(cleaned.problems.len(), 1);
    assert_eq!(cleaned.problems[0].treatment, Treatment::LeftOpen);
    let sum = HeatSum::between(
        &us_50_100(),
        &cleaned.record,
        date("2015-06-01"),
        date("2015-08-31"),
    );
    assert_eq!(sum.days, 61);
    assert_eq!(sum.units, 61.0 * 22.5);
    assert_eq!(sum.missing.len(), 1);
    assert_eq!(sum.missing[0].days(), 31);

    // Other years 85/60, this one 5 degrees warmer: the filled days are too.
    let mut rows: Vec<RawDay> = [2013, 2014].into_iter().flat_map(year).collect();
    let mut warm = year(2015);
    without_july(&mut warm, 2015);
    for row in &mut warm {
        (row.high, row.low) = (Some(90.0), Some(65.0));
    }
    rows.extend(warm);
    let cleaned = clean(&rows, None).unwrap();
    assert_eq!(cleaned.problems[0].treatment, Treatment::FilledByMean);
    let day = cleaned.record.on(date("2015-07-15")).unwrap();
    assert!(day.filled);
    assert!((day.high_f - 90.0).abs() < 1e-9 && (day.low_f - 65.0).abs() < 1e-9);
}

#[test]
fn rows_after_the_day_asked_for_do_not_exist() {
    let mut rows = plain("2015-06-01", 30);
    rows[10].high = None;
    let until = date("2015-06-11");
    let before = clean(&rows, Some(until)).unwrap();
    assert_eq!(before.record.span().unwrap().to, date("2015-06-10"));
    for row in rows.iter_mut().skip(11) {
        (row.high, row.low) = (Some(20.0), Some(999.0));
    }
    assert_eq!(clean(&rows, Some(until)).unwrap(), before);
}

#[test]
fn no_day_with_both_ends_is_refused() {
    let mut rows = plain("2015-06-01", 3);
    for row in &mut rows {
        row.high = None;
    }
    assert_eq!(clean(&rows, None), Err(WeatherRefusal::NoDay));
}

#[test]
fn ensemble_of_many_seasons_is_the_seasons_and_of_few_is_widened() {
    let rows: Vec<RawDay> = (2001..=2015)
        .flat_map(|year| {
            let mut rows = plain(&format!("{year}-01-01"), 365);
            for row in &mut rows {
                row.high = Some(f64::from(year - 1930));
            }
            rows
        })
        .collect();
    let record = clean(&rows, None).unwrap().record;
    let from = date("2015-08-10");
    let many = WeatherEnsemble::from_past(&record, from, 60).unwrap();
    assert_eq!(many.making(), EnsembleMaking::PastSeasons { seasons: 14 });
    assert_eq!(many.members().len(), 14);
    assert_eq!(many.members()[0].days[0].date, from);
    assert_eq!(many.members()[0].days[0].high_f, 71.0);

    let from = date("2003-08-10");
    let few = WeatherEnsemble::from_past(&record, from, 60).unwrap();
    assert_eq!(
        few.making(),
        EnsembleMaking::FewSeasonsWidened { seasons: 2 }
    );
    assert_eq!(few.members().len(), 2 * 5 * 3);
    assert_eq!(few.length(), 60);

    assert!(matches!(
        WeatherEnsemble::from_past(&record, date("2001-08-10"), 60),
        Err(NoEnsemble::NoPastSeason { .. })
    ));
    assert_eq!(
        WeatherEnsemble::from_past(&record, date("2000-08-10"), 60),
        Err(NoEnsemble::NoWeather)
    );
}
