//! Texts at run time.

use std::collections::BTreeMap;
use std::fmt;

use fluent_bundle::types::{FluentNumber, FluentNumberOptions};
use fluent_bundle::{FluentArgs, FluentResource, FluentValue, concurrent::FluentBundle};

use crate::Language;

/// Both languages' text of a domain's file, the source first.
macro_rules! texts {
    ($domain:literal) => {
        (
            $domain,
            [
                include_str!(concat!("../catalog/en/", $domain, ".ftl")),
                include_str!(concat!("../catalog/es/", $domain, ".ftl")),
            ],
        )
    };
}
pub(crate) use texts;

/// Words of one language, for the domains that Rust says.
pub struct Words {
    language: Language,
    domains: BTreeMap<&'static str, FluentBundle<FluentResource>>,
}

impl Words {
    /// Words in a language, from the texts of each domain.
    pub(crate) fn of(language: Language, texts: &[(&'static str, [&'static str; 2])]) -> Self {
        let domains = texts
            .iter()
            .map(|(domain, texts)| (*domain, bundle(language, texts[language as usize])))
            .collect();
        Self { language, domains }
    }

    /// Language that these words are in.
    #[must_use]
    pub const fn language(&self) -> Language {
        self.language
    }

    /// Text of a message; its name in pointed brackets where the catalogue has none,
    /// which a test of this crate rules out.
    pub(crate) fn text(
        &self,
        domain: &str,
        id: &str,
        values: &[(&'static str, Value<'_>)],
    ) -> String {
        let found = self.domains.get(domain).and_then(|bundle| {
            let pattern = bundle.get_message(id)?.value()?;
            let arguments: FluentArgs<'_> = values
                .iter()
                .map(|(name, value)| (*name, value.0.clone()))
                .collect();
            let text = bundle.format_pattern(pattern, Some(&arguments), &mut Vec::new());
            Some(text.into_owned())
        });
        found.unwrap_or_else(|| format!("<{domain}: {id}>"))
    }

    /// Text of a key of a table.
    pub(crate) fn of_table(&self, domain: &str, id: &str, key: &str) -> Option<String> {
        let bundle = self.domains.get(domain)?;
        let message = bundle.get_message(id)?;
        let attribute = message.get_attribute(key)?;
        let text = bundle.format_pattern(attribute.value(), None, &mut Vec::new());
        Some(text.into_owned())
    }
}

impl fmt::Debug for Words {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.debug_struct("Words")
            .field("language", &self.language)
            .finish_non_exhaustive()
    }
}

fn bundle(language: Language, text: &str) -> FluentBundle<FluentResource> {
    let mut bundle = FluentBundle::new_concurrent(vec![language.locale()]);
    // The marks around what is put in show as boxes in a PDF and a terminal, and neither
    // language is written from right to left.
    bundle.set_use_isolating(false);
    bundle.set_formatter(Some(|value, _| match value {
        FluentValue::Number(number) => Some(written(number)),
        _ => None,
    }));
    // Both can only fail where a test of this crate has failed.
    let _ = bundle.add_function("NUMBER", number);
    let resource =
        FluentResource::try_new(text.to_owned()).unwrap_or_else(|(resource, _)| resource);
    let _ = bundle.add_resource(resource);
    bundle
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

/// A number as the screens write it: rounded, in groups of three digits, without zeros
/// at its end.
fn written(number: &FluentNumber) -> String {
    let digits = number.options.maximum_fraction_digits.unwrap_or(0);
    let mut text = format!("{:.digits$}", number.value.abs());
    if text.contains('.') {
        text.truncate(text.trim_end_matches('0').trim_end_matches('.').len());
    }
    let whole = text.find('.').unwrap_or(text.len());
    for at in (1..whole).rev().filter(|at| (whole - at) % 3 == 0) {
        text.insert(at, ',');
    }
    if number.value < 0.0 && text != "0" {
        text.insert(0, '-');
    }
    text
}

/// Value of an argument.
pub(crate) struct Value<'a>(FluentValue<'a>);

impl<'a> From<&'a str> for Value<'a> {
    fn from(text: &'a str) -> Self {
        Self(FluentValue::from(text))
    }
}

impl From<f64> for Value<'_> {
    fn from(value: f64) -> Self {
        let options = FluentNumberOptions {
            maximum_fraction_digits: Some(0),
            ..FluentNumberOptions::default()
        };
        Self(FluentValue::Number(FluentNumber::new(value, options)))
    }
}

impl From<bool> for Value<'_> {
    fn from(value: bool) -> Self {
        Self(FluentValue::from(if value { "true" } else { "false" }))
    }
}
