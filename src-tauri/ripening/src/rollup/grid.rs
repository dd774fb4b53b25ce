//! The grid over the planting's mean age, and the part of it that a walk needs.

/// First mean of the widest grid, heat units: well before boot.
const FIRST: f64 = -624.0;

/// Equally spaced means. Everything that is summed over a grid has been smoothed
/// by at least the blur of a reading and the smallest stop effect, so that the
/// trapezoid rule converges faster than any power of the step.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Grid {
    pub(crate) first: f64,
    /// Distance between neighbors, heat units; divides every lag of a shape.
    pub(crate) step: f64,
    pub(crate) points: usize,
}

impl Grid {
    /// Length of the widest grid, heat units; it ends well after black layer.
    pub(crate) const LENGTH: f64 = 2304.0;

    /// Everything from before boot to ripeness.
    pub(crate) fn widest(step: f64) -> Grid {
        Grid {
            first: FIRST,
            step,
            points: (Grid::LENGTH / step) as usize,
        }
    }

    /// The part of the widest grid around the means from `low` to `high`.
    pub(crate) fn part(step: f64, low: f64, high: f64) -> Grid {
        let widest = Grid::widest(step);
        let window = widest.blocks(PART, low, high);
        Grid {
            first: widest.mean(window.first as i64),
            step,
            points: window.len,
        }
    }

    /// Mean at a place of the grid; places before the first are negative.
    pub(crate) fn mean(self, place: i64) -> f64 {
        self.first + self.step * place as f64
    }

    /// Place of a mean, between two points in general.
    pub(crate) fn place(self, mean: f64) -> f64 {
        (mean - self.first) / self.step
    }

    pub(crate) fn whole(self) -> Window {
        Window {
            first: 0,
            len: self.points,
        }
    }

    /// The smallest window of whole blocks that holds the means from `low` to `high`.
    pub(crate) fn window(self, low: f64, high: f64) -> Window {
        self.blocks(BLOCK, low, high)
    }

    fn blocks(self, block: usize, low: f64, high: f64) -> Window {
        let blocks = self.points / block;
        let block_of = |mean: f64| {
            let place = self.place(mean) / block as f64;
            (place.max(0.0) as usize).min(blocks - 1)
        };
        let (from, to) = (block_of(low), block_of(high.max(low)));
        Window {
            first: from * block,
            len: (to + 1 - from) * block,
        }
    }
}

/// Windows begin and end on multiples of this many points, so that one more head
/// seldom moves them.
const BLOCK: usize = 8;
/// The same for parts of a grid, whose tables are dearer.
const PART: usize = 24;

/// A contiguous part of a grid.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Window {
    pub(crate) first: usize,
    pub(crate) len: usize,
}
