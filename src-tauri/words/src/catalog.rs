use std::fs;
use std::path::Path;

use crate::signature::Signature;
use crate::{CatalogError, Language};

/// Messages of one domain in one language.
#[derive(Debug)]
pub struct Domain {
    /// Name of the domain and of its file, in lower case with hyphens.
    pub name: String,
    /// What each message offers and takes, in the order of the file.
    pub signature: Signature,
}

/// Domains of a language in the catalogue at `folder`, by name.
///
/// # Errors
/// The first file that cannot be read, or holds what is not a message.
pub fn read_catalog(folder: &Path, language: Language) -> Result<Vec<Domain>, CatalogError> {
    let folder = folder.join(language.folder());
    let unreadable = |path: &Path, source| CatalogError::Unreadable {
        path: path.display().to_string(),
        source,
    };
    let mut domains = Vec::new();
    for entry in fs::read_dir(&folder).map_err(|source| unreadable(&folder, source))? {
        let path = entry.map_err(|source| unreadable(&folder, source))?.path();
        if path.extension().is_none_or(|extension| extension != "ftl") {
            continue;
        }
        let name = path
            .file_stem()
            .unwrap_or_default()
            .to_string_lossy()
            .into_owned();
        let text = fs::read_to_string(&path).map_err(|source| unreadable(&path, source))?;
        let signature = Signature::read(&text).map_err(|problem| CatalogError::Malformed {
            file: format!("{}/{name}", language.folder()),
            problem,
        })?;
        domains.push(Domain { name, signature });
    }
    domains.sort_by(|one, other| one.name.cmp(&other.name));
    Ok(domains)
}
