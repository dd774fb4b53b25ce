//! `headwalk roll-up`: one object for each planting and walk, in the agreed form.

use headwalk_tests::demo_data;
use serde_json::Value;

use crate::run::Folder;

const STAGES: [&str; 7] = [
    "boot",
    "heading",
    "half_bloom",
    "milk",
    "soft_dough",
    "hard_dough",
    "black_layer",
];

const HEADS: &str = "planting,walked_on,stop,reading,share\n\
    South,2026-08-09,1,dented,20\n\
    South,2026-08-09,2,dented,30\n\
    North,2026-08-01,1,pliable,40\n\
    South,2026-08-01,1,pliable,60\n\
    South,2026-08-01,1,boot,\n\
    South,2026-08-01,2,pliable,70\n";

fn keys(value: &Value) -> Vec<&str> {
    value
        .as_object()
        .unwrap()
        .keys()
        .map(String::as_str)
        .collect()
}

fn check_form(line: &Value) {
    for key in [
        "planting",
        "walked_on",
        "heads",
        "stops",
        "level",
        "stage",
        "position",
        "reached",
        "grain",
        "chance",
        "advice",
    ] {
        assert!(line.get(key).is_some(), "{key}");
    }
    let band = |band: &Value, low: f64, high: f64| {
        let [from, mid, to] = ["low", "mid", "high"].map(|end| band[end].as_f64().unwrap());
        assert!(
            low <= from && from <= mid && mid <= to && to <= high,
            "{band}"
        );
    };
    band(&line["position"], 0.0, 9.0);
    for of in ["reached", "grain"] {
        let mut sorted = keys(&line[of]);
        sorted.sort_unstable();
        let mut stages = STAGES;
        stages.sort_unstable();
        assert_eq!(sorted, stages);
        for stage in STAGES {
            band(&line[of][stage], 0.0, 1.0);
        }
    }
    let sum: f64 = STAGES
        .iter()
        .map(|stage| line["chance"][stage].as_f64().unwrap())
        .sum();
    assert!((sum - 1.0).abs() < 1e-6, "{sum}");
    assert!(STAGES.contains(&line["stage"].as_str().unwrap()));
    assert!(line["advice"]["verdict"].is_string());
}

#[test]
fn plantings_in_the_order_of_the_file_and_walks_by_date() {
    let folder = Folder::new();
    folder.file("heads.csv", HEADS);
    let ran = folder.run(&["roll-up", "heads.csv"]);
    assert_eq!((ran.code, ran.err.as_str()), (0, ""));
    let lines = ran.lines();
    lines.iter().for_each(check_form);
    let walks: Vec<(&str, &str, u64, u64)> = lines
        .iter()
        .map(|line| {
            (
                line["planting"].as_str().unwrap(),
                line["walked_on"].as_str().unwrap(),
                line["heads"].as_u64().unwrap(),
                line["stops"].as_u64().unwrap(),
            )
        })
        .collect();
    assert_eq!(
        walks,
        vec![
            ("South", "2026-08-01", 3, 2),
            ("South", "2026-08-09", 2, 2),
            ("North", "2026-08-01", 1, 1),
        ]
    );
    assert_eq!(lines[0]["level"], 0.9);
}

#[test]
fn the_level_widens_the_bands() {
    let folder = Folder::new();
    folder.file("heads.csv", HEADS);
    let width = |level: &str| {
        let line = &folder
            .run(&["roll-up", "heads.csv", "--level", level])
            .lines()[0];
        let position = &line["position"];
        position["high"].as_f64().unwrap() - position["low"].as_f64().unwrap()
    };
    assert!(width("0.5") < width("0.8"));
    assert!(width("0.8") < width("0.98"));
}

#[test]
fn earlier_walks_are_used_when_asked_for_and_the_heads_alone_stay_available() {
    let folder = Folder::new();
    folder.file("heads.csv", HEADS);
    let alone = folder.run(&["roll-up", "heads.csv"]).lines();
    let with = folder.run(&["roll-up", "heads.csv", "--history"]).lines();
    assert_eq!(with[0], alone[0], "no earlier walk");
    assert_eq!(with[1]["earlier_walks"], 1);
    assert_eq!(with[1]["moved_by"], "days");
    for key in ["stage", "position", "reached", "grain", "chance"] {
        assert_eq!(with[1]["alone"][key], alone[1][key], "{key}");
    }
    assert_ne!(with[1]["position"], alone[1]["position"]);
}

#[test]
fn weather_moves_the_history_and_a_planting_without_it_is_told() {
    let folder = Folder::new();
    folder.file("heads.csv", HEADS);
    let mut weather = "station,date,high_f,low_f\n".to_owned();
    for day in 1..=20 {
        weather += &format!("A,2026-08-{day:02},95,65\nB,2026-08-{day:02},70,50\n");
    }
    folder.file("weather.csv", weather);
    folder.file(
        "plantings.csv",
        "planting,hybrid,planted_on,purpose,station\n\
         South,H,2026-05-20,grain,A\nNorth,H,2026-05-20,grain,C\n",
    );
    let ran = folder.run(&[
        "roll-up",
        "heads.csv",
        "--weather",
        "weather.csv",
        "--plantings",
        "plantings.csv",
    ]);
    assert_eq!(ran.code, 0, "{}", ran.err);
    let lines = ran.lines();
    assert_eq!(lines[1]["moved_by"], "weather");
    assert!(
        ran.err.contains("North: no weather for its station"),
        "{}",
        ran.err
    );
    assert!(!ran.err.contains("South"), "{}", ran.err);
}

#[test]
fn the_demo_gives_a_line_for_each_planting_and_walk() {
    let folder = Folder::new();
    let heads = demo_data().join("heads.csv");
    let ran = folder.run(&["roll-up", heads.to_str().unwrap()]);
    assert_eq!((ran.code, ran.err.as_str()), (0, ""));
    let lines = ran.lines();
    let text = std::fs::read_to_string(&heads).unwrap();
    let mut walks: Vec<(&str, &str)> = text
        .lines()
        .skip(1)
        .map(|line| {
            let mut fields = line.split(',');
            (fields.next().unwrap(), fields.next().unwrap())
        })
        .collect();
    walks.sort_unstable();
    walks.dedup();
    assert_eq!(lines.len(), walks.len());
    lines.iter().for_each(check_form);
}
