//! Weather into the notebook, and the stations it holds.

pub(crate) mod ask;
pub(crate) mod pages;

use std::collections::BTreeMap;

use chrono::NaiveDate;
use ripening::temperature::TempUnit;
use ripening::weather::{RawDay, clean, distance_km};
use rusqlite::Connection;
use serde_json::json;
use uuid::Uuid;

use crate::jobs::{JobStep, stopped};
use crate::live::live_planting;
use crate::rows::set;
use crate::weather::pages::{
    NearStation, StationChoice, StationOption, StationReview, StationRow, TypedDay,
    WeatherFileReview,
};
use crate::{
    Changed, ChosenBy, ChosenStation, Done, Keep, NearStations, Place, Problem, RefusedRow, Reply,
    Service, StationList, checks, read_only,
};
use notebook::fact::{Act, Body, Fact, Field, Row, WeatherDays, WeatherTold};
use notebook::import_ending;
use notebook::notebook::Writer;
use notebook::views::plantings::Planting;
use notebook::views::weather;
use notebook::views::weather::Station;
use readers::weather_file::{self, StationRows, Watch, WeatherFileError};

/// Days told by one change: ten years, well below the longest change.
const DAYS_A_CHANGE: usize = 3660;
/// Rows and findings shown one by one.
const SHOWN: usize = 100;

impl Service {
    pub(crate) fn stations(&self) -> Result<Reply<StationList>, Problem> {
        let today = self.notebook.clock().today();
        let db = self.notebook.db();
        let rows = weather::stations(db)?
            .into_iter()
            .map(|station| {
                let rows = weather::days(db, &station.name, today)?;
                let cleaned = clean(&rows, None);
                Ok(StationRow {
                    name: station.name,
                    place: station.place.map(|(latitude, longitude)| Place {
                        latitude,
                        longitude,
                        accuracy_m: None,
                        age_s: None,
                    }),
                    days: station.days,
                    first: station.first,
                    last: station.last,
                    filled: cleaned.as_ref().map_or(0, |cleaned| {
                        count(
                            cleaned
                                .record
                                .days()
                                .iter()
                                .filter(|day| day.filled)
                                .count(),
                        )
                    }),
                    open: cleaned
                        .as_ref()
                        .map_or_else(|_| Vec::new(), |cleaned| cleaned.record.gaps()),
                    refused: cleaned
                        .err()
                        .filter(|_| !rows.is_empty())
                        .map(|refusal| refusal.to_string()),
                })
            })
            .collect::<Result<Vec<_>, Problem>>()?;
        Ok(read_only(StationList { rows }))
    }

    pub(crate) fn nearest_stations(&self, place: Place) -> Result<Reply<NearStations>, Problem> {
        checks::place(Some(place))?;
        let mut near: Vec<NearStation> = weather::stations(self.notebook.db())?
            .into_iter()
            .filter_map(|station| {
                Some(NearStation {
                    km: distance_km((place.latitude, place.longitude), station.place?),
                    name: station.name,
                })
            })
            .collect();
        near.sort_by(|a, b| a.km.total_cmp(&b.km));
        Ok(read_only(NearStations { rows: near }))
    }

    pub(crate) fn place_station(
        &mut self,
        name: &str,
        place: Place,
    ) -> Result<Reply<Done>, Problem> {
        let name = checks::name("station", name)?;
        checks::place(Some(place))?;
        let ((), touched) = self.notebook.write(|writer| {
            let fact = Fact::Station {
                name,
                place: Some(place),
            };
            Ok::<(), Problem>(writer.record(Act::StationPlaced, &Body::of(vec![fact]))?)
        })?;
        Ok(Reply {
            answer: Done {},
            changed: self.changed(&touched)?,
        })
    }

    /// The station of a planting or of its whole field, or none to leave the choice
    /// to the app.
    pub(crate) fn use_station(
        &mut self,
        planting: Uuid,
        station: Option<&str>,
        whole_field: bool,
    ) -> Result<Reply<Done>, Problem> {
        let station = checks::optional_name("station", station)?;
        let ((), touched) = self.notebook.write(|writer| {
            let known = live_planting(writer.db(), planting)?;
            let choose = |writer: &mut Writer, row: Row, id: Uuid, station: &Option<String>| {
                let act = match row {
                    Row::Field => Act::FieldEdited,
                    _ => Act::PlantingEdited,
                };
                let to = BTreeMap::from([(Field::Station, json!(station))]);
                set(writer, act, row, id, to)
            };
            if !whole_field {
                return match known.station == station {
                    true => Ok(()),
                    false => choose(writer, Row::Planting, planting, &station),
                };
            }
            let field = weather::field_of(writer.db(), planting)?.ok_or_else(|| {
                Problem::bad_input(
                    "the planting has no field: give it one, or choose for the planting alone",
                )
            })?;
            // The field's choice counts for this planting too.
            if known.station.is_some() {
                choose(writer, Row::Planting, planting, &None)?;
            }
            match known.field_station == station {
                true => Ok(()),
                false => choose(writer, Row::Field, field, &station),
            }
        })?;
        // Its other plantings' outlooks change with the field.
        let mut changed = self.changed(&touched)?;
        if whole_field && !changed.contains(&Changed::Weather) {
            changed.push(Changed::Weather);
        }
        Ok(Reply {
            answer: Done {},
            changed,
        })
    }

