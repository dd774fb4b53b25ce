//! Which file is the photo of what, as a table.

use std::io::Write;

use rusqlite::Connection;

use super::{ExportError, photo_file};
use crate::views::{photos, plantings, walks};
use kinds::cell::harmless;

/// Writes all photos, planting by planting, the oldest first; returns their number.
/// The files' names are those of an archive, whether the files are in it or not.
pub(crate) fn photos(db: &Connection, to: &mut dyn Write) -> Result<u64, ExportError> {
    let mut table = csv::Writer::from_writer(to);
    table.write_record([
        "planting",
        "walked_on",
        "stop",
        "head",
        "file",
        "taken",
        "caption",
        "width",
        "height",
    ])?;
    let mut written = 0;
    for planting in plantings::all(db)? {
        for photo in photos::of_planting(db, planting.id)?.into_iter().rev() {
            let (mut stop, mut head) = (String::new(), String::new());
            if let (Some(walk), Some(of)) = (photo.walk, photo.stop) {
                let all = walks::stops(db, walk)?;
                if let Some(at) = all.iter().position(|stop| stop.id == of) {
                    let label = all.get(at).and_then(|stop| stop.label.clone());
                    stop = label.unwrap_or_else(|| (at + 1).to_string());
                }
            }
            if let (Some(at_stop), Some(of)) = (photo.stop, photo.head) {
                let all = walks::heads(db, at_stop)?;
                if let Some(at) = all.iter().position(|head| head.id == of) {
                    head = (at + 1).to_string();
                }
            }
            table.write_record([
                harmless(&planting.name).into_owned(),
                photo
                    .walked_on
                    .map(|day| day.to_string())
                    .unwrap_or_default(),
                harmless(&stop).into_owned(),
                head,
                photo_file(photo.name),
                photo
                    .taken
                    .map(|at| at.format("%Y-%m-%dT%H:%M:%S").to_string())
                    .unwrap_or_default(),
                harmless(photo.caption.as_deref().unwrap_or_default()).into_owned(),
                photo.width.to_string(),
                photo.height.to_string(),
            ])?;
            written += 1;
        }
    }
    table.flush()?;
    Ok(written)
}
