//! Messages of the catalogue that Rust says, a type for each domain.
//!
//! Written from the catalogue: HEADWALK_WRITE_WORDS=1 cargo test -p words

use chrono::NaiveDate;

use crate::words::{Value, texts};
use crate::{Language, Words};

const TEXTS: [(&str, [&str; 2]); 6] = [
    texts!("common"),
    texts!("details"),
    texts!("outlook"),
    texts!("plantings"),
    texts!("sheet"),
    texts!("stages"),
];

impl Words {
    /// Words in a language.
    #[must_use]
    pub fn new(language: Language) -> Self {
        Self::of(language, &TEXTS)
    }
}

/// Messages of `common.ftl`.
pub struct Common<'a>(&'a Words);

impl Words {
    /// Messages of the domain `common`.
    #[must_use]
    pub fn common(&self) -> Common<'_> {
        Common(self)
    }
}

impl Common<'_> {
    /// Text of the message `stage` for a key, where it has that key.
    #[must_use]
    pub fn stage(&self, key: &str) -> Option<String> {
        self.0.of_table("common", "stage", key)
    }

    /// Text of the message `mark` for a key, where it has that key.
    #[must_use]
    pub fn mark(&self, key: &str) -> Option<String> {
        self.0.of_table("common", "mark", key)
    }

    /// Text of the message `reading` for a key, where it has that key.
    #[must_use]
    pub fn reading(&self, key: &str) -> Option<String> {
        self.0.of_table("common", "reading", key)
    }

    /// Text of the message `flag` for a key, where it has that key.
    #[must_use]
    pub fn flag(&self, key: &str) -> Option<String> {
        self.0.of_table("common", "flag", key)
    }

    /// Text of the message `problem` for a key, where it has that key.
    #[must_use]
    pub fn problem(&self, key: &str) -> Option<String> {
        self.0.of_table("common", "problem", key)
    }

    /// Text of the message `technical`.
    #[must_use]
    pub fn technical(&self) -> String {
        self.0.text("common", "technical", &[])
    }

    /// Text of the message `back`.
    #[must_use]
    pub fn back(&self) -> String {
        self.0.text("common", "back", &[])
    }

    /// Text of the message `done`.
    #[must_use]
    pub fn done(&self) -> String {
        self.0.text("common", "done", &[])
    }

    /// Text of the message `undo`.
    #[must_use]
    pub fn undo(&self) -> String {
        self.0.text("common", "undo", &[])
    }

    /// Text of the message `cancel`.
    #[must_use]
    pub fn cancel(&self) -> String {
        self.0.text("common", "cancel", &[])
    }

    /// Text of the message `try-again`.
    #[must_use]
    pub fn try_again(&self) -> String {
        self.0.text("common", "try-again", &[])
    }

    /// Text of the message `close`.
    #[must_use]
    pub fn close(&self) -> String {
        self.0.text("common", "close", &[])
    }

    /// Text of the message `loading`.
    #[must_use]
    pub fn loading(&self) -> String {
        self.0.text("common", "loading", &[])
    }

    /// Text of the message `nowhere`.
    #[must_use]
    pub fn nowhere(&self) -> String {
        self.0.text("common", "nowhere", &[])
    }

    /// Text of the message `to-plantings`.
    #[must_use]
    pub fn to_plantings(&self) -> String {
        self.0.text("common", "to-plantings", &[])
    }

    /// Text of the message `main-tabs`.
    #[must_use]
    pub fn main_tabs(&self) -> String {
        self.0.text("common", "main-tabs", &[])
    }

    /// Text of the message `tabs` for a key, where it has that key.
    #[must_use]
    pub fn tabs(&self, key: &str) -> Option<String> {
        self.0.of_table("common", "tabs", key)
    }

    /// Text of the message `assumption`.
    #[must_use]
    pub fn assumption(&self) -> String {
        self.0.text("common", "assumption", &[])
    }

    /// Text of the message `change-assumption`.
    #[must_use]
    pub fn change_assumption(&self, what: &str, value: &str) -> String {
        self.0.text("common", "change-assumption", &[("what", Value::from(what)), ("value", Value::from(value))])
    }

    /// Text of the message `less`.
    #[must_use]
    pub fn less(&self, what: &str) -> String {
        self.0.text("common", "less", &[("what", Value::from(what))])
    }

    /// Text of the message `more`.
    #[must_use]
    pub fn more(&self, what: &str) -> String {
        self.0.text("common", "more", &[("what", Value::from(what))])
    }

    /// Text of the message `percent`.
    #[must_use]
    pub fn percent(&self, value: f64) -> String {
        self.0.text("common", "percent", &[("value", Value::from(value))])
    }

    /// Text of the message `under-one`.
    #[must_use]
    pub fn under_one(&self) -> String {
        self.0.text("common", "under-one", &[])
    }

    /// Text of the message `over-ninety-nine`.
    #[must_use]
    pub fn over_ninety_nine(&self) -> String {
        self.0.text("common", "over-ninety-nine", &[])
    }
}

/// Messages of `details.ftl`.
pub struct Details<'a>(&'a Words);

impl Words {
    /// Messages of the domain `details`.
    #[must_use]
    pub fn details(&self) -> Details<'_> {
        Details(self)
    }
}

