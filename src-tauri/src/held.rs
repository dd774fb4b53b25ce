//! The notebook that the window holds open.

use std::path::{Path, PathBuf};
use std::{env, fs};

use chrono::NaiveDate;
use notebook::service::{PhotoSize, Problem, ProblemCode, Reply, Request, SharedService};

/// Another notebook than the one in the app's data folder.
const NOTEBOOK: &str = "HEADWALK_NOTEBOOK";
/// Another day than the clock's, for the demo and for rehearsals.
const TODAY: &str = "HEADWALK_TODAY";

/// The service over the notebook; or, where that could not be opened, why. The
/// window opens all the same and its screens say what is wrong.
pub struct Held(Result<SharedService, Problem>);

impl Held {
    /// Opens the notebook in `folder`, made if it is not there.
    pub fn open(folder: &Path) -> Held {
        Held(open(folder))
    }

    /// Carries out a request.
    pub fn call(&self, request: Request) -> Result<Reply, Problem> {
        self.service()?.call(request)
    }

    /// Carries out a request that brings files.
    pub fn take_files(&self, message: &[u8]) -> Result<Reply, Problem> {
        self.service()?.take_files(message)
    }

    /// The bytes of a photo.
    pub fn photo(&self, name: &str, size: PhotoSize) -> Result<Vec<u8>, Problem> {
        self.service()?.photo(name, size)
    }

    fn service(&self) -> Result<&SharedService, Problem> {
        self.0.as_ref().map_err(Clone::clone)
    }
}

fn open(folder: &Path) -> Result<SharedService, Problem> {
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
    SharedService::open(&path, today)
}

fn date(day: &str) -> Result<NaiveDate, Problem> {
    day.parse().map_err(|_| Problem {
        code: ProblemCode::BadInput,
        message: format!("{TODAY} is '{day}': give a date as 2026-09-16"),
    })
}
