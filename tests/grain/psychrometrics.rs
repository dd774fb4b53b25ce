//! Psychrometrics against FAO-56 worked examples and against psychrolib.

use headwalk_tests::repository;
use ripening::air::{
    AirState, dew_point_c, pressure_at_kpa, saturation_kpa, vapor_kpa_from_wet_bulb,
};

fn close(ours: f64, published: f64, within: f64) {
    assert!(
        (ours - published).abs() <= within,
        "{ours} against {published}"
    );
}

/// FAO Irrigation and Drainage Paper 56, chapter 3, examples 2 to 5 and table
/// 2.3; the figures are from memory.
#[test]
fn the_worked_examples_of_fao_56_come_out() {
    // Example 2: pressure at 1800 m.
    close(pressure_at_kpa(1800.0), 81.8, 0.05);
    // Example 3: saturation at 24.5 and 15.0 C.
    close(saturation_kpa(24.5), 3.075, 0.0005);
    close(saturation_kpa(15.0), 1.705, 0.0005);
    // Example 4: psychrometer, 25.6 and 19.5 C at 1200 m.
    close(pressure_at_kpa(1200.0), 87.9, 0.05);
    close(
        vapor_kpa_from_wet_bulb(25.6, 19.5, pressure_at_kpa(1200.0)),
        1.91,
        0.005,
    );
    // Example 5: 18 C at 82 % and 25 C at 54 %.
    let cool = AirState::new(18.0, 82.0, 101.3).unwrap();
    let warm = AirState::new(25.0, 54.0, 101.3).unwrap();
    close(0.5 * (cool.vapor_kpa + warm.vapor_kpa), 1.70, 0.005);
    // Table 2.3.
    for (temp_c, published) in [(10.0, 1.228), (20.0, 2.338), (30.0, 4.243), (40.0, 7.376)] {
        close(saturation_kpa(temp_c), published, 0.0015);
    }
}

/// The fixture is written by psychrometrics.py beside it. The two differ in
/// their formula for saturation (ours is FAO-56's, theirs the ASHRAE
/// Handbook's) and in the psychrometer that a wet bulb stands for (ventilated
/// against adiabatic), so they agree closely and not exactly.
#[test]
fn psychrolib_agrees() {
    let path = repository().join("tests/reference/psychrometrics.csv");
    let text = std::fs::read_to_string(path).unwrap();
    let mut rows = 0;
    let (mut saturation, mut dew, mut wet): (f64, f64, f64) = (0.0, 0.0, 0.0);
    for line in text.lines().skip(1) {
        let row: Vec<f64> = line.split(',').map(|cell| cell.parse().unwrap()).collect();
        let air = AirState::new(row[0], row[1], row[2]).unwrap();
        saturation = saturation.max((saturation_kpa(row[0]) / row[3] - 1.0).abs());
        // Below freezing theirs is over ice, ours over water.
        if row[4] > 0.0 {
            dew = dew.max((air.dew_point_c - row[4]).abs());
        }
        if row[5] > 0.0 {
            wet = wet.max((air.wet_bulb_c - row[5]).abs());
        }
        close(dew_point_c(air.vapor_kpa), air.dew_point_c, 1e-12);
        rows += 1;
    }
    println!(
        "{rows} states: saturation within {:.3} %, dew point {dew:.3} C, wet bulb {wet:.3} C (above freezing)",
        100.0 * saturation
    );
    assert_eq!(rows, 84);
    assert!(saturation < 0.002 && dew < 0.06 && wet < 0.25);
}
