//! A planting's ripe grain as far as it is known on a day. Following it takes a
//! good part of a second, so the last one is kept for as long as nothing under
//! it changes: the sliders ask for its money alone.

use std::collections::BTreeMap;
use std::sync::Arc;

use chrono::NaiveDate;
use ripening::air::EquilibriumSet;
use ripening::dry_down::MoisturePaths;
use ripening::heat::us_50_100;
use ripening::outlook::{Followed, GrainAhead, Season, Why, grain_from_readings};
use ripening::weather::WeatherRecord;
use ripening::windows::Use;
use rusqlite::Connection;
use uuid::Uuid;

use super::dry_down::looked_ahead;
use super::terms::Terms;
use crate::live::live_planting;
use crate::season::grain::{grain_of, moisture_readings};
use crate::season::heat_sets::HeatSets;
use crate::season::outlook::{Told, followed, records, told};
use crate::{Area, Problem, Service};
use notebook::views::harvest;
use notebook::views::plantings::{self, Planting};

/// Acres in a hectare.
const ACRES_PER_HECTARE: f64 = 2.471_053_8;
/// Acres reckoned with where a planting has no area (our assumption).
const ACRES_ASSUMED: f64 = 40.0;

/// What is known of a planting's grain.
pub(super) struct Known {
    pub planting: Planting,
    /// The day it is told for.
    pub as_of: NaiveDate,
    /// Whether its own season ended before the day asked for.
    pub over: bool,
    /// When it was cut.
    pub cut_on: Option<NaiveDate>,
    /// The courses ahead, with the weather they rest on.
    pub grain: Result<GrainAhead, Why>,
    followed: Option<Followed>,
    record: Option<WeatherRecord>,
}

/// The last one asked for, and its terms.
#[derive(Default)]
pub(crate) struct KeptGrain {
    known: Option<(Uuid, NaiveDate, Arc<Known>)>,
    terms: Option<(Uuid, Arc<Terms>)>,
    /// The courses as far as money is weighed over them, by the target.
    paths: Option<(Uuid, NaiveDate, f64, Arc<MoisturePaths>)>,
}

impl KeptGrain {
    /// Drops the terms, after some were set.
    pub(crate) fn forget_terms(&mut self) {
        self.terms = None;
    }
}

impl Known {
    fn of(
        db: &Connection,
        told: &Told,
        followed: Result<Followed, Why>,
        record: Option<&WeatherRecord>,
        as_of: NaiveDate,
    ) -> Result<Known, Problem> {
        let planting = told.planting.clone();
        let grain = if told.purpose() == Use::Forage {
            Err(Why::NoGrain)
        } else {
            grain_ahead(db, planting.id, &followed, record, as_of)?
        };
        let until = followed
            .as_ref()
            .map_or(as_of, |followed| followed.season.as_of());
        Ok(Known {
            cut_on: harvest::cut_on(db, planting.id, as_of)?,
            planting,
            as_of: grain.as_ref().map_or(until, |grain| grain.paths.as_of()),
            over: until < as_of,
            grain,
            followed: followed.ok(),
            record: record.cloned(),
        })
    }

    /// The same courses by other constants of equilibrium.
    pub(super) fn by(
        &self,
        db: &Connection,
        set: EquilibriumSet,
    ) -> Result<Option<GrainAhead>, Problem> {
        let (Some(followed), Some(record), Ok(_)) = (&self.followed, &self.record, &self.grain)
        else {
            return Ok(None);
        };
        let readings = moisture_readings(db, self.planting.id, self.as_of)?;
        Ok(grain_of(followed, record, &readings, set).ok())
    }

    /// Acres, and whether they had to be assumed.
    pub(super) fn acres(&self) -> (f64, bool) {
        match self.planting.area {
            Some(Area::Acres(acres)) => (acres.clamp(0.01, 100_000.0), false),
            Some(Area::Hectares(hectares)) => {
                ((hectares * ACRES_PER_HECTARE).clamp(0.01, 100_000.0), false)
            }
            None => (ACRES_ASSUMED, true),
        }
    }
}

