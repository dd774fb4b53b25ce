//! The store beside its limits, with 200,000 heads stored: saving a head beside a
//! bare SQLite insert of the same bytes, as durably; opening to the first list,
//! after a kill too; importing a million rows, and the memory that takes; taps
//! beside an import.
//!
//! `cargo bench -p headwalk-tests --bench notebook`; fails where a limit is not
//! kept. Files lie in the build's folder, so that they are on a disk and not in
//! memory.

#![allow(clippy::unwrap_used, clippy::panic, missing_docs)]

mod importing;
mod opening;
mod saving;
mod season;

use std::process::ExitCode;

use criterion::Criterion;
use headwalk_tests::limit::Limits;
use season::Season;

fn main() -> ExitCode {
    let mut criterion = Criterion::default().configure_from_args();
    let mut limits = Limits::default();
    let season = Season::tapped();
    opening::opening(&mut criterion, &season, &mut limits);
    saving::saving(&mut criterion, &season, &mut limits);
    importing::importing(&mut criterion, &mut limits);
    importing::taps_beside(&mut limits);
    criterion.final_summary();
    limits.verdict()
}
