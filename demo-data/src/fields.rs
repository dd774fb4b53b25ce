//! Outlines of the invented fields.
//!
//! They lie in the open ocean, so that they are on nobody's land.

use crate::chance::Chance;
use crate::plantings::PLANTINGS;

/// South-west corner of the first farm, degrees.
const ORIGIN: (f64, f64) = (38.2, -40.4);

/// Metres to a degree of latitude, near enough for outlines of this size.
const METERS_PER_DEGREE: f64 = 111_195.0;

const SQUARE_METERS_PER_ACRE: f64 = 4_046.856_422_4;

/// The outline of one planting: an outer ring, perhaps with a pond cut out.
pub struct Outline {
    /// The planting that grows there.
    pub planting: &'static str,
    /// Its field.
    pub field: &'static str,
    /// Rings of (latitude, longitude), the first the outer one, each closed.
    pub rings: Vec<Vec<(f64, f64)>>,
}

impl Outline {
    /// Area inside the outer ring less the ponds, acres, to a tenth.
    pub fn acres(&self) -> f64 {
        let mut rings = self.rings.iter().map(|ring| ring_area(ring));
        let outer = rings.next().unwrap_or_default();
        let area = rings.fold(outer, |area, pond| area - pond);
        (area / SQUARE_METERS_PER_ACRE * 10.0).round() / 10.0
    }

    /// A place inside, all alike.
    pub fn place(&self, chance: &mut Chance) -> (f64, f64) {
        let outer = &self.rings[0];
        let (south, north) = ends(outer.iter().map(|place| place.0));
        let (west, east) = ends(outer.iter().map(|place| place.1));
        loop {
            let place = (chance.between(south, north), chance.between(west, east));
            let pond = self.rings[1..].iter().any(|ring| inside(ring, place));
            if inside(outer, place) && !pond {
                return place;
            }
        }
    }
}

/// Outlines of all plantings, in the order of [`PLANTINGS`].
pub fn outlines() -> Vec<Outline> {
    // Corners in metres east and north of the field's own south-west corner.
    let square: &[(f64, f64)] = &[(0.0, 0.0), (390.0, 0.0), (390.0, 400.0), (0.0, 400.0)];
    let long: &[(f64, f64)] = &[(0.0, 0.0), (190.0, 0.0), (190.0, 780.0), (0.0, 780.0)];
    let cut: &[(f64, f64)] = &[
        (0.0, 0.0),
        (420.0, 0.0),
        (420.0, 250.0),
        (260.0, 410.0),
        (0.0, 410.0),
    ];
    let bent: &[(f64, f64)] = &[
        (0.0, 0.0),
        (400.0, 0.0),
        (400.0, 160.0),
        (180.0, 160.0),
        (180.0, 420.0),
        (0.0, 420.0),
    ];
    let pond: &[(f64, f64)] = &[
        (150.0, 140.0),
        (150.0, 230.0),
        (250.0, 230.0),
        (250.0, 140.0),
    ];
    PLANTINGS
        .iter()
        .enumerate()
        .map(|(number, planting)| {
            let corner = (
                9_000.0 * (number / 4) as f64 + 850.0 * (number % 2) as f64,
                2_500.0 * (number / 4) as f64 + 900.0 * (number % 4 / 2) as f64,
            );
            let shape = [square, cut, long, bent][(number + number / 4) % 4];
            let mut rings = vec![ring(corner, shape)];
            if number == 4 {
                rings.push(ring(corner, pond));
            }
            Outline {
                planting: planting.name,
                field: planting.field,
                rings,
            }
        })
        .collect()
}

fn ring(corner: (f64, f64), shape: &[(f64, f64)]) -> Vec<(f64, f64)> {
    let east_degree = METERS_PER_DEGREE * libm::cos(ORIGIN.0.to_radians());
    shape
        .iter()
        .chain(shape.first())
        .map(|(east, north)| {
            (
                millionth(ORIGIN.0 + (corner.1 + north) / METERS_PER_DEGREE),
                millionth(ORIGIN.1 + (corner.0 + east) / east_degree),
            )
        })
        .collect()
}

fn ring_area(ring: &[(f64, f64)]) -> f64 {
    let east_degree = METERS_PER_DEGREE * libm::cos(ORIGIN.0.to_radians());
    let twice: f64 = ring
        .windows(2)
        .map(|pair| {
            let (ax, ay) = ((pair[0].1 - ORIGIN.1), (pair[0].0 - ORIGIN.0));
            let (bx, by) = ((pair[1].1 - ORIGIN.1), (pair[1].0 - ORIGIN.0));
            ax * by - bx * ay
        })
        .sum();
    (twice / 2.0).abs() * METERS_PER_DEGREE * east_degree
}

/// Even-odd rule over the edges of a closed ring.
fn inside(ring: &[(f64, f64)], place: (f64, f64)) -> bool {
    ring.windows(2)
        .filter(|pair| {
            let (a, b) = (pair[0], pair[1]);
            (a.0 > place.0) != (b.0 > place.0)
                && place.1 < (b.1 - a.1) * (place.0 - a.0) / (b.0 - a.0) + a.1
        })
        .count()
        % 2
        == 1
}

fn ends(values: impl Iterator<Item = f64>) -> (f64, f64) {
    values.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), value| {
        (low.min(value), high.max(value))
    })
}

/// To a millionth of a degree, about a hand's width.
pub fn millionth(degrees: f64) -> f64 {
    (degrees * 1e6).round() / 1e6
}
