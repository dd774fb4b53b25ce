//! Where the notebook's fields are, roughly: to ask about latitude and longitude that
//! somebody swapped.

use rusqlite::Connection;

use crate::error::StoreError;

/// Places that are looked at, at most.
const MOST: u32 = 500;
/// Degrees within which a place is near another, north and east.
const NEAR: f64 = 2.0;
/// Degrees from which on it is far.
const FAR: f64 = 5.0;

/// Places of stops, stations and outlines, one for each degree.
pub struct KnownPlaces(Vec<(f64, f64)>);

impl KnownPlaces {
    /// Reads them.
    pub fn read(db: &Connection) -> Result<KnownPlaces, StoreError> {
        let mut statement = db.prepare_cached(
            "SELECT avg(latitude), avg(longitude) FROM (
               SELECT latitude, longitude FROM stop
                 WHERE latitude IS NOT NULL AND longitude IS NOT NULL AND NOT removed
               UNION ALL SELECT latitude, longitude FROM station
                 WHERE latitude IS NOT NULL AND longitude IS NOT NULL
               UNION ALL SELECT json_extract(outline, '$.coordinates[0][0][0][1]'),
                                json_extract(outline, '$.coordinates[0][0][0][0]')
                 FROM (SELECT outline FROM planting UNION ALL SELECT outline FROM field)
                 WHERE json_valid(outline))
             WHERE typeof(latitude) IN ('real', 'integer')
               AND typeof(longitude) IN ('real', 'integer')
             GROUP BY round(latitude), round(longitude) LIMIT ?1",
        )?;
        let rows = statement.query_map([MOST], |row| Ok((row.get(0)?, row.get(1)?)))?;
        Ok(KnownPlaces(rows.collect::<Result<_, _>>()?))
    }

    /// Whether a place is far from all of them, and near one the other way round.
    pub fn seem_swapped(&self, (latitude, longitude): (f64, f64)) -> bool {
        let apart = |(north, east): (f64, f64), latitude: f64, longitude: f64| {
            let around = (east - longitude).abs();
            (north - latitude).abs().max(around.min(360.0 - around))
        };
        let far = |known: &(f64, f64)| apart(*known, latitude, longitude) > FAR;
        let near_swapped = |known: &(f64, f64)| apart(*known, longitude, latitude) < NEAR;
        self.0.iter().all(far) && self.0.iter().any(near_swapped)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_what_is_near_the_other_way_round_seems_swapped() {
        let known = KnownPlaces(vec![(-33.1, -61.2), (38.5, -99.2)]);
        assert!(known.seem_swapped((-61.3, -33.0)));
        assert!(!known.seem_swapped((-33.0, -61.3)));
        assert!(!known.seem_swapped((45.0, -93.0)), "a new region");
        assert!(!KnownPlaces(Vec::new()).seem_swapped((-61.3, -33.0)));
    }
}
