//! How much heat an event is away.
//!
//! Ages before half bloom pass at the rate of the heat received (what differs
//! between hybrids there is how much heat bloom takes), ages after it at the
//! planting's pace. A *place* is an age measured in heat: units received since
//! half bloom, below 0 before it. Heat needed is then a difference of places.

use crate::rollup::marks::head_mark;
use crate::rollup::normal::below;
use crate::stage::Stage;

/// Heat from a head's top to its base that the marks before bloom are counted
/// with: the middle of the published 4 to 9 days.
const USUAL_SPAN: f64 = 170.0;
/// Spread of the published marks between half bloom and black layer once the heat
/// between those two is made alike, heat units: of the way to black layer, soft
/// dough lies at 0.262, 0.274 and 0.280 and hard dough at 0.640, 0.672 and 0.677
/// in the tables of Kansas (two maturities) and of the High Plains center. For
/// milk no published value was found: half a day (common practice).
const MARKS_OFF: [(Stage, f64); 5] = [
    (Stage::HalfBloom, 0.0),
    (Stage::Milk, 12.0),
    (Stage::SoftDough, 10.0),
    (Stage::HardDough, 22.0),
    (Stage::BlackLayer, 0.0),
];
/// Spread of the marks before bloom, as a share of the way back from half
/// bloom: boot lies 234 and 261 units before it in the two columns of one table.
const EARLY_MARK_SPREAD: f64 = 0.055;
/// Least spread, heat units: what keeps chances smooth on the grid of needs.
const LEAST: f64 = 4.0;
/// Variance a unit of heat adds, ahead as behind: the mean of a day at a field
/// differs by about 2 F from its station's (common practice), which is 4 units
/// squared in a day of 25 units.
pub(super) const NOISE: f64 = 0.16;

/// Age of the middle head at half bloom.
pub(super) fn half_bloom_age() -> f64 {
    head_mark(Stage::HalfBloom, USUAL_SPAN)
}

/// Age of the middle head at a stage.
pub(super) fn mark_age(stage: Stage) -> f64 {
    head_mark(stage, USUAL_SPAN)
}

/// How far the mark at an age may lie from the tables' in a planting whose pace
/// is known, heat units (a standard deviation). None at half bloom and at black
/// layer: the heat between those two *is* the pace, and its spread counts there.
pub(super) fn marks_off(age: f64) -> f64 {
    let past = age - half_bloom_age();
    if past < 0.0 {
        return -EARLY_MARK_SPREAD * past;
    }
    MARKS_OFF
        .windows(2)
        .find_map(|pair| match pair {
            [(from, least), (to, most)] if age <= mark_age(*to) => {
                let part = (age - mark_age(*from)) / (mark_age(*to) - mark_age(*from));
                Some(least + part * (most - least))
            }
            _ => None,
        })
        .unwrap_or(0.0)
}

/// Heat received since half bloom at an age.
pub(super) fn place_of_age(age: f64, pace: f64) -> f64 {
    let past = age - half_bloom_age();
    if past > 0.0 { past / pace } else { past }
}

/// The other way round.
pub(super) fn age_of_place(place: f64, pace: f64) -> f64 {
    half_bloom_age() + if place > 0.0 { place * pace } else { place }
}

/// Chance that an event has come by a given heat from now (below 0: before now).
pub(super) struct Need {
    low: f64,
    /// Chance by `low + STEP * i`.
    by: Vec<f64>,
}

const STEP: f64 = 4.0;

impl Need {
    /// From weighted heats still needed for the mark at `age`. Weights sum to 1.
    pub(super) fn new(needs: &[(f64, f64)], age: f64) -> Need {
        let (mut least, mut most) = (f64::INFINITY, f64::NEG_INFINITY);
        for &(need, _) in needs {
            least = least.min(need);
            most = most.max(need);
        }
        if least > most {
            return Need {
                low: 0.0,
                by: vec![0.0],
            };
        }
        let mark = marks_off(age);
        let spread = |need: f64| (mark * mark + LEAST * LEAST + NOISE * need.abs()).sqrt();
        let low = least - 4.5 * spread(least);
        let high = most + 4.5 * spread(most);
        let size = ((high - low) / STEP) as usize + 2;

        // Needs gathered on the grid first, so that the blur is done once a cell.
        let mut cells = vec![0.0; size + 1];
        for &(need, weight) in needs {
            let place = (need - low) / STEP;
            let below = place as usize;
            let part = place - below as f64;
            cells[below.min(size)] += (1.0 - part) * weight;
            cells[(below + 1).min(size)] += part * weight;
        }
        // `by` is the running sum of the blurred cells; each cell is spread over
        // the steps near it, and counts in full from there on.
        let mut change = vec![0.0; size + 1];
        for (i, &weight) in cells.iter().enumerate() {
            if weight < 1e-12 {
                continue;
            }
            let need = low + STEP * i as f64;
            let sd = spread(need);
            let reach = (4.5 * sd / STEP) as usize + 1;
            let from = i.saturating_sub(reach);
            let to = (i + reach).min(size);
            let mut before = 0.0;
            for (j, slot) in change.iter_mut().enumerate().take(to).skip(from) {
                let now = below((low + STEP * j as f64 - need) / sd);
                *slot += weight * (now - before);
                before = now;
            }
            change[to] += weight * (1.0 - before);
        }
        let mut running = 0.0;
        let by = change
            .into_iter()
            .map(|part| {
                running += part;
                running
            })
            .collect();
        Need { low, by }
    }

    /// Chance that it has come once `heat` more units are received.
    pub(super) fn chance(&self, heat: f64) -> f64 {
        let place = (heat - self.low) / STEP;
        if place < 0.0 {
            return 0.0;
        }
        let below = place as usize;
        let part = place - below as f64;
        let last = self.by.last().copied().unwrap_or(0.0);
        let value = |i: usize| self.by.get(i).copied().unwrap_or(last);
        value(below) + part * (value(below + 1) - value(below))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn places_and_ages_are_inverse() {
        for pace in [0.8, 1.0, 1.2] {
            for age in [-900.0, -85.0, 0.0, 700.0] {
                assert!((age_of_place(place_of_age(age, pace), pace) - age).abs() < 1e-9);
            }
        }
        // A fast hybrid needs less heat for the same way.
        assert!(place_of_age(1107.0, 1.1) < place_of_age(1107.0, 1.0));
    }

    #[test]
    fn chance_rises_from_nothing_to_certainty_and_is_half_in_the_middle() {
        let need = Need::new(&[(300.0, 0.5), (320.0, 0.5)], 1000.0);
        assert!(need.chance(0.0) < 1e-6);
        assert!((need.chance(310.0) - 0.5).abs() < 0.01);
        assert!((need.chance(900.0) - 1.0).abs() < 1e-9);
        let mut last = 0.0;
        for heat in 0..900 {
            let now = need.chance(f64::from(heat));
            assert!(now >= last - 1e-12);
            last = now;
        }
    }
}
