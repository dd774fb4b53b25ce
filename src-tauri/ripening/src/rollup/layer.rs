//! A walk's stops on one set of nodes, each computed once.

use std::collections::BTreeMap;
use std::mem::take;
use std::sync::{Arc, Mutex, OnceLock};

use super::grid::{Grid, Window};
use super::nodes::{Key, Nodes, Placement};
use super::posterior::Posterior;
use super::prior::Prior;
use super::stop::{Content, StopTable};

/// The stops of a walk by key, in canonical form.
pub(crate) type Stops = BTreeMap<u64, Content>;

/// The tables of a walk's stops on one set of nodes, and their product.
pub(crate) struct Layer {
    pub(crate) nodes: Arc<Nodes>,
    prior: Option<Vec<f64>>,
    window: Window,
    tables: BTreeMap<u64, (Content, StopTable)>,
    posterior: OnceLock<Posterior>,
    /// Memory of the table and of the posterior that went last: a tap on a phone
    /// does not wait for pages of new memory.
    table_room: Option<StopTable>,
    posterior_room: Mutex<Vec<f64>>,
}

impl Layer {
    pub(crate) fn new(nodes: Arc<Nodes>, prior: &Prior, window: Window) -> Layer {
        Layer {
            prior: prior.on(&nodes),
            nodes,
            window,
            tables: BTreeMap::new(),
            posterior: OnceLock::new(),
            table_room: None,
            posterior_room: Mutex::default(),
        }
    }

    /// Forgets a stop's table.
    pub(crate) fn forget(&mut self, key: u64) {
        if let Some((_, table)) = self.tables.remove(&key) {
            self.table_room = Some(table);
        }
        self.forget_posterior();
    }

    fn forget_posterior(&mut self) {
        if let Some(posterior) = self.posterior.take() {
            self.posterior_room = Mutex::new(posterior.into_room());
        }
    }

    /// Computes what is missing.
    pub(crate) fn update(&mut self, stops: &Stops, window: Window) {
        if window != self.window {
            self.tables.clear();
            self.window = window;
        }
        for (key, content) in stops {
            self.tables.entry(*key).or_insert_with(|| {
                let table = StopTable::new(&self.nodes, window, content, self.table_room.take());
                (content.clone(), table)
            });
        }
        self.forget_posterior();
    }

    pub(crate) fn posterior(&self) -> &Posterior {
        self.posterior.get_or_init(|| {
            let room = self.posterior_room.lock().map(|mut room| take(&mut *room));
            self.posterior_under(self.prior.as_deref(), room.unwrap_or_default())
        })
    }

    /// The posterior of the same heads under another prior on these nodes.
    pub(crate) fn under(&self, prior: Option<&[f64]>) -> Posterior {
        self.posterior_under(prior, Vec::new())
    }

    fn posterior_under(&self, prior: Option<&[f64]>, room: Vec<f64>) -> Posterior {
        // Ordered by content, so that the order of entry changes no bit.
        let mut ordered: Vec<&(Content, StopTable)> = self.tables.values().collect();
        ordered.sort_by(|a, b| a.0.cmp(&b.0));
        let tables: Vec<&StopTable> = ordered.iter().map(|(_, table)| table).collect();
        Posterior::new(&self.nodes, prior, self.window, &tables, room)
    }
}

/// Heads and stops up to which the usual nodes are close enough together; each
/// further fourfold halves the distances.
const USUAL_HEADS: u32 = 64;
const USUAL_STOPS: u32 = 12;

/// The nodes that a large walk needs, close together around where the usual ones
/// found the spreads, and the means that it is about; `None` for a walk of the usual
/// size.
pub(crate) fn finer<'a>(
    coarse: impl FnOnce() -> &'a Posterior,
    heads: u32,
    stops: u32,
) -> Option<(Key, Window)> {
    let (by_heads, by_stops) = (halvings(heads, USUAL_HEADS), halvings(stops, USUAL_STOPS));
    if by_heads == 0 && by_stops == 0 {
        return None;
    }
    let coarse = coarse();
    let usual = coarse.nodes.key;
    let (mut head, mut stop) = (0.0, 0.0);
    for (row, weight, _) in coarse.live_rows() {
        let parts = coarse.nodes.parts(row);
        head += weight * libm::log(coarse.nodes.heads[parts.head].value);
        stop += weight * libm::log(coarse.nodes.stops[parts.stop].value);
    }
    let place = |usual: Placement, halvings: u32, log: f64, median: f64| {
        if halvings == 0 {
            return usual;
        }
        let step = usual.step / f64::from(1_u32 << halvings);
        Placement {
            step,
            count: 9,
            center: libm::round((log - libm::log(median)) / step) as i64,
        }
    };
    let (low, high) = coarse.extent();
    let edge = 3.0 * usual.grid.step;
    let (low, high) = (low - edge, high + edge);
    let step = if by_heads + by_stops > 2 { 6.0 } else { 8.0 };
    let grid = Grid::part(step, low, high);
    let key = Key {
        spreads: usual.spreads,
        head: place(usual.head, by_heads, head, usual.spreads.head.median),
        stop: place(usual.stop, by_stops, stop, usual.spreads.stop.median),
        grid,
    };
    Some((key, grid.window(low, high)))
}

fn halvings(count: u32, usual: u32) -> u32 {
    let mut halvings = 0;
    let mut limit = usual;
    while count > limit && halvings < 3 {
        limit *= 4;
        halvings += 1;
    }
    halvings
}
