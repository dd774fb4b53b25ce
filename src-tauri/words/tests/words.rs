//! What Rust says.

#![allow(clippy::unwrap_used)]

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
