//! Photos in an archive: they come back to the byte, and whatever is wrong with one
//! is told before anything is stored.

use std::collections::BTreeMap;
use std::io::{Cursor, Write as _};
use std::path::Path;

use headwalk_tests::devices::{Seeded, SetClock};
use headwalk_tests::memory::growth_of;
use headwalk_tests::picture::{Camera, jpeg, scene};
use notebook::Notebook;
use notebook::photo::PhotoName;
use proptest::prelude::*;
use rand::{Rng, SeedableRng as _};
use rand_chacha::ChaCha8Rng;
use ripening::Reading;
use service::{
    Answer, FileOut, FileRequest, Keep, PhotoOf, PhotoSize, PhotoView, Place, Service, ask, prepare,
};
use tempfile::TempDir;
use zip::write::SimpleFileOptions;
use zip::{CompressionMethod, ZipWriter};

use crate::archive_refused::Parts;
use crate::books::{archive, bring_in, file, log_of, state};
use crate::faces::{Face, NOON, head, named};

/// A notebook in a folder of its own.
pub struct Book {
    pub folder: TempDir,
    pub service: Service,
}

pub fn on_disk(seed: u64) -> Book {
    let folder = tempfile::tempdir().unwrap();
    let clock = SetClock::at(NOON).unwrap();
    let path = folder.path().join("n.notebook");
    let notebook = Notebook::open(&path, Box::new(clock), Box::new(Seeded::new(seed))).unwrap();
    let service = Service::new(notebook).unwrap();
    Book { folder, service }
}

pub fn picture(width: u32, height: u32) -> Vec<u8> {
    let camera = Camera {
        orientation: 1,
        place: None,
    };
    jpeg(&scene(width, height), camera).unwrap()
}

pub fn add(service: &mut Service, of: PhotoOf, bytes: &[u8]) -> PhotoView {
    let request = FileRequest::AddPhoto { id: None, of };
    let prepared = prepare(request, bytes).unwrap();
    match service.call_prepared(prepared).unwrap().answer {
        Answer::AddPhoto(added) => added.photo,
        other => panic!("{other:?}"),
    }
}

/// A planting, a stop with a place and a head, with a photo each, one with a
/// caption; and one that was removed.
fn pictured() -> (Book, Vec<PhotoView>) {
    let mut book = on_disk(1);
    let service = &mut book.service;
    let planting = service.plant(named("North 40")).id;
    let walk = service.start(planting);
    let stop = walk.stops[0].id;
    service.ask(ask::PlaceStop {
        stop,
        place: Place {
            latitude: 38.25,
            longitude: -40.5,
            accuracy_m: None,
            age_s: None,
        },
    });
    let of_head = service.tap(stop, head(Reading::Dented, 30)).head.id;
    let photos = vec![
        add(service, PhotoOf::Planting(planting), &picture(320, 240)),
        add(service, PhotoOf::Stop(stop), &picture(240, 320)),
        add(service, PhotoOf::Head(of_head), &picture(200, 200)),
        add(service, PhotoOf::Stop(stop), &picture(210, 200)),
    ];
    service.ask(ask::CaptionPhoto {
        photo: photos[1].id,
        caption: "mold, \"north\" side".to_owned(),
    });
    service.ask(ask::RemovePhoto {
        photo: photos[3].id,
    });
    (book, photos)
}

/// Every file below a folder but the notebook's own, with its bytes.
fn files_below(folder: &Path) -> BTreeMap<String, Vec<u8>> {
    let mut files = BTreeMap::new();
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        let name = path.file_name().unwrap().to_string_lossy().into_owned();
        if path.is_dir() {
            for (below, bytes) in files_below(&path) {
                files.insert(format!("{name}/{below}"), bytes);
            }
        } else if !name.starts_with("n.notebook") {
            files.insert(name, std::fs::read(&path).unwrap());
        }
    }
    files
}

fn whole(service: &Service, name: PhotoName) -> Option<Vec<u8>> {
    service.photo_bytes(name, PhotoSize::Whole).unwrap()
}

fn entry(name: PhotoName) -> String {
    format!("photos/{name}.jpg")
}

