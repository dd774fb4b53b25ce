//! Prussic acid and nitrate: cautions for forage.

use chrono::{Days, NaiveDate};
use serde::{Deserialize, Serialize};

use super::code::{Caution, Source};
use super::span::{Dates, SpanBand, Standing};
use super::{MoneyWindow, WindowKind};

/// Days to wait after a freeze: 5 to 7 in Nebraska, up to two weeks elsewhere. A
/// new freeze starts the count again.
const WAIT_LEAST: u64 = 5;
const WAIT_MOST: u64 = 14;
/// A light frost counts.
const FROST_F: f64 = 32.0;
/// Days looked back for drought, and the rain below which it is dry (common
/// practice: less than half an inch in three weeks of midsummer).
const DRY_DAYS: u64 = 21;
const DRY_IN: f64 = 0.5;

/// The last freeze behind.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct FreezePast {
    /// Its date.
    pub on: NaiveDate,
    /// First day after the shortest published wait.
    pub wait_least: NaiveDate,
    /// First day after the longest.
    pub wait_most: NaiveDate,
}

/// What in the weather behind calls for care.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct ForageRisk {
    /// The last freeze, if its longest wait is not over.
    pub freeze: Option<FreezePast>,
    /// Rain of the last three weeks, inches, where every day says.
    pub rain_three_weeks_in: Option<f64>,
    /// Less than half an inch in three weeks.
    pub dry: bool,
}

pub(super) fn prussic_acid(dates: &Dates<'_>) -> MoneyWindow {
    let risk = risk(dates);
    let span = risk.freeze.map(|freeze| SpanBand {
        earliest: freeze.on,
        from: freeze.on,
        to: freeze.wait_least,
        latest: freeze.wait_most,
    });
    MoneyWindow {
        standing: span.map_or(Standing::Ahead, |span| dates.standing(Some(span))),
        kind: WindowKind::PrussicAcid(risk),
        span,
        source: Source::PrussicAcidExtension,
        caution: Caution::TestAskVetPrussicAcid,
    }
}

pub(super) fn nitrate(dates: &Dates<'_>) -> MoneyWindow {
    let risk = risk(dates);
    let standing = if risk.dry || risk.freeze.is_some() {
        Standing::MayBeOpen
    } else {
        Standing::Ahead
    };
    MoneyWindow {
        kind: WindowKind::Nitrate(risk),
        span: None,
        standing,
        source: Source::NitratePractice,
        caution: Caution::TestAskVetNitrate,
    }
}

fn risk(dates: &Dates<'_>) -> ForageRisk {
    let as_of = dates.as_of();
    let since = |days: u64| as_of.checked_sub_days(Days::new(days)).unwrap_or(as_of);
    let last_freeze = dates
        .days_behind(since(WAIT_MOST), as_of)
        .into_iter()
        .rev()
        .find(|day| day.low_f <= FROST_F);
    let freeze = last_freeze.and_then(|day| {
        Some(FreezePast {
            on: day.date,
            wait_least: day.date.checked_add_days(Days::new(WAIT_LEAST))?,
            wait_most: day.date.checked_add_days(Days::new(WAIT_MOST))?,
        })
    });
    let days = dates.days_behind(since(DRY_DAYS - 1), as_of);
    let rain: Option<Vec<f64>> = days.iter().map(|day| day.rain_in).collect();
    let rain = rain
        .filter(|rain| rain.len() as u64 == DRY_DAYS)
        .map(|rain| rain.iter().sum::<f64>());
    ForageRisk {
        freeze,
        rain_three_weeks_in: rain,
        dry: rain.is_some_and(|rain| rain < DRY_IN),
    }
}
