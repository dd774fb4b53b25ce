//! One notebook asked from several threads.

use std::sync::atomic::{AtomicBool, Ordering};
use std::thread;

use ripening::Reading;
use rusqlite::Connection;
use service::{Answers, SharedService, ask};
use uuid::Uuid;

use super::faces::{head, named};

fn latest(service: &SharedService) -> Option<Answers> {
    while service.call(ask::WorkOut {}).unwrap().answer.left > 0 {}
    let list = service.call(ask::Plantings {}).unwrap().answer;
    list.rows[0].last_walk.as_ref().map(|walk| walk.now.clone())
}

/// A thread asks for the list again and again while heads are tapped, and keeps
/// the answers it computed: none may be kept from before a tap.
#[test]
fn a_question_beside_the_taps_never_keeps_an_answer_from_before_a_tap() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("n.notebook");
    let service = SharedService::open(&path, None).unwrap();
    let planting = service
        .call(ask::AddPlanting {
            new: named("North 1"),
        })
        .unwrap()
        .answer;
    let started = service.call(ask::StartWalk {
        id: None,
        planting: planting.id,
        walked_on: None,
        scout: None,
    });
    let walk = started.unwrap().answer;
    let stop: Uuid = walk.stops[0].id;

    let done = AtomicBool::new(false);
    thread::scope(|scope| {
        let asking = scope.spawn(|| {
            let mut asked = 0;
            while !done.load(Ordering::Relaxed) {
                latest(&service);
                asked += 1;
            }
            asked
        });
        for share in 1..=60 {
            let added = service.call(ask::AddHead {
                id: None,
                stop,
                head: head(Reading::Pliable, share),
            });
            added.unwrap();
        }
        done.store(true, Ordering::Relaxed);
        assert!(asking.join().unwrap() > 0);
    });

    let seen = latest(&service).unwrap();
    assert_eq!(seen.alone.unwrap().heads, 60);
    drop(service);
    let kept = latest(&SharedService::open(&path, None).unwrap());
    Connection::open(&path)
        .unwrap()
        .execute("DELETE FROM answer", [])
        .unwrap();
    let anew = latest(&SharedService::open(&path, None).unwrap());
    assert_eq!(kept, anew);
    assert_eq!(Some(seen), anew);
}
