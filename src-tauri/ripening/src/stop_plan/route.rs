//! A short walk through given places.

use super::outline::Meters;

/// Puts places into an order that makes a short walk, from `start` if there is
/// one, and gives its length. Nearest neighbor from every possible first stop,
/// each improved by turning round stretches of the walk (2-opt; Croes 1958,
/// Operations Research 6:791-812); the shortest is kept.
pub(super) fn shortest(places: Vec<Meters>, start: Option<Meters>) -> (Vec<Meters>, f64) {
    (0..places.len())
        .map(|first| {
            let mut walk = nearest_neighbors(&places, first);
            while turn_round_best(&mut walk, start) {}
            let meters = length(&walk, start);
            (walk, meters)
        })
        // The first of equals is kept, so the order is settled.
        .reduce(|best, next| if next.1 < best.1 { next } else { best })
        .unwrap_or_default()
}

fn nearest_neighbors(places: &[Meters], first: usize) -> Vec<Meters> {
    let mut left = places.to_vec();
    let mut walk = vec![left.swap_remove(first)];
    while let Some(nearest) = (0..left.len()).min_by(|a, b| {
        let here = walk[walk.len() - 1];
        apart(here, left[*a]).total_cmp(&apart(here, left[*b]))
    }) {
        walk.push(left.swap_remove(nearest));
    }
    walk
}

/// Turns round the stretch whose turning shortens the walk most; whether there
/// was one.
fn turn_round_best(walk: &mut [Meters], start: Option<Meters>) -> bool {
    let before = |walk: &[Meters], i: usize| if i == 0 { start } else { Some(walk[i - 1]) };
    let leg = |from: Option<Meters>, to: Option<Meters>| match (from, to) {
        (Some(from), Some(to)) => apart(from, to),
        _ => 0.0,
    };
    // A nanometer less is no gain: rounding must not keep the loop going.
    let mut best = (1e-9, 0, 0);
    for i in 0..walk.len() {
        for j in i + 1..walk.len() {
            let (previous, next) = (before(walk, i), walk.get(j + 1).copied());
            let now = leg(previous, Some(walk[i])) + leg(Some(walk[j]), next);
            let turned = leg(previous, Some(walk[j])) + leg(Some(walk[i]), next);
            if now - turned > best.0 {
                best = (now - turned, i, j);
            }
        }
    }
    walk[best.1..=best.2].reverse();
    best.2 > best.1
}

/// Meters from the start (or the first place) to the last place.
pub(super) fn length(walk: &[Meters], start: Option<Meters>) -> f64 {
    let first = match (start, walk.first()) {
        (Some(start), Some(first)) => apart(start, *first),
        _ => 0.0,
    };
    walk.windows(2)
        .fold(first, |sum, leg| sum + apart(leg[0], leg[1]))
}

fn apart(a: Meters, b: Meters) -> f64 {
    let (x, y) = (a.x - b.x, a.y - b.y);
    (x * x + y * y).sqrt()
}
