//! The notebook as files, and a notebook from one.

pub(crate) mod field_sheet;

use std::io::{Read, Seek, Write};

use ripening::temperature::TempUnit;
use serde::{Deserialize, Serialize};

use crate::{Changed, Keep, Problem, ProblemCode, Service, SheetAsk, Units, settings};
use kinds::one_line;
use notebook::archive::{self, ArchiveFault, ArchiveReview};
use notebook::export::{self, ExportError};

/// What a face may have as a file.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS), ts(optional_fields = nullable))]
#[serde(tag = "what", rename_all = "snake_case")]
pub enum FileOut {
    /// The whole notebook ([`notebook::archive`]).
    Notebook,
    /// Heads as a head file.
    Heads,
    /// Plantings as a planting file.
    Plantings,
    /// Weather as the app's table.
    Weather {
        /// Unit of the temperatures; as stored where absent, or the settings'
        /// where both are stored.
        unit: Option<TempUnit>,
    },
    /// Stops as GeoJSON.
    Stops,
    /// The field sheet of a planting.
    Sheet(SheetAsk),
}

/// A file that was made.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct FileMade {
    /// A name for it, of letters, digits, `-` and `.` alone.
    pub name: String,
    /// Media type.
    pub media_type: String,
}

/// What came of an archive.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct ArchiveIn {
    /// What it holds, and what of it was new.
    pub review: ArchiveReview,
    /// What changed; nothing after a mere review.
    pub changed: Vec<Changed>,
}

impl Service {
    /// Writes a file.
    ///
    /// # Errors
    /// When the notebook cannot be read, or the file not be written; it is of no
    /// use then.
    pub fn file_out(
        &mut self,
        what: &FileOut,
        to: &mut (impl Write + Seek),
    ) -> Result<FileMade, Problem> {
        let settings = settings::read(self.notebook.db())?;
        let db = self.notebook.db();
        let named;
        let (stem, ending, media_type) = match what {
            FileOut::Notebook => {
                archive::write(&self.notebook, &settings, to)?;
                ("headwalk", "zip", "application/zip")
            }
            FileOut::Heads => {
                export::heads(db, to)?;
                ("heads", "csv", "text/csv")
            }
            FileOut::Plantings => {
                export::plantings(db, to)?;
                ("plantings", "csv", "text/csv")
            }
            FileOut::Weather { unit } => {
                let chosen = match settings.units {
                    Units::Us => TempUnit::Fahrenheit,
                    Units::Metric => TempUnit::Celsius,
                };
                let stored = export::stored_units(db)?;
                let unit = match (unit, stored.as_slice()) {
                    (Some(unit), _) => *unit,
                    (None, [only]) => *only,
                    (None, _) => chosen,
                };
                export::weather(db, unit, true, to)?;
                ("weather", "csv", "text/csv")
            }
            FileOut::Stops => {
                export::stops(db, to)?;
                ("stops", "geojson", "application/geo+json")
            }
            FileOut::Sheet(ask) => {
                let (pdf, name) = self.field_sheet(ask)?;
                to.write_all(&pdf).map_err(ExportError::from)?;
                named = plain(&name);
                (named.as_str(), "pdf", "application/pdf")
            }
        };
        Ok(FileMade {
            name: format!("{stem}-{}.{ending}", self.notebook.clock().today()),
            media_type: media_type.to_owned(),
        })
    }

    /// Reads an archive into the notebook, whole or not at all; with
    /// [`Keep::Nothing`] it says what that would do. `going_on` is told how many
    /// bytes were read, and may end it.
    ///
    /// # Errors
    /// When the archive is refused or the store fails; nothing is stored then.
    pub fn archive_in(
        &mut self,
        from: impl Read + Seek,
        keep: Keep,
        going_on: &mut dyn FnMut(u64) -> bool,
    ) -> Result<ArchiveIn, Problem> {
        let (mut review, settings, touched) =
            archive::read(&mut self.notebook, from, keep, going_on)?;
        let mut changed = self.changed(&touched)?;
        if let (Keep::GoodRows, Some(settings)) = (keep, settings) {
            match self.save_settings(settings) {
                Ok(reply) => changed.extend(reply.changed),
                // The notebook is here; settings that cannot be used are no loss.
                Err(_) => review.settings = false,
            }
        }
        Ok(ArchiveIn { review, changed })
    }
}

/// A planting's name as part of a file's.
fn plain(name: &str) -> String {
    let words: Vec<String> = name
        .split(|letter: char| !letter.is_ascii_alphanumeric())
        .filter(|word| !word.is_empty())
        .map(str::to_ascii_lowercase)
        .collect();
    let joined: String = words.join("-").chars().take(40).collect();
    if joined.is_empty() {
        "planting".to_owned()
    } else {
        joined
    }
}

impl From<ExportError> for Problem {
    fn from(error: ExportError) -> Problem {
        match error {
            ExportError::Store(error) => error.into(),
            ExportError::Io(error) if error.kind() == std::io::ErrorKind::StorageFull => Problem {
                code: ProblemCode::DiskFull,
                message: "no room is left for the file: make room and try again".to_owned(),
            },
            ExportError::Io(_) => Problem {
                code: ProblemCode::Unavailable,
                message: format!("{error}: check that its folder may be written to"),
            },
        }
    }
}

impl From<ArchiveFault> for Problem {
    fn from(fault: ArchiveFault) -> Problem {
        let code = match fault {
            ArchiveFault::Store(error) => return error.into(),
            ArchiveFault::FromNewerApp { .. } => ProblemCode::FromNewerApp,
            ArchiveFault::Unreadable(_) => ProblemCode::Unavailable,
            _ => ProblemCode::BadInput,
        };
        Problem {
            code,
            message: one_line(&fault.to_string()),
        }
    }
}
