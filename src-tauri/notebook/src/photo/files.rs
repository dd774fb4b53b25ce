//! The folder with the photos' files, beside the notebook.

use std::ffi::OsString;
use std::fs::{self, File};
use std::io::{self, ErrorKind, Read as _, Write};
use std::path::{Path, PathBuf};
use std::time::Duration;

use sha2::{Digest as _, Sha256};

use super::PhotoName;
use crate::error::StoreError;

/// How a file that is being written is called, until it is whole.
const COMING: &str = "coming-";
/// One left behind for longer than this was never finished.
const ABANDONED: Duration = Duration::from_secs(3600);
/// Ending of a photo, and of its thumbnail.
const WHOLE: &str = "jpg";
const SMALL: &str = "small.jpg";
/// Ending of a file that is not what its name says.
const DAMAGED: &str = "damaged";
/// Bytes of the digest behind a thumbnail.
const SEAL: usize = 32;
/// Bytes read at once where a file is only looked at.
const PIECE: usize = 64 * 1024;

/// Files named by their digest: written to the side, forced to the disk, then
/// given their name, so that a name stands for a whole file at every instant.
#[derive(Debug, Clone)]
pub struct PhotoFiles {
    folder: PathBuf,
}

impl PhotoFiles {
    /// Those of the notebook at `path`; nothing is made before there is a photo.
    pub fn beside(path: &Path) -> PhotoFiles {
        let mut name = path.file_name().map(OsString::from).unwrap_or_default();
        name.push(".photos");
        let files = PhotoFiles {
            folder: path.with_file_name(name),
        };
        files.sweep();
        files
    }

    /// The folder.
    pub fn folder(&self) -> &Path {
        &self.folder
    }

    /// Where a photo lies, or would.
    pub fn path(&self, name: PhotoName) -> PathBuf {
        self.named(name, WHOLE)
    }

    /// Length of a photo's file; none where it is not here.
    pub fn length(&self, name: PhotoName) -> Option<u64> {
        let file = fs::metadata(self.path(name)).ok()?;
        file.is_file().then_some(file.len())
    }

    /// A photo's bytes, none where it is not here.
    ///
    /// # Errors
    /// [`StoreError::PhotoDamaged`] where they are not what the name says; or
    /// when the disk fails.
    pub fn read(&self, name: PhotoName) -> Result<Option<Vec<u8>>, StoreError> {
        match fs::read(self.path(name)) {
            Ok(bytes) if PhotoName::of(&bytes) == name => Ok(Some(bytes)),
            Ok(_) => Err(StoreError::PhotoDamaged(name)),
            Err(error) if error.kind() == ErrorKind::NotFound => Ok(None),
            Err(error) => Err(StoreError::Photo(error)),
        }
    }

    /// Keeps a photo. On the disk when this returns.
    ///
    /// # Errors
    /// When the disk fails or is full; nothing is kept under the name then.
    pub fn put(&self, name: PhotoName, bytes: &[u8]) -> Result<(), StoreError> {
        if matches!(self.read(name), Ok(Some(_))) {
            return Ok(());
        }
        self.write(&self.path(name), bytes)
    }

    /// Whether a photo's file is what its name says; none where it is not here.
    /// Takes no more memory for a long file.
    ///
    /// # Errors
    /// When the disk fails.
    pub fn is_whole(&self, name: PhotoName) -> Result<Option<bool>, StoreError> {
        let hashed = || -> io::Result<[u8; 32]> {
            let mut file = File::open(self.path(name))?;
            let mut hash = Sha256::new();
            let mut piece = vec![0; PIECE];
            loop {
                match file.read(&mut piece) {
                    Ok(0) => return Ok(hash.finalize().into()),
                    Ok(got) => hash.update(&piece[..got]),
                    Err(error) if error.kind() == ErrorKind::Interrupted => {}
                    Err(error) => return Err(error),
                }
            }
        };
        match hashed() {
            Ok(hash) => Ok(Some(hash == name.0)),
            Err(error) if error.kind() == ErrorKind::NotFound => Ok(None),
            Err(error) => Err(StoreError::Photo(error)),
        }
    }

    /// Moves a file that is not what its name says out of its place, so that it
    /// counts as not here and can be fetched again. It is kept beside its place,
    /// under the name given back; none where it is whole or not here after all.
    ///
    /// # Errors
    /// When the disk fails.
    pub fn set_aside(&self, name: PhotoName) -> Result<Option<PathBuf>, StoreError> {
        if self.is_whole(name)? != Some(false) {
            return Ok(None);
        }
        let from = self.path(name);
        let aside = (1..)
            .map(|count: u32| match count {
                1 => self.named(name, DAMAGED),
                _ => self.named(name, &format!("{count}.{DAMAGED}")),
            })
            .find(|path| !path.exists())
            .unwrap_or_else(|| self.named(name, DAMAGED));
        fs::rename(&from, &aside)
            .and_then(|()| sync_folder(from.parent().unwrap_or(&self.folder)))
            .map_err(StoreError::Photo)?;
        Ok(Some(aside))
    }

    /// A photo's thumbnail, where one was kept and is as it was kept.
    pub fn thumbnail(&self, name: PhotoName) -> Option<Vec<u8>> {
        let mut kept = fs::read(self.named(name, SMALL)).ok()?;
        let seal = kept.split_off(kept.len().checked_sub(SEAL)?);
        (Sha256::digest(&kept).as_slice() == seal).then_some(kept)
    }

    /// Keeps a thumbnail, its digest behind it: its name says nothing of it. It can
    /// be made again, so trouble is no matter.
    pub fn put_thumbnail(&self, name: PhotoName, bytes: &[u8]) {
        let sealed = [bytes, &Sha256::digest(bytes)].concat();
        let _ = self.write(&self.named(name, SMALL), &sealed);
    }

