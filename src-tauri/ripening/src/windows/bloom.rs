//! Heat and rain over bloom, dated from the heads.

use serde::{Deserialize, Serialize};

use super::boot::count;
use super::code::{Caution, Source};
use super::span::Dates;
use super::{MoneyWindow, WindowKind};
use crate::stage::Stage;

/// Heat strikes from ten days before bloom to five days after it.
const DAYS_BEFORE: i64 = -10;
const DAYS_AFTER: i64 = 5;
/// Mean of the day above which fertility falls at panicle emergence (25 C).
const WARM_MEAN_F: f64 = 77.0;
/// Highs above which seed set is cut: 36 to 38 C.
const HOT_HIGH_F: f64 = 96.8;
const VERY_HOT_HIGH_F: f64 = 100.4;
/// Rain that counts as a wet day, inches (0.01 is the least that is measured).
const WET_IN: f64 = 0.01;
/// Hot days that make the window worth a look (no published number: any).
const ANY: u32 = 1;

/// What the days over bloom were, and may still be.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct BloomWeather {
    /// Days of the window behind.
    pub days: u32,
    /// Of these, with a mean above 25 C (77 F).
    pub warm_days: u32,
    /// With a high above 36 C (96.8 F).
    pub hot_days: u32,
    /// With a high above 38 C (100.4 F).
    pub very_hot_days: u32,
    /// Highest, deg F.
    pub highest_f: Option<f64>,
    /// Rain, inches; `None` when no day says.
    pub rain_in: Option<f64>,
    /// Days with rain.
    pub wet_days: u32,
    /// Days of which the rain is not known.
    pub rain_unknown: u32,
    /// Chance that at least one more high above 38 C comes within the window or
    /// has come; `None` when it is over or the days ahead cannot be told.
    pub chance_of_very_hot: Option<f64>,
}

pub(super) fn window(dates: &Dates<'_>) -> MoneyWindow {
    let span = dates.between(
        (Stage::HalfBloom, DAYS_BEFORE),
        (Stage::HalfBloom, DAYS_AFTER),
    );
    let found = span.map(|span| {
        let days = dates.days_behind(span.from, span.to);
        let rain: Vec<f64> = days.iter().filter_map(|day| day.rain_in).collect();
        BloomWeather {
            days: count(&days, |_| true),
            warm_days: count(&days, |day| day.mean_f() > WARM_MEAN_F),
            hot_days: count(&days, |day| day.high_f > HOT_HIGH_F),
            very_hot_days: count(&days, |day| day.high_f > VERY_HOT_HIGH_F),
            highest_f: days.iter().map(|day| day.high_f).reduce(f64::max),
            rain_in: (!rain.is_empty()).then(|| rain.iter().sum()),
            wet_days: rain.iter().filter(|&&rain| rain >= WET_IN).count() as u32,
            rain_unknown: count(&days, |day| day.rain_in.is_none()),
            chance_of_very_hot: dates.chance_ahead(span.from, span.to, |days| {
                count(days, |day| day.high_f > VERY_HOT_HIGH_F) >= ANY
            }),
        }
    });
    MoneyWindow {
        kind: WindowKind::BloomWeather(found.unwrap_or(BloomWeather {
            days: 0,
            warm_days: 0,
            hot_days: 0,
            very_hot_days: 0,
            highest_f: None,
            rain_in: None,
            wet_days: 0,
            rain_unknown: 0,
            chance_of_very_hot: None,
        })),
        standing: dates.standing(span),
        span,
        source: Source::BloomHeat,
        caution: Caution::RainShownNoLossClaimed,
    }
}
