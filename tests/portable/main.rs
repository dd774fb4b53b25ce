//! Files out and in, the field sheet, history and search.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod archive;
mod archive_photos;
mod archive_refused;
mod archive_seals;
mod books;
mod history;
mod kept_files;
mod search;
mod sheet;
mod tables;

#[allow(dead_code)]
#[path = "../notebook/faces.rs"]
mod faces;
