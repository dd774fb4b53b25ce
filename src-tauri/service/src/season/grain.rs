//! Moisture of grain, as far as an outlook needs it.

use chrono::NaiveDate;
use ripening::air::EquilibriumSet;
use ripening::dry_down::{DryDownError, MoistureReading, RatePrior};
use ripening::outlook::{Followed, GrainAhead};
use ripening::weather::WeatherRecord;
use rusqlite::Connection;
use uuid::Uuid;

use crate::Problem;
use notebook::views::harvest;

/// A planting's moisture readings up to a day, as the model takes them.
pub(crate) fn moisture_readings(
    db: &Connection,
    planting: Uuid,
    as_of: NaiveDate,
) -> Result<Vec<MoistureReading>, Problem> {
    let rows = harvest::of_planting(db, planting)?;
    Ok(rows
        .into_iter()
        .filter(|row| row.seen.on <= as_of)
        .filter_map(|row| row.seen.moisture_reading())
        .collect())
}

/// The courses of moisture of a planting that was followed.
pub(crate) fn grain_of(
    followed: &Followed,
    record: &WeatherRecord,
    readings: &[MoistureReading],
    set: EquilibriumSet,
) -> Result<GrainAhead, DryDownError> {
    followed.grain_ahead(record, readings, RatePrior::default(), set)
}
