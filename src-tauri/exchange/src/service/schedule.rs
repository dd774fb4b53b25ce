//! When to try by itself: a pure reckoning.
//!
//! Without signal is the normal state, so a failed try is no trouble; tries grow
//! rarer, and nothing is tried at all while nothing waits and nobody looks.

/// After the last tap of a row: the taps of a stop go together.
const SETTLE: i64 = 20_000;
/// But a row that does not end does not wait longer than this.
const SETTLE_MOST: i64 = 120_000;
/// First wait after a failure; each further one doubles it.
const FIRST_WAIT: i64 = 15_000;
/// Longest wait after a failure.
const MOST_WAIT: i64 = 15 * 60_000;
/// A stop by hand counts as so many failures.
const AFTER_STOP: u32 = 5;
/// Others may have given something new while somebody looks at the screen.
const LOOK: i64 = 5 * 60_000;
/// Somebody who asked within this time is taken to look.
const LOOKING: i64 = 2 * 60_000;
/// After the signal came back: the phones of a crew at one gate do not all come
/// at the same instant.
const SIGNAL: i64 = 1_000;
const SIGNAL_SPREAD: f64 = 4_000.0;

/// What the next try is planned from; instants in milliseconds since 1970.
#[derive(Debug, Clone, Default, PartialEq)]
pub(super) struct Situation {
    /// Somebody pressed the button.
    pub asked: bool,
    /// The earliest and latest change here since the last try.
    pub first_change: Option<i64>,
    pub last_change: Option<i64>,
    /// When the signal came back, since the last try.
    pub signal_at: Option<i64>,
    /// The platform said that there is no network.
    pub offline: bool,
    /// When the state was last asked for.
    pub looked_at: Option<i64>,
    /// When the last try ended.
    pub tried_at: Option<i64>,
    /// Failed tries in a row.
    pub failures: u32,
    /// The last failure was one that no waiting mends.
    pub halted: bool,
    /// Drawn anew for each try, 0-1.
    pub chance: f64,
}

/// When to try next.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Next {
    /// At this time, which may be past.
    At(i64),
    /// Not before something happens.
    Never,
}

impl Situation {
    /// The platform's word about the network.
    pub(super) fn signal(&mut self, online: bool, now: i64) {
        if online && self.offline {
            self.signal_at = Some(now);
        }
        self.offline = !online;
    }

    /// A crew was joined or left.
    pub(super) fn begin_anew(&mut self) {
        *self = Self {
            asked: true,
            offline: self.offline,
            looked_at: self.looked_at,
            chance: self.chance,
            ..Self::default()
        };
    }

    /// A try ended.
    pub(super) fn tried(&mut self, now: i64, outcome: Outcome, chance: f64) {
        self.asked = false;
        self.signal_at = None;
        self.tried_at = Some(now);
        self.chance = chance;
        match outcome {
            Outcome::Done => {
                self.first_change = None;
                self.last_change = None;
                self.failures = 0;
                self.halted = false;
            }
            Outcome::Later => self.failures = self.failures.saturating_add(1),
            Outcome::Rest => self.failures = self.failures.max(AFTER_STOP),
            Outcome::Halted => self.halted = true,
        }
    }

    /// When to try next, given whether this device is in a crew and something waits.
    pub(super) fn next(&self, in_crew: bool, waits: bool) -> Next {
        if !in_crew {
            return Next::Never;
        }
        if self.asked {
            return Next::At(i64::MIN);
        }
        if self.halted {
            return Next::Never;
        }
        if let Some(at) = self.signal_at {
            return Next::At(at + SIGNAL + share(SIGNAL_SPREAD, self.chance));
        }
        let looking = self.looked_at.is_some_and(|at| {
            self.tried_at
                .is_none_or(|tried| at.saturating_add(LOOKING) >= tried.saturating_add(LOOK / 2))
        });
        let Some(tried) = self.tried_at else {
            return if waits || looking {
                Next::At(i64::MIN)
            } else {
                Next::Never
            };
        };
        if self.failures > 0 || self.offline {
            if !waits && !looking {
                return Next::Never;
            }
            let doubled = FIRST_WAIT << self.failures.saturating_sub(1).min(6);
            let wait = if self.offline {
                MOST_WAIT
            } else {
                doubled.min(MOST_WAIT)
            };
            return Next::At(tried + wait / 2 + share(wait as f64 / 2.0, self.chance));
        }
        if waits {
            let settled = match (self.first_change, self.last_change) {
                (Some(first), Some(last)) => (last + SETTLE).min(first + SETTLE_MOST),
                // By another program on the same notebook, or what the hub would
                // not have.
                _ => tried + LOOK,
            };
            return Next::At(settled);
        }
        if looking {
            return Next::At(tried + LOOK / 2 + share(LOOK as f64, self.chance));
        }
        Next::Never
    }
}

