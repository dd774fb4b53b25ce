//! What the messages of a file offer and take.

use std::collections::BTreeSet;

use fluent_syntax::ast::{
    CallArguments, Comment, Entry, Expression, InlineExpression, Pattern, PatternElement,
};
use fluent_syntax::parser::parse;

/// Type of an argument, as the comment of its message declares it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Kind {
    /// `(Number)`: a number, written whole unless the message says otherwise.
    Number,
    /// `(String)`: words that are put in as they are.
    String,
    /// `(Boolean)`: selected on as `true` or anything else.
    Boolean,
    /// `(Date)`: a civil date, `2026-09-12`.
    Date,
    /// `(Instant)`: a moment, in ISO 8601 or as milliseconds since 1970.
    Instant,
    /// `('left' | 'right')`: one of these words, selected on.
    OneOf(Vec<String>),
}

/// Argument of a message.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Argument {
    /// Name without the dollar sign.
    pub name: String,
    /// Type that the comment gives.
    pub kind: Kind,
}

/// Message of a domain: one text, or a table of texts by key.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Message {
    /// Identifier in lower case with hyphens.
    pub id: String,
    /// Keys of a table, in order; empty where the message is one text.
    pub keys: Vec<String>,
    /// Arguments that a comment declares, in the order of a call.
    pub declared: Vec<Argument>,
    /// Names of the arguments that the text uses.
    pub used: BTreeSet<String>,
    /// Names of the functions that the text calls.
    pub functions: BTreeSet<String>,
}

/// Messages of one file, in its order.
#[derive(Debug, Default)]
pub struct Signature {
    /// What each message offers and takes.
    pub messages: Vec<Message>,
}

impl Signature {
    /// Signature of a file's text.
    ///
    /// # Errors
    /// What is wrong, with its line or its message.
    pub fn read(text: &str) -> Result<Self, String> {
        let resource = parse(text).map_err(|(_, errors)| {
            errors.first().map_or_else(String::new, |error| {
                let line = text[..error.pos.start].matches('\n').count() + 1;
                format!("line {line}: {error}")
            })
        })?;
        let mut messages: Vec<Message> = Vec::new();
        for entry in resource.body {
            match entry {
                Entry::Message(message) => {
                    let id = message.id.name.to_owned();
                    if id
                        .split('-')
                        .any(|part| !part.starts_with(|letter: char| letter.is_ascii_lowercase()))
                    {
                        return Err(format!(
                            "`{id}`: each part of a name begins with a small letter"
                        ));
                    }
                    if messages.iter().any(|other| other.id == id) {
                        return Err(format!("`{id}` stands twice"));
                    }
                    let mut read = Message {
                        declared: declared(&id, message.comment.as_ref())?,
                        id,
                        keys: Vec::new(),
                        used: BTreeSet::new(),
                        functions: BTreeSet::new(),
                    };
                    match (&message.value, message.attributes.is_empty()) {
                        (Some(value), true) => read.look_through(value),
                        (None, false) => read.take_table(&message.attributes)?,
                        _ => {
                            return Err(format!(
                                "`{}` is a text and a table of texts at once",
                                read.id
                            ));
                        }
                    }
                    messages.push(read);
                }
                Entry::Term(term) => {
                    return Err(format!(
                        "`-{}`: the catalogue has no terms; a word that messages share is an argument",
                        term.id.name
                    ));
                }
                Entry::Junk { content } => return Err(format!("cannot be read: {content}")),
                Entry::Comment(_) | Entry::GroupComment(_) | Entry::ResourceComment(_) => {}
            }
        }
        Ok(Self { messages })
    }
}

impl Message {
    fn take_table(
        &mut self,
        attributes: &[fluent_syntax::ast::Attribute<&str>],
    ) -> Result<(), String> {
        for attribute in attributes {
            self.look_through(&attribute.value);
            self.keys.push(attribute.id.name.to_owned());
        }
        if self.used.is_empty() {
            return Ok(());
        }
        Err(format!(
            "`{}`: the texts of a table take no arguments",
            self.id
        ))
    }

    fn look_through(&mut self, pattern: &Pattern<&str>) {
        for element in &pattern.elements {
            if let PatternElement::Placeable { expression } = element {
                self.look_into(expression);
            }
        }
    }

    fn look_into(&mut self, expression: &Expression<&str>) {
        match expression {
            Expression::Inline(inline) => self.look_at(inline),
            Expression::Select { selector, variants } => {
                self.look_at(selector);
                for variant in variants {
                    self.look_through(&variant.value);
                }
            }
        }
    }

    fn look_at(&mut self, inline: &InlineExpression<&str>) {
        match inline {
            InlineExpression::VariableReference { id } => {
                self.used.insert(id.name.to_owned());
            }
            InlineExpression::FunctionReference { id, arguments } => {
                self.functions.insert(id.name.to_owned());
                self.look_at_arguments(arguments);
            }
            InlineExpression::Placeable { expression } => self.look_into(expression),
            InlineExpression::StringLiteral { .. }
            | InlineExpression::NumberLiteral { .. }
            | InlineExpression::MessageReference { .. }
            | InlineExpression::TermReference { .. } => {}
        }
    }

    fn look_at_arguments(&mut self, arguments: &CallArguments<&str>) {
        for argument in &arguments.positional {
            self.look_at(argument);
        }
        for argument in &arguments.named {
            self.look_at(&argument.value);
        }
    }
}

/// Arguments that a comment declares, a line each: `$stops (Number) what it is`.
fn declared(id: &str, comment: Option<&Comment<&str>>) -> Result<Vec<Argument>, String> {
    let mut arguments = Vec::new();
    for line in comment
        .map(|comment| comment.content.as_slice())
        .unwrap_or_default()
    {
        let Some(rest) = line.trim().strip_prefix('$') else {
            continue;
        };
        let argument = rest.split_once(" (").and_then(|(name, rest)| {
            let (kind, _) = rest.split_once(')')?;
            let name = name.to_owned();
            Some(Argument {
                name,
                kind: kind_of(kind)?,
            })
        });
        arguments
            .push(argument.ok_or_else(|| format!("`{id}`: cannot read the argument in `{line}`"))?);
    }
    Ok(arguments)
}

fn kind_of(text: &str) -> Option<Kind> {
    Some(match text {
        "Number" => Kind::Number,
        "String" => Kind::String,
        "Boolean" => Kind::Boolean,
        "Date" => Kind::Date,
        "Instant" => Kind::Instant,
        words => Kind::OneOf(
            words
                .split(" | ")
                .map(|word| Some(word.strip_prefix('\'')?.strip_suffix('\'')?.to_owned()))
                .collect::<Option<Vec<String>>>()?,
        ),
    })
}