    /// The stations that a planting may choose among.
    pub(crate) fn station_choice(&self, planting: Uuid) -> Result<Reply<StationChoice>, Problem> {
        let db = self.notebook.db();
        let planting = live_planting(db, planting)?;
        let stations = weather::stations(db)?;
        let place = weather::field_place(db, planting.id)?;
        let mut rows: Vec<StationOption> = stations
            .iter()
            .filter(|station| station.days > 0)
            .map(|station| StationOption {
                name: station.name.clone(),
                km: place
                    .zip(station.place)
                    .map(|(field, station)| distance_km(field, station)),
                last: station.last,
            })
            .collect();
        let far = |row: &StationOption| row.km.unwrap_or(f64::INFINITY);
        rows.sort_by(|a, b| far(a).total_cmp(&far(b)).then_with(|| a.name.cmp(&b.name)));
        Ok(read_only(StationChoice {
            chosen: chosen(db, &planting, &stations)?,
            planting: planting.name,
            field: planting.field,
            placed: place.is_some(),
            rows,
        }))
    }

    pub(crate) fn type_weather(&mut self, typed: &TypedDay) -> Result<Reply<Done>, Problem> {
        let station = checks::name("station", &typed.station)?;
        checks::weather_date(typed.date)?;
        let row = RawDay {
            line: None,
            date: typed.date,
            unit: typed.unit,
            high: Some(typed.high),
            low: Some(typed.low),
            rain_in: typed.rain_in,
            humidity: typed.humidity,
        };
        // One row by the rules of all: what they would leave out is not stored.
        let found = clean(&[row], None);
        match &found {
            Ok(cleaned) if cleaned.problems.is_empty() => {}
            Ok(cleaned) => {
                let what = cleaned.problems.first().map(|problem| &problem.fault);
                return Err(Problem::bad_input(format!(
                    "the weather of {}: {}; check what you typed",
                    typed.date,
                    what.map(ToString::to_string).unwrap_or_default()
                )));
            }
            Err(_) => {
                return Err(Problem::bad_input(format!(
                    "the weather of {}: high {} and low {} cannot be; check what you typed",
                    typed.date, typed.high, typed.low
                )));
            }
        }
        if typed.date > self.notebook.clock().today() {
            return Err(Problem::bad_input(
                "this day is still ahead: type in days that are over",
            ));
        }
        let ((), touched) = self.notebook.write(|writer| {
            let told = WeatherDays {
                station,
                unit: typed.unit,
                typed: true,
                days: vec![told(&row)],
            };
            let body = Body::of(vec![Fact::Weather(told)]);
            Ok::<(), Problem>(writer.record(Act::WeatherTyped, &body)?)
        })?;
        Ok(Reply {
            answer: Done {},
            changed: self.changed(&touched)?,
        })
    }

    /// Reads a weather file; with [`Keep::GoodRows`] stores what is new of it.
    /// `strict` makes the first bad row fatal. The work can be asked how far it is,
    /// and stopped, by its id.
    pub(crate) fn weather_file(
        &mut self,
        text: &str,
        station: Option<&str>,
        (keep, strict): (Keep, bool),
        job: Option<Uuid>,
    ) -> Result<Reply<WeatherFileReview>, Problem> {
        let job = self.jobs.begin(job);
        let given = checks::optional_name("station", station)?;
        job.step(JobStep::Reading, lines_of(text));
        let mut tell = |rows| job.at(rows);
        let file =
            weather_file::read(text.as_bytes(), &mut Watch::with(&mut tell)).map_err(|error| {
                match error {
                    WeatherFileError::Stopped => stopped(),
                    error => Problem::bad_input(error.to_string()),
                }
            })?;
        if let (true, Some(first)) = (strict, file.problems.first()) {
            return Err(Problem::bad_input(format!(
                "{first}; mend the row, or take the file without strictness to use the others"
            )));
        }
        let mut review = WeatherFileReview {
            stations: Vec::new(),
            refused: count(file.problems.len()),
            refused_rows: file
                .problems
                .iter()
                .take(SHOWN)
                .map(|problem| RefusedRow {
                    line: u32::try_from(problem.line).unwrap_or(u32::MAX),
                    reason: (&problem.fault).into(),
                })
                .collect(),
        };
        let several = file.stations.len() > 1;
        let mut to_store = Vec::new();
        for rows in file
            .stations
            .into_iter()
            .filter(|station| !station.rows.is_empty())
        {
            let name = match (&given, &rows.station) {
                (Some(given), _) if !several => given.clone(),
                (_, Some(named)) => checks::name("station", named)?,
                (Some(given), None) => given.clone(),
                (None, None) => {
                    return Err(Problem::bad_input(
                        "the file names no station: give the station a name",
                    ));
                }
            };
            job.go_on(lines_of(text))?;
            let (told, new) = self.review_station(&name, &rows)?;
            review.stations.push(told);
            to_store.push((name, new));
        }
        let answer = match keep {
            Keep::Nothing => return Ok(read_only(review)),
            Keep::GoodRows => review,
        };
        let days = to_store.iter().map(|(_, rows)| rows.len() as u64).sum();
        job.step(JobStep::Storing, days);
        let bodies: Vec<Body> = to_store
            .iter()
            .flat_map(|(station, rows)| changes_of(station, rows))
            .collect();
        job.go_on(0)?;
        let touched = import_ending::record_all(&mut self.notebook, &bodies)?;
        // It is done, whoever would have it stopped now.
        let _ = job.at(days);
        Ok(Reply {
            answer,
            changed: self.changed(&touched)?,
        })
    }

