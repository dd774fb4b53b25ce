//! `headwalk outlook`: dates of the stages and moistures ahead, as JSON Lines.

use std::collections::BTreeMap;
use std::io::{self, BufWriter, Write};
use std::path::{Path, PathBuf};

use chrono::NaiveDate;
use clap::Args;
use readers::head_file::HeadFile;
use readers::observation_file;
use readers::planting_file::{self, FilePlanting};
use readers::weather_file::{self, Watch};
use ripening::air::EquilibriumSet;
use ripening::dry_down::{MoistureReading, RatePrior};
use ripening::heat::us_50_100;
use ripening::outlook::{
    Case, EventDates, Followed, INJURY_F, Outlook, PerEvent, RestsOn, Sighting, Why,
    follow_together,
};
use ripening::weather::{WeatherRecord, clean};
use ripening::{Band, Head};
use serde::Serialize;
use service::Purpose;

use crate::failure::Failure;
use crate::import::Faults;
use crate::place;

/// Rows treated by rule that are told one by one; the rest are counted.
const TOLD: usize = 20;

/// Dates of half bloom to black layer and of grain moisture, with their spread:
/// one JSON object a line for each planting
///
/// Past seasons in the weather file stand for the days ahead. Nothing dated after
/// --as-of is used. A date that cannot be said is null, with "why".
#[derive(Args)]
pub struct OutlookCall {
    /// CSV with planting, walked_on, stop, reading and share; - for standard input
    heads: PathBuf,
    /// Weather: CSV with date and high_f,low_f or high_c,low_c, or a GHCN-Daily file
    #[arg(long, value_name = "FILE")]
    weather: PathBuf,
    /// Plantings: CSV with planting, hybrid, planted_on and purpose
    #[arg(long, value_name = "FILE")]
    plantings: PathBuf,
    /// Moisture readings: CSV with planting, observed_on and what, as `import` takes it
    #[arg(long, value_name = "FILE")]
    observations: Option<PathBuf>,
    /// The day the outlook is made for
    #[arg(long, value_name = "DATE")]
    as_of: NaiveDate,
    /// Make the first bad row fatal
    #[arg(long)]
    strict: bool,
}

/// One line of the output.
#[derive(Serialize)]
struct Line<'a> {
    planting: &'a str,
    as_of: NaiveDate,
    events: PerEvent<DatesOut>,
    freeze: FreezeOut,
    #[serde(skip_serializing_if = "Option::is_none")]
    pace: Option<Band>,
    #[serde(skip_serializing_if = "Option::is_none")]
    rests_on: Option<RestsOn>,
    #[serde(skip_serializing_if = "Option::is_none")]
    why: Option<String>,
}

#[derive(Serialize)]
struct DatesOut {
    p10: Option<NaiveDate>,
    p50: Option<NaiveDate>,
    p90: Option<NaiveDate>,
    #[serde(skip_serializing_if = "Option::is_none")]
    why: Option<String>,
}

impl From<&EventDates> for DatesOut {
    fn from(dates: &EventDates) -> DatesOut {
        DatesOut {
            p10: dates.p10,
            p50: dates.p50,
            p90: dates.p90,
            why: dates.why.as_ref().map(ToString::to_string),
        }
    }
}

#[derive(Serialize)]
struct FreezeOut {
    /// Of 28 F, from which on there is injury.
    before_black_layer: Option<f64>,
    by_temperature: Vec<FreezeAt>,
    #[serde(skip_serializing_if = "Option::is_none")]
    why: Option<String>,
}

#[derive(Serialize)]
struct FreezeAt {
    at_f: f64,
    before_black_layer: f64,
}

/// A planting of the head file, the planting file or both.
struct Planting {
    name: String,
    told: Option<FilePlanting>,
    /// Heads by date, then scout and stop.
    walks: BTreeMap<NaiveDate, BTreeMap<(String, String), Vec<Head>>>,
    /// Moisture readings of its grain.
    readings: Vec<MoistureReading>,
}

