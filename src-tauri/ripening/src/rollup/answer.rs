//! From the joint posterior to what a scout is told: medians and bands.

use std::sync::OnceLock;

use super::marks::{age_at, head_mark, kernel_mark};
use super::population::{
    Distances, EDGES, HALF, Level, Passed, SHAPES, SPANS, edge, grain_passed, heads_passed,
};
use super::posterior::Posterior;
use crate::{Band, PerStage, Stage, WholeField};

/// The posterior gathered by what answers depend on: span, whole spread and
/// shape; the mean as cumulative sums.
pub(crate) struct Gathered {
    /// Mean at the lower end of the first cell.
    start: f64,
    cells_per_unit: f64,
    cells: usize,
    groups: Groups,
    /// The same with the spans added up.
    over_spans: Groups,
    half_reached: OnceLock<PerStage<f64>>,
    /// The band of the position at the level at which it was asked for first.
    position: OnceLock<(f64, Band)>,
}

/// Populations, each with its probability below each end of a cell.
struct Groups {
    of: Vec<Group>,
    /// One group after the other, each with one value more than there are cells.
    below: Vec<f32>,
}

#[derive(Clone, Copy)]
struct Group {
    span: usize,
    level: Level,
    shape: usize,
}

/// Rows and groups with less probability than this are left out.
const NEGLIGIBLE: f64 = 1e-6;

impl Gathered {
    pub(crate) fn new(posterior: &Posterior) -> Gathered {
        let cells = posterior.window.len;
        let nodes = &posterior.nodes;
        let grid = nodes.grid();
        let columns = nodes.kinds_of_whole() * SHAPES.len();
        let sums = || Sums::new(columns, cells);
        let mut by_span: [Sums; SPANS.len()] = std::array::from_fn(|_| sums());
        for (row, weight, values) in posterior.live_rows() {
            if weight < NEGLIGIBLE {
                continue;
            }
            let parts = nodes.parts(row);
            let whole = nodes.whole(parts);
            let column = whole.like * SHAPES.len() + parts.shape;
            by_span[parts.span].add(column, weight, weight * whole.spread, values);
        }
        let mut summed = sums();
        for sums in &by_span {
            for (column, weight, spread, values) in sums.each() {
                summed.add(column, weight, spread, values);
            }
        }
        let spans = || by_span.iter().enumerate();
        Gathered {
            start: grid.mean(posterior.window.first as i64) - 0.5 * grid.step,
            cells_per_unit: 1.0 / grid.step,
            cells,
            groups: Groups::of(spans(), cells),
            over_spans: Groups::of([(0, &summed)].into_iter(), cells),
            half_reached: OnceLock::new(),
            position: OnceLock::new(),
        }
    }

    /// Probability that a group's mean lies below `mean`; `below` is the group's.
    fn below(&self, below: &[f32], mean: f64) -> f64 {
        let place = ((mean - self.start) * self.cells_per_unit).clamp(0.0, self.cells as f64);
        let cell = (place as usize).min(self.cells - 1);
        let (from, to) = (f64::from(below[cell]), f64::from(below[cell + 1]));
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
        self.passed_below(&self.groups, k, |span| {
            (grain_passed(span), kernel_mark(stage, SPANS[span].0))
        })
    }

    fn passed_below<'a>(
        &self,
        groups: &Groups,
        k: usize,
        by_span: impl Fn(usize) -> (&'a Passed, f64),
    ) -> f64 {
        if k == 0 {
            return 0.0;
        }
        if k == EDGES {
            return 1.0;
        }
        let spans: [(Distances<'_>, f64); SPANS.len()] = std::array::from_fn(|span| {
            let (table, mark) = by_span(span);
            (table.at(k), mark)
        });
        groups
            .each(self.cells)
            .map(|(group, below)| {
                let (distances, mark) = spans[group.span];
                self.below(below, mark + distances.of(group.level, group.shape))
            })
            .sum()
    }

    /// Probability that the position is below `position`.
    fn position_below(&self, position: f64) -> f64 {
        let halves = heads_passed().at(HALF);
        let ages = SPANS.map(|(span, _)| age_at(position, span));
        self.groups
            .each(self.cells)
            .map(|(group, below)| {
                let half = halves.of(group.level, group.shape);
                self.below(below, ages[group.span] + half)
            })
            .sum()
    }

