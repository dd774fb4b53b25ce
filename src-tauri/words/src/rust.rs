//! Functions for Rust, one for each message that Rust says.

use std::fmt::Write as _;

use crate::catalog::Domain;
use crate::functions::FUNCTIONS;
use crate::signature::{Kind, Message};

/// Domains whose messages Rust may say; the others are for the screens alone.
pub const SPOKEN_BY_RUST: [&str; 6] = [
    "common",
    "details",
    "outlook",
    "plantings",
    "sheet",
    "stages",
];

/// Domains that the screens say nothing of and are not sent.
pub const SPOKEN_BY_RUST_ALONE: [&str; 1] = ["sheet"];

/// Rust that says the messages of [`SPOKEN_BY_RUST`], the module `say`.
#[must_use]
pub fn rust(domains: &[Domain]) -> String {
    let mut text = String::from(
        "//! Messages of the catalogue that Rust says, a type for each domain.\n\
         //!\n\
         //! Written from the catalogue: HEADWALK_WRITE_WORDS=1 cargo test -p words\n\n\
         use chrono::NaiveDate;\n\n\
         use crate::words::{Value, texts};\n\
         use crate::{Language, Words};\n\n\
         const TEXTS: [(&str, [&str; 2]); SPOKEN] = [\n",
    );
    let spoken: Vec<&Domain> = domains
        .iter()
        .filter(|domain| SPOKEN_BY_RUST.contains(&domain.name.as_str()))
        .collect();
    text = text.replace("SPOKEN]", &format!("{}]", spoken.len()));
    for domain in &spoken {
        let _ = writeln!(text, "    texts!(\"{}\"),", domain.name);
    }
    text.push_str(
        "];\n\nimpl Words {\n\
         \x20   /// Words in a language.\n\
         \x20   #[must_use]\n\
         \x20   pub fn new(language: Language) -> Self {\n\
         \x20       Self::of(language, &TEXTS)\n\
         \x20   }\n\
         }\n",
    );
    for domain in &spoken {
        write_domain(domain, &mut text);
    }
    text
}

fn write_domain(domain: &Domain, text: &mut String) {
    let kind = type_name(&domain.name);
    let _ = write!(
        text,
        "\n/// Messages of `{name}.ftl`.\n\
         pub struct {kind}<'a>(&'a Words);\n\n\
         impl Words {{\n\
         \x20   /// Messages of the domain `{name}`.\n\
         \x20   #[must_use]\n\
         \x20   pub fn {function}(&self) -> {kind}<'_> {{\n\
         \x20       {kind}(self)\n\
         \x20   }}\n\
         }}\n\n\
         impl {kind}<'_> {{\n",
        name = domain.name,
        function = domain.name.replace('-', "_"),
    );
    let mut methods = Vec::new();
    let messages = domain.signature.messages.iter();
    let known = |function: &String| FUNCTIONS.contains(&function.as_str());
    for message in messages.filter(|message| message.functions.iter().all(known)) {
        methods.push(method(&domain.name, message));
    }
    text.push_str(&methods.join("\n"));
    text.push_str("}\n");
}

fn method(domain: &str, message: &Message) -> String {
    let id = &message.id;
    let name = id.replace('-', "_");
    let name = if matches!(name.as_str(), "where" | "type" | "in" | "use") {
        format!("{name}_")
    } else {
        name
    };
    if !message.keys.is_empty() {
        return format!(
            "    /// Text of the message `{id}` for a key, where it has that key.\n\
             \x20   #[must_use]\n\
             \x20   pub fn {name}(&self, key: &str) -> Option<String> {{\n\
             \x20       self.0.of_table(\"{domain}\", \"{id}\", key)\n\
             \x20   }}\n"
        );
    }
    let parameters: String = message
        .declared
        .iter()
        .map(|each| format!(", {}: {}", snake(&each.name), type_of(&each.kind)))
        .collect();
    let values: Vec<String> = message
        .declared
        .iter()
        .map(|each| format!("(\"{}\", Value::from({}))", each.name, snake(&each.name)))
        .collect();
    format!(
        "    /// Text of the message `{id}`.\n\
         \x20   #[must_use]\n\
         \x20   pub fn {name}(&self{parameters}) -> String {{\n\
         \x20       self.0.text(\"{domain}\", \"{id}\", &[{}])\n\
         \x20   }}\n",
        values.join(", ")
    )
}

fn type_of(kind: &Kind) -> &'static str {
    match kind {
        Kind::Number => "f64",
        Kind::Boolean => "bool",
        Kind::Date => "NaiveDate",
        Kind::String | Kind::Instant | Kind::OneOf(_) => "&str",
    }
}

fn type_name(id: &str) -> String {
    id.split('-')
        .map(|part| part[..1].to_uppercase() + &part[1..])
        .collect()
}

fn snake(name: &str) -> String {
    let mut out = String::new();
    for letter in name.chars() {
        if letter.is_ascii_uppercase() {
            out.push('_');
        }
        out.push(letter.to_ascii_lowercase());
    }
    out
}
