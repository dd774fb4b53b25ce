//! Weather by station, and which planting goes by which.

use std::collections::BTreeMap;
use std::io::{self, Write};
use std::path::Path;

use readers::planting_file;
use readers::weather_file::{self, Watch};
use ripening::weather::{WeatherRecord, clean};

use crate::failure::Failure;
use crate::place;

/// The records of a weather file.
pub struct Stations {
    records: BTreeMap<String, WeatherRecord>,
}

impl Stations {
    /// Reads and cleans a weather file.
    pub fn read(path: &Path) -> Result<Stations, Failure> {
        let file = weather_file::read(place::source(path)?, &mut Watch::none())
            .map_err(|error| Failure::work(error.to_string()).in_file(path))?;
        let mut records = BTreeMap::new();
        for station in file.stations {
            let cleaned = clean(&station.rows, None)
                .map_err(|refusal| Failure::work(refusal.to_string()).in_file(path))?;
            records.insert(station.station.unwrap_or_default(), cleaned.record);
        }
        tell(path, "not used or not wholly", &file.problems)?;
        Ok(Stations { records })
    }

    /// The record that counts for a planting: its station's, or the only one.
    pub fn of(&self, station: Option<&str>) -> Option<&WeatherRecord> {
        match station {
            Some(station) => self.records.get(station),
            None if self.records.len() == 1 => self.records.values().next(),
            None => None,
        }
    }
}

/// The station of each planting that a planting file gives one.
pub fn by_planting(path: &Path) -> Result<BTreeMap<String, String>, Failure> {
    let file = planting_file::read(place::source(path)?, &mut Watch::none())
        .map_err(|error| Failure::work(error.to_string()).in_file(path))?;
    tell(path, "not used", &file.problems)?;
    Ok(file
        .plantings
        .into_iter()
        .filter_map(|planting| Some((planting.planting, planting.station?)))
        .collect())
}

/// Tells of lines that a file's reader stumbled over, if there are any.
fn tell(path: &Path, what: &str, problems: &[impl std::fmt::Display]) -> Result<(), Failure> {
    if let Some(first) = problems.first() {
        writeln!(
            io::stderr(),
            "{}: {} lines {what}; the first: {}",
            path.display(),
            problems.len(),
            first
        )?;
    }
    Ok(())
}
