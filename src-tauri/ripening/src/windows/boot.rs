//! Cold nights at boot: pollen is made then, and cold makes it sterile.

use serde::{Deserialize, Serialize};

use super::code::{Caution, Source};
use super::span::Dates;
use super::{MoneyWindow, WindowKind};
use crate::stage::Stage;
use crate::weather::Day;

/// Nights of the warmer published threshold, 13 C (Downes & Marshall 1971).
const COOL_NIGHT_F: f64 = 55.4;
/// Days of the same, 18 C.
const COOL_DAY_F: f64 = 64.4;
/// Nights of the colder one, 10 C (Brooking 1976).
const COLD_NIGHT_F: f64 = 50.0;
/// Nights in a row in both.
const NIGHTS: usize = 5;

/// What the nights at boot were, and may still be.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct BootNights {
    /// Nights of the window behind.
    pub nights: u32,
    /// Of these, at or below 10 C (50 F).
    pub cold_nights: u32,
    /// Most in a row at or below 10 C; five made lines sterile.
    pub cold_in_a_row: u32,
    /// Most days in a row at or below 18 C by day and 13 C by night; five made
    /// most lines sterile.
    pub cool_days_in_a_row: u32,
    /// Lowest night, deg F.
    pub lowest_f: Option<f64>,
    /// Chance that five in a row of either kind come by the end of the window;
    /// `None` when it is over or the days ahead cannot be told.
    pub chance_of_five: Option<f64>,
}

pub(super) fn window(dates: &Dates<'_>) -> MoneyWindow {
    let span = dates.between((Stage::Boot, 0), (Stage::Heading, 0));
    let found = span.map(|span| {
        let days = dates.days_behind(span.earliest, span.latest);
        BootNights {
            nights: count(&days, |_| true),
            cold_nights: count(&days, cold),
            cold_in_a_row: in_a_row(&days, cold),
            cool_days_in_a_row: in_a_row(&days, cool),
            lowest_f: days.iter().map(|day| day.low_f).reduce(f64::min),
            chance_of_five: dates.chance_ahead(span.earliest, span.latest, |days| {
                let five = NIGHTS as u32;
                in_a_row(days, cold) >= five || in_a_row(days, cool) >= five
            }),
        }
    });
    MoneyWindow {
        kind: WindowKind::BootNights(found.unwrap_or(BootNights {
            nights: 0,
            cold_nights: 0,
            cold_in_a_row: 0,
            cool_days_in_a_row: 0,
            lowest_f: None,
            chance_of_five: None,
        })),
        standing: dates.standing(span),
        span,
        source: Source::ColdSterility,
        caution: Caution::LinesDifferInCold,
    }
}

fn cold(day: &Day) -> bool {
    day.low_f <= COLD_NIGHT_F
}

fn cool(day: &Day) -> bool {
    day.low_f <= COOL_NIGHT_F && day.high_f <= COOL_DAY_F
}

pub(super) fn count(days: &[Day], what: impl Fn(&Day) -> bool) -> u32 {
    days.iter().filter(|day| what(day)).count() as u32
}

fn in_a_row(days: &[Day], what: impl Fn(&Day) -> bool) -> u32 {
    let mut longest = 0;
    let mut now = 0;
    for day in days {
        now = if what(day) { now + 1 } else { 0 };
        longest = longest.max(now);
    }
    longest
}
