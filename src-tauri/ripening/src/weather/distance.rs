//! How far a station is from a field.

use libm::{asin, cos, sin};

/// Mean radius of the earth, km (IUGG).
const EARTH_KM: f64 = 6371.0088;

/// Distance over a sphere, km, of two places in degrees (latitude, longitude):
/// the haversine formula. Off by less than 0.6 % on the ellipsoid.
pub fn distance_km(from: (f64, f64), to: (f64, f64)) -> f64 {
    let (lat_from, lat_to) = (from.0.to_radians(), to.0.to_radians());
    let half_lat = sin((lat_to - lat_from) / 2.0);
    let half_lon = sin((to.1 - from.1).to_radians() / 2.0);
    let h = half_lat * half_lat + cos(lat_from) * cos(lat_to) * half_lon * half_lon;
    2.0 * EARTH_KM * asin(h.clamp(0.0, 1.0).sqrt())
}

#[cfg(test)]
mod tests {
    use super::distance_km;

    /// A degree of latitude is a 360th of the circumference.
    #[test]
    fn known_distances() {
        assert_eq!(distance_km((38.0, -98.0), (38.0, -98.0)), 0.0);
        let degree = distance_km((38.0, -98.0), (39.0, -98.0));
        assert!((degree - 111.195).abs() < 0.01, "{degree}");
        let half = distance_km((0.0, 0.0), (0.0, 180.0));
        assert!((half - 20015.1).abs() < 0.1, "{half}");
    }
}
