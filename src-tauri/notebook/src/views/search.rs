//! Searching names, scouts and notes.

use std::collections::BTreeSet;

use chrono::NaiveDate;
use rusqlite::{Connection, Row, params};
use uuid::Uuid;

use super::walks;
use crate::error::StoreError;
use serde::{Deserialize, Serialize};

/// What a search found.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct Found {
    /// Plantings, by name, hybrid, field or farm.
    pub plantings: Vec<FoundPlanting>,
    /// Walks by their scout, the latest first.
    pub walks: Vec<FoundWalk>,
    /// Notes on heads, the latest first.
    pub notes: Vec<FoundNote>,
    /// Whether a group was cut off.
    pub more: bool,
}

/// A planting that was found.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct FoundPlanting {
    /// Id of the planting.
    pub planting: Uuid,
    /// Its name.
    pub name: String,
    /// By what.
    pub by: FoundBy,
    /// The text that was found.
    pub text: String,
}

/// What of a planting was found.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum FoundBy {
    /// Its name.
    Name,
    /// Its hybrid.
    Hybrid,
    /// Its field.
    Field,
    /// Its farm.
    Farm,
}

/// A walk that was found by its scout.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct FoundWalk {
    /// Id of the walk.
    pub walk: Uuid,
    /// Of which planting.
    pub planting: Uuid,
    /// Its name.
    pub planting_name: String,
    /// Date of the walk.
    pub walked_on: NaiveDate,
    /// Who walked.
    pub scout: String,
}

/// A note that was found.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct FoundNote {
    /// What it says.
    pub note: String,
    /// Number of the stop.
    pub stop: u32,
    /// In which walk.
    pub walk: Uuid,
    /// Of which planting.
    pub planting: Uuid,
    /// Its name.
    pub planting_name: String,
    /// Date of the walk.
    pub walked_on: NaiveDate,
    /// Who walked.
    pub scout: String,
}

/// Most found things of each group.
const MOST: usize = 50;

/// What is found by words of which each begins one of the text; nothing without
/// a word.
pub fn search(db: &Connection, text: &str) -> Result<Found, StoreError> {
    let Some(words) = expression(text) else {
        return Ok(Found::default());
    };
    let mut found = Found {
        plantings: plantings(db, &words)?,
        walks: scouts(db, &words)?,
        notes: notes(db, &words)?,
        more: false,
    };
    found.more = cut(&mut found.plantings) | cut(&mut found.walks) | cut(&mut found.notes);
    Ok(found)
}

fn cut<T>(found: &mut Vec<T>) -> bool {
    let more = found.len() > MOST;
    found.truncate(MOST);
    more
}

/// The words as a query: each in quotes, so that nothing in it is an operator,
/// and a beginning.
fn expression(text: &str) -> Option<String> {
    let words: Vec<String> = text
        .split(|letter: char| !letter.is_alphanumeric())
        .filter(|word| !word.is_empty())
        .take(16)
        .map(|word| format!("\"{word}\"*"))
        .collect();
    (!words.is_empty()).then(|| words.join(" "))
}

/// Plantings by their own name, and by that of their hybrid, field or farm.
fn plantings(db: &Connection, words: &str) -> Result<Vec<FoundPlanting>, StoreError> {
    let mut statement = db.prepare_cached(
        "WITH hit AS MATERIALIZED (
           SELECT searchable.kind, searchable.id, searchable.text FROM search_index
           JOIN searchable ON searchable.row = search_index.rowid
           WHERE search_index MATCH ?1 AND searchable.kind IN ('planting', 'hybrid', 'field', 'farm'))
         SELECT planting.id, planting.name, hit.kind, hit.text FROM hit
         JOIN planting ON hit.id = CASE hit.kind
             WHEN 'planting' THEN planting.id
             WHEN 'hybrid' THEN planting.hybrid
             WHEN 'field' THEN planting.field
             ELSE coalesce((SELECT farm FROM field WHERE field.id = planting.field), planting.farm)
           END
         WHERE planting.name IS NOT NULL AND NOT planting.removed
         ORDER BY CASE hit.kind WHEN 'planting' THEN 0 WHEN 'hybrid' THEN 1 WHEN 'field' THEN 2
                  ELSE 3 END, planting.name, planting.id
         LIMIT ?2",
    )?;
    let rows = statement.query_map(params![words, MOST + 1], |row| {
        let kind: String = row.get(2)?;
        Ok(FoundPlanting {
            planting: row.get(0)?,
            name: row.get(1)?,
            by: match kind.as_str() {
                "hybrid" => FoundBy::Hybrid,
                "field" => FoundBy::Field,
                "farm" => FoundBy::Farm,
                _ => FoundBy::Name,
            },
            text: row.get(3)?,
        })
    })?;
    let mut found: Vec<FoundPlanting> = rows.collect::<Result<_, _>>()?;
    // Each once, by what tells most.
    let mut seen = BTreeSet::new();
    found.retain(|each| seen.insert(each.planting));
    Ok(found)
}

