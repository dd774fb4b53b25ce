//! The two statements by which facts about one thing compete, whatever the thing.
//!
//! Of several tellings of a thing the first stands, by stamp; what was corrected
//! meanwhile stands above it. Of several later words about it (a correction, a
//! removal) the last stands. Either may arrive first.

use std::fmt::Write as _;

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

/// The last word about a thing. Parameters: the id, `columns`, then clock, device
/// and number.
pub(super) fn last(table: &str, stamp: &str, columns: &[&str]) -> String {
    let mut sets = String::new();
    for column in columns {
        let _ = write!(sets, "{column} = excluded.{column}, ");
    }
    upsert(table, stamp, columns, &sets, '>')
}

fn upsert(table: &str, stamp: &str, columns: &[&str], sets: &str, wins: char) -> String {
    let names: String = columns.iter().map(|column| format!("{column}, ")).collect();
    let values: String = (1..=columns.len() + 4)
        .map(|place| format!("?{place}, "))
        .collect();
    let values = values.trim_end_matches(", ");
    let (hlc, device, seq) = (
        format!("{stamp}_hlc"),
        format!("{stamp}_device"),
        format!("{stamp}_seq"),
    );
    format!(
        "INSERT INTO {table} (id, {names}{hlc}, {device}, {seq}) VALUES ({values})
         ON CONFLICT (id) DO UPDATE SET
           {sets}{hlc} = excluded.{hlc}, {device} = excluded.{device}, {seq} = excluded.{seq}
         WHERE {hlc} IS NULL
            OR (excluded.{hlc}, excluded.{device}, excluded.{seq})
               {wins} ({hlc}, {device}, {seq})"
    )
}
