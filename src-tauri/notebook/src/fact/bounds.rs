//! The bounds of every value of a fact: one rule for what this device writes and for
//! what others send.
//!
//! Bounds are wide. They keep out what no view, file or model can hold or pay for, not
//! what is unlikely: an unlikely value is for people to judge. The one value beside them
//! is the date of a walk, which may be any of four digits: a walk that was shown as saved
//! stays in sight, its answer says what is wrong with the date, and no other walk's
//! answer stands on it.

use chrono::{Datelike as _, NaiveDate};
use ripening::calendar;
use serde_json::Value;

use super::fields::held;
use super::{
    ChangeName, Fact, HeadRecord, Observation, PhotoTaken, Row, Seen, WeatherDays, WeatherTold,
};
use kinds::{Area, Field, Place};

/// Most facts of a change.
pub(crate) const MOST_FACTS: usize = 20_000;
/// Most heads of a fact.
const MOST_HEADS: usize = 20_000;
/// Longest name, characters.
const LONGEST_NAME: usize = 1_000;
/// Longest note or caption, characters.
const LONGEST_NOTE: usize = 65_536;
/// Largest photo, bytes: as an exchange carries it.
const LARGEST_PHOTO: u64 = 16 << 20;
/// Most pixels of a photo's side.
const LONGEST_SIDE: u32 = 100_000;
/// Largest area of a planting, in either unit.
const LARGEST_AREA: f64 = 1_000_000.0;
/// Largest number of any measure of weather, to either side of 0.
const WEATHER: f64 = 10_000.0;
/// Most samples, frames or terms of one fact.
const MOST_COUNTS: usize = 1_000;
/// Most seeds of a frame, and heads of all frames.
const MOST_SEEDS: u32 = 1_000_000;
/// Largest number of a term, to either side of 0.
const TERM: f64 = 1e12;

/// Whether every value is within its bounds.
///
/// # Errors
/// The name of a value that is not.
pub(crate) fn check(fact: &Fact) -> Result<(), &'static str> {
    match fact {
        Fact::Set { row, to, .. } => {
            for (field, value) in to {
                check_field(*row, field, value)?;
            }
            Ok(())
        }
        Fact::Walk {
            walked_on, scout, ..
        } => {
            need(is_shown(*walked_on), "walked_on")?;
            need(is_short(scout), "scout")
        }
        Fact::Stop { label, place, .. } => {
            need(label.as_deref().is_none_or(is_short), "label")?;
            need(place.as_ref().is_none_or(is_on_globe), "place")
        }
        Fact::Heads { heads, .. } => {
            need(heads.len() <= MOST_HEADS, "heads")?;
            for head in heads {
                check_said(&head.said)?;
            }
            Ok(())
        }
        Fact::Correct { to, was, .. } => {
            check_said(to)?;
            check_said(was)
        }
        Fact::Remove { .. } | Fact::RemoveObserved { .. } => Ok(()),
        Fact::Photo(taken) => check_photo(taken),
        Fact::Moved { first, .. } => need(is_seq(*first), "first"),
        Fact::Weather(days) => check_weather(days),
        Fact::Station { name, place } => {
            need(is_name(name), "name")?;
            need(place.as_ref().is_none_or(is_on_globe), "place")
        }
        Fact::Observed { seen, .. } => check_seen(seen),
        Fact::CorrectObserved { to, was, .. } => {
            check_seen(to)?;
            check_seen(was)
        }
        Fact::Terms { to, was, .. } => {
            need(to.len() <= MOST_COUNTS && was.len() <= MOST_COUNTS, "to")?;
            for (name, value) in to.iter().chain(was) {
                need(is_name(name) && is_tame(value), "to")?;
            }
            Ok(())
        }
    }
}

/// Whether it names a change by a number that there can be.
pub(super) fn is_a_number(told: &ChangeName) -> bool {
    is_seq(told.seq)
}

fn need(holds: bool, what: &'static str) -> Result<(), &'static str> {
    if holds { Ok(()) } else { Err(what) }
}

/// Whether a field of a row may hold a value. Fields that this version does not know may
/// hold anything.
///
/// # Errors
/// The name of the field, where it may not.
pub(crate) fn check_field(row: Row, field: &str, value: &Value) -> Result<(), &'static str> {
    match held(row, field) {
        Some((field, holds)) => need(holds.admits(value), field.name()),
        // Nothing that can be removed says so otherwise.
        None if Field::of(field) == Field::Removed => need(value.is_boolean(), "removed"),
        None => Ok(()),
    }
}

