//! The screens' declarations of the wire types must be those of the Rust types.

#![allow(clippy::unwrap_used)]

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

/// Set to 1 to write the declarations instead of comparing them.
const WRITE: &str = "HEADWALK_WRITE_TYPES";

#[test]
fn the_screens_declare_the_services_types() {
    let fresh = tempfile::tempdir().unwrap();
    service::wire_types::export(fresh.path()).unwrap();
    exchange::service::wire_types::export(fresh.path()).unwrap();
    let fresh = declarations(fresh.path());
    assert!(fresh.len() > 20, "only {} types exported", fresh.len());

    let folder = headwalk_tests::repository().join("ui/src/wire");
    if std::env::var_os(WRITE).is_some_and(|value| value == "1") {
        let _ = fs::remove_dir_all(&folder);
        fs::create_dir_all(&folder).unwrap();
        for (name, text) in &fresh {
            fs::write(folder.join(name), text).unwrap();
        }
        return;
    }
    let committed = declarations(&folder);
    let stale: Vec<&String> = fresh
        .keys()
        .chain(committed.keys())
        .filter(|name| fresh.get(*name) != committed.get(*name))
        .collect();
    assert!(
        stale.is_empty(),
        "ui/src/wire is stale ({stale:?}); write it anew with {WRITE}=1 cargo test -p headwalk-tests --test wire_types"
    );
}

fn declarations(folder: &Path) -> BTreeMap<String, String> {
    let Ok(entries) = fs::read_dir(folder) else {
        return BTreeMap::new();
    };
    entries
        .map(|entry| entry.unwrap())
        .map(|entry| {
            let name = entry.file_name().into_string().unwrap();
            (name, fs::read_to_string(entry.path()).unwrap())
        })
        .collect()
}
