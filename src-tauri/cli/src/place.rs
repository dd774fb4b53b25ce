//! Where files are: those given, and the notebook where none is.

use std::fs::{self, File};
use std::io::{self, Read};
use std::path::{Path, PathBuf};

use crate::failure::Failure;

/// The app's folder among the user's data: its identifier in `tauri.conf.json`, so
/// that the window and the command line open the same notebook.
const FOLDER: &str = "app.headwalk";

/// The notebook of this user, where the call names none.
pub fn own_notebook() -> Result<PathBuf, Failure> {
    let folder = dirs::data_dir()
        .ok_or_else(|| Failure::call("this user has no data folder: give --notebook FILE"))?
        .join(FOLDER);
    fs::create_dir_all(&folder).map_err(|error| Failure::from(error).in_file(&folder))?;
    Ok(folder.join("notebook.db"))
}

/// Opens a file to read; `-` is standard input.
pub fn source(path: &Path) -> Result<Box<dyn Read + Send>, Failure> {
    if path == Path::new("-") {
        return Ok(Box::new(io::stdin()));
    }
    let file = File::open(path).map_err(|error| {
        let what = match error.kind() {
            io::ErrorKind::NotFound => "there is no such file: check the path".to_owned(),
            io::ErrorKind::PermissionDenied => "the file may not be read".to_owned(),
            _ => error.to_string(),
        };
        Failure::work(what).in_file(path)
    })?;
    Ok(Box::new(file))
}
