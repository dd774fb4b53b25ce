//! The stops over the field's outline, north up, without any ground below.

use crate::Units;
use crate::pen::{FAINT, INK, Pen, RULE, Weight};

/// Meters of a degree of latitude (mean of the WGS 84 ellipsoid, 1e7 m / 90).
const METERS_PER_DEGREE: f64 = 111_111.0;

/// Draws stops (number, longitude, latitude) and outline into a box.
pub fn draw(
    pen: &mut Pen,
    (x, y): (f32, f32),
    (width, height): (f32, f32),
    stops: &[(u32, f64, f64)],
    outline: &[Vec<(f64, f64)>],
    units: Units,
) {
    pen.frame((x, y), (width, height), 0.8, RULE);
    let all: Vec<(f64, f64)> = stops
        .iter()
        .map(|(_, longitude, latitude)| (*longitude, *latitude))
        .chain(outline.iter().flatten().copied())
        .collect();
    let Some(first) = all.first() else { return };
    let (mut low, mut high) = (*first, *first);
    for (longitude, latitude) in &all {
        low = (low.0.min(*longitude), low.1.min(*latitude));
        high = (high.0.max(*longitude), high.1.max(*latitude));
    }
    let middle = (0.5 * (low.0 + high.0), 0.5 * (low.1 + high.1));
    let shrink = middle.1.to_radians().cos().max(0.01);
    // Meters east and north of the middle; a single stop gets a field's room.
    let east = |longitude: f64| (longitude - middle.0) * METERS_PER_DEGREE * shrink;
    let north = |latitude: f64| (latitude - middle.1) * METERS_PER_DEGREE;
    let wide = (2.0 * east(high.0)).max(60.0);
    let tall = (2.0 * north(high.1)).max(60.0);
    let room = (f64::from(width) - 36.0, f64::from(height) - 40.0);
    let scale = (room.0 / wide).min(room.1 / tall);
    let (cx, cy) = (x + width / 2.0, y + (height - 14.0) / 2.0);
    #[allow(clippy::cast_possible_truncation)] // points on a page
    let at = |longitude: f64, latitude: f64| {
        (
            cx + (scale * east(longitude)) as f32,
            cy - (scale * north(latitude)) as f32,
        )
    };
    for ring in outline {
        let ring: Vec<(f32, f32)> = ring.iter().map(|(lon, lat)| at(*lon, *lat)).collect();
        pen.ring(&ring, 1.2, FAINT);
    }
    for (number, longitude, latitude) in stops {
        let (px, py) = at(*longitude, *latitude);
        pen.disk((px, py), 7.0, INK);
        let text = number.to_string();
        let half = pen.type_.width(&text, 8.0, Weight::Bold) / 2.0;
        pen.text(
            px - half,
            py + 2.8,
            8.0,
            Weight::Bold,
            (255, 255, 255),
            &text,
        );
    }
    bar(pen, (x + 8.0, y + height - 8.0), scale, room.0, units);
    let (nx, ny) = (x + width - 12.0, y + 22.0);
    pen.stroke((nx, ny), (nx, ny - 12.0), 1.4, INK);
    pen.stroke((nx, ny - 13.0), (nx - 3.0, ny - 8.0), 1.4, INK);
    pen.stroke((nx, ny - 13.0), (nx + 3.0, ny - 8.0), 1.4, INK);
    pen.text(nx - 2.6, ny + 8.5, 8.0, Weight::Bold, INK, "N");
}

/// A bar of a round length.
fn bar(pen: &mut Pen, (x, y): (f32, f32), scale: f64, room: f64, units: Units) {
    let (per_unit, name, far, far_name) = match units {
        Units::Metric => (1.0, "m", 1000.0, "km"),
        Units::Us => (0.3048, "ft", 5280.0, "mi"),
    };
    let mut length = 1.0;
    // The longest of 1, 2, 5, 10, ... that takes no more than a third of the room.
    for power in 0..7 {
        for first in [1.0, 2.0, 5.0] {
            let candidate = first * 10_f64.powi(power);
            if candidate * per_unit * scale <= room / 3.0 {
                length = candidate;
            }
        }
    }
    let (shown, unit) = if length >= far {
        (format!("{:.1}", length / far), far_name)
    } else {
        (format!("{length}"), name)
    };
    #[allow(clippy::cast_possible_truncation)]
    let wide = (length * per_unit * scale) as f32;
    pen.stroke((x, y), (x + wide, y), 1.6, INK);
    pen.stroke((x, y - 3.0), (x, y + 1.0), 1.6, INK);
    pen.stroke((x + wide, y - 3.0), (x + wide, y + 1.0), 1.6, INK);
    pen.text(
        x + wide + 4.0,
        y + 1.0,
        8.0,
        Weight::Regular,
        FAINT,
        &format!("{shown} {unit}"),
    );
}