    /// Probability that at least half of the heads have reached each stage.
    fn half_reached(&self) -> &PerStage<f64> {
        self.half_reached.get_or_init(|| {
            PerStage::from_fn(|stage| (1.0 - self.heads_below(stage, HALF)).clamp(0.0, 1.0))
        })
    }

    pub(crate) fn position(&self, level: f64) -> Band {
        let band = || position_band(level, |position| self.position_below(position));
        let (at, known) = self.position.get_or_init(|| (level, band()));
        if *at == level { *known } else { band() }
    }

    pub(crate) fn chance(&self) -> PerStage<f64> {
        let half_reached = self.half_reached();
        let mut reached = [1.0; 8];
        for stage in Stage::ALL.into_iter().skip(1) {
            let i = stage.index();
            let here = *half_reached.get(stage);
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
        Distribution::new(EDGES, edge, |k| self.heads_below(stage, k))
            .quantile(probability.clamp(0.0, 1.0))
    }

    pub(crate) fn whole_field(&self, level: f64, heads: u32, stops: u32) -> WholeField {
        let half_reached = self.half_reached();
        let stage = Stage::ALL
            .into_iter()
            .rev()
            .find(|stage| *half_reached.get(*stage) >= 0.5)
            .unwrap_or(Stage::Boot);
        let reached: PerStage<Band> =
            PerStage::from_fn(|stage| share_band(level, |k| self.heads_below(stage, k)));
        let grain = PerStage::from_fn(|stage| {
            // Before bloom there is no grain to tell of.
            if stage < Stage::HalfBloom {
                *reached.get(stage)
            } else {
                share_band(level, |k| self.grain_below(stage, k))
            }
        });
        WholeField {
            heads,
            stops,
            level,
            stage,
            position: self.position(level),
            reached: in_order(&reached),
            grain: in_order(&grain),
            chance: self.chance(),
        }
    }
}

/// Probability of each cell, for the populations of one span that have any.
struct Sums {
    cells: usize,
    /// For each whole spread and shape, which of the sums is its own.
    place: Vec<Option<usize>>,
    /// Column, probability, and the same times the whole spread.
    of: Vec<(usize, f64, f64)>,
    sums: Vec<f64>,
}

impl Sums {
    fn new(columns: usize, cells: usize) -> Sums {
        Sums {
            cells,
            place: vec![None; columns],
            of: Vec::new(),
            sums: Vec::new(),
        }
    }

    /// Adds these values, which come to `weight`; `spread` is that times the whole
    /// spread.
    fn add(&mut self, column: usize, weight: f64, spread: f64, values: &[f64]) {
        let place = *self.place[column].get_or_insert_with(|| {
            self.of.push((column, 0.0, 0.0));
            self.sums.resize(self.of.len() * self.cells, 0.0);
            self.of.len() - 1
        });
        self.of[place].1 += weight;
        self.of[place].2 += spread;
        let sums = &mut self.sums[place * self.cells..][..self.cells];
        for (sum, value) in sums.iter_mut().zip(values) {
            *sum += value;
        }
    }

    /// What was added to each column, in their order.
    fn each(&self) -> impl Iterator<Item = (usize, f64, f64, &[f64])> {
        self.place.iter().flatten().map(|&place| {
            let (column, weight, spread) = self.of[place];
            let sums = &self.sums[place * self.cells..][..self.cells];
            (column, weight, spread, sums)
        })
    }
}

impl Groups {
    fn of<'a>(spans: impl Iterator<Item = (usize, &'a Sums)>, cells: usize) -> Groups {
        let mut of = Vec::new();
        let mut sums = Vec::new();
        for (span, of_span) in spans {
            for (column, weight, spread, values) in of_span.each() {
                if weight >= NEGLIGIBLE {
                    of.push(Group {
                        span,
                        level: Level::of(spread / weight),
                        shape: column % SHAPES.len(),
                    });
                    sums.push(values);
                }
            }
        }
        let mut below = vec![0.0_f32; sums.len() * (cells + 1)];
        // Four side by side: each sum waits for the one before it.
        for (below, sums) in below.chunks_mut(4 * (cells + 1)).zip(sums.chunks(4)) {
            let mut so_far = [0.0_f64; 4];
            for cell in 0..cells {
                for (lane, values) in sums.iter().enumerate() {
                    so_far[lane] += values[cell];
                    below[lane * (cells + 1) + cell + 1] = so_far[lane] as f32;
                }
            }
        }
        Groups { of, below }
    }

    fn each(&self, cells: usize) -> impl Iterator<Item = (&Group, &[f32])> {
        self.of.iter().zip(self.below.chunks_exact(cells + 1))
    }
}

