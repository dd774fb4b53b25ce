//! Dates and windows of the plantings.

use std::collections::BTreeMap;

use chrono::{Days, NaiveDate};
use ripening::Head;
use ripening::air::EquilibriumSet;
use ripening::calendar::is_plausible;
use ripening::dry_down::Window;
use ripening::heat::HeatScale;
use ripening::outlook::{Case, Followed, Outlook, Sighting, Why, follow_together, position_fan};
use ripening::weather::{WeatherRecord, clean};
use ripening::windows::{MoneyWindow, Standing, Use, windows};
use rusqlite::Connection;
use uuid::Uuid;

use crate::live::live_planting;
use crate::rollups::is_too_large;
use crate::season::grain::{grain_of, moisture_readings};
use crate::season::heat_sets::HeatSets;
use crate::season::pages::{FortnightRow, OutlookPage, WalkPoint};
use crate::weather::chosen;
use crate::{ChosenStation, FortnightPage, Problem, Purpose, Reply, Service, read_only, settings};
use notebook::views::plantings::{self, Planting};
use notebook::views::{walks, weather};

/// Days between two points of the fan.
const FAN_STEP: usize = 2;
/// Days that "this fortnight" looks ahead.
const FORTNIGHT: u64 = 14;
/// Grain moisture below which a harvest aid may be considered, percent.
const HARVEST_AID_MOISTURE: f64 = 30.0;

/// What is needed of one planting.
pub(crate) struct Told {
    pub(crate) planting: Planting,
    station: Option<ChosenStation>,
    pub(crate) sightings: Vec<Sighting>,
}

impl Service {
    pub(crate) fn outlook(
        &mut self,
        id: Uuid,
        as_of: Option<NaiveDate>,
    ) -> Result<Reply<OutlookPage>, Problem> {
        let as_of = as_of.unwrap_or(self.notebook.clock().today());
        let db = self.notebook.db();
        let planting = live_planting(db, id)?;
        let id = planting.id;
        let mut together = vec![planting];
        let hybrid = together
            .first()
            .and_then(|planting| planting.hybrid.clone());
        if hybrid.is_some() {
            let others = plantings::all(db)?;
            together.extend(
                others
                    .into_iter()
                    .filter(|other| other.id != id && other.hybrid == hybrid),
            );
        }
        let sets = HeatSets::read(db)?;
        let told = told(db, together, as_of)?;
        let records = records(db, &told, as_of)?;
        let followed = followed(&told, &records, &sets, as_of);
        let (Some(own), Some(followed)) = (told.first(), followed.into_iter().next()) else {
            return Err(Problem::not_found("planting"));
        };
        let mut page = OutlookPage {
            planting: id,
            name: own.planting.name.clone(),
            as_of,
            station: own.station.clone(),
            heat_set: sets.of_planting(&own.planting),
            maturity: own.planting.maturity,
            hybrid: own.planting.hybrid_id,
            half_bloom_on: own.planting.half_bloom_on,
            outlook: None,
            why: None,
            fan: Vec::new(),
            walks: Vec::new(),
            weather: Vec::new(),
            windows: Vec::new(),
        };
        match followed {
            Err(why) => page.why = Some(why),
            Ok(followed) => {
                let record = own.record(&records);
                let (outlook, dry_enough) = with_grain(db, own, &followed, record)?;
                page.outlook = Some(outlook);
                page.windows = windows(&followed, own.purpose(), dry_enough.as_ref());
                page.fan = position_fan(
                    &followed.season,
                    &followed.track,
                    &followed.belief,
                    FAN_STEP,
                );
                let from = own.planting.planted_on.unwrap_or(as_of);
                page.weather =
                    record.map_or_else(Vec::new, |record| record.between(from, as_of).to_vec());
            }
        }
        page.walks = self.walk_points(id, as_of)?;
        Ok(read_only(page))
    }

