//! `headwalk import`: a head, planting, weather, outline or observation file, or a
//! whole notebook's archive, into a notebook.

use std::fmt::Display;
use std::io::{self, BufRead, BufReader, Read, Seek, SeekFrom, Write};
use std::path::PathBuf;

use clap::Args;
use notebook::archive;
use notebook::{Notebook, SystemClock, SystemRandomness};
use readers::observation_file::ObservationProblem;
use readers::outline_file;
use readers::weather_file::layout_of;
use service::{
    Answer, ChosenFile, FileRequest, Keep, PlaceOrder, Problem, Service, WeatherFileReview, ask,
    import_heads_placed, import_observations, import_plantings, prepare, review_observations,
};

use crate::failure::Failure;
use crate::place;

/// Bad rows told one by one; the rest are counted.
const TOLD: u32 = 20;

/// Longest weather file read: a century of some forty stations.
const LONGEST_WEATHER: u64 = 256 << 20;

/// Stores the heads of a head file, the plantings of a planting file, the days of a
/// weather file, the observations of ripe grain, or the outlines of a map in a
/// notebook: all that is good, or nothing; or all that an archive of another
/// notebook has and this one lacks
///
/// A file imported again stores nothing twice.
#[derive(Args)]
pub struct Import {
    /// CSV with planting, walked_on, stop, reading and share (heads), or with
    /// planting, hybrid, planted_on and purpose (plantings), or with date and highs
    /// and lows (weather; GHCN-Daily files too), or with planting, observed_on and
    /// what (moisture readings, ground counts, scores); or GeoJSON, KML, KMZ or a zipped
    /// shapefile (outlines of fields and plantings, known by their names); or an
    /// archive that export made; - for standard input
    file: PathBuf,
    /// The notebook, made if it is not there; your own where absent
    #[arg(long, value_name = "FILE")]
    notebook: Option<PathBuf>,
    /// Store nothing if any row is bad
    #[arg(long)]
    strict: bool,
    /// Only say what the file holds and what of it is new; store nothing
    #[arg(long)]
    review: bool,
    /// Take latitude for longitude in a head file, and the other way round
    #[arg(long, conflicts_with = "lat_lon_as_written")]
    swap_lat_lon: bool,
    /// Store the places of a head file as written, though they seem to be swapped
    #[arg(long)]
    lat_lon_as_written: bool,
    /// Station of a weather file that names none
    #[arg(long, value_name = "NAME")]
    station: Option<String>,
}

