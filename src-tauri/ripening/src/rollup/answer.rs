//! From the joint posterior to what a scout is told: medians and bands.

use super::marks::{age_at, head_mark, kernel_mark};
use super::population::{
    EDGES, HALF, LEVELS, Passed, SHAPES, SPANS, edge, grain_passed, heads_passed,
};
use super::posterior::Posterior;
use crate::{Band, PerStage, Stage, WholeField};

/// The posterior gathered by what answers depend on: span, whole spread and
/// shape; the mean as cumulative sums.
pub(crate) struct Gathered {
    /// Mean at the lower end of the first cell.
    start: f64,
    step: f64,
    cells: usize,
    groups: Vec<Group>,
    /// The same with the spans added up.
    over_spans: Vec<Group>,
}

struct Group {
    span: usize,
    level: usize,
    shape: usize,
    /// Probability below each end of a cell; one more than there are cells.
    below: Vec<f64>,
}

/// Groups with less probability than this are left out.
const NEGLIGIBLE: f64 = 1e-6;

impl Gathered {
    pub(crate) fn new(posterior: &Posterior) -> Gathered {
        let cells = posterior.window.len;
        let nodes = &posterior.nodes;
        let grid = nodes.grid();
        let groups = SPANS.len() * LEVELS * SHAPES.len();
        let mut sums = vec![0.0; groups * cells];
        for (row, weight, values) in posterior.live_rows() {
            if weight < NEGLIGIBLE {
                continue;
            }
            let parts = nodes.parts(row);
            let (level, part) = nodes.level(parts);
            for (level, share) in [(level, 1.0 - part), (level + 1, part)] {
                let group = (parts.span * LEVELS + level) * SHAPES.len() + parts.shape;
                let to = &mut sums[group * cells..][..cells];
                for (to, value) in to.iter_mut().zip(values) {
                    *to += share * value;
                }
            }
        }
        let per_span = LEVELS * SHAPES.len();
        let mut summed = vec![0.0; per_span * cells];
        for span in sums.chunks_exact(per_span * cells) {
            for (to, value) in summed.iter_mut().zip(span) {
                *to += value;
            }
        }
        Gathered {
            start: grid.mean(posterior.window.first as i64) - 0.5 * grid.step,
            step: grid.step,
            cells,
            groups: groups_of(&sums, cells),
            over_spans: groups_of(&summed, cells),
        }
    }

    /// Probability that a group's mean lies below `mean`.
    fn below(&self, group: &Group, mean: f64) -> f64 {
        let place = (mean - self.start) / self.step;
        if place <= 0.0 {
            return 0.0;
        }
        let cell = place as usize;
        if cell >= self.cells {
            return group.below[self.cells];
        }
        let (from, to) = (group.below[cell], group.below[cell + 1]);
        from + (place - cell as f64) * (to - from)
    }

    /// Probability that the share of heads past `stage` is below edge `k`.
    pub(crate) fn heads_below(&self, stage: Stage, k: usize) -> f64 {
        let table = heads_passed();
        if stage < Stage::Milk {
            self.passed_below(&self.groups, k, |span| {
                (table, head_mark(stage, SPANS[span].0))
            })
        } else {
            let mark = head_mark(stage, SPANS[0].0);
            self.passed_below(&self.over_spans, k, |_| (table, mark))
        }
    }

    /// Probability that the share of grain past `stage` is below edge `k`.
    fn grain_below(&self, stage: Stage, k: usize) -> f64 {
        if stage < Stage::HalfBloom {
            return self.heads_below(stage, k);
        }
        self.passed_below(&self.groups, k, |span| {
            (grain_passed(span), kernel_mark(stage, SPANS[span].0))
        })
    }

    fn passed_below<'a>(
        &self,
        groups: &[Group],
        k: usize,
        by_span: impl Fn(usize) -> (&'a Passed, f64),
    ) -> f64 {
        if k == 0 {
            return 0.0;
        }
        if k == EDGES {
            return 1.0;
        }
        groups
            .iter()
            .map(|group| {
                let (table, mark) = by_span(group.span);
                self.below(group, mark + table.of(group.level, group.shape)[k])
            })
            .sum()
    }

    /// Probability that the position is below `position`.
    fn position_below(&self, position: f64) -> f64 {
        self.groups
            .iter()
            .map(|group| {
                let half = heads_passed().of(group.level, group.shape)[HALF];
                self.below(group, age_at(position, SPANS[group.span].0) + half)
            })
            .sum()
    }

    /// Probability that at least half of the heads have reached `stage`.
    fn half_reached(&self, stage: Stage) -> f64 {
        (1.0 - self.heads_below(stage, HALF)).clamp(0.0, 1.0)
    }

    pub(crate) fn position(&self, level: f64) -> Band {
        const STEPS: usize = 400;
        let at = |k: usize| 5.0 + 4.0 * k as f64 / STEPS as f64;
        band(level, STEPS, at, |k| self.position_below(at(k)))
    }

    pub(crate) fn chance(&self) -> PerStage<f64> {
        let mut reached = [1.0; 8];
        for stage in Stage::ALL.into_iter().skip(1) {
            let i = stage.index();
            let here = self.half_reached(stage);
            reached[i] = if here < reached[i - 1] {
                here
            } else {
                reached[i - 1]
            };
        }
        reached[7] = 0.0;
        PerStage::from_fn(|stage| reached[stage.index()] - reached[stage.index() + 1])
    }

