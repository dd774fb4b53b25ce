//! A table of what happened, printed at the end of a check.

use std::collections::BTreeMap;
use std::fmt::Write as _;

/// Counts by what was done and what came of it.
#[derive(Default)]
pub struct Outcomes {
    counts: BTreeMap<(String, String), u32>,
}

impl Outcomes {
    pub fn add(&mut self, done: &str, came: &str) {
        *self
            .counts
            .entry((done.to_owned(), came.to_owned()))
            .or_default() += 1;
    }

    pub fn print(&self, title: &str) {
        let width = self.counts.keys().map(|(done, _)| done.len()).max();
        let width = width.unwrap_or(0);
        let mut table = format!("{title}\n");
        for ((done, came), count) in &self.counts {
            writeln!(table, "  {done:width$}  {count:>5}  {came}").unwrap();
        }
        println!("{table}");
    }
}

/// Whether the long setting is asked for.
pub fn long() -> bool {
    std::env::var("HEADWALK_LONG").is_ok_and(|value| value == "1")
}
