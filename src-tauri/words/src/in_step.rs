//! What keeps the languages in step.

use std::collections::BTreeSet;

use crate::catalog::Domain;
use crate::signature::Message;

/// Functions that messages may call; the screens know all of them.
const FUNCTIONS: [&str; 12] = [
    "AGO", "CAPITAL", "CHANCE", "DATE", "DOLLARS", "LOWER", "MOMENT", "NUMBER", "ORDINAL",
    "PERCENT", "RECENT", "SPAN",
];

/// Everything in which the source and another language differ, a line each.
///
/// Both must have the same domains, messages, keys and arguments, in the same order, and
/// the texts must use each argument that the source declares and no other.
#[must_use]
pub fn differences(source: &[Domain], other: &[Domain]) -> Vec<String> {
    let mut found = Vec::new();
    let names = |domains: &[Domain]| -> Vec<String> {
        domains.iter().map(|domain| domain.name.clone()).collect()
    };
    if names(source) != names(other) {
        found.push(format!(
            "the languages have other domains: {:?} and {:?}",
            names(source),
            names(other)
        ));
        return found;
    }
    for (mine, theirs) in source.iter().zip(other) {
        compare(mine, theirs, &mut found);
    }
    found
}

fn compare(source: &Domain, other: &Domain, found: &mut Vec<String>) {
    let domain = &source.name;
    let ids = |of: &Domain| -> Vec<String> {
        let messages = of.signature.messages.iter();
        messages.map(|message| message.id.clone()).collect()
    };
    let (mine, theirs) = (ids(source), ids(other));
    if mine != theirs {
        let lacking = |of: &[String], from: &[String]| -> Vec<String> {
            of.iter().filter(|id| !from.contains(id)).cloned().collect()
        };
        found.push(format!(
            "{domain}: the messages differ; lacking in translation: {:?}; lacking in the source: {:?}; \
             else their order differs",
            lacking(&mine, &theirs),
            lacking(&theirs, &mine)
        ));
        return;
    }
    for (mine, theirs) in source
        .signature
        .messages
        .iter()
        .zip(&other.signature.messages)
    {
        compare_message(domain, mine, theirs, found);
    }
}

fn compare_message(domain: &str, mine: &Message, theirs: &Message, found: &mut Vec<String>) {
    let mut tell = |what: String| found.push(format!("{domain}: `{}`: {what}", mine.id));
    if mine.keys != theirs.keys {
        tell(format!("keys {:?} and {:?}", mine.keys, theirs.keys));
    }
    let declared: BTreeSet<String> = mine.declared.iter().map(|each| each.name.clone()).collect();
    for (language, message) in [("the source", mine), ("the translation", theirs)] {
        if message.used != declared {
            tell(format!(
                "{language} uses {:?}, declared are {declared:?}",
                message.used
            ));
        }
        for function in &message.functions {
            if !FUNCTIONS.contains(&function.as_str()) {
                tell(format!("{language} calls {function}, which nobody knows"));
            }
        }
    }
    if !theirs.declared.is_empty() {
        tell("arguments are declared in the source alone".to_owned());
    }
}
