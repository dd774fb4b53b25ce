//! The dates of grain moisture, from black layer on.

use chrono::NaiveDate;

use super::forecast::{EventDates, Outlook};
use super::season::Season;
use super::timing::{Event, Timing};
use super::together::Followed;
use super::why::Why;
use crate::air::EquilibriumSet;
use crate::dry_down::{
    DryDown, DryDownError, DryDownInput, DryingDay, MoisturePaths, MoistureReading, PastDays,
    RatePrior, dry_down,
};
use crate::stage::Stage;
use crate::weather::WeatherRecord;

/// A planting's dry-down: what is known today, and the courses ahead.
#[derive(Debug, Clone)]
pub struct GrainAhead {
    /// What is known today.
    pub now: DryDown,
    /// The courses ahead.
    pub paths: MoisturePaths,
}

impl Followed {
    /// Dry-down over this planting's own dates of black layer and days ahead.
    ///
    /// # Errors
    /// [`DryDownError`].
    pub fn grain_ahead(
        &self,
        weather: &WeatherRecord,
        readings: &[MoistureReading],
        prior: RatePrior,
        set: EquilibriumSet,
    ) -> Result<GrainAhead, DryDownError> {
        let timing = Timing::of_stage(&self.season, &self.track, &self.belief, Stage::BlackLayer);
        ahead(
            &self.season,
            weather,
            &timing.weights(),
            readings,
            prior,
            set,
        )
    }
}

/// Dry-down of grain of which only moisture readings are known: no planting
/// date and no walk leads to its black layer.
///
/// # Errors
/// [`DryDownError`].
pub fn grain_from_readings(
    season: &Season,
    weather: &WeatherRecord,
    readings: &[MoistureReading],
    prior: RatePrior,
    set: EquilibriumSet,
) -> Result<GrainAhead, DryDownError> {
    ahead(season, weather, &[], readings, prior, set)
}

fn ahead(
    season: &Season,
    weather: &WeatherRecord,
    black_layer: &[(NaiveDate, f64)],
    readings: &[MoistureReading],
    prior: RatePrior,
    set: EquilibriumSet,
) -> Result<GrainAhead, DryDownError> {
    let as_of = season.end();
    let past = PastDays::from_record(weather, as_of, set);
    let now = dry_down(&DryDownInput {
        as_of,
        black_layer,
        readings,
        past: &past,
        prior,
    })?;
    let ensemble = season
        .ensemble()
        .map_err(|_| DryDownError::NoWeatherAhead)?;
    let ahead: Vec<Vec<DryingDay>> = ensemble
        .members()
        .iter()
        .map(|member| {
            member
                .days
                .iter()
                .map(|day| DryingDay::from_day(day, set))
                .collect::<Result<Vec<_>, _>>()
        })
        .collect::<Result<_, _>>()
        .map_err(|_| DryDownError::NoWeatherAhead)?;
    let paths = now.paths(&ahead)?;
    Ok(GrainAhead { now, paths })
}

impl Outlook {
    /// Adds the dates of grain moisture.
    pub fn with_grain(mut self, grain: &GrainAhead, horizon: NaiveDate) -> Outlook {
        let dates = |target: f64| {
            let told = grain.paths.window(target);
            let missing = told.window.p90.is_none();
            EventDates {
                p10: told.window.p10,
                p50: told.window.p50,
                p90: told.window.p90,
                why: missing.then(|| Why::NotBefore {
                    horizon,
                    in_hundred: (100.0 * (1.0 - told.ahead)).round().clamp(0.0, 100.0) as u32,
                }),
                come: told.today,
            }
        };
        self.events.moisture_20 = dates(20.0);
        self.events.moisture_18 = dates(18.0);
        self.events.moisture_16 = dates(16.0);
        self.events.moisture_14 = dates(14.0);
        self
    }

    /// Says of every moisture why there is no date.
    pub fn without_grain(mut self, why: &Why) -> Outlook {
        for event in [
            &mut self.events.moisture_20,
            &mut self.events.moisture_18,
            &mut self.events.moisture_16,
            &mut self.events.moisture_14,
        ] {
            *event = EventDates::unknown(why.clone());
        }
        self
    }
}

impl Event {
    /// The grain moisture it waits for, percent; `None` for a stage.
    pub fn moisture(self) -> Option<f64> {
        match self {
            Event::Moisture20 => Some(20.0),
            Event::Moisture18 => Some(18.0),
            Event::Moisture16 => Some(16.0),
            Event::Moisture14 => Some(14.0),
            _ => None,
        }
    }
}
