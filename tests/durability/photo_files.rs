//! Files of photos are altered, cut or gone. Never is an altered picture shown: it
//! is found by the check or by whoever asks for it, set aside, and fetched again.

use std::fs;
use std::path::{Path, PathBuf};

use notebook::photo::PhotoName;
use notebook::photo::ToFree;
use rand::{RngExt as _, SeedableRng as _};
use rand_chacha::ChaCha8Rng;
use service::{Changed, PhotoSize, ProblemCode, ask};

use crate::outcome::{Outcomes, long};
use crate::season::{Book, PHOTOS, keeper, must_be_whole, notebook, photos_must_be_whole};

/// What is done to a file.
#[derive(Clone, Copy, PartialEq)]
enum Harm {
    Bit,
    Cut,
    Empty,
    Gone,
}

impl Harm {
    fn of(self, bytes: &[u8], chance: &mut ChaCha8Rng) -> Option<Vec<u8>> {
        let mut bytes = bytes.to_vec();
        match self {
            Harm::Bit => {
                let place = chance.random_range(0..bytes.len());
                bytes[place] ^= 1 << chance.random_range(0..8);
            }
            Harm::Cut => bytes.truncate(chance.random_range(1..bytes.len())),
            Harm::Empty => bytes.clear(),
            Harm::Gone => return None,
        }
        Some(bytes)
    }
}

fn is_thumbnail(path: &Path) -> bool {
    path.to_string_lossy().ends_with(".small.jpg")
}

fn name_of(path: &Path) -> PhotoName {
    let name = path.file_name().unwrap().to_string_lossy().into_owned();
    name.split('.').next().unwrap().parse().unwrap()
}

/// The files that were moved out of their place.
fn aside(book: &Book) -> Vec<PathBuf> {
    let mut files = book.photo_folder();
    files.retain(|path| path.extension().is_some_and(|ending| ending == "damaged"));
    files
}

