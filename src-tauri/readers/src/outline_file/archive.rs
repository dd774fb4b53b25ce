//! A zip file with a shapefile in it, a KML (then it is a KMZ), or GeoJSON.

use std::io::{Cursor, Read};

use zip::ZipArchive;

use super::{FileOutline, LONGEST, OutlineFileError, Part, is, of_text, shape_file};

/// Most files in it.
const MOST_FILES: usize = 500;
/// Most bytes of what is unpacked, together.
const MOST_UNPACKED: u64 = 4 * LONGEST as u64;

pub(super) fn read(bytes: &[u8]) -> Result<Vec<FileOutline>, OutlineFileError> {
    let broken = |why: String| OutlineFileError::Archive(why);
    let mut archive =
        ZipArchive::new(Cursor::new(bytes)).map_err(|error| broken(error.to_string()))?;
    if archive.len() > MOST_FILES {
        return Err(broken(format!("it holds more than {MOST_FILES} files")));
    }
    let mut left = MOST_UNPACKED;
    let mut files: Vec<(String, Vec<u8>)> = Vec::new();
    for at in 0..archive.len() {
        let mut file = archive
            .by_index(at)
            .map_err(|error| broken(error.to_string()))?;
        // Nothing is written anywhere, so its folders do not matter.
        let path = file.name().map_err(|error| broken(error.to_string()))?;
        let name = path
            .rsplit(['/', '\\'])
            .next()
            .unwrap_or_default()
            .to_owned();
        let wanted = ["shp", "dbf", "prj", "cpg", "kml", "json", "geojson"];
        // Copies that a Mac puts beside the files.
        if name.starts_with("._") || !wanted.iter().any(|ending| is(&name, ending)) {
            continue;
        }
        let mut content = Vec::new();
        // Its own word on its length is not taken.
        file.by_ref()
            .take(left + 1)
            .read_to_end(&mut content)
            .map_err(|error| broken(error.to_string()))?;
        left = left
            .checked_sub(content.len() as u64)
            .ok_or_else(|| broken("it unpacks to more than 32 MB".to_owned()))?;
        files.push((name, content));
    }
    let parts: Vec<Part> = files
        .iter()
        .map(|(name, bytes)| Part { name, bytes })
        .collect();
    if parts.iter().any(|part| is(part.name, "shp")) {
        return shape_file::read(&parts);
    }
    let text = parts
        .iter()
        .find(|part| {
            ["kml", "geojson", "json"]
                .iter()
                .any(|ending| is(part.name, ending))
        })
        .ok_or_else(|| broken("it holds neither a .shp, a .kml nor a .geojson".to_owned()))?;
    if text.bytes.len() > LONGEST {
        return Err(OutlineFileError::TooLong);
    }
    of_text(text)
}
