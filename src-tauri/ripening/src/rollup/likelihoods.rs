//! Likelihoods of single heads along a grid, each computed once.

use std::collections::BTreeMap;
use std::sync::{Arc, Mutex, OnceLock, PoisonError, Weak};

use super::grid::Grid;
use super::population::{LONGEST_LAG, SPANS, with_late};
use super::reading_error::Kind;

/// The likelihood of every kind of head along a grid of means, for heads of one
/// spread; computed for a kind when it is first asked for.
pub(crate) struct Likelihoods {
    grid: Grid,
    spread: f64,
    /// Room before the grid for the longest lag, in points.
    room: usize,
    kinds: Vec<OfKind>,
}

/// Span by span.
#[derive(Default)]
struct OfKind {
    on_time: OnceLock<Box<[f32]>>,
    /// Late heads, and `room` before the grid: they are on time for means further back.
    late: OnceLock<Box<[f32]>>,
}

/// A grid and a spread, by their bits.
type Place = [u64; 4];

impl Likelihoods {
    /// Those of this grid and spread: the same ones for all who hold them at a time.
    pub(crate) fn of(grid: Grid, spread: f64) -> Arc<Likelihoods> {
        static HELD: Mutex<BTreeMap<Place, Weak<Likelihoods>>> = Mutex::new(BTreeMap::new());
        let place = [
            grid.first.to_bits(),
            grid.step.to_bits(),
            grid.points as u64,
            spread.to_bits(),
        ];
        let mut held = HELD.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some(known) = held.get(&place).and_then(Weak::upgrade) {
            return known;
        }
        held.retain(|_, other| other.strong_count() > 0);
        let new = Arc::new(Likelihoods {
            grid,
            spread,
            room: (LONGEST_LAG / grid.step) as usize,
            kinds: (0..Kind::COUNT).map(|_| OfKind::default()).collect(),
        });
        held.insert(place, Arc::downgrade(&new));
        new
    }

    /// That of a kind, for a span by its place in [`SPANS`] and heads that are late by
    /// `lag` heat units.
    pub(crate) fn of_kind(&self, kind: Kind, span: usize, lag: f64) -> &[f32] {
        let tables = &self.kinds[kind.index()];
        let points = self.grid.points;
        if lag > 0.0 {
            let table = tables
                .late
                .get_or_init(|| self.along(kind, with_late(self.spread), self.room));
            let behind = (lag / self.grid.step) as usize;
            &table[span * (self.room + points) + self.room - behind..][..points]
        } else {
            let table = tables
                .on_time
                .get_or_init(|| self.along(kind, self.spread, 0));
            &table[span * points..][..points]
        }
    }

    fn along(&self, kind: Kind, spread: f64, room: usize) -> Box<[f32]> {
        let points = room + self.grid.points;
        let mut table = Vec::with_capacity(SPANS.len() * points);
        for (span, _) in SPANS {
            let curve = kind.curve(spread, span);
            let means = (0..points).map(|point| self.grid.mean(point as i64 - room as i64));
            table.extend(means.map(|mean| curve.at(mean) as f32));
        }
        table.into_boxed_slice()
    }
}
