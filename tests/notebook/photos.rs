//! Photos of heads, stops and plantings.

use headwalk_tests::devices::{Seeded, SetClock};
use headwalk_tests::picture::{Camera, OWNER, jpeg, scene};
use notebook::Notebook;
use notebook::photo::PhotoName;
use ripening::Reading;
use service::{
    Answer, Changed, FileRequest, PhotoAdded, PhotoOf, PhotoSize, PhotoStorage, PhotoView,
    ProblemCode, Service, UndoWhat, ask, prepare,
};
use tempfile::TempDir;
use uuid::Uuid;

use crate::faces::{Face, NOON, head, named};

const PLAIN: Camera = Camera {
    orientation: 1,
    place: None,
};

struct Book {
    folder: TempDir,
    service: Service,
}

fn open(folder: &TempDir) -> Service {
    let clock = SetClock::at(NOON).unwrap();
    let path = folder.path().join("n.notebook");
    let notebook = Notebook::open(&path, Box::new(clock), Box::new(Seeded::new(3))).unwrap();
    Service::new(notebook).unwrap()
}

fn book() -> Book {
    let folder = tempfile::tempdir().unwrap();
    let service = open(&folder);
    Book { folder, service }
}

fn picture(width: u32, height: u32, camera: Camera) -> Vec<u8> {
    jpeg(&scene(width, height), camera).unwrap()
}

fn add(service: &mut Service, id: Option<Uuid>, of: PhotoOf, bytes: &[u8]) -> PhotoAdded {
    let prepared = prepare(FileRequest::AddPhoto { id, of }, bytes).unwrap();
    match service.call_prepared(prepared).unwrap().answer {
        Answer::AddPhoto(added) => *added,
        other => panic!("{other:?}"),
    }
}

fn photos(service: &mut Service, of: PhotoOf) -> Vec<PhotoView> {
    service.ask(ask::Photos { of }).answer.rows
}

fn storage(service: &mut Service) -> PhotoStorage {
    service.ask(ask::PhotoStorage {}).answer
}

#[test]
fn a_photo_is_upright_small_and_says_nothing_of_its_owner_or_place() {
    let Book { mut service, .. } = book();
    let planting = service.plant(named("North 40")).id;
    // On its side: what is stored wide is seen high.
    let camera = Camera {
        orientation: 6,
        place: Some((38.2, -40.4)),
    };
    let taken = picture(2400, 1800, camera);
    let added = add(&mut service, None, PhotoOf::Planting(planting), &taken);
    let photo = added.photo;
    assert_eq!((photo.width, photo.height), (1200, 1600));
    assert_eq!(photo.taken.unwrap().to_string(), "2026-08-20 11:45:10");
    assert!(photo.here && !photo.on_hub);
    // A planting has no one place to give it to.
    assert_eq!(added.offered, None);

    let kept = service
        .photo_bytes(photo.name, PhotoSize::Whole)
        .unwrap()
        .unwrap();
    assert_eq!(PhotoName::of(&kept), photo.name);
    let holds =
        |bytes: &[u8], text: &str| bytes.windows(text.len()).any(|at| at == text.as_bytes());
    assert!(holds(&taken, OWNER) && holds(&taken, "Exif"));
    assert!(!holds(&kept, OWNER) && !holds(&kept, "Exif"));
    let image = image::load_from_memory(&kept).unwrap().into_rgb8();
    assert_eq!(image.dimensions(), (1200, 1600));
    // Red was at the top left; a quarter turn to the right brings it top right.
    let red = |x, y| i32::from(image.get_pixel(x, y)[0]);
    assert!(red(1150, 40) > red(1150, 1550) + 80);
    let small = service
        .photo_bytes(photo.name, PhotoSize::Small)
        .unwrap()
        .unwrap();
    let small = image::load_from_memory(&small).unwrap();
    assert_eq!((small.width(), small.height()), (240, 320));
}

