//! What the whole-system checks share: where the repository lies, and the
//! program under test.

pub mod program;

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
