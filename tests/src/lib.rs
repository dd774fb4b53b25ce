//! What the whole-system checks share: where the repository lies, the program
//! under test, notebooks with a set clock, and simulated fields whose truth is
//! known.

pub mod absurd;
pub mod devices;
pub mod limit;
pub mod memory;
pub mod open_weather;
pub mod picture;
pub mod program;
pub mod simulation;

use std::path::{Path, PathBuf};

/// The top folder of the repository.
pub fn repository() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR"))
        .parent()
        .map_or_else(|| PathBuf::from("."), Path::to_path_buf)
}

/// The committed demo data.
pub fn demo_data() -> PathBuf {
    repository().join("demo-data")
}