#[test]
fn log_and_photos_come_back_to_the_byte() {
    let (mut old, photos) = pictured();
    let made = archive(&mut old.service);
    let mut new = on_disk(99);
    let reviewed = bring_in(&mut new.service, &made, Keep::Nothing).unwrap();
    assert_eq!(reviewed.review.photos, 4);
    assert!(
        files_below(new.folder.path()).is_empty(),
        "a review kept photos"
    );
    bring_in(&mut new.service, &made, Keep::GoodRows).unwrap();
    assert_eq!(log_of(&new.service), log_of(&old.service));
    assert_eq!(state(&new.service), state(&old.service));
    for photo in &photos {
        let kept = whole(&new.service, photo.name).unwrap();
        assert_eq!(kept, whole(&old.service, photo.name).unwrap());
        assert_eq!(PhotoName::of(&kept), photo.name);
    }
    let found = notebook::durability::photos::look(new.service.notebook()).unwrap();
    assert!(found.is_sound() && found.files == 4, "{found:?}");
    // And out again: every entry but those that say who made it and how it is set.
    let mut again = Parts::of(&archive(&mut new.service));
    let mut first = Parts::of(&made);
    for parts in [&mut again, &mut first] {
        parts.0.retain(|(name, _)| name != "manifest.json");
    }
    assert!(
        first
            .0
            .iter()
            .filter(|(name, _)| name.starts_with("photos/"))
            .count()
            == 4
    );
    assert_eq!(again.0, first.0);
    // What came with the archive is missed should it go.
    let path = new
        .service
        .notebook()
        .photo_files()
        .unwrap()
        .path(photos[0].name);
    std::fs::remove_file(path).unwrap();
    let found = notebook::durability::photos::look(new.service.notebook()).unwrap();
    assert_eq!(found.missing, [photos[0].name]);
}

#[test]
fn tables_say_which_file_shows_what() {
    let (mut old, photos) = pictured();
    let made = archive(&mut old.service);
    let mut parts = Parts::of(&made);
    let table = String::from_utf8(parts.part("photos.csv").clone()).unwrap();
    let mut rows = csv::Reader::from_reader(table.as_bytes());
    assert_eq!(
        rows.headers().unwrap().iter().collect::<Vec<_>>(),
        [
            "planting",
            "walked_on",
            "stop",
            "head",
            "file",
            "taken",
            "caption",
            "width",
            "height"
        ]
    );
    let rows: Vec<Vec<String>> = rows
        .records()
        .map(|row| row.unwrap().iter().map(str::to_owned).collect())
        .collect();
    // Taken at one instant, they stand in any order.
    let row = |file: &str| -> Vec<&str> {
        let row = rows.iter().find(|row| row[4] == file).unwrap();
        row.iter().map(String::as_str).collect()
    };
    let taken = "2026-08-20T11:45:10";
    let [planting, stop, of_head] = [0, 1, 2].map(|at| entry(photos[at].name));
    assert_eq!(
        row(&planting),
        ["North 40", "", "", "", &planting, taken, "", "320", "240"]
    );
    let caption = "mold, \"north\" side";
    assert_eq!(
        row(&stop),
        [
            "North 40",
            "2026-08-20",
            "1",
            "",
            &stop,
            taken,
            caption,
            "240",
            "320"
        ]
    );
    assert_eq!(
        row(&of_head),
        [
            "North 40",
            "2026-08-20",
            "1",
            "1",
            &of_head,
            taken,
            "",
            "200",
            "200"
        ]
    );
    assert_eq!(rows.len(), 3, "the one taken out is not told");
    // Stops name theirs, for a map.
    let stops = file(&mut old.service, &FileOut::Stops);
    let stops: serde_json::Value = serde_json::from_slice(&stops).unwrap();
    let shown = &stops["features"][0]["properties"]["photos"];
    let shown = |file: &str| {
        let mut shown = shown.as_array().unwrap().iter();
        shown.find(|it| it["file"] == file).unwrap()["caption"].clone()
    };
    assert_eq!(shown(&stop), caption);
    assert_eq!(shown(&of_head), serde_json::Value::Null);
    let pictures = stops["features"][0]["properties"]["photos"].as_array();
    assert_eq!(pictures.unwrap().len(), 2, "the one taken out is not told");
}

