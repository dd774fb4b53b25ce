//! Puts the built screens (`ui/dist`), where they exist, into the program. No
//! Node is needed to build it: without them the desk says what to do.

use std::env;
use std::fmt::Write as _;
use std::fs;
use std::io;
use std::path::{Path, PathBuf};

fn main() -> io::Result<()> {
    let manifest = env::var_os("CARGO_MANIFEST_DIR").unwrap_or_default();
    let screens = Path::new(&manifest).join("../../ui/dist");
    // A watched path that does not exist counts as changed at every build, and the
    // program would be linked anew each time; so until the screens are built, the
    // folder in which they will appear is watched.
    let watched = if screens.is_dir() { "ui/dist" } else { "ui" };
    println!("cargo::rerun-if-changed=../../{watched}");
    let mut files = Vec::new();
    if screens.join("index.html").is_file() {
        gather(&screens, &mut files)?;
        files.sort();
    }
    let mut list = String::from("/// Address and content of every file of the screens.\n");
    list.push_str("pub static FILES: &[(&str, &[u8])] = &[\n");
    for file in &files {
        let absolute = file.canonicalize()?;
        let address = address_of(file, &screens);
        let _ = writeln!(list, "    ({address:?}, include_bytes!({absolute:?})),");
    }
    list.push_str("];\n");
    let out = PathBuf::from(env::var_os("OUT_DIR").unwrap_or_default());
    fs::write(out.join("screens.rs"), list)
}

fn gather(folder: &Path, files: &mut Vec<PathBuf>) -> io::Result<()> {
    for entry in fs::read_dir(folder)? {
        let path = entry?.path();
        if path.is_dir() {
            gather(&path, files)?;
        } else {
            files.push(path);
        }
    }
    Ok(())
}

fn address_of(file: &Path, screens: &Path) -> String {
    let parts: Vec<String> = file
        .strip_prefix(screens)
        .unwrap_or(file)
        .iter()
        .map(|part| part.to_string_lossy().into_owned())
        .collect();
    parts.join("/")
}
