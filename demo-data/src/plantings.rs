//! The twelve plantings of six invented hybrids, and how each ripens.

use std::collections::BTreeMap;

use chrono::NaiveDate;

use crate::chance::Chance;
use crate::weather::Weather;
use crate::{YEAR, day};

/// How the heads of a planting stand to each other in time.
#[derive(Clone, Copy, PartialEq, Eq)]
pub enum Stand {
    /// One emergence, few tillers.
    Even,
    /// A fifth of the heads are tillers, later than the main heads.
    Tillers,
    /// Part of the field came up only after a rain.
    TwoFlush,
}

/// An invented hybrid.
pub struct Hybrid {
    /// A plain invented code.
    pub code: &'static str,
    /// Heat from planting to mid bloom, deg F days.
    to_bloom: f64,
    /// Share of the plants that lodge once the grain is at hard dough.
    pub lodging: f64,
}

/// The six hybrids, early to late.
pub const HYBRIDS: [Hybrid; 6] = [
    hybrid("Early tan 1", 1_430.0, 0.02),
    hybrid("Early red 2", 1_480.0, 0.04),
    hybrid("Mid tan 3", 1_610.0, 0.02),
    hybrid("Mid red 4", 1_660.0, 0.03),
    hybrid("Late red 5", 1_800.0, 0.08),
    hybrid("Forage late 6", 1_860.0, 0.05),
];

const fn hybrid(code: &'static str, to_bloom: f64, lodging: f64) -> Hybrid {
    Hybrid {
        code,
        to_bloom,
        lodging,
    }
}

/// What was planted, where and when.
pub struct Planting {
    /// Its name, unique in the season.
    pub name: &'static str,
    /// Its field.
    pub field: &'static str,
    /// Place in [`HYBRIDS`].
    pub hybrid: usize,
    /// Month and day of planting.
    planted: (u32, u32),
    /// grain, silage or seed.
    pub purpose: &'static str,
    /// The weather station nearest to it.
    pub station: &'static str,
    /// How its heads stand in time.
    pub stand: Stand,
    /// Whether the grower wrote down the day of half bloom.
    pub bloom_noted: bool,
}

impl Planting {
    /// Civil date of planting.
    pub fn planted_on(&self) -> NaiveDate {
        day(YEAR, self.planted.0, self.planted.1)
    }
}

/// The season's plantings.
#[rustfmt::skip]
pub const PLANTINGS: [Planting; 12] = [
    planting("North 1", "North farm, field 1", 0, (5, 9), "grain", "demo-north", Stand::Even, true),
    planting("North 2", "North farm, field 2", 3, (5, 14), "grain", "demo-north", Stand::Even, false),
    planting("North 3", "North farm, field 3", 1, (5, 23), "grain", "demo-north", Stand::Tillers, false),
    planting("North 4", "North farm, field 4", 5, (5, 17), "silage", "demo-north", Stand::Even, false),
    planting("Creek 1", "Creek farm, field 1", 2, (5, 20), "grain", "demo-south", Stand::Even, false),
    planting("Creek 2", "Creek farm, field 2", 4, (5, 12), "grain", "demo-south", Stand::Tillers, false),
    planting("Creek 3", "Creek farm, field 3", 2, (6, 8), "grain", "demo-south", Stand::TwoFlush, false),
    planting("Creek 4", "Creek farm, field 4", 0, (6, 16), "grain", "demo-south", Stand::Even, true),
    planting("Hill 1", "Hill farm, field 1", 3, (6, 2), "seed", "demo-north", Stand::Even, false),
    planting("Hill 2", "Hill farm, field 2", 4, (6, 6), "grain", "demo-north", Stand::Tillers, false),
    planting("Hill 3", "Hill farm, field 3", 1, (7, 3), "grain", "demo-north", Stand::Even, false),
    planting("Hill 4", "Hill farm, field 4", 5, (6, 12), "silage", "demo-north", Stand::Even, false),
];

#[allow(clippy::too_many_arguments)] // One row of the table above.
const fn planting(
    name: &'static str,
    field: &'static str,
    hybrid: usize,
    planted: (u32, u32),
    purpose: &'static str,
    station: &'static str,
    stand: Stand,
    bloom_noted: bool,
) -> Planting {
    Planting {
        name,
        field,
        hybrid,
        planted,
        purpose,
        station,
        stand,
        bloom_noted,
    }
}

/// A planting together with the truth about it that no scout sees.
pub struct Grown {
    /// What was planted.
    pub planting: &'static Planting,
    /// Age of its average main head on each day: heat since mid bloom.
    pub age: BTreeMap<NaiveDate, f64>,
    /// Heat from a kernel's bloom to liquid, pliable, dented and dark spot.
    pub marks: [f64; 4],
    /// Heat between the bloom of a head's top and its base.
    pub span: f64,
    /// Spread between the means of stops, deg F days.
    pub stop_spread: f64,
    /// Spread between heads at a stop, deg F days.
    pub head_spread: f64,
}

impl Grown {
    /// First day on which the average head is at least this old.
    pub fn day_of_age(&self, age: f64) -> Option<NaiveDate> {
        self.age
            .iter()
            .find(|(_, reached)| **reached >= age)
            .map(|(date, _)| *date)
    }

    /// The hybrid.
    pub fn hybrid(&self) -> &'static Hybrid {
        &HYBRIDS[self.planting.hybrid]
    }
}

/// Published marks after a kernel's bloom (milk is an assumption), deg F days.
const MARKS: [f64; 4] = [130.0, 297.0, 747.0, 1_107.0];

/// Lets every planting grow through the season's weather.
pub fn grow(seed: u64, weather: &Weather) -> Vec<Grown> {
    let mut chance = Chance::stream(seed, 3);
    // A hybrid's own pace to bloom and, apart from it, through grain fill.
    let paces: Vec<(f64, f64)> = HYBRIDS
        .iter()
        .map(|_| (chance.normal(1.0, 0.03), chance.normal(1.0, 0.07)))
        .collect();
    PLANTINGS
        .iter()
        .map(|planting| {
            let (to_bloom, fill) = paces[planting.hybrid];
            let bloom_heat =
                HYBRIDS[planting.hybrid].to_bloom * to_bloom * chance.normal(1.0, 0.015);
            // The field is not the station: soil, slope and water set its own pace.
            let field_pace = chance.normal(1.0, 0.02);
            let age = weather
                .heat_since(planting.station, planting.planted_on())
                .into_iter()
                .map(|(date, heat)| (date, heat * field_pace - bloom_heat))
                .collect();
            Grown {
                planting,
                age,
                marks: MARKS.map(|mark| mark * fill * chance.normal(1.0, 0.01)),
                span: chance.normal(170.0, 15.0).clamp(125.0, 220.0),
                stop_spread: 40.0 * libm::exp(chance.normal(0.0, 0.4)),
                head_spread: 65.0 * libm::exp(chance.normal(0.0, 0.25)),
            }
        })
        .collect()
}