/// The band of a position, from half bloom (5) to black layer (9).
fn position_band(level: f64, below: impl Fn(f64) -> f64) -> Band {
    const STEPS: usize = 400;
    let at = |k: usize| 5.0 + 4.0 * k as f64 / STEPS as f64;
    let tail = tail(level);
    Distribution::new(STEPS, at, |k| below(at(k))).ends(tail, tail)
}

/// A share is under way from this edge (0.05) to as far before the last (0.95).
const UNDER_WAY: usize = 23;
/// The smallest part of a tail that is left beyond a stretched end.
const LEAST_TAIL: f64 = 0.4;

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
    let mut shares = Distribution::new(EDGES, edge, below);
    let hardly_begun = shares.below(UNDER_WAY);
    let all_but_over = 1.0 - shares.below(EDGES - UNDER_WAY);
    let part = |not: f64| (1.0 - not).max(LEAST_TAIL);
    shares.ends(tail * part(all_but_over), tail * part(hardly_begun))
}

/// Bands of all stages, widened where that of a later stage would reach above
/// an earlier one's: no more heads can have reached it.
fn in_order(of: &PerStage<Band>) -> PerStage<Band> {
    let mut bands = Stage::ALL.map(|stage| *of.get(stage));
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

/// A distribution known at places 0 to `last`: the value at a place, and the
/// probability below it, which is looked up as seldom as can be.
struct Distribution<V, B> {
    value: V,
    below: B,
    /// Places looked up so far, in order.
    known: Vec<(usize, f64)>,
}

impl<V: Fn(usize) -> f64, B: Fn(usize) -> f64> Distribution<V, B> {
    fn new(last: usize, value: V, below: B) -> Self {
        let known = vec![(0, below(0)), (last, below(last))];
        Distribution {
            value,
            below,
            known,
        }
    }

    /// Probability below the value at a place.
    fn below(&mut self, place: usize) -> f64 {
        match self.known.binary_search_by_key(&place, |known| known.0) {
            Ok(at) => self.known[at].1,
            Err(at) => {
                // Added up from rounded numbers, it may pass 1 by a hair.
                let below = (self.below)(place).min(1.0);
                self.known.insert(at, (place, below));
                below
            }
        }
    }

    /// Median and ends with these probabilities beyond them.
    fn ends(&mut self, lower: f64, upper: f64) -> Band {
        Band {
            low: self.quantile(lower),
            mid: self.quantile(0.5),
            high: self.quantile(1.0 - upper),
        }
    }

    /// Where the distribution reaches the probability `wanted`: the two places
    /// around it, then a straight line between them.
    fn quantile(&mut self, wanted: f64) -> f64 {
        let above = self.known.partition_point(|&(_, below)| below < wanted);
        let Some(&(mut high, mut high_below)) = self.known.get(above) else {
            return self.known.last().map_or(0.0, |last| (self.value)(last.0));
        };
        let Some(&(mut low, mut low_below)) =
            above.checked_sub(1).and_then(|at| self.known.get(at))
        else {
            return (self.value)(high);
        };
        let mut halve = false;
        while high - low > 1 {
            // Where a straight line would have it, and the middle, in turn: seldom
            // many looks, never more than twice those of halving.
            let part = if halve {
                0.5
            } else {
                (wanted - low_below) / (high_below - low_below)
            };
            halve = !halve;
            let guess = low + (part * (high - low) as f64) as usize;
            let place = guess.clamp(low + 1, high - 1);
            let here = self.below(place);
            if here < wanted {
                (low, low_below) = (place, here);
            } else {
                (high, high_below) = (place, here);
            }
        }
        let part = if high_below > low_below {
            ((wanted - low_below) / (high_below - low_below)).clamp(0.0, 1.0)
        } else {
            1.0
        };
        let (from, to) = ((self.value)(low), (self.value)(high));
        from + part * (to - from)
    }
}
