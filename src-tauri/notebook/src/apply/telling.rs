//! The two statements by which facts about one thing compete, whatever the thing.
//!
//! Of several tellings of a thing the first stands, by stamp; what was corrected
//! meanwhile stands above it. Of several later words about it (a correction, a
//! removal) the last stands. Either may arrive first.

use std::fmt::Write as _;

use rusqlite::{Connection, params};
use uuid::Uuid;

use crate::error::StoreError;
use crate::log::Stamp;

/// The first telling of a thing. Parameters: the id, `plain`, `corrected`, then
/// clock, device and number.
pub(super) fn first(table: &str, stamp: &str, plain: &[&str], corrected: &[&str]) -> String {
    let mut sets = String::new();
    for column in plain {
        let _ = write!(sets, "{column} = excluded.{column}, ");
    }
    for column in corrected {
        let _ = write!(
            sets,
            "{column} = CASE WHEN corrected_hlc IS NULL THEN excluded.{column} ELSE {column} END, "
        );
    }
    upsert(table, stamp, &[plain, corrected].concat(), &sets, '<')
}

/// The first telling of a thing that no fact spoke of yet; of any other it tells
/// nothing, and counts no row as changed. Parameters: the id, `columns`, then
/// clock, device and number.
pub(super) fn unheard_of(table: &str, stamp: &str, columns: &[&str]) -> String {
    let insert = insert(table, stamp, columns);
    format!("{insert} ON CONFLICT (id) DO NOTHING")
}

/// The last word about a thing. Parameters: the id, `columns`, then clock, device
/// and number.
pub(super) fn last(table: &str, stamp: &str, columns: &[&str]) -> String {
    let mut sets = String::new();
    for column in columns {
        let _ = write!(sets, "{column} = excluded.{column}, ");
    }
    upsert(table, stamp, columns, &sets, '>')
}

/// A thing was removed or restored; the latest word stands. `statement` is
/// [`last`] of the one column `removed`.
pub(super) fn removed(
    db: &Connection,
    statement: &str,
    stamp: Stamp,
    id: Uuid,
    removed: bool,
) -> Result<(), StoreError> {
    db.prepare_cached(statement)?.execute(params![
        id,
        removed,
        stamp.hlc.number(),
        stamp.device,
        stamp.seq
    ])?;
    Ok(())
}

fn upsert(table: &str, stamp: &str, columns: &[&str], sets: &str, wins: char) -> String {
    let insert = insert(table, stamp, columns);
    let [hlc, device, seq] = stamp_columns(stamp);
    format!(
        "{insert}
         ON CONFLICT (id) DO UPDATE SET
           {sets}{hlc} = excluded.{hlc}, {device} = excluded.{device}, {seq} = excluded.{seq}
         WHERE {hlc} IS NULL
            OR (excluded.{hlc}, excluded.{device}, excluded.{seq})
               {wins} ({hlc}, {device}, {seq})"
    )
}

fn insert(table: &str, stamp: &str, columns: &[&str]) -> String {
    let stamp = stamp_columns(stamp);
    let names: Vec<&str> = ["id"]
        .into_iter()
        .chain(columns.iter().copied())
        .chain(stamp.iter().map(String::as_str))
        .collect();
    let values: Vec<String> = (1..=names.len()).map(|place| format!("?{place}")).collect();
    format!(
        "INSERT INTO {table} ({}) VALUES ({})",
        names.join(", "),
        values.join(", ")
    )
}

fn stamp_columns(stamp: &str) -> [String; 3] {
    ["hlc", "device", "seq"].map(|column| format!("{stamp}_{column}"))
}
