//! Heads as a head file.

use std::borrow::Cow;
use std::collections::{BTreeMap, BTreeSet};
use std::io::Write;

use rusqlite::Connection;
use serde_json::{Map, Value};
use uuid::Uuid;

use super::{ExportError, shown};
use crate::error::StoreError;
use crate::views::plantings;
use crate::views::walks::{self, HeadRow, Stop, Walk};
use kinds::cell::harmless;
use kinds::flag_word;

/// Columns that this notebook knows; those of [`HeadRow`]'s extra come behind.
const COLUMNS: [&str; 10] = [
    "planting",
    "walked_on",
    "stop",
    "reading",
    "share",
    "latitude",
    "longitude",
    "scout",
    "note",
    "flags",
];

/// Writes all heads, planting by planting in the order walked; returns their
/// number. Imported again, into this notebook or another, every row is the head
/// that it was.
///
/// A head file knows a walk by its planting and date, so where a planting was
/// walked twice in a day the stops of the second walk say so in their name.
pub fn heads(db: &Connection, to: &mut dyn Write) -> Result<u64, ExportError> {
    let extra = extra_columns(db)?;
    let mut table = csv::Writer::from_writer(to);
    table.write_record(
        COLUMNS
            .iter()
            .copied()
            .map(Cow::Borrowed)
            .chain(extra.iter().map(|name| harmless(name)))
            .map(Cow::into_owned),
    )?;
    let mut written = 0;
    for planting in plantings::all(db)? {
        let mut before: Option<Walk> = None;
        let mut nth = 1;
        for walk in walks::of_planting(db, planting.id)? {
            let again = before
                .as_ref()
                .is_some_and(|before| before.walked_on == walk.walked_on);
            nth = if again { nth + 1 } else { 1 };
            for (place, stop) in walks::stops(db, walk.id)?.into_iter().enumerate() {
                let extras = extras_of(db, stop.id)?;
                let name = name_of(&stop, place, nth);
                for head in walks::heads(db, stop.id)? {
                    let row = Row {
                        planting: &planting.name,
                        walk: &walk,
                        stop: &stop,
                        name: &name,
                        head: &head,
                        extra: extras.get(&head.id),
                    };
                    table.write_record(row.cells(&extra))?;
                    written += 1;
                }
            }
            before = Some(walk);
        }
    }
    table.flush()?;
    Ok(written)
}

struct Row<'a> {
    planting: &'a str,
    walk: &'a Walk,
    stop: &'a Stop,
    name: &'a str,
    head: &'a HeadRow,
    extra: Option<&'a Map<String, Value>>,
}

impl Row<'_> {
    fn cells(&self, extra: &BTreeSet<String>) -> Vec<String> {
        let said = &self.head.said;
        let own = |column: &str| self.extra.and_then(|extra| extra.get(column)).map(text);
        let place = self.stop.place;
        let mut flags: Vec<&str> = said.flags.iter().map(|flag| flag_word(*flag)).collect();
        let unknown = own("flags").unwrap_or_default();
        flags.extend(
            unknown
                .split_whitespace()
                .filter(|word| kinds::flag_from_word(word).is_none()),
        );
        let mut cells = vec![
            harmless(self.planting).into_owned(),
            self.walk.walked_on.to_string(),
            harmless(self.name).into_owned(),
            said.head.reading().word().to_owned(),
            said.head
                .share()
                .map_or_else(String::new, |share| share.percent().to_string()),
            own("latitude").unwrap_or_else(|| shown(place.map(|place| place.latitude))),
            own("longitude").unwrap_or_else(|| shown(place.map(|place| place.longitude))),
            harmless(&own("scout").unwrap_or_else(|| self.walk.scout.clone())).into_owned(),
            harmless(said.note.as_deref().unwrap_or_default()).into_owned(),
            harmless(&flags.join(" ")).into_owned(),
        ];
        cells.extend(
            extra
                .iter()
                .map(|column| harmless(&own(column).unwrap_or_default()).into_owned()),
        );
        cells
    }
}

/// As the head file called it, else its number in the walk.
fn name_of(stop: &Stop, place: usize, nth: u32) -> String {
    let name = stop
        .label
        .clone()
        .unwrap_or_else(|| (place + 1).to_string());
    if nth == 1 {
        name
    } else {
        format!("{name} (walk {nth})")
    }
}

fn text(value: &Value) -> String {
    match value {
        Value::String(text) => text.clone(),
        Value::Null => String::new(),
        other => other.to_string(),
    }
}

/// Names of the columns beside those known, over all heads.
fn extra_columns(db: &Connection) -> Result<BTreeSet<String>, StoreError> {
    let mut statement = db.prepare(
        "SELECT DISTINCT told.key FROM head
         JOIN stop ON stop.id = head.stop
         JOIN walk ON walk.id = stop.walk AND walk.made_hlc IS NOT NULL,
         json_each(head.extra) AS told
         WHERE head.extra IS NOT NULL AND NOT head.removed",
    )?;
    let names = statement.query_map([], |row| row.get::<_, String>(0))?;
    let mut columns = names.collect::<Result<BTreeSet<String>, _>>()?;
    for known in COLUMNS {
        columns.remove(known);
    }
    Ok(columns)
}

/// Further columns of a stop's heads.
fn extras_of(
    db: &Connection,
    stop: Uuid,
) -> Result<BTreeMap<Uuid, Map<String, Value>>, StoreError> {
    let mut statement =
        db.prepare_cached("SELECT id, extra FROM head WHERE stop = ?1 AND extra IS NOT NULL")?;
    let mut rows = statement.query([stop])?;
    let mut extras = BTreeMap::new();
    while let Some(row) = rows.next()? {
        let extra = serde_json::from_str(row.get_ref(1)?.as_str().unwrap_or("{}"));
        extras.insert(row.get(0)?, extra.unwrap_or_default());
    }
    Ok(extras)
}
