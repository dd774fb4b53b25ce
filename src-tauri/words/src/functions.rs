//! Functions that messages call, as Rust knows them.

use std::sync::Arc;

use chrono::NaiveDate;
use fluent_bundle::types::{FluentNumber, FluentNumberOptions};
use fluent_bundle::{FluentArgs, FluentResource, FluentValue, concurrent::FluentBundle};

use crate::{Language, dates};

/// Functions that Rust knows; a message that calls another is said by the screens alone.
pub(crate) const FUNCTIONS: [&str; 7] = [
    "CAPITAL", "CHANCE", "DATE", "LOWER", "NUMBER", "PERCENT", "SPAN",
];

/// Gives a bundle the functions of a language; chances are said with the messages of
/// the domain `common`.
pub(crate) fn add_functions(
    bundle: &mut FluentBundle<FluentResource>,
    language: Language,
    common: &Arc<FluentBundle<FluentResource>>,
) {
    // Each can only fail where a name stands twice.
    let _ = bundle.add_function("NUMBER", number);
    let _ = bundle.add_function("CAPITAL", |values, _| {
        text(values).map_or(FluentValue::Error, |text| capital(text).into())
    });
    let _ = bundle.add_function("LOWER", |values, _| {
        text(values).map_or(FluentValue::Error, |text| lower(text).into())
    });
    let _ = bundle.add_function("PERCENT", |values, _| {
        value(values).map_or(FluentValue::Error, |share| whole(share * 100.0))
    });
    let common = Arc::clone(common);
    let _ = bundle.add_function("CHANCE", move |values, _| {
        value(values).map_or(FluentValue::Error, |share| chance(&common, share).into())
    });
    let _ = bundle.add_function("DATE", move |values, _| {
        civil(values, 0).map_or(FluentValue::Error, |on| {
            dates::date(language, on, civil(values, 1)).into()
        })
    });
    let _ = bundle.add_function("SPAN", move |values, _| {
        match (civil(values, 0), civil(values, 1)) {
            (Some(from), Some(to)) => dates::span(language, from, to, civil(values, 2)).into(),
            _ => FluentValue::Error,
        }
    });
}

/// A chance (0-1) in percent; one that is not certain is never called so.
pub(crate) fn chance(common: &FluentBundle<FluentResource>, share: f64) -> String {
    let (id, percent) = if share > 0.0 && share < 0.01 {
        ("under-one", 0.0)
    } else if share > 0.99 && share < 1.0 {
        ("over-ninety-nine", 0.0)
    } else {
        ("percent", (share * 100.0).round())
    };
    let mut arguments = FluentArgs::new();
    arguments.set("value", whole(percent));
    let said = common.get_message(id).and_then(|message| {
        let pattern = message.value()?;
        Some(
            common
                .format_pattern(pattern, Some(&arguments), &mut Vec::new())
                .into_owned(),
        )
    });
    said.unwrap_or_default()
}

/// A text with a capital at its beginning.
pub(crate) fn capital(text: &str) -> String {
    first(text, |letter| letter.to_uppercase().collect())
}

/// A text without a capital at its beginning.
fn lower(text: &str) -> String {
    first(text, |letter| letter.to_lowercase().collect())
}

fn first(text: &str, change: impl Fn(char) -> String) -> String {
    let mut letters = text.chars();
    letters
        .next()
        .map_or_else(String::new, |letter| change(letter) + letters.as_str())
}

/// A number that is written whole.
pub(crate) fn whole<'a>(value: f64) -> FluentValue<'a> {
    let options = FluentNumberOptions {
        maximum_fraction_digits: Some(0),
        ..FluentNumberOptions::default()
    };
    FluentValue::Number(FluentNumber::new(value, options))
}

/// `NUMBER($value, maximumFractionDigits: 1)`.
fn number<'a>(positional: &[FluentValue<'a>], named: &FluentArgs<'_>) -> FluentValue<'a> {
    let Some(FluentValue::Number(number)) = positional.first() else {
        return FluentValue::Error;
    };
    let mut number = number.clone();
    number.options.merge(named);
    FluentValue::Number(number)
}

fn text<'v>(values: &'v [FluentValue<'_>]) -> Option<&'v str> {
    match values.first() {
        Some(FluentValue::String(text)) => Some(text),
        _ => None,
    }
}

fn value(values: &[FluentValue<'_>]) -> Option<f64> {
    match values.first() {
        Some(FluentValue::Number(number)) => Some(number.value),
        _ => None,
    }
}

fn civil(values: &[FluentValue<'_>], at: usize) -> Option<NaiveDate> {
    match values.get(at) {
        Some(FluentValue::String(iso)) => iso.parse().ok(),
        _ => None,
    }
}
