//! Shapefiles: polygons from the .shp, their columns from the .dbf, and from the
//! .prj what their numbers mean.

use std::io::Cursor;

use shapefile::dbase::{self, FieldValue};
use shapefile::{PolygonRing, Shape, ShapeReader};
use thiserror::Error;

use super::grid::Grid;
use super::{Corner, FileOutline, Gathered, OutlineFileError, Part, Rings, ShapeFault, is};

const WAY_OUT: &str = "save it again in WGS 84 (longitude and latitude, EPSG 4326) with the \
                       program it came from, or have it given as KML or GeoJSON, which are \
                       always in it";

/// Why a shapefile was refused.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum ShapeFileError {
    /// Only its companions.
    #[error("the .shp file is missing: choose it together with its .dbf and .prj, or zip them")]
    NoShapes,
    /// More than one.
    #[error("there are several .shp files: choose one at a time")]
    Several,
    /// Not a shapefile, or damaged.
    #[error("the .shp file is damaged: {0}")]
    Damaged(String),
    /// In meters or feet of a grid that is not known here.
    #[error("the shapefile is drawn on the grid '{0}', which cannot be read here: {WAY_OUT}")]
    Projected(String),
    /// On a datum that may lie apart from WGS 84.
    #[error(
        "the shapefile's places ('{0}') are counted from a datum other than WGS 84 and might \
         lie beside the field: {WAY_OUT}"
    )]
    Datum(String),
}

pub(super) fn read(parts: &[Part]) -> Result<Vec<FileOutline>, OutlineFileError> {
    let mut shapes = parts.iter().filter(|part| is(part.name, "shp"));
    let shp = shapes.next().ok_or(ShapeFileError::NoShapes)?;
    if shapes.next().is_some() {
        return Err(ShapeFileError::Several.into());
    }
    let stem = |part: &Part| {
        part.name
            .rsplit_once('.')
            .map(|(stem, _)| stem.to_lowercase())
    };
    let beside = |ending: &str| {
        let fits = |part: &&Part| is(part.name, ending) && stem(part) == stem(shp);
        parts.iter().find(fits)
    };
    let grid = match beside("prj") {
        Some(prj) => Grid::of(&String::from_utf8_lossy(prj.bytes))?,
        None => Grid::Degrees,
    };
    check_records(shp.bytes)?;
    let damaged = |error: shapefile::Error| {
        OutlineFileError::from(ShapeFileError::Damaged(error.to_string()))
    };
    let mut reader = ShapeReader::new(Cursor::new(shp.bytes)).map_err(damaged)?;
    let shapes = reader
        .iter_shapes()
        .collect::<Result<Vec<Shape>, _>>()
        .map_err(damaged)?;
    // Where the two do not match, no column is trusted.
    let mut columns = beside("dbf")
        .and_then(|dbf| columns(dbf.bytes, shapes.len()))
        .filter(|columns| columns.len() == shapes.len())
        .unwrap_or_default()
        .into_iter();
    let mut found = Gathered::default();
    for shape in shapes {
        let rings = rings(shape).and_then(|rings| grid.degrees(rings));
        found.add(columns.next().unwrap_or_default(), rings)?;
    }
    Ok(found.0)
}

