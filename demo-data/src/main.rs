//! Writes the invented season's files into the folder given, by default the
//! one where this program's sources lie.

use std::path::PathBuf;
use std::process::ExitCode;
use std::{env, fs};

fn main() -> ExitCode {
    let folder = env::args_os()
        .nth(1)
        .map_or_else(|| PathBuf::from(env!("CARGO_MANIFEST_DIR")), PathBuf::from);
    match write(&folder) {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            eprintln!("{}: {error}", folder.display());
            ExitCode::FAILURE
        }
    }
}

fn write(folder: &std::path::Path) -> Result<(), Box<dyn std::error::Error>> {
    for (name, bytes) in invented_season::season()?.all() {
        fs::write(folder.join(name), bytes)?;
    }
    Ok(())
}
