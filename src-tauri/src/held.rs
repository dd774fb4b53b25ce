//! The notebook that the window holds open.

use std::io::{self, BufWriter, Write as _};
use std::path::{Path, PathBuf};
use std::{env, fs};

use chrono::NaiveDate;
use serde::Serialize;
use service::{FileOut, Keeper, Problem, ProblemCode};

use crate::crew::Crew;

/// Another notebook than the one in the app's data folder.
const NOTEBOOK: &str = "HEADWALK_NOTEBOOK";
/// Another day than the clock's, for the demo and for rehearsals.
const TODAY: &str = "HEADWALK_TODAY";

/// Makes a file of the notebook in `folder`, under a name that nothing there
/// has; says where, and how long it is.
pub fn file_out(keeper: &Keeper, what: &FileOut, folder: &Path) -> Result<SavedFile, Problem> {
    let failed = |error: io::Error| Problem {
        code: match error.kind() {
            io::ErrorKind::StorageFull => ProblemCode::DiskFull,
            _ => ProblemCode::Unavailable,
        },
        message: format!("{} cannot be written to: {error}", folder.display()),
    };
    fs::create_dir_all(folder).map_err(failed)?;
    let mut file = tempfile::NamedTempFile::new_in(folder).map_err(failed)?;
    let mut to = BufWriter::new(file.as_file_mut());
    let made = keeper.file_out(what, &mut to)?;
    to.flush().map_err(failed)?;
    drop(to);
    file.as_file().sync_all().map_err(failed)?;
    let bytes = file.as_file().metadata().map_err(failed)?.len();
    for path in names(folder, &made.name) {
        match file.persist_noclobber(&path) {
            Ok(_) => {
                return Ok(SavedFile {
                    path: path.display().to_string(),
                    bytes,
                });
            }
            Err(taken) if taken.error.kind() == io::ErrorKind::AlreadyExists => {
                file = taken.file;
            }
            Err(other) => return Err(failed(other.error)),
        }
    }
    Err(Problem::conflict(
        "there are too many files of this name: remove some",
    ))
}

/// A file that was made for the person who holds the phone.
#[derive(Debug, Serialize)]
pub struct SavedFile {
    /// Where it lies.
    path: String,
    /// Its length.
    bytes: u64,
}

/// The name, then the same with a number behind.
fn names(folder: &Path, name: &str) -> impl Iterator<Item = PathBuf> {
    let (stem, ending) = name.rsplit_once('.').unwrap_or((name, ""));
    let numbered = (2..1000).map(move |number| folder.join(format!("{stem}-{number}.{ending}")));
    std::iter::once(folder.join(name)).chain(numbered)
}

/// Opens the notebook in `folder`, made if it is not there, and its crew. Where it
/// cannot be opened, the window opens all the same and its screens say what is wrong.
pub fn notebook(folder: &Path) -> (Keeper, Crew) {
    opened(folder).unwrap_or_else(|problem| {
        let crew = Crew::without(problem.message.clone());
        (Keeper::without(problem), crew)
    })
}

fn opened(folder: &Path) -> Result<(Keeper, Crew), Problem> {
    let path = match env::var_os(NOTEBOOK) {
        Some(path) => PathBuf::from(path),
        None => {
            fs::create_dir_all(folder).map_err(|error| Problem {
                code: ProblemCode::Unavailable,
                message: format!("{} cannot be made: {error}", folder.display()),
            })?;
            folder.join("notebook.db")
        }
    };
    let today = env::var(TODAY).ok().as_deref().map(date).transpose()?;
    let keeper = Keeper::open(&path, today);
    Ok((keeper, Crew::open(&path, today)))
}

fn date(day: &str) -> Result<NaiveDate, Problem> {
    day.parse().map_err(|_| Problem {
        code: ProblemCode::BadInput,
        message: format!("{TODAY} is '{day}': give a date as 2026-09-16"),
    })
}