/// Checks that every record lies within the file, and its points and parts within
/// the record, before the reader makes room for what they say.
fn check_records(file: &[u8]) -> Result<(), ShapeFileError> {
    const HEADER: usize = 100;
    let damaged = |why: &str| ShapeFileError::Damaged(why.to_owned());
    let big = |at: usize| -> Option<i32> {
        let bytes = file.get(at..at.checked_add(4)?)?;
        Some(i32::from_be_bytes(bytes.try_into().ok()?))
    };
    let little = |at: usize| -> Option<i32> {
        let bytes = file.get(at..at.checked_add(4)?)?;
        Some(i32::from_le_bytes(bytes.try_into().ok()?))
    };
    if big(0) != Some(9994) || file.len() < HEADER {
        return Err(damaged("it does not begin as a shapefile does"));
    }
    let words = big(24).and_then(|words| usize::try_from(words).ok());
    if words.and_then(|words| words.checked_mul(2)) != Some(file.len()) {
        return Err(damaged(
            "its length is not the one it names: it may be cut off",
        ));
    }
    let mut at = HEADER;
    while at < file.len() {
        let length = big(at + 4)
            .and_then(|words| usize::try_from(words).ok())
            .and_then(|words| words.checked_mul(2))
            .filter(|length| *length >= 4)
            .ok_or_else(|| damaged("a record has no length"))?;
        let start = at + 8;
        let end = start
            .checked_add(length)
            .filter(|end| *end <= file.len())
            .ok_or_else(|| damaged("a record reaches beyond its end"))?;
        // Lines, polygons, and the same with measures and heights.
        if matches!(little(start), Some(3 | 5 | 13 | 15 | 23 | 25 | 31)) {
            let count = |at| little(at).and_then(|count| usize::try_from(count).ok());
            let (parts, points) = count(start + 36)
                .zip(count(start + 40))
                .ok_or_else(|| damaged("a record counts below zero"))?;
            let needed = parts
                .checked_mul(4)
                .zip(points.checked_mul(16))
                .and_then(|(parts, points)| parts.checked_add(points)?.checked_add(44));
            if needed.is_none_or(|needed| needed > length) {
                return Err(damaged("a record names more points than it holds"));
            }
            let mut before = 0;
            for part in 0..parts {
                let first = count(start + 44 + 4 * part)
                    .filter(|first| *first >= before && *first <= points)
                    .ok_or_else(|| damaged("the parts of a record are out of order"))?;
                before = first;
            }
        }
        at = end;
    }
    Ok(())
}

/// The columns of the .dbf, one list a record; none where it cannot be read.
fn columns(dbf: &[u8], records: usize) -> Option<Vec<Vec<(String, String)>>> {
    let mut reader = dbase::Reader::new(Cursor::new(dbf)).ok()?;
    let mut rows = Vec::new();
    for record in reader.iter_records().take(records + 1) {
        let row = record
            .ok()?
            .into_iter()
            .filter_map(|(column, value)| Some((column, text(value)?)));
        let mut row: Vec<(String, String)> = row.collect();
        // The reader keeps them in no order.
        row.sort_unstable();
        rows.push(row);
    }
    Some(rows)
}

fn text(value: FieldValue) -> Option<String> {
    match value {
        FieldValue::Character(text) => text,
        FieldValue::Numeric(number) => number.map(|number| number.to_string()),
        FieldValue::Float(number) => number.map(|number| number.to_string()),
        FieldValue::Integer(number) => Some(number.to_string()),
        FieldValue::Double(number) => Some(number.to_string()),
        _ => None,
    }
}

fn rings(shape: Shape) -> Result<Rings, ShapeFault> {
    match shape {
        Shape::Polygon(polygon) => Ok(parts(polygon.rings(), |at| [at.x, at.y])),
        Shape::PolygonM(polygon) => Ok(parts(polygon.rings(), |at| [at.x, at.y])),
        Shape::PolygonZ(polygon) => Ok(parts(polygon.rings(), |at| [at.x, at.y])),
        Shape::NullShape => Err(ShapeFault::NotAPolygon("nothing")),
        Shape::Polyline(_) | Shape::PolylineM(_) | Shape::PolylineZ(_) => {
            Err(ShapeFault::NotAPolygon("a line"))
        }
        Shape::Multipatch(_) => Err(ShapeFault::NotAPolygon("a solid")),
        _ => Err(ShapeFault::NotAPolygon("a point")),
    }
}

/// A hole belongs to the edge before it, as writers order them; a file that
/// begins with a hole has its rings the wrong way round.
fn parts<P>(rings: &[PolygonRing<P>], corner: impl Fn(&P) -> Corner) -> Rings {
    let mut parts: Rings = Vec::new();
    for ring in rings {
        let corners: Vec<Corner> = ring.points().iter().map(&corner).collect();
        match (ring, parts.last_mut()) {
            (PolygonRing::Inner(_), Some(part)) => part.push(corners),
            _ => parts.push(vec![corners]),
        }
    }
    parts
}
