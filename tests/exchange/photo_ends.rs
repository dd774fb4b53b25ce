//! A hub that died between the last part of a photo and its end: every part is in
//! the photo store, and nobody put them together.

use crate::both_stores::{Story, on_postgresql, on_sqlite};
use crate::hostile_photos::with_photos;
use crate::hub_here::{HubHere, Kept, Phone};
use exchange::meet::Way;
use exchange::{Trouble, photos};
use hub::store::PhotoPart;
use sha2::{Digest, Sha256};
use std::ops::ControlFlow;
use wire::{Answer, Ask, PHOTO_PART, Role};

const STORIES: &[Story] = &[
    ("closed by an empty part", closed_by_an_empty_part),
    ("closed by the next exchange", closed_by_the_next_exchange),
    ("not closed too early", not_closed_too_early),
];

#[test]
fn photo_ends_on_sqlite() {
    on_sqlite(STORIES);
}

#[test]
fn photo_ends_on_postgresql() {
    on_postgresql(STORIES);
}

fn named(photo: &[u8]) -> ([u8; 32], String) {
    let digest: [u8; 32] = Sha256::digest(photo).into();
    let name = digest.iter().map(|byte| format!("{byte:02x}")).collect();
    (digest, name)
}

/// Lays a photo's parts where a hub lays them, and notes each, but does not put them
/// together. `but` parts at the end are left out.
fn parts_without_an_end(here: &HubHere, phone: &Phone, photo: &[u8], but: usize) {
    let (digest, name) = named(photo);
    let crew = phone.joined.crew;
    let folder = here
        .folder
        .path()
        .join("photos/parts")
        .join(crew.simple().to_string())
        .join(name);
    std::fs::create_dir_all(&folder).unwrap();
    let all = photo.chunks(usize::try_from(PHOTO_PART).unwrap());
    let laid = all.len() - but;
    let mut have = 0;
    for part in all.take(laid) {
        std::fs::write(folder.join(format!("{have:012}")), part).unwrap();
        let part = PhotoPart {
            by: (phone.joined.device, Role::Scout),
            name: digest,
            size: photo.len() as u64,
            have,
            length: part.len() as u64,
        };
        assert!(
            here.runtime
                .block_on(here.hub.store.photo_grew(crew, part))
                .unwrap()
        );
        have += part.length;
    }
}

fn missing(way: &mut dyn Way, digest: [u8; 32]) -> Option<u64> {
    let names = vec![digest].into();
    match way.ask(&Ask::PhotosMissing { names }) {
        Ok(Answer::PhotosMissing(missing)) => missing.first().map(|(_, have)| *have),
        other => panic!("{other:?}"),
    }
}

fn photo_of(bytes: usize) -> Vec<u8> {
    (0..bytes).map(|at| (at % 251) as u8).collect()
}

fn closed_by_an_empty_part(kept: &mut dyn FnMut() -> Kept) {
    let here = HubHere::start(&kept());
    let ada = here.crew("Ada");
    let part = usize::try_from(PHOTO_PART).unwrap();
    let mut way = here.way(Some(ada.token.clone()));
    // The last part full and not.
    for bytes in [777, part, 2 * part, 2 * part + 777] {
        let photo = photo_of(bytes);
        let size = bytes as u64;
        let (digest, name) = named(&photo);
        parts_without_an_end(&here, &ada, &photo, 0);
        assert_eq!(missing(&mut way, digest), Some(size));
        assert_eq!(way.send_photo(&name, size, size, &[]).unwrap(), None);
        assert_eq!(missing(&mut way, digest), None);
        // The answer was lost: the same again.
        assert_eq!(way.send_photo(&name, size, size, &[]).unwrap(), None);
        let (start, whole) = way.fetch_photo(&name, 0..700).unwrap();
        assert_eq!((&start[..], whole), (&photo[..700], size));
    }
}

fn closed_by_the_next_exchange(kept: &mut dyn FnMut() -> Kept) {
    let here = HubHere::start(&kept());
    let phone = here.crew("Ada");
    let mut ada = with_photos(&here.folder.path().join("ada.db"));
    let photo = ada.photos_to_send(9).unwrap()[0];
    let bytes = ada.photo_files().unwrap().read(photo.name).unwrap();
    parts_without_an_end(&here, &phone, &bytes.unwrap(), 0);
    let mut way = here.way(Some(phone.token.clone()));
    let done = photos::exchange(&mut ada, &mut way, Role::Owner, &|| {}, &mut |_| {
        ControlFlow::Continue(())
    })
    .unwrap();
    assert_eq!((done.sent, done.to_send), (2, 2));
    assert_eq!(missing(&mut way, photo.name.0), None);
    assert!(ada.photos_to_send(9).unwrap().is_empty());
}

fn not_closed_too_early(kept: &mut dyn FnMut() -> Kept) {
    let here = HubHere::start(&kept());
    let ada = here.crew("Ada");
    let part = usize::try_from(PHOTO_PART).unwrap();
    let photo = photo_of(2 * part + 777);
    let size = photo.len() as u64;
    let (digest, name) = named(&photo);
    let mut way = here.way(Some(ada.token.clone()));
    // Nothing of it is here, or not all: the hub says what it holds.
    assert_eq!(way.send_photo(&name, size, size, &[]).unwrap(), Some(0));
    parts_without_an_end(&here, &ada, &photo, 1);
    let held = Some(2 * PHOTO_PART);
    assert_eq!(way.send_photo(&name, size, size, &[]).unwrap(), held);
    assert_eq!(missing(&mut way, digest), held);
    // Empty in the middle is no part, nor is anything behind the end.
    for at in [2 * PHOTO_PART, size + 1] {
        let refused = way.send_photo(&name, at, size, &[]);
        assert!(matches!(refused, Err(Trouble::Refused(_))), "{refused:?}");
    }
    // Parts that do not make the photo of that name are no photo.
    let other = photo_of(900);
    let (wrong, wrong_name) = ([7; 32], "07".repeat(32));
    let told = PhotoPart {
        by: (ada.joined.device, Role::Scout),
        name: wrong,
        size: 900,
        have: 0,
        length: 900,
    };
    let folder = here.folder.path().join("photos/parts");
    let folder = folder.join(ada.joined.crew.simple().to_string());
    std::fs::create_dir_all(folder.join(&wrong_name)).unwrap();
    std::fs::write(folder.join(&wrong_name).join("000000000000"), other).unwrap();
    let crew = ada.joined.crew;
    assert!(
        here.runtime
            .block_on(here.hub.store.photo_grew(crew, told))
            .unwrap()
    );
    let refused = way.send_photo(&wrong_name, 900, 900, &[]);
    assert!(matches!(refused, Err(Trouble::Refused(_))), "{refused:?}");
    assert_eq!(missing(&mut way, wrong), Some(0), "it begins anew");
}