impl Details<'_> {
    /// Text of the message `row-too-long`.
    #[must_use]
    pub fn row_too_long(&self) -> String {
        self.0.text("details", "row-too-long", &[])
    }

    /// Text of the message `field-count`.
    #[must_use]
    pub fn field_count(&self, fields: f64, columns: f64) -> String {
        self.0.text("details", "field-count", &[("fields", Value::from(fields)), ("columns", Value::from(columns))])
    }

    /// Text of the message `row-too-short`.
    #[must_use]
    pub fn row_too_short(&self) -> String {
        self.0.text("details", "row-too-short", &[])
    }

    /// Text of the message `not-of-layout`.
    #[must_use]
    pub fn not_of_layout(&self) -> String {
        self.0.text("details", "not-of-layout", &[])
    }

    /// Text of the message `value-missing`.
    #[must_use]
    pub fn value_missing(&self, column: &str) -> String {
        self.0.text("details", "value-missing", &[("column", Value::from(column))])
    }

    /// Text of the message `name-too-long`.
    #[must_use]
    pub fn name_too_long(&self, column: &str, most: f64) -> String {
        self.0.text("details", "name-too-long", &[("column", Value::from(column)), ("most", Value::from(most))])
    }

    /// Text of the message `control-character`.
    #[must_use]
    pub fn control_character(&self, column: &str) -> String {
        self.0.text("details", "control-character", &[("column", Value::from(column))])
    }

    /// Text of the message `date-missing`.
    #[must_use]
    pub fn date_missing(&self, column: &str) -> String {
        self.0.text("details", "date-missing", &[("column", Value::from(column))])
    }

    /// Text of the message `not-a-date`.
    #[must_use]
    pub fn not_a_date(&self, column: &str, text: &str) -> String {
        self.0.text("details", "not-a-date", &[("column", Value::from(column)), ("text", Value::from(text))])
    }

    /// Text of the message `far-date`.
    #[must_use]
    pub fn far_date(&self, column: &str, date: &str, first: &str, last: &str) -> String {
        self.0.text("details", "far-date", &[("column", Value::from(column)), ("date", Value::from(date)), ("first", Value::from(first)), ("last", Value::from(last))])
    }

    /// Text of the message `reading-missing`.
    #[must_use]
    pub fn reading_missing(&self) -> String {
        self.0.text("details", "reading-missing", &[])
    }

    /// Text of the message `unknown-reading`.
    #[must_use]
    pub fn unknown_reading(&self, text: &str) -> String {
        self.0.text("details", "unknown-reading", &[("text", Value::from(text))])
    }

    /// Text of the message `share-not-whole`.
    #[must_use]
    pub fn share_not_whole(&self, text: &str) -> String {
        self.0.text("details", "share-not-whole", &[("text", Value::from(text))])
    }

    /// Text of the message `share-out-of-range`.
    #[must_use]
    pub fn share_out_of_range(&self, share: &str) -> String {
        self.0.text("details", "share-out-of-range", &[("share", Value::from(share))])
    }

    /// Text of the message `share-missing`.
    #[must_use]
    pub fn share_missing(&self, reading: &str) -> String {
        self.0.text("details", "share-missing", &[("reading", Value::from(reading))])
    }

    /// Text of the message `share-on-boot`.
    #[must_use]
    pub fn share_on_boot(&self) -> String {
        self.0.text("details", "share-on-boot", &[])
    }

    /// Text of the message `not-degrees`.
    #[must_use]
    pub fn not_degrees(&self, column: &str, text: &str, limit: f64) -> String {
        self.0.text("details", "not-degrees", &[("column", Value::from(column)), ("text", Value::from(text)), ("limit", Value::from(limit))])
    }

    /// Text of the message `swapped`.
    #[must_use]
    pub fn swapped(&self, latitude: &str) -> String {
        self.0.text("details", "swapped", &[("latitude", Value::from(latitude))])
    }

    /// Text of the message `position-half`.
    #[must_use]
    pub fn position_half(&self, given: &str, missing: &str) -> String {
        self.0.text("details", "position-half", &[("given", Value::from(given)), ("missing", Value::from(missing))])
    }

    /// Text of the message `planting-unnamed`.
    #[must_use]
    pub fn planting_unnamed(&self) -> String {
        self.0.text("details", "planting-unnamed", &[])
    }

    /// Text of the message `planting-again`.
    #[must_use]
    pub fn planting_again(&self, name: &str, first: f64) -> String {
        self.0.text("details", "planting-again", &[("name", Value::from(name)), ("first", Value::from(first))])
    }

    /// Text of the message `unknown-purpose`.
    #[must_use]
    pub fn unknown_purpose(&self, text: &str) -> String {
        self.0.text("details", "unknown-purpose", &[("text", Value::from(text))])
    }

    /// Text of the message `not-an-area`.
    #[must_use]
    pub fn not_an_area(&self, column: &str, text: &str) -> String {
        self.0.text("details", "not-an-area", &[("column", Value::from(column)), ("text", Value::from(text))])
    }

    /// Text of the message `bloom-before-planting`.
    #[must_use]
    pub fn bloom_before_planting(&self, bloom: &str, planted: &str) -> String {
        self.0.text("details", "bloom-before-planting", &[("bloom", Value::from(bloom)), ("planted", Value::from(planted))])
    }

    /// Text of the message `not-a-number`.
    #[must_use]
    pub fn not_a_number(&self, column: &str, text: &str) -> String {
        self.0.text("details", "not-a-number", &[("column", Value::from(column)), ("text", Value::from(text))])
    }

    /// Text of the message `failed-quality`.
    #[must_use]
    pub fn failed_quality(&self, element: &str, flag: &str) -> String {
        self.0.text("details", "failed-quality", &[("element", Value::from(element)), ("flag", Value::from(flag))])
    }
}

/// Messages of `outlook.ftl`.
pub struct Outlook<'a>(&'a Words);

impl Words {
    /// Messages of the domain `outlook`.
    #[must_use]
    pub fn outlook(&self) -> Outlook<'_> {
        Outlook(self)
    }
}

