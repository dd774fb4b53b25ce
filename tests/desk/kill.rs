//! What was shown as saved is there after kill -9.
//!
//! Twenty times: a new notebook, up to 200 heads recorded one after the other as
//! fast as the desk answers, and the process killed at a random moment among
//! them. Every head that the desk had answered for must be there, as it was
//! read; the one that was on its way may be there or not, and sending it again
//! with the same id must leave exactly one.

use serde::de::DeserializeOwned;
use service::{Ask, HeadSaved, NewHead, NewPlanting, PlantingDetails, Reply, Request, ask};
use std::process::Command;
use std::sync::mpsc;
use std::thread;
use std::time::Duration;

use rand::{RngExt as _, SeedableRng as _};
use rand_chacha::ChaCha8Rng;
use ripening::{Head, Reading, Share};
use uuid::Uuid;

use crate::open::OpenDesk;

const KILLS: u64 = 20;
const HEADS: usize = 200;

#[test]
fn every_head_shown_as_saved_survives_a_kill() {
    let mut killed_midway = 0;
    for seed in 0..KILLS {
        let saved = record_until_killed(seed);
        println!("seed {seed}: killed after {saved} of {HEADS} heads");
        killed_midway += usize::from(saved < HEADS);
    }
    // A kill that always comes too late would prove nothing.
    assert!(
        killed_midway >= 15,
        "only {killed_midway} kills came in time"
    );
}

/// Gives how many heads had been answered for when the desk was gone.
fn record_until_killed(seed: u64) -> usize {
    let mut chance = ChaCha8Rng::seed_from_u64(seed);
    let desk = OpenDesk::start();
    let (walk, stop) = start_walk(&desk);
    let heads: Vec<(Uuid, Head)> = (0..HEADS)
        .map(|_| (Uuid::now_v7(), any_head(&mut chance)))
        .collect();

    let last_before_kill = chance.random_range(1..HEADS);
    let moment = Duration::from_micros(chance.random_range(0..6_000));
    let process = desk.process().to_string();
    let (tell, told) = mpsc::channel();
    let killer = thread::spawn(move || {
        while told.recv().unwrap() < last_before_kill {}
        thread::sleep(moment);
        let killed = Command::new("kill").args(["-KILL", &process]).status();
        assert!(killed.unwrap().success());
    });
    let mut saved = 0;
    for (id, head) in &heads {
        if add_head(&desk, stop, *id, *head).is_none() {
            break;
        }
        saved += 1;
        // Nobody listens any more once the kill is on its way.
        let _ = tell.send(saved);
    }
    killer.join().unwrap();

    let desk = desk.restart();
    let found = heads_of(&desk, walk);
    assert!(
        found.len() <= saved + 1,
        "seed {seed}: heads out of nothing"
    );
    assert_eq!(
        &heads[..saved],
        &found[..saved],
        "seed {seed}: saved heads are lost"
    );
    if saved < HEADS {
        let (id, head) = heads[saved];
        add_head(&desk, stop, id, head).unwrap();
        let found = heads_of(&desk, walk);
        assert_eq!(&heads[..=saved], &found[..], "seed {seed}: sent again");
    }
    saved
}

pub fn start_walk(desk: &OpenDesk) -> (Uuid, Uuid) {
    let planting = NewPlanting {
        id: None,
        name: "North 40".to_owned(),
        details: PlantingDetails::default(),
    };
    let row = ask(desk, ask::AddPlanting { new: planting }).unwrap();
    let start = ask::StartWalk {
        id: None,
        planting: row.id,
        walked_on: None,
        scout: Some("Scout 1".to_owned()),
    };
    let walk = ask(desk, start).unwrap();
    (walk.id, walk.stops[0].id)
}

pub fn add_head(desk: &OpenDesk, stop: Uuid, id: Uuid, head: Head) -> Option<HeadSaved> {
    let head = NewHead {
        head,
        flags: Vec::new(),
        note: None,
    };
    ask(
        desk,
        ask::AddHead {
            id: Some(id),
            stop,
            head,
        },
    )
}

pub fn heads_of(desk: &OpenDesk, walk: Uuid) -> Vec<(Uuid, Head)> {
    let page = ask(desk, ask::Walk { walk }).unwrap();
    page.stops
        .iter()
        .flat_map(|stop| &stop.heads)
        .map(|head| (head.id, head.head))
        .collect()
}

/// The answer; none once the desk is gone.
pub fn ask<A>(desk: &OpenDesk, ask: A) -> Option<A::Answer>
where
    A: Ask + Into<Request>,
    A::Answer: DeserializeOwned,
{
    let request: Request = ask.into();
    let reply = desk.try_call(&serde_json::to_string(&request).unwrap())?;
    assert_eq!(reply.status, 200, "{}", reply.body);
    let reply: Reply<A::Answer> = serde_json::from_str(&reply.body).unwrap();
    Some(reply.answer)
}

pub fn any_head(chance: &mut ChaCha8Rng) -> Head {
    let reading = Reading::ALL[chance.random_range(0..7)];
    let share =
        (reading != Reading::Boot).then(|| Share::new(chance.random_range(1..=100)).unwrap());
    Head::new(reading, share).unwrap()
}
