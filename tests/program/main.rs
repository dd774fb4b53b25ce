//! The headless program, as a shell sees it: output, one line of trouble, exit code.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod bad_input;
mod grain;
mod import;
mod readme;
mod roll_up;
mod run;
mod same_as_the_notebook;
mod snapshots;
