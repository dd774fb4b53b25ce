//! Counting how often bands hold, and how wide they are.

use ripening::Band;

/// Two ends.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Interval {
    /// Lower end.
    pub low: f64,
    /// Upper end.
    pub high: f64,
}

impl From<Band> for Interval {
    fn from(band: Band) -> Interval {
        Interval {
            low: band.low,
            high: band.high,
        }
    }
}

/// Level of every band judged here.
pub const LEVEL: f64 = 0.9;

/// One band and what was true.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Case {
    /// The band.
    pub band: Interval,
    /// The truth.
    pub truth: f64,
    /// Cases of one field are not independent: the field they belong to.
    pub field: usize,
}

impl Case {
    /// Whether the band holds the truth (to rounding).
    pub fn holds(&self) -> bool {
        self.band.low - 1e-9 <= self.truth && self.truth <= self.band.high + 1e-9
    }

    /// Width of the band.
    pub fn width(&self) -> f64 {
        self.band.high - self.band.low
    }

    /// Interval score of a 90 % band: width + 20 x the distance missed
    /// (Gneiting & Raftery 2007, JASA 102:359-378, eq. 43).
    pub fn score(&self) -> f64 {
        let missed = (self.band.low - self.truth)
            .max(self.truth - self.band.high)
            .max(0.0);
        self.width() + 2.0 / (1.0 - LEVEL) * missed
    }
}

/// Means over cases.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tally {
    /// Number of cases.
    pub cases: usize,
    /// Share of bands that held.
    pub held: f64,
    /// Standard error of that, cases of one field taken together.
    pub held_se: f64,
    /// Mean width.
    pub width: f64,
    /// Mean interval score.
    pub score: f64,
}

impl Tally {
    /// Counts the cases, which must come in the order of their fields.
    pub fn of<'a>(cases: impl Iterator<Item = &'a Case>) -> Tally {
        let (mut n, mut held, mut width, mut score) = (0_usize, 0.0, 0.0, 0.0);
        let mut fields: Vec<(usize, f64, f64)> = Vec::new();
        for case in cases {
            let hold = if case.holds() { 1.0 } else { 0.0 };
            n += 1;
            held += hold;
            width += case.width();
            score += case.score();
            match fields.last_mut() {
                Some(last) if last.0 == case.field => {
                    last.1 += 1.0;
                    last.2 += hold;
                }
                _ => fields.push((case.field, 1.0, hold)),
            }
        }
        let total = n as f64;
        let share = held / total;
        let squares: f64 = fields
            .iter()
            .map(|(_, size, hold)| (hold - share * size) * (hold - share * size))
            .sum();
        Tally {
            cases: n,
            held: share,
            held_se: squares.sqrt() / total,
            width: width / total,
            score: score / total,
        }
    }
}

/// A ratio of sums and its standard error, from one pair of sums for each field.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ratio {
    /// Sum of the first over sum of the second.
    pub value: f64,
    /// Standard error, fields taken as independent.
    pub se: f64,
}

impl Ratio {
    /// Ratio over cases paired one to one, which must come in the order of their
    /// fields; `measure` is what is summed.
    pub fn of<'a>(
        pairs: impl Iterator<Item = (&'a Case, &'a Case)>,
        measure: impl Fn(&Case) -> f64,
    ) -> Ratio {
        let mut fields: Vec<(usize, f64, f64)> = Vec::new();
        for (ours, theirs) in pairs {
            let (a, b) = (measure(ours), measure(theirs));
            match fields.last_mut() {
                Some(last) if last.0 == ours.field => {
                    last.1 += a;
                    last.2 += b;
                }
                _ => fields.push((ours.field, a, b)),
            }
        }
        let above: f64 = fields.iter().map(|field| field.1).sum();
        let below: f64 = fields.iter().map(|field| field.2).sum();
        let value = above / below;
        let squares: f64 = fields
            .iter()
            .map(|(_, a, b)| (a - value * b) * (a - value * b))
            .sum();
        Ratio {
            value,
            se: squares.sqrt() / below,
        }
    }
}

/// Standard errors by which a limit is widened in the short setting; none in the
/// long one.
pub fn slack(se: f64, long: bool) -> f64 {
    if long { 0.0 } else { 2.0 * se }
}

/// Collects limits that were not kept, so that a table is printed whole before it fails.
#[derive(Debug, Default)]
pub struct Verdict {
    broken: Vec<String>,
}

impl Verdict {
    /// Notes whether `value` lies within `low..=high`, widened by `slack`.
    pub fn within(&mut self, what: &str, value: f64, low: f64, high: f64, slack: f64) {
        let kept = value >= low - slack && value <= high + slack;
        let range = match (low == f64::NEG_INFINITY, high == f64::INFINITY) {
            (true, _) => format!("at most {high}"),
            (_, true) => format!("at least {low}"),
            _ => format!("{low} to {high}"),
        };
        let line = format!("{what}: {value:.4}, limit {range}, slack {slack:.4}");
        println!("  {} {line}", if kept { "kept  " } else { "BROKEN" });
        if !kept {
            self.broken.push(line);
        }
    }

    /// A limit from above that the model does not keep yet. The long setting fails
    /// on it; the short one says so, and fails where `on_record`, what was last
    /// measured, is no longer kept either.
    pub fn not_kept_yet(&mut self, what: &str, value: f64, limit: f64, on_record: f64, slack: f64) {
        let long = slack == 0.0;
        if !long && value > limit {
            println!("  NOT KEPT {what}: {value:.4}, limit at most {limit}");
        }
        let bound = if long { limit } else { on_record };
        self.within(what, value, f64::NEG_INFINITY, bound, slack);
    }

    /// # Panics
    /// Where a limit was broken.
    pub fn settle(self) {
        assert!(
            self.broken.is_empty(),
            "limits not kept:\n  {}",
            self.broken.join("\n  ")
        );
    }
}