#[test]
fn an_altered_photo_is_never_shown_and_comes_back() {
    let mut outcomes = Outcomes::default();
    let (season, _) = Book::with_season(1);
    let files = season.photo_folder();
    assert_eq!(files.len() as u64, 2 * PHOTOS);
    for run in 0..if long() { 400 } else { 32 } {
        let mut chance = ChaCha8Rng::seed_from_u64(run);
        let harm = [Harm::Bit, Harm::Cut, Harm::Empty, Harm::Gone][(run % 4) as usize];
        let book = season.copy();
        let hit = &files[chance.random_range(0..files.len())];
        let path = book
            .folder
            .path()
            .join(hit.strip_prefix(season.folder.path()).unwrap());
        let thumbnail = is_thumbnail(&path);
        let name = name_of(&path);
        let right = fs::read(&path).unwrap();
        let altered = harm.of(&right, &mut chance);
        match &altered {
            Some(bytes) => fs::write(&path, bytes).unwrap(),
            None => fs::remove_file(&path).unwrap(),
        }
        let which = format!("run {run}: {}", path.display());
        let text = name.to_string();
        let shown = thumbnails(&season, name);
        let done = match (thumbnail, harm) {
            (false, Harm::Bit) => "a photo: a bit turned",
            (false, Harm::Cut) => "a photo: cut short",
            (false, Harm::Empty) => "a photo: emptied",
            (false, Harm::Gone) => "a photo: gone",
            (true, Harm::Bit) => "a thumbnail: a bit turned",
            (true, Harm::Cut) => "a thumbnail: cut short",
            (true, Harm::Empty) => "a thumbnail: emptied",
            (true, Harm::Gone) => "a thumbnail: gone",
        };
        let keeper = keeper(&book.path);
        // Half the time somebody looks at it before the check does.
        let seen_first = chance.random_bool(0.5);
        if seen_first {
            for size in [PhotoSize::Small, PhotoSize::Whole] {
                match keeper.photo(&text, size) {
                    Ok(bytes) if matches!(size, PhotoSize::Whole) => {
                        assert!(thumbnail && PhotoName::of(&bytes) == name, "{which}");
                    }
                    Ok(bytes) => assert!(shown.contains(&bytes), "{which}"),
                    Err(problem) => {
                        assert!(!thumbnail, "{which}: {problem}");
                        assert_eq!(problem.code, ProblemCode::NotFound, "{which}");
                    }
                }
            }
        }
        let reply = keeper
            .call(ask::CheckNotebook { only_if_due: false })
            .unwrap();
        let check = reply.answer;
        let found = (check.photos_damaged, check.photos_missing);
        if thumbnail {
            assert_eq!(found, (0, 0), "{which}");
            let small = keeper.photo(&text, PhotoSize::Small).unwrap();
            assert!(shown.contains(&small), "{which}");
            outcomes.add(done, "never shown: made anew from the photo");
            continue;
        }
        let told = match (harm, seen_first) {
            (Harm::Gone, _) | (_, true) => (0, 1),
            _ => (1, 0),
        };
        assert_eq!(found, told, "{which}");
        assert!(reply.changed.contains(&Changed::Photos), "{which}");
        // What it had become is kept, out of its place.
        let left = aside(&book);
        match &altered {
            Some(bytes) => {
                assert_eq!(left.len(), 1, "{which}");
                assert_eq!(&fs::read(&left[0]).unwrap(), bytes, "{which}");
            }
            None => assert!(left.is_empty(), "{which}"),
        }
        keeper.close();
        let mut notebook = notebook(&book.path).unwrap();
        let wanted = notebook.photos_to_fetch(10).unwrap();
        assert_eq!(wanted.len(), 1, "{which}");
        assert_eq!(wanted[0].name, name, "{which}");
        // As it comes from the hub: other bytes are refused, the right ones kept.
        if let Some(bytes) = &altered {
            assert!(notebook.keep_photo(name, bytes).is_err(), "{which}");
        }
        notebook.keep_photo(name, &right).unwrap();
        must_be_whole(&notebook);
        photos_must_be_whole(&notebook);
        let came = match (harm, seen_first) {
            (Harm::Gone, _) => "told as gone, fetched again",
            (_, true) => "refused when asked for, set aside, told as gone, fetched again",
            (_, false) => "found by the check, set aside, fetched again",
        };
        outcomes.add(done, came);
    }
    outcomes.print("files of photos");
}

/// What may be shown in a list: the thumbnail as it was kept, or made anew.
fn thumbnails(season: &Book, name: PhotoName) -> [Vec<u8>; 2] {
    let keeper = keeper(&season.path);
    let photo = |size| keeper.photo(&name.to_string(), size).unwrap();
    let anew = notebook::photo::picture::thumbnail(&photo(PhotoSize::Whole)).unwrap();
    [photo(PhotoSize::Small), anew]
}

/// One bit says that the hub holds a photo. Turned, it would let the only copy go.
#[test]
fn a_note_about_the_hub_that_was_altered_frees_nothing() {
    let (season, _) = Book::with_season(1);
    let db = rusqlite::Connection::open(&season.path).unwrap();
    let turned = db.execute("UPDATE photo_file SET on_hub = 1", []).unwrap();
    assert_eq!(turned as u64, PHOTOS);
    db.close().unwrap();
    let keeper = keeper(&season.path);
    let to_free = keeper.with_notebook(|notebook| Ok(notebook.photos_to_free()?));
    assert_eq!(to_free.unwrap(), ToFree::default());
    let storage = keeper.call(ask::PhotoStorage {}).unwrap().answer;
    assert_eq!((u64::from(storage.photos), storage.can_free), (PHOTOS, 0));
    keeper
        .call(ask::CheckNotebook { only_if_due: false })
        .unwrap();
    keeper.close();
    let notebook = notebook(&season.path).unwrap();
    photos_must_be_whole(&notebook);
    assert_eq!(notebook.photos_to_send(10).unwrap().len() as u64, PHOTOS);
    println!("a note about the hub: altered, dropped, nothing freed by it");
}
