//! `headwalk export`: the notebook as files.

use std::fs::File;
use std::io::{self, BufWriter, Seek, SeekFrom, Write};
use std::path::{Path, PathBuf};

use chrono::NaiveDate;
use clap::{Args, Subcommand, ValueEnum};
use ripening::temperature::TempUnit;
use service::{FileMade, FileOut, Paper, Service, SheetAsk, Units, ask};
use uuid::Uuid;

use crate::failure::Failure;
use crate::{place, reading};

/// Writes the notebook, or a part of it, as a file that other programs read
#[derive(Args)]
pub struct Export {
    #[command(subcommand)]
    what: What,
}

#[derive(Subcommand)]
enum What {
    /// The whole notebook as one zip file, from which another notebook can be made
    Archive(Common),
    /// Heads as CSV: planting, walked_on, stop, reading, share and more
    Heads(Common),
    /// Plantings as CSV: planting, hybrid, planted_on, purpose and more
    Plantings(Common),
    /// Daily weather as CSV
    Weather {
        #[command(flatten)]
        common: Common,
        /// Unit of the temperatures; as stored where absent
        #[arg(long)]
        unit: Option<Unit>,
    },
    /// Stops as GeoJSON
    Geojson(Common),
    /// The field sheet of a planting as a PDF of one page
    Sheet {
        /// Name of the planting
        planting: String,
        #[command(flatten)]
        common: Common,
        /// Size of the page; by the units where absent
        #[arg(long)]
        paper: Option<PaperSize>,
        /// Language; the notebook's where absent
        #[arg(long)]
        language: Option<Language>,
        /// Units; the notebook's where absent
        #[arg(long)]
        units: Option<UnitsShown>,
        /// Take this as today's date
        #[arg(long, value_name = "DATE")]
        today: Option<NaiveDate>,
    },
}

#[derive(Clone, Copy, ValueEnum)]
enum PaperSize {
    A4,
    Letter,
}

#[derive(Clone, Copy, ValueEnum)]
enum Language {
    En,
    Es,
}

#[derive(Clone, Copy, ValueEnum)]
enum UnitsShown {
    Us,
    Metric,
}

#[derive(Args)]
struct Common {
    /// The notebook; your own where absent
    #[arg(long, value_name = "FILE")]
    notebook: Option<PathBuf>,
    /// Where to write, - for standard output; a name with today's date in this
    /// folder where absent
    #[arg(long, value_name = "FILE")]
    to: Option<PathBuf>,
    /// Write over a file that is there already
    #[arg(long)]
    replace: bool,
}

#[derive(Clone, Copy, ValueEnum)]
enum Unit {
    F,
    C,
}

impl Export {
    pub fn run(self) -> Result<(), Failure> {
        match self.what {
            What::Archive(common) => common.write(&FileOut::Notebook),
            What::Heads(common) => common.write(&FileOut::Heads),
            What::Plantings(common) => common.write(&FileOut::Plantings),
            What::Weather { common, unit } => common.write(&FileOut::Weather {
                unit: unit.map(|unit| match unit {
                    Unit::F => TempUnit::Fahrenheit,
                    Unit::C => TempUnit::Celsius,
                }),
            }),
            What::Geojson(common) => common.write(&FileOut::Stops),
            What::Sheet {
                planting,
                common,
                paper,
                language,
                units,
                today,
            } => {
                let mut service = common.service(today)?;
                let ask = SheetAsk {
                    planting: named(&mut service, &planting)?,
                    paper: paper.map(|paper| match paper {
                        PaperSize::A4 => Paper::A4,
                        PaperSize::Letter => Paper::Letter,
                    }),
                    language: language.map(|language| match language {
                        Language::En => "en".to_owned(),
                        Language::Es => "es".to_owned(),
                    }),
                    units: units.map(|units| match units {
                        UnitsShown::Us => Units::Us,
                        UnitsShown::Metric => Units::Metric,
                    }),
                };
                common.write_from(service, &FileOut::Sheet(ask))
            }
        }
    }
}

impl Common {
    /// The file is made beside its place and put there whole, so that a failure
    /// leaves nothing half written under its name.
    fn write(&self, what: &FileOut) -> Result<(), Failure> {
        self.write_from(self.service(None)?, what)
    }

    /// The notebook's service, on a day.
    fn service(&self, today: Option<NaiveDate>) -> Result<Service, Failure> {
        let path = match &self.notebook {
            Some(path) => path.clone(),
            None => place::own_notebook()?,
        };
        if !path.exists() {
            return Err(Failure::work(
                "there is no such notebook: check the path, or import something first",
            )
            .in_file(&path));
        }
        let notebook = reading::open(&path, today)?;
        Ok(Service::new(notebook)?)
    }

    fn write_from(&self, mut service: Service, what: &FileOut) -> Result<(), Failure> {
        match &self.to {
            Some(to) if to == Path::new("-") => {
                let mut made = tempfile::tempfile()?;
                service.file_out(what, &mut made)?;
                made.seek(SeekFrom::Start(0))?;
                io::copy(&mut made, &mut io::stdout().lock())?;
                Ok(())
            }
            Some(to) => {
                let folder = to.parent().filter(|folder| *folder != Path::new(""));
                self.to_file(&mut service, what, folder, |_| to.clone())
            }
            None => self.to_file(&mut service, what, None, |made| PathBuf::from(&made.name)),
        }
    }

    fn to_file(
        &self,
        service: &mut Service,
        what: &FileOut,
        folder: Option<&Path>,
        named: impl FnOnce(&FileMade) -> PathBuf,
    ) -> Result<(), Failure> {
        let folder = folder.unwrap_or(Path::new("."));
        let mut file = tempfile::Builder::new()
            .prefix(".headwalk-")
            .tempfile_in(folder)
            .map_err(|error| Failure::from(error).in_file(folder))?;
        let mut to = BufWriter::new(file.as_file_mut());
        let made = service.file_out(what, &mut to)?;
        to.flush()?;
        drop(to);
        file.as_file().sync_all()?;
        let size = file.as_file().metadata()?.len();
        let path = named(&made);
        // An archive is the whole notebook, and its owner's alone like that.
        if !matches!(what, FileOut::Notebook) {
            readable_by_others(file.as_file());
        }
        let put = if self.replace {
            file.persist(&path)
        } else {
            file.persist_noclobber(&path)
        };
        put.map_err(|failed| {
            let failure = match failed.error.kind() {
                io::ErrorKind::AlreadyExists => Failure::work(
                    "there is such a file already: give another name with --to, or --replace",
                ),
                _ => Failure::from(failed.error),
            };
            failure.in_file(&path)
        })?;
        writeln!(io::stdout(), "{}: {size} bytes", path.display())?;
        Ok(())
    }
}

/// The planting of this name.
fn named(service: &mut Service, name: &str) -> Result<Uuid, Failure> {
    let list = service.call(ask::Plantings {})?.answer;
    list.rows
        .iter()
        .find(|row| row.name == name)
        .map(|row| row.id)
        .ok_or_else(|| {
            Failure::work(format!(
                "there is no planting named '{name}': see the names with export plantings --to -"
            ))
        })
}

/// Temporary files are their maker's alone; what is handed on is not.
fn readable_by_others(file: &File) {
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt as _;
        let _ = file.set_permissions(std::fs::Permissions::from_mode(0o644));
    }
    #[cfg(not(unix))]
    let _ = file;
}
