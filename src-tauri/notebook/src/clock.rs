//! Where the time comes from: always a parameter, so that tests, simulations
//! and the demo can set it.
//!
//! # How far another clock is followed
//!
//! Stamps order changes, and our own stamp must come after all that we have seen. A
//! device whose clock is years ahead would so carry every other along, up to the end
//! of the clock, where nothing can be written any more. So there is a [`horizon`]: this
//! device's own time, or [`FLOOR_MS`] where that is later, and [`DRIFT_MS`] more.
//!
//! - A change stamped beyond it is kept and travels on, and *waits*: its facts are not
//!   applied until the horizon has reached its stamp (asked when the notebook opens and
//!   at every write). When a change is applied makes no difference to what follows from
//!   it, so all phones agree once their clocks do.
//! - Our own clock follows only stamps within it.
//! - A device's own changes never wait on the device itself: what was shown as saved
//!   stays in sight. Where its clock was wrong, its changes are *told again*
//!   ([`crate::Notebook::tell_again`]): the same facts under the same ids and a stamp of
//!   now. The old ones then never count again on any phone, since the new ones name them.
//! - Another device's waiting changes may be told again too. Those still count on their
//!   day: only the device that wrote a change can withdraw it, or any member could silence
//!   another.
//! - What counted once goes on to count, also when this clock is set back afterwards.

use std::time::{Duration, SystemTime};

use chrono::{DateTime, FixedOffset, Local, NaiveDate, NaiveTime, TimeDelta, TimeZone};

use crate::log::{DAY_MS, Hlc};

/// How far ahead of this device's clock a stamp may lie to be followed: two days, ms.
/// Clocks set by hand, to the wrong zone or a day early, stay within it.
pub const DRIFT_MS: i64 = 2 * DAY_MS;

/// Begin of 2026-11-30 UTC, ms since 1970. No honest clock is earlier, since this rule is
/// not older.
pub const FLOOR_MS: i64 = 1_795_996_800 * 1_000;

/// The latest stamp that is followed at a time of this device's clock, ms since 1970.
pub fn horizon(now_ms: i64) -> Hlc {
    let last = now_ms.max(FLOOR_MS).saturating_add(DRIFT_MS);
    Hlc::end_of(last)
}

/// A wall clock that knows the local offset from UTC.
pub trait Clock: Send {
    /// Now.
    fn now(&self) -> DateTime<FixedOffset>;

    /// Today's civil date here.
    fn today(&self) -> NaiveDate {
        self.now().date_naive()
    }
}

/// The clock of this machine.
#[derive(Debug, Clone, Copy, Default)]
pub struct SystemClock;

impl Clock for SystemClock {
    fn now(&self) -> DateTime<FixedOffset> {
        local(SystemTime::now())
    }
}

/// A system's time at the offset that holds here. A clock may stand before 1970: a
/// phone whose battery was empty, say.
fn local(time: SystemTime) -> DateTime<FixedOffset> {
    let utc = match time.duration_since(SystemTime::UNIX_EPOCH) {
        Ok(since) => DateTime::UNIX_EPOCH.checked_add_signed(signed(since)),
        Err(before) => DateTime::UNIX_EPOCH.checked_sub_signed(signed(before.duration())),
    };
    utc.unwrap_or(DateTime::UNIX_EPOCH)
        .with_timezone(&Local)
        .fixed_offset()
}

fn signed(duration: Duration) -> TimeDelta {
    TimeDelta::from_std(duration).unwrap_or(TimeDelta::MAX)
}

/// A given date, at this machine's time of day: for the demo and for rehearsals.
#[derive(Debug, Clone, Copy)]
pub struct OnDate(pub NaiveDate);

impl Clock for OnDate {
    fn now(&self) -> DateTime<FixedOffset> {
        let now = SystemClock.now();
        let offset = *now.offset();
        let at = |time: NaiveTime| offset.from_local_datetime(&self.0.and_time(time)).single();
        // A fixed offset has every local time exactly once.
        at(now.time()).unwrap_or(now)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_clock_before_1970_or_far_ahead_is_a_time_like_any() {
        let days = |count: u64| Duration::from_secs(count * 86_400);
        let before = local(SystemTime::UNIX_EPOCH - days(2));
        assert_eq!(before.timestamp(), -2 * 86_400);
        let after = local(SystemTime::UNIX_EPOCH + days(20_000));
        assert_eq!(after.timestamp(), 20_000 * 86_400);
        // Beyond every calendar.
        local(SystemTime::UNIX_EPOCH + days(1 << 40));
    }
}
