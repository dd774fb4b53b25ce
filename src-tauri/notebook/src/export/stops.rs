//! Stops as GeoJSON (RFC 7946: WGS 84, longitude before latitude).

use std::io::Write;

use rusqlite::Connection;
use serde_json::json;

use super::{ExportError, photo_file};
use crate::views::{photos, plantings, walks};

/// Writes every stop whose place is known as a point; returns their number.
pub fn stops(db: &Connection, to: &mut dyn Write) -> Result<u64, ExportError> {
    let mut written: u64 = 0;
    to.write_all(b"{\"type\":\"FeatureCollection\",\"features\":[")?;
    for planting in plantings::all(db)? {
        for walk in walks::of_planting(db, planting.id)? {
            for (at, stop) in walks::stops(db, walk.id)?.into_iter().enumerate() {
                let Some(place) = stop.place else { continue };
                let heads = walks::heads(db, stop.id)?;
                let readings: Vec<_> = heads
                    .iter()
                    .map(|head| {
                        json!({
                            "reading": head.said.head.reading().word(),
                            "share": head.said.head.share(),
                            "note": head.said.note,
                        })
                    })
                    .collect();
                let pictures: Vec<_> = photos::of_stop(db, stop.id)?
                    .into_iter()
                    .rev()
                    .map(|photo| json!({"file": photo_file(photo.name), "caption": photo.caption}))
                    .collect();
                let feature = json!({
                    "type": "Feature",
                    "id": stop.id,
                    "geometry": {
                        "type": "Point",
                        "coordinates": [place.longitude, place.latitude],
                    },
                    "properties": {
                        "planting": planting.name,
                        "hybrid": planting.hybrid,
                        "walked_on": walk.walked_on,
                        "scout": walk.scout,
                        "stop": stop.label.unwrap_or_else(|| (at + 1).to_string()),
                        "accuracy_m": place.accuracy_m,
                        "age_s": place.age_s,
                        "heads": readings,
                        "photos": pictures,
                    },
                });
                to.write_all(if written == 0 { b"\n" } else { b",\n" })?;
                serde_json::to_writer(&mut *to, &feature)?;
                written += 1;
            }
        }
    }
    to.write_all(b"\n]}\n")?;
    to.flush()?;
    Ok(written)
}
