//! What the command line prints, whole, as a reader sees it: a change of its form or
//! of a number shows in a review. To accept one: `INSTA_UPDATE=always cargo nextest run
//! --workspace --test program -E 'test(snapshots)'`, then look at the difference.

use headwalk_tests::demo_data;
use insta::{Settings, assert_snapshot};
use serde_json::{Number, Value};

use crate::run::Folder;

/// Decimals that a reader would look at.
const DECIMALS: i32 = 3;

fn rounded(value: Value) -> Value {
    match value {
        Value::Number(number) if number.is_f64() => {
            let scale = 10_f64.powi(DECIMALS);
            let near = (number.as_f64().unwrap() * scale).round() / scale;
            Value::Number(Number::from_f64(near).unwrap())
        }
        Value::Array(values) => values.into_iter().map(rounded).collect(),
        Value::Object(fields) => fields
            .into_iter()
            .map(|(key, value)| (key, rounded(value)))
            .collect(),
        other => other,
    }
}

/// A line of JSON over several, short enough to be read.
fn readable(line: &Value) -> String {
    let pretty = serde_json::to_string_pretty(&rounded(line.clone())).unwrap();
    // The innermost objects, bands for the most part, go on one line each.
    let mut text = String::new();
    let mut rest = pretty.as_str();
    while let Some(end) = rest.find('}') {
        let start = rest[..end].rfind('{').unwrap_or(0);
        let inner: Vec<&str> = rest[start..=end].split('\n').map(str::trim).collect();
        text.push_str(&rest[..start]);
        text.push_str(&if inner[0] == "{" {
            inner.join(" ")
        } else {
            rest[start..=end].to_owned()
        });
        rest = &rest[end + 1..];
    }
    text + rest
}

/// Compares with a file in `snapshots`, named without the module.
fn check(name: &str, text: &str) {
    let mut settings = Settings::clone_current();
    settings.set_prepend_module_to_snapshot(false);
    settings.set_omit_expression(true);
    settings.bind(|| assert_snapshot!(name, text));
}

fn demo(name: &str) -> String {
    demo_data().join(name).to_str().unwrap().to_owned()
}

/// The demo's plantings as `command` prints them, one of them picked.
fn one(arguments: &[&str], planting: &str, walked_on: Option<&str>) -> Value {
    let ran = Folder::new().run(arguments);
    assert_eq!(ran.code, 0, "{}", ran.err);
    ran.lines()
        .into_iter()
        .find(|line| {
            line["planting"] == planting && walked_on.is_none_or(|day| line["walked_on"] == day)
        })
        .unwrap()
}

#[test]
fn roll_up() {
    let line = one(
        &["roll-up", &demo("heads.csv")],
        "Creek 3",
        Some("2026-09-13"),
    );
    check("roll_up", &readable(&line));
}

#[test]
fn outlook() {
    let [heads, weather, plantings] = ["heads.csv", "weather.csv", "plantings.csv"].map(demo);
    let line = one(
        &[
            "outlook",
            &heads,
            "--weather",
            &weather,
            "--plantings",
            &plantings,
            "--as-of",
            "2026-09-16",
        ],
        "Creek 3",
        None,
    );
    check("outlook", &readable(&line));
}

#[test]
fn grain() {
    let ran = Folder::new().run(&[
        "grain",
        "--moisture",
        "18",
        "--price-per-cwt",
        "7.5",
        "--fuel",
        "propane",
        "--fuel-price",
        "2",
        "--test-weight",
        "56",
    ]);
    check("grain", &readable(&ran.lines()[0]));
}

#[test]
fn air() {
    let ran = Folder::new().run(&["air", "--temp-c", "25", "--humidity", "60"]);
    check("air", &readable(&ran.lines()[0]));
}

#[test]
fn help() {
    let ran = Folder::new().run(&["--help"]);
    check("help", &ran.out);
}

#[test]
fn trouble() {
    let folder = Folder::new();
    folder.file(
        "heads.csv",
        "planting,walked_on,stop,reading,share\nNorth 1,2026-08-01,1,ripe,\n",
    );
    let ran = folder.run(&["roll-up", "heads.csv"]);
    check(
        "trouble",
        &format!("exit {}\n{}{}", ran.code, ran.out, ran.err),
    );
}
