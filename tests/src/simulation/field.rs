//! A planting that ripens: places, heads and kernels, and the truth of the whole.
//!
//! Ages are heat units (base 50 F, cap 100 F) since a kernel's own bloom. The
//! kernel at share `x` of the head's length from the top has age
//! `middle + span * (0.5 - x)`: the top is oldest. Nothing here is Bayesian and
//! nothing is shared with the model under test.

use std::sync::OnceLock;

use rand::RngExt;
use rand_chacha::ChaCha8Rng;
use ripening::{PerStage, Stage};
use statrs::distribution::{ContinuousCDF, Gamma, Normal, StudentsT};

/// Published ages of the marks (K-State eUpdate 661, 2025, Table 1, the means of
/// its two maturities, counted from bloom); milk is from memory.
pub const PUBLISHED_MARKS: Marks = Marks {
    milk: 130.0,
    soft_dough: 297.0,
    hard_dough: 747.0,
    black_layer: 1107.0,
};

/// Ages at which a kernel reaches each mark.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Marks {
    /// Liquid first shows.
    pub milk: f64,
    /// Squeezes flat, little liquid.
    pub soft_dough: f64,
    /// Dents only.
    pub hard_dough: f64,
    /// Dark spot at the base.
    pub black_layer: f64,
}

impl Marks {
    /// Age of a grain stage, `None` before milk.
    pub fn of(&self, stage: Stage) -> Option<f64> {
        match stage {
            Stage::Milk => Some(self.milk),
            Stage::SoftDough => Some(self.soft_dough),
            Stage::HardDough => Some(self.hard_dough),
            Stage::BlackLayer => Some(self.black_layer),
            Stage::Boot | Stage::Heading | Stage::HalfBloom => None,
        }
    }
}

/// How the ages of heads are made up, beside place and chance.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// One population of heads.
    Even,
    /// 15 to 35 % of the heads are tillers, 100 to 250 units late.
    Tillers,
    /// 25 to 50 % emerged in a second flush, 150 to 350 units late.
    TwoFlush,
}

impl Kind {
    /// The kinds that the limits speak of.
    pub const ALL: [Kind; 3] = [Kind::Even, Kind::Tillers, Kind::TwoFlush];

    /// For tables.
    pub fn name(self) -> &'static str {
        match self {
            Kind::Even => "even",
            Kind::Tillers => "tillers",
            Kind::TwoFlush => "two-flush",
        }
    }
}

/// Standard deviations of age between places and between heads of one place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spread {
    /// For tables.
    pub name: &'static str,
    /// Between places, heat units.
    pub stop: f64,
    /// Between heads at a place, heat units.
    pub head: f64,
}

/// Three spreads: four standard deviations of a head's age are 9, 14 and 20 days
/// at 25 units a day. Heads of a field mature over 10 to 14 days (Mississippi
/// State 2021); a fairly uniform field blooms over 16 to 24 days, of which one
/// head takes 4 to 9.
pub const SPREADS: [Spread; 3] = [
    Spread {
        name: "narrow",
        stop: 25.0,
        head: 50.0,
    },
    Spread {
        name: "middle",
        stop: 40.0,
        head: 80.0,
    },
    Spread {
        name: "wide",
        stop: 60.0,
        head: 110.0,
    },
];

/// Beyond the list: 24 days, and places that differ nearly as much as heads.
pub const RAGGED: Spread = Spread {
    name: "ragged",
    stop: 90.0,
    head: 120.0,
};

/// Shape of a spread; each has mean 0 and standard deviation 1.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Shape {
    /// The bell.
    Normal,
    /// Gamma of shape 3, long tail towards late.
    LongLate,
    /// Gamma of shape 3, long tail towards early.
    LongEarly,
    /// Student t on 4 degrees of freedom.
    HeavyTails,
    /// Flat: a slope from one side of the field to the other.
    Slope,
}

const QUANTILES: usize = 4096;

