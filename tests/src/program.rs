//! The `headwalk` program, built once and found where Cargo puts it.

use std::io;
use std::path::PathBuf;
use std::process::Command;
use std::sync::OnceLock;

static PROGRAM: OnceLock<Result<PathBuf, String>> = OnceLock::new();

/// Set by the test command, which has built the program with its own flags; a
/// build with others would compile half of the house once more.
const BUILT: &str = "HEADWALK_PROGRAM";

/// Path of the `headwalk` program: the one that the test command built, or else
/// built here if it is not up to date.
///
/// # Errors
/// When Cargo cannot be run or the build fails.
pub fn headwalk() -> io::Result<PathBuf> {
    PROGRAM.get_or_init(build).clone().map_err(io::Error::other)
}

fn build() -> Result<PathBuf, String> {
    if let Some(built) = std::env::var_os(BUILT) {
        return Ok(PathBuf::from(built));
    }
    let cargo = std::env::var_os("CARGO").unwrap_or_else(|| "cargo".into());
    let output = Command::new(cargo)
        .current_dir(crate::repository())
        .args(["build", "--quiet", "--locked", "--bin", "headwalk"])
        .args(["--message-format", "json"])
        .output()
        .map_err(|error| format!("cargo could not be run: {error}"))?;
    if !output.status.success() {
        return Err(format!(
            "headwalk does not build:\n{}",
            String::from_utf8_lossy(&output.stderr)
        ));
    }
    String::from_utf8_lossy(&output.stdout)
        .lines()
        .filter_map(|line| serde_json::from_str::<serde_json::Value>(line).ok())
        .filter_map(|message| message["executable"].as_str().map(PathBuf::from))
        .next_back()
        .ok_or_else(|| "cargo named no executable for headwalk".to_owned())
}
