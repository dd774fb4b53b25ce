//! Which fields are drawn: kinds, sizes, spreads, and what breaks the model.

use std::sync::Mutex;
use std::sync::atomic::{AtomicUsize, Ordering};

use rand::{RngExt, SeedableRng};
use rand_chacha::ChaCha8Rng;

use crate::simulation::field::{Field, Kind, Late, Marks, PUBLISHED_MARKS, RAGGED, Shape, Spread};
use crate::simulation::scout::{CAREFUL, Eyes, Size};

/// What in a field or a scout is not as a model would like it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Breach {
    /// Published marks, heads of middling span, careful eyes.
    Nothing,
    /// The hybrid's marks are stretched by 6 % (sd) and shifted by 20 units (sd).
    Marks,
    /// Spans from 100 to 240 units.
    Span,
    /// Shares misjudged by 10 points (sd).
    Share,
    /// One reading in twelve off by one class.
    OffByOne,
    /// Heads per stop from 1 to twice the usual number.
    Unequal,
    /// All of it at once.
    Everything,
}

impl Breach {
    /// All of them.
    pub const ALL: [Breach; 7] = [
        Breach::Nothing,
        Breach::Marks,
        Breach::Span,
        Breach::Share,
        Breach::OffByOne,
        Breach::Unequal,
        Breach::Everything,
    ];

    /// For tables.
    pub fn name(self) -> &'static str {
        match self {
            Breach::Nothing => "as published",
            Breach::Marks => "marks off",
            Breach::Span => "span 100-240",
            Breach::Share => "share +-10 pt",
            Breach::OffByOne => "1 in 12 off",
            Breach::Unequal => "unequal heads",
            Breach::Everything => "everything",
        }
    }

    fn has(self, other: Breach) -> bool {
        self == other || self == Breach::Everything
    }
}

/// The world of the list, and worlds beyond it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum World {
    /// As the kinds say; late heads stand everywhere alike.
    Listed,
    /// Late heads are more in some places than in others.
    Uneven,
    /// Gamma spreads with a long late tail, for places and heads.
    LongLate,
    /// Gamma spreads with a long early tail.
    LongEarly,
    /// Student t (4) spreads.
    HeavyTails,
    /// A slope across the field.
    Slope,
    /// Places differ more, beside the same heads.
    Apart,
    /// Spreads as in [`RAGGED`], whatever the cell's own.
    Ragged,
    /// Late heads come in patches: most places are mainly late or mainly not.
    Patchy,
}

impl World {
    /// How patchy late heads are, where an uneven field would have `uneven`.
    fn patchy(self, uneven: f64) -> f64 {
        match self {
            World::Uneven => uneven,
            World::Patchy => 0.8,
            _ => 0.0,
        }
    }
}

/// By how much more places differ in [`World::Apart`].
const APART: f64 = 1.4;

/// The sizes of walk that the limits speak of.
pub const SIZES: [(usize, usize); 3] = [(3, 5), (5, 5), (8, 5)];

/// One kind of case.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cell {
    /// Even, tillers, two flushes.
    pub kind: Kind,
    /// Spread of ages.
    pub spread: Spread,
    /// What is broken.
    pub breach: Breach,
    /// Beyond the list.
    pub world: World,
}