impl OutlookCall {
    pub fn run(self) -> Result<(), Failure> {
        let mut plantings = self.plantings()?;
        self.read_heads(&mut plantings)
            .map_err(|failure| failure.in_file(&self.heads))?;
        let stations = self
            .stations()
            .map_err(|failure| failure.in_file(&self.weather))?;
        self.read_observations(&mut plantings)?;
        let scale = us_50_100();

        // Plantings without weather of their own are told apart first.
        let mut places = Vec::new();
        let mut cases = Vec::new();
        for planting in &plantings {
            let station = planting
                .told
                .as_ref()
                .and_then(|told| told.station.as_deref());
            let weather = stations.of(station);
            places.push(weather.as_ref().map(|_| cases.len()).map_err(Clone::clone));
            if let Ok(weather) = weather {
                cases.push(planting.case(weather, self.as_of));
            }
        }
        let followed = follow_together(&scale, self.as_of, &cases);

        let mut out = BufWriter::new(io::stdout().lock());
        for (planting, place) in plantings.iter().zip(places) {
            let line = match place {
                Ok(place) => match (followed.get(place), cases.get(place)) {
                    (Some(Ok(followed)), Some(case)) => self.line(planting, followed, case.weather),
                    (Some(Err(why)), _) => self.nothing(planting, &why.to_string()),
                    _ => self.nothing(planting, &Why::NoWeather.to_string()),
                },
                Err(why) => self.nothing(planting, &why),
            };
            serde_json::to_writer(&mut out, &line)?;
            out.write_all(b"\n")?;
        }
        out.flush()?;
        Ok(())
    }

    fn plantings(&self) -> Result<Vec<Planting>, Failure> {
        let source = place::source(&self.plantings)?;
        let file = planting_file::read(source, &mut Watch::none())
            .map_err(|error| Failure::work(error.to_string()).in_file(&self.plantings))?;
        self.tell(&self.plantings, &file.problems, "bad rows left out")?;
        Ok(file
            .plantings
            .into_iter()
            .map(|told| Planting {
                name: told.planting.clone(),
                told: Some(told),
                walks: BTreeMap::new(),
                readings: Vec::new(),
            })
            .collect())
    }

    fn read_heads(&self, plantings: &mut Vec<Planting>) -> Result<(), Failure> {
        let mut places: BTreeMap<String, usize> = plantings
            .iter()
            .enumerate()
            .map(|(place, planting)| (planting.name.clone(), place))
            .collect();
        let mut faults = Faults::new(self.strict);
        let mut good = 0;
        for row in HeadFile::open(place::source(&self.heads)?)? {
            let row = match row? {
                Ok(row) => row,
                Err(fault) => {
                    faults.hear(fault.line, &fault.reason.to_string())?;
                    continue;
                }
            };
            good += 1;
            let place = *places.entry(row.planting.clone()).or_insert_with(|| {
                plantings.push(Planting {
                    name: row.planting.clone(),
                    told: None,
                    walks: BTreeMap::new(),
                    readings: Vec::new(),
                });
                plantings.len() - 1
            });
            if row.walked_on <= self.as_of
                && let Some(planting) = plantings.get_mut(place)
            {
                planting
                    .walks
                    .entry(row.walked_on)
                    .or_default()
                    .entry((row.scout.unwrap_or_default(), row.stop))
                    .or_default()
                    .push(row.head);
            }
        }
        faults.sum(good);
        Ok(())
    }

    /// Readings up to the day; those of plantings that no other file names are
    /// passed over.
    fn read_observations(&self, plantings: &mut [Planting]) -> Result<(), Failure> {
        let Some(path) = &self.observations else {
            return Ok(());
        };
        let file = observation_file::read(place::source(path)?)
            .map_err(|error| Failure::work(error.to_string()).in_file(path))?;
        self.tell(path, &file.problems, "bad rows left out")?;
        for row in file.observations {
            if row.seen.on <= self.as_of
                && let Some(planting) = plantings.iter_mut().find(|p| p.name == row.planting)
            {
                planting.readings.extend(row.seen.moisture_reading());
            }
        }
        Ok(())
    }

    fn stations(&self) -> Result<Stations, Failure> {
        let file = weather_file::read(place::source(&self.weather)?, &mut Watch::none())
            .map_err(|error| Failure::work(error.to_string()))?;
        self.tell(&self.weather, &file.problems, "bad rows left out")?;
        let mut stations = Vec::new();
        for station in file.stations {
            // A station that begins after the day is as good as not there.
            if station.rows.iter().all(|row| row.date > self.as_of) {
                stations.push((station.station, WeatherRecord::default()));
                continue;
            }
            let cleaned = clean(&station.rows, Some(self.as_of)).map_err(|refusal| {
                let name = station.station.as_deref().unwrap_or("the station");
                Failure::work(format!("{name}: {refusal}"))
            })?;
            self.tell(
                &self.weather,
                &cleaned.problems,
                "rows or gaps treated by rule",
            )?;
            stations.push((station.station, cleaned.record));
        }
        Ok(Stations(stations))
    }

