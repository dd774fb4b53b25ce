//! Photos and archives on a disk that is full or may not be written to: refused in
//! one line, nothing of them stored, everything as before once there is room.

use std::fs;
use std::io::Write as _;

use service::{FileOut, FileRequest, Keep, PhotoOf, Problem, ProblemCode, Service, ask, prepare};
use uuid::Uuid;

use crate::full_or_locked::Small;
use crate::season::{
    Asking as _, Book, Open, add_photo, changes, files_below, must_be_whole, notebook, open,
    photos_must_be_whole, picture,
};

const SIDE: u32 = 400;

/// The season on a small file system, with its photos.
fn on(small: &Small) -> (Open, Service) {
    let (season, at) = Book::with_season(2);
    season.copy_into(small.folder());
    (at, open(&small.path()).unwrap())
}

fn try_photo(service: &mut Service, at: Open, id: Uuid) -> Result<(), Problem> {
    let request = FileRequest::AddPhoto {
        id: Some(id),
        of: PhotoOf::Planting(at.planting),
    };
    let read = prepare(request, &picture(500, SIDE)).unwrap();
    service.call_prepared(read).map(drop)
}

/// Everything but the notebook's own file and what SQLite keeps beside it.
fn files(small: &Small) -> Vec<String> {
    let mut names: Vec<String> = files_below(small.folder())
        .into_iter()
        .map(|path| path.display().to_string())
        .filter(|name| !name.contains("notebook.db-") && !name.ends_with("notebook.db"))
        .collect();
    names.retain(|name| !name.ends_with("filler"));
    names
}

#[test]
fn a_photo_on_a_full_disk_is_not_stored_and_goes_in_once_there_is_room() {
    let Some(small) = Small::mount(6000) else {
        println!("skipped: a small file system may not be mounted here");
        return;
    };
    let (at, mut service) = on(&small);
    let log = changes(service.notebook().db());
    let before = files(&small);
    let id = Uuid::from_u64_pair(0x7000_0000_0000_7002, 1);
    // From no room at all to almost enough: the file fails, its thumbnail, its fact.
    for room in [0, 4, 8, 16, 32, 48, 64, 72, 80, 88, 96, 104, 112, 128, 160] {
        let filler = small.fill(room);
        let refused = try_photo(&mut service, at, id);
        fs::remove_file(filler).unwrap();
        match refused {
            Err(problem) => {
                assert_eq!(problem.code, ProblemCode::DiskFull, "{room} KB: {problem}");
                assert_eq!(changes(service.notebook().db()), log, "{room} KB");
                assert_eq!(files(&small), before, "{room} KB: half a photo lies about");
                println!("a photo, {room} KB free: '{problem}'");
            }
            Ok(()) => {
                println!("a photo, {room} KB free: stored");
                break;
            }
        }
        must_be_whole(service.notebook());
        photos_must_be_whole(service.notebook());
    }
    try_photo(&mut service, at, id).unwrap();
    try_photo(&mut service, at, id).unwrap();
    let of = PhotoOf::Planting(at.planting);
    let rows = service.ask(ask::Photos { of }).rows;
    assert_eq!(rows.iter().filter(|photo| photo.id == id).count(), 1);
    must_be_whole(service.notebook());
    photos_must_be_whole(service.notebook());
}

/// The file is kept, and the fact that names it finds no room in the database.
#[test]
fn a_photo_whose_fact_finds_no_room_leaves_no_file() {
    let (season, at) = Book::with_season(2);
    let mut service = open(&season.path).unwrap();
    let before = season.photo_folder();
    let log = changes(service.notebook().db());
    let id = Uuid::from_u64_pair(0x7000_0000_0000_7002, 2);
    // The -wal keeps what does not fit; so no page may be written at all.
    service
        .notebook()
        .db()
        .execute_batch("PRAGMA query_only = ON")
        .unwrap();
    let problem = try_photo(&mut service, at, id).unwrap_err();
    assert_eq!(problem.code, ProblemCode::ReadOnly, "{problem}");
    assert_eq!(season.photo_folder(), before);
    assert_eq!(changes(service.notebook().db()), log);
    service
        .notebook()
        .db()
        .execute_batch("PRAGMA query_only = OFF")
        .unwrap();
    try_photo(&mut service, at, id).unwrap();
    // The same picture again, refused for its id: its file is another photo's too.
    let planting = service.notebook().db().query_row(
        "SELECT id FROM planting WHERE id <> ?1 LIMIT 1",
        [at.planting],
        |row| row.get(0),
    );
    let other = Open {
        planting: planting.unwrap(),
        ..at
    };
    let problem = try_photo(&mut service, other, id).unwrap_err();
    assert_eq!(problem.code, ProblemCode::Conflict, "{problem}");
    must_be_whole(service.notebook());
    photos_must_be_whole(service.notebook());
    println!("a photo whose fact is refused: no file is left, and no other's taken");
}

