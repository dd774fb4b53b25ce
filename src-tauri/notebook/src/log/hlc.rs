//! A hybrid logical clock: close to the wall clock, never back.
//!
//! After Kulkarni, Demirbas, Madappa, Avva and Leone, "Logical Physical Clocks
//! and Consistent Snapshots in Globally Distributed Databases" (2014).

use serde::{Deserialize, Serialize};

/// A day, ms.
pub(crate) const DAY_MS: i64 = 24 * 60 * 60 * 1_000;

/// Own changes further ahead of the clock than this are told again without being asked:
/// a year and a day, ms.
pub(crate) const FAR_MS: i64 = 366 * DAY_MS;

/// An instant of the clock: milliseconds since 1970 in the upper 47 bits, a
/// count within the millisecond in the lower 16.
#[derive(
    Debug, Clone, Copy, Default, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize,
)]
#[serde(transparent)]
pub struct Hlc(i64);

impl Hlc {
    /// Before every change.
    pub const ZERO: Hlc = Hlc(0);

    /// The latest instant accepted (in the year 4199): far from the end of the
    /// type, so that counting on never overflows.
    pub const LATEST: Hlc = Hlc((1 << 62) - 1);

    /// End of the year 2100, ms since 1970: a wall clock beyond it counts as there, so
    /// that counting on never comes to the end of the type.
    const LAST_WALL_MS: i64 = 4_133_980_800 * 1_000;

    /// The last instant within a millisecond since 1970.
    pub(crate) fn end_of(ms: i64) -> Hlc {
        Hlc(ms.clamp(0, Hlc::LAST_WALL_MS) << 16 | 0xffff)
    }

    /// Whether no wall clock that this program goes by can have made it.
    pub(crate) fn is_past_all_clocks(self) -> bool {
        self.milliseconds() > Hlc::LAST_WALL_MS + FAR_MS
    }

    /// From its number; `None` unless between [`Hlc::ZERO`] and [`Hlc::LATEST`].
    pub fn new(number: i64) -> Option<Hlc> {
        let hlc = Hlc(number);
        (Hlc::ZERO..=Hlc::LATEST).contains(&hlc).then_some(hlc)
    }

    /// Its number, as stored and sent.
    pub fn number(self) -> i64 {
        self.0
    }

    /// The next instant after everything seen (`self`) at the wall clock's
    /// `now_ms`. Strictly later than `self`, wherever the wall clock stands.
    #[must_use]
    pub fn next(self, now_ms: i64) -> Hlc {
        let wall = now_ms.clamp(0, Hlc::LAST_WALL_MS) << 16;
        Hlc(wall.max(self.0.saturating_add(1)))
    }

    /// Milliseconds since 1970.
    pub fn milliseconds(self) -> i64 {
        self.0 >> 16
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn follows_the_wall_clock_forward() {
        let first = Hlc::ZERO.next(1_000);
        assert_eq!(first.milliseconds(), 1_000);
        assert_eq!(first.next(2_000).milliseconds(), 2_000);
    }

    #[test]
    fn is_strictly_later_when_the_wall_clock_stands_or_steps_back() {
        let first = Hlc::ZERO.next(5_000_000);
        let second = first.next(5_000_000);
        let third = second.next(1);
        let fourth = third.next(-7);
        assert!(first < second && second < third && third < fourth);
        assert_eq!(fourth.milliseconds(), 5_000_000);
    }

    #[test]
    fn more_than_a_full_count_in_one_millisecond_runs_into_the_next() {
        let mut clock = Hlc::ZERO.next(10);
        for _ in 0..70_000 {
            let next = clock.next(10);
            assert!(next > clock);
            clock = next;
        }
        assert_eq!(clock.milliseconds(), 11);
    }
}
