//! What a bench measured, beside its limits: printed as one table, and an exit code.

use std::cell::{Cell, RefCell};
use std::process::ExitCode;
use std::time::{Duration, Instant};
use std::{fmt, fs};

/// Times of single rounds, one by one, so that the slow ones can be told of too:
/// criterion keeps means alone.
#[derive(Debug, Default)]
pub struct Times {
    rounds: RefCell<Vec<Duration>>,
    /// Nanoseconds on a processor, as Linux counts them.
    worked: Cell<u64>,
}

impl Times {
    /// Times one round and remembers it. What the work returns is dropped outside
    /// of the time.
    pub fn time<T>(&self, work: impl FnOnce() -> T) -> Duration {
        let before = on_a_processor();
        let begun = Instant::now();
        let done = std::hint::black_box(work());
        let took = begun.elapsed();
        let worked = on_a_processor().zip(before);
        drop(done);
        self.rounds.borrow_mut().push(took);
        let worked = worked.map_or(0, |(after, before)| after.saturating_sub(before));
        self.worked.set(self.worked.get() + worked);
        took
    }

    /// The mean time that this thread was on a processor, milliseconds: what is left
    /// of a time on a machine that others use too. None where the system does not say.
    pub fn worked(&self) -> Option<f64> {
        let worked = milliseconds(Duration::from_nanos(self.worked.get()));
        #[allow(clippy::cast_precision_loss)] // counts of rounds
        let rounds = self.rounds() as f64;
        (worked > 0.0).then(|| worked / rounds)
    }

    /// How many rounds there were.
    pub fn rounds(&self) -> usize {
        self.rounds.borrow().len()
    }

    /// The mean, milliseconds; none without a round.
    pub fn mean(&self) -> Option<f64> {
        let times = self.rounds.borrow();
        #[allow(clippy::cast_precision_loss)] // counts of rounds
        let rounds = times.len() as f64;
        (rounds > 0.0).then(|| milliseconds(times.iter().sum()) / rounds)
    }

    /// The time, in milliseconds, within which this share of the rounds was done
    /// (0.99 for p99). None where there are too few rounds to tell.
    pub fn within(&self, share: f64) -> Option<f64> {
        let mut times = self.rounds.borrow().clone();
        times.sort_unstable();
        #[allow(
            clippy::cast_precision_loss,
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss
        )] // a rank among some thousands
        let rank = (times.len() as f64 * share).ceil() as usize;
        // At least one round must lie above it, but for the largest of all.
        let tells = share >= 1.0 || rank < times.len();
        times
            .get(rank.checked_sub(1)?)
            .filter(|_| tells)
            .copied()
            .map(milliseconds)
    }
}

fn on_a_processor() -> Option<u64> {
    let told = fs::read_to_string("/proc/thread-self/schedstat").ok()?;
    told.split_whitespace().next()?.parse().ok()
}

fn milliseconds(time: Duration) -> f64 {
    time.as_secs_f64() * 1e3
}

/// Rows of figures, most with a limit.
#[derive(Debug, Default)]
pub struct Limits(Vec<Row>);

#[derive(Debug)]
struct Row {
    what: String,
    /// None where a filter left it out.
    measured: Option<f64>,
    unit: &'static str,
    bound: Bound,
}

#[derive(Debug, Clone, Copy)]
enum Bound {
    AtMost(f64),
    AtLeast(f64),
    Told,
}

impl Limits {
    /// A figure that must not be above the limit.
    pub fn at_most(&mut self, what: &str, measured: Option<f64>, limit: f64, unit: &'static str) {
        self.push(what, measured, unit, Bound::AtMost(limit));
    }

    /// A figure that must not be below the limit.
    pub fn at_least(&mut self, what: &str, measured: Option<f64>, limit: f64, unit: &'static str) {
        self.push(what, measured, unit, Bound::AtLeast(limit));
    }

    /// A figure without a limit, for comparison.
    pub fn told(&mut self, what: &str, measured: Option<f64>, unit: &'static str) {
        self.push(what, measured, unit, Bound::Told);
    }

    fn push(&mut self, what: &str, measured: Option<f64>, unit: &'static str, bound: Bound) {
        self.0.push(Row {
            what: what.to_owned(),
            measured,
            unit,
            bound,
        });
    }

    /// Prints the table; failure where a limit is not kept.
    pub fn verdict(&self) -> ExitCode {
        println!("\n{self}");
        if self.breaches() > 0 {
            ExitCode::FAILURE
        } else {
            ExitCode::SUCCESS
        }
    }

    /// How many limits are not kept.
    pub fn breaches(&self) -> usize {
        self.0.iter().filter(|row| row.is_breached()).count()
    }
}

impl Row {
    fn is_breached(&self) -> bool {
        match (self.measured, self.bound) {
            // Not a number breaks every limit.
            (Some(measured), Bound::AtMost(limit)) => !matches!(
                measured.partial_cmp(&limit),
                Some(std::cmp::Ordering::Less | std::cmp::Ordering::Equal)
            ),
            (Some(measured), Bound::AtLeast(limit)) => !matches!(
                measured.partial_cmp(&limit),
                Some(std::cmp::Ordering::Greater | std::cmp::Ordering::Equal)
            ),
            _ => false,
        }
    }
}

impl fmt::Display for Limits {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        writeln!(out, "{:<52} {:>12}  {:<8} limit", "measured", "", "")?;
        for row in &self.0 {
            let measured = match row.measured {
                Some(figure) if figure.abs() >= 100.0 => format!("{figure:.0}"),
                Some(figure) if figure.abs() >= 10.0 => format!("{figure:.1}"),
                Some(figure) => format!("{figure:.3}"),
                None => "left out".to_owned(),
            };
            let limit = match row.bound {
                Bound::AtMost(limit) => format!("<= {limit}"),
                Bound::AtLeast(limit) => format!(">= {limit}"),
                Bound::Told => String::new(),
            };
            let verdict = match (row.measured, row.bound) {
                (None, _) | (_, Bound::Told) => "",
                _ if row.is_breached() => "NOT KEPT",
                _ => "kept",
            };
            let line = format!(
                "{:<52} {measured:>12}  {:<8} {limit:<12} {verdict}",
                row.what, row.unit
            );
            writeln!(out, "{}", line.trim_end())?;
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_limit_is_kept_up_to_itself_and_not_beyond() {
        let breaches = |measured| {
            let mut limits = Limits::default();
            limits.at_most("time", measured, 5.0, "ms");
            limits.at_least("rate", measured.map(|time: f64| 10.0 - time), 5.0, "/s");
            limits.breaches()
        };
        assert_eq!(breaches(Some(5.0)), 0);
        assert_eq!(breaches(Some(5.1)), 2);
        assert_eq!(breaches(Some(f64::NAN)), 2);
        assert_eq!(breaches(None), 0);
    }

    #[test]
    fn the_slow_rounds_are_told() {
        let times = Times::default();
        times
            .rounds
            .replace((1..=200).map(Duration::from_millis).collect());
        assert_eq!(times.within(0.5), Some(100.0));
        assert_eq!(times.within(0.99), Some(198.0));
        assert_eq!(times.within(1.0), Some(200.0));
        assert_eq!(times.mean(), Some(100.5));
        // Of ninety rounds none tells what one in a hundred takes.
        times.rounds.borrow_mut().truncate(90);
        assert_eq!(times.within(0.99), None);
    }
}
