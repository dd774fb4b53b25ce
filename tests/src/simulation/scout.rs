//! A scout who walks a field, pulls heads, and reads them as the head file's
//! contract says: the most advanced reading at the top, and how far down it goes.

use rand::RngExt;
use rand_chacha::ChaCha8Rng;
use ripening::{Head, Reading, Share};

use crate::simulation::field::{Field, Shape, TrueHead};

/// How well a scout reads.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Eyes {
    /// Standard deviation of a judged share, in points of the head's length.
    pub share_error: f64,
    /// How often a reading is off by one class, 0-1.
    pub off_by_one: f64,
    /// Shares are given in steps of so many percent.
    pub step: f64,
}

/// Careful: shares within a few points.
pub const CAREFUL: Eyes = Eyes {
    share_error: 3.0,
    off_by_one: 0.0,
    step: 5.0,
};

/// Stops and heads at a stop.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Size {
    /// Stops of the walk.
    pub stops: usize,
    /// Heads at each stop, or on average where they differ.
    pub heads: usize,
    /// Whether the number of heads differs from stop to stop.
    pub unequal: bool,
}

/// Walks the field: the heads of each stop, as written down.
pub fn walk(field: &Field, size: Size, eyes: Eyes, rng: &mut ChaCha8Rng) -> Vec<Vec<Head>> {
    (0..size.stops)
        .map(|_| {
            let heads = if size.unequal {
                rng.random_range(1..=2 * size.heads - 1)
            } else {
                size.heads
            };
            stop(field, heads, eyes, rng)
        })
        .collect()
}

/// One stop at any place of the field.
pub fn stop(field: &Field, heads: usize, eyes: Eyes, rng: &mut ChaCha8Rng) -> Vec<Head> {
    let place = field.place(rng);
    (0..heads)
        .map(|_| {
            let head = field.head(&place, rng);
            read(field, &head, eyes, rng)
        })
        .collect()
}

/// Reads one head.
fn read(field: &Field, head: &TrueHead, eyes: Eyes, rng: &mut ChaCha8Rng) -> Head {
    let (mut reading, mut share) = true_reading(field, head);
    if rng.random_bool(eyes.off_by_one) {
        let wrong = if rng.random_bool(0.5) {
            neighbor(reading, 1)
        } else {
            neighbor(reading, -1)
        };
        // Half of those who mistake the class also follow that class down the
        // head; the other half give the share of what they took it for.
        if wrong < reading && rng.random_bool(0.5) {
            share = true_share(field, head, wrong);
        }
        if reading == Reading::Boot && wrong != reading {
            share = rng.random_range(0.02..0.25);
        }
        reading = wrong;
    }
    let error = 0.01 * eyes.share_error * Shape::Normal.quantile(rng.random());
    written(reading, share + error, eyes.step)
}

fn neighbor(reading: Reading, by: isize) -> Reading {
    let at = (reading as isize + by).clamp(0, Reading::ALL.len() as isize - 1);
    Reading::ALL[at as usize]
}

fn true_reading(field: &Field, head: &TrueHead) -> (Reading, f64) {
    let reading = Reading::ALL
        .into_iter()
        .rev()
        .find(|reading| head.top() >= first_shows(field, *reading))
        .unwrap_or(Reading::Boot);
    (reading, true_share(field, head, reading))
}

/// Age of the topmost kernel at which a reading is first seen on the head.
fn first_shows(field: &Field, reading: Reading) -> f64 {
    match reading {
        Reading::Boot => f64::NEG_INFINITY,
        Reading::Emerging => -field.emergence,
        Reading::Bloom => 0.0,
        Reading::Liquid => field.marks.milk,
        Reading::Pliable => field.marks.soft_dough,
        Reading::Dented => field.marks.hard_dough,
        Reading::DarkSpot => field.marks.black_layer,
    }
}

/// Share of the length that shows the reading or a later one; for an emerging
/// head, the part out of the sheath.
fn true_share(field: &Field, head: &TrueHead, reading: Reading) -> f64 {
    match reading {
        Reading::Boot => 0.0,
        Reading::Emerging => ((head.top() + field.emergence) / field.emergence).clamp(0.0, 1.0),
        _ => head.share_older_than(first_shows(field, reading)),
    }
}

fn written(reading: Reading, share: f64, step: f64) -> Head {
    let steps = (100.0 * share / step).round() * step;
    let percent = steps.clamp(step.max(1.0), 100.0) as u8;
    let share = match reading {
        Reading::Boot => None,
        _ => Share::new(percent).ok(),
    };
    // A percent of 1 to 100 for all but boot is always valid.
    Head::new(reading, share).unwrap_or_else(|error| unreachable!("{error}"))
}
