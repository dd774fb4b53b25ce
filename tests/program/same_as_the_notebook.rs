//! The program and the notebook's service give the same answers, bit for bit, to
//! the same heads and weather.

use std::collections::BTreeMap;
use std::fs;

use headwalk_tests::demo_data;
use headwalk_tests::devices::{SetClock, service_in_memory};
use serde_json::{Value, json};
use service::{Answers, Service, ask};

use crate::run::Folder;

/// By planting and day: the notebook's answers.
fn of_notebook(service: &mut Service) -> BTreeMap<(String, String), Answers> {
    let rows = service.call(ask::Plantings {}).unwrap().answer.rows;
    let mut answers = BTreeMap::new();
    for row in rows {
        let request = ask::Planting { planting: row.id };
        let page = service.call(request).unwrap().answer;
        for walk in page.walks {
            let day = walk.walked_on.to_string();
            let known = answers.insert((row.name.clone(), day), walk.now);
            assert!(known.is_none(), "two walks on one day: {}", row.name);
        }
    }
    answers
}

/// The answer of a line of the program, without what the notebook keeps elsewhere.
fn whole_field(line: &Value) -> Value {
    let keys = [
        "heads", "stops", "level", "stage", "position", "reached", "grain", "chance",
    ];
    keys.into_iter()
        .map(|key| (key.to_owned(), line[key].clone()))
        .collect::<serde_json::Map<_, _>>()
        .into()
}

fn compare(service: &mut Service, arguments: &[&str], moved_by: &str) {
    let ran = Folder::new().run(arguments);
    assert_eq!(ran.code, 0, "{}", ran.err);
    let notebook = of_notebook(service);
    let lines = ran.lines();
    assert_eq!(lines.len(), notebook.len());
    let mut with_history = 0;
    for line in lines {
        let key = ["planting", "walked_on"].map(|key| line[key].as_str().unwrap().to_owned());
        let ours = &notebook[&(key[0].clone(), key[1].clone())];
        let Some(alone) = line.get("alone") else {
            assert_eq!(json!(ours.alone), whole_field(&line), "{key:?}");
            assert_eq!(ours.with_history, None, "{key:?}");
            continue;
        };
        assert_eq!(line["moved_by"], moved_by);
        assert_eq!(json!(ours.alone), *alone, "{key:?}");
        assert_eq!(json!(ours.contradiction), line["contradiction"], "{key:?}");
        let best = ours.with_history.or(ours.alone);
        assert_eq!(json!(best), whole_field(&line), "{key:?}");
        assert_eq!(json!(ours.advice), line["advice"], "{key:?}");
        with_history += usize::from(ours.with_history.is_some());
    }
    assert!(with_history > 30, "{with_history} walks with history");
}

#[test]
fn the_demo_season_is_answered_alike_with_and_without_weather() {
    let path = |name: &str| demo_data().join(name);
    let text = |name: &str| fs::read_to_string(path(name)).unwrap();
    let [heads, plantings, weather] = ["heads.csv", "plantings.csv", "weather.csv"]
        .map(|name| path(name).to_str().unwrap().to_owned());

    let clock = SetClock::at("2026-10-20T12:00:00-05:00").unwrap();
    let mut service = service_in_memory(&clock, 5).unwrap();
    service
        .call(ask::ImportPlantingFile {
            text: text("plantings.csv"),
        })
        .unwrap();
    service
        .call(ask::ImportHeadFile {
            text: text("heads.csv"),
        })
        .unwrap();
    compare(&mut service, &["roll-up", &heads, "--history"], "days");

    // The kept answers of before must not outlive the weather's coming.
    service
        .call(ask::ImportWeatherFile {
            text: text("weather.csv"),
            station: None,
            strict: false,
            job: None,
        })
        .unwrap();
    let with_weather = [
        "roll-up",
        &heads,
        "--weather",
        &weather,
        "--plantings",
        &plantings,
    ];
    compare(&mut service, &with_weather, "weather");
}