/// How a try ended.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Outcome {
    /// Well.
    Done,
    /// Not, and a later try may end better.
    Later,
    /// Stopped by hand: the next try is not at once.
    Rest,
    /// Not, and somebody has to do something.
    Halted,
}

#[allow(clippy::cast_possible_truncation)] // minutes, in milliseconds
fn share(of: f64, chance: f64) -> i64 {
    (of * chance) as i64
}

#[cfg(test)]
mod tests {
    use super::*;

    const NOW: i64 = 1_787_238_000_000;

    fn tried() -> Situation {
        let mut told = Situation::default();
        told.tried(NOW, Outcome::Done, 0.5);
        told
    }

    #[test]
    fn nothing_waits_and_nobody_looks_then_nothing_is_tried() {
        assert_eq!(tried().next(true, false), Next::Never);
        assert_eq!(Situation::default().next(true, false), Next::Never);
    }

    #[test]
    fn outside_a_crew_not_even_by_hand() {
        let told = Situation {
            asked: true,
            ..Situation::default()
        };
        assert_eq!(told.next(false, true), Next::Never);
    }

    #[test]
    fn the_taps_of_a_row_go_together_but_do_not_wait_for_ever() {
        let mut told = tried();
        (told.first_change, told.last_change) = (Some(NOW + 1_000), Some(NOW + 9_000));
        assert_eq!(told.next(true, true), Next::At(NOW + 9_000 + SETTLE));
        told.last_change = Some(NOW + 500_000);
        assert_eq!(told.next(true, true), Next::At(NOW + 1_000 + SETTLE_MOST));
    }

    #[test]
    fn failures_make_tries_rarer_with_jitter_and_a_bound() {
        let mut told = tried();
        let mut waits = Vec::new();
        for _ in 0..12 {
            told.tried(NOW, Outcome::Later, 1.0);
            let Next::At(at) = told.next(true, true) else {
                panic!("it must go on");
            };
            waits.push(at - NOW);
        }
        assert!(waits.is_sorted(), "{waits:?}");
        assert_eq!(waits.first(), Some(&FIRST_WAIT));
        assert_eq!(waits.last(), Some(&MOST_WAIT));
        told.tried(NOW, Outcome::Later, 0.0);
        assert_eq!(told.next(true, true), Next::At(NOW + MOST_WAIT / 2));
        assert_eq!(told.next(true, false), Next::Never, "nothing waits");
    }

    #[test]
    fn the_signal_comes_back_and_a_try_follows_within_seconds() {
        let mut told = tried();
        for _ in 0..12 {
            told.tried(NOW, Outcome::Later, 0.5);
        }
        told.signal(false, NOW);
        told.signal(true, NOW + 5_000);
        let Next::At(at) = told.next(true, true) else {
            panic!("it must go on");
        };
        assert!((NOW + 6_000..NOW + 10_000).contains(&at));
        told.tried(NOW + 10_000, Outcome::Done, 0.5);
        told.signal(true, NOW + 11_000);
        assert_eq!(told.signal_at, None, "it was there all the time");
    }

    #[test]
    fn a_trouble_that_no_waiting_mends_waits_for_a_hand() {
        let mut told = tried();
        told.tried(NOW, Outcome::Halted, 0.5);
        (told.first_change, told.last_change) = (Some(NOW), Some(NOW));
        assert_eq!(told.next(true, true), Next::Never);
        told.asked = true;
        assert_eq!(told.next(true, true), Next::At(i64::MIN));
    }

    #[test]
    fn while_somebody_looks_the_hub_is_asked_now_and_then() {
        let mut told = tried();
        told.looked_at = Some(NOW + LOOK);
        let Next::At(at) = told.next(true, false) else {
            panic!("it must look");
        };
        assert!((NOW + LOOK / 2..=NOW + 2 * LOOK).contains(&at));
    }
}
