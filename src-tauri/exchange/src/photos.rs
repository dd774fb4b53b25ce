//! Photos on their own way, after the observations: part by part, each stored
//! before the next, so that a cut costs at most one part.
//!
//! What is left to do follows from what lies on the two sides: the hub says how
//! much of each photo it holds, and what has come so far lies in a file beside
//! the photos.

use crate::http::HttpWay;
use crate::meet::Way;
use crate::trouble::Trouble;
use notebook::photo::{PhotoFile, PhotoName};
use notebook::{Notebook, StoreError};
use std::fs::{self, OpenOptions};
use std::io::{ErrorKind, Read as _, Write as _};
use std::ops::ControlFlow;
use std::path::{Path, PathBuf};
use wire::{Answer, Ask, PHOTO_BYTES, PHOTO_NAMES, PHOTO_PART, Refusal, Role};

/// Where photos lie while they come in, among the photos' files.
const COMING: &str = "fetching";
/// Photos on which the hub may talk nonsense before no more is asked of it.
const MOST_NONSENSE: usize = 16;

/// How far photos have come.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Photos {
    /// Whole at the hub, of those to be sent.
    pub sent: u64,
    /// To be sent.
    pub to_send: u64,
    /// Whole here, of those that the hub could give.
    pub fetched: u64,
    /// To be fetched.
    pub to_fetch: u64,
}

impl Photos {
    /// Done, both ways.
    #[must_use]
    pub fn done(&self) -> u64 {
        self.sent + self.fetched
    }

    /// Altogether, both ways.
    #[must_use]
    pub fn all(&self) -> u64 {
        self.to_send + self.to_fetch
    }
}

/// Photos that the hub is not known to hold.
///
/// # Errors
/// When the notebook fails.
pub fn waiting(notebook: &Notebook) -> Result<u64, Trouble> {
    match notebook.photos_to_send(usize::MAX) {
        Ok(photos) => Ok(photos.len() as u64),
        // One in memory has no photos.
        Err(StoreError::NoPhotoFolder) => Ok(0),
        Err(error) => Err(error.into()),
    }
}

/// Asks the hub which of the photos that it once held it holds no longer, as after a
/// restored backup; those are to be sent again. Gives their number.
///
/// # Errors
/// See [`Trouble`].
pub fn look_again(notebook: &mut Notebook, way: &mut dyn Way) -> Result<u64, Trouble> {
    let (mut after, mut gone) = (None, 0);
    loop {
        let names = match notebook.photos_on_hub(after, PHOTO_NAMES) {
            Err(StoreError::NoPhotoFolder) => return Ok(0),
            names => names?,
        };
        let Some(last) = names.last() else {
            return Ok(gone);
        };
        after = Some(*last);
        for (name, _) in missing(way, &names)? {
            notebook.photo_is_gone_from_hub(name)?;
            gone += 1;
        }
    }
}

/// Frees the room of the photos that the hub says it holds, now. With no way to it
/// only what no change names goes.
///
/// # Errors
/// See [`Trouble`]; what the hub was not asked of stays.
pub fn free(notebook: &mut Notebook, way: Option<&mut dyn Way>) -> Result<(), Trouble> {
    let to_free = notebook.photos_to_free()?;
    notebook.free_photos(&to_free.unnamed)?;
    let Some(way) = way else { return Ok(()) };
    for names in to_free.ask_hub.chunks(PHOTO_NAMES) {
        let missing = missing(way, names)?;
        for (name, _) in &missing {
            notebook.photo_is_gone_from_hub(*name)?;
        }
        let held = |name: &&PhotoName| !missing.iter().any(|(lacks, _)| lacks == *name);
        let names: Vec<PhotoName> = names.iter().filter(held).copied().collect();
        notebook.free_photos(&names)?;
    }
    Ok(())
}

/// What the hub lacks of at most [`PHOTO_NAMES`] photos, and how many bytes of each
/// it holds. What it says of others counts for nothing.
fn missing(way: &mut dyn Way, names: &[PhotoName]) -> Result<Vec<(PhotoName, u64)>, Trouble> {
    let asked = names.iter().map(|name| name.0).collect();
    match way.ask(&Ask::PhotosMissing { names: asked })? {
        Answer::PhotosMissing(missing) => Ok(missing
            .iter()
            .map(|(name, have)| (PhotoName(*name), *have))
            .filter(|(name, have)| names.contains(name) && *have <= PHOTO_BYTES)
            .collect()),
        Answer::Refused(refusal) => Err(refusal.into()),
        _ => Err(Trouble::Nonsense),
    }
}

