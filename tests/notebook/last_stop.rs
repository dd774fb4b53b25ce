//! Stops at which nothing was read: the last ones of a finished walk leave no trace,
//! and what was read or photographed at a stop is never hidden.

use std::io::Cursor;

use chrono::TimeDelta;
use headwalk_tests::devices::{Seeded, SetClock, service_in_memory};
use headwalk_tests::picture::{Camera, jpeg, scene};
use notebook::Notebook;
use notebook::log::{after, heads};
use ripening::Reading;
use service::{
    Answer, FileOut, FileRequest, PhotoOf, Place, ProblemCode, Service, WalkPage, ask, prepare,
};
use uuid::Uuid;

use crate::faces::{Face, NOON, head, named, service};
use crate::merging::give;

/// Heads of each stop shown.
fn counts(page: &WalkPage) -> Vec<usize> {
    page.stops.iter().map(|stop| stop.heads.len()).collect()
}

fn numbers(page: &WalkPage) -> Vec<u32> {
    page.stops.iter().map(|stop| stop.number).collect()
}

fn add_stop(service: &mut Service, walk: Uuid, degrees_north: f64) -> WalkPage {
    let place = Some(Place {
        latitude: degrees_north,
        longitude: -99.25,
        accuracy_m: Some(4.0),
        age_s: None,
    });
    let request = ask::AddStop {
        id: None,
        walk,
        place,
    };
    service.ask(request).answer
}

fn file(service: &mut Service, what: FileOut) -> String {
    let mut made = Cursor::new(Vec::new());
    service.file_out(&what, &mut made).unwrap();
    String::from_utf8(made.into_inner()).unwrap()
}

/// Stops of a walk as the planting's map draws them.
fn drawn(service: &mut Service, planting: Uuid) -> usize {
    service
        .ask(ask::PlantingMap { planting })
        .answer
        .walks
        .iter()
        .map(|walk| walk.stops.len())
        .sum()
}

/// A walk with a head at each of the first two of four stops.
fn two_of_four(service: &mut Service) -> (Uuid, WalkPage) {
    let planting = service.plant(named("North 40")).id;
    let page = service.start(planting);
    let walk = page.id;
    service.tap(page.stops[0].id, head(Reading::Pliable, 40));
    let page = add_stop(service, walk, 38.5);
    service.tap(page.stops[1].id, head(Reading::Pliable, 50));
    add_stop(service, walk, 38.6);
    let page = add_stop(service, walk, 38.7);
    assert_eq!(counts(&page), [1, 1, 0, 0]);
    (planting, page)
}

fn finish(service: &mut Service, walk: Uuid) -> WalkPage {
    service.ask(ask::FinishWalk { walk }).answer
}

fn reopen(service: &mut Service, walk: Uuid) -> WalkPage {
    service.ask(ask::ReopenWalk { walk }).answer
}

#[test]
fn empty_last_stops_leave_no_trace_of_themselves_in_a_finished_walk() {
    let (mut service, _) = service();
    let (planting, page) = two_of_four(&mut service);
    assert_eq!(drawn(&mut service, planting), 4);
    assert_eq!(counts(&finish(&mut service, page.id)), [1, 1]);
    assert_eq!(counts(&service.page(page.id)), [1, 1]);
    assert_eq!(drawn(&mut service, planting), 2);
    let stops = file(&mut service, FileOut::Stops);
    assert!(stops.contains("38.5") && !stops.contains("38.6") && !stops.contains("38.7"));
    assert_eq!(file(&mut service, FileOut::Heads).lines().count(), 3);
    let brief = service.rows()[0].last_walk.clone().unwrap();
    assert_eq!(brief.now.alone.unwrap().stops, 2);
}

#[test]
fn a_walk_opened_again_goes_on_where_it_was_left() {
    let (mut service, _) = service();
    let (_, page) = two_of_four(&mut service);
    let last = page.stops[3].id;
    finish(&mut service, page.id);
    let again = reopen(&mut service, page.id);
    assert_eq!(counts(&again), [1, 1, 0, 0]);
    assert_eq!(again.stops[3].id, last);
    // The third stays: it is no longer among the last.
    service.tap(last, head(Reading::Pliable, 60));
    let done = finish(&mut service, page.id);
    assert_eq!(counts(&done), [1, 1, 0, 1]);
    assert_eq!(numbers(&done), [1, 2, 3, 4]);
    // Undo goes back as if the walk had never been finished.
    reopen(&mut service, page.id);
    for left in [&[1, 1, 0, 0][..], &[1, 1, 0], &[1, 1], &[1, 0]] {
        assert_eq!(counts(&service.undo(page.id)), left);
    }
    // The next stop takes the next number.
    let next = add_stop(&mut service, page.id, 38.8);
    assert_eq!(numbers(&next), [1, 2, 3]);
}

#[test]
fn a_walk_without_heads_keeps_its_first_stop() {
    let (mut service, _) = service();
    let planting = service.plant(named("North 40")).id;
    let begun = service.start(planting);
    let (walk, first) = (begun.id, begun.stops[0].id);
    add_stop(&mut service, walk, 38.5);
    let page = finish(&mut service, walk);
    assert_eq!(counts(&page), [0]);
    assert_eq!(page.stops[0].id, first);
}

