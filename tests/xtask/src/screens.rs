//! The screens: their packages and their build, each done again only when it
//! would come out differently.

use std::path::Path;
use std::time::SystemTime;

use anyhow::Context as _;
use walkdir::WalkDir;
use xshell::{Shell, cmd};

use crate::needs;

/// Folders that hold what is made, not what it is made from.
const MADE: [&str; 2] = ["node_modules", "dist"];

/// Installs the packages that `folder`'s lock file names, unless they are there.
pub fn packages(shell: &Shell, folder: &str) -> anyhow::Result<()> {
    needs::node(shell)?;
    let _inside = shell.push_dir(folder);
    let lock = shell.read_file("package-lock.json")?;
    let stamp = "node_modules/.installed-lock.json";
    if shell
        .read_file(stamp)
        .is_ok_and(|installed| installed == lock)
    {
        return Ok(());
    }
    cmd!(shell, "npm ci --no-audit --no-fund").run()?;
    shell.write_file(stamp, lock)?;
    Ok(())
}

/// Builds the screens into `ui/dist`, unless they are newer than their sources.
pub fn build(shell: &Shell) -> anyhow::Result<()> {
    packages(shell, "ui")?;
    let top = shell.current_dir();
    let built = modified(&top.join("ui/dist/index.html"));
    if built.is_some_and(|built| newest(&top.join("ui")).is_ok_and(|source| source < built)) {
        return Ok(());
    }
    let _inside = shell.push_dir("ui");
    cmd!(shell, "npm run --silent build").run()?;
    Ok(())
}

fn newest(folder: &Path) -> anyhow::Result<SystemTime> {
    WalkDir::new(folder)
        .into_iter()
        .filter_entry(|entry| !MADE.iter().any(|made| entry.file_name() == *made))
        .filter_map(Result::ok)
        .filter(|entry| entry.file_type().is_file())
        .filter_map(|entry| modified(entry.path()))
        .max()
        .context("the screens have no sources")
}

fn modified(path: &Path) -> Option<SystemTime> {
    path.metadata().and_then(|file| file.modified()).ok()
}
