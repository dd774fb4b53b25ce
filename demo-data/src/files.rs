//! The season as the files that anyone could have written.

use serde_json::json;
use thiserror::Error;

use crate::fields::Outline;
use crate::kernels::READINGS;
use crate::plantings::Grown;
use crate::ripe::{Seen, What};
use crate::walks::Line;
use crate::weather::Weather;

/// The files of the season, as bytes.
pub struct Files {
    /// `heads.csv`: every head read.
    pub heads: Vec<u8>,
    /// `plantings.csv`: what was planted.
    pub plantings: Vec<u8>,
    /// `weather.csv`: daily weather of two stations.
    pub weather: Vec<u8>,
    /// `fields.geojson`: outlines of the plantings.
    pub fields: Vec<u8>,
    /// `observations.csv`: what was seen of ripe grain.
    pub observations: Vec<u8>,
}

impl Files {
    /// Each file's name and bytes.
    pub fn all(&self) -> [(&'static str, &[u8]); 5] {
        [
            ("heads.csv", &self.heads),
            ("plantings.csv", &self.plantings),
            ("weather.csv", &self.weather),
            ("fields.geojson", &self.fields),
            ("observations.csv", &self.observations),
        ]
    }
}

/// A row that could not be written.
#[derive(Debug, Error)]
pub enum FileError {
    /// From the CSV writer.
    #[error("a row cannot be written: {0}")]
    Csv(#[from] csv::Error),
    /// From the end of the CSV writer.
    #[error("the rows cannot be finished: {0}")]
    Finish(String),
    /// From the GeoJSON writer.
    #[error("the outlines cannot be written: {0}")]
    Json(#[from] serde_json::Error),
}

/// Writes the five files.
pub fn write(
    weather: &Weather,
    outlines: &[Outline],
    plantings: &[Grown],
    heads: &[Line],
    seen: &[Seen],
) -> Result<Files, FileError> {
    Ok(Files {
        heads: write_heads(heads)?,
        plantings: write_plantings(plantings, outlines)?,
        weather: write_weather(weather)?,
        fields: write_fields(outlines)?,
        observations: write_observations(seen)?,
    })
}

fn write_heads(heads: &[Line]) -> Result<Vec<u8>, FileError> {
    let mut rows = csv::Writer::from_writer(Vec::new());
    rows.write_record([
        "planting",
        "walked_on",
        "stop",
        "reading",
        "share",
        "latitude",
        "longitude",
        "scout",
        "note",
        "flags",
    ])?;
    for head in heads {
        rows.write_record([
            head.planting,
            &head.walked_on.to_string(),
            &head.stop.to_string(),
            READINGS[head.reading.class],
            &head
                .reading
                .share
                .map(|share| share.to_string())
                .unwrap_or_default(),
            &format!("{:.6}", head.place.0),
            &format!("{:.6}", head.place.1),
            head.scout,
            head.note,
            &head.flags.join(";"),
        ])?;
    }
    finish(rows)
}

fn write_observations(seen: &[Seen]) -> Result<Vec<u8>, FileError> {
    let mut rows = csv::Writer::from_writer(Vec::new());
    rows.write_record([
        "planting",
        "observed_on",
        "what",
        "meter",
        "meter_name",
        "percents",
        "frame_square_feet",
        "seeds",
        "heads",
        "lodged",
        "weak_stalks",
        "weathering",
        "scout",
    ])?;
    for one in seen {
        let mut row = vec![one.planting.to_owned(), one.on.to_string()];
        row.extend(match &one.what {
            What::Moisture(percents) => {
                let percents: Vec<String> = percents.iter().map(|m| format!("{m:.1}")).collect();
                let meter = format!("meter of {}", one.scout);
                [
                    "moisture",
                    "hand",
                    &meter,
                    &percents.join(" "),
                    "",
                    "",
                    "",
                    "",
                    "",
                    "",
                ]
                .map(str::to_owned)
            }
            What::Ground(seeds) => {
                let seeds: Vec<String> = seeds.iter().map(u32::to_string).collect();
                let seeds = seeds.join(" ");
                ["ground", "", "", "", "1", &seeds, "0", "", "", ""].map(str::to_owned)
            }
            What::Standing(lodged, weak, weathering) => {
                let (lodged, weak) = (lodged.to_string(), weak.to_string());
                let weathering = weathering.to_string();
                [
                    "standing",
                    "",
                    "",
                    "",
                    "",
                    "",
                    "",
                    &lodged,
                    &weak,
                    &weathering,
                ]
                .map(str::to_owned)
            }
        });
        row.push(one.scout.to_owned());
        rows.write_record(row)?;
    }
    finish(rows)
}

fn write_plantings(plantings: &[Grown], outlines: &[Outline]) -> Result<Vec<u8>, FileError> {
    let mut rows = csv::Writer::from_writer(Vec::new());
    rows.write_record([
        "planting",
        "hybrid",
        "planted_on",
        "purpose",
        "field",
        "station",
        "acres",
        "half_bloom_on",
    ])?;
    for (grown, outline) in plantings.iter().zip(outlines) {
        let planting = grown.planting;
        let half_bloom = grown
            .day_of_age(-grown.span / 2.0)
            .filter(|_| planting.bloom_noted)
            .map(|date| date.to_string())
            .unwrap_or_default();
        rows.write_record([
            planting.name,
            grown.hybrid().code,
            &planting.planted_on().to_string(),
            planting.purpose,
            planting.field,
            planting.station,
            &format!("{:.1}", outline.acres()),
            &half_bloom,
        ])?;
    }
    finish(rows)
}

fn write_weather(weather: &Weather) -> Result<Vec<u8>, FileError> {
    let mut rows = csv::Writer::from_writer(Vec::new());
    rows.write_record(["station", "date", "high_f", "low_f", "rain_in", "humidity"])?;
    for (station, days) in &weather.stations {
        for day in days {
            rows.write_record([
                *station,
                &day.date.to_string(),
                &format!("{:.1}", day.high),
                &format!("{:.1}", day.low),
                &format!("{:.2}", day.rain),
                &format!("{:.0}", day.humidity),
            ])?;
        }
    }
    finish(rows)
}

fn write_fields(outlines: &[Outline]) -> Result<Vec<u8>, FileError> {
    // RFC 7946: longitude first, outer ring counter-clockwise, holes clockwise.
    let features: Vec<_> = outlines
        .iter()
        .map(|outline| {
            let rings: Vec<Vec<[f64; 2]>> = outline
                .rings
                .iter()
                .map(|ring| ring.iter().map(|(north, east)| [*east, *north]).collect())
                .collect();
            json!({
                "type": "Feature",
                "properties": { "planting": outline.planting, "field": outline.field },
                "geometry": { "type": "Polygon", "coordinates": rings },
            })
        })
        .collect();
    let collection = json!({ "type": "FeatureCollection", "features": features });
    let mut bytes = serde_json::to_vec_pretty(&collection)?;
    bytes.push(b'\n');
    Ok(bytes)
}

fn finish(rows: csv::Writer<Vec<u8>>) -> Result<Vec<u8>, FileError> {
    rows.into_inner()
        .map_err(|error| FileError::Finish(error.to_string()))
}