/// Sends and fetches photos. `report` hears of every part and may stop; `quiet`
/// waits until nobody is at work on the notebook.
///
/// # Errors
/// See [`Trouble`]. What was stored before stays; calling again resumes.
pub fn exchange(
    notebook: &mut Notebook,
    way: &mut HttpWay,
    role: Role,
    quiet: &dyn Fn(),
    report: &mut dyn FnMut(Photos) -> ControlFlow<()>,
) -> Result<Photos, Trouble> {
    let folder = match notebook.photo_files() {
        Ok(files) => files.folder().join(COMING),
        Err(StoreError::NoPhotoFolder) => return Ok(Photos::default()),
        Err(error) => return Err(error.into()),
    };
    let mut queue = Queue {
        notebook,
        way,
        quiet,
        report,
        so_far: Photos::default(),
        nonsense: 0,
    };
    let sent = if role >= Role::Scout {
        queue.send()
    } else {
        Ok(())
    };
    // A hub that has no room for more still gives what it has.
    match &sent {
        Ok(()) | Err(Trouble::Full(_)) => queue.fetch(&folder)?,
        Err(_) => {}
    }
    sent?;
    if queue.nonsense > 0 {
        return Err(Trouble::Nonsense);
    }
    Ok(queue.so_far)
}

struct Queue<'a> {
    notebook: &'a mut Notebook,
    way: &'a mut HttpWay,
    quiet: &'a dyn Fn(),
    report: &'a mut dyn FnMut(Photos) -> ControlFlow<()>,
    so_far: Photos,
    /// Photos on which the hub talked nonsense. The others go on.
    nonsense: usize,
}

impl Queue<'_> {
    fn tell(&mut self) -> Result<(), Trouble> {
        match (self.report)(self.so_far) {
            ControlFlow::Continue(()) => Ok(()),
            ControlFlow::Break(()) => Err(Trouble::Stopped),
        }
    }

    /// Goes on after nonsense about one photo, but not for ever.
    fn mind_nonsense(&mut self) -> Result<(), Trouble> {
        self.nonsense += 1;
        if self.nonsense < MOST_NONSENSE {
            Ok(())
        } else {
            Err(Trouble::Nonsense)
        }
    }

    /// What the hub lacks of these, and how many bytes of each it holds.
    fn lacking(&mut self, photos: &[PhotoFile]) -> Result<Vec<(PhotoFile, u64)>, Trouble> {
        let mut lacking = Vec::new();
        for page in photos.chunks(PHOTO_NAMES) {
            let names: Vec<PhotoName> = page.iter().map(|photo| photo.name).collect();
            let missing = missing(self.way, &names)?;
            for photo in page {
                let held = missing.iter().find(|(name, _)| *name == photo.name);
                lacking.extend(held.map(|(_, have)| (*photo, *have)));
            }
        }
        Ok(lacking)
    }

    fn send(&mut self) -> Result<(), Trouble> {
        let photos = self.notebook.photos_to_send(usize::MAX)?;
        if photos.is_empty() {
            return Ok(());
        }
        let lacking = self.lacking(&photos)?;
        for photo in &photos {
            if !lacking.iter().any(|(lacks, _)| lacks.name == photo.name) {
                self.is_there(photo.name)?;
            }
        }
        self.so_far.to_send = lacking.len() as u64;
        self.tell()?;
        for (photo, have) in lacking {
            // A file that is damaged, or that the hub will not have, stays here
            // and holds none of the others up.
            let whole = match self.notebook.photo_files()?.read(photo.name) {
                Ok(Some(bytes)) => self.send_one(photo.name, &bytes, have),
                Ok(None) | Err(StoreError::PhotoDamaged(_)) => continue,
                Err(error) => return Err(error.into()),
            };
            match whole {
                Ok(()) => {
                    self.is_there(photo.name)?;
                    self.so_far.sent += 1;
                    self.tell()?;
                }
                Err(Trouble::Refused(Refusal::OutOfBounds)) => {}
                Err(Trouble::Nonsense) => self.mind_nonsense()?,
                Err(trouble) => return Err(trouble),
            }
        }
        Ok(())
    }

    fn send_one(&mut self, name: PhotoName, bytes: &[u8], have: u64) -> Result<(), Trouble> {
        let size = bytes.len() as u64;
        let mut at = have;
        // Once through, and once more where the hub began anew.
        for _ in 0..=2 * size.div_ceil(PHOTO_PART) + 1 {
            let from = usize::try_from(at.min(size)).unwrap_or(usize::MAX);
            let to = usize::try_from((at + PHOTO_PART).min(size)).unwrap_or(usize::MAX);
            // At the end there is only the name left to be checked.
            let part = if from < to { &bytes[from..to] } else { &[] };
            match self.way.send_photo(&name.to_string(), at, size, part)? {
                None => return Ok(()),
                Some(held) if held > at && held <= size => at = held,
                // The hub began anew.
                Some(held) if held < at && at == have => at = held,
                Some(_) => return Err(Trouble::Nonsense),
            }
            self.tell()?;
        }
        Err(Trouble::Nonsense)
    }

    fn is_there(&mut self, name: PhotoName) -> Result<(), Trouble> {
        (self.quiet)();
        Ok(self.notebook.photo_is_on_hub(name)?)
    }

    fn fetch(&mut self, folder: &Path) -> Result<(), Trouble> {
        let photos = self.notebook.photos_to_fetch(usize::MAX)?;
        if photos.is_empty() {
            return Ok(());
        }
        // Not all have been given to the hub yet.
        let lacking = self.lacking(&photos)?;
        let there: Vec<PhotoFile> = photos
            .into_iter()
            .filter(|photo| !lacking.iter().any(|(lacks, _)| lacks.name == photo.name))
            .collect();
        self.so_far.to_fetch = there.len() as u64;
        self.tell()?;
        for photo in there {
            match self.fetch_one(folder, photo.name) {
                Ok(()) => {
                    self.so_far.fetched += 1;
                    self.tell()?;
                }
                // Gone from the hub meanwhile, or spoiled on the way: another time.
                Err(Trouble::Unknown | Trouble::Refused(_)) => {}
                Err(Trouble::Nonsense) => self.mind_nonsense()?,
                Err(trouble) => return Err(trouble),
            }
        }
        Ok(())
    }

    fn fetch_one(&mut self, folder: &Path, name: PhotoName) -> Result<(), Trouble> {
        let part = folder.join(format!("{name}.part"));
        let bytes = match self.gather(folder, &part, name) {
            // Whatever has come so far does not fit what the hub says now.
            Err(trouble @ (Trouble::Nonsense | Trouble::Refused(_))) => {
                remove(&part)?;
                return Err(trouble);
            }
            gathered => gathered?,
        };
        (self.quiet)();
        let kept = self.notebook.keep_photo(name, &bytes);
        // Kept or spoiled, the parts have done their work.
        remove(&part)?;
        match kept {
            Ok(()) => Ok(()),
            Err(StoreError::PhotoDamaged(_)) => Err(Trouble::Refused(Refusal::OutOfBounds)),
            Err(error) => Err(error.into()),
        }
    }

    /// The bytes of a photo, part by part; each must be as long as it has to be, and
    /// the whole as long as the hub said at first.
    fn gather(&mut self, folder: &Path, part: &Path, name: PhotoName) -> Result<Vec<u8>, Trouble> {
        let mut bytes = read(part)?;
        let mut whole = None;
        loop {
            let at = bytes.len() as u64;
            let (piece, size) = self
                .way
                .fetch_photo(&name.to_string(), at..at + PHOTO_PART)?;
            let whole = *whole.get_or_insert(size);
            let wanted = whole.saturating_sub(at).min(PHOTO_PART);
            let fits = size == whole && whole <= PHOTO_BYTES && wanted > 0;
            if !fits || piece.len() as u64 != wanted {
                return Err(Trouble::Nonsense);
            }
            add(folder, part, &piece)?;
            bytes.extend_from_slice(&piece);
            if bytes.len() as u64 == whole {
                return Ok(bytes);
            }
            self.tell()?;
        }
    }
}

