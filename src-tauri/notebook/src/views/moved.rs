//! Names of changes whose series was moved.
//!
//! A change names others by device and number. In a branch that was moved these
//! are the numbers it had before, which are other changes by now.

use std::collections::BTreeSet;

use rusqlite::Connection;
use uuid::Uuid;

use crate::error::StoreError;
use crate::fact::ChangeName;

/// Where series of moved branches came from.
pub(crate) struct Moved(Vec<From>);

struct From {
    series: Uuid,
    device: Uuid,
    first: u64,
}

/// All that is known.
pub(crate) fn all(db: &Connection) -> Result<Moved, StoreError> {
    let mut statement = db.prepare_cached(
        "SELECT series, device, first FROM moved_series ORDER BY series, device, first",
    )?;
    let rows = statement.query_map([], |row| {
        Ok(From {
            series: row.get(0)?,
            device: row.get(1)?,
            first: row.get(2)?,
        })
    })?;
    Ok(Moved(rows.collect::<Result<_, _>>()?))
}

impl Moved {
    /// The change that one of `by` meant when it wrote `named`: within a moved
    /// branch the branch's own, and elsewhere too where only that is among
    /// `candidates`.
    pub(crate) fn follow(
        &self,
        by: Uuid,
        named: ChangeName,
        candidates: &BTreeSet<ChangeName>,
    ) -> ChangeName {
        let moved = |from: &From| {
            let offset = named.seq.checked_sub(from.first)?;
            (from.device == named.device).then_some(ChangeName {
                device: from.series,
                seq: offset + 1,
            })
        };
        if let Some(own) = self
            .0
            .iter()
            .filter(|from| from.series == by)
            .find_map(moved)
        {
            return own;
        }
        if candidates.contains(&named) {
            return named;
        }
        self.0
            .iter()
            .filter_map(moved)
            .find(|moved| candidates.contains(moved))
            .unwrap_or(named)
    }
}
