//! Heat sums on real weather against an independent computation
//! (`tests/reference/heat_sums.py`).

#![allow(clippy::unwrap_used, clippy::expect_used)]

use chrono::{Months, NaiveDate};
use headwalk_tests::open_weather::{City, record};
use ripening::heat::{HeatSum, metric_10_38, regional_center_50_86, us_50_100};

#[test]
fn sums_by_month_agree_with_another_language() {
    let reference = include_str!("../reference/heat_sums.csv");
    let scales = [us_50_100(), regional_center_50_86(), metric_10_38()];
    let mut compared = 0;
    for (name, city) in [("new_york", City::NewYork), ("seattle", City::Seattle)] {
        let record = record(city);
        for line in reference.lines().filter(|line| line.starts_with(name)) {
            let fields: Vec<&str> = line.split(',').collect();
            let first: NaiveDate = format!("{}-01", fields[1]).parse().unwrap();
            let last = (first + Months::new(1)).pred_opt().unwrap();
            for (scale, expected) in scales.iter().zip(&fields[3..]) {
                let sum = HeatSum::between(scale, &record, first, last);
                assert_eq!(sum.days.to_string(), fields[2], "{line}");
                assert!(sum.missing.is_empty() && sum.filled == 0, "{line}");
                let expected: f64 = expected.parse().unwrap();
                assert!(
                    (sum.units - expected).abs() < 1e-3,
                    "{name} {} {}: {} against {expected}",
                    fields[1],
                    scale.name(),
                    sum.units
                );
                compared += 1;
            }
        }
    }
    assert_eq!(compared, 2 * 48 * 3);
}

/// Base 50 F heat in Seattle never comes near black layer of a medium-early
/// hybrid (2556 units) from May to October; in New York it does every year.
#[test]
fn a_cool_city_never_ripens_sorghum() {
    let scale = us_50_100();
    let season = |city, year| {
        let day = |month, day| NaiveDate::from_ymd_opt(year, month, day).unwrap();
        HeatSum::between(&scale, &record(city), day(5, 15), day(10, 31)).units
    };
    for year in 2012..=2015 {
        assert!(season(City::Seattle, year) < 2556.0);
        assert!(season(City::NewYork, year) > 2556.0);
    }
}
