//! The intervals that the rivals of the roll-up are made of, against published numbers.

use headwalk_tests::simulation::rivals::{exact, normal_quantile, t_quantile, wilson};
use headwalk_tests::simulation::tally::Interval;

fn agree(found: Interval, low: f64, high: f64) {
    assert!(
        (found.low - low).abs() < 5e-6 && (found.high - high).abs() < 5e-6,
        "{found:?} is not {low} to {high}"
    );
}

/// 4 of 20 at 90 %: the inputs of the NIST e-Handbook 7.2.4.2, the answer by arithmetic.
#[test]
fn exact_interval_of_the_nist_example() {
    agree(exact(4, 20, 0.9), 0.07135, 0.40103);
}

/// The same inputs through Wilson's formula (NIST e-Handbook 7.2.4.1), by arithmetic.
#[test]
fn wilson_interval_of_the_nist_example() {
    agree(wilson(0.2, 20.0, normal_quantile(0.9)), 0.09312, 0.37838);
}

/// With nothing found, the exact upper end is 1 - 0.05^(1/n) and the lower is 0.
#[test]
fn exact_interval_of_none() {
    let found = exact(0, 25, 0.9);
    assert_eq!(found.low, 0.0);
    assert!((found.high - (1.0 - 0.05_f64.powf(1.0 / 25.0))).abs() < 1e-9);
}

/// Student's t, 95 % point on 4 degrees of freedom: 2.132 (NIST e-Handbook 1.3.6.7.2).
#[test]
fn t_quantile_of_five_stops() {
    assert!((t_quantile(0.9, 5) - 2.132).abs() < 5e-4);
}