fn check_said(said: &HeadRecord) -> Result<(), &'static str> {
    need(said.flags.len() <= MOST_COUNTS, "flags")?;
    need(said.note.as_deref().is_none_or(is_note), "note")
}

fn check_photo(taken: &PhotoTaken) -> Result<(), &'static str> {
    let side = |pixels: u32| (1..=LONGEST_SIDE).contains(&pixels);
    need((1..=LARGEST_PHOTO).contains(&taken.bytes), "bytes")?;
    need(side(taken.width), "width")?;
    need(side(taken.height), "height")?;
    need(
        taken.taken.is_none_or(|taken| is_shown(taken.date())),
        "taken",
    )
}

fn check_weather(told: &WeatherDays) -> Result<(), &'static str> {
    need(is_name(&told.station), "station")?;
    let is_measure = |number: Option<f64>| number.is_none_or(|number| number.abs() <= WEATHER);
    for WeatherTold(date, high, low, rain, humidity) in &told.days {
        need(calendar::is_plausible_for_weather(*date), "date")?;
        need(is_measure(*high), "high")?;
        need(is_measure(*low), "low")?;
        need(is_measure(*rain), "rain")?;
        need(is_measure(*humidity), "humidity")?;
    }
    Ok(())
}

fn check_seen(seen: &Seen) -> Result<(), &'static str> {
    need(calendar::is_plausible(seen.on), "on")?;
    need(is_short(&seen.scout), "scout")?;
    need(seen.note.as_deref().is_none_or(is_note), "note")?;
    match &seen.what {
        Observation::Moisture {
            meter_name,
            meter_error,
            percents,
            ..
        } => {
            let percent = |number: &f64| (0.0..=100.0).contains(number);
            need(is_short(meter_name), "meter_name")?;
            need(meter_error.as_ref().is_none_or(percent), "meter_error")?;
            need(
                percents.len() <= MOST_COUNTS && percents.iter().all(percent),
                "percents",
            )
        }
        Observation::Ground {
            frame_square_feet,
            seeds,
            heads,
        } => {
            need(
                *frame_square_feet > 0.0 && *frame_square_feet <= WEATHER,
                "frame_square_feet",
            )?;
            let counts = seeds.len() <= MOST_COUNTS && seeds.iter().all(|&n| n <= MOST_SEEDS);
            need(counts, "seeds")?;
            need(*heads <= MOST_SEEDS, "heads")
        }
        Observation::Standing {
            lodged,
            weak_stalks,
            weathering,
        } => {
            need(*lodged <= 100, "lodged")?;
            need(weak_stalks.is_none_or(|weak| weak <= 100), "weak_stalks")?;
            need(*weathering <= 9, "weathering")
        }
        Observation::Cut => Ok(()),
    }
}

fn is_seq(number: u64) -> bool {
    number >= 1 && i64::try_from(number).is_ok()
}

/// A date of four digits, which every table and file can hold.
pub(super) fn is_shown(date: NaiveDate) -> bool {
    (1..=9999).contains(&date.year())
}

pub(super) fn is_name(text: &str) -> bool {
    !text.trim().is_empty() && is_short(text)
}

pub(super) fn is_short(text: &str) -> bool {
    text.chars().nth(LONGEST_NAME).is_none()
}

pub(super) fn is_note(text: &str) -> bool {
    text.chars().nth(LONGEST_NOTE).is_none()
}

pub(super) fn is_on_globe(place: &Place) -> bool {
    let length = |number: Option<f64>| number.is_none_or(|n| n >= 0.0 && n.is_finite());
    place.latitude.abs() <= 90.0
        && place.longitude.abs() <= 180.0
        && length(place.accuracy_m)
        && length(place.age_s)
}

pub(super) fn is_area(area: Area) -> bool {
    let (Area::Acres(size) | Area::Hectares(size)) = area;
    size > 0.0 && size <= LARGEST_AREA
}

/// Whether no number in it is so large that a sum of some would be none.
pub(super) fn is_tame(value: &Value) -> bool {
    match value {
        Value::Number(number) => number.as_f64().is_some_and(|n| n.abs() <= TERM),
        Value::Array(values) => values.iter().all(is_tame),
        Value::Object(values) => values.values().all(is_tame),
        Value::Null | Value::Bool(_) | Value::String(_) => true,
    }
}