fn failed(path: &Path) -> impl Fn(std::io::Error) -> Trouble {
    let path = PathBuf::from(path);
    move |error| Trouble::Notebook(format!("{}: {error}", path.display()))
}

/// What has come of a photo, without the end of a part that was cut.
fn read(part: &Path) -> Result<Vec<u8>, Trouble> {
    let mut bytes = Vec::new();
    match fs::File::open(part) {
        Ok(mut file) => {
            file.read_to_end(&mut bytes).map_err(failed(part))?;
        }
        Err(error) if error.kind() == ErrorKind::NotFound => {}
        Err(error) => return Err(failed(part)(error)),
    }
    let whole = bytes.len() as u64 / PHOTO_PART * PHOTO_PART;
    bytes.truncate(usize::try_from(whole).unwrap_or(0));
    Ok(bytes)
}

fn add(folder: &Path, part: &Path, piece: &[u8]) -> Result<(), Trouble> {
    let held = read(part)?.len() as u64;
    fs::create_dir_all(folder).map_err(failed(folder))?;
    let mut options = OpenOptions::new();
    options.create(true).append(true);
    #[cfg(unix)]
    {
        use std::os::unix::fs::OpenOptionsExt as _;
        // What it becomes is its owner's alone too.
        options.mode(0o600);
    }
    let mut file = options.open(part).map_err(failed(part))?;
    file.set_len(held).map_err(failed(part))?;
    file.write_all(piece).map_err(failed(part))
}

fn remove(part: &Path) -> Result<(), Trouble> {
    match fs::remove_file(part) {
        Err(error) if error.kind() != ErrorKind::NotFound => Err(failed(part)(error)),
        _ => Ok(()),
    }
}

#[cfg(all(test, unix))]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;
    use std::os::unix::fs::PermissionsExt as _;

    #[test]
    fn a_photo_on_its_way_is_its_owners_alone() {
        let folder = std::env::temp_dir().join(format!("headwalk-{}", uuid::Uuid::now_v7()));
        let part = folder.join("one.part");
        add(&folder, &part, b"half of it").unwrap();
        let mode = part.metadata().unwrap().permissions().mode() & 0o777;
        fs::remove_dir_all(folder).unwrap();
        assert_eq!(mode, 0o600, "{mode:o}");
    }
}
