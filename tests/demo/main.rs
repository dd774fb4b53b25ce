//! The program on the demo's files.

#![allow(clippy::unwrap_used)]

mod import;
mod roll_up;
