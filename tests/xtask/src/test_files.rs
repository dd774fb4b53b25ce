//! Files of `tests` that no crate of its manifest reaches: they compile nowhere, and
//! what they check is checked by nobody.

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

/// Crates whose place Cargo knows without a word in the manifest.
const KNOWN: [&str; 2] = ["tests/src/lib.rs", "tests/xtask/src/main.rs"];

/// The Rust files that are neither named in the manifest nor declared by a file that
/// is reached from it, out of `sources` (a file's path and its text).
pub fn forgotten(manifest: &str, sources: &BTreeMap<PathBuf, String>) -> Vec<PathBuf> {
    let mut waiting: Vec<(PathBuf, bool)> = roots(manifest)
        .into_iter()
        .chain(KNOWN.map(PathBuf::from))
        .map(|root| (root, true))
        .collect();
    let mut reached = BTreeSet::new();
    while let Some((file, is_root)) = waiting.pop() {
        let Some(text) = sources.get(&file) else {
            continue;
        };
        if reached.insert(file.clone()) {
            let modules = modules(&file, is_root, text);
            waiting.extend(modules.into_iter().map(|module| (module, false)));
        }
    }
    sources
        .keys()
        .filter(|file| !reached.contains(*file))
        .cloned()
        .collect()
}

/// Files of the manifest's tests and benches.
fn roots(manifest: &str) -> Vec<PathBuf> {
    manifest
        .split("\n[")
        .filter_map(|section| {
            let kind = ["test", "bench"]
                .into_iter()
                .find(|kind| section.starts_with(&format!("[{kind}]]")))?;
            let value = |key: &str| {
                section.lines().find_map(|line| {
                    let rest = line.strip_prefix(key)?.trim_start().strip_prefix('=')?;
                    Some(rest.trim().trim_matches('"'))
                })
            };
            let folder = if kind == "bench" { "benches" } else { "tests" };
            let path = match value("path") {
                Some(path) => PathBuf::from(path),
                None => Path::new(folder).join(format!("{}.rs", value("name")?)),
            };
            Some(Path::new("tests").join(path))
        })
        .collect()
}

/// Files that a file's `mod NAME;` may mean.
fn modules(file: &Path, is_root: bool, text: &str) -> Vec<PathBuf> {
    let folder = file.parent().unwrap_or(Path::new(""));
    let stem = file.file_stem().unwrap_or_default();
    let inside = if is_root || stem == "mod" {
        folder.to_owned()
    } else {
        folder.join(stem)
    };
    let mut named: Option<&str> = None;
    let mut found = Vec::new();
    for line in text.lines().map(str::trim) {
        if let Some(path) = line.strip_prefix("#[path = \"") {
            named = path.strip_suffix("\"]");
            continue;
        }
        let declared = line
            .trim_start_matches("pub(crate) ")
            .trim_start_matches("pub(super) ")
            .trim_start_matches("pub ")
            .strip_prefix("mod ")
            .and_then(|rest| rest.strip_suffix(';'));
        if let Some(name) = declared {
            match named {
                Some(path) => found.push(plain(&folder.join(path))),
                None => {
                    found.push(inside.join(format!("{name}.rs")));
                    found.push(inside.join(name).join("mod.rs"));
                }
            }
        }
        // Other attributes may stand between the path and its module.
        if !line.starts_with("#[") {
            named = None;
        }
    }
    found
}

/// The same path without `..`.
fn plain(path: &Path) -> PathBuf {
    let mut plain = PathBuf::new();
    for part in path {
        if part == ".." {
            plain.pop();
        } else {
            plain.push(part);
        }
    }
    plain
}

#[cfg(test)]
mod tests {
    use super::*;

    const MANIFEST: &str = "[package]\nname = \"headwalk-tests\"\n\n\
        [[test]]\nname = \"grain\"\npath = \"grain/main.rs\"\n\n\
        [[bench]]\nname = \"photos\"\nharness = false\n\n\
        [lints]\nworkspace = true\n";

    fn sources(files: &[(&str, &str)]) -> BTreeMap<PathBuf, String> {
        files
            .iter()
            .map(|(path, text)| (PathBuf::from(path), (*text).to_owned()))
            .collect()
    }

    #[test]
    fn a_file_is_reached_by_the_manifest_or_by_a_module() {
        let all = sources(&[
            ("tests/src/lib.rs", "pub mod program;"),
            ("tests/src/program.rs", ""),
            ("tests/benches/photos.rs", ""),
            (
                "tests/grain/main.rs",
                "mod money;\n#[allow(dead_code)]\n#[path = \"../notebook/faces.rs\"]\nmod faces;\n",
            ),
            ("tests/grain/money.rs", "mod table;"),
            ("tests/grain/money/table.rs", ""),
            ("tests/notebook/faces.rs", ""),
        ]);
        assert_eq!(forgotten(MANIFEST, &all), Vec::<PathBuf>::new());
    }

    #[test]
    fn a_test_that_the_manifest_forgets_is_named() {
        let all = sources(&[
            ("tests/grain/main.rs", "// mod prices;\nmod money;"),
            ("tests/grain/money.rs", ""),
            ("tests/grain/prices.rs", "mod table;"),
            ("tests/grain/table.rs", ""),
            ("tests/readers/zipped.rs", "#[test]\nfn zipped() {}\n"),
        ]);
        assert_eq!(
            forgotten(MANIFEST, &all),
            [
                "tests/grain/prices.rs",
                "tests/grain/table.rs",
                "tests/readers/zipped.rs"
            ]
            .map(PathBuf::from)
        );
    }
}
