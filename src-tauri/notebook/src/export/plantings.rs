//! Plantings as a planting file.

use std::io::Write;

use rusqlite::Connection;

use super::{ExportError, shown};
use crate::views::plantings;
use kinds::cell::harmless;
use kinds::{Area, Purpose};

/// Writes all plantings, by name; returns their number. The farm stands in a
/// column of its own, which planting files pass over.
pub fn plantings(db: &Connection, to: &mut dyn Write) -> Result<u64, ExportError> {
    let mut table = csv::Writer::from_writer(to);
    table.write_record([
        "planting",
        "hybrid",
        "planted_on",
        "purpose",
        "field",
        "station",
        "acres",
        "hectares",
        "half_bloom_on",
        "farm",
    ])?;
    let mut written = 0;
    for planting in plantings::all(db)? {
        let (acres, hectares) = match planting.area {
            Some(Area::Acres(size)) => (Some(size), None),
            Some(Area::Hectares(size)) => (None, Some(size)),
            None => (None, None),
        };
        let date = |date: Option<chrono::NaiveDate>| {
            date.map_or_else(String::new, |date| date.to_string())
        };
        let text = |text: Option<String>| {
            text.map_or_else(String::new, |text| harmless(&text).into_owned())
        };
        let purpose = match planting.purpose {
            Purpose::Grain => "grain",
            Purpose::Silage => "silage",
            Purpose::Seed => "seed",
        };
        table.write_record([
            harmless(&planting.name).into_owned(),
            text(planting.hybrid),
            date(planting.planted_on),
            purpose.to_owned(),
            text(planting.field),
            text(planting.station),
            shown(acres),
            shown(hectares),
            date(planting.half_bloom_on),
            text(planting.farm),
        ])?;
        written += 1;
    }
    table.flush()?;
    Ok(written)
}
