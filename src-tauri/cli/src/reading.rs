//! Opening a notebook that is only read: also where it may not be written to, or
//! lacks what it showed as saved.

use std::io::{self, Write};
use std::path::Path;

use chrono::NaiveDate;
use notebook::{Clock, Notebook, OnDate, StoreError, SystemClock, SystemRandomness};

use crate::failure::Failure;

/// Opens the notebook at `path`, by `today` where it is given. Of one that cannot be
/// opened where it lies a copy is read; what it lacks is said on standard error.
pub fn open(path: &Path, today: Option<NaiveDate>) -> Result<Notebook, Failure> {
    let opened = match Notebook::open_here(path, today) {
        Err(StoreError::ReadOnly) => copy(path, today),
        Err(error @ StoreError::Lacks(_)) => {
            let failure = Failure::from(error).in_file(path);
            writeln!(io::stderr(), "headwalk: {failure}")?;
            copy(path, today)
        }
        opened => opened,
    };
    opened.map_err(|error| Failure::from(error).in_file(path))
}

fn copy(path: &Path, today: Option<NaiveDate>) -> Result<Notebook, StoreError> {
    let clock: Box<dyn Clock> = match today {
        Some(day) => Box::new(OnDate(day)),
        None => Box::new(SystemClock),
    };
    Notebook::open_copy(path, clock, Box::new(SystemRandomness))
}
