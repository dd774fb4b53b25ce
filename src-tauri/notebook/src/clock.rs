//! Where the time comes from: always a parameter, so that tests, simulations
//! and the demo can set it.

use std::time::{Duration, SystemTime};

use chrono::{DateTime, FixedOffset, Local, NaiveDate, NaiveTime, TimeDelta, TimeZone};

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
