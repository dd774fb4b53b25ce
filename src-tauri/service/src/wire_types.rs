//! TypeScript declarations of what crosses between a face and the service.

use std::path::Path;

use ts_rs::{Config, ExportError, TS};

use crate::request::{Answered, Asked};
use crate::{ArchiveIn, Changed, FileOut, FileRequest, PhotoSize, Problem};

/// Writes one file a type into `folder`: what each request says and is answered, the
/// problem, and everything they are made of. Whole numbers are `number` there: none of
/// them comes near 2^53.
///
/// # Errors
/// When a file cannot be written.
pub fn export(folder: &Path) -> Result<(), ExportError> {
    let config = Config::new().with_out_dir(folder).with_large_int("number");
    Asked::export_all(&config)?;
    Answered::export_all(&config)?;
    FileRequest::export_all(&config)?;
    PhotoSize::export_all(&config)?;
    Changed::export_all(&config)?;
    FileOut::export_all(&config)?;
    ArchiveIn::export_all(&config)?;
    Problem::export_all(&config)
}