    fn walk_points(&mut self, id: Uuid, as_of: NaiveDate) -> Result<Vec<WalkPoint>, Problem> {
        let settings = settings::read(self.notebook.db())?;
        let walks = walks::of_planting(self.notebook.db(), id)?;
        let answers = self
            .kept
            .of_planting(self.notebook.db(), &settings, id, &walks)?;
        Ok(walks
            .iter()
            .zip(answers)
            .filter(|(walk, _)| walk.walked_on <= as_of)
            .filter_map(|(walk, answers)| {
                Some(WalkPoint {
                    on: walk.walked_on,
                    position: answers.alone?.position,
                })
            })
            .collect())
    }

    pub(crate) fn fortnight(
        &mut self,
        as_of: Option<NaiveDate>,
    ) -> Result<Reply<FortnightPage>, Problem> {
        let as_of = as_of.unwrap_or(self.notebook.clock().today());
        let until = as_of
            .checked_add_days(Days::new(FORTNIGHT))
            .unwrap_or(as_of);
        let db = self.notebook.db();
        let sets = HeatSets::read(db)?;
        let told = told(db, plantings::all(db)?, as_of)?;
        let records = records(db, &told, as_of)?;
        let rows = told
            .iter()
            .zip(followed(&told, &records, &sets, as_of))
            .map(|(own, followed)| {
                let mut row = FortnightRow {
                    planting: own.planting.id,
                    name: own.planting.name.clone(),
                    windows: Vec::new(),
                    why: None,
                };
                match followed {
                    Err(why) => row.why = Some(why),
                    Ok(followed) => {
                        let record = own.record(&records);
                        let (_, dry_enough) = with_grain(db, own, &followed, record)?;
                        row.windows = windows(&followed, own.purpose(), dry_enough.as_ref())
                            .into_iter()
                            .filter(|window| within(window, as_of, until))
                            .collect();
                        row.windows
                            .sort_by_key(|window| window.span.map(|span| span.from));
                    }
                }
                Ok(row)
            })
            .collect::<Result<_, Problem>>()?;
        Ok(read_only(FortnightPage {
            from: as_of,
            to: until,
            rows,
        }))
    }
}

/// Whether a window may be open within the days.
fn within(window: &MoneyWindow, from: NaiveDate, to: NaiveDate) -> bool {
    match window.span {
        Some(span) => {
            // A harvest aid's window closes with the harvest only.
            let open_ended = window.standing == Standing::MayBeOpen;
            span.earliest <= to && (span.latest >= from || open_ended)
        }
        None => window.standing == Standing::MayBeOpen,
    }
}

/// The outlook with the dates of grain moisture, by the readings where there are
/// some; and when a harvest aid may be considered.
fn with_grain(
    db: &Connection,
    own: &Told,
    followed: &Followed,
    record: Option<&WeatherRecord>,
) -> Result<(Outlook, Option<Window>), Problem> {
    let outlook = followed.outlook();
    let grain = own.purpose() == Use::Grain;
    let Some(record) = record.filter(|_| grain) else {
        return Ok((outlook.without_grain(&Why::NoGrain), None));
    };
    let readings = moisture_readings(db, own.planting.id, followed.season.as_of())?;
    let found = grain_of(followed, record, &readings, EquilibriumSet::DEFAULT);
    Ok(match found {
        Ok(grain) => (
            outlook.with_grain(&grain, followed.season.horizon()),
            Some(grain.paths.window(HARVEST_AID_MOISTURE).window),
        ),
        Err(cause) => (
            outlook.without_grain(&Why::NoDryDown {
                cause: cause.to_string(),
            }),
            None,
        ),
    })
}

impl Told {
    pub(crate) fn purpose(&self) -> Use {
        match self.planting.purpose {
            Purpose::Grain | Purpose::Seed => Use::Grain,
            Purpose::Silage => Use::Forage,
        }
    }

    fn case<'a>(&'a self, records: &'a BTreeMap<String, WeatherRecord>) -> Case<'a> {
        static NOTHING: WeatherRecord = WeatherRecord::empty();
        Case {
            hybrid: self.planting.hybrid.as_deref(),
            class: self.planting.maturity,
            planted_on: self.planting.planted_on,
            sightings: self.sightings.clone(),
            weather: self.record(records).unwrap_or(&NOTHING),
        }
    }

