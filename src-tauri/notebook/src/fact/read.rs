//! Reading a body: what counts of it, and what is set aside.

use std::borrow::Cow;

use rusqlite::types::{FromSql, FromSqlError, FromSqlResult, ToSql, ToSqlOutput, ValueRef};
use serde::{Deserialize, Serialize};
use serde_json::value::RawValue;
use uuid::Uuid;

use super::bounds::{self, MOST_FACTS};
use super::{Body, ChangeName, Fact};

/// Why a change, or a fact of one, does not count.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum Reason {
    /// It cannot be read.
    Unreadable,
    /// A value breaks a bound.
    OutOfBounds,
    /// Its stamp lies too far ahead; it counts once the clock comes near.
    Waiting,
    /// Its stamp lay too far ahead, and it was told again under another.
    ToldAgain,
}

impl Reason {
    const ALL: [Reason; 4] = [
        Reason::Unreadable,
        Reason::OutOfBounds,
        Reason::Waiting,
        Reason::ToldAgain,
    ];

    /// The word under which it is stored.
    pub fn word(self) -> &'static str {
        match self {
            Reason::Unreadable => "unreadable",
            Reason::OutOfBounds => "out_of_bounds",
            Reason::Waiting => "waiting",
            Reason::ToldAgain => "told_again",
        }
    }
}

impl ToSql for Reason {
    fn to_sql(&self) -> rusqlite::Result<ToSqlOutput<'_>> {
        Ok(self.word().into())
    }
}

impl FromSql for Reason {
    fn column_result(value: ValueRef<'_>) -> FromSqlResult<Reason> {
        let word = value.as_str()?;
        Reason::ALL
            .into_iter()
            .find(|reason| reason.word() == word)
            .ok_or(FromSqlError::InvalidType)
    }
}

/// Place of the whole change among its facts.
pub(crate) const WHOLE_CHANGE: i64 = -1;

/// A fact that does not count.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct SetAside {
    /// Its place in the body, from 0, or [`WHOLE_CHANGE`].
    pub fact: i64,
    pub reason: Reason,
    /// The value that breaks a bound; empty for other reasons.
    pub what: &'static str,
}

impl SetAside {
    /// A whole change that cannot be read.
    pub(crate) const UNREADABLE: SetAside = SetAside {
        fact: WHOLE_CHANGE,
        reason: Reason::Unreadable,
        what: "",
    };
}

/// The kinds of facts that this version knows.
const KINDS: [&str; 14] = [
    "set",
    "walk",
    "stop",
    "heads",
    "correct",
    "remove",
    "photo",
    "moved",
    "weather",
    "station",
    "observed",
    "correct_observed",
    "remove_observed",
    "terms",
];

/// The rows that this version knows.
const ROWS: [&str; 9] = [
    "farm",
    "field",
    "hybrid",
    "planting",
    "walk",
    "stop",
    "photo",
    "heat_set",
    "whole_notebook",
];

/// Reads a body, and says what of it is set aside.
pub(crate) fn read(json: &str) -> (Body, Vec<SetAside>) {
    #[derive(Deserialize)]
    struct Raw<'a> {
        #[serde(borrow, default)]
        facts: Vec<&'a RawValue>,
        #[serde(default)]
        undoes: Vec<u64>,
        #[serde(default)]
        request: Option<Uuid>,
        #[serde(default)]
        again: Option<ChangeName>,
    }
    // A list would be read as the values of a body's fields, one after the other.
    let body = json.trim_start().starts_with('{').then_some(json);
    let Some(raw) = body.and_then(|json| serde_json::from_str::<Raw>(json).ok()) else {
        return (Body::of(Vec::new()), vec![SetAside::UNREADABLE]);
    };
    let mut body = Body {
        facts: Vec::new(),
        undoes: raw.undoes,
        request: raw.request,
        again: raw.again.filter(bounds::is_a_number),
    };
    if raw.facts.len() > MOST_FACTS {
        let too_many = SetAside {
            fact: WHOLE_CHANGE,
            reason: Reason::OutOfBounds,
            what: "facts",
        };
        return (body, vec![too_many]);
    }
    let mut set_aside = Vec::new();
    body.facts.reserve(raw.facts.len());
    for (place, fact) in (0..).zip(raw.facts) {
        let mut aside = |reason, what| {
            set_aside.push(SetAside {
                fact: place,
                reason,
                what,
            });
        };
        match serde_json::from_str::<Fact>(fact.get()) {
            Ok(fact) => match bounds::check(&fact) {
                Ok(()) => body.facts.push(fact),
                Err(what) => aside(Reason::OutOfBounds, what),
            },
            Err(_) if is_of_a_later_version(fact.get()) => {}
            Err(_) => aside(Reason::Unreadable, ""),
        }
    }
    (body, set_aside)
}

/// Whether a fact has a kind, or a row, that this version does not know.
fn is_of_a_later_version(fact: &str) -> bool {
    #[derive(Deserialize)]
    struct Kind<'a> {
        #[serde(borrow)]
        fact: Cow<'a, str>,
        #[serde(borrow, default)]
        row: Option<Cow<'a, str>>,
    }
    serde_json::from_str::<Kind>(fact).is_ok_and(|kind| {
        !KINDS.contains(&&*kind.fact)
            || (kind.fact == "set" && kind.row.is_some_and(|row| !ROWS.contains(&&*row)))
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    const ID: &str = "00000000-0000-0000-0000-000000000001";

    fn asides(facts: &str) -> Vec<(i64, Reason, &'static str)> {
        let (_, set_aside) = read(&format!("{{\"facts\":[{facts}]}}"));
        set_aside
            .into_iter()
            .map(|aside| (aside.fact, aside.reason, aside.what))
            .collect()
    }

    #[test]
    fn a_fact_that_cannot_count_is_set_aside_and_the_others_count() {
        let facts = format!(
            "{{\"fact\":\"set\",\"row\":\"planting\",\"id\":\"{ID}\",\"to\":{{\"name\":null}}}},
             {{\"fact\":\"set\",\"row\":\"barn\",\"id\":\"{ID}\",\"to\":{{\"name\":1}}}},
             {{\"fact\":\"moved\",\"device\":\"{ID}\",\"first\":18446744073709551615,\"to\":\"{ID}\"}},
             {{\"fact\":\"set\",\"row\":\"planting\",\"id\":\"{ID}\",\"to\":{{\"name\":\"P\",\"later\":9}}}},
             7"
        );
        assert_eq!(
            asides(&facts),
            [
                (0, Reason::OutOfBounds, "name"),
                (2, Reason::OutOfBounds, "first"),
                (4, Reason::Unreadable, "")
            ]
        );
        let (body, _) = read(&format!("{{\"facts\":[{facts}]}}"));
        assert_eq!(body.facts.len(), 1);
    }

    #[test]
    fn words_and_reasons_are_one_to_one() {
        for reason in Reason::ALL {
            assert_eq!(
                serde_json::to_string(&reason).unwrap(),
                format!("\"{}\"", reason.word())
            );
        }
    }

    #[test]
    fn no_json_is_set_aside_whole() {
        assert_eq!(read("\u{7f}").1, [SetAside::UNREADABLE]);
        assert_eq!(read("[]").1, [SetAside::UNREADABLE]);
    }
}
