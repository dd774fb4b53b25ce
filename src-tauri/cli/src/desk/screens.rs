//! The files of the screens: built in, or from a folder.

use std::borrow::Cow;
use std::fs;
use std::path::{Component, Path, PathBuf};

use crate::failure::Failure;

mod built_in {
    include!(concat!(env!("OUT_DIR"), "/screens.rs"));
}

/// Where the files come from.
pub enum Screens {
    /// Put into the program when it was built.
    BuiltIn,
    /// From this folder.
    Folder(PathBuf),
}

impl Screens {
    /// Those of a folder where one is given.
    pub fn new(folder: Option<&Path>) -> Result<Screens, Failure> {
        match folder {
            Some(folder) if folder.join("index.html").is_file() => {
                Ok(Screens::Folder(folder.to_owned()))
            }
            Some(folder) => Err(Failure::call(
                "there is no index.html in this folder: give the folder of the built screens",
            )
            .in_file(folder)),
            None if built_in::FILES.is_empty() => Err(Failure::call(
                "this program was built without the screens: build them (npm run build in ui) \
                 and then the program, or give --screens DIR",
            )),
            None => Ok(Screens::BuiltIn),
        }
    }

    /// The file at an address of the page.
    pub fn file(&self, address: &str) -> Option<Cow<'static, [u8]>> {
        let address = address.trim_start_matches('/');
        let address = if address.is_empty() {
            "index.html"
        } else {
            address
        };
        match self {
            Screens::BuiltIn => built_in::FILES
                .iter()
                .find(|(known, _)| *known == address)
                .map(|(_, content)| Cow::Borrowed(*content)),
            Screens::Folder(folder) => {
                let inside = Path::new(address)
                    .components()
                    .all(|part| matches!(part, Component::Normal(_)));
                let path = folder.join(address);
                // Links out of the folder are followed to their end and refused.
                let stays = path
                    .canonicalize()
                    .ok()?
                    .starts_with(folder.canonicalize().ok()?);
                (inside && stays)
                    .then(|| fs::read(path).ok())
                    .flatten()
                    .map(Cow::Owned)
            }
        }
    }
}

/// Media type by the ending of the name.
pub fn media_type(address: &str) -> &'static str {
    let ending = address
        .rsplit_once('.')
        .map_or("html", |(_, ending)| ending);
    match ending {
        "html" => "text/html; charset=utf-8",
        "js" => "text/javascript; charset=utf-8",
        "css" => "text/css; charset=utf-8",
        "json" | "webmanifest" => "application/json",
        "svg" => "image/svg+xml",
        "png" => "image/png",
        "woff2" => "font/woff2",
        "txt" => "text/plain; charset=utf-8",
        _ => "application/octet-stream",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_folder_gives_its_own_files_and_no_others() {
        let outer = Path::new(env!("CARGO_MANIFEST_DIR"));
        let screens = Screens::Folder(outer.join("src"));
        assert!(screens.file("/main.rs").is_some());
        assert!(screens.file("/desk/mod.rs").is_some());
        for outside in [
            "/../Cargo.toml",
            "/desk/../../Cargo.toml",
            "//etc/hosts",
            "/desk",
            "/.",
        ] {
            assert_eq!(screens.file(outside), None, "{outside}");
        }
    }
}
