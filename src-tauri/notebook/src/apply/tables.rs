//! The view tables as a whole: emptying and comparing them.

use rusqlite::Connection;
use rusqlite::types::ValueRef;
use sha2::{Digest as _, Sha256};

use crate::error::StoreError;
use crate::log::Digest;

/// Every view with the columns that order its rows.
const VIEWS: &[(&str, &str)] = &[
    ("field_value", "id, field, hlc, device, seq"),
    ("farm", "id"),
    ("field", "id"),
    ("hybrid", "id"),
    ("planting", "id"),
    ("walk", "id"),
    ("stop", "id"),
    ("head", "id"),
    ("photo", "id"),
    ("spoken_of", "id, device, seq"),
    ("station", "name"),
    ("weather_day", "station, date"),
    ("observed", "id"),
    ("harvest_term", "planting, name, hlc, device, seq"),
    ("moved_series", "series, device, first"),
    ("heat_set", "id"),
    ("whole_notebook", "id"),
    ("set_aside", "device, seq, fact"),
];

/// Names of the views.
pub(crate) fn view_names() -> impl Iterator<Item = &'static str> {
    VIEWS.iter().map(|(view, _)| *view)
}

/// Empties them.
pub(super) fn empty(db: &Connection) -> Result<(), StoreError> {
    for (table, _) in VIEWS {
        db.execute(&format!("DELETE FROM {table}"), [])?;
    }
    Ok(())
}

/// SHA-256 over every row of every view, in order: two notebooks with the same
/// log have the same.
pub(crate) fn digest(db: &Connection) -> Result<Digest, StoreError> {
    let mut hash = Sha256::new();
    for (table, digest) in digests(db)? {
        hash.update(table.as_bytes());
        hash.update(digest);
    }
    Ok(hash.finalize().into())
}

/// SHA-256 over the rows of each view.
pub(crate) fn digests(db: &Connection) -> Result<Vec<(&'static str, Digest)>, StoreError> {
    let mut digests = Vec::with_capacity(VIEWS.len());
    // Of the index the words count, not where it keeps them.
    let words = ("(SELECT kind, id, text FROM searchable)", "kind, id");
    for (table, order) in VIEWS.iter().copied().chain([words]) {
        let mut hash = Sha256::new();
        let mut statement = db.prepare(&format!("SELECT * FROM {table} ORDER BY {order}"))?;
        let columns = statement.column_count();
        let mut rows = statement.query([])?;
        while let Some(row) = rows.next()? {
            for column in 0..columns {
                match row.get_ref(column)? {
                    ValueRef::Null => hash.update([0]),
                    ValueRef::Integer(number) => {
                        hash.update([1]);
                        hash.update(number.to_be_bytes());
                    }
                    ValueRef::Real(number) => {
                        hash.update([2]);
                        hash.update(number.to_bits().to_be_bytes());
                    }
                    ValueRef::Text(bytes) | ValueRef::Blob(bytes) => {
                        hash.update([3]);
                        hash.update((bytes.len() as u64).to_be_bytes());
                        hash.update(bytes);
                    }
                }
            }
        }
        digests.push((table, hash.finalize().into()));
    }
    Ok(digests)
}
