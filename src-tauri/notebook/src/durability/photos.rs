//! Whether the photos' files are whole.
//!
//! The log proves what a photo's file must be: its name is the SHA-256 of its bytes.
//! What a look finds is one of three things: a file that is not what its name says,
//! which is set aside and fetched again; a file that was here and is gone; and a
//! note about a file that was altered on the disk, which counts as nothing known.

use std::collections::BTreeSet;

use crate::error::StoreError;
use crate::notebook::Notebook;
use crate::photo::{PhotoFiles, PhotoName, marks};

/// What a look at the photos' files found.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct PhotosFound {
    /// Files read.
    pub files: u64,
    /// Files that are not what their names say.
    pub damaged: Vec<PhotoName>,
    /// Files that were here, were not freed, and are gone.
    pub missing: Vec<PhotoName>,
    /// Notes of what the hub holds that are not as they were written.
    pub notes: u64,
}

impl PhotosFound {
    /// Whether nothing was found.
    pub fn is_sound(&self) -> bool {
        self.damaged.is_empty() && self.missing.is_empty() && self.notes == 0
    }
}

/// Looks at every photo's file. Reads only; a notebook in memory has none.
///
/// # Errors
/// When the store or the disk fails.
pub fn look(notebook: &Notebook) -> Result<PhotosFound, StoreError> {
    let mut found = PhotosFound::default();
    let files = match notebook.photo_files() {
        Ok(files) => files,
        Err(StoreError::NoPhotoFolder) => return Ok(found),
        Err(error) => return Err(error),
    };
    let mut here = BTreeSet::new();
    for (name, _) in files.all()? {
        match files.is_whole(name)? {
            Some(true) => {}
            // A second look: another program may just have set it aside or fetched it.
            Some(false) if files.is_whole(name)? == Some(false) => found.damaged.push(name),
            Some(false) => {}
            // Freed since it was listed.
            None => continue,
        }
        found.files += 1;
        here.insert(name);
    }
    let known = marks::all(notebook.db())?;
    found.notes = known.altered;
    for name in notebook.photos_named()? {
        // Without a note it never was here: another device took it.
        let was_here = known.kept.get(&name).is_some_and(|mark| !mark.freed);
        if was_here && !here.contains(&name) && is_missing(notebook, &files, name)? {
            found.missing.push(name);
        }
    }
    Ok(found)
}

/// Looks once more for a file that was not among those listed: it may have come, or
/// its room been freed, since.
fn is_missing(
    notebook: &Notebook,
    files: &PhotoFiles,
    name: PhotoName,
) -> Result<bool, StoreError> {
    let gone = files.length(name).is_none();
    Ok(gone && marks::of(notebook.db(), name)?.is_some_and(|mark| !mark.freed))
}

/// Sets the damaged files aside, so that they are fetched again where the hub has
/// them, and drops the notes that do not hold. Returns how many files were moved.
///
/// # Errors
/// When the store or the disk fails.
pub fn mend(notebook: &mut Notebook, found: &PhotosFound) -> Result<u64, StoreError> {
    let mut moved = 0;
    for name in &found.damaged {
        moved += u64::from(notebook.photo_files()?.set_aside(*name)?.is_some());
    }
    if found.notes > 0 {
        let tx = notebook.transaction()?;
        marks::drop_altered(&tx)?;
        tx.commit()?;
    }
    Ok(moved)
}
