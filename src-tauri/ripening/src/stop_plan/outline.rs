//! The outline of a planting: checked once, then measured in meters.

use geo::{
    Area, BoundingRect, Closest, ClosestPoint, Contains, Coord, LineString, LinesIter,
    MultiPolygon, Point, Polygon, Rect, Validation,
};
use thiserror::Error;

use super::Spot;

/// Mean radius of the earth (IUGG), meters.
const EARTH_RADIUS: f64 = 6_371_008.8;

/// Farther than this from its middle nothing belongs to one planting, and a flat
/// map is no longer good to a meter.
const FARTHEST: f64 = 30_000.0;

/// Below this nobody needs a plan, or the outline is a slip of the finger.
const LEAST_AREA: f64 = 400.0;

/// A place in meters east (x) and north (y) of the middle of the outline.
pub(super) type Meters = Coord<f64>;

/// Outline of a planting, holes and separate parts allowed, known to be sound.
#[derive(Debug, Clone, PartialEq)]
pub struct Outline {
    parts: MultiPolygon<f64>,
    bounds: Rect<f64>,
    map: FlatMap,
}

/// Why an outline was refused.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum OutlineError {
    /// No ring or too few corners.
    #[error("the outline has fewer than three corners: draw it again")]
    TooFewCorners,
    /// Not a place on earth.
    #[error(
        "corner {corner} is at longitude {longitude}, latitude {latitude}: \
         longitude comes first, -180 to 180, then latitude, -85 to 85"
    )]
    NotOnEarth {
        /// Number of the corner in its ring, from 1.
        corner: usize,
        /// Degrees east, as given.
        longitude: f64,
        /// Degrees north, as given.
        latitude: f64,
    },
    /// More than a planting.
    #[error("the outline is more than 60 km across: check its corners")]
    TooLarge,
    /// Less than a planting.
    #[error("the outline holds {0:.0} square meters: check its corners")]
    TooSmall(f64),
    /// Lines that cross, holes outside, and the like.
    #[error("the outline is not a plain shape ({0}): draw it again")]
    NotPlain(String),
}

impl Outline {
    /// Checks an outline given as the coordinates of a GeoJSON MultiPolygon (RFC
    /// 7946): parts, of rings, of [longitude, latitude] and perhaps a height; the
    /// first ring of a part is its edge, the others its holes. A ring may be left
    /// open.
    ///
    /// # Errors
    /// [`OutlineError`] where it is no sound outline of a planting.
    pub fn new(parts: &[Vec<Vec<Vec<f64>>>]) -> Result<Outline, OutlineError> {
        let mut polygons = Vec::with_capacity(parts.len());
        for part in parts {
            let mut rings = part.iter().map(|ring| checked_ring(ring));
            let edge = rings.next().ok_or(OutlineError::TooFewCorners)??;
            let holes = rings.collect::<Result<Vec<_>, _>>()?;
            polygons.push(Polygon::new(edge, holes));
        }
        let degrees = MultiPolygon::new(polygons);
        let bounds = degrees.bounding_rect().ok_or(OutlineError::TooFewCorners)?;
        let map = FlatMap::around(bounds.center());
        let parts = map.flatten(&degrees);
        let bounds = parts.bounding_rect().ok_or(OutlineError::TooFewCorners)?;
        if bounds.width() > 2.0 * FARTHEST || bounds.height() > 2.0 * FARTHEST {
            return Err(OutlineError::TooLarge);
        }
        parts
            .check_validation()
            .map_err(|error| OutlineError::NotPlain(error.to_string()))?;
        let area = parts.unsigned_area();
        if area < LEAST_AREA {
            return Err(OutlineError::TooSmall(area));
        }
        Ok(Outline { parts, bounds, map })
    }

    /// Area inside, holes left out, square meters.
    pub fn square_meters(&self) -> f64 {
        self.parts.unsigned_area()
    }

