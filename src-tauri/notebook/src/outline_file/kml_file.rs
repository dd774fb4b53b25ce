//! KML: placemarks with polygons, wherever they stand in the document.

use kml::types::{Element, Geometry, LinearRing, Placemark, Polygon};
use kml::{Kml, KmlReader};

use super::{Corner, FileOutline, Gathered, OutlineFileError, Rings, ShapeFault};

/// Deeper than this no map is nested, and the reader's own depth is bounded.
const DEEPEST: usize = 64;

pub(super) fn read(text: &str) -> Result<Vec<FileOutline>, OutlineFileError> {
    if depth(text) > DEEPEST {
        return Err(OutlineFileError::Kml(format!(
            "its elements are nested more than {DEEPEST} deep"
        )));
    }
    let document = KmlReader::<_, f64>::from_string(text)
        .read()
        .map_err(|error| {
            let error = error.to_string();
            let line = error.split_whitespace().collect::<Vec<_>>().join(" ");
            OutlineFileError::Kml(line.chars().take(200).collect())
        })?;
    let mut found = Gathered::default();
    walk(document, &mut found)?;
    Ok(found.0)
}

/// Greatest number of elements open at once; more than there are where tags are
/// not closed.
fn depth(text: &str) -> usize {
    let (mut open, mut deepest) = (0_usize, 0);
    let bytes = text.as_bytes();
    for at in memchr_all(bytes) {
        match bytes.get(at + 1) {
            Some(b'/') => open = open.saturating_sub(1),
            Some(b'!' | b'?') | None => {}
            Some(_) => {
                // An element that is closed at once opens nothing.
                let end = bytes[at..].iter().position(|byte| *byte == b'>');
                let closed = end.is_some_and(|end| bytes[at + end - 1] == b'/');
                if !closed {
                    open += 1;
                    deepest = deepest.max(open);
                }
            }
        }
    }
    deepest
}

fn memchr_all(bytes: &[u8]) -> impl Iterator<Item = usize> + '_ {
    bytes
        .iter()
        .enumerate()
        .filter(|(_, byte)| **byte == b'<')
        .map(|(at, _)| at)
}

fn walk(element: Kml, found: &mut Gathered) -> Result<(), OutlineFileError> {
    match element {
        Kml::KmlDocument(document) => walk_all(document.elements, found),
        Kml::Document { elements, .. } => walk_all(elements, found),
        Kml::Folder(folder) => walk_all(folder.elements, found),
        Kml::Placemark(placemark) => mark(placemark, found),
        Kml::Polygon(polygon) => found.add(Vec::new(), Ok(vec![part(polygon)])),
        Kml::MultiGeometry(several) => {
            found.add(Vec::new(), rings(Geometry::MultiGeometry(several)))
        }
        _ => Ok(()),
    }
}

fn walk_all(elements: Vec<Kml>, found: &mut Gathered) -> Result<(), OutlineFileError> {
    elements.into_iter().try_for_each(|each| walk(each, found))
}

fn mark(placemark: Placemark, found: &mut Gathered) -> Result<(), OutlineFileError> {
    let mut labels = Vec::new();
    if let Some(name) = placemark.name {
        labels.push(("name".to_owned(), name));
    }
    for child in &placemark.children {
        values(child, &mut labels);
    }
    let rings = match placemark.geometry {
        Some(geometry) => rings(geometry),
        None => Err(ShapeFault::NotAPolygon("nothing")),
    };
    found.add(labels, rings)
}

/// Values of `ExtendedData`: `Data` with a `value` inside, or `SimpleData`.
fn values(element: &Element, labels: &mut Vec<(String, String)>) {
    let named = element.attrs.get("name");
    if let Some(name) = named {
        let value = element
            .children
            .iter()
            .find(|child| child.name == "value")
            .and_then(|child| child.content.clone())
            .or_else(|| element.content.clone());
        labels.extend(value.map(|value| (name.clone(), value)));
    }
    for child in &element.children {
        values(child, labels);
    }
}

fn rings(geometry: Geometry) -> Result<Rings, ShapeFault> {
    match geometry {
        Geometry::Polygon(polygon) => Ok(vec![part(polygon)]),
        Geometry::MultiGeometry(several) => {
            let parts: Rings = several
                .geometries
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
        Geometry::Point(_) => Err(ShapeFault::NotAPolygon("a point")),
        Geometry::LineString(_) => Err(ShapeFault::NotAPolygon("a line")),
        // Some maps draw a field as its edge alone.
        Geometry::LinearRing(edge) => Ok(vec![vec![ring(edge)]]),
        _ => Err(ShapeFault::NotAPolygon("a model")),
    }
}

fn part(polygon: Polygon) -> Vec<Vec<Corner>> {
    let mut rings = vec![ring(polygon.outer)];
    rings.extend(polygon.inner.into_iter().map(ring));
    rings
}

fn ring(ring: LinearRing) -> Vec<Corner> {
    ring.coords.into_iter().map(|at| [at.x, at.y]).collect()
}
