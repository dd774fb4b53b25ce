//! Files with outlines of fields: GeoJSON (RFC 7946), KML or KMZ (OGC 07-147r2),
//! and shapefiles (ESRI Shapefile Technical Description, July 1998), loose or
//! zipped.
//!
//! A file is looked at whole and bounded before anything of it is used. What is
//! no outline of a planting is named with why, and the others are used.

mod archive;
mod geojson_file;
mod grid;
mod kml_file;
mod shape_file;

use kinds::{Corner, Rings};
use ripening::stop_plan::{Outline, OutlineError};
use thiserror::Error;

pub use shape_file::ShapeFileError;

/// Longest file, or all files of a shapefile together, bytes.
pub const LONGEST: usize = 8 << 20;
/// Most outlines in a file.
pub const MOST_OUTLINES: usize = 2_000;
/// Most corners of one outline: a walk along the fence at a point a meter.
pub const MOST_CORNERS: usize = 10_000;
/// Labels kept of one outline, and the longest of them, characters.
const MOST_LABELS: usize = 24;
const LONGEST_LABEL: usize = 200;

/// One file as it was chosen.
#[derive(Debug, Clone, Copy)]
pub struct Part<'a> {
    /// Its name; only the ending counts.
    pub name: &'a str,
    /// Its bytes.
    pub bytes: &'a [u8],
}

/// An outline of a file.
#[derive(Debug, Clone, PartialEq)]
pub struct FileOutline {
    /// Its place in the file, from 1.
    pub number: u32,
    /// What the file says of it: column and value.
    pub labels: Vec<(String, String)>,
    /// The outline, or why it is none.
    pub shape: Result<Shape, ShapeFault>,
}

/// A sound outline.
#[derive(Debug, Clone, PartialEq)]
pub struct Shape {
    /// Its rings, to a centimeter.
    pub rings: Rings,
    /// Area inside, holes left out.
    pub square_meters: f64,
    /// Corners in all.
    pub corners: u32,
}

/// Why something in a file is no outline of a planting.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum ShapeFault {
    /// A point, a line, or nothing.
    #[error("it is {0} and has no area: an outline is a polygon")]
    NotAPolygon(&'static str),
    /// Too fine.
    #[error("it has {0} corners, at most {MOST_CORNERS} are used: simplify it")]
    TooManyCorners(usize),
    /// Not sound.
    #[error("{0}")]
    Unsound(#[from] OutlineError),
    /// Cannot be read.
    #[error("it cannot be read: {0}")]
    Unreadable(String),
}

/// Why a file was refused as a whole.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum OutlineFileError {
    /// Over [`LONGEST`].
    #[error("the file is longer than 8 MB: remove what is no field, or simplify the outlines")]
    TooLong,
    /// Over [`MOST_OUTLINES`].
    #[error("the file has more than {MOST_OUTLINES} outlines: split it")]
    TooMany,
    /// None of the formats.
    #[error(
        "'{0}' is no outline file: choose GeoJSON, KML, KMZ, or a shapefile (.shp with .dbf and .prj, or zipped)"
    )]
    Unknown(String),
    /// Not text.
    #[error("the file is not UTF-8 text: save it again as UTF-8")]
    NotText,
    /// Not JSON, or not GeoJSON.
    #[error("the file is not GeoJSON: {0}")]
    GeoJson(String),
    /// Not XML, or not KML.
    #[error("the file is not KML: {0}")]
    Kml(String),
    /// A broken archive.
    #[error("the zipped file cannot be read: {0}")]
    Archive(String),
    /// The shapefile's own.
    #[error(transparent)]
    Shape(#[from] ShapeFileError),
    /// Nothing in it.
    #[error("the file holds no outlines")]
    Empty,
}

/// Reads outlines from the files that were chosen together.
///
/// # Errors
/// [`OutlineFileError`] where none of it can be used.
pub fn read(parts: &[Part]) -> Result<Vec<FileOutline>, OutlineFileError> {
    let length: usize = parts.iter().map(|part| part.bytes.len()).sum();
    if length > LONGEST {
        return Err(OutlineFileError::TooLong);
    }
    let outlines = match parts {
        [one] if one.bytes.starts_with(b"PK") => archive::read(one.bytes)?,
        [one] if !is(one.name, "shp") => of_text(one)?,
        several => shape_file::read(several)?,
    };
    if outlines.is_empty() {
        return Err(OutlineFileError::Empty);
    }
    Ok(outlines)
}

