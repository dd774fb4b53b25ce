//! Where the time comes from: always a parameter, so that tests, simulations
//! and the demo can set it.

use chrono::{DateTime, FixedOffset, Local, NaiveDate, NaiveTime, TimeZone};

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
        Local::now().fixed_offset()
    }
}

/// A given date, at this machine's time of day: for the demo and for rehearsals.
#[derive(Debug, Clone, Copy)]
pub struct OnDate(pub NaiveDate);

impl Clock for OnDate {
    fn now(&self) -> DateTime<FixedOffset> {
        let now = Local::now().fixed_offset();
        let offset = *now.offset();
        let at = |time: NaiveTime| offset.from_local_datetime(&self.0.and_time(time)).single();
        // A fixed offset has every local time exactly once.
        at(now.time()).unwrap_or(now)
    }
}
