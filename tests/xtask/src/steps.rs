//! Steps that are timed, each as it ends, and a table of them at the end, whatever
//! happens.

use std::time::{Duration, Instant};

/// The steps done so far.
pub struct Steps {
    begun: Instant,
    done: Vec<(&'static str, Duration)>,
}

impl Steps {
    /// None yet.
    pub fn begin() -> Steps {
        Steps {
            begun: Instant::now(),
            done: Vec::new(),
        }
    }

    /// Runs a step. What it prints goes straight through, so that a failure's
    /// output is the last thing above the table.
    pub fn run(
        &mut self,
        name: &'static str,
        step: impl FnOnce() -> anyhow::Result<()>,
    ) -> anyhow::Result<()> {
        eprintln!("\n== {name}");
        let begun = Instant::now();
        let outcome = step();
        let took = begun.elapsed();
        eprintln!("-- {name}: {:.1} s", took.as_secs_f64());
        self.done.push((name, took));
        outcome.map_err(|error| {
            self.print();
            error.context(format!("step '{name}' failed"))
        })
    }

    /// Prints the table.
    pub fn print(&self) {
        let width = self.done.iter().map(|(name, _)| name.len()).max();
        let width = width.unwrap_or_default().max("in all".len());
        eprintln!();
        for (name, took) in &self.done {
            eprintln!("{name:width$}  {:7.1} s", took.as_secs_f64());
        }
        eprintln!(
            "{:width$}  {:7.1} s",
            "in all",
            self.begun.elapsed().as_secs_f64()
        );
    }
}