#[test]
fn a_stop_without_a_place_is_offered_the_cameras_and_nothing_happens_by_itself() {
    let Book { mut service, .. } = book();
    let planting = service.plant(named("North 40"));
    let walk = service.start(planting.id);
    let stop = walk.stops[0].id;
    let camera = Camera {
        orientation: 1,
        place: Some((38.25, -40.5)),
    };
    let added = add(
        &mut service,
        None,
        PhotoOf::Stop(stop),
        &picture(64, 48, camera),
    );
    let offered = added.offered.unwrap();
    assert_eq!(offered.stop, stop);
    assert_eq!(
        (offered.place.latitude, offered.place.longitude),
        (38.25, -40.5)
    );
    assert_eq!(service.page(walk.id).stops[0].place, None);
    service.ask(ask::PlaceStop {
        stop,
        place: offered.place,
    });
    let again = add(
        &mut service,
        None,
        PhotoOf::Stop(stop),
        &picture(64, 49, camera),
    );
    assert_eq!(again.offered, None);
}

#[test]
fn photos_of_heads_and_stops_are_undone_removed_restored_and_captioned() {
    let Book {
        folder,
        mut service,
    } = book();
    let planting = service.plant(named("North 40")).id;
    let walk = service.start(planting);
    let stop = walk.stops[0].id;
    let of_head = service.tap(stop, head(Reading::Dented, 30)).head.id;
    let id = Uuid::from_u128(77);
    let bytes = picture(80, 60, PLAIN);
    let first = add(&mut service, Some(id), PhotoOf::Head(of_head), &bytes);
    assert_eq!(
        add(&mut service, Some(id), PhotoOf::Head(of_head), &bytes),
        first
    );
    assert_eq!(
        (first.photo.stop_number, first.photo.head_number),
        (Some(1), Some(1))
    );
    assert_eq!(first.photo.head.unwrap().reading(), Reading::Dented);
    add(
        &mut service,
        None,
        PhotoOf::Stop(stop),
        &picture(60, 80, PLAIN),
    );
    assert_eq!(photos(&mut service, PhotoOf::Planting(planting)).len(), 2);
    assert_eq!(photos(&mut service, PhotoOf::Stop(stop)).len(), 2);
    assert_eq!(
        photos(&mut service, PhotoOf::Head(of_head)),
        vec![first.photo.clone()]
    );

    // Undo takes the last photo back, then the first, then the head.
    assert_eq!(service.page(walk.id).undo, Some(UndoWhat::Photo));
    service.undo(walk.id);
    assert_eq!(photos(&mut service, PhotoOf::Planting(planting)).len(), 1);
    service.undo(walk.id);
    assert!(photos(&mut service, PhotoOf::Planting(planting)).is_empty());
    assert_eq!(service.page(walk.id).undo, Some(UndoWhat::Head));
    service.ask(ask::RestorePhoto { photo: id });
    service.ask(ask::CaptionPhoto {
        photo: id,
        caption: "  mold \n on the tip ".to_owned(),
    });
    let shown = photos(&mut service, PhotoOf::Head(of_head));
    assert_eq!(shown[0].caption.as_deref(), Some("mold on the tip"));
    let reply = service.ask(ask::RemovePhoto { photo: id });
    assert_eq!(reply.changed, vec![Changed::Photos]);
    let problem = service.refuse(ask::CaptionPhoto {
        photo: id,
        caption: "gone".to_owned(),
    });
    assert_eq!(problem.code, ProblemCode::NotFound);
    service.ask(ask::RestorePhoto { photo: id });

    // With its head it goes, and comes back with it.
    service.undo(walk.id);
    assert!(photos(&mut service, PhotoOf::Planting(planting)).is_empty());

    let digest = service.notebook().view_digest().unwrap();
    service.with_notebook(|notebook| notebook.rebuild().unwrap());
    assert_eq!(service.notebook().view_digest().unwrap(), digest);
    drop(service);
    let service = open(&folder);
    assert_eq!(service.notebook().view_digest().unwrap(), digest);
    assert!(
        service
            .photo_bytes(first.photo.name, PhotoSize::Whole)
            .unwrap()
            .is_some()
    );
}