/// GeoJSON or KML, by its ending, else by its first letter.
fn of_text(part: &Part) -> Result<Vec<FileOutline>, OutlineFileError> {
    let text = std::str::from_utf8(part.bytes).map_err(|_| {
        if is(part.name, "json") || is(part.name, "geojson") || is(part.name, "kml") {
            OutlineFileError::NotText
        } else {
            OutlineFileError::Unknown(part.name.to_owned())
        }
    })?;
    let text = text.trim_start_matches('\u{feff}').trim_start();
    if text.starts_with('{') {
        geojson_file::read(text)
    } else if text.starts_with('<') {
        kml_file::read(text)
    } else {
        Err(OutlineFileError::Unknown(part.name.to_owned()))
    }
}

fn is(name: &str, ending: &str) -> bool {
    name.rsplit_once('.')
        .is_some_and(|(_, found)| found.eq_ignore_ascii_case(ending))
}

/// Polygons in a collection are parts of one outline.
fn together<G>(
    collection: Vec<G>,
    rings: impl Fn(G) -> Result<Rings, ShapeFault>,
) -> Result<Rings, ShapeFault> {
    let parts: Rings = collection
        .into_iter()
        .filter_map(|geometry| rings(geometry).ok())
        .flatten()
        .collect();
    if parts.is_empty() {
        Err(ShapeFault::NotAPolygon("a collection without polygons"))
    } else {
        Ok(parts)
    }
}

/// Gathers the outlines of a file, within bounds.
#[derive(Default)]
struct Gathered(Vec<FileOutline>);

impl Gathered {
    fn add(
        &mut self,
        labels: Vec<(String, String)>,
        rings: Result<Rings, ShapeFault>,
    ) -> Result<(), OutlineFileError> {
        if self.0.len() >= MOST_OUTLINES {
            return Err(OutlineFileError::TooMany);
        }
        self.0.push(FileOutline {
            number: u32::try_from(self.0.len() + 1).unwrap_or(u32::MAX),
            labels: labels
                .into_iter()
                .filter_map(label)
                .take(MOST_LABELS)
                .collect(),
            shape: rings.and_then(sound),
        });
        Ok(())
    }
}

fn label((column, value): (String, String)) -> Option<(String, String)> {
    let short = |text: String| -> String { text.trim().chars().take(LONGEST_LABEL).collect() };
    let (column, value) = (short(column), short(value));
    let usable = !value.is_empty() && !value.chars().any(char::is_control);
    usable.then_some((column, value))
}

/// How many corners there are, where they are not too many.
fn corners_of(rings: &Rings) -> Result<usize, ShapeFault> {
    let corners = rings.iter().flatten().map(Vec::len).sum();
    if corners > MOST_CORNERS {
        return Err(ShapeFault::TooManyCorners(corners));
    }
    Ok(corners)
}

/// An outline that holds, its corners rounded to a ten-millionth of a degree
/// (about a centimeter).
fn sound(rings: Rings) -> Result<Shape, ShapeFault> {
    let corners = corners_of(&rings)?;
    let rounded = |degrees: f64| (degrees * 1e7).round() / 1e7;
    let rings: Rings = rings
        .into_iter()
        .map(|part| {
            part.into_iter()
                .map(|ring| {
                    ring.into_iter()
                        .map(|[east, north]| [rounded(east), rounded(north)])
                        .collect()
                })
                .collect()
        })
        .collect();
    let outline = outline(&rings)?;
    Ok(Shape {
        square_meters: outline.square_meters(),
        corners: u32::try_from(corners).unwrap_or(u32::MAX),
        rings,
    })
}

/// The outline that rings make.
///
/// # Errors
/// [`OutlineError`] where they make none.
pub fn outline(rings: &Rings) -> Result<Outline, OutlineError> {
    let parts: Vec<Vec<Vec<Vec<f64>>>> = rings
        .iter()
        .map(|part| {
            part.iter()
                .map(|ring| ring.iter().map(|corner| corner.to_vec()).collect())
                .collect()
        })
        .collect();
    Outline::new(&parts)
}