impl Cell {
    /// Draws a planting of this kind whose main heads are `middle` old on average.
    pub fn field(&self, middle: f64, rng: &mut ChaCha8Rng) -> Field {
        let late = match self.kind {
            Kind::Even => None,
            Kind::Tillers => Some(Late {
                share: rng.random_range(0.15..0.35),
                behind: rng.random_range(100.0..250.0),
                sd: 40.0,
                // Thin places tiller more.
                patchy: self.world.patchy(0.2),
            }),
            Kind::TwoFlush => Some(Late {
                share: rng.random_range(0.25..0.50),
                behind: rng.random_range(150.0..350.0),
                sd: 30.0,
                // A second flush comes where the seed lay dry or crusted.
                patchy: self.world.patchy(0.4),
            }),
        };
        let (place_shape, head_shape) = match self.world {
            World::Listed | World::Uneven | World::Patchy | World::Apart | World::Ragged => {
                (Shape::Normal, Shape::Normal)
            }
            World::LongLate => (Shape::LongLate, Shape::LongLate),
            World::LongEarly => (Shape::LongEarly, Shape::LongEarly),
            World::HeavyTails => (Shape::HeavyTails, Shape::HeavyTails),
            World::Slope => (Shape::Slope, Shape::Normal),
        };
        let bell = |rng: &mut ChaCha8Rng| Shape::Normal.quantile(rng.random());
        let mut marks = PUBLISHED_MARKS;
        // Nobody knows the milk mark well.
        marks.milk *= 1.0 + 0.05 * bell(rng);
        if self.breach.has(Breach::Marks) {
            let stretch = 1.0 + 0.06 * bell(rng);
            let shift = 20.0 * bell(rng);
            marks = Marks {
                milk: (marks.milk * stretch + shift).max(60.0),
                soft_dough: marks.soft_dough * stretch + shift,
                hard_dough: marks.hard_dough * stretch + shift,
                black_layer: marks.black_layer * stretch + shift,
            };
            marks.soft_dough = marks.soft_dough.max(marks.milk + 60.0);
        }
        let span = if self.breach.has(Breach::Span) {
            rng.random_range(100.0..240.0)
        } else {
            170.0
        };
        Field {
            middle,
            spread: match self.world {
                World::Ragged => RAGGED,
                World::Apart => Spread {
                    stop: APART * self.spread.stop,
                    ..self.spread
                },
                _ => self.spread,
            },
            place_shape,
            head_shape,
            late,
            marks,
            span,
            span_varies: 0.08,
            emergence: rng.random_range(60.0..120.0),
        }
    }

    /// The scout of this case.
    pub fn eyes(&self) -> Eyes {
        Eyes {
            share_error: if self.breach.has(Breach::Share) {
                10.0
            } else {
                CAREFUL.share_error
            },
            off_by_one: if self.breach.has(Breach::OffByOne) {
                1.0 / 12.0
            } else {
                0.0
            },
            step: CAREFUL.step,
        }
    }

    /// A walk of this case.
    pub fn size(&self, (stops, heads): (usize, usize)) -> Size {
        Size {
            stops,
            heads,
            unequal: self.breach.has(Breach::Unequal),
        }
    }
}

/// Mean ages that put milk to black layer within reach of the limits' range.
pub fn any_age(rng: &mut ChaCha8Rng) -> f64 {
    rng.random_range(50.0..1280.0)
}

/// Whether the long setting was asked for (`cargo xtask test --long`).
pub fn long() -> bool {
    std::env::var_os("HEADWALK_LONG").is_some_and(|value| value == "1")
}

/// Runs `work` for 0 to `count`, each with its own random stream, on all cores;
/// results come in order, and do not depend on the number of cores.
pub fn each<T: Send>(
    seed: u64,
    count: usize,
    work: impl Fn(usize, &mut ChaCha8Rng) -> T + Sync,
) -> Vec<T> {
    let next = AtomicUsize::new(0);
    let done = Mutex::new(Vec::with_capacity(count));
    let cores = std::thread::available_parallelism().map_or(1, usize::from);
    std::thread::scope(|scope| {
        for _ in 0..cores {
            scope.spawn(|| {
                loop {
                    let i = next.fetch_add(1, Ordering::Relaxed);
                    if i >= count {
                        break;
                    }
                    let mut rng = ChaCha8Rng::seed_from_u64(seed);
                    rng.set_stream(i as u64);
                    let result = work(i, &mut rng);
                    if let Ok(mut done) = done.lock() {
                        done.push((i, result));
                    }
                }
            });
        }
    });
    let mut done = done.into_inner().unwrap_or_default();
    done.sort_by_key(|(i, _)| *i);
    done.into_iter().map(|(_, result)| result).collect()
}
