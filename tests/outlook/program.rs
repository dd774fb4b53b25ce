//! `headwalk outlook` as another program calls it.

#![allow(clippy::unwrap_used, clippy::expect_used)]

use headwalk_tests::demo_data;
use headwalk_tests::program::headwalk;
use serde_json::Value;

const STAGES: [&str; 5] = [
    "half_bloom",
    "milk",
    "soft_dough",
    "hard_dough",
    "black_layer",
];
const EVENTS: [&str; 9] = [
    "half_bloom",
    "milk",
    "soft_dough",
    "hard_dough",
    "black_layer",
    "moisture_20",
    "moisture_18",
    "moisture_16",
    "moisture_14",
];

fn outlook(weather: &str, as_of: &str) -> std::process::Output {
    let data = demo_data();
    std::process::Command::new(headwalk().unwrap())
        .arg("outlook")
        .arg(data.join("heads.csv"))
        .arg("--weather")
        .arg(data.join(weather))
        .arg("--plantings")
        .arg(data.join("plantings.csv"))
        .args(["--as-of", as_of])
        .output()
        .unwrap()
}

fn lines(output: &std::process::Output) -> Vec<Value> {
    assert!(output.status.success(), "{output:?}");
    String::from_utf8_lossy(&output.stdout)
        .lines()
        .map(|line| serde_json::from_str(line).unwrap())
        .collect()
}

#[test]
fn one_line_a_planting_with_every_event() {
    let told = lines(&outlook("weather.csv", "2026-08-20"));
    assert_eq!(told.len(), 12);
    for line in &told {
        assert_eq!(line["as_of"], "2026-08-20");
        assert!(line["planting"].is_string());
        let events = line["events"].as_object().unwrap();
        assert_eq!(events.len(), EVENTS.len());
        for event in EVENTS {
            let dates = &events[event];
            let known: Vec<&str> = ["p10", "p50", "p90"]
                .iter()
                .filter_map(|p| dates[p].as_str())
                .collect();
            assert!(known.is_sorted(), "{line}");
            // A missing date has its reason, and only then is there one.
            assert_eq!(
                known.len() < 3,
                dates["why"].is_string(),
                "{event} of {line}"
            );
        }
        // Stages come in their order.
        for pair in STAGES.windows(2) {
            let date = |event: &str| events[event]["p50"].as_str().map(str::to_owned);
            if let (Some(before), Some(after)) = (date(pair[0]), date(pair[1])) {
                assert!(before <= after, "{line}");
            }
        }
        let freeze = line["freeze"]["before_black_layer"].as_f64().unwrap();
        assert!((0.0..=1.0).contains(&freeze));
    }
}

/// Before the first walk there are dates from the planting date and the table;
/// with every walk they come closer together.
#[test]
fn dates_sharpen_from_planting_on() {
    let width = |as_of: &str| {
        let told = lines(&outlook("weather.csv", as_of));
        let line = told
            .iter()
            .find(|line| line["planting"] == "North 2")
            .unwrap();
        let date = |p: &str| {
            let text = line["events"]["black_layer"][p]
                .as_str()
                .unwrap()
                .to_owned();
            text.parse::<chrono::NaiveDate>().unwrap()
        };
        (date("p90") - date("p10")).num_days()
    };
    let (early, bloom, late) = (
        width("2026-06-01"),
        width("2026-07-28"),
        width("2026-08-20"),
    );
    assert!(early > bloom && bloom > late, "{early} {bloom} {late}");
}

#[test]
fn failures_are_one_line() {
    let missing = outlook("no-such-weather.csv", "2026-08-20");
    assert_eq!(missing.status.code(), Some(1));
    assert!(missing.stdout.is_empty());
    assert_eq!(String::from_utf8_lossy(&missing.stderr).lines().count(), 1);
    let wrong = outlook("weather.csv", "20 August");
    assert_eq!(wrong.status.code(), Some(2));
    assert_eq!(String::from_utf8_lossy(&wrong.stderr).lines().count(), 1);
    // A head file is no weather file.
    let other = outlook("heads.csv", "2026-08-20");
    assert_eq!(other.status.code(), Some(1));
}

#[test]
fn before_planting_everything_is_null_with_a_reason() {
    for line in lines(&outlook("weather.csv", "2026-04-01")) {
        for event in EVENTS {
            assert!(line["events"][event]["p50"].is_null());
            assert!(line["events"][event]["why"].is_string());
        }
        assert!(line["freeze"]["before_black_layer"].is_null());
    }
}

/// Moisture readings narrow the moisture dates of a planting that is drying, and
/// those after the day of the outlook do not count.
#[test]
fn moisture_readings_count_up_to_the_day() {
    let data = demo_data();
    let run = |as_of: &str, readings: bool| -> Vec<Value> {
        let mut call = std::process::Command::new(headwalk().unwrap());
        call.arg("outlook").arg(data.join("heads.csv"));
        call.arg("--weather").arg(data.join("weather.csv"));
        call.arg("--plantings").arg(data.join("plantings.csv"));
        call.args(["--as-of", as_of]);
        if readings {
            call.arg("--observations")
                .arg(data.join("observations.csv"));
        }
        lines(&call.output().unwrap())
    };
    let of = |lines: &[Value], planting: &str| -> Value {
        let line = lines.iter().find(|line| line["planting"] == planting);
        line.unwrap()["events"]["moisture_14"].clone()
    };
    let (without, with) = (run("2026-09-16", false), run("2026-09-16", true));
    assert_ne!(of(&without, "Creek 2"), of(&with, "Creek 2"));
    // Read by nobody.
    assert_eq!(of(&without, "Hill 2"), of(&with, "Hill 2"));
    // All readings lie after this day.
    assert_eq!(run("2026-08-20", false), run("2026-08-20", true));
}