/// The one line of the refusal, after a check that nothing was stored anywhere. A
/// look at what the archive would bring is refused with the same line.
fn refused(archive: &[u8]) -> String {
    let mut new = on_disk(99);
    let before = state(&new.service);
    let looked_at = bring_in(&mut new.service, archive, Keep::Nothing)
        .expect_err("must be refused")
        .message;
    let line = bring_in(&mut new.service, archive, Keep::GoodRows)
        .expect_err("must be refused")
        .message;
    assert_eq!(line, looked_at);
    assert_eq!(state(&new.service), before);
    assert!(files_below(new.folder.path()).is_empty(), "{line}");
    let settings: i64 = new
        .service
        .notebook()
        .db()
        .query_row("SELECT count(*) FROM photo_file", [], |row| row.get(0))
        .unwrap();
    assert_eq!(settings, 0);
    assert!(!line.contains('\n'), "{line}");
    line
}

fn altered(alter: impl FnOnce(&mut Parts, &[PhotoView])) -> Vec<u8> {
    let (mut old, photos) = pictured();
    let mut parts = Parts::of(&archive(&mut old.service));
    alter(&mut parts, &photos);
    parts.zipped()
}

#[test]
fn a_photo_that_is_not_what_its_name_says_is_refused() {
    // The list of contents tells; and where that was made to agree, the name does.
    for listed in [false, true] {
        let line = refused(&altered(|parts, photos| {
            let part = parts.part(&entry(photos[2].name));
            let middle = part.len() / 2;
            part[middle] ^= 1;
            if listed {
                parts.listed_truly();
            }
        }));
        assert!(
            line.contains("photos/") && line.contains("damaged"),
            "{line}"
        );
    }
    // Two photos under each other's names.
    let line = refused(&altered(|parts, photos| {
        let [one, two] = [0, 1].map(|at| entry(photos[at].name));
        let first = std::mem::take(parts.part(&one));
        let second = std::mem::replace(parts.part(&two), first);
        *parts.part(&one) = second;
        parts.listed_truly();
    }));
    assert!(line.contains("damaged"), "{line}");
}

#[test]
fn a_photo_that_is_not_in_the_archive_is_elsewhere_and_one_not_in_the_log_is_passed_over() {
    let (mut old, photos) = pictured();
    let mut parts = Parts::of(&archive(&mut old.service));
    let gone = entry(photos[0].name);
    parts.0.retain(|(name, _)| *name != gone);
    let line = refused(&parts.zipped());
    assert!(line.contains(&gone[..40]), "{line}");

    parts.listed_truly();
    let other = picture(64, 64);
    let extra = PhotoName::of(&other);
    parts.0.push((entry(extra), other));
    parts
        .0
        .push(("photos/readme.txt".to_owned(), b"no photo".to_vec()));
    parts.listed_truly();
    let mut new = on_disk(99);
    bring_in(&mut new.service, &parts.zipped(), Keep::GoodRows).unwrap();
    assert_eq!(log_of(&new.service), log_of(&old.service));
    assert_eq!(whole(&new.service, photos[0].name), None);
    assert_eq!(whole(&new.service, extra), None);
    assert!(whole(&new.service, photos[1].name).is_some());
    let wanted = new.service.notebook().photos_to_fetch(10).unwrap();
    assert_eq!(
        wanted.iter().map(|it| it.name).collect::<Vec<_>>(),
        [photos[0].name]
    );
    // It never was here, so nothing is missed.
    let found = notebook::durability::photos::look(new.service.notebook()).unwrap();
    assert!(found.is_sound() && found.files == 3, "{found:?}");
}

#[test]
fn photos_that_lead_out_of_their_folder_are_refused() {
    for name in [
        "photos/../escape.jpg",
        "photos/..",
        "photos\\escape.jpg",
        "/photos/escape.jpg",
        "photos/a/b.jpg",
        "photos/.hidden.jpg",
    ] {
        let line = refused(&altered(|parts, _| {
            parts.0.push((name.to_owned(), b"x".to_vec()));
            parts.listed_truly();
        }));
        assert!(line.contains("do not trust it"), "{name}: {line}");
    }
}

/// An archive with one photo put in its place: other bytes, packed.
fn with_photo(
    bytes: &mut dyn FnMut(&mut dyn std::io::Write),
    listed: u64,
    digest: &str,
    method: CompressionMethod,
) -> Vec<u8> {
    let (mut old, photos) = pictured();
    let mut parts = Parts::of(&archive(&mut old.service));
    let name = entry(photos[0].name);
    parts.manifest(|it| {
        for each in it["entries"].as_array_mut().unwrap() {
            if each["name"] == name {
                each["size"] = listed.into();
                each["sha256"] = digest.into();
            }
        }
    });
    let mut zip = ZipWriter::new(Cursor::new(Vec::new()));
    let options = SimpleFileOptions::default()
        .compression_method(method)
        .large_file(true);
    for (known, content) in &parts.0 {
        zip.start_file(known.as_str(), options).unwrap();
        if *known == name {
            bytes(&mut zip);
        } else {
            zip.write_all(content).unwrap();
        }
    }
    zip.finish().unwrap().into_inner()
}