    /// Takes a photo's file away; its thumbnail stays, to be shown.
    ///
    /// # Errors
    /// When the disk fails.
    pub fn free(&self, name: PhotoName) -> Result<(), StoreError> {
        match fs::remove_file(self.path(name)) {
            Err(error) if error.kind() != ErrorKind::NotFound => Err(StoreError::Photo(error)),
            _ => Ok(()),
        }
    }

    /// Takes a photo's file and thumbnail away again, since what was to name it was
    /// not stored. Trouble is no matter: a file without a name harms nobody, and its
    /// room can be freed.
    pub fn discard(&self, name: PhotoName) {
        for ending in [WHOLE, SMALL] {
            let _ = fs::remove_file(self.named(name, ending));
        }
    }

    /// Names and lengths of all photos here, sorted.
    ///
    /// # Errors
    /// When the folder cannot be read.
    pub fn all(&self) -> Result<Vec<(PhotoName, u64)>, StoreError> {
        let mut found = Vec::new();
        for file in self.each_file().map_err(StoreError::Photo)? {
            let name = file.file_name().and_then(|name| name.to_str());
            let named = name.and_then(|name| name.strip_suffix(&format!(".{WHOLE}")));
            if let Some(name) = named.and_then(|name| name.parse().ok())
                && let Some(length) = self.length(name)
            {
                found.push((name, length));
            }
        }
        found.sort_unstable();
        Ok(found)
    }

    fn named(&self, name: PhotoName, ending: &str) -> PathBuf {
        let name = name.to_string();
        let shelf = name.get(..2).unwrap_or_default();
        self.folder.join(shelf).join(format!("{name}.{ending}"))
    }

    fn each_file(&self) -> io::Result<Vec<PathBuf>> {
        let mut files = Vec::new();
        for shelf in listed(&self.folder)? {
            if shelf.is_dir() {
                files.extend(listed(&shelf)?);
            }
        }
        Ok(files)
    }

    /// Removes what a pulled battery left half written.
    fn sweep(&self) {
        for file in self.each_file().unwrap_or_default() {
            let coming = file
                .file_name()
                .is_some_and(|name| name.to_string_lossy().starts_with(COMING));
            let old = || {
                let changed = fs::metadata(&file).and_then(|file| file.modified()).ok()?;
                changed.elapsed().ok()
            };
            if coming && old().is_some_and(|age| age > ABANDONED) {
                let _ = fs::remove_file(&file);
            }
        }
    }

    fn write(&self, path: &Path, bytes: &[u8]) -> Result<(), StoreError> {
        let shelf = path.parent().unwrap_or(&self.folder);
        let write = || -> io::Result<()> {
            if !shelf.is_dir() {
                make_private_folder(shelf)?;
                sync_folder(&self.folder)?;
                if let Some(above) = self.folder.parent() {
                    sync_folder(above)?;
                }
            }
            // Such a file is made for its owner alone, and keeps that with its name.
            let mut coming = tempfile::Builder::new().prefix(COMING).tempfile_in(shelf)?;
            coming.write_all(bytes)?;
            coming.as_file().sync_all()?;
            coming.persist(path).map_err(|error| error.error)?;
            sync_folder(shelf)
        };
        write().map_err(StoreError::Photo)
    }
}

/// Makes a folder, and those above it that are missing, for their owner alone.
fn make_private_folder(folder: &Path) -> io::Result<()> {
    let mut builder = fs::DirBuilder::new();
    builder.recursive(true);
    #[cfg(unix)]
    {
        use std::os::unix::fs::DirBuilderExt as _;
        builder.mode(0o700);
    }
    builder.create(folder)
}

fn listed(folder: &Path) -> io::Result<Vec<PathBuf>> {
    match fs::read_dir(folder) {
        Ok(entries) => entries
            .map(|entry| entry.map(|entry| entry.path()))
            .collect(),
        Err(error) if error.kind() == ErrorKind::NotFound => Ok(Vec::new()),
        Err(error) => Err(error),
    }
}

/// A new name in a folder is on the disk once the folder is.
#[cfg(unix)]
fn sync_folder(folder: &Path) -> io::Result<()> {
    // A bare file name lies in the folder that is open now.
    let folder = if folder.as_os_str().is_empty() {
        Path::new(".")
    } else {
        folder
    };
    File::open(folder)?.sync_all()
}

#[cfg(not(unix))]
fn sync_folder(_: &Path) -> io::Result<()> {
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_file_comes_back_and_a_changed_bit_is_noticed() {
        let folder = tempfile::tempdir().unwrap();
        let files = PhotoFiles::beside(&folder.path().join("n.notebook"));
        let name = PhotoName::of(b"a photo");
        assert_eq!(files.read(name).unwrap(), None);
        assert!(!files.folder().exists());
        files.put(name, b"a photo").unwrap();
        files.put(name, b"a photo").unwrap();
        assert_eq!(files.read(name).unwrap().unwrap(), b"a photo");
        assert_eq!(files.all().unwrap(), [(name, 7)]);

        fs::write(files.path(name), b"a phota").unwrap();
        assert!(matches!(files.read(name), Err(StoreError::PhotoDamaged(bad)) if bad == name));
        // Put again, it is whole again.
        files.put(name, b"a photo").unwrap();
        assert_eq!(files.read(name).unwrap().unwrap(), b"a photo");

        files.free(name).unwrap();
        files.free(name).unwrap();
        assert_eq!(files.length(name), None);
    }
}
