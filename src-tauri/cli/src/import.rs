//! `headwalk import`: a head, planting or weather file into a notebook.

use std::fmt::Display;
use std::io::{self, BufRead, BufReader, Read, Write};
use std::path::PathBuf;

use clap::Args;
use notebook::service::{
    Answer, Keep, Problem, Request, Service, WeatherFileReview, import_heads, import_plantings,
};
use notebook::weather_file::layout_of;
use notebook::{Notebook, SystemClock, SystemRandomness};

use crate::failure::Failure;
use crate::place;

/// Bad rows told one by one; the rest are counted.
const TOLD: u32 = 20;

/// Longest weather file read: a century of some forty stations.
const LONGEST_WEATHER: u64 = 256 << 20;

/// Stores the heads of a head file, the plantings of a planting file, or the days
/// of a weather file in a notebook: all good rows, or nothing
///
/// A file imported again stores nothing twice.
#[derive(Args)]
pub struct Import {
    /// CSV with planting, walked_on, stop, reading and share (heads), or with
    /// planting, hybrid, planted_on and purpose (plantings), or with date and highs
    /// and lows (weather; GHCN-Daily files too); - for standard input
    file: PathBuf,
    /// The notebook, made if it is not there; your own where absent
    #[arg(long, value_name = "FILE")]
    notebook: Option<PathBuf>,
    /// Store nothing if any row is bad
    #[arg(long)]
    strict: bool,
    /// Station of a weather file that names none
    #[arg(long, value_name = "NAME")]
    station: Option<String>,
}

/// What a file holds, by its first line.
enum Holds {
    Heads,
    Plantings,
    Weather,
}

impl Import {
    pub fn run(self) -> Result<(), Failure> {
        let mut source = BufReader::new(place::source(&self.file)?);
        let path = match &self.notebook {
            Some(path) => path.clone(),
            None => place::own_notebook()?,
        };
        let holds = holds(&mut source)?;
        let mut notebook = Notebook::open(&path, Box::new(SystemClock), Box::new(SystemRandomness))
            .map_err(|error| Failure::from(error).in_file(&path))?;
        match holds {
            Holds::Heads => self.heads(&mut notebook, source),
            Holds::Plantings => self.plantings(&mut notebook, source),
            Holds::Weather => self.weather(notebook, source),
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

    fn weather(&self, notebook: Notebook, source: impl Read) -> Result<(), Failure> {
        let failed = |problem: Problem| Failure::from(problem).in_file(&self.file);
        let mut text = String::new();
        source
            .take(LONGEST_WEATHER + 1)
            .read_to_string(&mut text)
            .map_err(|error| Failure::from(error).in_file(&self.file))?;
        if text.len() as u64 > LONGEST_WEATHER {
            return Err(failed(Problem::bad_input(
                "the file is longer than 256 MB; split it by station",
            )));
        }
        let mut service = Service::new(notebook)?;
        let mut faults = Faults::new(self.strict);
        let looked = service.call(Request::ReviewWeatherFile {
            text: text.clone(),
            station: self.station.clone(),
        });
        if let Answer::ReviewWeatherFile(review) = looked.map_err(failed)?.answer {
            self.tell(&mut faults, &review).map_err(failed)?;
        }
        let stored = service.call(Request::ImportWeatherFile {
            text,
            station: self.station.clone(),
        });
        if let Answer::ImportWeatherFile(review) = stored.map_err(failed)?.answer {
            for station in &review.stations {
                writeln!(
                    io::stdout(),
                    "{}: {} days from {} to {}; {} were here already",
                    station.station,
                    station.rows,
                    station.first,
                    station.last,
                    station.already_here,
                )?;
            }
        }
        Ok(())
    }

    /// Refused rows and what the cleaning rules found.
    fn tell(&self, faults: &mut Faults, review: &WeatherFileReview) -> Result<(), Problem> {
        for row in &review.refused_rows {
            faults.hear(u64::from(row.line), &row.reason)?;
        }
        faults.more(review.refused.saturating_sub(faults.count));
        faults.sum(
            review
                .stations
                .iter()
                .map(|each| u64::from(each.rows))
                .sum(),
        );
        for station in &review.stations {
            for found in station.found.iter().take(TOLD as usize) {
                let _ = writeln!(io::stderr(), "{}: {found}", station.station);
            }
        }
        Ok(())
    }
}

/// Tells them apart by their first line, without taking anything from the source.
/// What looks like neither is taken for heads, whose reader says what is missing.
fn holds(source: &mut impl BufRead) -> Result<Holds, Failure> {
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
    Ok(if has("reading") {
        Holds::Heads
    } else if has("planted_on") {
        Holds::Plantings
    } else if layout_of(header.trim_start_matches('\u{feff}')).is_some() {
        Holds::Weather
    } else {
        Holds::Heads
    })
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

    /// Bad rows that are counted and not told one by one.
    fn more(&mut self, count: u32) {
        self.count = self.count.saturating_add(count);
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
