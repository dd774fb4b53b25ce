//! The catalogue: both languages in step, and the code that is written from it current.

#![allow(clippy::unwrap_used, clippy::panic)]

use std::fs;
use std::path::{Path, PathBuf};

use words::{Domain, Language, differences, read_catalog, rust, typescript};

/// Set to 1 to write the code instead of comparing it.
const WRITE: &str = "HEADWALK_WRITE_WORDS";

fn here() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR"))
}

fn catalog(language: Language) -> Vec<Domain> {
    read_catalog(&here().join("catalog"), language).unwrap_or_else(|problem| panic!("{problem}"))
}

#[test]
fn the_languages_have_the_same_messages_and_arguments() {
    let source = catalog(Language::English);
    assert!(source.len() > 15, "only {} domains", source.len());
    for language in Language::ALL {
        if language == Language::English {
            continue;
        }
        let found = differences(&source, &catalog(language));
        assert!(found.is_empty(), "{language:?}:\n{}", found.join("\n"));
    }
}

#[test]
fn the_written_code_is_that_of_the_catalog() {
    let source = catalog(Language::English);
    let folder = here().join("../../ui/src/messages/generated");
    let written = typescript(&source);
    for (name, fresh) in &written {
        up_to_date(&folder.join(name), fresh);
    }
    for entry in fs::read_dir(&folder).unwrap() {
        let name = entry.unwrap().file_name().into_string().unwrap();
        assert!(
            written.contains_key(&name),
            "{name} is of no domain: remove it"
        );
    }
    up_to_date(&here().join("src/say.rs"), &rust(&source));
}

fn up_to_date(path: &Path, fresh: &str) {
    if std::env::var_os(WRITE).is_some_and(|value| value == "1") {
        fs::write(path, fresh).unwrap();
        return;
    }
    let committed = fs::read_to_string(path).unwrap_or_default();
    assert!(
        committed == fresh,
        "{} is stale; write it anew with {WRITE}=1 cargo test -p words",
        path.display()
    );
}