impl Shape {
    /// Quantile at `unit` (0-1), from a table made once.
    pub fn quantile(self, unit: f64) -> f64 {
        static TABLES: OnceLock<Vec<Vec<f64>>> = OnceLock::new();
        let tables = TABLES.get_or_init(|| {
            [
                Shape::Normal,
                Shape::LongLate,
                Shape::LongEarly,
                Shape::HeavyTails,
                Shape::Slope,
            ]
            .into_iter()
            .map(|shape| {
                (0..QUANTILES)
                    .map(|i| shape.exact_quantile((i as f64 + 0.5) / QUANTILES as f64))
                    .collect()
            })
            .collect()
        });
        let table = &tables[self as usize];
        let place = (unit * QUANTILES as f64 - 0.5).clamp(0.0, QUANTILES as f64 - 1.0);
        let low = (place as usize).min(QUANTILES - 2);
        let part = place - low as f64;
        table[low] * (1.0 - part) + table[low + 1] * part
    }

    fn exact_quantile(self, unit: f64) -> f64 {
        // The parameters are constants within the distributions' domains.
        match self {
            Shape::Normal => Normal::standard().inverse_cdf(unit),
            Shape::LongLate => -Shape::LongEarly.exact_quantile(1.0 - unit),
            Shape::LongEarly => {
                Gamma::new(3.0, 1.0).map_or(0.0, |g| (g.inverse_cdf(unit) - 3.0) / 3.0_f64.sqrt())
            }
            Shape::HeavyTails => {
                StudentsT::new(0.0, 1.0, 4.0).map_or(0.0, |t| t.inverse_cdf(unit) / 2.0_f64.sqrt())
            }
            Shape::Slope => (unit - 0.5) * 12.0_f64.sqrt(),
        }
    }
}

/// Heads that are behind the others.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Late {
    /// Share of all heads, 0-1.
    pub share: f64,
    /// How far behind, heat units.
    pub behind: f64,
    /// Standard deviation of that, heat units.
    pub sd: f64,
    /// How much the share differs between places: its standard deviation over the
    /// largest possible (0: every place alike, 1: whole places late or not).
    pub patchy: f64,
}

/// A planting on one day.
#[derive(Debug, Clone, PartialEq)]
pub struct Field {
    /// Mean age of the middle of a head that is not late.
    pub middle: f64,
    /// Spread between places and heads.
    pub spread: Spread,
    /// Shape of the spread between places.
    pub place_shape: Shape,
    /// Shape of the spread between heads.
    pub head_shape: Shape,
    /// Late heads, if any.
    pub late: Option<Late>,
    /// The hybrid's own marks.
    pub marks: Marks,
    /// Mean difference in age from top to base of a head.
    pub span: f64,
    /// Relative standard deviation of the span between heads.
    pub span_varies: f64,
    /// Heat from a head's first appearance to bloom at its top.
    pub emergence: f64,
}

/// One place in a field.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Place {
    shift: f64,
    late_share: f64,
}

/// One head as it is, not as it is read.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TrueHead {
    /// Age of the kernel half way down.
    pub middle: f64,
    /// Age of the top less that of the base.
    pub span: f64,
}

impl TrueHead {
    /// Age of the topmost kernel.
    pub fn top(&self) -> f64 {
        self.middle + 0.5 * self.span
    }

    /// Share of the length whose kernels are at least `age` old.
    pub fn share_older_than(&self, age: f64) -> f64 {
        ((self.top() - age) / self.span).clamp(0.0, 1.0)
    }
}

/// What is so in the whole planting.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Truth {
    /// Share of heads that have reached each stage.
    pub reached: PerStage<f64>,
    /// Share of head length that has reached each stage.
    pub grain: PerStage<f64>,
    /// Latest stage reached by at least half of the heads.
    pub stage: Stage,
    /// The middle head on the published scale, from half bloom (6) on, on the
    /// hybrid's own marks; `None` before.
    pub position: Option<f64>,
}

impl Field {
    /// A place from two numbers in 0-1.
    fn place_at(&self, age: f64, late: f64) -> Place {
        let late_share = self.late.map_or(0.0, |l| {
            let sd = l.patchy * (l.share * (1.0 - l.share)).sqrt();
            (l.share + sd * Shape::Slope.quantile(late)).clamp(0.0, 1.0)
        });
        Place {
            shift: self.spread.stop * self.place_shape.quantile(age),
            late_share,
        }
    }

