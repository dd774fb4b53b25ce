//! The outlook of one planting.

use chrono::NaiveDate;
use serde::{Deserialize, Serialize};

use super::freeze::Freezes;
use super::pace::PaceBelief;
use super::season::Season;
use super::timing::{Event, Timing};
use super::track::Track;
use super::why::Why;
use crate::Band;
use crate::weather::EnsembleMaking;

/// Level of the pace band of an outlook: the same as P10 to P90.
pub(super) const LEVEL: f64 = 0.8;

/// Dates of everything that can be said, and what they rest on.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct Outlook {
    /// The day it is made for; nothing later has any influence.
    pub as_of: NaiveDate,
    /// Dates by event.
    pub events: PerEvent<EventDates>,
    /// The planting's pace against the published tables, P10 to P90; 1.05 needs
    /// 5 % less heat.
    pub pace: Band,
    /// Freezes against black layer; `None` without days ahead.
    pub freezes: Option<Freezes>,
    /// What it rests on.
    pub rests_on: RestsOn,
}

/// One event's dates. A missing date has its reason.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct EventDates {
    /// It has come by this day's evening with 10 chances in 100.
    pub p10: Option<NaiveDate>,
    /// With 50 in 100.
    pub p50: Option<NaiveDate>,
    /// With 90 in 100.
    pub p90: Option<NaiveDate>,
    /// Why one of them is missing.
    pub why: Option<Why>,
    /// Chance (0-1) that it has come by the evening of the day of the outlook.
    pub come: f64,
}

/// What an outlook rests on, in sight of the user.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct RestsOn {
    /// Walks (and noted dates of half bloom) used.
    #[cfg_attr(feature = "ts", ts(type = "number"))]
    pub sightings: usize,
    /// Other plantings of the hybrid that its pace was learned from.
    #[cfg_attr(feature = "ts", ts(type = "number"))]
    pub plantings_of_hybrid: usize,
    /// First day of weather without a gap up to now.
    pub weather_from: NaiveDate,
    /// Last day of weather.
    pub weather_until: NaiveDate,
    /// Days of it filled by rule.
    #[cfg_attr(feature = "ts", ts(type = "number"))]
    pub filled_days: usize,
    /// How the days ahead were made; `None` without days ahead.
    pub days_ahead: Option<EnsembleMaking>,
}

/// One value for each event.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct PerEvent<T> {
    /// Value for [`Event::HalfBloom`].
    pub half_bloom: T,
    /// Value for [`Event::Milk`].
    pub milk: T,
    /// Value for [`Event::SoftDough`].
    pub soft_dough: T,
    /// Value for [`Event::HardDough`].
    pub hard_dough: T,
    /// Value for [`Event::BlackLayer`].
    pub black_layer: T,
    /// Value for [`Event::Moisture20`].
    pub moisture_20: T,
    /// Value for [`Event::Moisture18`].
    pub moisture_18: T,
    /// Value for [`Event::Moisture16`].
    pub moisture_16: T,
    /// Value for [`Event::Moisture14`].
    pub moisture_14: T,
}

impl<T> PerEvent<T> {
    /// Builds the values by calling `make` for each event in order.
    pub fn from_fn(mut make: impl FnMut(Event) -> T) -> Self {
        PerEvent {
            half_bloom: make(Event::HalfBloom),
            milk: make(Event::Milk),
            soft_dough: make(Event::SoftDough),
            hard_dough: make(Event::HardDough),
            black_layer: make(Event::BlackLayer),
            moisture_20: make(Event::Moisture20),
            moisture_18: make(Event::Moisture18),
            moisture_16: make(Event::Moisture16),
            moisture_14: make(Event::Moisture14),
        }
    }

    /// The value for one event.
    pub fn get(&self, event: Event) -> &T {
        match event {
            Event::HalfBloom => &self.half_bloom,
            Event::Milk => &self.milk,
            Event::SoftDough => &self.soft_dough,
            Event::HardDough => &self.hard_dough,
            Event::BlackLayer => &self.black_layer,
            Event::Moisture20 => &self.moisture_20,
            Event::Moisture18 => &self.moisture_18,
            Event::Moisture16 => &self.moisture_16,
            Event::Moisture14 => &self.moisture_14,
        }
    }
}

impl EventDates {
    /// No date at all.
    pub fn unknown(why: Why) -> EventDates {
        EventDates {
            p10: None,
            p50: None,
            p90: None,
            why: Some(why),
            come: 0.0,
        }
    }

    /// From the chances day by day.
    pub fn of(timing: &Timing, as_of: NaiveDate) -> EventDates {
        let mut why = None;
        let mut date = |p: f64| match timing.quantile(p) {
            Ok(date) => Some(date),
            Err(cause) => {
                why = Some(cause);
                None
            }
        };
        let (p10, p50, p90) = (date(0.1), date(0.5), date(0.9));
        EventDates {
            p10,
            p50,
            p90,
            why,
            come: timing.chance_by(as_of).unwrap_or(0.0),
        }
    }
}

/// The outlook of a tracked planting. Grain moisture is added by whoever
/// forecasts it; until then it is missing with [`Why::NoGrain`].
pub fn outlook(season: &Season, track: &Track, belief: &PaceBelief) -> Outlook {
    let events = PerEvent::from_fn(|event| match event.stage() {
        Some(stage) => EventDates::of(
            &Timing::of_stage(season, track, belief, stage),
            season.as_of(),
        ),
        None => EventDates::unknown(Why::NoGrain),
    });
    Outlook {
        as_of: season.as_of(),
        events,
        pace: track.pace(belief, LEVEL),
        freezes: Freezes::of(season, track, belief),
        rests_on: RestsOn {
            sightings: track.sightings(),
            plantings_of_hybrid: belief.plantings(),
            weather_from: season.unbroken_from(),
            weather_until: season.known_until(),
            filled_days: season.filled_days(),
            days_ahead: season.ensemble().ok().map(|ensemble| ensemble.making()),
        },
    }
}