impl Outlook<'_> {
    /// Text of the message `title`.
    #[must_use]
    pub fn title(&self) -> String {
        self.0.text("outlook", "title", &[])
    }

    /// Text of the message `open`.
    #[must_use]
    pub fn open(&self) -> String {
        self.0.text("outlook", "open", &[])
    }

    /// Text of the message `for-planting`.
    #[must_use]
    pub fn for_planting(&self, name: &str) -> String {
        self.0.text("outlook", "for-planting", &[("name", Value::from(name))])
    }

    /// Text of the message `event` for a key, where it has that key.
    #[must_use]
    pub fn event(&self, key: &str) -> Option<String> {
        self.0.of_table("outlook", "event", key)
    }

    /// Text of the message `not-planted-yet`.
    #[must_use]
    pub fn not_planted_yet(&self, on: NaiveDate) -> String {
        self.0.text("outlook", "not-planted-yet", &[("on", Value::from(on))])
    }

    /// Text of the message `nothing-to-start-from`.
    #[must_use]
    pub fn nothing_to_start_from(&self) -> String {
        self.0.text("outlook", "nothing-to-start-from", &[])
    }

    /// Text of the message `no-weather`.
    #[must_use]
    pub fn no_weather(&self) -> String {
        self.0.text("outlook", "no-weather", &[])
    }

    /// Text of the message `heat-unknown`.
    #[must_use]
    pub fn heat_unknown(&self, from: NaiveDate) -> String {
        self.0.text("outlook", "heat-unknown", &[("from", Value::from(from))])
    }

    /// Text of the message `weather-ends-early`.
    #[must_use]
    pub fn weather_ends_early(&self, on: NaiveDate) -> String {
        self.0.text("outlook", "weather-ends-early", &[("on", Value::from(on))])
    }

    /// Text of the message `no-days-ahead`.
    #[must_use]
    pub fn no_days_ahead(&self) -> String {
        self.0.text("outlook", "no-days-ahead", &[])
    }

    /// Text of the message `not-before-freeze`.
    #[must_use]
    pub fn not_before_freeze(&self, chance: f64, horizon: NaiveDate) -> String {
        self.0.text("outlook", "not-before-freeze", &[("chance", Value::from(chance)), ("horizon", Value::from(horizon))])
    }

    /// Text of the message `before-weather`.
    #[must_use]
    pub fn before_weather(&self) -> String {
        self.0.text("outlook", "before-weather", &[])
    }

    /// Text of the message `no-moisture`.
    #[must_use]
    pub fn no_moisture(&self) -> String {
        self.0.text("outlook", "no-moisture", &[])
    }

    /// Text of the message `event-lacks`.
    #[must_use]
    pub fn event_lacks(&self, event: &str, why: &str) -> String {
        self.0.text("outlook", "event-lacks", &[("event", Value::from(event)), ("why", Value::from(why))])
    }

    /// Text of the message `window` for a key, where it has that key.
    #[must_use]
    pub fn window(&self, key: &str) -> Option<String> {
        self.0.of_table("outlook", "window", key)
    }

    /// Text of the message `source-of`.
    #[must_use]
    pub fn source_of(&self, source: &str) -> String {
        self.0.text("outlook", "source-of", &[("source", Value::from(source))])
    }

    /// Text of the message `sources` for a key, where it has that key.
    #[must_use]
    pub fn sources(&self, key: &str) -> Option<String> {
        self.0.of_table("outlook", "sources", key)
    }

    /// Text of the message `caution` for a key, where it has that key.
    #[must_use]
    pub fn caution(&self, key: &str) -> Option<String> {
        self.0.of_table("outlook", "caution", key)
    }

    /// Text of the message `found-cold-nights`.
    #[must_use]
    pub fn found_cold_nights(&self, cold: f64, nights: f64, limit: &str, in_row: f64) -> String {
        self.0.text("outlook", "found-cold-nights", &[("cold", Value::from(cold)), ("nights", Value::from(nights)), ("limit", Value::from(limit)), ("inRow", Value::from(in_row))])
    }

    /// Text of the message `found-coldest`.
    #[must_use]
    pub fn found_coldest(&self, lowest: &str) -> String {
        self.0.text("outlook", "found-coldest", &[("lowest", Value::from(lowest))])
    }

    /// Text of the message `found-chance-of-five`.
    #[must_use]
    pub fn found_chance_of_five(&self, chance: f64) -> String {
        self.0.text("outlook", "found-chance-of-five", &[("chance", Value::from(chance))])
    }

    /// Text of the message `found-hot-days`.
    #[must_use]
    pub fn found_hot_days(&self, hot: f64, days: f64, limit: &str, very_hot: f64, higher_limit: &str) -> String {
        self.0.text("outlook", "found-hot-days", &[("hot", Value::from(hot)), ("days", Value::from(days)), ("limit", Value::from(limit)), ("veryHot", Value::from(very_hot)), ("higherLimit", Value::from(higher_limit))])
    }

    /// Text of the message `found-warm-days`.
    #[must_use]
    pub fn found_warm_days(&self, warm: f64, limit: &str) -> String {
        self.0.text("outlook", "found-warm-days", &[("warm", Value::from(warm)), ("limit", Value::from(limit))])
    }

    /// Text of the message `found-hottest`.
    #[must_use]
    pub fn found_hottest(&self, highest: &str) -> String {
        self.0.text("outlook", "found-hottest", &[("highest", Value::from(highest))])
    }

    /// Text of the message `found-rain`.
    #[must_use]
    pub fn found_rain(&self, rain: &str, days: f64) -> String {
        self.0.text("outlook", "found-rain", &[("rain", Value::from(rain)), ("days", Value::from(days))])
    }

    /// Text of the message `found-rain-unknown`.
    #[must_use]
    pub fn found_rain_unknown(&self, days: f64) -> String {
        self.0.text("outlook", "found-rain-unknown", &[("days", Value::from(days))])
    }

    /// Text of the message `found-chance-of-very-hot`.
    #[must_use]
    pub fn found_chance_of_very_hot(&self, limit: &str, chance: f64) -> String {
        self.0.text("outlook", "found-chance-of-very-hot", &[("limit", Value::from(limit)), ("chance", Value::from(chance))])
    }

    /// Text of the message `found-last-irrigation`.
    #[must_use]
    pub fn found_last_irrigation(&self) -> String {
        self.0.text("outlook", "found-last-irrigation", &[])
    }

    /// Text of the message `found-silage`.
    #[must_use]
    pub fn found_silage(&self) -> String {
        self.0.text("outlook", "found-silage", &[])
    }

    /// Text of the message `found-harvest-aid`.
    #[must_use]
    pub fn found_harvest_aid(&self) -> String {
        self.0.text("outlook", "found-harvest-aid", &[])
    }

    /// Text of the message `found-freeze-was`.
    #[must_use]
    pub fn found_freeze_was(&self, limit: &str, on: NaiveDate) -> String {
        self.0.text("outlook", "found-freeze-was", &[("limit", Value::from(limit)), ("on", Value::from(on))])
    }

    /// Text of the message `found-freeze-chance`.
    #[must_use]
    pub fn found_freeze_chance(&self, limit: &str, chance: f64) -> String {
        self.0.text("outlook", "found-freeze-chance", &[("limit", Value::from(limit)), ("chance", Value::from(chance))])
    }

    /// Text of the message `found-freeze-loss`.
    #[must_use]
    pub fn found_freeze_loss(&self, limit: &str, stage: &str, low: f64, high: f64) -> String {
        self.0.text("outlook", "found-freeze-loss", &[("limit", Value::from(limit)), ("stage", Value::from(stage)), ("low", Value::from(low)), ("high", Value::from(high))])
    }

    /// Text of the message `found-no-freeze-loss`.
    #[must_use]
    pub fn found_no_freeze_loss(&self) -> String {
        self.0.text("outlook", "found-no-freeze-loss", &[])
    }

    /// Text of the message `found-froze`.
    #[must_use]
    pub fn found_froze(&self, on: NaiveDate, least: NaiveDate, most: NaiveDate) -> String {
        self.0.text("outlook", "found-froze", &[("on", Value::from(on)), ("least", Value::from(least)), ("most", Value::from(most))])
    }

    /// Text of the message `found-not-frozen`.
    #[must_use]
    pub fn found_not_frozen(&self) -> String {
        self.0.text("outlook", "found-not-frozen", &[])
    }

    /// Text of the message `found-rain-three-weeks`.
    #[must_use]
    pub fn found_rain_three_weeks(&self, rain: &str) -> String {
        self.0.text("outlook", "found-rain-three-weeks", &[("rain", Value::from(rain))])
    }

    /// Text of the message `found-dry-three-weeks`.
    #[must_use]
    pub fn found_dry_three_weeks(&self, rain: &str) -> String {
        self.0.text("outlook", "found-dry-three-weeks", &[("rain", Value::from(rain))])
    }

    /// Text of the message `next`.
    #[must_use]
    pub fn next(&self) -> String {
        self.0.text("outlook", "next", &[])
    }

    /// Text of the message `event-between`.
    #[must_use]
    pub fn event_between(&self, event: &str, from: NaiveDate, to: NaiveDate, today: NaiveDate) -> String {
        self.0.text("outlook", "event-between", &[("event", Value::from(event)), ("from", Value::from(from)), ("to", Value::from(to)), ("today", Value::from(today))])
    }

    /// Text of the message `event-not-before`.
    #[must_use]
    pub fn event_not_before(&self, event: &str, from: NaiveDate, today: NaiveDate) -> String {
        self.0.text("outlook", "event-not-before", &[("event", Value::from(event)), ("from", Value::from(from)), ("today", Value::from(today))])
    }

    /// Text of the message `middle`.
    #[must_use]
    pub fn middle(&self, iso: NaiveDate, today: NaiveDate) -> String {
        self.0.text("outlook", "middle", &[("iso", Value::from(iso)), ("today", Value::from(today))])
    }

    /// Text of the message `level-note`.
    #[must_use]
    pub fn level_note(&self) -> String {
        self.0.text("outlook", "level-note", &[])
    }

    /// Text of the message `event-undated`.
    #[must_use]
    pub fn event_undated(&self, event: &str) -> String {
        self.0.text("outlook", "event-undated", &[("event", Value::from(event))])
    }

    /// Text of the message `event-passed`.
    #[must_use]
    pub fn event_passed(&self, event: &str) -> String {
        self.0.text("outlook", "event-passed", &[("event", Value::from(event))])
    }

    /// Text of the message `between-places`.
    #[must_use]
    pub fn between_places(&self, when: &str, low: &str, high: &str) -> String {
        self.0.text("outlook", "between-places", &[("when", Value::from(when)), ("low", Value::from(low)), ("high", Value::from(high))])
    }

    /// Text of the message `touch-hint`.
    #[must_use]
    pub fn touch_hint(&self) -> String {
        self.0.text("outlook", "touch-hint", &[])
    }

    /// Text of the message `strip-key`.
    #[must_use]
    pub fn strip_key(&self) -> String {
        self.0.text("outlook", "strip-key", &[])
    }

    /// Text of the message `table-title`.
    #[must_use]
    pub fn table_title(&self) -> String {
        self.0.text("outlook", "table-title", &[])
    }

    /// Text of the message `table-caption`.
    #[must_use]
    pub fn table_caption(&self) -> String {
        self.0.text("outlook", "table-caption", &[])
    }

    /// Text of the message `table-event`.
    #[must_use]
    pub fn table_event(&self) -> String {
        self.0.text("outlook", "table-event", &[])
    }

    /// Text of the message `table-early`.
    #[must_use]
    pub fn table_early(&self) -> String {
        self.0.text("outlook", "table-early", &[])
    }

    /// Text of the message `table-middle`.
    #[must_use]
    pub fn table_middle(&self) -> String {
        self.0.text("outlook", "table-middle", &[])
    }

    /// Text of the message `table-late`.
    #[must_use]
    pub fn table_late(&self) -> String {
        self.0.text("outlook", "table-late", &[])
    }

    /// Text of the message `windows-title`.
    #[must_use]
    pub fn windows_title(&self) -> String {
        self.0.text("outlook", "windows-title", &[])
    }

    /// Text of the message `standing` for a key, where it has that key.
    #[must_use]
    pub fn standing(&self, key: &str) -> Option<String> {
        self.0.of_table("outlook", "standing", key)
    }

    /// Text of the message `window-between`.
    #[must_use]
    pub fn window_between(&self, from: NaiveDate, to: NaiveDate, earliest: NaiveDate, latest: NaiveDate, today: NaiveDate) -> String {
        self.0.text("outlook", "window-between", &[("from", Value::from(from)), ("to", Value::from(to)), ("earliest", Value::from(earliest)), ("latest", Value::from(latest)), ("today", Value::from(today))])
    }

    /// Text of the message `window-now`.
    #[must_use]
    pub fn window_now(&self, window: &str) -> String {
        self.0.text("outlook", "window-now", &[("window", Value::from(window))])
    }

    /// Text of the message `window-dated`.
    #[must_use]
    pub fn window_dated(&self, window: &str, earliest: NaiveDate, latest: NaiveDate, today: NaiveDate) -> String {
        self.0.text("outlook", "window-dated", &[("window", Value::from(window)), ("earliest", Value::from(earliest)), ("latest", Value::from(latest)), ("today", Value::from(today))])
    }

    /// Text of the message `window-until`.
    #[must_use]
    pub fn window_until(&self, to: NaiveDate, latest: NaiveDate, today: NaiveDate) -> String {
        self.0.text("outlook", "window-until", &[("to", Value::from(to)), ("latest", Value::from(latest)), ("today", Value::from(today))])
    }

    /// Text of the message `rests-title`.
    #[must_use]
    pub fn rests_title(&self) -> String {
        self.0.text("outlook", "rests-title", &[])
    }

    /// Text of the message `rests-sightings`.
    #[must_use]
    pub fn rests_sightings(&self, sightings: f64) -> String {
        self.0.text("outlook", "rests-sightings", &[("sightings", Value::from(sightings))])
    }

    /// Text of the message `rests-tables`.
    #[must_use]
    pub fn rests_tables(&self) -> String {
        self.0.text("outlook", "rests-tables", &[])
    }

    /// Text of the message `rests-learned`.
    #[must_use]
    pub fn rests_learned(&self, plantings: f64) -> String {
        self.0.text("outlook", "rests-learned", &[("plantings", Value::from(plantings))])
    }

    /// Text of the message `rests-weather`.
    #[must_use]
    pub fn rests_weather(&self, from: NaiveDate, to: NaiveDate) -> String {
        self.0.text("outlook", "rests-weather", &[("from", Value::from(from)), ("to", Value::from(to))])
    }

    /// Text of the message `rests-weather-filled`.
    #[must_use]
    pub fn rests_weather_filled(&self, from: NaiveDate, to: NaiveDate, filled: f64) -> String {
        self.0.text("outlook", "rests-weather-filled", &[("from", Value::from(from)), ("to", Value::from(to)), ("filled", Value::from(filled))])
    }

    /// Text of the message `rests-no-seasons`.
    #[must_use]
    pub fn rests_no_seasons(&self) -> String {
        self.0.text("outlook", "rests-no-seasons", &[])
    }

    /// Text of the message `rests-seasons`.
    #[must_use]
    pub fn rests_seasons(&self, seasons: f64) -> String {
        self.0.text("outlook", "rests-seasons", &[("seasons", Value::from(seasons))])
    }

    /// Text of the message `rests-few-seasons`.
    #[must_use]
    pub fn rests_few_seasons(&self, seasons: f64) -> String {
        self.0.text("outlook", "rests-few-seasons", &[("seasons", Value::from(seasons))])
    }

    /// Text of the message `fortnight-title`.
    #[must_use]
    pub fn fortnight_title(&self) -> String {
        self.0.text("outlook", "fortnight-title", &[])
    }

    /// Text of the message `fortnight-text`.
    #[must_use]
    pub fn fortnight_text(&self) -> String {
        self.0.text("outlook", "fortnight-text", &[])
    }

    /// Text of the message `fortnight-empty`.
    #[must_use]
    pub fn fortnight_empty(&self) -> String {
        self.0.text("outlook", "fortnight-empty", &[])
    }

    /// Text of the message `fortnight-silent`.
    #[must_use]
    pub fn fortnight_silent(&self, count: f64) -> String {
        self.0.text("outlook", "fortnight-silent", &[("count", Value::from(count))])
    }
}

