//! Equilibrium moisture against published tables.

use ripening::air::{EquilibriumSet, sorghum_spread};

fn celsius(fahrenheit: f64) -> f64 {
    (fahrenheit - 32.0) / 1.8
}

fn tenth(value: f64) -> f64 {
    (value * 10.0).round() / 10.0
}

/// Published table for corn by the Henderson-Thompson equation: percent wet
/// basis at 10..90 % RH.
#[test]
fn the_engine_reproduces_a_published_corn_table() {
    let table = [
        (35.0, [5.2, 7.6, 9.5, 11.3, 13.0, 14.8, 16.8, 19.1, 22.2]),
        (50.0, [4.8, 7.0, 8.8, 10.5, 12.2, 13.9, 15.7, 17.9, 20.9]),
        (70.0, [4.4, 6.4, 8.1, 9.7, 11.2, 12.8, 14.5, 16.6, 19.4]),
        (90.0, [4.1, 6.0, 7.6, 9.0, 10.5, 12.0, 13.6, 15.5, 18.2]),
        (100.0, [3.9, 5.8, 7.3, 8.7, 10.1, 11.6, 13.2, 15.1, 17.7]),
    ];
    let mut cells = 0;
    for (fahrenheit, row) in table {
        for (step, published) in row.into_iter().enumerate() {
            let humidity = 10.0 * (step as f64 + 1.0);
            let ours = EquilibriumSet::CornHenderson
                .moisture(celsius(fahrenheit), humidity)
                .unwrap();
            assert!(
                (tenth(ours) - published).abs() < 1e-9,
                "{fahrenheit} F {humidity} %: {ours} against {published}"
            );
            cells += 1;
        }
    }
    assert_eq!(cells, 45);
}

/// Extension table for sorghum, percent wet basis at 25, 30, 35, 40 % RH.
#[test]
fn the_second_sorghum_set_reproduces_an_extension_table() {
    let table = [
        (35.0, [11.5, 12.1, 12.7, 13.3]),
        (50.0, [10.9, 11.5, 12.1, 12.7]),
        (70.0, [10.2, 10.8, 11.4, 12.0]),
        (100.0, [9.3, 9.9, 10.5, 11.1]),
    ];
    for (fahrenheit, row) in table {
        for (step, published) in row.into_iter().enumerate() {
            let humidity = 25.0 + 5.0 * step as f64;
            let ours = EquilibriumSet::SorghumChungPfost2
                .moisture(celsius(fahrenheit), humidity)
                .unwrap();
            assert!(
                (tenth(ours) - published).abs() < 1e-9,
                "{fahrenheit} F {humidity} %: {ours} against {published}"
            );
        }
    }
}

/// Handbook row for sorghum at 25 C, 30..90 % RH.
#[test]
fn the_default_sorghum_set_lies_near_the_classic_row() {
    let row = [8.6, 9.8, 11.0, 12.0, 13.8, 15.8, 18.8];
    let mut worst: f64 = 0.0;
    for (step, published) in row.into_iter().enumerate() {
        let humidity = 30.0 + 10.0 * step as f64;
        let ours = EquilibriumSet::DEFAULT.moisture(25.0, humidity).unwrap();
        worst = worst.max((ours - published).abs());
    }
    println!("set 1 at 25 C: at most {worst:.2} from the handbook row");
    assert!(worst < 0.6);
}

/// The known disagreement between the two Chung-Pfost sets is about 1.6 points,
/// and the spread must show it.
#[test]
fn the_spread_shows_how_far_the_sets_disagree() {
    let mut widest: f64 = 0.0;
    for temp_c in [5.0, 15.0, 25.0, 35.0] {
        for humidity in [30.0, 50.0, 70.0, 90.0] {
            let spread = sorghum_spread(temp_c, humidity).unwrap();
            assert!(spread.low <= spread.chosen && spread.chosen <= spread.high);
            assert_eq!(spread.sets.len(), 3);
            widest = widest.max(spread.high - spread.low);
        }
    }
    println!("sorghum sets differ by up to {widest:.2} points");
    assert!((1.2..3.0).contains(&widest));
}