    pub(crate) fn record<'a>(
        &self,
        records: &'a BTreeMap<String, WeatherRecord>,
    ) -> Option<&'a WeatherRecord> {
        records.get(&self.station.as_ref()?.name)
    }
}

pub(crate) fn told(
    db: &Connection,
    plantings: Vec<Planting>,
    as_of: NaiveDate,
) -> Result<Vec<Told>, Problem> {
    let stations = weather::stations(db)?;
    plantings
        .into_iter()
        .map(|planting| {
            Ok(Told {
                station: chosen(db, &planting, &stations)?,
                sightings: sightings(db, &planting, as_of)?,
                planting,
            })
        })
        .collect()
}

fn sightings(
    db: &Connection,
    planting: &Planting,
    as_of: NaiveDate,
) -> Result<Vec<Sighting>, Problem> {
    let mut sightings = Vec::new();
    for walk in walks::of_planting(db, planting.id)? {
        // The walk itself says what is wrong with it.
        let counts =
            walk.walked_on <= as_of && is_plausible(walk.walked_on) && !is_too_large(db, walk.id)?;
        if !counts {
            continue;
        }
        let stops = walks::stops(db, walk.id)?
            .into_iter()
            .map(|stop| {
                let heads = walks::heads(db, stop.id)?;
                Ok(heads.into_iter().map(|head| head.said.head).collect())
            })
            .collect::<Result<Vec<Vec<Head>>, Problem>>()?;
        sightings.extend(Sighting::of_heads(walk.walked_on, &stops));
    }
    sightings.extend(
        planting
            .half_bloom_on
            .filter(|&on| on <= as_of)
            .map(Sighting::half_bloom),
    );
    Ok(sightings)
}

/// The weather of each station used, cleaned as of the day. One that the rules
/// refuse, or that has no day, counts as no weather.
pub(crate) fn records(
    db: &Connection,
    told: &[Told],
    as_of: NaiveDate,
) -> Result<BTreeMap<String, WeatherRecord>, Problem> {
    let mut records = BTreeMap::new();
    for station in told.iter().filter_map(|told| told.station.as_ref()) {
        if records.contains_key(&station.name) {
            continue;
        }
        let rows = weather::days(db, &station.name, as_of)?;
        let record = clean(&rows, Some(as_of))
            .map_or_else(|_| WeatherRecord::default(), |cleaned| cleaned.record);
        records.insert(station.name.clone(), record);
    }
    Ok(records)
}

/// Each planting followed in the heat set that counts for it. Plantings teach each
/// other within one set only: a pace is against its own table.
pub(crate) fn followed(
    told: &[Told],
    records: &BTreeMap<String, WeatherRecord>,
    sets: &HeatSets,
    as_of: NaiveDate,
) -> Vec<Result<Followed, Why>> {
    let mut by_set: BTreeMap<String, Vec<usize>> = BTreeMap::new();
    for (place, own) in told.iter().enumerate() {
        let key = sets.of_planting(&own.planting).key;
        by_set.entry(key).or_default().push(place);
    }
    let mut all: Vec<Result<Followed, Why>> = Vec::new();
    all.resize_with(told.len(), || Err(Why::NothingToStartFrom));
    for (key, places) in by_set {
        let Some(scale) = sets.scale(&key) else {
            continue;
        };
        let cases: Vec<Case<'_>> = places
            .iter()
            .filter_map(|&place| told.get(place))
            .map(|own| own.case(records))
            .collect();
        let done = follow_together(scale, as_of, &cases);
        for (place, followed) in places.into_iter().zip(done) {
            if let Some(slot) = all.get_mut(place) {
                *slot = followed;
            }
        }
    }
    all
}

/// Each planting followed in this set by itself, as if no other were known.
pub(crate) fn followed_alone(
    told: &[Told],
    records: &BTreeMap<String, WeatherRecord>,
    scale: &HeatScale,
    as_of: NaiveDate,
) -> Vec<Result<Followed, Why>> {
    let cases: Vec<Case<'_>> = told
        .iter()
        .map(|own| Case {
            hybrid: None,
            ..own.case(records)
        })
        .collect();
    follow_together(scale, as_of, &cases)
}
