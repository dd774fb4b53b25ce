//! The notebook that the window holds open.

use std::path::{Path, PathBuf};
use std::{env, fs};

use chrono::NaiveDate;
use notebook::service::{Keeper, Problem, ProblemCode};

/// Another notebook than the one in the app's data folder.
const NOTEBOOK: &str = "HEADWALK_NOTEBOOK";
/// Another day than the clock's, for the demo and for rehearsals.
const TODAY: &str = "HEADWALK_TODAY";

/// Opens the notebook in `folder`, made if it is not there. Where it cannot be
/// opened, the window opens all the same and its screens say what is wrong.
pub fn keeper(folder: &Path) -> Keeper {
    opened(folder).unwrap_or_else(Keeper::without)
}

fn opened(folder: &Path) -> Result<Keeper, Problem> {
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
    Ok(Keeper::open(&path, today))
}

fn date(day: &str) -> Result<NaiveDate, Problem> {
    day.parse().map_err(|_| Problem {
        code: ProblemCode::BadInput,
        message: format!("{TODAY} is '{day}': give a date as 2026-09-16"),
    })
}
