//! The command line on a notebook that may only be read, that lacks something, or
//! whose name would mean something else to the database.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};

use headwalk_tests::program::headwalk;
use tempfile::TempDir;

const PLANTINGS: &str = "planting,hybrid,planted_on,purpose\nNorth 40,H-17,2026-05-20,grain\n";

fn run(folder: &Path, arguments: &[&str]) -> Output {
    Command::new(headwalk().unwrap())
        .args(arguments)
        .current_dir(folder)
        .output()
        .unwrap()
}

fn text(bytes: &[u8]) -> String {
    String::from_utf8_lossy(bytes).into_owned()
}

/// Makes a notebook of this name with one planting.
fn made(folder: &Path, name: &str) {
    fs::write(folder.join("plantings.csv"), PLANTINGS).unwrap();
    let import = run(folder, &["import", "--notebook", name, "plantings.csv"]);
    assert!(import.status.success(), "{}", text(&import.stderr));
}

fn beside(path: &Path, ending: &str) -> PathBuf {
    let mut name = path.as_os_str().to_owned();
    name.push(ending);
    name.into()
}

#[test]
fn a_name_that_looks_like_an_address_is_a_name() {
    for name in [
        "file:n.db",
        "file:n.db?mode=memory",
        ":memory:",
        "FILE:x.db",
    ] {
        let folder = tempfile::tempdir().unwrap();
        made(folder.path(), name);
        assert!(folder.path().join(name).is_file(), "{name}");
        let export = run(
            folder.path(),
            &["export", "plantings", "--notebook", name, "--to", "-"],
        );
        assert!(text(&export.stdout).contains("North 40"), "{name}");
        let backup = run(
            folder.path(),
            &["backup", "--notebook", name, "file:copy.db?mode=memory"],
        );
        assert!(backup.status.success(), "{name}: {}", text(&backup.stderr));
        assert!(folder.path().join("file:copy.db?mode=memory").is_file());
        let restore = run(
            folder.path(),
            &[
                "restore",
                "--notebook",
                "other.db",
                "file:copy.db?mode=memory",
            ],
        );
        assert!(
            restore.status.success(),
            "{name}: {}",
            text(&restore.stderr)
        );
    }
}

/// A folder that may only be read, until it is dropped: mounted so where this runs as
/// root, by its rights elsewhere.
struct ReadOnly {
    folder: TempDir,
    mounted: bool,
}

impl ReadOnly {
    fn of(folder: TempDir) -> ReadOnly {
        let at = folder.path();
        let mounted = quiet(&["mount", "--bind"], &[at, at])
            && quiet(&["mount", "-o", "remount,ro,bind"], &[at]);
        if !mounted {
            rights(at, true);
        }
        ReadOnly { folder, mounted }
    }
}

impl Drop for ReadOnly {
    fn drop(&mut self) {
        if self.mounted {
            quiet(&["umount", "-l"], &[self.folder.path()]);
        } else {
            rights(self.folder.path(), false);
        }
    }
}

fn rights(folder: &Path, read_only: bool) {
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        let mut rights = fs::metadata(&path).unwrap().permissions();
        rights.set_readonly(read_only);
        fs::set_permissions(&path, rights).unwrap();
    }
    let mut rights = fs::metadata(folder).unwrap().permissions();
    rights.set_readonly(read_only);
    fs::set_permissions(folder, rights).unwrap();
}

fn quiet(words: &[&str], paths: &[&Path]) -> bool {
    Command::new(words[0])
        .args(&words[1..])
        .args(paths)
        .stdout(Stdio::null())
        .stderr(Stdio::null())
        .status()
        .is_ok_and(|status| status.success())
}

#[test]
fn a_notebook_that_may_only_be_read_is_checked_and_exported() {
    let folder = tempfile::tempdir().unwrap();
    made(folder.path(), "n.db");
    let locked = ReadOnly::of(folder);
    let at = locked.folder.path();
    let before = fs::read(at.join("n.db")).unwrap();
    let export = run(
        at,
        &["export", "plantings", "--notebook", "n.db", "--to", "-"],
    );
    assert!(export.status.success(), "{}", text(&export.stderr));
    assert!(text(&export.stdout).contains("North 40"));
    let check = run(at, &["check", "--notebook", "n.db"]);
    assert!(check.status.success(), "{}", text(&check.stderr));
    // What would be written to is told.
    let import = run(at, &["import", "--notebook", "n.db", "plantings.csv"]);
    assert_eq!(import.status.code(), Some(1));
    assert!(text(&import.stderr).contains("read but not written"));
    assert_eq!(fs::read(at.join("n.db")).unwrap(), before);
}

#[test]
fn what_lacks_saved_changes_is_told_by_every_command_and_exported_all_the_same() {
    let folder = tempfile::tempdir().unwrap();
    let at = folder.path();
    made(at, "n.db");
    let earlier = fs::read(at.join("n.db")).unwrap();
    fs::write(
        at.join("plantings.csv"),
        PLANTINGS.replace("North 40", "Creek 3"),
    )
    .unwrap();
    let import = run(at, &["import", "--notebook", "n.db", "plantings.csv"]);
    assert!(import.status.success());
    fs::write(at.join("n.db"), &earlier).unwrap();
    for command in [
        &["check", "--notebook", "n.db"][..],
        &["check", "--mend", "--notebook", "n.db"],
        &["backup", "--notebook", "n.db", "copy.db"],
        &["import", "--notebook", "n.db", "plantings.csv"],
        &["restore", "--notebook", "other.db", "n.db"],
    ] {
        let told = run(at, command);
        assert_eq!(told.status.code(), Some(1), "{command:?}");
        let line = text(&told.stderr);
        assert_eq!(line.lines().count(), 1, "{line}");
        assert!(
            line.contains("lacks changes that were shown as saved"),
            "{line}"
        );
        assert_eq!(fs::read(at.join("n.db")).unwrap(), earlier, "{command:?}");
    }
    let export = run(
        at,
        &["export", "plantings", "--notebook", "n.db", "--to", "-"],
    );
    assert!(export.status.success());
    assert!(text(&export.stdout).contains("North 40"));
    assert!(text(&export.stderr).contains("lacks changes"));
    let salvage = run(at, &["check", "--salvage", "--notebook", "n.db"]);
    assert!(salvage.status.success());
    assert!(
        text(&salvage.stdout).contains("1 are lost"),
        "{}",
        text(&salvage.stdout)
    );
    assert!(run(at, &["check", "--notebook", "n.db"]).status.success());
    // What the file of that day named stays with it.
    let aside = fs::read_dir(at)
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .find(|path| {
            let name = path.file_name().unwrap().to_string_lossy().into_owned();
            name.starts_with("n-damaged-") && name.ends_with(".db")
        })
        .unwrap();
    assert!(beside(&aside, "-last").exists());
}

#[cfg(unix)]
#[test]
fn an_archive_is_its_owners_alone_and_a_table_is_not() {
    use std::os::unix::fs::PermissionsExt as _;
    let folder = tempfile::tempdir().unwrap();
    let at = folder.path();
    made(at, "n.db");
    for (what, name, mode) in [("archive", "a.zip", 0o600), ("plantings", "p.csv", 0o644)] {
        let export = run(at, &["export", what, "--notebook", "n.db", "--to", name]);
        assert!(export.status.success(), "{}", text(&export.stderr));
        let found = fs::metadata(at.join(name)).unwrap().permissions().mode() & 0o777;
        assert_eq!(found, mode, "{name}: {found:o}");
    }
}
