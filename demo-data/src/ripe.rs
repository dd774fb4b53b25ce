//! What the scouts saw of ripe grain: moisture by a hand meter, seeds on the
//! ground, and how it stands.

use chrono::{Days, NaiveDate};

use crate::chance::Chance;
use crate::plantings::Grown;
use crate::today;
use crate::weather::{Day, Weather};

/// One line of the observation file.
pub struct Seen {
    /// The planting's name.
    pub planting: &'static str,
    /// Civil date.
    pub on: NaiveDate,
    /// What was looked at.
    pub what: What,
    /// Name of the scout.
    pub scout: &'static str,
}

/// What was looked at.
pub enum What {
    /// Percent, a number for each sample.
    Moisture(Vec<f64>),
    /// Loose seeds on each square foot; whole heads are too few to lie on any.
    Ground(Vec<u32>),
    /// Plants lodged and stalks that give way, percent, and weathering 0-9.
    Standing(u32, u32, u32),
}

/// The two meters of the crew and how far each is off for good, points.
const METERS: [(&str, f64); 2] = [("Scout 1", 0.5), ("Scout 2", -0.4)];

/// Looks at every planting for grain that is ripe by the demo's day.
pub fn look_at_all(seed: u64, plantings: &[Grown], weather: &Weather) -> Vec<Seen> {
    let mut lines = Vec::new();
    for (number, grown) in plantings.iter().enumerate() {
        let mut chance = Chance::stream(seed, 200 + number as u64);
        let ripe = grown.day_of_age(grown.marks[3]);
        if let Some(ripe) = ripe.filter(|_| grown.planting.purpose != "silage") {
            lines.extend(look_at(&mut chance, grown, weather, ripe));
        }
    }
    lines
}

/// A visit every five to eight days from four days after the dark spots on.
fn look_at(chance: &mut Chance, grown: &Grown, weather: &Weather, ripe: NaiveDate) -> Vec<Seen> {
    let planting = grown.planting.name;
    let course = dry(chance, weather, grown.planting.station, ripe);
    let loss_a_day = chance.between(0.1, 0.45); // percent of the crop
    let decay = chance.between(0.03, 0.10); // steps of weathering a day
    let mut lodged = 100.0 * grown.hybrid().lodging;
    let mut lines = Vec::new();
    let mut on = ripe + Days::new(4);
    while on <= today() {
        let days = (on - ripe).num_days() as f64;
        let (scout, bias) = *chance.pick(&METERS);
        let mut see = |what| {
            lines.push(Seen {
                planting,
                on,
                what,
                scout,
            });
        };
        let moisture = course
            .iter()
            .find(|(date, _)| *date == on)
            .map_or(14.0, |(_, moisture)| *moisture);
        let samples = (0..3)
            .map(|_| tenth(moisture + bias + chance.normal(0.0, 0.8)))
            .collect();
        see(What::Moisture(samples));
        // 4000 lb an acre, 14,500 seeds to a pound: so many seeds a square foot.
        let fallen = 4_000.0 * loss_a_day / 100.0 * days * 14_500.0 / 43_560.0;
        let frames = (0..5)
            .map(|_| {
                (fallen * libm::exp(chance.normal(0.0, 0.35)) + chance.normal(1.5, 1.0)).max(0.0)
                    as u32
            })
            .collect();
        see(What::Ground(frames));
        lodged += chance.between(0.0, 2.5);
        let weak = lodged * 1.5 + chance.between(0.0, 6.0);
        let in_fives = |share: f64| (share / 5.0).round().clamp(0.0, 20.0) as u32 * 5;
        let weathering = (1.0 + decay * days + chance.normal(0.0, 0.4)).round();
        see(What::Standing(
            in_fives(lodged),
            in_fives(weak),
            weathering.clamp(0.0, 9.0) as u32,
        ));
        on = on + Days::new(chance.between(5.0, 8.0) as u64);
    }
    lines
}

/// Moisture of the field on each day from black layer on.
fn dry(
    chance: &mut Chance,
    weather: &Weather,
    station: &str,
    ripe: NaiveDate,
) -> Vec<(NaiveDate, f64)> {
    let rate = chance.normal(0.76, 0.09).max(0.5);
    let mut moisture = chance.normal(31.5, 1.2);
    weather
        .stations
        .iter()
        .filter(|(name, _)| *name == station)
        .flat_map(|(_, days)| days)
        .filter(|day| day.date >= ripe)
        .map(|day| {
            moisture += change(day, moisture, rate);
            (day.date, moisture)
        })
        .collect()
}

/// A day's change: warm dry air takes water, the less the drier the grain; rain
/// and damp give some back.
fn change(day: &Day, moisture: f64, rate: f64) -> f64 {
    let warmth = (((day.high + day.low) / 2.0 - 40.0) / 27.0).clamp(0.1, 1.8);
    let dryness = ((95.0 - day.humidity) / 38.0).clamp(0.0, 1.6);
    let left = ((moisture - 11.0) / 7.0).clamp(0.0, 1.0);
    let wetted = if day.rain >= 0.1 && moisture < 25.0 {
        0.5
    } else {
        0.0
    };
    wetted - rate * warmth * dryness * left
}

fn tenth(value: f64) -> f64 {
    (value * 10.0).round() / 10.0
}
