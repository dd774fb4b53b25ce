//! The head file: heads as CSV (UTF-8, header required).
//!
//! Columns `planting,walked_on,stop,reading,share`, optionally
//! `latitude,longitude,scout,note,flags`, in any order; further columns are
//! kept with the head. `share` is a whole percent, 1 to 100, empty for boot;
//! `flags` are words with blanks, commas or semicolons between.
//!
//! Rows are read one at a time, so a file may be larger than memory. A bad row
//! is told with its line and reason, and reading goes on; what makes the whole
//! file unusable is an error.

mod lines;
mod reader;

pub(crate) use lines::{Lines, first_line, next_row};
pub use reader::{FileHead, HeadFile, HeadFileError, RowFault};
