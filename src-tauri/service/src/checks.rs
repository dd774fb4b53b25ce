//! What may be typed into a notebook.

use chrono::{Days, NaiveDate};
use ripening::calendar;

use crate::{Area, Place, Problem};
use notebook::clock::FLOOR_MS;
use notebook::log::instant;

/// Longest name, in characters.
const MAX_NAME: usize = 200;
/// Longest note, in characters.
const MAX_NOTE: usize = 2_000;

/// A name that must be there.
pub(crate) fn name(what: &str, text: &str) -> Result<String, Problem> {
    optional_name(what, Some(text))?
        .ok_or_else(|| Problem::bad_input(format!("the {what} needs a name: type one")))
}

/// A name that may be left out; blank counts as left out.
pub(crate) fn optional_name(what: &str, text: Option<&str>) -> Result<Option<String>, Problem> {
    let text = text.unwrap_or_default().trim();
    if text.is_empty() {
        return Ok(None);
    }
    if text.chars().count() > MAX_NAME {
        return Err(Problem::bad_input(format!(
            "the name of the {what} is longer than {MAX_NAME} characters: shorten it"
        )));
    }
    if text.chars().any(char::is_control) {
        return Err(Problem::bad_input(format!(
            "the name of the {what} holds a control character or line break: take it out"
        )));
    }
    Ok(Some(text.to_owned()))
}

/// A note, trimmed; blank counts as none.
pub(crate) fn note(text: Option<String>) -> Result<Option<String>, Problem> {
    let note = text
        .map(|note| note.trim().to_owned())
        .filter(|note| !note.is_empty());
    if note
        .as_ref()
        .is_some_and(|note| note.chars().count() > MAX_NOTE)
    {
        return Err(Problem::bad_input(format!(
            "the note is longer than {MAX_NOTE} characters: shorten it"
        )));
    }
    Ok(note)
}

/// A date that can be. `what` stands before it: "the walk's date".
pub(crate) fn date(what: &str, date: NaiveDate) -> Result<NaiveDate, Problem> {
    if calendar::is_plausible(date) {
        Ok(date)
    } else {
        Err(Problem::bad_input(format!(
            "the {what} {date} {}: correct it",
            calendar::span_in_words()
        )))
    }
}

/// A planting date that can be: at most a year and a day ahead. A clock that stands years
/// back is no reason to refuse one.
pub(crate) fn planting_date(planted_on: NaiveDate, today: NaiveDate) -> Result<(), Problem> {
    date("planting date", planted_on)?;
    let today = today.max(instant(FLOOR_MS, 0).date_naive());
    if planted_on > today.checked_add_days(Days::new(366)).unwrap_or(today) {
        return Err(Problem::bad_input(format!(
            "the planting date {planted_on} lies more than a year ahead: correct it"
        )));
    }
    Ok(())
}

/// The day that a request is asked for, which bounds how far ahead is reckoned.
pub(crate) fn as_of(asked: Option<NaiveDate>) -> Result<Option<NaiveDate>, Problem> {
    asked.map(|asked| date("day", asked)).transpose()
}

/// A day of weather that can be.
pub(crate) fn weather_date(date: NaiveDate) -> Result<NaiveDate, Problem> {
    if calendar::is_plausible_for_weather(date) {
        Ok(date)
    } else {
        Err(Problem::bad_input(format!(
            "the day of weather {date} {}: correct it",
            calendar::weather_span_in_words()
        )))
    }
}

/// A position on the globe.
pub(crate) fn place(place: Option<Place>) -> Result<Option<Place>, Problem> {
    if let Some(place) = place {
        let on_globe = place.latitude.abs() <= 90.0 && place.longitude.abs() <= 180.0;
        let radius = place
            .accuracy_m
            .is_none_or(|accuracy| accuracy.is_finite() && accuracy >= 0.0);
        let age = place.age_s.is_none_or(|age| age.is_finite() && age >= 0.0);
        if !on_globe || !radius || !age {
            return Err(Problem::bad_input(
                "the position is not on the globe: leave it out or take it again",
            ));
        }
    }
    Ok(place)
}

/// An area that a planting can have.
pub(crate) fn area(area: Option<Area>) -> Result<Option<Area>, Problem> {
    if let Some(Area::Acres(size) | Area::Hectares(size)) = area
        && !(size > 0.0 && size <= 1_000_000.0)
    {
        return Err(Problem::bad_input(
            "the area is out of range: use a number above 0",
        ));
    }
    Ok(area)
}
