//! The catalogue of words: everything that people read, by language and domain.
//!
//! `catalog/LANGUAGE/DOMAIN.ftl` holds the messages in the syntax of Project Fluent,
//! which brings plurals and variants. English is the source: comments there give each
//! message its arguments and their types. The screens read the same files; what they may
//! ask for is declared in TypeScript, and what Rust may ask for in [`say`], both written
//! from the catalogue by a test of this crate.

#![warn(missing_docs)]

mod catalog;
mod dates;
mod functions;
mod in_step;
mod language;
mod rust;
mod signature;
mod typescript;
mod words;

#[rustfmt::skip]
pub mod say;

pub use catalog::{Domain, read_catalog};
pub use in_step::differences;
pub use language::Language;
pub use rust::{SPOKEN_BY_RUST, SPOKEN_BY_RUST_ALONE, rust};
pub use signature::{Argument, Kind, Message, Signature};
pub use typescript::typescript;
pub use words::Words;

/// Error that says why a file of the catalogue cannot be used.
#[derive(Debug, thiserror::Error)]
pub enum CatalogError {
    /// A file or folder of the catalogue cannot be read.
    #[error("{path}: {source}")]
    Unreadable {
        /// Path of the file or folder.
        path: String,
        /// What the system says of it.
        source: std::io::Error,
    },
    /// A message is not in the syntax, or lacks what the house asks of it.
    #[error("{file}: {problem}")]
    Malformed {
        /// Language and domain, `en/walk`.
        file: String,
        /// What is wrong, with the line or the message where it is known.
        problem: String,
    },
}