    /// Posterior quantile of the share of heads that have reached `stage`.
    pub(crate) fn reached_quantile(&self, stage: Stage, probability: f64) -> f64 {
        let wanted = probability.clamp(0.0, 1.0);
        quantile(wanted, EDGES, edge, |k| self.heads_below(stage, k))
    }

    pub(crate) fn whole_field(&self, level: f64, heads: u32, stops: u32) -> WholeField {
        let stage = Stage::ALL
            .into_iter()
            .rev()
            .find(|stage| self.half_reached(*stage) >= 0.5)
            .unwrap_or(Stage::Boot);
        WholeField {
            heads,
            stops,
            level,
            stage,
            position: self.position(level),
            reached: in_order(|stage| share_band(level, |k| self.heads_below(stage, k))),
            grain: in_order(|stage| share_band(level, |k| self.grain_below(stage, k))),
            chance: self.chance(),
        }
    }
}

fn groups_of(sums: &[f64], cells: usize) -> Vec<Group> {
    let mut groups = Vec::new();
    for (index, values) in sums.chunks_exact(cells).enumerate() {
        let total: f64 = values.iter().sum();
        if total < NEGLIGIBLE {
            continue;
        }
        let mut below = Vec::with_capacity(cells + 1);
        let mut so_far = 0.0;
        below.push(0.0);
        for value in values {
            so_far += value;
            below.push(so_far);
        }
        groups.push(Group {
            span: index / (LEVELS * SHAPES.len()),
            level: index / SHAPES.len() % LEVELS,
            shape: index % SHAPES.len(),
            below,
        });
    }
    groups
}

/// The median and the central band of a distribution known at places 0 to
/// `last`, where `below` gives the probability below the value at a place.
fn band(
    level: f64,
    last: usize,
    value: impl Fn(usize) -> f64,
    below: impl Fn(usize) -> f64,
) -> Band {
    let tail = tail(level);
    let mut below = remembered(last, below);
    ends(last, value, &mut below, tail, tail)
}

/// A share is under way from this edge (0.05) to as far before the last (0.95).
const UNDER_WAY: usize = 23;
/// The smallest part of a tail that is left beyond a stretched end.
const LEAST_TAIL: f64 = 0.3;

/// The band of a share, known at the edges: central, but where the stage has
/// most likely hardly begun the upper end, and where it is most likely all but
/// over the lower end, leaves only that part of the tail beyond it which the
/// probability of the contrary comes to, at least [`LEAST_TAIL`].
///
/// Fields in which a stage is under way are the ones that matter, and those few
/// of them whose heads all happen to say "not yet" (or "all of it") would be
/// missed by a central band more often than its level says.
fn share_band(level: f64, below: impl Fn(usize) -> f64) -> Band {
    let tail = tail(level);
    let mut below = remembered(EDGES, below);
    let hardly_begun = below(UNDER_WAY);
    let all_but_over = 1.0 - below(EDGES - UNDER_WAY);
    let part = |not: f64| (1.0 - not).max(LEAST_TAIL);
    let (lower, upper) = (tail * part(all_but_over), tail * part(hardly_begun));
    ends(EDGES, edge, &mut below, lower, upper)
}

/// Bands of all stages, widened where that of a later stage would reach above
/// an earlier one's: no more heads can have reached it.
fn in_order(of: impl Fn(Stage) -> Band) -> PerStage<Band> {
    let mut bands: Vec<Band> = Stage::ALL.into_iter().map(of).collect();
    for later in 1..bands.len() {
        if bands[later].low > bands[later - 1].low {
            bands[later].low = bands[later - 1].low;
        }
    }
    for later in (1..bands.len()).rev() {
        if bands[later - 1].high < bands[later].high {
            bands[later - 1].high = bands[later].high;
        }
    }
    PerStage::from_fn(|stage| bands[stage.index()])
}

/// Probability beyond either end of a central band.
fn tail(level: f64) -> f64 {
    0.5 * (1.0 - level.clamp(0.0, 0.999_999))
}

/// Median and ends with these probabilities beyond them.
fn ends(
    last: usize,
    value: impl Fn(usize) -> f64,
    mut below: impl FnMut(usize) -> f64,
    lower: f64,
    upper: f64,
) -> Band {
    let mut quantile = |wanted| quantile(wanted, last, &value, &mut below);
    Band {
        low: quantile(lower),
        mid: quantile(0.5),
        high: quantile(1.0 - upper),
    }
}

/// Looks every place up once: the searches pass through the same ones.
fn remembered(last: usize, below: impl Fn(usize) -> f64) -> impl FnMut(usize) -> f64 {
    let mut known = vec![f64::NAN; last + 1];
    move |k| {
        if known[k].is_nan() {
            known[k] = below(k);
        }
        known[k]
    }
}

/// Where the distribution reaches the probability `wanted`: binary search, then
/// a straight line between two places.
fn quantile(
    wanted: f64,
    last: usize,
    value: impl Fn(usize) -> f64,
    mut below: impl FnMut(usize) -> f64,
) -> f64 {
    let (mut low, mut high) = (0, last);
    let (mut low_below, mut high_below) = (below(low), below(high));
    if low_below >= wanted {
        return value(low);
    }
    if high_below < wanted {
        return value(high);
    }
    while high - low > 1 {
        let middle = (low + high) / 2;
        let here = below(middle);
        if here < wanted {
            (low, low_below) = (middle, here);
        } else {
            (high, high_below) = (middle, here);
        }
    }
    let part = if high_below > low_below {
        ((wanted - low_below) / (high_below - low_below)).clamp(0.0, 1.0)
    } else {
        1.0
    };
    value(low) + part * (value(high) - value(low))
}