    /// What a station's rows are worth, and those that the notebook lacks.
    fn review_station(
        &self,
        name: &str,
        file: &StationRows,
    ) -> Result<(StationReview, Vec<RawDay>), Problem> {
        let cleaned = clean(&file.rows, None)
            .map_err(|refusal| Problem::bad_input(format!("{name}: {refusal}")))?;
        // Of two rows with one date the later counts.
        let rows: BTreeMap<NaiveDate, RawDay> =
            file.rows.iter().map(|row| (row.date, *row)).collect();
        let here: BTreeMap<NaiveDate, RawDay> =
            weather::days(self.notebook.db(), name, weather::EVER)?
                .into_iter()
                .map(|row| (row.date, row))
                .collect();
        let (first, last) = rows
            .first_key_value()
            .zip(rows.last_key_value())
            .map(|(first, last)| (*first.0, *last.0))
            .ok_or_else(|| Problem::bad_input("the file has no usable row"))?;
        let all = rows.len();
        let new: Vec<RawDay> = rows
            .into_values()
            .filter(|row| {
                here.get(&row.date)
                    .is_none_or(|known| told(known) != told(row) || known.unit != row.unit)
            })
            .collect();
        let review = StationReview {
            station: name.to_owned(),
            rows: count(all),
            already_here: count(all - new.len()),
            first,
            last,
            found: cleaned
                .problems
                .iter()
                .take(SHOWN)
                .map(ToString::to_string)
                .collect(),
            found_in_all: count(cleaned.problems.len()),
        };
        Ok((review, new))
    }
}

/// Lines of a text, about.
fn lines_of(text: &str) -> u64 {
    text.bytes().filter(|byte| *byte == b'\n').count() as u64 + 1
}

/// The changes that tell the rows of a station.
fn changes_of(station: &str, rows: &[RawDay]) -> Vec<Body> {
    let mut bodies = Vec::new();
    for unit in [TempUnit::Fahrenheit, TempUnit::Celsius] {
        let days: Vec<WeatherTold> = rows
            .iter()
            .filter(|row| row.unit == unit)
            .map(told)
            .collect();
        for days in days.chunks(DAYS_A_CHANGE) {
            let fact = Fact::Weather(WeatherDays {
                station: station.to_owned(),
                unit,
                typed: false,
                days: days.to_vec(),
            });
            bodies.push(Body::of(vec![fact]));
        }
    }
    bodies
}

fn told(row: &RawDay) -> WeatherTold {
    WeatherTold(row.date, row.high, row.low, row.rain_in, row.humidity)
}

fn count(number: usize) -> u32 {
    u32::try_from(number).unwrap_or(u32::MAX)
}

/// The station that a planting names; else the one chosen for its field; else the
/// nearest to its stops; else the only one.
pub(crate) fn chosen(
    db: &Connection,
    planting: &Planting,
    stations: &[Station],
) -> Result<Option<ChosenStation>, Problem> {
    let with_days = || stations.iter().filter(|station| station.days > 0);
    if let Some(name) = &planting.station {
        return Ok(Some(ChosenStation {
            name: name.clone(),
            by: ChosenBy::Planting,
        }));
    }
    if let Some(name) = &planting.field_station {
        return Ok(Some(ChosenStation {
            name: name.clone(),
            by: ChosenBy::Field,
        }));
    }
    if let Some(field) = weather::field_place(db, planting.id)? {
        let nearest = with_days()
            .filter_map(|station| Some((distance_km(field, station.place?), station)))
            .min_by(|a, b| a.0.total_cmp(&b.0));
        if let Some((km, station)) = nearest {
            return Ok(Some(ChosenStation {
                name: station.name.clone(),
                by: ChosenBy::Nearest { km },
            }));
        }
    }
    let mut all = with_days();
    Ok(match (all.next(), all.next()) {
        (Some(only), None) => Some(ChosenStation {
            name: only.name.clone(),
            by: ChosenBy::Only,
        }),
        _ => None,
    })
}
