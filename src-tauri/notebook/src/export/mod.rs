//! The notebook in files of open form, for the grower's own tools: head, planting
//! and weather tables as this notebook also reads them, and the stops as GeoJSON.
//!
//! What is removed is left out; who wants the whole history takes the
//! [archive](crate::archive).

mod heads;
mod observations;
mod outlines;
mod photos;
mod plantings;
mod stops;
mod weather;

use std::io;

use thiserror::Error;

use crate::error::StoreError;
use crate::photo::PhotoName;

pub use heads::heads;
pub(crate) use observations::observations;
pub(crate) use outlines::outlines;
pub(crate) use photos::photos;
pub use plantings::plantings;
pub use stops::stops;
pub use weather::{stored_units, weather};

/// Why a file was not written.
#[derive(Debug, Error)]
pub enum ExportError {
    /// The notebook cannot be read.
    #[error(transparent)]
    Store(#[from] StoreError),
    /// The file cannot be written.
    #[error("the file cannot be written: {0}")]
    Io(#[from] io::Error),
}

impl From<rusqlite::Error> for ExportError {
    fn from(error: rusqlite::Error) -> Self {
        ExportError::Store(error.into())
    }
}

impl From<csv::Error> for ExportError {
    fn from(error: csv::Error) -> Self {
        ExportError::Io(error.into())
    }
}

impl From<serde_json::Error> for ExportError {
    fn from(error: serde_json::Error) -> Self {
        ExportError::Io(error.into())
    }
}

impl From<zip::result::ZipError> for ExportError {
    fn from(error: zip::result::ZipError) -> Self {
        ExportError::Io(error.into())
    }
}

/// A number as a table holds it: as short as it can be and still the same.
fn shown(number: Option<f64>) -> String {
    number.map(|number| number.to_string()).unwrap_or_default()
}

/// Where a photo lies in an archive.
pub(crate) fn photo_file(name: PhotoName) -> String {
    format!("photos/{name}.jpg")
}