/// Messages of `plantings.ftl`.
pub struct Plantings<'a>(&'a Words);

impl Words {
    /// Messages of the domain `plantings`.
    #[must_use]
    pub fn plantings(&self) -> Plantings<'_> {
        Plantings(self)
    }
}

impl Plantings<'_> {
    /// Text of the message `title`.
    #[must_use]
    pub fn title(&self) -> String {
        self.0.text("plantings", "title", &[])
    }

    /// Text of the message `add`.
    #[must_use]
    pub fn add(&self) -> String {
        self.0.text("plantings", "add", &[])
    }

    /// Text of the message `search`.
    #[must_use]
    pub fn search(&self) -> String {
        self.0.text("plantings", "search", &[])
    }

    /// Text of the message `search-hint`.
    #[must_use]
    pub fn search_hint(&self) -> String {
        self.0.text("plantings", "search-hint", &[])
    }

    /// Text of the message `found`.
    #[must_use]
    pub fn found(&self, count: f64) -> String {
        self.0.text("plantings", "found", &[("count", Value::from(count))])
    }

    /// Text of the message `none-found`.
    #[must_use]
    pub fn none_found(&self) -> String {
        self.0.text("plantings", "none-found", &[])
    }

    /// Text of the message `empty-title`.
    #[must_use]
    pub fn empty_title(&self) -> String {
        self.0.text("plantings", "empty-title", &[])
    }

    /// Text of the message `empty-text`.
    #[must_use]
    pub fn empty_text(&self) -> String {
        self.0.text("plantings", "empty-text", &[])
    }

    /// Text of the message `import-instead`.
    #[must_use]
    pub fn import_instead(&self) -> String {
        self.0.text("plantings", "import-instead", &[])
    }

    /// Text of the message `due-because` for a key, where it has that key.
    #[must_use]
    pub fn due_because(&self, key: &str) -> Option<String> {
        self.0.of_table("plantings", "due-because", key)
    }

    /// Text of the message `due-for-stage`.
    #[must_use]
    pub fn due_for_stage(&self, stage: &str) -> String {
        self.0.text("plantings", "due-for-stage", &[("stage", Value::from(stage))])
    }

    /// Text of the message `being-worked-out`.
    #[must_use]
    pub fn being_worked_out(&self) -> String {
        self.0.text("plantings", "being-worked-out", &[])
    }

    /// Text of the message `working-out`.
    #[must_use]
    pub fn working_out(&self, left: f64) -> String {
        self.0.text("plantings", "working-out", &[("left", Value::from(left))])
    }

    /// Text of the message `purpose` for a key, where it has that key.
    #[must_use]
    pub fn purpose(&self, key: &str) -> Option<String> {
        self.0.of_table("plantings", "purpose", key)
    }

    /// Text of the message `planted`.
    #[must_use]
    pub fn planted(&self, when: &str) -> String {
        self.0.text("plantings", "planted", &[("when", Value::from(when))])
    }

    /// Text of the message `acres`.
    #[must_use]
    pub fn acres(&self, size: f64) -> String {
        self.0.text("plantings", "acres", &[("size", Value::from(size))])
    }

    /// Text of the message `hectares`.
    #[must_use]
    pub fn hectares(&self, size: f64) -> String {
        self.0.text("plantings", "hectares", &[("size", Value::from(size))])
    }

    /// Text of the message `edit`.
    #[must_use]
    pub fn edit(&self) -> String {
        self.0.text("plantings", "edit", &[])
    }

    /// Text of the message `remove`.
    #[must_use]
    pub fn remove(&self) -> String {
        self.0.text("plantings", "remove", &[])
    }

    /// Text of the message `removed`.
    #[must_use]
    pub fn removed(&self, name: &str) -> String {
        self.0.text("plantings", "removed", &[("name", Value::from(name))])
    }

    /// Text of the message `restored`.
    #[must_use]
    pub fn restored(&self, name: &str) -> String {
        self.0.text("plantings", "restored", &[("name", Value::from(name))])
    }

    /// Text of the message `start-walk`.
    #[must_use]
    pub fn start_walk(&self) -> String {
        self.0.text("plantings", "start-walk", &[])
    }

    /// Text of the message `carry-on`.
    #[must_use]
    pub fn carry_on(&self) -> String {
        self.0.text("plantings", "carry-on", &[])
    }

    /// Text of the message `not-walked`.
    #[must_use]
    pub fn not_walked(&self) -> String {
        self.0.text("plantings", "not-walked", &[])
    }

    /// Text of the message `season-over`.
    #[must_use]
    pub fn season_over(&self) -> String {
        self.0.text("plantings", "season-over", &[])
    }

    /// Text of the message `one-head`.
    #[must_use]
    pub fn one_head(&self) -> String {
        self.0.text("plantings", "one-head", &[])
    }

    /// Text of the message `which-answer`.
    #[must_use]
    pub fn which_answer(&self) -> String {
        self.0.text("plantings", "which-answer", &[])
    }

    /// Text of the message `with-history`.
    #[must_use]
    pub fn with_history(&self) -> String {
        self.0.text("plantings", "with-history", &[])
    }

    /// Text of the message `alone`.
    #[must_use]
    pub fn alone(&self) -> String {
        self.0.text("plantings", "alone", &[])
    }

    /// Text of the message `contradicts`.
    #[must_use]
    pub fn contradicts(&self, odds: &str) -> String {
        self.0.text("plantings", "contradicts", &[("odds", Value::from(odds))])
    }

    /// Text of the message `odds-least`.
    #[must_use]
    pub fn odds_least(&self) -> String {
        self.0.text("plantings", "odds-least", &[])
    }

    /// Text of the message `odds`.
    #[must_use]
    pub fn odds(&self, fields: f64) -> String {
        self.0.text("plantings", "odds", &[("fields", Value::from(fields))])
    }

    /// Text of the message `shares-title`.
    #[must_use]
    pub fn shares_title(&self) -> String {
        self.0.text("plantings", "shares-title", &[])
    }

    /// Text of the message `heads-tab`.
    #[must_use]
    pub fn heads_tab(&self) -> String {
        self.0.text("plantings", "heads-tab", &[])
    }

    /// Text of the message `grain-tab`.
    #[must_use]
    pub fn grain_tab(&self) -> String {
        self.0.text("plantings", "grain-tab", &[])
    }

    /// Text of the message `heads-note`.
    #[must_use]
    pub fn heads_note(&self) -> String {
        self.0.text("plantings", "heads-note", &[])
    }

    /// Text of the message `grain-note`.
    #[must_use]
    pub fn grain_note(&self) -> String {
        self.0.text("plantings", "grain-note", &[])
    }

    /// Text of the message `at-level`.
    #[must_use]
    pub fn at_level(&self, level: f64) -> String {
        self.0.text("plantings", "at-level", &[("level", Value::from(level))])
    }

    /// Text of the message `from`.
    #[must_use]
    pub fn from(&self, heads: f64, stops: f64) -> String {
        self.0.text("plantings", "from", &[("heads", Value::from(heads)), ("stops", Value::from(stops))])
    }

    /// Text of the message `table-title`.
    #[must_use]
    pub fn table_title(&self) -> String {
        self.0.text("plantings", "table-title", &[])
    }

    /// Text of the message `table-caption`.
    #[must_use]
    pub fn table_caption(&self) -> String {
        self.0.text("plantings", "table-caption", &[])
    }

    /// Text of the message `table-stage`.
    #[must_use]
    pub fn table_stage(&self) -> String {
        self.0.text("plantings", "table-stage", &[])
    }

    /// Text of the message `table-chance`.
    #[must_use]
    pub fn table_chance(&self) -> String {
        self.0.text("plantings", "table-chance", &[])
    }

    /// Text of the message `how-title`.
    #[must_use]
    pub fn how_title(&self) -> String {
        self.0.text("plantings", "how-title", &[])
    }

    /// Text of the message `how-parts` for a key, where it has that key.
    #[must_use]
    pub fn how_parts(&self, key: &str) -> Option<String> {
        self.0.of_table("plantings", "how-parts", key)
    }

    /// Text of the message `go-on-title`.
    #[must_use]
    pub fn go_on_title(&self) -> String {
        self.0.text("plantings", "go-on-title", &[])
    }

    /// Text of the message `walks-title`.
    #[must_use]
    pub fn walks_title(&self) -> String {
        self.0.text("plantings", "walks-title", &[])
    }

    /// Text of the message `walk-on-by`.
    #[must_use]
    pub fn walk_on_by(&self, date: &str, scout: &str) -> String {
        self.0.text("plantings", "walk-on-by", &[("date", Value::from(date)), ("scout", Value::from(scout))])
    }

    /// Text of the message `no-answer`.
    #[must_use]
    pub fn no_answer(&self) -> String {
        self.0.text("plantings", "no-answer", &[])
    }

    /// Text of the message `open`.
    #[must_use]
    pub fn open(&self) -> String {
        self.0.text("plantings", "open", &[])
    }

    /// Text of the message `open-walk`.
    #[must_use]
    pub fn open_walk(&self) -> String {
        self.0.text("plantings", "open-walk", &[])
    }

    /// Text of the message `remove-walk`.
    #[must_use]
    pub fn remove_walk(&self) -> String {
        self.0.text("plantings", "remove-walk", &[])
    }

    /// Text of the message `remove-walk-sure`.
    #[must_use]
    pub fn remove_walk_sure(&self, heads: f64) -> String {
        self.0.text("plantings", "remove-walk-sure", &[("heads", Value::from(heads))])
    }

    /// Text of the message `remove-walk-yes`.
    #[must_use]
    pub fn remove_walk_yes(&self) -> String {
        self.0.text("plantings", "remove-walk-yes", &[])
    }

    /// Text of the message `keep-walk`.
    #[must_use]
    pub fn keep_walk(&self) -> String {
        self.0.text("plantings", "keep-walk", &[])
    }

    /// Text of the message `walk-removed`.
    #[must_use]
    pub fn walk_removed(&self) -> String {
        self.0.text("plantings", "walk-removed", &[])
    }

    /// Text of the message `new-title`.
    #[must_use]
    pub fn new_title(&self) -> String {
        self.0.text("plantings", "new-title", &[])
    }

    /// Text of the message `edit-title`.
    #[must_use]
    pub fn edit_title(&self) -> String {
        self.0.text("plantings", "edit-title", &[])
    }

    /// Text of the message `name`.
    #[must_use]
    pub fn name(&self) -> String {
        self.0.text("plantings", "name", &[])
    }

    /// Text of the message `name-hint`.
    #[must_use]
    pub fn name_hint(&self) -> String {
        self.0.text("plantings", "name-hint", &[])
    }

    /// Text of the message `name-needed`.
    #[must_use]
    pub fn name_needed(&self) -> String {
        self.0.text("plantings", "name-needed", &[])
    }

    /// Text of the message `name-taken`.
    #[must_use]
    pub fn name_taken(&self) -> String {
        self.0.text("plantings", "name-taken", &[])
    }

    /// Text of the message `date-used`.
    #[must_use]
    pub fn date_used(&self) -> String {
        self.0.text("plantings", "date-used", &[])
    }

    /// Text of the message `clear-date`.
    #[must_use]
    pub fn clear_date(&self) -> String {
        self.0.text("plantings", "clear-date", &[])
    }

    /// Text of the message `area`.
    #[must_use]
    pub fn area(&self, unit: &str) -> String {
        self.0.text("plantings", "area", &[("unit", Value::from(unit))])
    }

    /// Text of the message `unit-acres`.
    #[must_use]
    pub fn unit_acres(&self) -> String {
        self.0.text("plantings", "unit-acres", &[])
    }

    /// Text of the message `unit-hectares`.
    #[must_use]
    pub fn unit_hectares(&self) -> String {
        self.0.text("plantings", "unit-hectares", &[])
    }

    /// Text of the message `area-bad`.
    #[must_use]
    pub fn area_bad(&self) -> String {
        self.0.text("plantings", "area-bad", &[])
    }

    /// Text of the message `optional`.
    #[must_use]
    pub fn optional(&self) -> String {
        self.0.text("plantings", "optional", &[])
    }

    /// Text of the message `save`.
    #[must_use]
    pub fn save(&self) -> String {
        self.0.text("plantings", "save", &[])
    }

    /// Text of the message `save-new`.
    #[must_use]
    pub fn save_new(&self) -> String {
        self.0.text("plantings", "save-new", &[])
    }

    /// Text of the message `known`.
    #[must_use]
    pub fn known(&self, what: &str) -> String {
        self.0.text("plantings", "known", &[("what", Value::from(what))])
    }
}

