//! Photos: made small and clean ([`picture`]), kept as files beside the notebook
//! under the SHA-256 of their bytes ([`files`]), and told by the log.
//!
//! The file is on the disk before the log speaks of it. A photo that another
//! device took is known before its file has come; see [`Notebook::photos_to_fetch`].

pub mod files;
pub mod name;
pub mod picture;

use rusqlite::{OptionalExtension, params};

pub use files::PhotoFiles;
pub use name::PhotoName;
pub use picture::{Picture, PictureError};

use crate::error::StoreError;
use crate::notebook::Notebook;

/// Most bytes of a photo's file, as the exchange has it too. What this app makes
/// of a picture is a tenth of it.
pub const LONGEST: u64 = 16 << 20;

/// A photo's file on its way to or from the hub.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct PhotoFile {
    /// Its name.
    pub name: PhotoName,
    /// Its length.
    pub bytes: u64,
}

/// For the exchange: which files are to be sent and fetched.
impl Notebook {
    /// The files beside the notebook.
    ///
    /// # Errors
    /// [`StoreError::NoPhotoFolder`] for a notebook in memory.
    pub fn photo_files(&self) -> Result<&PhotoFiles, StoreError> {
        self.photos.as_ref().ok_or(StoreError::NoPhotoFolder)
    }

    /// Files held here that the hub is not known to hold, the oldest photo first,
    /// at most `most`.
    ///
    /// # Errors
    /// When the store fails.
    pub fn photos_to_send(&self, most: usize) -> Result<Vec<PhotoFile>, StoreError> {
        let files = self.photo_files()?;
        let wanted = self.told(
            "SELECT photo.name, min(photo.bytes) FROM photo
             LEFT JOIN photo_file ON photo_file.name = photo.name
             WHERE photo.made_hlc IS NOT NULL AND NOT photo.removed
               AND NOT coalesce(photo_file.on_hub, 0)
             GROUP BY photo.name ORDER BY min(photo.recorded_ms), photo.name",
        )?;
        let mut held = wanted.into_iter().filter_map(|photo| {
            let bytes = files.length(photo.name)?;
            Some(PhotoFile { bytes, ..photo })
        });
        Ok(held.by_ref().take(most).collect())
    }

    /// Files that photos of the notebook name and that are not here, the newest
    /// photo first, at most `most`. Those whose room was freed are left out until
    /// someone asks for them.
    ///
    /// # Errors
    /// When the store fails.
    pub fn photos_to_fetch(&self, most: usize) -> Result<Vec<PhotoFile>, StoreError> {
        let files = self.photo_files()?;
        let wanted = self.told(
            "SELECT photo.name, min(photo.bytes) FROM photo
             LEFT JOIN photo_file ON photo_file.name = photo.name
             WHERE photo.made_hlc IS NOT NULL AND NOT photo.removed
               AND NOT coalesce(photo_file.freed, 0)
             GROUP BY photo.name ORDER BY max(photo.recorded_ms) DESC, photo.name",
        )?;
        let mut lacking = wanted
            .into_iter()
            .filter(|photo| files.length(photo.name).is_none());
        Ok(lacking.by_ref().take(most).collect())
    }

    /// Remembers that the hub holds a file whole.
    ///
    /// # Errors
    /// When the store fails.
    pub fn photo_is_on_hub(&mut self, name: PhotoName) -> Result<(), StoreError> {
        self.db().execute(
            "INSERT INTO photo_file (name, on_hub) VALUES (?1, 1)
             ON CONFLICT (name) DO UPDATE SET on_hub = 1",
            [name],
        )?;
        Ok(())
    }

    /// Forgets what the hub holds: the crew was left, or the hub was made anew.
    ///
    /// # Errors
    /// When the store fails.
    pub fn forget_photos_on_hub(&mut self) -> Result<(), StoreError> {
        self.db().execute("UPDATE photo_file SET on_hub = 0", [])?;
        Ok(())
    }

    /// Keeps a file that came from the hub: checked against its name, on the disk
    /// when this returns.
    ///
    /// # Errors
    /// [`StoreError::PhotoDamaged`] where the bytes are not what the name says;
    /// or when the disk fails. Nothing is kept then.
    pub fn keep_photo(&mut self, name: PhotoName, bytes: &[u8]) -> Result<(), StoreError> {
        if bytes.len() as u64 > LONGEST || PhotoName::of(bytes) != name {
            return Err(StoreError::PhotoDamaged(name));
        }
        self.photo_files()?.put(name, bytes)?;
        // It came from there, and it is wanted.
        self.db().execute(
            "INSERT INTO photo_file (name, on_hub) VALUES (?1, 1)
             ON CONFLICT (name) DO UPDATE SET on_hub = 1, freed = 0",
            [name],
        )?;
        Ok(())
    }

    /// Whether a file is known to be on the hub, and whether its room was freed.
    pub(crate) fn photo_file_state(&self, name: PhotoName) -> Result<(bool, bool), StoreError> {
        Ok(self
            .db()
            .prepare_cached("SELECT on_hub, freed FROM photo_file WHERE name = ?1")?
            .query_row([name], |row| Ok((row.get(0)?, row.get(1)?)))
            .optional()?
            .unwrap_or_default())
    }

    /// Remembers whether a file's room was freed.
    pub(crate) fn set_photo_freed(&self, name: PhotoName, freed: bool) -> Result<(), StoreError> {
        self.db().execute(
            "INSERT INTO photo_file (name, freed) VALUES (?1, ?2)
             ON CONFLICT (name) DO UPDATE SET freed = excluded.freed",
            params![name, freed],
        )?;
        Ok(())
    }

    fn told(&self, sql: &str) -> Result<Vec<PhotoFile>, StoreError> {
        let mut statement = self.db().prepare_cached(sql)?;
        let rows = statement.query_map([], |row| {
            Ok(PhotoFile {
                name: row.get(0)?,
                bytes: row.get(1)?,
            })
        })?;
        Ok(rows.collect::<Result<_, _>>()?)
    }
}
