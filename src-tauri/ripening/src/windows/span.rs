//! When a window opens and closes, and what the weather was within it.

use chrono::{Days, NaiveDate};
use serde::{Deserialize, Serialize};

use crate::outlook::{Followed, Freezes, Timing};
use crate::stage::Stage;
use crate::weather::Day;

/// A window in time whose ends are guesses: likely open from `from` to `to`, and
/// not before `earliest` or after `latest` with 90 chances in 100 each.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct SpanBand {
    /// P10 of the opening.
    pub earliest: NaiveDate,
    /// P50 of the opening.
    pub from: NaiveDate,
    /// P50 of the closing.
    pub to: NaiveDate,
    /// P90 of the closing.
    pub latest: NaiveDate,
}

/// Where a window stands on the day of the outlook.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum Standing {
    /// It has not opened with 90 chances in 100.
    Ahead,
    /// It may be open.
    MayBeOpen,
    /// It is over with 90 chances in 100.
    Past,
    /// The dates cannot be said.
    Unknown,
}

/// A planting's stage dates, asked for as windows.
pub(super) struct Dates<'a> {
    followed: &'a Followed,
}

impl<'a> Dates<'a> {
    pub(super) fn of(followed: &'a Followed) -> Dates<'a> {
        Dates { followed }
    }

    pub(super) fn as_of(&self) -> NaiveDate {
        self.followed.season.as_of()
    }

    pub(super) fn timing(&self, stage: Stage) -> Timing {
        let Followed {
            season,
            track,
            belief,
            ..
        } = self.followed;
        Timing::of_stage(season, track, belief, stage)
    }

    pub(super) fn freezes(&self) -> Option<Freezes> {
        let Followed {
            season,
            track,
            belief,
            ..
        } = self.followed;
        Freezes::of(season, track, belief)
    }

    /// From one stage, moved by days, to another.
    pub(super) fn between(
        &self,
        (opens, opens_by): (Stage, i64),
        (closes, closes_by): (Stage, i64),
    ) -> Option<SpanBand> {
        let opening = self.timing(opens);
        let closing = self.timing(closes);
        let date = |timing: &Timing, p: f64, by: i64| {
            timing.quantile(p).ok().and_then(|date| moved(date, by))
        };
        Some(SpanBand {
            earliest: date(&opening, 0.1, opens_by)?,
            from: date(&opening, 0.5, opens_by)?,
            to: date(&closing, 0.5, closes_by)?,
            latest: date(&closing, 0.9, closes_by)?,
        })
    }

    pub(super) fn standing(&self, span: Option<SpanBand>) -> Standing {
        let as_of = self.as_of();
        match span {
            None => Standing::Unknown,
            Some(span) if as_of < span.earliest => Standing::Ahead,
            Some(span) if as_of > span.latest => Standing::Past,
            Some(_) => Standing::MayBeOpen,
        }
    }

    /// Days with weather of their own, behind, within a span.
    pub(super) fn days_behind(&self, from: NaiveDate, to: NaiveDate) -> Vec<Day> {
        let known_until = self.followed.season.known_until();
        self.followed
            .season
            .days()
            .iter()
            .filter(|day| day.date >= from && day.date <= to && day.date <= known_until)
            .copied()
            .collect()
    }

    /// Share of the seasons ahead in which `what` is so of the days of a span that
    /// lie ahead (with the days behind before them). `None` when no day lies ahead
    /// or there are no seasons.
    pub(super) fn chance_ahead(
        &self,
        from: NaiveDate,
        to: NaiveDate,
        what: impl Fn(&[Day]) -> bool,
    ) -> Option<f64> {
        let ensemble = self.followed.season.ensemble().ok()?;
        if to < ensemble.from() {
            return None;
        }
        let behind = self.days_behind(from, to);
        let members = ensemble.members();
        let so = members
            .iter()
            .filter(|member| {
                let mut days = behind.clone();
                days.extend(
                    member
                        .days
                        .iter()
                        .filter(|day| day.date >= from && day.date <= to),
                );
                what(&days)
            })
            .count();
        Some(so as f64 / members.len() as f64)
    }
}

fn moved(date: NaiveDate, by: i64) -> Option<NaiveDate> {
    let days = Days::new(by.unsigned_abs());
    if by < 0 {
        date.checked_sub_days(days)
    } else {
        date.checked_add_days(days)
    }
}
