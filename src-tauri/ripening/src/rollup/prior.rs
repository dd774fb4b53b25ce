//! What is held of a planting before today's heads are read.

use std::sync::Arc;

use super::grid::Grid;
use super::history::History;
use super::nodes::{Key, Nodes, Placement, Spread, Spreads};
use super::posterior::Posterior;

/// What is held of a planting before today's walk.
///
/// Either the weak prior of a planting nobody has walked, or an earlier walk's
/// [`Posterior`] moved forward by heat ([`Posterior::forward`]).
#[derive(Clone)]
pub struct Prior {
    /// The nodes a walk of the usual size is computed on.
    pub(crate) nodes: Arc<Nodes>,
    pub(crate) history: Option<Arc<History>>,
    /// Probability that the history speaks of this planting at all.
    pub(crate) trust: f64,
}

/// Probability given to the history after one step forward; the rest is for
/// what the model cannot foresee (another planting's heads, hail, a mix-up of
/// hybrids), and lets today's heads speak alone when they contradict it.
pub(crate) const TRUST: f64 = 0.95;

impl Prior {
    /// The weak prior before any walk: a mean age anywhere from boot to
    /// ripeness, a head spread of about 80 heat units, a stop spread of about
    /// 40, known to a factor of two or three.
    pub fn fresh() -> Prior {
        Prior::over(Nodes::usual())
    }

    /// The weak prior, but told both spreads: lognormal with these medians (heat
    /// units) and this standard deviation of the logarithm. With a small
    /// `log_sd` it is the floor that any model of a single walk is measured
    /// against.
    pub fn with_spreads(stop: f64, head: f64, log_sd: f64) -> Prior {
        let log_sd = log_sd.max(1e-3);
        let placement = Placement {
            step: log_sd,
            count: 5,
            center: 0,
        };
        let spread = |median: f64| Spread {
            median: median.max(1.0),
            log_sd,
        };
        Prior::over(Arc::new(Nodes::new(Key {
            spreads: Spreads {
                head: spread(head),
                stop: spread(stop),
            },
            head: placement,
            stop: placement,
            grid: Grid::widest(8.0),
        })))
    }

    fn over(nodes: Arc<Nodes>) -> Prior {
        Prior {
            nodes,
            history: None,
            trust: 0.0,
        }
    }

    /// The same history, believed only to this probability (0-1): 0 forgets it.
    ///
    /// For a walk that contradicts its history, `weakened(0.0)` is the fall-back
    /// to heads alone; see [`super::contradiction()`].
    #[must_use]
    pub fn weakened(&self, trust: f64) -> Prior {
        let mut prior = self.clone();
        prior.trust = trust.clamp(0.0, 1.0);
        if prior.trust == 0.0 || prior.history.is_none() {
            prior.history = None;
            prior.trust = 0.0;
        }
        prior
    }

    /// Whether this prior holds any earlier walk.
    pub fn has_history(&self) -> bool {
        self.history.is_some()
    }

    /// Probability of each row and mean of the whole grid of some nodes; `None`
    /// where there is no history and every mean is as likely.
    pub(crate) fn on(&self, nodes: &Nodes) -> Option<Vec<f64>> {
        let mut mass = self.history.as_ref()?.on(nodes);
        let points = nodes.grid().points;
        for (row, values) in mass.chunks_exact_mut(points).enumerate() {
            let flat = (1.0 - self.trust) * nodes.flat(row);
            for value in values {
                *value = self.trust * *value + flat;
            }
        }
        Some(mass)
    }
}

/// Heat that a planting received between two walks, in Fahrenheit degree-days
/// (base 50, upper limit 100).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HeatMoved {
    /// Heat received.
    pub mean: f64,
    /// Its standard deviation: small with a weather file, wide without.
    pub sd: f64,
}

/// Heat units of a day of which only the date is known: 20 give or take 6, from
/// a cool autumn day to a hot midsummer one (common practice; the published
/// examples in the heat-unit tables run from 10 to 35).
const UNITS_PER_DAY: f64 = 20.0;
const UNITS_PER_DAY_SD: f64 = 6.0;

impl HeatMoved {
    /// Heat over this many days without any weather: 20 units a day, with a
    /// standard deviation of 6 a day for the whole stretch (warm and cool
    /// spells last, so the days do not average out).
    pub fn from_days(days: f64) -> HeatMoved {
        let days = days.max(0.0);
        HeatMoved {
            mean: UNITS_PER_DAY * days,
            sd: UNITS_PER_DAY_SD * days,
        }
    }
}

/// Process noise, as a share of the heat moved: a hybrid's own pace, soil water
/// and the distance to the weather station.
pub const PROCESS_NOISE: f64 = 0.08;

/// Heat over which a history says nothing any more: the length of all that is modelled,
/// from before boot to past ripeness. It bounds the memory of a history, too, which
/// grows with the heat: dates that lie years apart move it by tens of thousands.
const FORGOTTEN_AFTER: f64 = Grid::LENGTH;

/// Least process noise, heat units: half a day. A walk takes hours; and where a
/// hybrid's marks are not the published ones, what many walks near together say of
/// its age is off the same way each time.
const LEAST_NOISE: f64 = 14.0;

impl Posterior {
    /// Moves what is known of a planting forward by the heat it received, to be
    /// the prior of its next walk. The mean age moves by `moved.mean`, blurred
    /// by `moved.sd` and by [`PROCESS_NOISE`] of the heat; spreads, span and
    /// lag stay, and the share of late heads drifts a little. One part in twenty
    /// goes to "this history does not apply". After more heat than all stages take
    /// together, or no sensible amount, nothing of it is left.
    pub fn forward(&self, moved: HeatMoved) -> Prior {
        let is_near = |units: f64| (0.0..=FORGOTTEN_AFTER).contains(&units);
        if !(is_near(moved.mean) && is_near(moved.sd)) {
            return Prior::over(self.usual.clone());
        }
        let noise = (PROCESS_NOISE * moved.mean).max(LEAST_NOISE);
        let sd = (moved.sd * moved.sd + noise * noise).sqrt();
        Prior {
            nodes: self.usual.clone(),
            history: Some(Arc::new(History::moved(self, moved.mean, sd))),
            trust: TRUST,
        }
    }
}
