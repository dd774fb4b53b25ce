//! What the numbers of a shapefile mean, by its .prj: degrees, or meters or feet of a
//! grid that are turned into degrees.

use proj4rs::Proj;
use proj4rs::transform::transform;

use super::{Corner, Rings, ShapeFault, ShapeFileError, corners_of};
use kinds::one_line;

/// Longest .prj, bytes, and how deep its brackets may lie: far above any real one, and
/// what keeps its reader, which calls itself for each bracket, within the stack.
const LONGEST: usize = 8 * 1024;
const DEEPEST: usize = 12;

/// Beginnings of the names of datums, in capitals and without signs between, that lie
/// within two meters of WGS 84; of any other (NAD 27, say) nothing is known here, and it
/// may lie some hundred meters beside.
const LIKE_WGS_84: [&str; 22] = [
    "WGS84",
    "WGS1984",
    "WORLDGEODETICSYSTEM1984",
    "NAD83",
    "NAD1983",
    "NORTHAMERICAN1983",
    "NORTHAMERICANDATUM1983",
    "ITRF",
    "INTERNATIONALTERRESTRIALREFERENCEFRAME",
    "ETRS",
    "EUROPEANTERRESTRIALREFERENCESYSTEM",
    "GDA",
    "GEOCENTRICDATUMOFAUSTRALIA",
    "NZGD2000",
    "NEWZEALANDGEODETICDATUM2000",
    "SIRGAS",
    "SISTEMADEREFERENCIAGEOCENTRICOPARALASAMERICAS",
    "POSGAR2007",
    "POSICIONESGEODESICASARGENTINAS2007",
    "MEXICOITRF",
    "CHINA2000",
    "HARTEBEESTHOEK",
];
/// Half the longer axis of their ellipsoids, meters.
const AXIS: &str = "6378137";

/// How the Mercator of maps on the web, which is that of a sphere, is told from the other
/// where its method does not say so.
const OF_THE_WEB: [&str; 5] = ["PSEUDO", "WEB", "GOOGLE", "NADGRIDS=@NULL", "\"3857\""];

/// What the numbers are.
pub(super) enum Grid {
    Degrees,
    Projected {
        from: Box<Proj>,
        /// Degrees. It names no datum, so that none is moved to another: those that
        /// come here are all like WGS 84.
        to: Box<Proj>,
    },
}

impl Grid {
    /// Reads a .prj: well-known text, as programs for maps write it.
    pub(super) fn of(prj: &str) -> Result<Grid, ShapeFileError> {
        let prj = prj.trim_start_matches('\u{feff}').trim();
        if prj.is_empty() {
            return Ok(Grid::Degrees);
        }
        let name = || {
            let name = prj.split('"').nth(1).unwrap_or("unknown");
            one_line(&name.chars().take(60).collect::<String>())
        };
        let unread = || ShapeFileError::Projected(name());
        let text = system(prj).ok_or_else(unread)?;
        let told = proj4wkt::wkt_to_projstring(&text).map_err(|_| unread())?;
        let of = |wanted: &str| told.split(' ').find_map(|word| word.strip_prefix(wanted));

        let capitals = text.to_uppercase();
        let axis = of("+a=").unwrap_or_default();
        let like_wgs_84 = axis.trim_end_matches('0').trim_end_matches('.') == AXIS
            && of("+pm=").is_none()
            && datum(&capitals)
                .is_some_and(|datum| LIKE_WGS_84.iter().any(|known| datum.starts_with(known)));
        if !like_wgs_84 {
            return Err(ShapeFileError::Datum(name()));
        }
        if ["\"GRAD", "\"GON\"", "RADIAN\""]
            .iter()
            .any(|unit| capitals.contains(unit))
        {
            return Err(unread());
        }

        let told = match of("+proj=") {
            Some("longlat") => return Ok(Grid::Degrees),
            Some("geocent") => return Err(unread()),
            Some("merc") if OF_THE_WEB.iter().any(|word| capitals.contains(word)) => {
                told.replacen("+proj=merc", "+proj=webmerc", 1)
            }
            _ => told,
        };
        let degrees = format!("+proj=longlat +a={AXIS} +rf=298.257223563 +no_defs");
        let proj = |of: &str| {
            Proj::from_proj_string(of)
                .map(Box::new)
                .map_err(|_| unread())
        };
        Ok(Grid::Projected {
            from: proj(&told)?,
            to: proj(&degrees)?,
        })
    }

    /// The same rings in degrees.
    pub(super) fn degrees(&self, mut rings: Rings) -> Result<Rings, ShapeFault> {
        let Grid::Projected { from, to } = self else {
            return Ok(rings);
        };
        corners_of(&rings)?;
        for corner in rings.iter_mut().flatten().flatten() {
            *corner = corner_in_degrees(from, to, *corner)
                .ok_or_else(|| ShapeFault::Unreadable("a corner lies off its grid".to_owned()))?;
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

/// The first system of a text, which ends with its bracket (heights may follow), without
/// blanks between its words and with square brackets; none where it has no end, or is
/// beyond all measure.
fn system(prj: &str) -> Option<String> {
    let mut text = String::new();
    let (mut depth, mut quoted) = (0_usize, false);
    for letter in prj.chars() {
        if letter == '"' {
            quoted = !quoted;
        }
        if quoted || letter == '"' {
            text.push(letter);
        } else if matches!(letter, '[' | '(') {
            text.push('[');
            depth += 1;
        } else if matches!(letter, ']' | ')') {
            text.push(']');
            depth = depth.checked_sub(1)?;
            if depth == 0 {
                return Some(text);
            }
        } else if !letter.is_whitespace() {
            text.push(letter);
        }
        if depth > DEEPEST || text.len() > LONGEST {
            return None;
        }
    }
    None
}

/// The name of a system's datum, of its letters and digits alone; `text` is in capitals.
/// Names of datums for maps may begin with a `D`.
fn datum(text: &str) -> Option<String> {
    let (_, from) = text
        .split_once("DATUM[\"")
        .or_else(|| text.split_once("ENSEMBLE[\""))?;
    let name = from.split('"').next()?;
    let name = name.strip_prefix("D_").unwrap_or(name);
    Some(name.chars().filter(char::is_ascii_alphanumeric).collect())
}
