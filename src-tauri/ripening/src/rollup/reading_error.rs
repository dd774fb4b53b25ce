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

    /// Likelihood of this kind for a head drawn from Normal(`mean`, `sigma`),
    /// up to a factor that depends on the kind only.
    pub(crate) fn likelihood(self, mean: f64, sigma: f64, span: f64) -> f64 {
        let here = self.reading as usize;
        let mut off = 0.0;
        let mut neighbors = 0.0;
        if here > 0 {
            off += self.neighbor(Reading::ALL[here - 1], mean, sigma, span);
            neighbors += 1.0;
        }
        if here + 1 < Reading::ALL.len() {
            off += self.neighbor(Reading::ALL[here + 1], mean, sigma, span);
            neighbors += 1.0;
        }
        (1.0 - CLASS_ERROR - BLUNDER) * self.as_read(self.reading, mean, sigma, span)
            + CLASS_ERROR / neighbors * off
            + BLUNDER * self.any_share() / 7.0
    }

    /// The head is truly of class `truth`, next to the one read.
    fn neighbor(self, truth: Reading, mean: f64, sigma: f64, span: f64) -> f64 {
        let (from, to) = class_interval(truth, span);
        0.5 * self.as_read(truth, mean, sigma, span)
            + 0.5 * self.any_share() * between(from, to, mean, spread(sigma, SHARE_ERROR * span))
    }

    /// Density (per unit of share), or for a whole head probability, of a share
    /// about which nothing is known.
    fn any_share(self) -> f64 {
        if self.percent == 100 { 0.5 } else { 1.0 }
    }

    /// Likelihood of the share when the class is `reading`.
    fn as_read(self, reading: Reading, mean: f64, sigma: f64, span: f64) -> f64 {
        match reading {
            Reading::Boot => {
                let first = -0.5 * span;
                self.any_share()
                    * (below(
                        (mean - (first - marks::BOOT_BEFORE_BLOOM)) / spread(sigma, BOOT_BLUR),
                    ) - below(
                        (mean - (first - HEADING_BEFORE_BLOOM)) / spread(sigma, EARLY_BLUR),
                    ))
                    .max(0.0)
            }
            Reading::Emerging => {
                let sd = spread(sigma, EARLY_BLUR);
                let height = if self.percent == 100 {
                    1.0
                } else {
                    EMERGENCE / sd
                };
                height * density((mean - emerging_age(self.share(), span)) / sd)
            }
            _ => {
                let (from, to) = whole_interval(reading, span);
                let blur = SHARE_ERROR * span;
                let sd = spread(sigma, blur);
                if self.percent == 100 {
                    return between(from, to, mean, sd)
                        - (1.0 - SEEN_WHOLE) * between(from + blur, to, mean, sigma);
                }
                let share = self.share();
                let age = partial_age(reading, share, span);
                // The head's age given the reading and the heads around it.
                let part = sigma * sigma / (sd * sd);
                let among = mean + part * (age - mean);
                let partly = below((from - among) / (blur * sigma / sd));
                let short = (share - 1.0) / SHARE_ERROR;
                let whole = (1.0 - SEEN_WHOLE) * 2.0 / SHARE_ERROR * density(short);
                span / sd * density((mean - age) / sd) * partly
                    + whole * between(from, to, mean, sigma)
            }
        }
    }
}

fn spread(one: f64, other: f64) -> f64 {
    (one * one + other * other).sqrt()
}

fn between(from: f64, to: f64, mean: f64, sd: f64) -> f64 {
    (below((mean - from) / sd) - below((mean - to) / sd)).max(0.0)
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
