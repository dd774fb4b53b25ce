//! TypeScript declarations of what crosses between a face and the crew.

use super::{CrewProblem, CrewReply, CrewRequest};
use std::path::Path;
use ts_rs::{Config, ExportError, TS};

/// Writes one file a type into `folder`, as the notebook's declarations are.
///
/// # Errors
/// When a file cannot be written.
pub fn export(folder: &Path) -> Result<(), ExportError> {
    let config = Config::new().with_out_dir(folder).with_large_int("number");
    CrewRequest::export_all(&config)?;
    CrewReply::export_all(&config)?;
    CrewProblem::export_all(&config)
}
