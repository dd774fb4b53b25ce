//! What the sheet says, in both languages. The sentences are those of the
//! screens, so that paper and phone say the same.

mod english;
mod spanish;

use chrono::{Datelike, NaiveDate};
use ripening::outlook::{Event, Why};
use ripening::windows::{Caution, FreezeLoss, WindowKind};
use ripening::{Band, Stage};

use crate::line::Whereabouts;
use crate::{Language, Purpose, Units};

/// How sure the stage is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Standing {
    /// One stage, with its chance.
    Sure(Stage, f64),
    /// A likely stage and the next one.
    Split(Stage, f64, Stage, f64),
}

/// Everything the sheet says.
pub trait Words {
    /// Language tag.
    fn tag(&self) -> &'static str;
    fn sheet(&self) -> &'static str;
    fn stage(&self, stage: Stage) -> &'static str;
    /// Short, for under the line.
    fn mark(&self, stage: Stage) -> &'static str;
    fn purpose(&self, purpose: Purpose) -> &'static str;
    fn planted(&self, on: &str) -> String;
    fn area(&self, size: &str, units: Units) -> String;
    fn standing(&self, standing: Standing) -> String;
    fn band(&self, low: Whereabouts, high: Whereabouts, level: f64) -> String;
    fn not_walked(&self) -> &'static str;
    fn from(&self, heads: u32, stops: u32, on: &str, scout: &str) -> String;
    fn earlier(&self, count: usize) -> String;
    fn shares_title(&self) -> &'static str;
    /// Heads of the columns: reached, about, between.
    fn shares_head(&self) -> [&'static str; 3];
    fn shares_note(&self, level: f64) -> String;
    fn next_title(&self) -> &'static str;
    fn event(&self, event: Event) -> &'static str;
    fn next_note(&self) -> &'static str;
    fn not_before(&self, on: &str) -> String;
    fn why(&self, why: &Why, date: &dyn Fn(NaiveDate) -> String) -> String;
    fn windows_title(&self) -> &'static str;
    fn window(&self, kind: &WindowKind) -> &'static str;
    fn may_be_open(&self) -> &'static str;
    fn widest(&self, span: &str) -> String;
    fn freeze(&self, loss: &FreezeLoss, units: Units) -> Option<String>;
    fn caution(&self, caution: Caution) -> &'static str;
    fn more_windows(&self, count: usize) -> String;
    fn map_title(&self) -> &'static str;
    fn unknown_title(&self) -> &'static str;
    fn vaguest(&self, stage: Stage, band: &Band) -> String;
    fn one_head(&self) -> &'static str;
    fn few_stops(&self, stops: u32) -> String;
    fn contradicts(&self) -> &'static str;
    fn old_walk(&self, days: i64) -> String;
    fn no_places(&self) -> &'static str;
    fn weather_until(&self, on: &str) -> String;
    fn no_moisture(&self) -> &'static str;
    fn one_field(&self) -> &'static str;
    fn who_decides(&self) -> &'static str;
    fn made(&self, on: &str, by: &str) -> String;
    fn month(&self, month: u32) -> &'static str;

    /// A date with its year.
    fn date(&self, on: NaiveDate) -> String;
    /// A date without it.
    fn short_date(&self, on: NaiveDate) -> String;

    /// Two dates as a span; the year is said where it is not this one's.
    fn span(&self, from: NaiveDate, to: NaiveDate, this: NaiveDate) -> String {
        let year = |date: NaiveDate| date.year() == this.year();
        let one = |date: NaiveDate| {
            if year(date) {
                self.short_date(date)
            } else {
                self.date(date)
            }
        };
        if from == to {
            one(from)
        } else {
            format!("{} – {}", one(from), one(to))
        }
    }
}

/// The words of a language.
pub fn of(language: Language) -> &'static dyn Words {
    match language {
        Language::English => &english::English,
        Language::Spanish => &spanish::Spanish,
    }
}

/// A share (0-1) as whole hundredths, never 0 or 100 unless it is exactly that.
pub fn hundredths(share: f64) -> u32 {
    if share <= 0.0 {
        0
    } else if share >= 1.0 {
        100
    } else {
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
        let rounded = (share * 100.0).round() as u32;
        rounded.clamp(1, 99)
    }
}

/// A temperature given in deg F.
fn temperature(f: f64, units: Units) -> String {
    match units {
        Units::Us => format!("{} °F", f.round()),
        Units::Metric => format!("{} °C", ((f - 32.0) / 1.8).round()).replace('-', "\u{2212}"),
    }
}

/// With a capital at its beginning.
pub fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_uppercase().chain(letters).collect()
    })
}

/// Below this chance the likelier stage is only one of two.
const LIKELY: f64 = 0.65;