    /// A head at a place from four numbers in 0-1.
    fn head_at(&self, place: &Place, age: f64, late: f64, behind: f64, span: f64) -> TrueHead {
        let delay = match self.late {
            Some(l) if late < place.late_share => {
                (l.behind + l.sd * Shape::Normal.quantile(behind)).max(0.0)
            }
            _ => 0.0,
        };
        let middle = self.middle + place.shift + self.spread.head * self.head_shape.quantile(age);
        let factor = 1.0 + self.span_varies * Shape::Normal.quantile(span);
        TrueHead {
            middle: middle - delay,
            span: self.span * factor.max(0.3),
        }
    }

    /// A place anywhere in the field.
    pub fn place(&self, rng: &mut ChaCha8Rng) -> Place {
        self.place_at(rng.random(), rng.random())
    }

    /// Any head at a place.
    pub fn head(&self, place: &Place, rng: &mut ChaCha8Rng) -> TrueHead {
        self.head_at(
            place,
            rng.random(),
            rng.random(),
            rng.random(),
            rng.random(),
        )
    }

    /// The same planting after more heat.
    pub fn after(&self, heat: f64) -> Field {
        Field {
            middle: self.middle + heat,
            ..self.clone()
        }
    }

    /// The truth, over an evenly filled population of places and heads.
    pub fn truth(&self) -> Truth {
        let points = even_points();
        let n = points.len() as f64;
        let mut reached = [0.0; 7];
        let mut grain = [0.0; 7];
        let mut middles = Vec::with_capacity(points.len());
        for point in points {
            let place = self.place_at(point[0], point[1]);
            let head = self.head_at(&place, point[2], point[3], point[4], point[5]);
            middles.push(head.middle);
            for stage in Stage::ALL {
                let (whole, part) = match self.marks.of(stage) {
                    Some(mark) => {
                        let share = head.share_older_than(mark);
                        (share >= 0.5, share)
                    }
                    None => {
                        let any = match stage {
                            Stage::Boot => true,
                            Stage::Heading => head.top() >= -self.emergence,
                            _ => head.top() >= 0.0,
                        };
                        let part = match stage {
                            Stage::HalfBloom => head.share_older_than(0.0),
                            _ => f64::from(u8::from(any)),
                        };
                        (any, part)
                    }
                };
                reached[stage.index()] += f64::from(u8::from(whole)) / n;
                grain[stage.index()] += part / n;
            }
        }
        middles.sort_by(f64::total_cmp);
        let median = 0.5 * (middles[middles.len() / 2 - 1] + middles[middles.len() / 2]);
        let stage = Stage::ALL
            .into_iter()
            .rev()
            .find(|stage| reached[stage.index()] >= 0.5)
            .unwrap_or(Stage::Boot);
        Truth {
            reached: PerStage::from_fn(|stage| reached[stage.index()]),
            grain: PerStage::from_fn(|stage| grain[stage.index()]),
            stage,
            position: self.position(median),
        }
    }

    fn position(&self, middle: f64) -> Option<f64> {
        let marks = [
            (-0.5 * self.span, 6.0),
            (self.marks.soft_dough, 7.0),
            (self.marks.hard_dough, 8.0),
            (self.marks.black_layer, 9.0),
        ];
        if middle < marks[0].0 {
            return None;
        }
        marks
            .windows(2)
            .find(|pair| middle < pair[1].0)
            .map(|pair| pair[0].1 + (middle - pair[0].0) / (pair[1].0 - pair[0].0))
            .or(Some(9.0))
    }
}

/// Points that fill the six-dimensional unit cube evenly: the additive recurrence
/// on powers of the root of `x^7 = x + 1` (Roberts 2018's generalised golden ratio).
fn even_points() -> &'static [[f64; 6]] {
    static POINTS: OnceLock<Vec<[f64; 6]>> = OnceLock::new();
    POINTS.get_or_init(|| {
        let mut root: f64 = 1.1;
        for _ in 0..60 {
            root = (1.0 + root).powf(1.0 / 7.0);
        }
        let steps: [f64; 6] = std::array::from_fn(|d| root.powi(-(d as i32 + 1)));
        (1..=8192)
            .map(|i| steps.map(|step| (0.5 + step * f64::from(i)).fract()))
            .collect()
    })
}
