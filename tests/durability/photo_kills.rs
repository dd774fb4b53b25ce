//! The process is killed while photos are kept, and while an archive with photos is
//! brought in. The file comes before the fact that names it, so a kill may leave a
//! file that no fact names, never a fact without its file.

use std::collections::BTreeSet;
use std::path::Path;
use std::time::Duration;

use notebook::photo::PhotoName;
use rand::RngExt as _;
use service::{FileOut, FileRequest, PhotoOf, PhotoSize, PhotoView, Service, ask, prepare};

use crate::kill::{chance, runs};
use crate::outcome::Outcomes;
use crate::season::{
    Asking as _, Book, PHOTOS, add_photo, changes, must_be_whole, open, photos_must_be_whole,
    picture, said,
};
use crate::worker::{PICTURES, SIDE, Worker, photo_id};

/// Photos of the planting, the oldest first.
fn photos(service: &mut Service, planting: uuid::Uuid) -> Vec<PhotoView> {
    let of = PhotoOf::Planting(planting);
    let mut rows = service.ask(ask::Photos { of }).rows;
    rows.reverse();
    rows
}

fn bytes_of(service: &Service, name: PhotoName) -> Vec<u8> {
    let whole = service.photo_bytes(name, PhotoSize::Whole).unwrap();
    whole.expect("a photo that is shown has its file")
}

/// Files under the names of photos, and files that were not finished.
fn files(book: &Book) -> (BTreeSet<String>, usize) {
    let names: Vec<String> = book
        .photo_folder()
        .iter()
        .map(|path| file_name(path))
        .collect();
    let whole = |name: &&String| name.ends_with(".jpg") && !name.ends_with(".small.jpg");
    let coming = |name: &&String| name.starts_with("coming-");
    (
        names.iter().filter(whole).cloned().collect(),
        names.iter().filter(coming).count(),
    )
}

fn file_name(path: &Path) -> String {
    path.file_name().unwrap().to_string_lossy().into_owned()
}

#[test]
fn photos_shown_as_saved_survive_kills() {
    let mut outcomes = Outcomes::default();
    let (season, at) = Book::with_season(4);
    let pictures: Vec<Vec<u8>> = (0..PICTURES).map(|at| picture(100 + at, SIDE)).collect();
    let names: Vec<PhotoName> = pictures
        .iter()
        .map(|file| PhotoName::of(&notebook::photo::picture::read(file).unwrap().jpeg))
        .collect();
    for run in 0..runs(100) {
        let mut chance = chance(7, run);
        let book = season.copy();
        let last = chance.random_range(0..PICTURES - 1);
        let pause = Duration::from_micros(chance.random_range(0..12_000));
        let told = Worker::start("photo", &book.path, &at.planting.to_string())
            .kill_after(&format!("saved {last}"), pause)
            .len();
        let (found, unfinished) = files(&book);
        let mut service = open(&book.path).unwrap();
        let shown: Vec<_> = photos(&mut service, at.planting)
            .into_iter()
            .filter(|photo| names.contains(&photo.name))
            .collect();
        assert!(shown.len() >= told, "run {run}: a saved photo is lost");
        assert!(shown.len() <= told + 1, "run {run}: a photo out of nothing");
        for photo in &shown {
            assert_eq!(photo.id, photo_id(place(&names, photo.name)), "run {run}");
            assert!(photo.here, "run {run}: a fact without its file");
            let bytes = bytes_of(&service, photo.name);
            assert_eq!(PhotoName::of(&bytes), photo.name, "run {run}");
        }
        must_be_whole(service.notebook());
        photos_must_be_whole(service.notebook());
        let stored = shown.len() > told;
        let file_there = names
            .get(told)
            .is_some_and(|name| found.contains(&format!("{name}.jpg")));
        let came = match (stored, file_there, unfinished) {
            (true, true, _) => "all shown as saved are there; the one on its way was stored, once",
            (true, false, _) => panic!("run {run}: a fact without its file"),
            (false, true, _) => "all are there; of the one on its way the file, not yet the fact",
            (false, false, 0) => "all are there; of the one on its way nothing",
            (false, false, _) => "all are there; of the one on its way half a file, under no name",
        };
        outcomes.add("while keeping photos", came);
        // The one that was on its way, sent again, is there once.
        if let Some(file) = pictures.get(told) {
            let of = PhotoOf::Planting(at.planting);
            add_photo(&mut service, Some(photo_id(told as u64)), of, file);
            let again = photos(&mut service, at.planting);
            let times = again.iter().filter(|photo| photo.name == names[told]);
            assert_eq!(times.count(), 1, "run {run}");
            photos_must_be_whole(service.notebook());
        }
    }
    outcomes.print("killed");
}

