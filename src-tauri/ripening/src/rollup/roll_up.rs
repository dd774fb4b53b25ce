//! The walk as it grows.

use std::borrow::Cow;
use std::sync::{Arc, OnceLock};

use super::advice::{Target, WalkingCost, advice};
use super::answer::Gathered;
use super::grid::{Grid, Window};
use super::layer::{Layer, Stops, finer};
use super::nodes::Nodes;
use super::population::SPANS;
use super::posterior::Posterior;
use super::prior::Prior;
use super::stop::content_of;
use crate::{Advice, Head, WholeField};

/// Fine layers kept.
const KEPT: usize = 2;

/// A walk's heads under a prior. Setting one stop recomputes that stop only.
pub struct RollUp {
    prior: Prior,
    stops: Stops,
    usual: Layer,
    /// For a walk larger than usual: the nodes in use first, then the ones
    /// before, to which an undo goes back.
    fine: Vec<Layer>,
    gathered: OnceLock<Gathered>,
}

impl RollUp {
    /// A walk without any head yet.
    pub fn new(prior: Prior) -> RollUp {
        let nodes = prior.nodes.clone();
        let window = window_for(&Stops::new(), &prior, nodes.grid());
        RollUp {
            usual: Layer::new(nodes, &prior, window),
            prior,
            stops: Stops::new(),
            fine: Vec::new(),
            gathered: OnceLock::new(),
        }
    }

    /// Inserts or replaces the heads of one stop; an empty slice removes it.
    pub fn set_stop(&mut self, key: u64, heads: &[Head]) {
        self.set_stops([(key, heads)]);
    }

    /// The same for many stops, at the cost of one: the answer is worked out once.
    pub fn set_stops<'a>(&mut self, stops: impl IntoIterator<Item = (u64, &'a [Head])>) {
        for (key, heads) in stops {
            self.usual.forget(key);
            for fine in &mut self.fine {
                fine.forget(key);
            }
            if heads.is_empty() {
                self.stops.remove(&key);
            } else {
                self.stops.insert(key, content_of(heads));
            }
        }
        self.gathered = OnceLock::new();
        let window = window_for(&self.stops, &self.prior, self.usual.nodes.grid());
        self.usual.update(&self.stops, window);
        let (heads, walked) = self.behind();
        let Some((key, window)) = finer(|| self.usual.posterior(), heads, walked) else {
            self.fine.clear();
            return;
        };
        let fine = match self.fine.iter().position(|layer| layer.nodes.key == key) {
            Some(at) => self.fine.remove(at),
            None => Layer::new(Arc::new(Nodes::new(key)), &self.prior, window),
        };
        self.fine.truncate(KEPT - 1);
        self.fine.insert(0, fine);
        if let Some(fine) = self.fine.first_mut() {
            fine.update(&self.stops, window);
        }
    }

    /// The layer that answers.
    fn layer(&self) -> &Layer {
        self.fine.first().unwrap_or(&self.usual)
    }

    /// The posterior of the same heads under another prior.
    pub(crate) fn under(&self, prior: &Prior) -> Cow<'_, Posterior> {
        let layer = self.layer();
        if !prior.has_history() && !self.prior.has_history() {
            return Cow::Borrowed(layer.posterior());
        }
        Cow::Owned(layer.under(prior.on(&layer.nodes).as_deref()))
    }

    /// Heads and stops behind the answer, earlier walks included.
    fn behind(&self) -> (u32, u32) {
        let (heads, stops) = match &self.prior.history {
            Some(history) => (history.heads, history.stops),
            None => (0, 0),
        };
        (heads + self.heads(), stops + self.stops())
    }

    /// Heads read.
    pub fn heads(&self) -> u32 {
        self.stops
            .values()
            .flat_map(|stop| stop.iter().map(|(_, count)| *count))
            .sum()
    }

    /// Stops with at least one head.
    pub fn stops(&self) -> u32 {
        self.stops.len() as u32
    }

    pub(crate) fn gathered(&self) -> &Gathered {
        self.gathered
            .get_or_init(|| Gathered::new(self.layer().posterior()))
    }

    /// Posterior quantile (at a probability of 0-1) of the share of the planting's
    /// heads that have reached `stage`, 0-1.
    pub fn reached_quantile(&self, stage: crate::Stage, probability: f64) -> f64 {
        self.gathered().reached_quantile(stage, probability)
    }

    /// The whole-field answer with bands of this level (0-1): central ones, but
    /// that of a share is stretched where its stage has hardly begun or is all
    /// but over, see the module's text.
    pub fn whole_field(&self, level: f64) -> WholeField {
        self.gathered()
            .whole_field(level, self.heads(), self.stops())
    }

    /// Whether to go on walking, and what it would buy, at a level of 0.9.
    pub fn advice(&self, target: &Target, cost: &WalkingCost) -> Advice {
        advice(
            self.layer().posterior(),
            self.gathered(),
            self.heads(),
            self.stops(),
            0.9,
            target,
            cost,
        )
    }

    /// What carries over to the next walk.
    pub fn posterior(&self) -> Posterior {
        let mut posterior = self.layer().posterior().clone();
        posterior.usual = self.prior.nodes.clone();
        (posterior.heads, posterior.stops) = self.behind();
        posterior
    }
}