/// Messages of `sheet.ftl`.
pub struct Sheet<'a>(&'a Words);

impl Words {
    /// Messages of the domain `sheet`.
    #[must_use]
    pub fn sheet(&self) -> Sheet<'_> {
        Sheet(self)
    }
}

impl Sheet<'_> {
    /// Text of the message `title`.
    #[must_use]
    pub fn title(&self) -> String {
        self.0.text("sheet", "title", &[])
    }

    /// Text of the message `not-walked`.
    #[must_use]
    pub fn not_walked(&self) -> String {
        self.0.text("sheet", "not-walked", &[])
    }

    /// Text of the message `walked`.
    #[must_use]
    pub fn walked(&self, heads: f64, stops: f64, on: NaiveDate) -> String {
        self.0.text("sheet", "walked", &[("heads", Value::from(heads)), ("stops", Value::from(stops)), ("on", Value::from(on))])
    }

    /// Text of the message `walked-by`.
    #[must_use]
    pub fn walked_by(&self, heads: f64, stops: f64, on: NaiveDate, scout: &str) -> String {
        self.0.text("sheet", "walked-by", &[("heads", Value::from(heads)), ("stops", Value::from(stops)), ("on", Value::from(on)), ("scout", Value::from(scout))])
    }

    /// Text of the message `earlier`.
    #[must_use]
    pub fn earlier(&self, count: f64) -> String {
        self.0.text("sheet", "earlier", &[("count", Value::from(count))])
    }

    /// Text of the message `heads-reached`.
    #[must_use]
    pub fn heads_reached(&self) -> String {
        self.0.text("sheet", "heads-reached", &[])
    }

    /// Text of the message `about`.
    #[must_use]
    pub fn about(&self) -> String {
        self.0.text("sheet", "about", &[])
    }

    /// Text of the message `between`.
    #[must_use]
    pub fn between(&self) -> String {
        self.0.text("sheet", "between", &[])
    }

    /// Text of the message `no-dates`.
    #[must_use]
    pub fn no_dates(&self, why: &str) -> String {
        self.0.text("sheet", "no-dates", &[("why", Value::from(why))])
    }

    /// Text of the message `window-possible-now`.
    #[must_use]
    pub fn window_possible_now(&self, window: &str, from: NaiveDate, to: NaiveDate, today: NaiveDate) -> String {
        self.0.text("sheet", "window-possible-now", &[("window", Value::from(window)), ("from", Value::from(from)), ("to", Value::from(to)), ("today", Value::from(today))])
    }

    /// Text of the message `widest`.
    #[must_use]
    pub fn widest(&self, earliest: NaiveDate, latest: NaiveDate, today: NaiveDate) -> String {
        self.0.text("sheet", "widest", &[("earliest", Value::from(earliest)), ("latest", Value::from(latest)), ("today", Value::from(today))])
    }

    /// Text of the message `more-windows`.
    #[must_use]
    pub fn more_windows(&self, count: f64) -> String {
        self.0.text("sheet", "more-windows", &[("count", Value::from(count))])
    }

    /// Text of the message `map-title`.
    #[must_use]
    pub fn map_title(&self) -> String {
        self.0.text("sheet", "map-title", &[])
    }

    /// Text of the message `unknown-title`.
    #[must_use]
    pub fn unknown_title(&self) -> String {
        self.0.text("sheet", "unknown-title", &[])
    }

    /// Text of the message `few-stops`.
    #[must_use]
    pub fn few_stops(&self, stops: f64) -> String {
        self.0.text("sheet", "few-stops", &[("stops", Value::from(stops))])
    }

    /// Text of the message `contradicts`.
    #[must_use]
    pub fn contradicts(&self) -> String {
        self.0.text("sheet", "contradicts", &[])
    }

    /// Text of the message `old-walk`.
    #[must_use]
    pub fn old_walk(&self, days: f64) -> String {
        self.0.text("sheet", "old-walk", &[("days", Value::from(days))])
    }

    /// Text of the message `no-positions`.
    #[must_use]
    pub fn no_positions(&self) -> String {
        self.0.text("sheet", "no-positions", &[])
    }

    /// Text of the message `weather-until`.
    #[must_use]
    pub fn weather_until(&self, on: NaiveDate) -> String {
        self.0.text("sheet", "weather-until", &[("on", Value::from(on))])
    }

    /// Text of the message `no-moisture`.
    #[must_use]
    pub fn no_moisture(&self) -> String {
        self.0.text("sheet", "no-moisture", &[])
    }

    /// Text of the message `one-planting`.
    #[must_use]
    pub fn one_planting(&self) -> String {
        self.0.text("sheet", "one-planting", &[])
    }

    /// Text of the message `who-decides`.
    #[must_use]
    pub fn who_decides(&self) -> String {
        self.0.text("sheet", "who-decides", &[])
    }

    /// Text of the message `made`.
    #[must_use]
    pub fn made(&self, on: NaiveDate, time: &str) -> String {
        self.0.text("sheet", "made", &[("on", Value::from(on)), ("time", Value::from(time))])
    }

    /// Text of the message `made-by`.
    #[must_use]
    pub fn made_by(&self, on: NaiveDate, time: &str, by: &str) -> String {
        self.0.text("sheet", "made-by", &[("on", Value::from(on)), ("time", Value::from(time)), ("by", Value::from(by))])
    }
}

