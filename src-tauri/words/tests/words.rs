//! What Rust says.

#![allow(clippy::unwrap_used)]

use chrono::NaiveDate;
use words::{Language, Words};

#[test]
fn a_message_is_said_in_both_languages() {
    let english = Words::new(Language::of_tag("en-US"));
    let spanish = Words::new(Language::of_tag("es-AR"));
    assert_eq!(english.common().stage("milk").unwrap(), "milk");
    assert_eq!(spanish.common().stage("milk").unwrap(), "grano lechoso");
    assert_eq!(english.common().stage("straw"), None);
    assert_eq!(english.common().less("rain"), "Less: rain");
}

#[test]
fn numbers_are_written_as_the_screens_write_them() {
    let words = Words::new(Language::English);
    assert_eq!(words.common().percent(1234.4), "1,234 %");
    assert_eq!(words.common().percent(-0.2), "0 %");
}

#[test]
fn a_chance_that_is_not_certain_is_never_called_so() {
    let words = Words::new(Language::English);
    let spanish = Words::new(Language::Spanish);
    assert_eq!(words.chance(0.004), "under 1 %");
    assert_eq!(words.chance(0.996), "over 99 %");
    assert_eq!(spanish.chance(0.996), "más de 99 %");
    assert_eq!(words.chance(0.5), "50 %");
    assert_eq!(words.chance(1.0), "100 %");
    assert_eq!(
        words.stages().standing_sure("milk", 0.97),
        "Milk, 97 % sure."
    );
}

#[test]
fn dates_and_spans_are_written_as_the_screens_write_them() {
    let on = |text: &str| text.parse::<NaiveDate>().unwrap();
    let span = |words: &Words, from, to| {
        let today = on("2026-09-01");
        words
            .outlook()
            .event_between("milk", on(from), on(to), today)
    };
    let english = Words::new(Language::English);
    let spanish = Words::new(Language::Spanish);
    for (from, to, said, dicho) in [
        ("2026-09-12", "2026-09-19", "Sep 12 – 19", "12–19 de sept"),
        (
            "2026-08-30",
            "2026-09-04",
            "Aug 30 – Sep 4",
            "30 de ago – 4 de sept",
        ),
        ("2026-09-12", "2026-09-12", "Sep 12", "12 sept"),
        (
            "2026-12-30",
            "2027-01-03",
            "Dec 30, 2026 – Jan 3, 2027",
            "30 de dic de 2026 – 3 de ene de 2027",
        ),
        (
            "2027-01-03",
            "2027-01-09",
            "Jan 3 – 9, 2027",
            "3–9 de ene de 2027",
        ),
    ] {
        assert_eq!(span(&english, from, to), format!("Milk: {said}"));
        assert_eq!(span(&spanish, from, to), format!("Milk: {dicho}"));
    }
    let weather = english.outlook().weather_ends_early(on("2026-09-12"));
    assert!(weather.contains("Sep 12, 2026."), "{weather}");
}