    /// Meters from a spot to the outline: 0 inside it, none where it is more
    /// than some tens of kilometers away.
    pub fn meters_to(&self, spot: Spot) -> Option<f64> {
        let point = Point::from(self.near(spot)?);
        if self.parts.contains(&point) {
            return Some(0.0);
        }
        let squared = self
            .parts
            .lines_iter()
            .map(|line| match line.closest_point(&point) {
                Closest::SinglePoint(near) | Closest::Intersection(near) => {
                    let apart = point - near;
                    apart.dot(apart)
                }
                Closest::Indeterminate => f64::INFINITY,
            })
            .fold(f64::INFINITY, f64::min);
        squared.is_finite().then(|| squared.sqrt())
    }

    /// The place at two fractions of the surrounding box.
    pub(super) fn in_box(&self, unit: [f64; 2]) -> Meters {
        let low = self.bounds.min();
        Coord {
            x: low.x + unit[0] * self.bounds.width(),
            y: low.y + unit[1] * self.bounds.height(),
        }
    }

    /// Whether a place is inside and at least `edge` meters from every edge,
    /// those of holes included. Squares of distances are compared: no square root
    /// and no `hypot`, whose last bit differs between phones.
    pub(super) fn holds(&self, place: Meters, edge: f64) -> bool {
        let point = Point::from(place);
        self.parts.contains(&point)
            && self
                .parts
                .lines_iter()
                .all(|line| match line.closest_point(&point) {
                    Closest::SinglePoint(near) | Closest::Intersection(near) => {
                        let apart = point - near;
                        apart.dot(apart) >= edge * edge
                    }
                    Closest::Indeterminate => true,
                })
    }

    /// A spot near the outline on its flat map.
    pub(super) fn near(&self, spot: Spot) -> Option<Meters> {
        let place = self.map.place(Coord {
            x: spot.longitude,
            y: spot.latitude,
        });
        let close = place.x.abs() <= FARTHEST && place.y.abs() <= FARTHEST;
        close.then_some(place)
    }

    /// Back to latitude and longitude.
    pub(super) fn spot(&self, place: Meters) -> Spot {
        Spot {
            latitude: self.map.middle.y + place.y / self.map.north,
            longitude: self.map.middle.x + place.x / self.map.east,
        }
    }
}

fn checked_ring(ring: &[Vec<f64>]) -> Result<LineString<f64>, OutlineError> {
    let mut corners = Vec::with_capacity(ring.len());
    for (at, position) in ring.iter().enumerate() {
        let (longitude, latitude) = match position.as_slice() {
            [longitude, latitude, ..] => (*longitude, *latitude),
            _ => (f64::NAN, f64::NAN),
        };
        // Not-a-number fails both.
        if !(longitude.abs() <= 180.0 && latitude.abs() <= 85.0) {
            return Err(OutlineError::NotOnEarth {
                corner: at + 1,
                longitude,
                latitude,
            });
        }
        let corner = Coord {
            x: longitude,
            y: latitude,
        };
        // A corner tapped twice is one corner.
        if corners.last() != Some(&corner) {
            corners.push(corner);
        }
    }
    if corners.len() > 1 && corners.first() == corners.last() {
        corners.pop();
    }
    if corners.len() < 3 {
        return Err(OutlineError::TooFewCorners);
    }
    let mut ring = LineString::new(corners);
    ring.close();
    Ok(ring)
}

/// Equirectangular map about one point: over a planting (a few km) it is good to
/// well under a meter in a hundred.
#[derive(Debug, Clone, Copy, PartialEq)]
struct FlatMap {
    middle: Coord<f64>,
    /// Meters to a degree of longitude.
    east: f64,
    /// Meters to a degree of latitude.
    north: f64,
}

impl FlatMap {
    fn around(middle: Coord<f64>) -> FlatMap {
        let north = EARTH_RADIUS * std::f64::consts::PI / 180.0;
        FlatMap {
            middle,
            east: north * libm::cos(middle.y * std::f64::consts::PI / 180.0),
            north,
        }
    }

    fn place(&self, degrees: Coord<f64>) -> Meters {
        Coord {
            x: (degrees.x - self.middle.x) * self.east,
            y: (degrees.y - self.middle.y) * self.north,
        }
    }

    fn flatten(&self, degrees: &MultiPolygon<f64>) -> MultiPolygon<f64> {
        use geo::MapCoords;
        degrees.map_coords(|corner| self.place(corner))
    }
}
