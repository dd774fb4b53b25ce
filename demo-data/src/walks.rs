//! The walks of the season: who went where, which heads were pulled, and what
//! was written down.

use chrono::{Days, NaiveDate};

use crate::chance::Chance;
use crate::fields::{Outline, millionth};
use crate::kernels::{Head, READINGS, Reading};
use crate::plantings::{Grown, Stand};
use crate::today;

/// Mean age at the first walk, heat before mid bloom, and at the last.
const WALKED_AGES: (f64, f64) = (-210.0, 1_230.0);

/// One line of the head file.
pub struct Line {
    /// The planting's name.
    pub planting: &'static str,
    /// Civil date of the walk.
    pub walked_on: NaiveDate,
    /// Stop number within the walk.
    pub stop: u32,
    /// What was read.
    pub reading: Reading,
    /// Where, degrees.
    pub place: (f64, f64),
    /// Name of the scout.
    pub scout: &'static str,
    /// In the scout's words, mostly empty.
    pub note: &'static str,
    /// Flags, in the order of the head file.
    pub flags: Vec<&'static str>,
}

/// Walks every planting, in order.
pub fn walk_all(seed: u64, plantings: &[Grown], outlines: &[Outline]) -> Vec<Line> {
    let mut lines = Vec::new();
    for (number, (grown, outline)) in plantings.iter().zip(outlines).enumerate() {
        let mut chance = Chance::stream(seed, 100 + number as u64);
        let dates = walk_dates(&mut chance, grown);
        for date in dates {
            lines.extend(walk(&mut chance, grown, outline, date));
        }
    }
    lines
}

/// Five to seven dates between boot and black layer, about evenly spaced.
fn walk_dates(chance: &mut Chance, grown: &Grown) -> Vec<NaiveDate> {
    let first = grown.day_of_age(WALKED_AGES.0).unwrap_or_else(today);
    // Not everything was walked today: that is what the demo's lists are for.
    let latest = today() - Days::new(chance.between(0.0, 9.0) as u64);
    let last = grown
        .day_of_age(WALKED_AGES.1)
        .map_or(latest, |date| date.min(latest));
    let days = last.signed_duration_since(first).num_days() as f64;
    let gaps = (days / 8.0).round().clamp(4.0, 6.0); // 5 to 7 walks
    (0..=gaps as u32)
        .map(|walk| {
            let shift = chance.between(-1.4, 1.4);
            let even = days * f64::from(walk) / gaps;
            let after = (even + shift).round().clamp(0.0, days);
            first + Days::new(after as u64)
        })
        .collect()
}

fn walk(chance: &mut Chance, grown: &Grown, outline: &Outline, date: NaiveDate) -> Vec<Line> {
    let mean = grown.age.get(&date).copied().unwrap_or_default();
    let scout = if chance.happens(0.7) {
        "Scout 1"
    } else {
        "Scout 2"
    };
    let (stops, heads) = *chance.pick(&[(5, 5), (5, 5), (5, 5), (6, 5), (5, 4), (4, 5), (3, 6)]);
    let mut lines = Vec::new();
    for stop in 1..=stops {
        let place = outline.place(chance);
        let stop_mean = mean + chance.normal(0.0, grown.stop_spread);
        // A dry corner may have come up late altogether, a low one not at all late.
        let late_plants = chance.between(0.1, 0.9);
        for _ in 0..heads {
            let delay = delay(chance, grown.planting.stand, late_plants);
            let age = stop_mean - delay + chance.normal(0.0, grown.head_spread);
            let head = Head::grow(chance, age, grown.span);
            let reading = head.read(chance, &grown.marks);
            let flags = flags(chance, grown, reading);
            lines.push(Line {
                planting: grown.planting.name,
                walked_on: date,
                stop,
                reading,
                place: (millionth(place.0), millionth(place.1)),
                scout,
                note: note(chance, delay),
                flags,
            });
        }
    }
    lines
}

/// How much later than the main heads this one is, deg F days.
fn delay(chance: &mut Chance, stand: Stand, late_plants: f64) -> f64 {
    let (tiller, flush) = (chance.happens(0.2), chance.happens(late_plants));
    let (by_tiller, by_flush) = (chance.between(110.0, 260.0), chance.normal(230.0, 25.0));
    match stand {
        Stand::Tillers if tiller => by_tiller,
        Stand::TwoFlush if flush => by_flush,
        _ => 0.0,
    }
}

fn flags(chance: &mut Chance, grown: &Grown, reading: Reading) -> Vec<&'static str> {
    let reading = READINGS[reading.class];
    let grain = matches!(reading, "pliable" | "dented" | "dark_spot");
    let ripe = matches!(reading, "dented" | "dark_spot");
    // Each is drawn whether it can apply or not, so that streams stay in step.
    [
        ("moldy", 0.04, reading == "dark_spot"),
        (
            "sheathed",
            0.03,
            matches!(reading, "emerging" | "bloom" | "liquid"),
        ),
        ("bird_fed", 0.05, grain),
        ("sterile_florets", 0.02, grain || reading == "liquid"),
        ("lodged_plant", grown.hybrid().lodging, ripe),
    ]
    .into_iter()
    .filter(|(_, probability, applies)| chance.happens(*probability) && *applies)
    .map(|(flag, _, _)| flag)
    .collect()
}

fn note(chance: &mut Chance, delay: f64) -> &'static str {
    let (writes, which) = (chance.happens(0.03), chance.uniform());
    if !writes {
        ""
    } else if delay > 100.0 {
        "late head, green leaf below"
    } else if which < 0.4 {
        "thin stand here"
    } else if which < 0.7 {
        "wheel track beside the row"
    } else {
        "tall plants, good color"
    }
}