#[test]
fn a_photo_on_a_locked_disk_is_refused_and_goes_in_once_it_is_unlocked() {
    let Some(small) = Small::mount(6000) else {
        println!("skipped: a small file system may not be mounted here");
        return;
    };
    let (at, service) = on(&small);
    service.into_notebook().close().unwrap();
    let before = files(&small);
    // The folder of the photos alone, then all of it.
    let keeper = crate::season::keeper(&small.path());
    let message = |id: u64| {
        let description = serde_json::to_vec(&FileRequest::AddPhoto {
            id: Some(Uuid::from_u64_pair(0x7000_0000_0000_7002, id)),
            of: PhotoOf::Planting(at.planting),
        })
        .unwrap();
        let length = u32::try_from(description.len()).unwrap().to_le_bytes();
        [&length[..], &description, &picture(500, SIDE)].concat()
    };
    keeper.close();
    small.again("ro");
    let keeper = crate::season::keeper(&small.path());
    let problem = keeper.take_files(&message(3)).unwrap_err();
    assert_eq!(problem.code, ProblemCode::ReadOnly, "{problem}");
    println!("a photo, read-only: '{problem}'");
    small.again("rw");
    assert_eq!(files(&small), before);
    keeper.take_files(&message(3)).unwrap();
    keeper.close();
    let notebook = notebook(&small.path()).unwrap();
    must_be_whole(&notebook);
    photos_must_be_whole(&notebook);
}

#[test]
fn an_archive_that_finds_no_room_leaves_nothing_out_or_in() {
    let (season, at) = Book::with_season(2);
    let mut service = open(&season.path).unwrap();
    for number in 0..12 {
        let of = PhotoOf::Planting(at.planting);
        add_photo(&mut service, None, of, &picture(600 + number, SIDE));
    }
    let mut whole = Vec::new();
    service
        .file_out(&FileOut::Notebook, &mut std::io::Cursor::new(&mut whole))
        .unwrap();
    let Some(small) = Small::mount(6000) else {
        println!("skipped: a small file system may not be mounted here");
        return;
    };
    // Out: at every length, the file is refused and told as no room.
    for room in [0, 16, whole.len() / 2048, whole.len() / 1024 - 8] {
        let filler = small.fill(room);
        let mut to = tempfile::tempfile_in(small.folder()).unwrap();
        let problem = service.file_out(&FileOut::Notebook, &mut to).unwrap_err();
        assert_eq!(problem.code, ProblemCode::DiskFull, "{room} KB: {problem}");
        println!("an archive out, {room} KB free: '{problem}'");
        drop(to);
        fs::remove_file(filler).unwrap();
    }
    must_be_whole(service.notebook());
    // In: photos and log, or neither.
    let path = small.path();
    let mut other = open(&path).unwrap();
    let before = files(&small);
    for room in [40, 200, whole.len() / 1024 / 2, whole.len() / 1024] {
        let filler = small.fill(room);
        let from = std::io::Cursor::new(&whole);
        let problem = other
            .archive_in(from, Keep::GoodRows, &mut |_| true)
            .unwrap_err();
        fs::remove_file(filler).unwrap();
        assert_eq!(problem.code, ProblemCode::DiskFull, "{room} KB: {problem}");
        assert!(changes(other.notebook().db()).is_empty(), "{room} KB");
        assert_eq!(files(&small), before, "{room} KB: photos lie about");
        println!("an archive in, {room} KB free: '{problem}'");
    }
    let from = std::io::Cursor::new(&whole);
    other
        .archive_in(from, Keep::GoodRows, &mut |_| true)
        .unwrap();
    assert_eq!(
        changes(other.notebook().db()),
        changes(service.notebook().db())
    );
    must_be_whole(other.notebook());
    photos_must_be_whole(other.notebook());
    std::io::stdout().flush().unwrap();
}