fn place(names: &[PhotoName], name: PhotoName) -> u64 {
    names.iter().position(|known| *known == name).unwrap() as u64
}

#[test]
fn an_archive_that_is_killed_is_there_whole_or_not_at_all() {
    let mut outcomes = Outcomes::default();
    let (season, at) = Book::with_season(8);
    let archive = season.folder.path().join("season.zip");
    let log = {
        let mut service = open(&season.path).unwrap();
        for number in 0..20 {
            let of = PhotoOf::Planting(at.planting);
            add_photo(&mut service, None, of, &picture(200 + number, SIDE));
        }
        let mut file = std::fs::File::create(&archive).unwrap();
        service.file_out(&FileOut::Notebook, &mut file).unwrap();
        said(&changes(service.notebook().db()))
    };
    for run in 0..runs(60) {
        let mut chance = chance(8, run);
        let book = Book::new();
        drop(open(&book.path).unwrap());
        let pause = Duration::from_micros(chance.random_range(0..900_000));
        let told = Worker::start("archive", &book.path, archive.to_str().unwrap())
            .kill_after("begin", pause);
        let (found, _) = files(&book);
        let service = open(&book.path).unwrap();
        let here = said(&changes(service.notebook().db()));
        must_be_whole(service.notebook());
        photos_must_be_whole(service.notebook());
        let came = if here == log {
            assert_eq!(
                found.len() as u64,
                PHOTOS + 20,
                "run {run}: photos are missing"
            );
            if told.is_empty() {
                "archive: all of it was stored before the answer came"
            } else {
                "archive: it was done already"
            }
        } else {
            assert!(here.is_empty() && told.is_empty(), "run {run}: half a log");
            if found.is_empty() {
                "archive: cut off, nothing stored"
            } else {
                "archive: cut off, nothing stored but files that no photo names"
            }
        };
        outcomes.add("while bringing in an archive", came);
    }
    outcomes.print("killed");
}

/// The two halves of a photo alone, made by hand: what a kill leaves, and what only
/// a disk that lost a file can leave.
#[test]
fn a_file_without_its_fact_harms_nothing_and_a_fact_without_its_file_is_told() {
    let (season, at) = Book::with_season(2);
    let mut service = open(&season.path).unwrap();
    let of = PhotoOf::Planting(at.planting);
    let file = picture(300, SIDE);
    let jpeg = notebook::photo::picture::read(&file).unwrap().jpeg;
    let name = PhotoName::of(&jpeg);
    let files = service.notebook().photo_files().unwrap().clone();
    files.put(name, &jpeg).unwrap();
    assert!(
        !photos(&mut service, at.planting)
            .iter()
            .any(|it| it.name == name)
    );
    photos_must_be_whole(service.notebook());
    // Nothing but room is lost by it, and freeing gives that back.
    service.with_notebook(|notebook| {
        let unnamed = notebook.photos_to_free().unwrap().unnamed;
        notebook.free_photos(&unnamed).unwrap();
    });
    assert_eq!(files.length(name), None);
    let request = FileRequest::AddPhoto { id: None, of };
    service
        .call_prepared(prepare(request, &file).unwrap())
        .unwrap();
    assert_eq!(bytes_of(&service, name), jpeg);

    std::fs::remove_file(files.path(name)).unwrap();
    let shown = photos(&mut service, at.planting);
    let photo = shown.iter().find(|photo| photo.name == name).unwrap();
    assert!(!photo.here);
    let check = service.ask(ask::CheckNotebook { only_if_due: false });
    assert_eq!((check.photos_damaged, check.photos_missing), (0, 1));
    let wanted = service.notebook().photos_to_fetch(10).unwrap();
    assert_eq!(wanted.iter().map(|it| it.name).collect::<Vec<_>>(), [name]);
    println!("a file without its fact: not shown, its room can be freed");
    println!("a fact without its file: told by the check, fetched again");
}
