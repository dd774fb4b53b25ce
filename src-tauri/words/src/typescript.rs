//! Declarations for the screens.

use std::collections::BTreeMap;
use std::fmt::Write as _;

use crate::catalog::Domain;
use crate::rust::SPOKEN_BY_RUST_ALONE;
use crate::signature::{Kind, Message};

/// TypeScript files, by name, that declare what the screens may say of each domain, and the
/// names of the arguments in the order of a call.
#[must_use]
pub fn typescript(domains: &[Domain]) -> BTreeMap<String, String> {
    let domains: Vec<&Domain> = domains
        .iter()
        .filter(|domain| !SPOKEN_BY_RUST_ALONE.contains(&domain.name.as_str()))
        .collect();
    let mut files: BTreeMap<String, String> = domains
        .iter()
        .map(|domain| (format!("{}.ts", domain.name), of_domain(domain)))
        .collect();
    files.insert("index.ts".to_owned(), of_all(&domains));
    files
}

const WRITTEN: &str =
    "// Written from the catalogue of words: HEADWALK_WRITE_WORDS=1 cargo test -p words\n\n";

fn of_domain(domain: &Domain) -> String {
    let messages = &domain.signature.messages;
    let mut text = String::from(WRITTEN);
    let _ = writeln!(text, "export interface {} {{", interface(&domain.name));
    for message in messages {
        declare(message, &mut text);
    }
    text.push_str("}\n\n");
    let _ = writeln!(text, "export const {} = {{", property(&domain.name));
    for message in messages
        .iter()
        .filter(|message| !message.declared.is_empty())
    {
        let names: Vec<String> = message
            .declared
            .iter()
            .map(|each| format!("'{}'", each.name))
            .collect();
        let _ = writeln!(text, "  {}: [{}],", property(&message.id), names.join(", "));
    }
    text.push_str("};\n");
    text
}

fn of_all(domains: &[&Domain]) -> String {
    let mut text = String::from(WRITTEN);
    for Domain { name, .. } in domains {
        let _ = writeln!(
            text,
            "import {{ {}, type {} }} from './{name}';",
            property(name),
            interface(name)
        );
    }
    text.push_str("\n/** Messages of every domain. */\nexport interface Words {\n");
    for Domain { name, .. } in domains {
        let _ = writeln!(text, "  readonly {}: {};", property(name), interface(name));
    }
    text.push_str(
        "}\n\n/** Names of the arguments of each message that takes some. */\n\
         export const ARGUMENTS: Readonly<Record<keyof Words, Readonly<Record<string, readonly string[]>>>> = {\n",
    );
    for Domain { name, .. } in domains {
        let _ = writeln!(text, "  {},", property(name));
    }
    text.push_str("};\n");
    text
}

/// Name of the type of a domain's messages: `SetAsideWords` for `set-aside`.
fn interface(domain: &str) -> String {
    let name = property(domain);
    let mut letters = name.chars();
    let first: String = letters
        .next()
        .into_iter()
        .flat_map(char::to_uppercase)
        .collect();
    format!("{first}{}Words", letters.as_str())
}

fn declare(message: &Message, text: &mut String) {
    let name = property(&message.id);
    if !message.keys.is_empty() {
        let _ = writeln!(text, "  readonly {name}: {{");
        for key in &message.keys {
            let _ = writeln!(text, "    readonly {key}: string;");
        }
        text.push_str("  };\n");
        return;
    }
    if message.declared.is_empty() {
        let _ = writeln!(text, "  readonly {name}: string;");
        return;
    }
    let parameters: Vec<String> = message
        .declared
        .iter()
        .map(|each| format!("{}: {}", each.name, type_of(&each.kind)))
        .collect();
    let _ = writeln!(
        text,
        "  readonly {name}: ({}) => string;",
        parameters.join(", ")
    );
}

fn type_of(kind: &Kind) -> String {
    match kind {
        Kind::Number => "number".to_owned(),
        Kind::String | Kind::Date => "string".to_owned(),
        Kind::Boolean => "boolean".to_owned(),
        Kind::Instant => "string | number".to_owned(),
        Kind::OneOf(words) => {
            let quoted: Vec<String> = words.iter().map(|word| format!("'{word}'")).collect();
            quoted.join(" | ")
        }
    }
}

/// Name of an identifier as the screens write it: `headsHere` for `heads-here`.
fn property(id: &str) -> String {
    let mut name = String::new();
    for (at, part) in id.split('-').enumerate() {
        let mut letters = part.chars();
        match letters.next() {
            Some(first) if at > 0 => {
                name.extend(first.to_uppercase());
                name.push_str(letters.as_str());
            }
            _ => name.push_str(part),
        }
    }
    name
}
