//! KML: placemarks with polygons, wherever they stand in the document.

use kml::types::{Element, Geometry, LinearRing, Placemark, Polygon};
use kml::{Kml, KmlReader};
use quick_xml::events::Event;

use super::{Corner, FileOutline, Gathered, OutlineFileError, Rings, ShapeFault, together};

/// Deeper than this no map is nested, and the reader's own depth is bounded.
const DEEPEST: usize = 64;

pub(super) fn read(text: &str) -> Result<Vec<FileOutline>, OutlineFileError> {
    check(text)?;
    let document = KmlReader::<_, f64>::from_string(text)
        .read()
        .map_err(|error| OutlineFileError::Kml(one_line(&error.to_string())))?;
    let mut found = Gathered::default();
    walk(document, &mut found)?;
    Ok(found.0)
}

/// Checks that the text is XML to its end and not nested too deep. The reader
/// trusts its input in both: on an element that is never closed it does not stop.
fn check(text: &str) -> Result<(), OutlineFileError> {
    let mut reader = quick_xml::Reader::from_str(text);
    let mut open = 0_usize;
    loop {
        match reader.read_event() {
            Ok(Event::Start(_)) if open == DEEPEST => {
                return Err(OutlineFileError::Kml(format!(
                    "its elements are nested more than {DEEPEST} deep"
                )));
            }
            Ok(Event::Start(_)) => open += 1,
            Ok(Event::End(_)) => open = open.saturating_sub(1),
            Ok(Event::Eof) if open == 0 => return Ok(()),
            Ok(Event::Eof) => {
                return Err(OutlineFileError::Kml(
                    "it ends before its last element: it may be cut off".to_owned(),
                ));
            }
            Ok(_) => {}
            Err(error) => return Err(OutlineFileError::Kml(one_line(&error.to_string()))),
        }
    }
}

fn one_line(message: &str) -> String {
    let words: Vec<&str> = message.split_whitespace().collect();
    words.join(" ").chars().take(200).collect()
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
        Geometry::MultiGeometry(several) => together(several.geometries, rings),
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