/// The means that the heads (and the history) can be about.
fn window_for(stops: &Stops, prior: &Prior, grid: Grid) -> Window {
    let (mut low, mut high) = (f64::INFINITY, f64::NEG_INFINITY);
    let mut heads = 0;
    for (kind, count) in stops.values().flatten() {
        heads += count;
        for (span, _) in SPANS {
            let (from, to) = kind.extent(span);
            low = low.min(from);
            high = high.max(to);
        }
    }
    if heads > 0 {
        // How far a planting's mean may lie from all heads read: far from one,
        // hardly from many.
        let heads = f64::from(heads);
        let margin = 60.0 + 450.0 / heads.sqrt() + 450.0 / heads;
        (low, high) = (low - margin, high + margin);
    }
    if let Some(history) = &prior.history {
        low = low.min(history.extent.0);
        high = high.max(history.extent.1);
    }
    if low < high {
        grid.window(low, high)
    } else {
        grid.whole()
    }
}

/// The whole-field answer of a finished walk: one slice of heads for each stop.
pub fn roll_up(stops: &[Vec<Head>], prior: &Prior, level: f64) -> WholeField {
    let mut walk = RollUp::new(prior.clone());
    walk.set_stops((0..).zip(stops.iter().map(Vec::as_slice)));
    walk.whole_field(level)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Reading, Share, Stage};

    fn head(reading: Reading, percent: u8) -> Head {
        let share = (reading != Reading::Boot).then(|| Share::new(percent).unwrap());
        Head::new(reading, share).unwrap()
    }

    #[test]
    fn order_of_entry_changes_no_bit() {
        let a = [
            head(Reading::Pliable, 40),
            head(Reading::Liquid, 100),
            head(Reading::Pliable, 60),
        ];
        let b = [head(Reading::Pliable, 90), head(Reading::Dented, 5)];
        let mut one = RollUp::new(Prior::fresh());
        one.set_stop(1, &a);
        one.set_stop(2, &b);
        let mut other = RollUp::new(Prior::fresh());
        other.set_stop(9, &[b[1], b[0]]);
        other.set_stop(7, &[a[0]]);
        other.set_stop(7, &[a[2], a[0], a[1]]);
        assert_eq!(one.whole_field(0.9), other.whole_field(0.9));
    }

    #[test]
    fn one_head_gives_a_wide_band_and_no_false_zero() {
        for reading in Reading::ALL {
            let field = roll_up(&[vec![head(reading, 100)]], &Prior::fresh(), 0.9);
            for stage in Stage::ALL {
                let band = field.reached.get(stage);
                assert!(band.low >= 0.0 && band.low <= band.mid);
                assert!(band.mid <= band.high && band.high <= 1.0);
            }
        }
    }
}