/// Messages of `stages.ftl`.
pub struct Stages<'a>(&'a Words);

impl Words {
    /// Messages of the domain `stages`.
    #[must_use]
    pub fn stages(&self) -> Stages<'_> {
        Stages(self)
    }
}

impl Stages<'_> {
    /// Text of the message `heads-at`.
    #[must_use]
    pub fn heads_at(&self, mid: f64, low: f64, high: f64, reached: &str) -> String {
        self.0.text("stages", "heads-at", &[("mid", Value::from(mid)), ("low", Value::from(low)), ("high", Value::from(high)), ("reached", Value::from(reached))])
    }

    /// Text of the message `grain-at`.
    #[must_use]
    pub fn grain_at(&self, mid: f64, low: f64, high: f64, stage: &str) -> String {
        self.0.text("stages", "grain-at", &[("mid", Value::from(mid)), ("low", Value::from(low)), ("high", Value::from(high)), ("stage", Value::from(stage))])
    }

    /// Text of the message `place-of`.
    #[must_use]
    pub fn place_of(&self, kind: &str, stage: &str) -> String {
        self.0.text("stages", "place-of", &[("kind", Value::from(kind)), ("stage", Value::from(stage))])
    }

    /// Text of the message `standing-nearing`.
    #[must_use]
    pub fn standing_nearing(&self, next: &str, stage: &str, chance: f64) -> String {
        self.0.text("stages", "standing-nearing", &[("next", Value::from(next)), ("stage", Value::from(stage)), ("chance", Value::from(chance))])
    }

    /// Text of the message `standing-sure`.
    #[must_use]
    pub fn standing_sure(&self, stage: &str, chance: f64) -> String {
        self.0.text("stages", "standing-sure", &[("stage", Value::from(stage)), ("chance", Value::from(chance))])
    }

    /// Text of the message `standing-likely`.
    #[must_use]
    pub fn standing_likely(&self, stage: &str, chance: f64, other: &str, other_chance: f64) -> String {
        self.0.text("stages", "standing-likely", &[("stage", Value::from(stage)), ("chance", Value::from(chance)), ("other", Value::from(other)), ("otherChance", Value::from(other_chance))])
    }

    /// Text of the message `standing-split`.
    #[must_use]
    pub fn standing_split(&self, stage: &str, chance: f64, other: &str, other_chance: f64) -> String {
        self.0.text("stages", "standing-split", &[("stage", Value::from(stage)), ("chance", Value::from(chance)), ("other", Value::from(other)), ("otherChance", Value::from(other_chance))])
    }

    /// Text of the message `vaguest-at`.
    #[must_use]
    pub fn vaguest_at(&self, low: f64, high: f64, reached: &str) -> String {
        self.0.text("stages", "vaguest-at", &[("low", Value::from(low)), ("high", Value::from(high)), ("reached", Value::from(reached))])
    }

    /// Text of the message `nothing-vague`.
    #[must_use]
    pub fn nothing_vague(&self) -> String {
        self.0.text("stages", "nothing-vague", &[])
    }

    /// Text of the message `band-at`.
    #[must_use]
    pub fn band_at(&self, level: f64, place: &str) -> String {
        self.0.text("stages", "band-at", &[("level", Value::from(level)), ("place", Value::from(place))])
    }

    /// Text of the message `band-one`.
    #[must_use]
    pub fn band_one(&self, level: f64, place: &str) -> String {
        self.0.text("stages", "band-one", &[("level", Value::from(level)), ("place", Value::from(place))])
    }

    /// Text of the message `band-between`.
    #[must_use]
    pub fn band_between(&self, level: f64, low: &str, high: &str) -> String {
        self.0.text("stages", "band-between", &[("level", Value::from(level)), ("low", Value::from(low)), ("high", Value::from(high))])
    }

    /// Text of the message `band-around`.
    #[must_use]
    pub fn band_around(&self, level: f64, stage: &str) -> String {
        self.0.text("stages", "band-around", &[("level", Value::from(level)), ("stage", Value::from(stage))])
    }

    /// Text of the message `line-at`.
    #[must_use]
    pub fn line_at(&self, stage: &str, band: &str) -> String {
        self.0.text("stages", "line-at", &[("stage", Value::from(stage)), ("band", Value::from(band))])
    }

    /// Text of the message `earlier`.
    #[must_use]
    pub fn earlier(&self, count: f64) -> String {
        self.0.text("stages", "earlier", &[("count", Value::from(count))])
    }

    /// Text of the message `line-without`.
    #[must_use]
    pub fn line_without(&self) -> String {
        self.0.text("stages", "line-without", &[])
    }

    /// Text of the message `reached`.
    #[must_use]
    pub fn reached(&self, stage: &str) -> String {
        self.0.text("stages", "reached", &[("stage", Value::from(stage))])
    }

    /// Text of the message `reached-bloom`.
    #[must_use]
    pub fn reached_bloom(&self) -> String {
        self.0.text("stages", "reached-bloom", &[])
    }

    /// Text of the message `enough`.
    #[must_use]
    pub fn enough(&self) -> String {
        self.0.text("stages", "enough", &[])
    }

    /// Text of the message `no-heads`.
    #[must_use]
    pub fn no_heads(&self) -> String {
        self.0.text("stages", "no-heads", &[])
    }

    /// Text of the message `more-stops-gain`.
    #[must_use]
    pub fn more_stops_gain(&self, stops: f64, heads: f64, minutes: f64, width: f64) -> String {
        self.0.text("stages", "more-stops-gain", &[("stops", Value::from(stops)), ("heads", Value::from(heads)), ("minutes", Value::from(minutes)), ("width", Value::from(width))])
    }

    /// Text of the message `more-stops-some`.
    #[must_use]
    pub fn more_stops_some(&self) -> String {
        self.0.text("stages", "more-stops-some", &[])
    }

    /// Text of the message `more-stops-short`.
    #[must_use]
    pub fn more_stops_short(&self, stops: f64, heads: f64, minutes: f64, width: f64) -> String {
        self.0.text("stages", "more-stops-short", &[("stops", Value::from(stops)), ("heads", Value::from(heads)), ("minutes", Value::from(minutes)), ("width", Value::from(width))])
    }

    /// Text of the message `more-stops-none`.
    #[must_use]
    pub fn more_stops_none(&self) -> String {
        self.0.text("stages", "more-stops-none", &[])
    }
}
