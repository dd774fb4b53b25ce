//! `headwalk grain` and `headwalk air` against published examples.

use crate::run::{Folder, Ran};

fn number(ran: &Ran, name: &str) -> f64 {
    assert_eq!(ran.code, 0, "{}", ran.err);
    ran.lines()[0][name].as_f64().unwrap()
}

/// Texas over-dry example at $8.50 a hundredweight, base 14.
#[test]
fn grain_values_dry_and_wet_loads() {
    let folder = Folder::new();
    let call = |moisture: &str| {
        folder.run(&[
            "grain",
            "--moisture",
            moisture,
            "--base",
            "14",
            "--price-per-cwt",
            "8.50",
        ])
    };
    assert!((number(&call("13"), "value_per_cwt") - 8.402).abs() < 0.001);
    assert!((number(&call("10"), "value_per_cwt") - 8.12).abs() < 0.005);
    assert!((number(&call("16"), "dry_share") - 0.97674).abs() < 1e-5);
    assert!((number(&call("10"), "dry_share") - 1.04651).abs() < 1e-5);
}

#[test]
fn grain_adds_what_the_flags_ask() {
    let folder = Folder::new();
    let ran = folder.run(&[
        "grain",
        "--moisture",
        "25",
        "--base",
        "15",
        "--price-per-cwt",
        "8",
        "--fuel",
        "propane",
        "--fuel-price",
        "1.90",
        "--test-weight",
        "54",
        "--discount",
        "moisture:15:10",
        "--discount",
        "moisture:20:25",
        "--discount",
        "test_weight:55:3",
        "--storage-temp-f",
        "70",
        "--explain",
    ]);
    assert_eq!(ran.code, 0, "{}", ran.err);
    let answer = &ran.lines()[0];
    let all = answer["drying"]["all_energy_per_bushel"].as_f64().unwrap();
    assert!((all - 0.418).abs() < 1e-9);
    assert_eq!(answer["discounts"]["cents_per_cwt"], 28.0);
    assert_eq!(answer["grade"]["at_best"], "no_3");
    assert_eq!(answer["storage"]["answer"], "less_than");
    let formulas: Vec<&str> = answer["worked"]
        .as_array()
        .unwrap()
        .iter()
        .map(|worked| worked["formula"].as_str().unwrap())
        .collect();
    assert_eq!(formulas, ["dry_share", "wet_value", "drying_cost"]);
}

#[test]
fn air_names_its_equation_and_the_spread() {
    let folder = Folder::new();
    let ran = folder.run(&["air", "--temp-c", "25", "--humidity", "70"]);
    // Handbook row: 13.8, within 0.6.
    assert!((number(&ran, "grain_moisture") - 13.8).abs() < 0.6);
    let answer = &ran.lines()[0];
    assert_eq!(answer["equation"], "modified_chung_pfost");
    assert_eq!(answer["spread"]["sets"].as_array().unwrap().len(), 3);
    let corn = folder.run(&[
        "air",
        "--temp-c",
        "10",
        "--humidity",
        "50",
        "--set",
        "corn_henderson",
    ]);
    assert!((number(&corn, "grain_moisture") - 12.2).abs() < 0.05);
}

#[test]
fn a_wrong_call_is_one_line_and_code_two() {
    let folder = Folder::new();
    for (call, says) in [
        (
            vec!["grain", "--moisture", "99", "--price-per-cwt", "8"],
            "moisture 99 is out of range",
        ),
        (vec!["grain", "--moisture", "15"], "--price-per-cwt"),
        (
            vec!["air", "--temp-c", "25", "--humidity", "0"],
            "relative humidity 0 % is out of range",
        ),
        (
            vec!["air", "--temp-c", "25", "--humidity", "50", "--set", "rice"],
            "use one of",
        ),
        (
            vec![
                "grain",
                "--moisture",
                "15",
                "--price-per-cwt",
                "8",
                "--discount",
                "moisture:15",
            ],
            "use FACTOR:BEYOND:CENTS",
        ),
        (
            vec![
                "grain",
                "--moisture",
                "15",
                "--price-per-cwt",
                "8",
                "--discount",
                "moisture:16:9",
                "--discount",
                "moisture:15:12",
            ],
            "order them from mild to severe",
        ),
    ] {
        let ran = folder.run(&call);
        assert_eq!(ran.code, 2, "{call:?}");
        assert_eq!(ran.out, "", "{call:?}");
        assert_eq!(ran.err.lines().count(), 1, "{}", ran.err);
        assert!(ran.err.contains(says), "{}", ran.err);
    }
}
