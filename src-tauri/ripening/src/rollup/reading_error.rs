//! What a reading says of a head's age, with the errors a scout makes.
//!
//! `q` is the share judged, `q*(a) = (a - T) / span + 1/2` the share that a head
//! of age `a` truly shows of the reading whose mark is `T`.
//!
//! - A share below 100 is a measurement: `q ~ Normal(q*, SHARE_ERROR)` for heads
//!   that show the reading over a part of their length.
//! - A share of 100 is an interval: the whole head shows the reading and its
//!   top does not show the next one yet, both ends blurred by the same error.
//! - One whole head in four is judged a little short of whole, by a half-normal
//!   with the same error.
//! - `CLASS_ERROR` of the readings are off by one class. Half of these keep the
//!   share, the other half say nothing of it.
//! - Two heads in a thousand say nothing at all (written in the wrong row).
//!
//! Everything is convolved with a normal head effect of spread `sigma`, in
//! closed form.

use super::marks::{self, EMERGENCE, HEADING_BEFORE_BLOOM};
use super::normal::{below, density};
use crate::{Head, Reading};

/// Standard deviation of a judged share, in shares of the head's length: between
/// a careful scout's three points and a hasty one's ten.
pub const SHARE_ERROR: f64 = 0.06;
/// Whole heads that are seen as whole.
pub const SEEN_WHOLE: f64 = 0.75;
/// Half of a step between shares as scouts give them (5 %).
const HALF_STEP: f64 = 0.025;
/// Readings that are off by one class: between none and one in twelve.
pub const CLASS_ERROR: f64 = 0.025;
/// Heads that say nothing.
pub const BLUNDER: f64 = 0.002;
/// Blur of the marks before bloom, heat units: they are wide and little studied.
const EARLY_BLUR: f64 = 40.0;
/// Blur below boot: a plant well before boot has no head to pull.
const BOOT_BLUR: f64 = 60.0;

/// One reading (a reading and its share) as the model sees it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct Kind {
    reading: Reading,
    /// Whole percent; 100 for boot.
    percent: u8,
}

impl Kind {
    /// Number of kinds there are, see [`Kind::index`].
    pub(crate) const COUNT: usize = 7 * 100;

    pub(crate) fn of(head: Head) -> Kind {
        Kind {
            reading: head.reading(),
            percent: head.share().map_or(100, |share| share.percent()),
        }
    }

    pub(crate) fn index(self) -> usize {
        self.reading as usize * 100 + usize::from(self.percent) - 1
    }

    fn share(self) -> f64 {
        f64::from(self.percent) / 100.0
    }

    /// A short head's length of ages around which this kind is plausible, for
    /// placing the grid; boot and a whole dark head are open to one side.
    pub(crate) fn extent(self, span: f64) -> (f64, f64) {
        match (self.reading, self.percent) {
            (Reading::Boot, _) => (
                -0.5 * span - 320.0,
                -0.5 * span - HEADING_BEFORE_BLOOM + EARLY_BLUR,
            ),
            (Reading::Emerging, _) => {
                let age = emerging_age(self.share(), span);
                (age - EARLY_BLUR, age + EARLY_BLUR)
            }
            (reading, 100) => whole_interval(reading, span),
            (reading, _) => {
                let age = partial_age(reading, self.share(), span);
                (age - 0.1 * span, age + 0.1 * span)
            }
        }
    }

    /// Likelihood of this kind for heads of spread `sigma`, as a function of their
    /// mean, up to a factor that depends on the kind only.
    pub(crate) fn curve(self, sigma: f64, span: f64) -> Curve {
        let mut curve = Curve {
            flat: BLUNDER * self.any_share() / 7.0,
            terms: Vec::with_capacity(10),
        };
        let here = self.reading as usize;
        let beside = [here.checked_sub(1), Some(here + 1)]
            .map(|place| place.and_then(|place| Reading::ALL.get(place)).copied());
        self.as_read(
            self.reading,
            1.0 - CLASS_ERROR - BLUNDER,
            (sigma, span),
            &mut curve,
        );
        let weight = CLASS_ERROR / beside.iter().flatten().count() as f64;
        for truth in beside.into_iter().flatten() {
            self.neighbor(truth, weight, (sigma, span), &mut curve);
        }
        curve
    }

    /// The head is truly of class `truth`, next to the one read.
    fn neighbor(self, truth: Reading, weight: f64, (sigma, span): (f64, f64), to: &mut Curve) {
        self.as_read(truth, 0.5 * weight, (sigma, span), to);
        to.between(
            0.5 * weight * self.any_share(),
            class_interval(truth, span),
            spread(sigma, SHARE_ERROR * span),
        );
    }

    /// Density (per unit of share), or for a whole head probability, of a share
    /// about which nothing is known.
    fn any_share(self) -> f64 {
        if self.percent == 100 { 0.5 } else { 1.0 }
    }

