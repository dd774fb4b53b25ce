//! Shrink, over-drying, drying fuel, grade and storage life against published
//! figures.

use ripening::grain::{
    DryerUse, Fuel, Grade, Sample, StorageDays, all_energy_cents_per_point, dry_share, drying_cost,
    grade, pounds_equal_to_a_bushel, storage_days, value_per_cwt,
};

fn cents(dollars: f64) -> f64 {
    (dollars * 100.0).round() / 100.0
}

/// Dry/wet factors at base 14, to five places.
#[test]
fn shrink_factors_to_base_14() {
    for (moisture, factor) in [
        (10.0, 1.04651),
        (13.0, 1.01163),
        (15.0, 0.98837),
        (16.0, 0.97674),
        (18.0, 0.95349),
        (20.0, 0.93023),
        (25.0, 0.87209),
    ] {
        let ours = dry_share(moisture, 14.0).unwrap();
        assert!((ours - factor).abs() < 6e-6, "{moisture}: {ours}");
    }
}

/// University of Missouri G4020: pounds of shelled corn equal to 56 lb at
/// 15.5 %, whose last digit is not always rounded (18 % is 57.707). The formula
/// is the same for sorghum with its own base.
#[test]
fn pounds_that_equal_a_bushel() {
    for (moisture, pounds) in [
        (14.0, 55.02),
        (16.0, 56.33),
        (18.0, 57.70),
        (20.0, 59.15),
        (25.0, 63.09),
    ] {
        let ours = pounds_equal_to_a_bushel(moisture, 15.5).unwrap();
        assert!((ours - pounds).abs() < 0.0075, "{moisture}: {ours}");
    }
}

/// Texas over-dry example at $8.50 a hundredweight, base 14.
#[test]
fn over_drying_costs_what_the_texas_example_says() {
    let at_13 = value_per_cwt(13.0, 14.0, 8.50).unwrap();
    assert_eq!(((8.50 - at_13) * 1000.0).round(), 98.0);
    assert_eq!(cents(value_per_cwt(10.0, 14.0, 8.50).unwrap()), 8.12);
}

/// Iowa State: 0.018 gallon of propane, 0.010 to 0.025. NDSU: propane price
/// times 0.022 for all energy; $1.90 gives 4.2 cents a point, 42 cents from 25
/// to 15 %.
#[test]
fn drying_fuel_to_the_cent() {
    let cost = drying_cost(25.0, 15.0, Fuel::Propane, 1.90, DryerUse::PUBLISHED).unwrap();
    assert_eq!(
        (cents(cost.low), cents(cost.typical), cents(cost.high)),
        (0.19, 0.34, 0.48)
    );
    let rule = all_energy_cents_per_point(1.90).unwrap();
    assert_eq!((rule * 10.0).round() / 10.0, 4.2);
    assert_eq!((rule * 10.0).round(), 42.0);
}

/// 7 CFR 810.1404: every limit, on it and just beyond it.
#[test]
fn every_grade_limit_to_the_class() {
    type Set = fn(&mut Sample, f64);
    let table: [(Set, [f64; 4], f64); 5] = [
        (
            |s, v| s.test_weight = Some(v),
            [57.0, 55.0, 53.0, 51.0],
            -0.1,
        ),
        (|s, v| s.heat_damage = Some(v), [0.2, 0.5, 1.0, 3.0], 0.01),
        (|s, v| s.total_damage = Some(v), [2.0, 5.0, 10.0, 15.0], 0.1),
        (
            |s, v| s.foreign_material = Some(v),
            [1.0, 2.0, 3.0, 4.0],
            0.1,
        ),
        (
            |s, v| s.broken_and_foreign = Some(v),
            [3.0, 6.0, 8.0, 10.0],
            0.1,
        ),
    ];
    let classes = [
        Grade::No1,
        Grade::No2,
        Grade::No3,
        Grade::No4,
        Grade::SampleGrade,
    ];
    let perfect = Sample {
        test_weight: Some(60.0),
        heat_damage: Some(0.0),
        total_damage: Some(0.0),
        foreign_material: Some(0.0),
        broken_and_foreign: Some(0.0),
        ..Sample::default()
    };
    for (set, limits, step) in table {
        for (index, limit) in limits.into_iter().enumerate() {
            let mut sample = perfect;
            set(&mut sample, limit);
            assert_eq!(grade(&sample).unwrap().at_best, Some(classes[index]));
            set(&mut sample, limit + step);
            assert_eq!(grade(&sample).unwrap().at_best, Some(classes[index + 1]));
        }
    }
    let mut wet = perfect;
    wet.moisture = Some(25.0);
    assert_eq!(grade(&wet).unwrap().at_best, Some(Grade::No1));
    let mut musty = perfect;
    musty.distinctly_low_quality = true;
    assert_eq!(grade(&musty).unwrap().at_best, Some(Grade::SampleGrade));
    let little = grade(&Sample {
        test_weight: Some(58.0),
        ..Sample::default()
    })
    .unwrap();
    assert_eq!(little.not_given.len(), 4);
    assert_eq!(grade(&Sample::default()).unwrap().at_best, None);
}

/// NDSU allowable storage days for cereals, at the table's own points.
#[test]
fn storage_days_at_the_published_points() {
    for (moisture, temp_f, days) in [
        (14.0, 70.0, 200.0),
        (14.0, 80.0, 140.0),
        (16.0, 50.0, 230.0),
        (16.0, 60.0, 120.0),
        (16.0, 70.0, 70.0),
        (16.0, 80.0, 40.0),
        (18.0, 40.0, 200.0),
        (18.0, 50.0, 90.0),
        (18.0, 60.0, 50.0),
        (18.0, 70.0, 30.0),
        (18.0, 80.0, 15.0),
        (20.0, 40.0, 90.0),
        (20.0, 50.0, 50.0),
        (20.0, 60.0, 25.0),
        (20.0, 70.0, 14.0),
        (20.0, 80.0, 7.0),
    ] {
        match storage_days(moisture, temp_f).unwrap() {
            StorageDays::About(ours) => assert!((ours - days).abs() < 1e-6),
            other => panic!("{moisture} % {temp_f} F: {other:?}"),
        }
    }
}