/// The courses ahead; where neither planting date nor walk leads to now, from
/// the readings alone.
fn grain_ahead(
    db: &Connection,
    planting: Uuid,
    followed: &Result<Followed, Why>,
    record: Option<&WeatherRecord>,
    as_of: NaiveDate,
) -> Result<Result<GrainAhead, Why>, Problem> {
    let set = EquilibriumSet::DEFAULT;
    let readings = moisture_readings(db, planting, as_of)?;
    let Some(record) = record else {
        return Ok(Err(followed
            .as_ref()
            .err()
            .cloned()
            .unwrap_or(Why::NoWeather)));
    };
    Ok(match followed {
        Ok(followed) => {
            grain_of(followed, record, &readings, set).map_err(|cause| Why::NoDryDown {
                cause: cause.to_string(),
            })
        }
        Err(why) if readings.is_empty() => Err(why.clone()),
        Err(why) => Season::new(&us_50_100(), record, as_of)
            .ok()
            .and_then(|season| {
                grain_from_readings(&season, record, &readings, Default::default(), set).ok()
            })
            .ok_or_else(|| why.clone()),
    })
}

/// All plantings, each with what is known of its grain, through `take`: one
/// after the other, because the courses of a planting take megabytes.
pub(super) fn each(
    db: &Connection,
    as_of: NaiveDate,
    mut take: impl FnMut(Known) -> Result<(), Problem>,
) -> Result<(), Problem> {
    let told = told(db, plantings::all(db)?, as_of)?;
    let records = records(db, &told, as_of)?;
    for (own, followed) in told
        .iter()
        .zip(followed(&told, &records, &HeatSets::read(db)?, as_of))
    {
        let record = own.record(&records);
        take(Known::of(db, own, followed, record, as_of)?)?;
    }
    Ok(())
}

impl Service {
    /// What is known of one planting's grain.
    pub(super) fn known(
        &mut self,
        id: Uuid,
        as_of: Option<NaiveDate>,
    ) -> Result<Arc<Known>, Problem> {
        let as_of = as_of.unwrap_or(self.notebook.clock().today());
        let db = self.notebook.db();
        if let Some((planting, day, known)) = &self.grain.known
            && (*planting, *day) == (id, as_of)
        {
            return Ok(known.clone());
        }
        let planting = live_planting(db, id)?;
        let mut together = vec![planting];
        let hybrid = together.first().and_then(|first| first.hybrid.clone());
        if hybrid.is_some() {
            together.extend(
                plantings::all(db)?
                    .into_iter()
                    .filter(|other| other.id != id && other.hybrid == hybrid),
            );
        }
        let told = told(db, together, as_of)?;
        let records: BTreeMap<String, WeatherRecord> = records(db, &told, as_of)?;
        let followed = followed(&told, &records, &HeatSets::read(db)?, as_of)
            .into_iter()
            .next();
        let (Some(own), Some(followed)) = (told.first(), followed) else {
            return Err(Problem::not_found("planting"));
        };
        let known = Known::of(db, own, followed, own.record(&records), as_of)?;
        let known = Arc::new(known);
        self.grain.known = Some((id, as_of, known.clone()));
        Ok(known)
    }

    /// Its courses as far as money is weighed over them, kept beside it.
    pub(super) fn kept_paths(&mut self, known: &Known, target: f64) -> Option<Arc<MoisturePaths>> {
        let grain = known.grain.as_ref().ok()?;
        let (id, as_of) = (known.planting.id, known.as_of);
        if let Some((planting, day, of, paths)) = &self.grain.paths
            && (*planting, *day) == (id, as_of)
            && *of == target
        {
            return Some(paths.clone());
        }
        let paths = Arc::new(looked_ahead(&grain.paths, target));
        self.grain.paths = Some((id, as_of, target, paths.clone()));
        Some(paths)
    }

    /// Its terms, kept beside it.
    pub(super) fn kept_terms(&mut self, planting: &Planting) -> Result<Arc<Terms>, Problem> {
        if let Some((id, terms)) = &self.grain.terms
            && *id == planting.id
        {
            return Ok(terms.clone());
        }
        let terms = Arc::new(self.terms_of(planting)?);
        self.grain.terms = Some((planting.id, terms.clone()));
        Ok(terms)
    }
}
