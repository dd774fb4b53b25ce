//! The program on the demo's head file: a line for each planting and walk, in
//! the form of the contract.

use std::process::Command;

use headwalk_tests::{demo_data, program};
use serde_json::Value;

const STAGES: [&str; 7] = [
    "boot",
    "heading",
    "half_bloom",
    "milk",
    "soft_dough",
    "hard_dough",
    "black_layer",
];

fn roll_up(more: &[&str]) -> Vec<Value> {
    let output = Command::new(program::headwalk().unwrap())
        .arg("roll-up")
        .arg(demo_data().join("heads.csv"))
        .args(more)
        .output()
        .unwrap();
    let told = String::from_utf8_lossy(&output.stderr);
    assert!(output.status.success(), "{told}");
    String::from_utf8(output.stdout)
        .unwrap()
        .lines()
        .map(|line| serde_json::from_str(line).unwrap())
        .collect()
}

fn walks_in_file() -> Vec<(String, String)> {
    let text = std::fs::read_to_string(demo_data().join("heads.csv")).unwrap();
    let mut walks: Vec<(String, String)> = text
        .lines()
        .skip(1)
        .map(|line| {
            let mut cells = line.split(',');
            let mut cell = || cells.next().unwrap().to_owned();
            (cell(), cell())
        })
        .collect();
    // The file has each walk's heads together.
    walks.dedup();
    walks
}

#[test]
fn a_line_for_each_planting_and_walk_in_order() {
    let lines = roll_up(&[]);
    let told: Vec<(String, String)> = lines
        .iter()
        .map(|line| {
            let text = |key: &str| line[key].as_str().unwrap().to_owned();
            (text("planting"), text("walked_on"))
        })
        .collect();
    assert_eq!(told, walks_in_file());
}

#[test]
fn every_line_keeps_the_contract() {
    for line in roll_up(&["--level", "0.8"]) {
        assert_eq!(line["level"], 0.8, "{line}");
        assert!(line["heads"].as_u64().unwrap() >= line["stops"].as_u64().unwrap());
        assert!(STAGES.contains(&line["stage"].as_str().unwrap()), "{line}");
        assert!(line["advice"].is_object(), "{line}");
        in_order(&line["position"], 0.0, 9.0);
        let mut earlier = 1.0;
        let mut certain = 0.0;
        for stage in STAGES {
            in_order(&line["reached"][stage], 0.0, 1.0);
            in_order(&line["grain"][stage], 0.0, 1.0);
            // No more heads can have reached a later stage than an earlier one.
            let reached = line["reached"][stage]["mid"].as_f64().unwrap();
            assert!(reached <= earlier + 1e-9, "{stage}: {line}");
            earlier = reached;
            certain += line["chance"][stage].as_f64().unwrap();
        }
        assert!(
            (certain - 1.0).abs() < 1e-6,
            "chances sum to {certain}: {line}"
        );
    }
}

#[test]
fn plantings_ripen_from_walk_to_walk() {
    let lines = roll_up(&[]);
    let position = |line: &Value| line["position"]["mid"].as_f64().unwrap();
    let mut pairs = 0;
    for (before, after) in lines.iter().zip(&lines[1..]) {
        if before["planting"] == after["planting"] {
            pairs += 1;
            // Other heads at other stops: a little backwards is chance, more is a fault.
            assert!(
                position(after) > position(before) - 0.15,
                "{before}\n{after}"
            );
        }
    }
    assert!(pairs >= 48, "only {pairs} pairs of walks");
}

fn in_order(band: &Value, least: f64, most: f64) {
    let end = |key: &str| band[key].as_f64().unwrap();
    let (low, mid, high) = (end("low"), end("mid"), end("high"));
    assert!(
        least <= low && low <= mid && mid <= high && high <= most,
        "{band}"
    );
}