    /// Likelihood of the share when the class is `reading`.
    fn as_read(self, reading: Reading, weight: f64, (sigma, span): (f64, f64), to: &mut Curve) {
        match reading {
            Reading::Boot => {
                let first = -0.5 * span;
                to.terms.push(Term::Boot {
                    weight: weight * self.any_share(),
                    from: first - marks::BOOT_BEFORE_BLOOM,
                    until: first - HEADING_BEFORE_BLOOM,
                    per_sd: (
                        1.0 / spread(sigma, BOOT_BLUR),
                        1.0 / spread(sigma, EARLY_BLUR),
                    ),
                });
            }
            Reading::Emerging => {
                let sd = spread(sigma, EARLY_BLUR);
                let height = if self.percent == 100 {
                    1.0
                } else {
                    EMERGENCE / sd
                };
                to.terms.push(Term::Bump {
                    weight: weight * height,
                    at: emerging_age(self.share(), span),
                    per_sd: 1.0 / sd,
                });
            }
            _ => {
                let (from, until) = whole_interval(reading, span);
                let blur = SHARE_ERROR * span;
                let sd = spread(sigma, blur);
                if self.percent == 100 {
                    to.between(weight, (from, until), sd);
                    to.between(-weight * (1.0 - SEEN_WHOLE), (from + blur, until), sigma);
                    return;
                }
                let share = self.share();
                let age = partial_age(reading, share, span);
                // The head's age given the reading and the heads around it is a part
                // of the way from their mean to the reading's age, with this spread.
                let part = sigma * sigma / (sd * sd);
                let around = blur * sigma / sd;
                to.terms.push(Term::Part {
                    weight: weight * span / sd,
                    at: age,
                    per_sd: 1.0 / sd,
                    edge: (from - part * age) / around,
                    per_mean: (1.0 - part) / around,
                });
                let short = (share - 1.0) / SHARE_ERROR;
                let whole = (1.0 - SEEN_WHOLE) * 2.0 / SHARE_ERROR * density(short);
                to.between(weight * whole, (from, until), sigma);
            }
        }
    }
}

/// The likelihood of a kind along the mean of the heads: a sum of terms.
pub(crate) struct Curve {
    flat: f64,
    terms: Vec<Term>,
}

enum Term {
    /// The age lies between two ages.
    Between {
        weight: f64,
        from: f64,
        until: f64,
        per_sd: f64,
    },
    /// The same with ends that are blurred differently.
    Boot {
        weight: f64,
        from: f64,
        until: f64,
        per_sd: (f64, f64),
    },
    /// A normal density around an age.
    Bump { weight: f64, at: f64, per_sd: f64 },
    /// The same, where the head is not whole.
    Part {
        weight: f64,
        at: f64,
        per_sd: f64,
        edge: f64,
        per_mean: f64,
    },
}

impl Curve {
    fn between(&mut self, weight: f64, (from, until): (f64, f64), sd: f64) {
        self.terms.push(Term::Between {
            weight,
            from,
            until,
            per_sd: 1.0 / sd,
        });
    }

    /// The likelihood where the heads have this mean.
    pub(crate) fn at(&self, mean: f64) -> f64 {
        let mut sum = self.flat;
        for term in &self.terms {
            sum += match *term {
                Term::Between {
                    weight,
                    from,
                    until,
                    per_sd,
                } => weight * (below((mean - from) * per_sd) - below((mean - until) * per_sd)),
                Term::Boot {
                    weight,
                    from,
                    until,
                    per_sd,
                } => {
                    let inside = below((mean - from) * per_sd.0) - below((mean - until) * per_sd.1);
                    weight * inside.max(0.0)
                }
                Term::Bump { weight, at, per_sd } => weight * density((mean - at) * per_sd),
                Term::Part {
                    weight,
                    at,
                    per_sd,
                    edge,
                    per_mean,
                } => match density((mean - at) * per_sd) {
                    0.0 => 0.0,
                    here => weight * here * below(edge - per_mean * mean),
                },
            };
        }
        sum
    }
}

fn spread(one: f64, other: f64) -> f64 {
    (one * one + other * other).sqrt()
}

fn emerging_age(share: f64, span: f64) -> f64 {
    -0.5 * span - HEADING_BEFORE_BLOOM + EMERGENCE * share
}

fn partial_age(reading: Reading, share: f64, span: f64) -> f64 {
    marks::reading_mark(reading).unwrap_or(0.0) + span * (share - 0.5)
}

fn next_mark(reading: Reading) -> f64 {
    match reading {
        Reading::Boot | Reading::Emerging => 0.0,
        Reading::Bloom => marks::MILK,
        Reading::Liquid => marks::SOFT_DOUGH,
        Reading::Pliable => marks::HARD_DOUGH,
        Reading::Dented => marks::BLACK_LAYER,
        Reading::DarkSpot => 1e5,
    }
}

/// Ages of a head that shows `reading` over its whole length. Where the span is
/// longer than the class, no head should; then the reading is taken as the
/// middle of what could be meant.
fn whole_interval(reading: Reading, span: f64) -> (f64, f64) {
    let from = marks::reading_mark(reading).unwrap_or(0.0) + span * (0.5 - HALF_STEP);
    let to = next_mark(reading) - span * (0.5 - HALF_STEP);
    let shortest = 0.2 * span;
    if to - from >= shortest {
        (from, to)
    } else {
        let middle = 0.5 * (from + to);
        (middle - 0.5 * shortest, middle + 0.5 * shortest)
    }
}

/// Ages of a head whose top shows `reading`.
fn class_interval(reading: Reading, span: f64) -> (f64, f64) {
    match reading {
        Reading::Boot => (
            -0.5 * span - marks::BOOT_BEFORE_BLOOM,
            -0.5 * span - HEADING_BEFORE_BLOOM,
        ),
        Reading::Emerging => (-0.5 * span - HEADING_BEFORE_BLOOM, -0.5 * span),
        _ => (
            marks::reading_mark(reading).unwrap_or(0.0) - 0.5 * span,
            next_mark(reading) - 0.5 * span,
        ),
    }
}
