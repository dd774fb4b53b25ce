//! The grid over the planting's mean age, and the part of it that a walk needs.

/// Distance between neighboring means, heat units (about a third of a warm day).
///
/// Everything that is summed over this grid has been smoothed by at least the
/// blur of one reading and the smallest stop effect, so that the trapezoid rule
/// converges faster than any power of the step.
pub(crate) const STEP: f64 = 8.0;
/// First mean of the grid, heat units: well before boot.
pub(crate) const FIRST: f64 = -624.0;
/// Means in the whole grid; the last is 1672, well after black layer.
pub(crate) const POINTS: usize = 288;

/// Mean at a place of the grid.
pub(crate) fn mean_at(index: usize) -> f64 {
    FIRST + STEP * index as f64
}

/// A contiguous part of the grid.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Window {
    pub(crate) first: usize,
    pub(crate) len: usize,
}

impl Window {
    pub(crate) const WHOLE: Window = Window {
        first: 0,
        len: POINTS,
    };

    /// Windows begin and end on multiples of this many points, so that one more
    /// head seldom moves them.
    const BLOCK: usize = 8;

    /// The smallest window that holds the means from `low` to `high`.
    pub(crate) fn covering(low: f64, high: f64) -> Window {
        let blocks = POINTS / Window::BLOCK;
        let block_of = |mean: f64| {
            let place = (mean - FIRST) / STEP / Window::BLOCK as f64;
            (place.max(0.0) as usize).min(blocks - 1)
        };
        let (from, to) = (block_of(low), block_of(high.max(low)));
        Window {
            first: from * Window::BLOCK,
            len: (to + 1 - from) * Window::BLOCK,
        }
    }

    pub(crate) fn low(self) -> f64 {
        mean_at(self.first)
    }

    pub(crate) fn high(self) -> f64 {
        mean_at(self.first + self.len - 1)
    }

    pub(crate) fn hull(self, other: Window) -> Window {
        Window::covering(self.low().min(other.low()), self.high().max(other.high()))
    }
}
