//! What moves a planting from walk to walk: the weather of its station where
//! there is some, days otherwise.

use std::collections::BTreeMap;
use std::fmt::Write;

use chrono::NaiveDate;
use ripening::heat::{HeatScale, us_50_100};
use ripening::rollup::HeatMoved;
use ripening::weather::{WeatherRecord, clean};
use rusqlite::Connection;
use uuid::Uuid;

use crate::service::{Problem, outlook};
use crate::views::plantings;
use crate::views::walks::Walk;
use crate::views::weather::{EVER, Station, days, stations};

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
        let Some(planting) = plantings::one(db, planting)? else {
            return Ok(None);
        };
        let stations = match &self.stations {
            Some(stations) => stations,
            None => self.stations.insert(stations(db)?),
        };
        let Some(chosen) = outlook::chosen(db, &planting, stations)? else {
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

    /// The heat between these walks as text. Kept answers carry it: when weather,
    /// station or dates change it, they are computed anew, and only then.
    pub(super) fn moves(&self, walks: &[Walk]) -> String {
        let mut text = String::new();
        for (from, to) in walks.iter().zip(walks.iter().skip(1)) {
            let moved = self.between(from.walked_on, to.walked_on);
            // Writing to a string cannot fail.
            let _ = write!(text, " {} {}", moved.mean, moved.sd);
        }
        text
    }
}
