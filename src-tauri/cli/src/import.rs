//! `headwalk import`: a head file or a planting file into a notebook.

use std::fmt::Display;
use std::io::{self, BufRead, BufReader, Read, Write};
use std::path::PathBuf;

use clap::Args;
use notebook::service::{Keep, Problem, import_heads, import_plantings};
use notebook::{Notebook, SystemClock, SystemRandomness};

use crate::failure::Failure;
use crate::place;

/// Bad rows told one by one; the rest are counted.
const TOLD: u32 = 20;

/// Stores the heads of a head file, or the plantings of a planting file, in a
/// notebook: all good rows, or nothing
///
/// A file imported again stores nothing twice.
#[derive(Args)]
pub struct Import {
    /// CSV with planting, walked_on, stop, reading and share (heads), or with
    /// planting, hybrid, planted_on and purpose (plantings); - for standard input
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
        let mut source = BufReader::new(place::source(&self.file)?);
        let path = match &self.notebook {
            Some(path) => path.clone(),
            None => place::own_notebook()?,
        };
        let is_planting_file = is_planting_file(&mut source)?;
        let mut notebook = Notebook::open(&path, Box::new(SystemClock), Box::new(SystemRandomness))
            .map_err(|error| Failure::from(error).in_file(&path))?;
        if is_planting_file {
            self.plantings(&mut notebook, source)
        } else {
            self.heads(&mut notebook, source)
        }
    }

    fn heads(&self, notebook: &mut Notebook, source: impl Read) -> Result<(), Failure> {
        let mut faults = Faults::new(self.strict);
        let (review, _) = import_heads(notebook, source, Keep::GoodRows, |fault| {
            faults.hear(fault.line, &fault.reason)
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

    fn plantings(&self, notebook: &mut Notebook, source: impl Read) -> Result<(), Failure> {
        let mut faults = Faults::new(self.strict);
        let (review, _) = import_plantings(notebook, source, |problem| {
            faults.hear(problem.line, &problem.fault)
        })
        .map_err(|problem| Failure::from(problem).in_file(&self.file))?;
        faults.sum(u64::from(review.plantings));
        writeln!(
            io::stdout(),
            "{} plantings; {} new, {} updated",
            review.plantings,
            review.new_plantings.len(),
            review.updated,
        )?;
        Ok(())
    }
}

/// Tells the two apart by their headers, without taking anything from the source.
fn is_planting_file(source: &mut impl BufRead) -> Result<bool, Failure> {
    let start = source.fill_buf()?;
    let header = start
        .split(|byte| *byte == b'\n' || *byte == b'\r')
        .next()
        .unwrap_or_default();
    let header = String::from_utf8_lossy(header);
    let has = |name: &str| {
        header
            .split(',')
            .any(|column| column.trim_matches(['"', ' ', '\u{feff}']) == name)
    };
    Ok(has("planted_on") && !has("reading"))
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

    pub fn hear(&mut self, line: u64, reason: &impl Display) -> Result<(), Problem> {
        if self.strict {
            return Err(Problem::bad_input(format!(
                "line {line}: {reason}; mend the row, or leave out --strict to use the others"
            )));
        }
        self.count = self.count.saturating_add(1);
        if self.count <= TOLD {
            let _ = writeln!(io::stderr(), "line {line}: {reason}");
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
