//! The walk as it grows: one cached table for each stop.

use std::collections::BTreeMap;
use std::sync::OnceLock;

use super::advice::{Target, WalkingCost, advice};
use super::answer::Gathered;
use super::grid::Window;
use super::population::SPANS;
use super::posterior::Posterior;
use super::prior::Prior;
use super::stop::{Content, StopTable, content_of};
use crate::{Advice, Head, WholeField};

/// A walk's heads under a prior. Setting one stop recomputes that stop only.
pub struct RollUp {
    prior: Prior,
    stops: BTreeMap<u64, Stop>,
    window: Window,
    posterior: OnceLock<Posterior>,
    gathered: OnceLock<Gathered>,
}

struct Stop {
    content: Content,
    table: StopTable,
}

impl RollUp {
    /// A walk without any head yet.
    pub fn new(prior: Prior) -> RollUp {
        let window = prior.extent.unwrap_or(Window::WHOLE);
        RollUp {
            prior,
            stops: BTreeMap::new(),
            window,
            posterior: OnceLock::new(),
            gathered: OnceLock::new(),
        }
    }

    /// Inserts or replaces the heads of one stop; an empty slice removes it.
    pub fn set_stop(&mut self, key: u64, heads: &[Head]) {
        self.set_stops([(key, heads)]);
    }

    fn set_stops<'a>(&mut self, stops: impl IntoIterator<Item = (u64, &'a [Head])>) {
        for (key, heads) in stops {
            if heads.is_empty() {
                self.stops.remove(&key);
            } else {
                let content = content_of(heads);
                let table = StopTable::empty();
                self.stops.insert(key, Stop { content, table });
            }
        }
        let window = self.wanted_window();
        let moved = window != self.window;
        self.window = window;
        for stop in self.stops.values_mut() {
            if moved || stop.table.values.is_empty() {
                stop.table = StopTable::new(&self.prior.nodes, window, &stop.content);
            }
        }
        self.posterior = OnceLock::new();
        self.gathered = OnceLock::new();
    }

    fn now(&self) -> &Posterior {
        self.posterior.get_or_init(|| self.under(&self.prior))
    }

    fn gathered(&self) -> &Gathered {
        self.gathered.get_or_init(|| Gathered::new(self.now()))
    }

    /// The posterior of the same heads under another prior on the same nodes.
    pub(crate) fn under(&self, prior: &Prior) -> Posterior {
        // A history that lies outside the window needs no more of it: there the
        // heads are as good as impossible.
        let mut stops: Vec<&Stop> = self.stops.values().collect();
        stops.sort_by(|a, b| a.content.cmp(&b.content));
        let tables: Vec<&StopTable> = stops.iter().map(|stop| &stop.table).collect();
        Posterior::new(prior, self.window, &tables)
    }

    /// The means that the heads (and the history) can be about.
    fn wanted_window(&self) -> Window {
        let heads = self.heads();
        if heads == 0 {
            return self.prior.extent.unwrap_or(Window::WHOLE);
        }
        let (mut low, mut high) = (f64::INFINITY, f64::NEG_INFINITY);
        for stop in self.stops.values() {
            for (kind, _) in &stop.content {
                for (span, _) in SPANS {
                    let (from, to) = kind.extent(span);
                    low = low.min(from);
                    high = high.max(to);
                }
            }
        }
        let margin = 160.0 + 480.0 / f64::from(heads).sqrt();
        let window = Window::covering(low - margin, high + margin);
        match self.prior.extent {
            Some(extent) => window.hull(extent),
            None => window,
        }
    }

    /// Heads read.
    pub fn heads(&self) -> u32 {
        self.stops
            .values()
            .flat_map(|stop| stop.content.iter().map(|(_, count)| *count))
            .sum()
    }

    /// Stops with at least one head.
    pub fn stops(&self) -> u32 {
        self.stops.len() as u32
    }

    /// The whole-field answer with central bands of this level (0-1).
    pub fn whole_field(&self, level: f64) -> WholeField {
        self.gathered()
            .whole_field(level, self.heads(), self.stops())
    }

    /// Whether to go on walking, and what it would buy, at a level of 0.9.
    pub fn advice(&self, target: &Target, cost: &WalkingCost) -> Advice {
        advice(
            self.now(),
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
        self.now().clone()
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
