//! Plantings that are shown as one.
//!
//! Who was merged into whom is a field like the others: the latest word about a
//! planting stands. What follows from all of them together, whom each is shown
//! as, depends on nothing but those words, so the order of arrival makes no
//! difference.

use std::collections::{BTreeMap, BTreeSet};

use rusqlite::{Connection, params};
use uuid::Uuid;

use crate::error::StoreError;
use crate::views::merged::parents_and_ends;

/// Whether anything was ever merged.
pub(super) fn any(db: &Connection) -> Result<bool, StoreError> {
    Ok(db
        .prepare_cached("SELECT 1 FROM planting WHERE merged_into IS NOT NULL LIMIT 1")?
        .exists([])?)
}

/// Works out anew whom each planting is shown as. Gives the plantings for which
/// that changed, with those they were and are shown as.
pub(super) fn resolve(db: &Connection) -> Result<BTreeSet<Uuid>, StoreError> {
    let before: BTreeMap<Uuid, Uuid> = db
        .prepare_cached("SELECT id, shown_as FROM planting WHERE shown_as IS NOT NULL")?
        .query_map([], |row| Ok((row.get(0)?, row.get(1)?)))?
        .collect::<Result<_, _>>()?;
    let (parents, mut ends) = parents_and_ends(db)?;
    let after: BTreeMap<Uuid, Uuid> = parents.keys().map(|id| (*id, ends.of(*id))).collect();
    let mut touched = BTreeSet::new();
    let mut show = db.prepare_cached("UPDATE planting SET shown_as = ?2 WHERE id = ?1")?;
    for id in before.keys().chain(after.keys()) {
        let (was, is) = (before.get(id), after.get(id));
        if was != is {
            show.execute(params![id, is])?;
            touched.insert(*id);
            touched.extend(was);
            touched.extend(is);
        }
    }
    Ok(touched)
}
