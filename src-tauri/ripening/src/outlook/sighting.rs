//! What one walk says of a planting's age, heads alone.

use chrono::NaiveDate;

use super::need::{half_bloom_age, marks_off};
use crate::head::Head;
use crate::rollup::{Prior, RollUp};

/// Spread of a noted date of half bloom, heat units: about two days either way
/// (common practice; nobody sees half bloom to the hour).
const NOTED_BLOOM_SPREAD: f64 = 40.0;
/// How far the age of a whole walk may be off beyond what its heads say and what
/// the marks may be off, heat units: nobody notes the hour of a walk, which is
/// within three hours of midday two times in three. (That heads differ from place
/// to place is in the roll-up.)
const WALK_OFF: f64 = 6.0;
/// Share of sightings that may belong to another planting or date.
const MISTAKEN: f64 = 0.01;

/// The likelihood of a planting's middle age on one date, from what was seen
/// that day and nothing else.
#[derive(Debug, Clone, PartialEq)]
pub struct Sighting {
    on: NaiveDate,
    /// Age and likelihood, ages rising; the ends stand for everything beyond.
    nodes: Vec<(f64, f64)>,
    highest: f64,
}

impl Sighting {
    /// From a walk's heads, one slice for each stop, and nothing else. `None`
    /// without a head.
    pub fn of_heads(on: NaiveDate, stops: &[Vec<Head>]) -> Option<Sighting> {
        let mut walk = RollUp::new(Prior::fresh());
        walk.set_stops((0..).zip(stops.iter().map(Vec::as_slice)));
        if walk.heads() == 0 {
            return None;
        }
        Sighting::new(on, blurred(&walk.posterior().middle_ages()))
    }

    /// From the likelihood at points of age (in any order, up to a common
    /// factor). `None` unless some likelihood is above 0 and all are finite.
    pub fn new(on: NaiveDate, mut nodes: Vec<(f64, f64)>) -> Option<Sighting> {
        nodes.sort_by(|a, b| a.0.total_cmp(&b.0));
        nodes.dedup_by(|later, earlier| {
            let same = later.0 == earlier.0;
            if same {
                earlier.1 += later.1;
            }
            same
        });
        let highest = nodes.iter().map(|node| node.1).fold(0.0, f64::max);
        let sound = nodes
            .iter()
            .all(|node| node.0.is_finite() && node.1.is_finite() && node.1 >= 0.0);
        (sound && highest > 0.0).then_some(Sighting { on, nodes, highest })
    }

    /// A noted date of half bloom.
    pub fn half_bloom(on: NaiveDate) -> Sighting {
        let middle = half_bloom_age();
        let nodes = (-40..=40)
            .map(|i| {
                let z = f64::from(i) / 10.0;
                (middle + z * NOTED_BLOOM_SPREAD, libm::exp(-0.5 * z * z))
            })
            .collect();
        Sighting {
            on,
            nodes,
            highest: 1.0,
        }
    }

    /// The date.
    pub fn on(&self) -> NaiveDate {
        self.on
    }

    /// Likelihood at an age, as a share of the highest, never quite 0: a
    /// planting is sometimes mistaken for its neighbour.
    pub(super) fn at(&self, age: f64) -> f64 {
        let place = self.nodes.partition_point(|node| node.0 <= age);
        let before = place.checked_sub(1).and_then(|i| self.nodes.get(i));
        let here = match (before, self.nodes.get(place)) {
            (Some(a), Some(b)) => a.1 + (b.1 - a.1) * (age - a.0) / (b.0 - a.0),
            (Some(end), None) | (None, Some(end)) => end.1,
            (None, None) => 0.0,
        };
        MISTAKEN + (1.0 - MISTAKEN) * here / self.highest
    }
}

/// Ages at equal steps, blurred by how far the marks may be off.
fn blurred(nodes: &[(f64, f64)]) -> Vec<(f64, f64)> {
    nodes
        .iter()
        .map(|&(age, _)| {
            let marks = marks_off(age);
            let spread = (WALK_OFF * WALK_OFF + marks * marks).sqrt();
            let (mut sum, mut all) = (0.0, 0.0);
            for &(other, value) in nodes {
                let z = (other - age) / spread;
                if z.abs() < 4.0 {
                    let weight = libm::exp(-0.5 * z * z);
                    sum += weight * value;
                    all += weight;
                }
            }
            (age, sum / all)
        })
        .collect()
}
