//! What was seen of ripe grain, as a table.

use std::io::Write;

use rusqlite::Connection;
use serde_json::Value;

use super::ExportError;
use crate::views::{harvest, plantings};
use kinds::cell::harmless;

/// Writes all observations, planting by planting and by day; returns their number.
/// Each kind has numbers of its own, so they stand in one column as JSON.
pub(crate) fn observations(db: &Connection, to: &mut dyn Write) -> Result<u64, ExportError> {
    let mut table = csv::Writer::from_writer(to);
    table.write_record([
        "planting",
        "observed_on",
        "kind",
        "numbers",
        "scout",
        "note",
    ])?;
    let mut written = 0;
    for planting in plantings::all(db)? {
        for row in harvest::of_planting(db, planting.id)? {
            let mut numbers = serde_json::to_value(&row.seen.what)?;
            let kind = numbers
                .as_object_mut()
                .and_then(|numbers| numbers.remove("kind"))
                .and_then(|kind| kind.as_str().map(str::to_owned))
                .unwrap_or_default();
            let numbers = match &numbers {
                Value::Object(none) if none.is_empty() => String::new(),
                some => some.to_string(),
            };
            table.write_record([
                harmless(&planting.name).into_owned(),
                row.seen.on.to_string(),
                kind,
                numbers,
                harmless(&row.seen.scout).into_owned(),
                harmless(row.seen.note.as_deref().unwrap_or_default()).into_owned(),
            ])?;
            written += 1;
        }
    }
    table.flush()?;
    Ok(written)
}
