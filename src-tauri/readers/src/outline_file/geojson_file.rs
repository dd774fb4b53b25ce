//! GeoJSON (RFC 7946): features, a bare geometry, or a collection of either.

use geojson::{Feature, GeoJson, Geometry, GeometryValue, JsonObject, JsonValue, Position};

use super::{FileOutline, Gathered, OutlineFileError, Rings, ShapeFault, together};

pub(super) fn read(text: &str) -> Result<Vec<FileOutline>, OutlineFileError> {
    let file: GeoJson = text
        .parse()
        .map_err(|error: geojson::Error| OutlineFileError::GeoJson(one_line(&error.to_string())))?;
    let mut found = Gathered::default();
    match file {
        GeoJson::FeatureCollection(collection) => {
            for each in collection.features {
                feature(each, &mut found)?;
            }
        }
        GeoJson::Feature(one) => feature(one, &mut found)?,
        GeoJson::Geometry(geometry) => found.add(Vec::new(), rings(geometry))?,
    }
    Ok(found.0)
}

fn feature(feature: Feature, found: &mut Gathered) -> Result<(), OutlineFileError> {
    let labels = feature.properties.map(labels).unwrap_or_default();
    let rings = match feature.geometry {
        Some(geometry) => rings(geometry),
        None => Err(ShapeFault::NotAPolygon("nothing")),
    };
    found.add(labels, rings)
}

fn labels(properties: JsonObject) -> Vec<(String, String)> {
    properties
        .into_iter()
        .filter_map(|(column, value)| match value {
            JsonValue::String(text) => Some((column, text)),
            JsonValue::Number(number) => Some((column, number.to_string())),
            _ => None,
        })
        .collect()
}

fn rings(geometry: Geometry) -> Result<Rings, ShapeFault> {
    match geometry.value {
        GeometryValue::Polygon { coordinates } => Ok(vec![part(&coordinates)]),
        GeometryValue::MultiPolygon { coordinates } => {
            Ok(coordinates.iter().map(|each| part(each)).collect())
        }
        GeometryValue::GeometryCollection { geometries } => together(geometries, rings),
        GeometryValue::Point { .. } | GeometryValue::MultiPoint { .. } => {
            Err(ShapeFault::NotAPolygon("a point"))
        }
        GeometryValue::LineString { .. } | GeometryValue::MultiLineString { .. } => {
            Err(ShapeFault::NotAPolygon("a line"))
        }
    }
}

fn part(rings: &[Vec<Position>]) -> Vec<Vec<[f64; 2]>> {
    rings
        .iter()
        .map(|ring| {
            ring.iter()
                // A position with fewer numbers is found unsound later.
                .map(|position| match position.as_slice() {
                    [east, north, ..] => [*east, *north],
                    _ => [f64::NAN; 2],
                })
                .collect()
        })
        .collect()
}

fn one_line(message: &str) -> String {
    message
        .split_whitespace()
        .collect::<Vec<_>>()
        .join(" ")
        .chars()
        .take(200)
        .collect()
}
