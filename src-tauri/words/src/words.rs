//! Texts at run time.

use std::collections::BTreeMap;
use std::fmt;
use std::sync::{Arc, LazyLock};

use chrono::NaiveDate;
use fluent_bundle::types::FluentNumber;
use fluent_bundle::{FluentArgs, FluentResource, FluentValue, concurrent::FluentBundle};
use serde::Serialize;

use crate::Language;
use crate::dates;
use crate::functions::{add_functions, capital, chance, whole};

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
    /// Messages of `common`, for the words of chances.
    common: Arc<FluentBundle<FluentResource>>,
}

impl Words {
    /// Words in a language, from the texts of each domain.
    pub(crate) fn of(language: Language, texts: &[(&'static str, [&'static str; 2])]) -> Self {
        let common = texts.iter().find(|(domain, _)| *domain == "common");
        let common = common.map_or("", |(_, texts)| texts[language as usize]);
        let common = Arc::new(bundle(language, common, None));
        let domains = texts
            .iter()
            .map(|(domain, texts)| {
                let text = texts[language as usize];
                (*domain, bundle(language, text, Some(&common)))
            })
            .collect();
        Self {
            language,
            domains,
            common,
        }
    }

    /// Language that these words are in.
    #[must_use]
    pub const fn language(&self) -> Language {
        self.language
    }

    /// English words, made once.
    #[must_use]
    pub fn english() -> &'static Self {
        static ENGLISH: LazyLock<Words> = LazyLock::new(|| Words::new(Language::English));
        &ENGLISH
    }

    /// Text of the message that a value is: its field `code` is the message's name, in
    /// snake case, and the other fields are the arguments.
    #[must_use]
    pub fn of_code(&self, domain: &str, value: &impl Serialize) -> String {
        let value = serde_json::to_value(value).unwrap_or_default();
        let code = value["code"].as_str().unwrap_or_default().replace('_', "-");
        let fields = value.as_object().into_iter().flatten();
        let arguments: Vec<(&str, Value<'_>)> = fields
            .filter_map(|(name, value)| {
                let value = match value {
                    serde_json::Value::String(text) => Value::from(text.as_str()),
                    value => Value::from(value.as_f64()?),
                };
                Some((name.as_str(), value))
            })
            .collect();
        self.text(domain, &code, &arguments)
    }

    /// A chance (0-1) in percent; one that is not certain is never called so.
    #[must_use]
    pub fn chance(&self, share: f64) -> String {
        chance(&self.common, share)
    }

    /// A date with its year.
    #[must_use]
    pub fn date(&self, on: NaiveDate) -> String {
        dates::date(self.language, on, None)
    }

    /// A text with a capital at its beginning.
    #[must_use]
    pub fn capital(&self, text: &str) -> String {
        capital(text)
    }

    /// Text of a message; its name in pointed brackets where the catalogue has none,
    /// which a test of this crate rules out.
    pub(crate) fn text(&self, domain: &str, id: &str, values: &[(&str, Value<'_>)]) -> String {
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

fn bundle(
    language: Language,
    text: &str,
    common: Option<&Arc<FluentBundle<FluentResource>>>,
) -> FluentBundle<FluentResource> {
    let mut bundle = FluentBundle::new_concurrent(vec![language.locale()]);
    // The marks around what is put in show as boxes in a PDF and a terminal, and neither
    // language is written from right to left.
    bundle.set_use_isolating(false);
    bundle.set_formatter(Some(|value, _| match value {
        FluentValue::Number(number) => Some(written(number)),
        _ => None,
    }));
    if let Some(common) = common {
        add_functions(&mut bundle, language, common);
    }
    let resource =
        FluentResource::try_new(text.to_owned()).unwrap_or_else(|(resource, _)| resource);
    // It can only fail where a test of this crate has failed.
    let _ = bundle.add_resource(resource);
    bundle
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
        Self(whole(value))
    }
}

impl From<NaiveDate> for Value<'_> {
    fn from(on: NaiveDate) -> Self {
        Self(FluentValue::from(on.to_string()))
    }
}

impl From<bool> for Value<'_> {
    fn from(value: bool) -> Self {
        Self(FluentValue::from(if value { "true" } else { "false" }))
    }
}
