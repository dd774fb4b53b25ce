//! Messages of the catalogue that Rust says, a type for each domain.
//!
//! Written from the catalogue: HEADWALK_WRITE_WORDS=1 cargo test -p words

use crate::words::{Value, texts};
use crate::{Language, Words};

const TEXTS: [(&str, [&str; 2]); 1] = [
    texts!("common"),
];

impl Words {
    /// Words in a language.
    #[must_use]
    pub fn new(language: Language) -> Self {
        Self::of(language, &TEXTS)
    }
}

/// Messages of `common.ftl`.
pub struct Common<'a>(&'a Words);

impl Words {
    /// Messages of the domain `common`.
    #[must_use]
    pub fn common(&self) -> Common<'_> {
        Common(self)
    }
}

impl Common<'_> {
    /// Text of the message `stage` for a key, where it has that key.
    #[must_use]
    pub fn stage(&self, key: &str) -> Option<String> {
        self.0.of_table("common", "stage", key)
    }

    /// Text of the message `mark` for a key, where it has that key.
    #[must_use]
    pub fn mark(&self, key: &str) -> Option<String> {
        self.0.of_table("common", "mark", key)
    }

    /// Text of the message `reading` for a key, where it has that key.
    #[must_use]
    pub fn reading(&self, key: &str) -> Option<String> {
        self.0.of_table("common", "reading", key)
    }

    /// Text of the message `flag` for a key, where it has that key.
    #[must_use]
    pub fn flag(&self, key: &str) -> Option<String> {
        self.0.of_table("common", "flag", key)
    }

    /// Text of the message `problem` for a key, where it has that key.
    #[must_use]
    pub fn problem(&self, key: &str) -> Option<String> {
        self.0.of_table("common", "problem", key)
    }

    /// Text of the message `back`.
    #[must_use]
    pub fn back(&self) -> String {
        self.0.text("common", "back", &[])
    }

    /// Text of the message `done`.
    #[must_use]
    pub fn done(&self) -> String {
        self.0.text("common", "done", &[])
    }

    /// Text of the message `undo`.
    #[must_use]
    pub fn undo(&self) -> String {
        self.0.text("common", "undo", &[])
    }

    /// Text of the message `cancel`.
    #[must_use]
    pub fn cancel(&self) -> String {
        self.0.text("common", "cancel", &[])
    }

    /// Text of the message `try-again`.
    #[must_use]
    pub fn try_again(&self) -> String {
        self.0.text("common", "try-again", &[])
    }

    /// Text of the message `close`.
    #[must_use]
    pub fn close(&self) -> String {
        self.0.text("common", "close", &[])
    }

    /// Text of the message `loading`.
    #[must_use]
    pub fn loading(&self) -> String {
        self.0.text("common", "loading", &[])
    }

    /// Text of the message `nowhere`.
    #[must_use]
    pub fn nowhere(&self) -> String {
        self.0.text("common", "nowhere", &[])
    }

    /// Text of the message `to-plantings`.
    #[must_use]
    pub fn to_plantings(&self) -> String {
        self.0.text("common", "to-plantings", &[])
    }

    /// Text of the message `main-tabs`.
    #[must_use]
    pub fn main_tabs(&self) -> String {
        self.0.text("common", "main-tabs", &[])
    }

    /// Text of the message `tabs` for a key, where it has that key.
    #[must_use]
    pub fn tabs(&self, key: &str) -> Option<String> {
        self.0.of_table("common", "tabs", key)
    }

    /// Text of the message `assumption`.
    #[must_use]
    pub fn assumption(&self) -> String {
        self.0.text("common", "assumption", &[])
    }

    /// Text of the message `change-assumption`.
    #[must_use]
    pub fn change_assumption(&self, what: &str, value: &str) -> String {
        self.0.text("common", "change-assumption", &[("what", Value::from(what)), ("value", Value::from(value))])
    }

    /// Text of the message `less`.
    #[must_use]
    pub fn less(&self, what: &str) -> String {
        self.0.text("common", "less", &[("what", Value::from(what))])
    }

    /// Text of the message `more`.
    #[must_use]
    pub fn more(&self, what: &str) -> String {
        self.0.text("common", "more", &[("what", Value::from(what))])
    }

    /// Text of the message `percent`.
    #[must_use]
    pub fn percent(&self, value: f64) -> String {
        self.0.text("common", "percent", &[("value", Value::from(value))])
    }

    /// Text of the message `under-one`.
    #[must_use]
    pub fn under_one(&self) -> String {
        self.0.text("common", "under-one", &[])
    }

    /// Text of the message `over-ninety-nine`.
    #[must_use]
    pub fn over_ninety_nine(&self) -> String {
        self.0.text("common", "over-ninety-nine", &[])
    }
}
