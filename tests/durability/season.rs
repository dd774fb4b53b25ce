//! A small season in a notebook on the disk.

use service::{
    Answer, AskService, ChosenFile, FileRequest, Keeper, NewHead, PhotoOf, PhotoView, Problem,
    Service, ask, prepare,
};
use std::fmt::Write as _;
use std::path::{Path, PathBuf};

use chrono::NaiveDate;
use headwalk_tests::picture::{Camera, jpeg, scene};
use notebook::log::{self, Change};
use notebook::{Clock, Notebook, OnDate, StoreError, SystemRandomness};
use ripening::{Head, Reading, Share};
use rusqlite::Connection;
use tempfile::TempDir;
use uuid::Uuid;

/// A notebook's file in a folder of its own.
pub struct Book {
    pub folder: TempDir,
    pub path: PathBuf,
}

impl Book {
    pub fn new() -> Book {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("notebook.db");
        Book { folder, path }
    }

    /// With some walks, and one open in a planting of its own.
    pub fn with_season(walks: usize) -> (Book, Open) {
        let book = Book::new();
        let mut service = open(&book.path).unwrap();
        let text = head_file("North", 1, walks);
        service.ask(ask::ImportHeadFile { text });
        let text = "planting,hybrid,planted_on,purpose\nNorth 1,H-17,2026-05-20,grain\n\
                    Creek 1,H-17,2026-05-20,grain\n";
        let text = text.to_owned();
        service.ask(ask::ImportPlantingFile { text });
        let planting = service
            .notebook()
            .db()
            .query_row("SELECT id FROM planting ORDER BY name LIMIT 1", [], |row| {
                row.get(0)
            })
            .unwrap();
        let started = service.ask(ask::StartWalk {
            id: None,
            planting,
            walked_on: None,
            scout: Some("Scout 1".to_owned()),
        });
        let page = started;
        let open = Open {
            walk: page.id,
            stop: page.stops[0].id,
            planting,
        };
        for number in 0..PHOTOS {
            let of = match number % 2 {
                0 => PhotoOf::Planting(planting),
                _ => PhotoOf::Stop(open.stop),
            };
            add_photo(&mut service, None, of, &picture(number, 40));
        }
        let outlines = outline_file(&["North 1", "Creek 1"]).into_bytes();
        let files = vec![ChosenFile {
            name: "fields.geojson".to_owned(),
            bytes: u32::try_from(outlines.len()).unwrap(),
        }];
        let request = FileRequest::ImportOutlineFile {
            files,
            chosen: None,
        };
        let read = prepare(request, &outlines).unwrap();
        let reply = service.call_prepared(read).unwrap();
        let Answer::ImportOutlineFile(review) = reply.answer else {
            panic!("no outlines");
        };
        assert_eq!(review.to_store, 2);
        service.into_notebook().close().unwrap();
        (book, open)
    }

    /// A copy of its files under another folder.
    pub fn copy(&self) -> Book {
        let copy = Book::new();
        self.copy_into(copy.folder.path());
        copy
    }

    /// Copies its files into a folder.
    pub fn copy_into(&self, folder: &Path) {
        let path = folder.join("notebook.db");
        for ending in ["", "-wal", "-shm"] {
            let from = beside(&self.path, ending);
            if from.exists() {
                std::fs::copy(from, beside(&path, ending)).unwrap();
            }
        }
        for file in files_below(&beside(&self.path, PHOTO_FOLDER)) {
            let to = folder.join(file.strip_prefix(&self.folder).unwrap());
            std::fs::create_dir_all(to.parent().unwrap()).unwrap();
            std::fs::copy(file, to).unwrap();
        }
    }

    /// All files of photos, whole or not, thumbnails too.
    pub fn photo_folder(&self) -> Vec<PathBuf> {
        files_below(&beside(&self.path, PHOTO_FOLDER))
    }
}

/// The walk that is open, its stop and its planting.
#[derive(Clone, Copy)]
pub struct Open {
    pub walk: Uuid,
    pub stop: Uuid,
    pub planting: Uuid,
}

/// Photos of a season.
pub const PHOTOS: u64 = 4;
const PHOTO_FOLDER: &str = ".photos";

/// All files below a folder, sorted.
pub fn files_below(folder: &Path) -> Vec<PathBuf> {
    let Ok(entries) = std::fs::read_dir(folder) else {
        return Vec::new();
    };
    let mut files = Vec::new();
    for entry in entries {
        let path = entry.unwrap().path();
        if path.is_dir() {
            files.extend(files_below(&path));
        } else {
            files.push(path);
        }
    }
    files.sort();
    files
}

