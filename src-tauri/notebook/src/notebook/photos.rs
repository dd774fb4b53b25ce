//! Which photos' files are to be sent, fetched and freed.

use super::Notebook;
use crate::disk::files::others_were_set_aside;
use crate::error::StoreError;
use crate::photo::marks::{self, Mark};
use crate::photo::{LONGEST, PhotoFile, PhotoFiles, PhotoName, ToFree};
use crate::views::photos;

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
        let known = marks::all(self.db())?;
        let wanted = self.told("min(photo.recorded_ms), photo.name")?;
        let mut held = wanted.into_iter().filter_map(|photo| {
            let bytes = files.length(photo.name)?;
            (!known.of(photo.name).on_hub).then_some(PhotoFile { bytes, ..photo })
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
        let known = marks::all(self.db())?;
        let wanted = self.told("max(photo.recorded_ms) DESC, photo.name")?;
        let mut lacking = wanted
            .into_iter()
            .filter(|photo| !known.of(photo.name).freed && files.length(photo.name).is_none());
        Ok(lacking.by_ref().take(most).collect())
    }

    /// Remembers that the hub holds a file whole.
    ///
    /// # Errors
    /// When the store fails.
    pub fn photo_is_on_hub(&mut self, name: PhotoName) -> Result<(), StoreError> {
        marks::change(self.db(), name, |mark| Mark {
            on_hub: true,
            ..mark
        })
    }

    /// Files that the hub is known to hold, by name: at most `most` after one of them.
    ///
    /// # Errors
    /// When the store fails.
    pub fn photos_on_hub(
        &self,
        after: Option<PhotoName>,
        most: usize,
    ) -> Result<Vec<PhotoName>, StoreError> {
        let known = marks::all(self.db())?.kept;
        let held = known
            .into_iter()
            .filter(|(name, mark)| mark.on_hub && Some(*name) > after);
        Ok(held.map(|(name, _)| name).take(most).collect())
    }

    /// Remembers that the hub does not hold a file: it is to be sent again.
    ///
    /// # Errors
    /// When the store fails.
    pub fn photo_is_gone_from_hub(&mut self, name: PhotoName) -> Result<(), StoreError> {
        marks::change(self.db(), name, |mark| Mark {
            on_hub: false,
            ..mark
        })
    }

    /// Files here whose room may be freed once the hub has said that it holds them
    /// still, by name; and those that no change names, which nobody misses unless a
    /// notebook that was set aside lies here: then it may be its last copy.
    ///
    /// # Errors
    /// When the store or the disk fails.
    pub fn photos_to_free(&self) -> Result<ToFree, StoreError> {
        let mut to_free = ToFree::default();
        let nobody_else = !self.path().is_some_and(others_were_set_aside);
        for (name, _) in self.photo_files()?.all()? {
            if self.photo_mark(name)?.on_hub {
                to_free.ask_hub.push(name);
            } else if nobody_else && !photos::is_named(self.db(), name)? {
                to_free.unnamed.push(name);
            }
        }
        Ok(to_free)
    }

    /// Frees the room of files; thumbnails stay. Give it only what the hub has just
    /// said it holds, or what no change names.
    ///
    /// # Errors
    /// When the store or the disk fails.
    pub fn free_photos(&mut self, names: &[PhotoName]) -> Result<(), StoreError> {
        for name in names {
            // Told first: a file that is gone and not told of would be fetched
            // again unasked.
            self.set_photo_freed(*name, true)?;
            self.photo_files()?.free(*name)?;
        }
        Ok(())
    }

    /// Forgets what the hub holds: the crew was left, or the hub was made anew.
    ///
    /// # Errors
    /// When the store fails.
    pub fn forget_photos_on_hub(&mut self) -> Result<(), StoreError> {
        let tx = self.transaction()?;
        for (name, mark) in marks::all(&tx)?.kept {
            let forgotten = Mark {
                on_hub: false,
                ..mark
            };
            marks::keep(&tx, name, forgotten)?;
        }
        Ok(tx.commit()?)
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
        let mark = Mark {
            on_hub: true,
            freed: false,
        };
        marks::keep(self.db(), name, mark)
    }

    /// Whether a file is known to be on the hub, and whether its room was freed.
    pub fn photo_mark(&self, name: PhotoName) -> Result<Mark, StoreError> {
        Ok(marks::of(self.db(), name)?.unwrap_or_default())
    }

    /// Remembers whether a file's room was freed.
    pub fn set_photo_freed(&self, name: PhotoName, freed: bool) -> Result<(), StoreError> {
        marks::change(self.db(), name, |mark| Mark { freed, ..mark })
    }

    /// Names of the files of all photos that are not removed.
    pub fn photos_named(&self) -> Result<Vec<PhotoName>, StoreError> {
        let told = self.told("photo.name")?;
        Ok(told.into_iter().map(|photo| photo.name).collect())
    }

    /// Every file that a photo of the notebook names, in the order asked for.
    fn told(&self, order: &str) -> Result<Vec<PhotoFile>, StoreError> {
        let mut statement = self.db().prepare_cached(&format!(
            "SELECT photo.name, min(photo.bytes) FROM photo
             WHERE photo.made_hlc IS NOT NULL AND NOT photo.removed
             GROUP BY photo.name ORDER BY {order}"
        ))?;
        let rows = statement.query_map([], |row| {
            Ok(PhotoFile {
                name: row.get(0)?,
                bytes: row.get(1)?,
            })
        })?;
        Ok(rows.collect::<Result<_, _>>()?)
    }
}