    /// Tells problems on standard error, or makes the first one fatal.
    fn tell<T: ToString>(&self, path: &Path, problems: &[T], what: &str) -> Result<(), Failure> {
        if let (true, Some(first)) = (self.strict, problems.first()) {
            return Err(Failure::work(format!(
                "{}; mend it, or leave out --strict",
                first.to_string()
            ))
            .in_file(path));
        }
        for problem in problems.iter().take(TOLD) {
            let _ = writeln!(io::stderr(), "{}: {}", path.display(), problem.to_string());
        }
        if !problems.is_empty() {
            let _ = writeln!(
                io::stderr(),
                "{}: {} {what}",
                path.display(),
                problems.len()
            );
        }
        Ok(())
    }

    fn line<'a>(
        &self,
        planting: &'a Planting,
        followed: &Followed,
        weather: &WeatherRecord,
    ) -> Line<'a> {
        let outlook = with_grain(planting, followed, weather);
        let freezes = outlook.freezes.as_ref();
        let events = &outlook.events;
        Line {
            planting: &planting.name,
            as_of: self.as_of,
            events: PerEvent::from_fn(|event| DatesOut::from(events.get(event))),
            freeze: FreezeOut {
                before_black_layer: freezes
                    .and_then(|freezes| freezes.at(INJURY_F))
                    .map(|chance| chance.before_black_layer),
                by_temperature: freezes.map_or_else(Vec::new, |freezes| {
                    freezes
                        .by_temperature
                        .iter()
                        .map(|chance| FreezeAt {
                            at_f: chance.at_f,
                            before_black_layer: chance.before_black_layer,
                        })
                        .collect()
                }),
                why: match followed.season.ensemble() {
                    Ok(_) => None,
                    Err(cause) => Some(Why::NoDaysAhead { cause }.to_string()),
                },
            },
            pace: Some(outlook.pace),
            rests_on: Some(outlook.rests_on),
            why: None,
        }
    }

    /// Nothing can be said of the planting.
    fn nothing<'a>(&self, planting: &'a Planting, why: &str) -> Line<'a> {
        Line {
            planting: &planting.name,
            as_of: self.as_of,
            events: PerEvent::from_fn(|_| DatesOut {
                p10: None,
                p50: None,
                p90: None,
                why: Some(why.to_owned()),
            }),
            freeze: FreezeOut {
                before_black_layer: None,
                by_temperature: Vec::new(),
                why: Some(why.to_owned()),
            },
            pace: None,
            rests_on: None,
            why: Some(why.to_owned()),
        }
    }
}

fn with_grain(planting: &Planting, followed: &Followed, weather: &WeatherRecord) -> Outlook {
    let outlook = followed.outlook();
    let purpose = planting.told.as_ref().map(|told| told.purpose);
    if purpose == Some(Purpose::Silage) {
        return outlook.without_grain(&Why::NoGrain);
    }
    let set = EquilibriumSet::DEFAULT;
    match followed.grain_ahead(weather, &planting.readings, RatePrior::default(), set) {
        Ok(grain) => outlook.with_grain(&grain, followed.season.horizon()),
        Err(cause) => outlook.without_grain(&Why::NoDryDown {
            cause: cause.to_string(),
        }),
    }
}

impl Planting {
    fn case<'a>(&'a self, weather: &'a WeatherRecord, as_of: NaiveDate) -> Case<'a> {
        let mut sightings: Vec<Sighting> = self
            .walks
            .iter()
            .filter_map(|(&walked_on, stops)| {
                let stops: Vec<Vec<Head>> = stops.values().cloned().collect();
                Sighting::of_heads(walked_on, &stops)
            })
            .collect();
        let half_bloom_on = self.told.as_ref().and_then(|told| told.half_bloom_on);
        sightings.extend(
            half_bloom_on
                .filter(|&on| on <= as_of)
                .map(Sighting::half_bloom),
        );
        Case {
            hybrid: self.told.as_ref().and_then(|told| told.hybrid.as_deref()),
            class: None,
            planted_on: self.told.as_ref().map(|told| told.planted_on),
            sightings,
            weather,
        }
    }
}

/// Weather by station.
struct Stations(Vec<(Option<String>, WeatherRecord)>);

impl Stations {
    /// The station of that name; without a name, the only one.
    fn of(&self, name: Option<&str>) -> Result<&WeatherRecord, String> {
        match (name, self.0.as_slice()) {
            (_, [(None, only)]) | (None, [(_, only)]) => Ok(only),
            (Some(name), stations) => stations
                .iter()
                .find(|(station, _)| station.as_deref() == Some(name))
                .map(|(_, record)| record)
                .ok_or_else(|| format!("the weather file has no station '{name}'")),
            (None, _) => Err(
                "the weather file has several stations: name one in the planting file".to_owned(),
            ),
        }
    }
}