/// Walks by their scout, the latest first.
fn scouts(db: &Connection, words: &str) -> Result<Vec<FoundWalk>, StoreError> {
    let mut statement = db.prepare_cached(
        "SELECT walk.id, planting.id, planting.name, walk.walked_on, searchable.text
         FROM search_index
         JOIN searchable ON searchable.row = search_index.rowid
         JOIN walk ON walk.id = searchable.id
         JOIN planting ON planting.id = walk.planting
         WHERE search_index MATCH ?1 AND searchable.kind = 'walk'
           AND walk.made_hlc IS NOT NULL AND NOT walk.removed AND walk.walked_on IS NOT NULL
           AND planting.name IS NOT NULL AND NOT planting.removed
         ORDER BY walk.walked_on DESC, planting.name, walk.id LIMIT ?2",
    )?;
    let rows = statement.query_map(params![words, MOST + 1], |row| {
        Ok(FoundWalk {
            walk: row.get(0)?,
            planting: row.get(1)?,
            planting_name: row.get(2)?,
            walked_on: row.get(3)?,
            scout: row.get(4)?,
        })
    })?;
    Ok(rows.collect::<Result<_, _>>()?)
}

/// Notes on heads, the latest walk first.
fn notes(db: &Connection, words: &str) -> Result<Vec<FoundNote>, StoreError> {
    let mut statement = db.prepare_cached(
        "SELECT searchable.text, stop.id, walk.id, planting.id, planting.name, walk.walked_on,
                walk.scout
         FROM search_index
         JOIN searchable ON searchable.row = search_index.rowid
         JOIN head ON head.id = searchable.id
         JOIN stop ON stop.id = head.stop
         JOIN walk ON walk.id = stop.walk
         JOIN planting ON planting.id = walk.planting
         WHERE search_index MATCH ?1 AND searchable.kind = 'head'
           AND head.read_hlc IS NOT NULL AND NOT head.removed
           AND stop.made_hlc IS NOT NULL
           AND walk.made_hlc IS NOT NULL AND NOT walk.removed AND walk.walked_on IS NOT NULL
           AND planting.name IS NOT NULL AND NOT planting.removed
         ORDER BY walk.walked_on DESC, planting.name, stop.number, head.id LIMIT ?2",
    )?;
    let rows = statement.query_map(params![words, MOST + 1], |row: &Row| {
        Ok((
            row.get::<_, String>(0)?,
            row.get::<_, Uuid>(1)?,
            row.get::<_, Uuid>(2)?,
            row.get::<_, Uuid>(3)?,
            row.get::<_, String>(4)?,
            row.get::<_, NaiveDate>(5)?,
            row.get::<_, Option<String>>(6)?,
        ))
    })?;
    let mut notes = Vec::new();
    for row in rows {
        let (note, stop, walk, planting, planting_name, walked_on, scout) = row?;
        let place = walks::stops(db, walk)?
            .iter()
            .position(|other| other.id == stop)
            .unwrap_or_default();
        notes.push(FoundNote {
            note,
            stop: u32::try_from(place + 1).unwrap_or(u32::MAX),
            walk,
            planting,
            planting_name,
            walked_on,
            scout: scout.unwrap_or_default(),
        });
    }
    Ok(notes)
}