#[test]
fn a_photo_that_unpacks_without_end_is_refused_within_memory() {
    let zeros = vec![0_u8; 1 << 20];
    let mut pour = |to: &mut dyn std::io::Write| {
        for _ in 0..400 {
            to.write_all(&zeros).unwrap();
        }
    };
    let bomb = with_photo(&mut pour, 400 << 20, "00", CompressionMethod::Deflated);
    assert!(bomb.len() < 2 << 20, "{}", bomb.len());
    let (line, growth) = growth_of(|| refused(&bomb));
    println!("a bomb among photos: grew by {growth:?} bytes; '{line}'");
    assert!(line.contains("unpacks to more than"), "{line}");
    assert!(growth.unwrap_or(0) < 256 << 20, "{growth:?}");
}

#[test]
fn a_photo_of_any_length_stays_within_memory() {
    // Longer than any photo may be, and not to be packed any smaller.
    let mut chance = ChaCha8Rng::seed_from_u64(1);
    let mut long = vec![0_u8; 120 << 20];
    Rng::fill_bytes(&mut chance, &mut long);
    let digest = PhotoName::of(&long).to_string();
    let mut pour = |to: &mut dyn std::io::Write| to.write_all(&long).unwrap();
    let made = with_photo(&mut pour, 120 << 20, &digest, CompressionMethod::Stored);
    let (line, growth) = growth_of(|| refused(&made));
    println!("a photo of 120 MB: grew by {growth:?} bytes; '{line}'");
    assert!(line.contains("damaged"), "{line}");
    assert!(growth.unwrap_or(0) < 64 << 20, "{growth:?}");
}

#[test]
fn an_archive_with_many_photos_is_read_within_memory() {
    let mut old = on_disk(1);
    let planting = old.service.plant(named("North 40")).id;
    for at in 0..30 {
        let file = picture(800 + at, 600);
        add(&mut old.service, PhotoOf::Planting(planting), &file);
    }
    let path = old.folder.path().join("made.zip");
    let mut to = std::fs::File::create(&path).unwrap();
    let (_, out) = growth_of(|| old.service.file_out(&FileOut::Notebook, &mut to).unwrap());
    let length = std::fs::metadata(&path).unwrap().len();
    let mut new = on_disk(99);
    let from = std::fs::File::open(&path).unwrap();
    let (done, growth) = growth_of(|| {
        new.service
            .archive_in(from, Keep::GoodRows, &mut |_| true)
            .unwrap()
    });
    assert_eq!(done.review.photos, 30);
    println!("30 photos, {length} bytes: out grew by {out:?}, in by {growth:?} bytes");
    assert!(out.unwrap_or(0) < 64 << 20 && growth.unwrap_or(0) < 64 << 20);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    /// Whatever happens to the bytes, either the archive is refused and no file and
    /// no row is there, or all of it is what it was.
    #[test]
    fn a_spoiled_archive_with_photos_leaves_nothing_or_all(
        places in prop::collection::vec((any::<prop::sample::Index>(), any::<u8>()), 1..4),
        cut in prop::option::of(any::<prop::sample::Index>()),
    ) {
        let (mut old, photos) = pictured();
        let mut bytes = archive(&mut old.service);
        for (place, byte) in places {
            let place = place.index(bytes.len());
            bytes[place] = byte;
        }
        if let Some(end) = cut {
            bytes.truncate(end.index(bytes.len()));
        }
        let mut new = on_disk(9);
        let before = state(&new.service);
        match bring_in(&mut new.service, &bytes, Keep::GoodRows) {
            Ok(_) => {
                prop_assert_eq!(log_of(&new.service), log_of(&old.service));
                for photo in photos {
                    prop_assert!(whole(&new.service, photo.name).is_some());
                }
            }
            Err(problem) => {
                prop_assert_eq!(&state(&new.service), &before);
                prop_assert!(files_below(new.folder.path()).is_empty());
                prop_assert!(!problem.message.contains('\n'));
            }
        }
    }
}