#[test]
fn what_is_no_photo_is_refused_and_nothing_is_stored() {
    let Book { mut service, .. } = book();
    let planting = service.plant(named("North 40")).id;
    let of = PhotoOf::Planting(planting);
    let whole = picture(640, 480, PLAIN);
    let cut = &whole[..whole.len() * 2 / 3];
    for (file, words) in [
        (&b""[..], "no picture"),
        (b"planting,walked_on\n", "no picture"),
        (b"\0\0\0\x18ftypheic\0\0\0\0mif1heic", "HEIC"),
        (cut, "cut off"),
    ] {
        let Err(problem) = prepare(FileRequest::AddPhoto { id: None, of }, file) else {
            panic!("{words}");
        };
        assert_eq!(problem.code, ProblemCode::BadInput);
        assert!(problem.message.contains(words), "{}", problem.message);
    }
    assert!(photos(&mut service, of).is_empty());
    assert_eq!(storage(&mut service).photos, 0);
}

#[test]
fn only_what_the_hub_is_known_to_hold_may_be_freed() {
    let Book {
        folder,
        mut service,
    } = book();
    let planting = service.plant(named("North 40")).id;
    let of = PhotoOf::Planting(planting);
    let sent = add(&mut service, None, of, &picture(100, 80, PLAIN)).photo;
    let kept = add(&mut service, None, of, &picture(80, 100, PLAIN)).photo;
    let to_send = service.notebook().photos_to_send(10).unwrap();
    assert_eq!(to_send.len(), 2);
    service.with_notebook(|notebook| notebook.photo_is_on_hub(sent.name).unwrap());
    let rest = service.notebook().photos_to_send(10).unwrap();
    assert_eq!(
        rest.iter().map(|file| file.name).collect::<Vec<_>>(),
        [kept.name]
    );

    let before = storage(&mut service);
    assert_eq!((before.photos, before.only_here), (2, 1));
    assert_eq!(before.can_free, u64::from(sent.bytes));
    service.with_notebook(|notebook| {
        let to_free = notebook.photos_to_free().unwrap();
        assert_eq!(
            (to_free.ask_hub, to_free.unnamed),
            (vec![sent.name], vec![])
        );
        notebook.free_photos(&[sent.name]).unwrap();
    });
    let after = storage(&mut service);
    assert_eq!((after.photos, after.only_here, after.elsewhere), (1, 1, 1));
    assert_eq!(after.bytes, u64::from(kept.bytes));
    // The picture in the list stays; the file comes back only when it is asked for.
    assert!(
        service
            .photo_bytes(sent.name, PhotoSize::Whole)
            .unwrap()
            .is_none()
    );
    assert!(
        service
            .photo_bytes(sent.name, PhotoSize::Small)
            .unwrap()
            .is_some()
    );
    assert!(service.notebook().photos_to_fetch(10).unwrap().is_empty());
    service.ask(ask::WantPhoto { photo: sent.id });
    let fetch = service.notebook().photos_to_fetch(10).unwrap();
    assert_eq!(
        fetch.iter().map(|file| file.name).collect::<Vec<_>>(),
        [sent.name]
    );

    let bytes = service
        .photo_bytes(kept.name, PhotoSize::Whole)
        .unwrap()
        .unwrap();
    service.with_notebook(|notebook| {
        // Other bytes under this name are refused.
        assert!(notebook.keep_photo(sent.name, &bytes).is_err());
        assert_eq!(notebook.photos_to_fetch(10).unwrap().len(), 1);
    });

    // A bit that turned over is noticed, and the file can be had again.
    let path = service.notebook().photo_files().unwrap().path(kept.name);
    let mut turned = bytes.clone();
    turned[bytes.len() / 2] ^= 1;
    std::fs::write(&path, turned).unwrap();
    assert!(service.photo_bytes(kept.name, PhotoSize::Whole).is_err());
    service.with_notebook(|notebook| notebook.keep_photo(kept.name, &bytes).unwrap());
    assert_eq!(
        service.photo_bytes(kept.name, PhotoSize::Whole).unwrap(),
        Some(bytes)
    );
    drop(folder);
}
