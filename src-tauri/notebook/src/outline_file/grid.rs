//! What the numbers of a shapefile mean, by its .prj: degrees, or meters or feet of a
//! grid that are turned into degrees.

use proj4rs::Proj;
use proj4rs::transform::transform;

use super::{Corner, Rings, ShapeFault, ShapeFileError};

/// Longest .prj, bytes, and how deep its brackets may lie: far above any real one, and
/// what keeps its reader, which calls itself for each bracket, within the stack.
const LONGEST: usize = 8 * 1024;
const DEEPEST: usize = 12;

/// Half the longer axis of the ellipsoid of WGS 84, meters. NAD 83, ETRS 89 and the
/// others that share it lie within two meters of WGS 84; those of another ellipsoid
/// (NAD 27, say) do not, by up to some hundred.
const AXIS: &str = "6378137";

/// What the numbers are.
pub(super) enum Grid {
    Degrees,
    Projected {
        /// The grid, and degrees on the same ellipsoid.
        from: Box<Proj>,
        to: Box<Proj>,
    },
}

impl Grid {
    /// Reads a .prj: well-known text, as programs for maps write it.
    pub(super) fn of(prj: &str) -> Result<Grid, ShapeFileError> {
        let text = prj.trim_start_matches('\u{feff}').trim();
        if text.is_empty() {
            return Ok(Grid::Degrees);
        }
        let name = || {
            let name = text.split('"').nth(1).unwrap_or("unknown");
            name.chars().take(60).collect::<String>()
        };
        let told = (text.len() <= LONGEST && depth(text) <= DEEPEST)
            .then(|| proj4wkt::wkt_to_projstring(text).ok())
            .flatten();
        let Some(told) = told else {
            return if is_geographic(text) {
                Ok(Grid::Degrees)
            } else {
                Err(ShapeFileError::Projected(name()))
            };
        };
        let of = |wanted: &str| told.split(' ').find_map(|word| word.strip_prefix(wanted));
        let axis = of("+a=").unwrap_or_default();
        if axis.trim_end_matches('0').trim_end_matches('.') != AXIS || of("+pm=").is_some() {
            return Err(ShapeFileError::Datum(name()));
        }
        if of("+proj=") == Some("longlat") {
            return Ok(Grid::Degrees);
        }
        let degrees = format!("+proj=longlat +a={AXIS} +rf=298.257223563 +no_defs");
        let projections = Proj::from_proj_string(&told).and_then(|from| {
            let to = Proj::from_proj_string(&degrees)?;
            Ok((Box::new(from), Box::new(to)))
        });
        match projections {
            Ok((from, to)) => Ok(Grid::Projected { from, to }),
            Err(_) => Err(ShapeFileError::Projected(name())),
        }
    }

    /// The same rings in degrees.
    pub(super) fn degrees(&self, mut rings: Rings) -> Result<Rings, ShapeFault> {
        if let Grid::Projected { from, to } = self {
            for corner in rings.iter_mut().flatten().flatten() {
                *corner = corner_in_degrees(from, to, *corner).ok_or_else(|| {
                    ShapeFault::Unreadable("a corner lies off its grid".to_owned())
                })?;
            }
        }
        Ok(rings)
    }
}

fn corner_in_degrees(from: &Proj, to: &Proj, [east, north]: Corner) -> Option<Corner> {
    let mut place = (east, north, 0.0);
    transform(from, to, &mut place).ok()?;
    let (longitude, latitude, _) = place;
    (longitude.is_finite() && latitude.is_finite())
        .then(|| [longitude.to_degrees(), latitude.to_degrees()])
}

/// Whether it begins as the text of a geographic system does.
fn is_geographic(text: &str) -> bool {
    ["GEOGCS", "GEOGCRS", "GEODCRS"].iter().any(|word| {
        text.get(..word.len())
            .is_some_and(|start| start.eq_ignore_ascii_case(word))
    })
}

/// How deep its brackets lie.
fn depth(text: &str) -> usize {
    let (mut depth, mut deepest) = (0_usize, 0);
    for byte in text.bytes() {
        match byte {
            b'[' | b'(' => depth += 1,
            b']' | b')' => depth = depth.saturating_sub(1),
            _ => {}
        }
        deepest = deepest.max(depth);
    }
    deepest
}
