//! Crews in trouble: 2-6 real notebooks and the real hub, with a network that
//! loses, repeats, cuts and spoils, clocks that jump, processes that die, disks
//! that fill, phones set back to a backup or lost. Everything follows from one
//! seed. In half of the crews a member means harm: it gives bytes that are no change,
//! changes in the name of others, stamps at both ends of the clock, facts that cannot be,
//! and much of all that, and goes on when it is removed. At the end the way is fine
//! again, and:
//!
//! - soon all hold the same changes, the hub too (liveness);
//! - nothing that the hub acknowledged is missing;
//! - nothing is there twice;
//! - equal logs show equal views, byte for byte, and equal answers, bit for bit,
//!   and rebuilding the views changes nothing;
//! - no planting is shown as one that is shown as another, and what people merged
//!   differently is settled for all once one of them has chosen;
//! - changes of unknown kinds are there like the others;
//! - a removed phone stored nothing after its removal;
//! - nothing is held in the name of a phone that did not write it;
//! - every phone still writes, at a time that the others follow, and its notebook is whole;
//! - no exchange took more questions than it may.
//!
//! 300 seeds; 20,000 with `HEADWALK_LONG=1`, best with `--cargo-profile long`; one with
//! `HEADWALK_SEED=N`; a range with `HEADWALK_SEEDS=FROM..TO`. A failing seed is added to
//! `seeds.txt` here, and is tried first from then on.

#![allow(clippy::unwrap_used, clippy::panic)]

mod hub_there;
mod intruder;
mod network;
mod phone;
mod world;

use std::fs::OpenOptions;
use std::io::Write as _;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::PathBuf;
use std::sync::Mutex;
use std::time::Instant;
use wire::planted::{self, Bug};

const SEEDS: u64 = 300;
const SEEDS_LONG: u64 = 20_000;
/// A long run says how far it is.
const TOLD_EVERY: u32 = 250;
/// Seeds within which a planted fault must show.
const PATIENCE: u64 = 300;

/// A fault is planted for the whole process: one test at a time.
static ALONE: Mutex<()> = Mutex::new(());

fn kept_file() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("exchange_simulation/seeds.txt")
}

fn kept_seeds() -> Vec<u64> {
    std::fs::read_to_string(kept_file())
        .unwrap()
        .lines()
        .filter(|line| !line.starts_with('#') && !line.trim().is_empty())
        .map(|line| line.trim().parse().unwrap())
        .collect()
}

/// A broken rule, whether it was reported or met by a failed assertion.
fn outcome(seed: u64) -> Result<(), String> {
    catch_unwind(AssertUnwindSafe(|| world::run(seed))).unwrap_or_else(|panic| {
        let said = panic
            .downcast_ref::<String>()
            .map(String::as_str)
            .or_else(|| panic.downcast_ref::<&str>().copied());
        Err(format!("panic: {}", said.unwrap_or("no words")))
    })
}

/// Tries all of them, so that a long run ends with every seed that fails.
fn check(seeds: impl Iterator<Item = u64>) {
    let begun = Instant::now();
    let mut failed = Vec::new();
    for (tried, seed) in (1_u32..).zip(seeds) {
        if let Err(why) = outcome(seed) {
            println!("seed {seed}: {why}");
            failed.push(seed);
            if !kept_seeds().contains(&seed) {
                let mut file = OpenOptions::new().append(true).open(kept_file()).unwrap();
                writeln!(file, "{seed}").unwrap();
            }
        }
        if tried.is_multiple_of(TOLD_EVERY) {
            let seconds = begun.elapsed().as_secs();
            println!("{tried} seeds, the last {seed}, in {seconds} s; failed: {failed:?}");
        }
    }
    assert!(failed.is_empty(), "seeds that failed: {failed:?}");
}

fn long() -> bool {
    std::env::var_os("HEADWALK_LONG").is_some_and(|value| value == "1")
}

/// Every second seed, so that two processes share the work.
fn half(start: u64) {
    let _alone = ALONE.lock();
    planted::plant(Bug::None);
    let (from, to) = range();
    check((from..to).filter(|seed| seed % 2 == start));
}

/// The seeds to try.
fn range() -> (u64, u64) {
    if let Ok(seed) = std::env::var("HEADWALK_SEED") {
        let seed = seed.parse().unwrap();
        return (seed, seed + 1);
    }
    if let Ok(seeds) = std::env::var("HEADWALK_SEEDS") {
        let (from, to) = seeds.split_once("..").unwrap();
        return (from.parse().unwrap(), to.parse().unwrap());
    }
    (0, if long() { SEEDS_LONG } else { SEEDS })
}

#[test]
fn seeds_that_failed_before_hold() {
    let _alone = ALONE.lock();
    planted::plant(Bug::None);
    check(kept_seeds().into_iter());
}

#[test]
fn even_seeds_hold() {
    half(0);
}

#[test]
fn odd_seeds_hold() {
    half(1);
}

#[test]
fn planted_faults_are_found() {
    let _alone = ALONE.lock();
    // The broken rules are expected here; their reports would only be noise.
    std::panic::set_hook(Box::new(|_| {}));
    let mut missed = Vec::new();
    for bug in [
        Bug::GapAccepted,
        Bug::ReuseIgnored,
        Bug::AcknowledgedTooSoon,
        Bug::RemovedMayWrite,
        Bug::ForkOverlooked,
        Bug::UnknownKindDropped,
        Bug::SetAsideDropped,
        Bug::SealUnchecked,
        Bug::ClockFollowed,
    ] {
        planted::plant(bug);
        let found = (0..PATIENCE).find_map(|seed| outcome(seed).err().map(|why| (seed, why)));
        match found {
            Some((seed, why)) => println!("{bug:?}: seed {seed}: {why}"),
            None => missed.push(bug),
        }
    }
    planted::plant(Bug::None);
    let _ = std::panic::take_hook();
    assert!(missed.is_empty(), "not found: {missed:?}");
}
