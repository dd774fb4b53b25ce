//! The README's commands run as printed, and print what it shows.

use std::process::Command;

use headwalk_tests::program::headwalk;
use headwalk_tests::repository;
use serde_json::Value;

/// What a clone calls the program by (`.cargo/config.toml`).
const CALL: &str = "cargo headwalk ";

/// Numbers are printed with two decimals, or three.
const ROUNDED: f64 = 0.005;

fn readme() -> String {
    std::fs::read_to_string(repository().join("README.md")).unwrap()
}

/// Fenced blocks: what they are in, and their text.
fn blocks(text: &str) -> Vec<(&str, &str)> {
    text.split("\n```")
        .skip(1)
        .step_by(2)
        .map(|block| block.split_once('\n').unwrap())
        .collect()
}

fn run(arguments: &[&str]) -> String {
    let output = Command::new(headwalk().unwrap())
        .current_dir(repository())
        .args(arguments)
        .output()
        .unwrap();
    assert!(output.status.success(), "{arguments:?}: {output:?}");
    String::from_utf8(output.stdout).unwrap()
}

/// Whether all that is shown is printed; where not, what.
fn check_shown(shown: &Value, printed: &Value, at: &str) {
    match (shown, printed) {
        (Value::Object(fields), _) => {
            for (key, field) in fields {
                check_shown(field, &printed[key], &format!("{at}.{key}"));
            }
        }
        (Value::Number(shown), Value::Number(number)) => {
            let off = shown.as_f64().unwrap() - number.as_f64().unwrap();
            assert!(
                off.abs() <= ROUNDED,
                "{at}: {shown} is shown, {number} printed"
            );
        }
        _ => assert_eq!(shown, printed, "{at}"),
    }
}

#[test]
fn every_example_prints_what_is_shown_below_it() {
    let text = readme();
    let mut examples = 0;
    for pair in blocks(&text).windows(2) {
        let [("sh", command), ("json", shown)] = pair else {
            continue;
        };
        let command = command.replace("\\\n", " ");
        let arguments: Vec<&str> = command
            .trim()
            .strip_prefix(CALL)
            .unwrap()
            .split_whitespace()
            .collect();
        let shown: Value = serde_json::from_str(shown).unwrap();
        let same = |line: &Value| {
            ["planting", "walked_on", "as_of"]
                .iter()
                .all(|key| shown.get(key).is_none() || shown[key] == line[key])
        };
        let printed = run(&arguments)
            .lines()
            .map(|line| serde_json::from_str(line).unwrap())
            .find(same)
            .unwrap();
        check_shown(&shown, &printed, arguments[0]);
        examples += 1;
    }
    assert_eq!(examples, 2);
}

#[test]
fn every_command_that_is_named_exists() {
    let text = readme();
    let mut named = 0;
    for call in text
        .split('`')
        .filter_map(|code| code.strip_prefix("headwalk "))
    {
        run(&[call, "--help"]);
        named += 1;
    }
    assert!(named > 4);
    let aliases = std::fs::read_to_string(repository().join(".cargo/config.toml")).unwrap();
    assert!(aliases.contains("\nheadwalk = \"run "));
}