/// The picture of a number as a camera gives it, each another.
pub fn picture(number: u64, side: u32) -> Vec<u8> {
    let number = u32::try_from(number).unwrap();
    let camera = Camera {
        orientation: 1,
        place: None,
    };
    jpeg(&scene(side + number % 60, side + number / 60), camera).unwrap()
}

/// Keeps a picture as a photo.
pub fn add_photo(service: &mut Service, id: Option<Uuid>, of: PhotoOf, file: &[u8]) -> PhotoView {
    let read = prepare(FileRequest::AddPhoto { id, of }, file).unwrap();
    let Answer::AddPhoto(added) = service.call_prepared(read).unwrap().answer else {
        panic!("no photo");
    };
    added.photo
}

/// Outlines of fields of these names, side by side in the open ocean.
fn outline_file(names: &[&str]) -> String {
    let features: Vec<String> = names
        .iter()
        .zip(0..)
        .map(|(name, at)| {
            let west = -40.0 + 0.01 * f64::from(at);
            let (east, south, north) = (west + 0.005, 38.0, 38.004);
            format!(
                r#"{{"type":"Feature","properties":{{"name":"{name}"}},"geometry":{{"type":"Polygon",
                "coordinates":[[[{west},{south}],[{east},{south}],[{east},{north}],[{west},{north}],
                [{west},{south}]]]}}}}"#
            )
        })
        .collect();
    format!(
        r#"{{"type":"FeatureCollection","features":[{}]}}"#,
        features.join(",")
    )
}

pub fn beside(path: &Path, ending: &str) -> PathBuf {
    let mut name = path.as_os_str().to_owned();
    name.push(ending);
    PathBuf::from(name)
}

pub fn today() -> NaiveDate {
    NaiveDate::from_ymd_opt(2026, 9, 1).unwrap()
}

pub fn clock() -> Box<dyn Clock> {
    Box::new(OnDate(today()))
}

pub fn notebook(path: &Path) -> Result<Notebook, StoreError> {
    Notebook::open(path, clock(), Box::new(SystemRandomness))
}

pub fn open(path: &Path) -> Result<Service, Problem> {
    Service::new(notebook(path)?)
}

pub fn keeper(path: &Path) -> Keeper {
    Keeper::open(path, Some(today()))
}

/// Calls that must succeed.
pub trait Asking {
    fn ask<A: AskService>(&mut self, ask: A) -> A::Answer;
}

impl Asking for Service {
    fn ask<A: AskService>(&mut self, ask: A) -> A::Answer {
        self.call(ask).unwrap().answer
    }
}

/// A head file of so many walks of 25 heads, ten walks a planting.
pub fn head_file(name: &str, first: usize, walks: usize) -> String {
    let mut text = "planting,walked_on,stop,reading,share,note\n".to_owned();
    for walk in 0..walks {
        for head in 0..25 {
            let note = if head == 7 { "under the pivot" } else { "" };
            writeln!(
                text,
                "{name} {},2026-08-{:02},{},pliable,{},{note}",
                first + walk / 10,
                1 + 3 * (walk % 10),
                1 + head / 5,
                1 + (walk * 31 + head * 17) % 100,
            )
            .unwrap();
        }
    }
    text
}

/// The head of a number, always the same.
pub fn head(number: u64) -> (Uuid, NewHead) {
    let share = 1 + u8::try_from(number * 13 % 100).unwrap();
    let head = NewHead {
        head: Head::new(Reading::Pliable, Some(Share::new(share).unwrap())).unwrap(),
        flags: vec![],
        note: None,
    };
    (Uuid::from_u64_pair(0x7000_0000_0000_7000, number), head)
}

pub fn add_head(stop: Uuid, number: u64) -> ask::AddHead {
    let (id, head) = head(number);
    ask::AddHead {
        id: Some(id),
        stop,
        head,
    }
}

/// Every change of every series.
pub fn changes(db: &Connection) -> Vec<Change> {
    log::heads(db)
        .unwrap()
        .keys()
        .flat_map(|device| log::after(db, *device, 0, usize::MAX).unwrap())
        .collect()
}

/// What changes say, whoever's series they are in.
pub fn said(changes: &[Change]) -> Vec<(String, String)> {
    let mut said: Vec<(String, String)> = changes
        .iter()
        .map(|change| (change.kind.clone(), change.body.clone()))
        .collect();
    said.sort();
    said
}

/// Fails unless the notebook is whole in every respect.
pub fn must_be_whole(notebook: &Notebook) {
    let found = notebook::durability::check::check(notebook.db()).unwrap();
    assert!(found.is_sound(), "{found:?}");
}

/// Fails unless every photo's file is what its name says and none is missed.
pub fn photos_must_be_whole(notebook: &Notebook) {
    let found = notebook::durability::photos::look(notebook).unwrap();
    assert!(found.is_sound(), "{found:?}");
}
