//! Photos, named by the SHA-256 of their bytes, in a folder or an S3-compatible
//! store. They come in parts of a fixed length; each part is an object of its
//! own until the last has come and the name is checked.

use crate::store::{Member, PhotoPart, PhotoState, Store, StoreFault, Stored};
use bytes::Bytes;
use futures_util::StreamExt as _;
use object_store::local::LocalFileSystem;
use object_store::path::Path;
use object_store::{ObjectStore, ObjectStoreExt, PutPayload};
use sha2::{Digest, Sha256};
use std::ops::Range;
use std::sync::Arc;
use uuid::Uuid;
use wire::{PHOTO_BYTES, PHOTO_PART, Refusal, Role};

/// Folder of whole photos.
const WHOLE: &str = "whole";
/// Folder of photos that are on their way in.
const PARTS: &str = "parts";
/// Photos looked for in the photo store at once.
const LOOKS_AT_ONCE: usize = 16;

/// A place for photos.
#[derive(Clone)]
pub struct Photos {
    objects: Arc<dyn ObjectStore>,
    under: Path,
    /// The same, where they lie in a folder.
    folder: Option<Arc<LocalFileSystem>>,
}

/// A photo's name.
pub type Name = [u8; 32];

/// A part of a photo that is on its way in.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Arriving {
    /// Name of the photo.
    pub name: Name,
    /// Byte of the photo at which the part starts.
    pub at: u64,
    /// Bytes of the whole photo.
    pub size: u64,
    /// The part.
    pub bytes: Bytes,
}

impl From<object_store::Error> for StoreFault {
    fn from(error: object_store::Error) -> Self {
        Self::Failed(error.to_string())
    }
}

impl Photos {
    /// In a folder, made where absent.
    ///
    /// # Errors
    /// When it cannot be made.
    pub fn in_folder(folder: &std::path::Path) -> Stored<Self> {
        for folder in [folder.to_owned(), folder.join(WHOLE), folder.join(PARTS)] {
            make_private_folder(&folder)
                .map_err(|error| StoreFault::Failed(format!("{}: {error}", folder.display())))?;
        }
        let files = Arc::new(LocalFileSystem::new_with_prefix(folder)?);
        Ok(Self {
            objects: files.clone(),
            under: Path::default(),
            folder: Some(files),
        })
    }

    /// Nowhere that lasts: for work that has no photos.
    #[must_use]
    pub fn none() -> Self {
        Self::in_objects(
            Arc::new(object_store::memory::InMemory::new()),
            Path::default(),
        )
    }

    /// In any object store, below a path.
    pub fn in_objects(objects: Arc<dyn ObjectStore>, under: Path) -> Self {
        Self {
            objects,
            under,
            folder: None,
        }
    }

    fn whole(&self, crew: Uuid, name: Name) -> Path {
        self.under
            .clone()
            .join(WHOLE)
            .join(crew.simple().to_string())
            .join(hex(name))
    }

    fn part(&self, crew: Uuid, name: Name, at: u64) -> Path {
        self.under
            .clone()
            .join(PARTS)
            .join(crew.simple().to_string())
            .join(hex(name))
            .join(format!("{at:012}"))
    }

    /// Stores an object; as a file it is the hub's user's alone.
    async fn put(&self, at: &Path, bytes: Bytes) -> Stored<()> {
        self.objects.put(at, PutPayload::from_bytes(bytes)).await?;
        if let Some(files) = &self.folder {
            close_to_others(&files.path_to_filesystem(at)?);
        }
        Ok(())
    }