#[test]
fn a_stop_with_a_photo_or_with_an_unread_head_taken_out_and_brought_back_is_there() {
    let folder = tempfile::tempdir().unwrap();
    let clock = SetClock::at(NOON).unwrap();
    let path = folder.path().join("n.notebook");
    let notebook = Notebook::open(&path, Box::new(clock), Box::new(Seeded::new(3))).unwrap();
    let mut service = Service::new(notebook).unwrap();
    let (_, page) = two_of_four(&mut service);
    let third = page.stops[2].id;
    let camera = Camera {
        orientation: 1,
        place: None,
    };
    let of = PhotoOf::Stop(third);
    let picture = jpeg(&scene(64, 48), camera).unwrap();
    let prepared = prepare(FileRequest::AddPhoto { id: None, of }, &picture).unwrap();
    let Answer::AddPhoto(added) = service.call_prepared(prepared).unwrap().answer else {
        panic!("no photo");
    };
    assert_eq!(added.photo.stop_number, Some(3));
    assert_eq!(counts(&finish(&mut service, page.id)), [1, 1, 0]);
    // Without the photo nothing is left of it, until the photo is back.
    service.ask(ask::RemovePhoto {
        photo: added.photo.id,
    });
    assert_eq!(counts(&service.page(page.id)), [1, 1]);
    service.ask(ask::RestorePhoto {
        photo: added.photo.id,
    });
    assert_eq!(counts(&service.page(page.id)), [1, 1, 0]);

    // A removed head is no head.
    reopen(&mut service, page.id);
    let read = service.tap(page.stops[3].id, head(Reading::Pliable, 60));
    assert_eq!(counts(&finish(&mut service, page.id)), [1, 1, 0, 1]);
    service.ask(ask::RemoveHead { head: read.head.id });
    assert_eq!(counts(&service.page(page.id)), [1, 1, 0]);
}

/// Each takes in all that the other has written.
fn meet(both: &mut [Service; 2]) {
    let written = both.each_ref().map(|service| {
        let db = service.notebook().db();
        let series = heads(db).unwrap();
        series
            .keys()
            .map(|device| after(db, *device, 0, usize::MAX).unwrap())
            .collect::<Vec<_>>()
    });
    let [ours, theirs] = written;
    for (service, pages) in both.iter_mut().zip([theirs, ours]) {
        for page in pages {
            give(service, &page);
        }
    }
    let [first, second] = both
        .each_ref()
        .map(|service| service.notebook().view_digest().unwrap());
    assert_eq!(first, second);
}

#[test]
fn a_head_read_at_a_stop_that_another_phone_closed_or_removed_is_shown_on_both() {
    for undone in [false, true] {
        let clock = SetClock::at(NOON).unwrap();
        let mut both = [1, 2].map(|seed| service_in_memory(&clock, seed).unwrap());
        let (_, page) = two_of_four(&mut both[0]);
        meet(&mut both);
        clock.move_by(TimeDelta::minutes(1));
        // One ends the walk, or takes the stop back, while the other reads at it.
        if undone {
            assert_eq!(counts(&both[0].undo(page.id)), [1, 1, 0]);
        } else {
            assert_eq!(counts(&finish(&mut both[0], page.id)), [1, 1]);
        }
        let last = page.stops[3].id;
        both[1].tap(last, head(Reading::Dented, 20));
        meet(&mut both);
        for service in &mut both {
            assert_eq!(counts(&service.page(page.id)), [1, 1, 0, 1], "{undone}");
            let now = service.page(page.id).now.alone.unwrap();
            assert_eq!(now.heads, 3, "{undone}");
            let heads = file(service, FileOut::Heads);
            assert_eq!(heads.lines().count(), 4, "{undone}");
            assert_eq!(
                service.rows()[0].last_walk.as_ref().unwrap().now.alone,
                Some(now)
            );
            if undone {
                // It takes further heads.
                service.tap(last, head(Reading::Dented, 30));
            }
        }
    }
}

#[test]
fn a_stop_with_photos_is_not_undone() {
    let folder = tempfile::tempdir().unwrap();
    let clock = SetClock::at(NOON).unwrap();
    let path = folder.path().join("n.notebook");
    let notebook = Notebook::open(&path, Box::new(clock), Box::new(Seeded::new(3))).unwrap();
    let mut service = Service::new(notebook).unwrap();
    let (planting, page) = two_of_four(&mut service);
    let of = PhotoOf::Stop(page.stops[3].id);
    let camera = Camera {
        orientation: 1,
        place: None,
    };
    let picture = jpeg(&scene(64, 48), camera).unwrap();
    let prepared = prepare(FileRequest::AddPhoto { id: None, of }, &picture).unwrap();
    service.call_prepared(prepared).unwrap();
    let seq = {
        let notebook = service.notebook();
        heads(notebook.db()).unwrap()[&notebook.device()].seq
    };
    // The change before the photo's made the stop.
    let undo_change = ask::UndoChange {
        planting,
        seq: seq - 1,
    };
    assert_eq!(service.refuse(undo_change).code, ProblemCode::Conflict);
    assert_eq!(counts(&service.page(page.id)), [1, 1, 0, 0]);
}