/// What a file holds, by its first line.
enum Holds {
    Heads,
    Plantings,
    Weather,
    Outlines,
    Archive,
    Observations,
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
            Holds::Outlines => self.outlines(notebook, source),
            Holds::Archive => self.archive(notebook, source),
            Holds::Observations => self.observations(&mut notebook, source),
        }
    }

    fn keep(&self) -> Keep {
        if self.review {
            Keep::Nothing
        } else {
            Keep::GoodRows
        }
    }

    fn heads(&self, notebook: &mut Notebook, source: impl Read + Send) -> Result<(), Failure> {
        let mut faults = Faults::new(self.strict);
        let order = if self.swap_lat_lon {
            PlaceOrder::Swapped
        } else if self.lat_lon_as_written {
            PlaceOrder::AsWritten
        } else {
            PlaceOrder::Ask
        };
        let (review, _) = import_heads_placed(notebook, source, self.keep(), order, |fault| {
            faults.hear(fault.line, &fault.reason.to_string())
        })
        .map_err(|problem| Failure::from(problem).in_file(&self.file))?;
        if review.swapped_places > 0 {
            writeln!(
                io::stderr(),
                "{}: the places of {} heads seem to be swapped: give --swap-lat-lon or \
                 --lat-lon-as-written",
                self.file.display(),
                review.swapped_places
            )?;
        }
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
        let (review, _) = import_plantings(notebook, source, self.keep(), |problem| {
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

    fn observations(&self, notebook: &mut Notebook, source: impl Read) -> Result<(), Failure> {
        let mut faults = Faults::new(self.strict);
        let on_fault = |problem: &ObservationProblem| faults.hear(problem.line, &problem.fault);
        let read = if self.review {
            review_observations(notebook, source, on_fault)
        } else {
            import_observations(notebook, source, on_fault)
        };
        let (stored, _) = read.map_err(|problem| Failure::from(problem).in_file(&self.file))?;
        faults.sum(u64::from(stored.rows));
        writeln!(
            io::stdout(),
            "{} observations of ripe grain; {} were here already",
            stored.rows,
            stored.already_here,
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
        let station = self.station.clone();
        let told = if self.review {
            service.call(ask::ReviewWeatherFile {
                text,
                station,
                job: None,
            })
        } else {
            service.call(ask::ImportWeatherFile {
                text,
                station,
                strict: self.strict,
                job: None,
            })
        };
        let review = told.map_err(failed)?.answer;
        self.tell(&mut Faults::new(self.strict), &review)
            .map_err(failed)?;
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
        Ok(())
    }

    fn outlines(&self, notebook: Notebook, source: impl Read) -> Result<(), Failure> {
        let failed = |problem: Problem| Failure::from(problem).in_file(&self.file);
        let mut bytes = Vec::new();
        source
            .take(outline_file::LONGEST as u64 + 1)
            .read_to_end(&mut bytes)
            .map_err(|error| Failure::from(error).in_file(&self.file))?;
        let file = ChosenFile {
            name: self.file.display().to_string(),
            bytes: u32::try_from(bytes.len()).unwrap_or(u32::MAX),
        };
        let request = |keep| match keep {
            Keep::Nothing => FileRequest::ReviewOutlineFile {
                files: vec![file.clone()],
            },
            Keep::GoodRows => FileRequest::ImportOutlineFile {
                files: vec![file.clone()],
                chosen: None,
            },
        };
        let mut service = Service::new(notebook)?;
        let mut faults = Faults::new(self.strict);
        let looked = prepare(request(Keep::Nothing), &bytes)
            .and_then(|prepared| service.call_prepared(prepared))
            .map_err(failed)?;
        if let Answer::ReviewOutlineFile(review) = looked.answer {
            for outline in &review.outlines {
                let reason = match (&outline.refused, outline.of) {
                    (Some(refused), _) => refused.clone(),
                    (None, None) => "no planting or field has this name".to_owned(),
                    (None, Some(_)) => continue,
                };
                faults
                    .hear_of("outline", outline.number, outline.label.as_deref(), &reason)
                    .map_err(failed)?;
            }
        }
        let stored = prepare(request(self.keep()), &bytes)
            .and_then(|prepared| service.call_prepared(prepared))
            .map_err(failed)?;
        if let Answer::ImportOutlineFile(review) | Answer::ReviewOutlineFile(review) = stored.answer
        {
            let known = review
                .outlines
                .iter()
                .filter(|row| row.of.is_some())
                .count();
            faults.sum(known as u64);
            if known == 0 {
                return Err(Failure::work(
                    "no outline was taken: give them the names that plantings or fields have in \
                     the notebook",
                )
                .in_file(&self.file));
            }
            writeln!(
                io::stdout(),
                "{known} outlines of plantings and fields; {} stored, the others were here already",
                review.to_store,
            )?;
        }
        Ok(())
    }

    /// A zip file is read from its end, so it is laid into a file first.
    fn archive(&self, notebook: Notebook, mut source: impl Read) -> Result<(), Failure> {
        let failed = |problem: Problem| Failure::from(problem).in_file(&self.file);
        let mut laid = tempfile::tempfile()?;
        io::copy(&mut source, &mut laid)?;
        laid.seek(SeekFrom::Start(0))?;
        let mut service = Service::new(notebook)?;
        let done = service
            .archive_in(BufReader::new(laid), self.keep(), &mut |_| true)
            .map_err(failed)?;
        let review = done.review;
        writeln!(
            io::stdout(),
            "{} changes of {} devices, {} of them new; {} new plantings, {} new walks, {} new heads",
            review.changes,
            review.devices,
            review.new,
            review.new_plantings,
            review.new_walks,
            review.new_heads,
        )?;
        if review.parted > 0 {
            writeln!(
                io::stdout(),
                "{} devices had gone on apart here and in the archive: both parts are kept",
                review.parted
            )?;
        }
        Ok(())
    }

    /// Refused rows and what the cleaning rules found.
    fn tell(&self, faults: &mut Faults, review: &WeatherFileReview) -> Result<(), Problem> {
        for row in &review.refused_rows {
            faults.hear(u64::from(row.line), &row.reason.to_string())?;
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
    // A zipped shapefile or map begins like an archive, with another first entry.
    if start.starts_with(b"PK") && archive::begins_like_one(start) {
        return Ok(Holds::Archive);
    }
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
    let map =
        start.starts_with(b"PK") || matches!(header.trim_start().chars().next(), Some('{' | '<'));
    Ok(if map {
        Holds::Outlines
    } else if has("reading") {
        Holds::Heads
    } else if has("observed_on") {
        Holds::Observations
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

    /// As [`Faults::hear`], of a thing that has a place in the file but no line.
    fn hear_of(
        &mut self,
        what: &str,
        number: u32,
        label: Option<&str>,
        reason: &str,
    ) -> Result<(), Problem> {
        let named = label.map(|label| format!(" '{label}'")).unwrap_or_default();
        if self.strict {
            return Err(Problem::bad_input(format!(
                "{what} {number}{named}: {reason}; mend it, or leave out --strict to use the others"
            )));
        }
        self.count = self.count.saturating_add(1);
        if self.count <= TOLD {
            let _ = writeln!(io::stderr(), "{what} {number}{named}: {reason}");
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
