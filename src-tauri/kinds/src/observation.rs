//! What is seen of ripe grain, as a change tells it.

use chrono::NaiveDate;
use ripening::dry_down::{Meter, MoistureReading};
use serde::{Deserialize, Serialize};

use crate::names::names;

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

names! {
    /// A part of an observation, as the history tells it.
    SeenPart {
        /// Which kind of observation.
        Kind = "kind",
        /// Kind of meter.
        Meter = "meter",
        /// Which meter.
        MeterName = "meter_name",
        /// How far the meter is off for good.
        MeterError = "meter_error",
        /// Moisture of each sample.
        Percents = "percents",
        /// Area of a frame.
        FrameSquareFeet = "frame_square_feet",
        /// Seeds in each frame.
        Seeds = "seeds",
        /// Whole heads in all frames.
        Heads = "heads",
        /// Plants lodged.
        Lodged = "lodged",
        /// Stalks that give way.
        WeakStalks = "weak_stalks",
        /// Weathering of the grain.
        Weathering = "weathering",
        /// The day.
        On = "on",
        /// Who looked.
        Scout = "scout",
        /// Free words.
        Note = "note",
        /// Whether it was removed.
        Removed = "removed",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_part_of_an_observation_has_a_name() {
        let seen = |what| Seen {
            on: NaiveDate::MIN,
            what,
            scout: "Ada".to_owned(),
            note: Some("edge".to_owned()),
        };
        let all = [
            Observation::Moisture {
                meter: Meter::Hand,
                meter_name: "old".to_owned(),
                meter_error: Some(0.5),
                percents: vec![20.0],
            },
            Observation::Ground {
                frame_square_feet: 1.0,
                seeds: vec![3],
                heads: 1,
            },
            Observation::Standing {
                lodged: 1,
                weak_stalks: Some(2),
                weathering: 3,
            },
            Observation::Cut,
        ];
        for seen in all.map(seen) {
            let parts = serde_json::to_value(seen).unwrap();
            for (name, value) in parts.as_object().unwrap() {
                let inner = value.as_object().into_iter().flatten();
                let names = inner.map(|(name, _)| name);
                let own = (!value.is_object()).then_some(name);
                for name in names.chain(own) {
                    assert_ne!(SeenPart::of(name), SeenPart::Newer, "{name}");
                }
            }
        }
    }
}
