//! What is seen of ripe grain, as a change tells it.

use chrono::NaiveDate;
use ripening::dry_down::{Meter, MoistureReading};
use serde::{Deserialize, Serialize};

/// What was seen of a planting's grain on one day.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS), ts(optional_fields = nullable))]
#[serde(tag = "kind", rename_all = "snake_case")]
pub enum Observation {
    /// Samples put through a moisture meter, each from its own spot.
    Moisture {
        /// Kind of meter.
        meter: Meter,
        /// Which one, in the crew's words: readings of one meter share its error.
        #[serde(default)]
        meter_name: String,
        /// How far that meter is off for good, standard deviation in points
        /// (0.05-5); that of its kind where absent.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        meter_error: Option<f64>,
        /// Percent wet basis, one for each sample (1 to 30 of them, 3-70).
        percents: Vec<f64>,
    },
    /// What lies on the ground within frames, each laid down at its own place.
    Ground {
        /// Area of a frame, square feet (0.1-100).
        frame_square_feet: f64,
        /// Loose seeds, one count for each frame (1 to 200 of them).
        seeds: Vec<u32>,
        /// Whole heads within all frames together.
        #[serde(default)]
        heads: u32,
    },
    /// How the planting stands and has weathered.
    Standing {
        /// Plants lodged (lying, or leaning by more than 45 degrees), percent.
        lodged: u8,
        /// Stalks that give way when pushed or pinched, percent; absent where
        /// nobody tried.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        weak_stalks: Option<u8>,
        /// Weathering of the grain (mold, sprouting, loss of color), from 0
        /// (bright and sound) to 9 (all of it spoiled), by eye.
        weathering: u8,
    },
    /// It was cut: nothing stands any more.
    Cut,
}

/// An observation with its day and who made it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Seen {
    /// Civil date.
    pub on: NaiveDate,
    /// What was seen.
    pub what: Observation,
    /// Who looked.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub scout: String,
    /// Free words.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub note: Option<String>,
}

impl Seen {
    /// As the model takes it; `None` where it is no moisture reading, or one that
    /// cannot be.
    pub fn moisture_reading(&self) -> Option<MoistureReading> {
        let Observation::Moisture {
            meter,
            meter_name,
            meter_error,
            percents,
        } = &self.what
        else {
            return None;
        };
        let reading = MoistureReading {
            on: self.on,
            meter: *meter,
            meter_name: if meter_name.is_empty() {
                // Of meters without a name, one of each kind is meant.
                format!("{meter:?}")
            } else {
                meter_name.clone()
            },
            meter_error: *meter_error,
            percents: percents.clone(),
        };
        reading.usable().then_some(reading)
    }
}
