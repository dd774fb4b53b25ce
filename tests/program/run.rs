//! Runs the program in a folder of its own.

use std::path::{Path, PathBuf};
use std::process::Command;

use headwalk_tests::program::headwalk;
use tempfile::TempDir;

/// What came of a run.
pub struct Ran {
    pub code: i32,
    pub out: String,
    pub err: String,
}

impl Ran {
    /// The output as JSON, a line each.
    pub fn lines(&self) -> Vec<serde_json::Value> {
        self.out
            .lines()
            .map(|line| serde_json::from_str(line).unwrap())
            .collect()
    }
}

/// A folder with files.
pub struct Folder(TempDir);

impl Folder {
    pub fn new() -> Folder {
        Folder(tempfile::tempdir().unwrap())
    }

    pub fn path(&self) -> &Path {
        self.0.path()
    }

    pub fn file(&self, name: &str, content: impl AsRef<[u8]>) -> PathBuf {
        let path = self.0.path().join(name);
        std::fs::write(&path, content).unwrap();
        path
    }

    pub fn run(&self, arguments: &[&str]) -> Ran {
        let output = Command::new(headwalk().unwrap())
            .current_dir(self.0.path())
            .args(arguments)
            .output()
            .unwrap();
        Ran {
            code: output.status.code().unwrap(),
            out: String::from_utf8(output.stdout).unwrap(),
            err: String::from_utf8(output.stderr).unwrap(),
        }
    }
}