    /// Takes a part of a photo, or puts the parts together where one comes that is
    /// empty and lies at the end. Answers what is held then; a part that does not fit
    /// changes nothing.
    ///
    /// # Errors
    /// Refused for readers, for lengths out of bounds, and when the whole photo
    /// does not have its name's digest; it then starts anew.
    pub async fn take(
        &self,
        store: &dyn Store,
        member: &Member,
        part: Arriving,
        now: i64,
    ) -> Stored<PhotoState> {
        let Arriving {
            name,
            at,
            size,
            bytes,
        } = part;
        if member.role < Role::Scout {
            return Err(Refusal::NotAllowed.into());
        }
        let length = bytes.len() as u64;
        let ends = at.checked_add(length).ok_or(Refusal::OutOfBounds)?;
        let last = ends == size;
        // Nothing behind the end: a phone asks for the end of a photo whose parts are
        // all here, as where a hub died before it put them together.
        let closes = length == 0 && at == size;
        let is_part = at.is_multiple_of(PHOTO_PART)
            && ends <= size
            && (length == PHOTO_PART || (last && length > 0 && length < PHOTO_PART));
        if !(1..=PHOTO_BYTES).contains(&size) || !(closes || is_part) {
            return Err(Refusal::OutOfBounds.into());
        }
        let before = self.held(store, member.crew, name).await?;
        let (have, known_size) = before.map_or((0, size), |state| (state.have, state.size));
        if before.is_some_and(|state| state.whole) || (have == at && have == known_size) {
            return self.finish(store, member.crew, name, now).await;
        }
        // A photo whose length was given wrongly is never finished: begin anew.
        if have > 0 && known_size != size {
            store.photo_ended(member.crew, name, None).await?;
            return Err(Refusal::OutOfBounds.into());
        }
        if have != at {
            return Ok(PhotoState {
                size,
                have,
                whole: false,
            });
        }
        self.put(&self.part(member.crew, name, at), bytes).await?;
        let part = PhotoPart {
            by: (member.device, member.role),
            name,
            size,
            have: at,
            length,
        };
        let grew = store.photo_grew(member.crew, part).await?;
        if grew && last {
            return self.finish(store, member.crew, name, now).await;
        }
        let after = self.state(store, member.crew, name).await?;
        Ok(after.unwrap_or(PhotoState {
            size,
            have: 0,
            whole: false,
        }))
    }

    /// What is held of photos, in the order asked. A photo that the store speaks
    /// of and whose bytes are gone, as after a restored backup, is not held, and the
    /// store forgets it.
    ///
    /// # Errors
    /// When a store fails.
    pub async fn states(
        &self,
        store: &dyn Store,
        crew: Uuid,
        names: Vec<Name>,
    ) -> Stored<Vec<Option<PhotoState>>> {
        let told = store.photos(crew, names.clone()).await?;
        let mut looks = futures_util::stream::iter(names.into_iter().zip(told))
            .map(|(name, state)| self.looked_at(store, crew, name, state))
            .buffered(LOOKS_AT_ONCE);
        let mut states = Vec::new();
        while let Some(state) = looks.next().await {
            states.push(state?);
        }
        Ok(states)
    }

    async fn looked_at(
        &self,
        store: &dyn Store,
        crew: Uuid,
        name: Name,
        told: Option<PhotoState>,
    ) -> Stored<Option<PhotoState>> {
        let Some(state) = told.filter(|state| state.whole) else {
            return Ok(told);
        };
        match self.objects.head(&self.whole(crew, name)).await {
            Ok(object) if object.size == state.size => Ok(told),
            Ok(_) | Err(object_store::Error::NotFound { .. }) => {
                tracing::warn!(
                    "a photo is gone from the photo store: a phone has to send it again"
                );
                store.photo_lost(crew, name).await?;
                Ok(None)
            }
            Err(error) => Err(error.into()),
        }
    }

    async fn held(&self, store: &dyn Store, crew: Uuid, name: Name) -> Stored<Option<PhotoState>> {
        let told = self.state(store, crew, name).await?;
        self.looked_at(store, crew, name, told).await
    }

    async fn state(&self, store: &dyn Store, crew: Uuid, name: Name) -> Stored<Option<PhotoState>> {
        Ok(store
            .photos(crew, vec![name])
            .await?
            .into_iter()
            .next()
            .flatten())
    }

