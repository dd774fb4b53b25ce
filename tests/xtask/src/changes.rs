//! What has changed since the main line, and which parts of the house that concerns.

use std::collections::BTreeSet;

use anyhow::Context as _;
use xshell::{Shell, cmd};

/// Folders and the packages whose code lies in them; the longest that fits counts.
const PACKAGES: [(&str, &str); 17] = [
    ("demo-data/", "invented-season"),
    ("migrations/hub/", "hub"),
    ("migrations/notebook/", "notebook"),
    ("src-tauri/", "headwalk-shell"),
    ("src-tauri/cli/", "headwalk-cli"),
    ("src-tauri/exchange/", "exchange"),
    ("src-tauri/hub/", "hub"),
    ("src-tauri/kinds/", "kinds"),
    ("src-tauri/notebook/", "notebook"),
    ("src-tauri/readers/", "readers"),
    ("src-tauri/ripening/", "ripening"),
    ("src-tauri/service/", "service"),
    ("src-tauri/sheet/", "sheet"),
    ("src-tauri/wire/", "wire"),
    ("src-tauri/words/", "words"),
    ("tests/", "headwalk-tests"),
    ("tests/xtask/", "xtask"),
];

/// Files by their paths.
pub struct Changes(Vec<String>);

impl Changes {
    /// What differs from `since`; without it, from where this branch left the main
    /// line. What is not committed counts too.
    pub fn since(shell: &Shell, since: Option<&str>) -> anyhow::Result<Changes> {
        let base = match since {
            Some(base) => base.to_owned(),
            None => cmd!(shell, "git merge-base HEAD main")
                .quiet()
                .ignore_stderr()
                .read()
                .unwrap_or_else(|_| "HEAD".to_owned()),
        };
        let differ = cmd!(shell, "git diff --name-only -z {base}")
            .quiet()
            .read()
            .with_context(|| format!("git does not know '{base}': give a commit or a branch"))?;
        let new = cmd!(shell, "git ls-files -z --others --exclude-standard")
            .quiet()
            .read()?;
        let files = differ.split('\0').chain(new.split('\0'));
        Ok(Changes(
            files
                .filter(|file| !file.is_empty())
                .map(str::to_owned)
                .collect(),
        ))
    }

    /// The packages in which Rust, or what is compiled into it, changed.
    pub fn packages(&self) -> BTreeSet<&'static str> {
        self.0
            .iter()
            .filter(|file| !file.ends_with(".ts") && !file.ends_with(".md"))
            .filter_map(|file| {
                PACKAGES
                    .iter()
                    .filter(|(folder, _)| file.starts_with(folder))
                    .max_by_key(|(folder, _)| folder.len())
            })
            .map(|(_, package)| *package)
            .collect()
    }

    /// Whether the versions or features of libraries changed, which concerns all.
    pub fn libraries(&self) -> bool {
        self.0
            .iter()
            .any(|file| file == "Cargo.toml" || file == "Cargo.lock")
    }

    /// Whether the screens' code or packages changed.
    pub fn screens(&self) -> bool {
        self.0.iter().any(|file| file.starts_with("ui/"))
    }

    /// Whether the browser or window tests changed.
    pub fn browser_tests(&self) -> bool {
        self.0.iter().any(|file| {
            let web = [".ts", ".json"].iter().any(|ending| file.ends_with(ending));
            file.starts_with("tests/") && web
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn changes(files: &[&str]) -> Changes {
        Changes(files.iter().map(|file| (*file).to_owned()).collect())
    }

    #[test]
    fn a_file_concerns_the_innermost_package() {
        let of = |file: &str| changes(&[file]).packages().into_iter().collect::<Vec<_>>();
        assert_eq!(of("src-tauri/src/lib.rs"), ["headwalk-shell"]);
        assert_eq!(of("src-tauri/hub/src/door.rs"), ["hub"]);
        assert_eq!(of("tests/xtask/src/main.rs"), ["xtask"]);
        assert_eq!(of("tests/grain/money.rs"), ["headwalk-tests"]);
        assert_eq!(of("migrations/notebook/0012_merges.sql"), ["notebook"]);
        assert!(of("README.md").is_empty());
        assert!(of("tests/browser/desk.ts").is_empty());
    }

    #[test]
    fn screens_and_browser_tests_are_told_from_rust() {
        let screens = changes(&["ui/src/App.svelte"]);
        assert!(screens.screens() && !screens.browser_tests() && screens.packages().is_empty());
        let browser = changes(&["tests/browser/desk.ts"]);
        assert!(browser.browser_tests() && !browser.screens());
        assert!(changes(&["Cargo.lock"]).libraries() && !browser.libraries());
    }
}
