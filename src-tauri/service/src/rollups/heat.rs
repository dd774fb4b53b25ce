//! What moves a planting from walk to walk: the weather of its station where
//! there is some, days otherwise.

use std::collections::BTreeMap;
use std::fmt;

use chrono::{Datelike as _, NaiveDate};
use ripening::heat::{HeatScale, us_50_100};
use ripening::rollup::HeatMoved;
use ripening::weather::{WeatherRecord, clean};
use rusqlite::Connection;
use sha2::{Digest as _, Sha256};
use uuid::Uuid;

use crate::Problem;
use notebook::views::plantings::{self, Planting};
use notebook::views::walks::Walk;
use notebook::views::weather::{EVER, Station, days, stations};

/// Stations and their records, each read once.
pub(super) struct KnownWeather {
    scale: HeatScale,
    stations: Option<Vec<Station>>,
    /// By station; none where it has no day, or none that the rules let stand.
    records: BTreeMap<String, Option<WeatherRecord>>,
}

impl Default for KnownWeather {
    fn default() -> KnownWeather {
        KnownWeather {
            scale: us_50_100(),
            stations: None,
            records: BTreeMap::new(),
        }
    }
}

impl KnownWeather {
    /// Reads the weather that the history of these walks stands on; answers with
    /// the station. A planting walked once has no history.
    pub(super) fn station(
        &mut self,
        db: &Connection,
        planting: Uuid,
        walks: &[Walk],
    ) -> Result<Option<String>, Problem> {
        if walks.len() < 2 {
            return Ok(None);
        }
        match plantings::one(db, planting)? {
            Some(planting) => self.station_of(db, &planting, walks),
            None => Ok(None),
        }
    }

    /// The same for a planting read before.
    pub(super) fn station_of(
        &mut self,
        db: &Connection,
        planting: &Planting,
        walks: &[Walk],
    ) -> Result<Option<String>, Problem> {
        if walks.len() < 2 {
            return Ok(None);
        }
        let stations = match &self.stations {
            Some(stations) => stations,
            None => self.stations.insert(stations(db)?),
        };
        let Some(chosen) = crate::weather::chosen(db, planting, stations)? else {
            return Ok(None);
        };
        if !self.records.contains_key(&chosen.name) {
            let record = clean(&days(db, &chosen.name, EVER)?, None)
                .ok()
                .map(|cleaned| cleaned.record)
                .filter(|record| !record.days().is_empty());
            self.records.insert(chosen.name.clone(), record);
        }
        Ok(Some(chosen.name))
    }

    /// The heat of a station read before.
    pub(super) fn of(&self, station: Option<&str>) -> Heat<'_> {
        Heat {
            scale: &self.scale,
            record: station
                .and_then(|station| self.records.get(station))
                .and_then(Option::as_ref),
        }
    }
}

/// What a planting ripens by.
#[derive(Clone, Copy)]
pub(super) struct Heat<'a> {
    scale: &'a HeatScale,
    record: Option<&'a WeatherRecord>,
}

impl Heat<'_> {
    /// Heat from the day of one walk to the day of a later one.
    pub(super) fn between(&self, from: NaiveDate, to: NaiveDate) -> HeatMoved {
        HeatMoved::between(self.scale, self.record, from, to)
    }

    /// For each of these walks, a digest of the walks up to it, their days and the
    /// heat between them. Kept answers carry it: when weather, station, dates or the
    /// walks before change it, they are computed anew, and only then.
    pub(super) fn ways(&self, walks: &[Walk]) -> Vec<Way> {
        let mut way = [0; 32];
        let mut before: Option<NaiveDate> = None;
        walks
            .iter()
            .map(|walk| {
                let mut hash = Sha256::new();
                hash.update(way);
                hash.update(walk.id.as_bytes());
                hash.update(walk.walked_on.num_days_from_ce().to_be_bytes());
                if let Some(before) = before {
                    let moved = self.between(before, walk.walked_on);
                    hash.update(moved.mean.to_bits().to_be_bytes());
                    hash.update(moved.sd.to_bits().to_be_bytes());
                }
                way = hash.finalize().into();
                before = Some(walk.walked_on);
                Way(std::array::from_fn(|place| way[place]))
            })
            .collect()
    }
}

/// By which way a planting came to one of its walks; see [`Heat::ways`].
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Way([u8; 16]);

impl fmt::Display for Way {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.iter().try_for_each(|byte| write!(out, "{byte:02x}"))
    }
}