    /// Puts the parts together. Safe to repeat: a hub that died in between, or
    /// two hubs at once, end with the same whole photo.
    async fn finish(
        &self,
        store: &dyn Store,
        crew: Uuid,
        name: Name,
        now: i64,
    ) -> Stored<PhotoState> {
        let state = self
            .state(store, crew, name)
            .await?
            .ok_or(Refusal::Unknown)?;
        if state.whole {
            return Ok(state);
        }
        let mut whole = Vec::with_capacity(usize::try_from(state.size).unwrap_or(0));
        for at in parts_of(state.size) {
            match self.objects.get(&self.part(crew, name, at)).await {
                Ok(part) => whole.extend_from_slice(&part.bytes().await?),
                // Gone with what else was lost: it starts anew.
                Err(object_store::Error::NotFound { .. }) => {
                    store.photo_ended(crew, name, None).await?;
                    return Err(Refusal::OutOfBounds.into());
                }
                Err(error) => return Err(error.into()),
            }
        }
        if Name::from(Sha256::digest(&whole)) != name {
            store.photo_ended(crew, name, None).await?;
            self.drop_parts(crew, name, state.size).await;
            return Err(Refusal::OutOfBounds.into());
        }
        self.put(&self.whole(crew, name), whole.into()).await?;
        store.photo_ended(crew, name, Some(now)).await?;
        self.drop_parts(crew, name, state.size).await;
        Ok(PhotoState {
            whole: true,
            ..state
        })
    }

    /// Parts left behind cost room and nothing else, so trouble is only logged.
    async fn drop_parts(&self, crew: Uuid, name: Name, size: u64) {
        for at in parts_of(size) {
            if let Err(error) = self.objects.delete(&self.part(crew, name, at)).await {
                tracing::warn!(%error, "a part of a photo stayed behind");
            }
        }
    }

    /// Bytes of a whole photo, and its size. `None` when the crew has none of that name.
    ///
    /// # Errors
    /// When the store fails; out of bounds when the range lies outside.
    pub async fn give(
        &self,
        store: &dyn Store,
        crew: Uuid,
        name: Name,
        range: Option<Range<u64>>,
    ) -> Stored<Option<(Bytes, Range<u64>, u64)>> {
        let Some(state) = self
            .held(store, crew, name)
            .await?
            .filter(|state| state.whole)
        else {
            return Ok(None);
        };
        let range = range.unwrap_or(0..state.size);
        let range = range.start..range.end.min(state.size);
        if range.is_empty() {
            return Err(Refusal::OutOfBounds.into());
        }
        let bytes = self
            .objects
            .get_range(&self.whole(crew, name), range.clone())
            .await?;
        Ok(Some((bytes, range, state.size)))
    }
}

/// Made, where absent, for its user alone. One that is there is closed to others only
/// where it is the hub's own: the folder above may hold other things.
fn make_private_folder(folder: &std::path::Path) -> std::io::Result<()> {
    let mut builder = std::fs::DirBuilder::new();
    builder.recursive(true);
    #[cfg(unix)]
    {
        use std::os::unix::fs::{DirBuilderExt as _, PermissionsExt as _};
        builder.mode(0o700).create(folder)?;
        if folder.ends_with(WHOLE) || folder.ends_with(PARTS) {
            std::fs::set_permissions(folder, std::fs::Permissions::from_mode(0o700))?;
        }
        Ok(())
    }
    #[cfg(not(unix))]
    builder.create(folder)
}

/// Takes a file from others. The photo store makes it by the usual mask, in a folder
/// that is closed to them already, so that nothing was open meanwhile.
fn close_to_others(file: &std::path::Path) {
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt as _;
        let only_user = std::fs::Permissions::from_mode(0o600);
        if let Err(error) = std::fs::set_permissions(file, only_user) {
            // Gone where another hub was done with it first.
            tracing::debug!(%error, "a photo's file keeps the usual mask");
        }
    }
    #[cfg(not(unix))]
    let _ = file;
}

fn parts_of(size: u64) -> impl Iterator<Item = u64> {
    (0..size.div_ceil(PHOTO_PART)).map(|part| part * PHOTO_PART)
}

fn hex(name: Name) -> String {
    name.iter().map(|byte| format!("{byte:02x}")).collect()
}

/// A name from a path: exactly 64 lower-case hexadecimal digits, so that nothing
/// else can ever become part of a path.
#[must_use]
pub fn name_from(text: &str) -> Option<Name> {
    let digits = text.as_bytes();
    if digits.len() != 64 {
        return None;
    }
    let mut name = [0; 32];
    for (byte, pair) in name.iter_mut().zip(digits.chunks_exact(2)) {
        *byte = digit(pair[0])? << 4 | digit(pair[1])?;
    }
    Some(name)
}

fn digit(letter: u8) -> Option<u8> {
    match letter {
        b'0'..=b'9' => Some(letter - b'0'),
        b'a'..=b'f' => Some(letter - b'a' + 10),
        _ => None,
    }
}
