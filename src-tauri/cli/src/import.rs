//! `headwalk import`: a head file into a notebook.

use std::io::{self, Write};
use std::path::PathBuf;

use clap::Args;
use notebook::head_file::RowFault;
use notebook::service::{Keep, Problem, import_heads};
use notebook::{Notebook, SystemClock, SystemRandomness};

use crate::failure::Failure;
use crate::place;

/// Bad rows told one by one; the rest are counted.
const TOLD: u32 = 20;

/// Stores the heads of a head file in a notebook: all good rows, or nothing
#[derive(Args)]
pub struct Import {
    /// CSV with planting, walked_on, stop, reading and share; - for standard input
    file: PathBuf,
    /// The notebook, made if it is not there; your own where absent
    #[arg(long, value_name = "FILE")]
    notebook: Option<PathBuf>,
    /// Store nothing if any row is bad
    #[arg(long)]
    strict: bool,
}

impl Import {
    pub fn run(self) -> Result<(), Failure> {
        let source = place::source(&self.file)?;
        let path = match self.notebook {
            Some(path) => path,
            None => place::own_notebook()?,
        };
        let mut notebook = Notebook::open(&path, Box::new(SystemClock), Box::new(SystemRandomness))
            .map_err(|error| Failure::from(error).in_file(&path))?;
        let mut faults = Faults::new(self.strict);
        let (review, _) = import_heads(&mut notebook, source, Keep::GoodRows, |fault| {
            faults.hear(fault)
        })
        .map_err(|problem| Failure::from(problem).in_file(&self.file))?;
        faults.sum(u64::from(review.heads));
        writeln!(
            io::stdout(),
            "{} heads at {} stops of {} walks; {} new plantings; {} heads were here already",
            review.heads,
            review.stops,
            review.walks,
            review.new_plantings.len(),
            review.already_here,
        )?;
        Ok(())
    }
}

/// Tells bad rows on standard error, or makes the first one fatal.
pub struct Faults {
    strict: bool,
    count: u32,
}

impl Faults {
    pub fn new(strict: bool) -> Faults {
        Faults { strict, count: 0 }
    }

    pub fn hear(&mut self, fault: &RowFault) -> Result<(), Problem> {
        if self.strict {
            return Err(Problem::bad_input(format!(
                "line {}: {}; mend the row, or leave out --strict to use the others",
                fault.line, fault.reason
            )));
        }
        self.count = self.count.saturating_add(1);
        if self.count <= TOLD {
            let _ = writeln!(io::stderr(), "line {}: {}", fault.line, fault.reason);
        }
        Ok(())
    }

    /// The count, where there is one to tell.
    pub fn sum(&self, good: u64) {
        if self.count > 0 {
            let _ = writeln!(
                io::stderr(),
                "{} bad rows left out, {good} good rows used",
                self.count
            );
        }
    }
}
