//! Outlines as GeoJSON (RFC 7946).

use std::io::Write;

use rusqlite::Connection;
use serde_json::json;
use uuid::Uuid;

use super::ExportError;
use crate::views::{outlines, plantings};
use kinds::OutlineOf;
use kinds::Rings;

/// Writes the outlines that plantings and fields have themselves; returns their
/// number.
pub(crate) fn outlines(db: &Connection, to: &mut dyn Write) -> Result<u64, ExportError> {
    let mut all: Vec<(Uuid, &str, String, Rings)> = Vec::new();
    for planting in plantings::all(db)? {
        if let Some(rings) = outlines::standing(db, OutlineOf::Planting(planting.id))? {
            all.push((planting.id, "planting", planting.name, rings));
        }
    }
    for (id, name, _) in outlines::fields(db)? {
        if let Some(rings) = outlines::standing(db, OutlineOf::Field(id))? {
            all.push((id, "field", name, rings));
        }
    }
    to.write_all(b"{\"type\":\"FeatureCollection\",\"features\":[")?;
    for (at, (id, kind, name, rings)) in all.iter().enumerate() {
        let feature = json!({
            "type": "Feature",
            "id": id,
            "geometry": {"type": "MultiPolygon", "coordinates": rings},
            "properties": {"kind": kind, "name": name, *kind: name},
        });
        to.write_all(if at == 0 { b"\n" } else { b",\n" })?;
        serde_json::to_writer(&mut *to, &feature)?;
    }
    to.write_all(b"\n]}\n")?;
    to.flush()?;
    Ok(all.len() as u64)
}
