//! Plantings of which people said different things about what they are, without
//! having seen each other's: one of its own, or the same as one or another.

use std::collections::{BTreeMap, BTreeSet};

use rusqlite::{Connection, OptionalExtension, params};
use uuid::Uuid;

use super::plantings::{one, shown, standing};
use crate::error::StoreError;
use crate::fact::ChangeName;
use crate::log;
use crate::views::merged::{MERGED_INTO, parents};
use chrono::{DateTime, FixedOffset};
use serde::{Deserialize, Serialize};

/// A planting of which people said different things about what it is.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct MergeConflict {
    /// Id of the planting.
    pub planting: Uuid,
    /// Its own name.
    pub name: String,
    /// What is shown.
    pub stands: MergeSaid,
    /// The others, sorted by the planting that they name.
    pub others: Vec<MergeSaid>,
}

/// What somebody said a planting is.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct MergeSaid {
    /// The planting into which it was merged; none: one of its own.
    pub into: Option<Uuid>,
    /// The name of that.
    pub name: String,
    /// On which device.
    pub device: Uuid,
    /// When, by the writer's clock.
    pub recorded_at: DateTime<FixedOffset>,
}

/// How many of the latest words about one planting are weighed; people do not say more.
const MOST_WORDS: usize = 50;

/// The conflicts that concern a planting as it is shown: its own, those of plantings
/// shown as it, and those of plantings that someone merged into it.
pub fn of_planting(db: &Connection, id: Uuid) -> Result<Vec<MergeConflict>, StoreError> {
    let shown_as_it: BTreeSet<Uuid> = db
        .prepare_cached("SELECT id FROM planting WHERE id = ?1 OR shown_as = ?1")?
        .query_map([id], |row| row.get(0))?
        .collect::<Result<_, _>>()?;
    let concerns_it = |planting: Uuid, into: &str| {
        let into: Option<Uuid> = serde_json::from_str(into).unwrap_or_default();
        shown_as_it.contains(&planting) || into.is_some_and(|into| shown_as_it.contains(&into))
    };
    let mut spoken_of = BTreeSet::new();
    {
        let mut statement =
            db.prepare_cached("SELECT id, value FROM field_value WHERE field = ?1")?;
        let mut rows = statement.query([MERGED_INTO])?;
        while let Some(row) = rows.next()? {
            let planting = row.get(0)?;
            if concerns_it(planting, row.get_ref(1)?.as_str().unwrap_or_default()) {
                spoken_of.insert(planting);
            }
        }
    }
    if spoken_of.is_empty() {
        return Ok(Vec::new());
    }
    let parents = parents(db)?;
    let mut found = Vec::new();
    for planting in spoken_of {
        let Some(conflict) = conflict(db, &parents, planting)? else {
            continue;
        };
        let mut concerned = BTreeSet::from([planting]);
        concerned.extend(conflict.stands.into);
        concerned.extend(conflict.others.iter().filter_map(|other| other.into));
        for each in concerned {
            if each == id || shown(db, each)? == id {
                found.push(conflict);
                break;
            }
        }
    }
    Ok(found)
}

/// What stands of a planting, and the words beside it that would show it otherwise.
fn conflict(
    db: &Connection,
    parents: &BTreeMap<Uuid, Uuid>,
    planting: Uuid,
) -> Result<Option<MergeConflict>, StoreError> {
    let Some(known) = one(db, planting)? else {
        return Ok(None);
    };
    let mut said = Vec::new();
    let words = standing(db, planting, MERGED_INTO)?;
    for told in words.iter().skip(words.len().saturating_sub(MOST_WORDS)) {
        said.extend(read(db, planting, *told)?);
    }
    let Some(mut stands) = said.pop() else {
        return Ok(None);
    };
    let mut others: BTreeMap<Option<Uuid>, MergeSaid> = BTreeMap::new();
    let in_force = parents.get(&planting).copied();
    if let Some(into) = stands.into
        && in_force.is_none()
    {
        // A word into a planting that has not come yet says nothing so far.
        let Some(link) = link_to(parents, into, planting) else {
            return Ok(None);
        };
        // It would close a circle: the later word, that the other is this one, stands.
        let Some(word) = standing(db, link, MERGED_INTO)?.pop() else {
            return Ok(None);
        };
        let Some(word) = read(db, link, word)? else {
            return Ok(None);
        };
        others.insert(stands.into, stands);
        stands = MergeSaid {
            into: None,
            name: known.name.clone(),
            ..word
        };
    }
    let end = |into: Option<Uuid>| -> Result<Option<Uuid>, StoreError> {
        into.map(|into| shown(db, into)).transpose()
    };
    let stands_as = end(stands.into)?;
    for other in said {
        if end(other.into)? != stands_as {
            others.insert(other.into, other);
        }
    }
    // Nobody chooses one that was removed, be it this one.
    if known.removed {
        others.remove(&None);
    }
    for into in others.keys().copied().collect::<Vec<_>>() {
        if let Some(into) = into
            && one(db, shown(db, into)?)?.is_none_or(|end| end.removed)
        {
            others.remove(&Some(into));
        }
    }
    Ok((!others.is_empty()).then(|| MergeConflict {
        planting,
        name: known.name,
        stands,
        others: others.into_values().collect(),
    }))
}

/// The last planting on the way from one that leads to another.
pub fn link_to(parents: &BTreeMap<Uuid, Uuid>, from: Uuid, to: Uuid) -> Option<Uuid> {
    let mut link = from;
    loop {
        let next = *parents.get(&link)?;
        if next == to {
            return Some(link);
        }
        link = next;
    }
}

fn read(
    db: &Connection,
    planting: Uuid,
    told: ChangeName,
) -> Result<Option<MergeSaid>, StoreError> {
    let value: Option<String> = db
        .prepare_cached(
            "SELECT value FROM field_value WHERE id = ?1 AND field = ?2 AND device = ?3 AND seq = ?4",
        )?
        .query_row(params![planting, MERGED_INTO, told.device, told.seq], |row| row.get(0))
        .optional()?;
    let change = log::change_at(db, told.device, told.seq)?;
    let (Some(value), Some(change)) = (value, change) else {
        return Ok(None);
    };
    let into: Option<Uuid> = serde_json::from_str(&value).unwrap_or_default();
    let into = into.filter(|into| *into != planting);
    // One that has not come yet has no name to choose it by.
    let Some(named) = one(db, into.unwrap_or(planting))? else {
        return Ok(None);
    };
    Ok(Some(MergeSaid {
        into,
        name: named.name,
        device: told.device,
        recorded_at: change.recorded_at(),
    }))
}
