//! Telling changes again whose stamps lie too far ahead (see [`crate::clock`]): the same
//! facts under the same ids, in this device's own series, under a stamp of now.

use std::collections::{BTreeMap, BTreeSet};

use rusqlite::{Connection, params};
use serde_json::value::RawValue;
use uuid::Uuid;

use crate::apply::{self, Touched};
use crate::clock::{self, FLOOR_MS};
use crate::error::StoreError;
use crate::fact::{ChangeName, Fact};
use crate::log::{self, Change, FAR_MS, Hlc};
use crate::notebook::{Notebook, Writer};

impl Notebook {
    /// Makes the clock fit for writing, when the notebook is opened: applies what waited
    /// and need not any longer, lets go of stamps beyond the horizon, and tells this
    /// device's own changes again where they lie so far ahead that its clock was wrong.
    pub(crate) fn settle_clock(&mut self) -> Result<(), StoreError> {
        let now_ms = self.clock().now().timestamp_millis();
        let horizon = clock::horizon(now_ms);
        let own = self.device();
        let ahead = series_ahead(self.db(), horizon)?;
        if ahead.iter().any(|(device, _)| *device != own) {
            let tx = self.transaction()?;
            for (device, _) in ahead.iter().filter(|(device, _)| *device != own) {
                log::follow_again(&tx, *device, horizon)?;
            }
            tx.commit()?;
        }
        let is_far = |hlc: Hlc| {
            let far = now_ms >= FLOOR_MS && hlc.milliseconds() > now_ms.saturating_add(FAR_MS);
            far || hlc.is_past_all_clocks()
        };
        if ahead
            .iter()
            .any(|(device, hlc)| *device == own && is_far(*hlc))
        {
            self.tell_again(own)?;
        } else if is_due(self.db(), horizon)? {
            self.write(|_| Ok::<(), StoreError>(()))?;
        }
        Ok(())
    }

    /// Tells the changes of a device again that lie beyond the horizon: this device's
    /// own, or those of another that wait. Each goes into this device's own series, with
    /// its kind, its facts and their ids, under a stamp of now. Gives how many there
    /// were, and what was touched.
    ///
    /// # Errors
    /// When the store fails; nothing is told again then.
    pub fn tell_again(&mut self, device: Uuid) -> Result<(u32, Touched), StoreError> {
        let own = self.device();
        self.write(|writer| {
            let horizon = writer.horizon();
            let ahead = changes_ahead(writer.db(), own, device, horizon)?;
            if ahead.is_empty() {
                return Ok(0);
            }
            if device == own {
                log::follow_again(writer.db(), own, horizon)?;
                writer.look_again()?;
            }
            let mut told: BTreeMap<u64, u64> = BTreeMap::new();
            for seq in ahead {
                let Some(old) = log::change_at(writer.db(), device, seq)? else {
                    continue;
                };
                if let Some(seq_now) = tell(writer, &old, &told)? {
                    told.insert(seq, seq_now);
                }
            }
            apply::rebuild(writer.db(), own, horizon)?;
            writer.db().execute("DELETE FROM answer", [])?;
            writer.touch(Touched::all());
            Ok(u32::try_from(told.len()).unwrap_or(u32::MAX))
        })
    }
}

/// Series of which this notebook's clock follows a stamp beyond the horizon.
fn series_ahead(db: &Connection, horizon: Hlc) -> Result<Vec<(Uuid, Hlc)>, StoreError> {
    let mut statement = db.prepare("SELECT device, hlc FROM series WHERE hlc > ?1")?;
    let rows = statement.query_map([horizon.number()], |row| {
        Ok((row.get(0)?, Hlc::new(row.get(1)?).unwrap_or(Hlc::LATEST)))
    })?;
    Ok(rows.collect::<Result<_, _>>()?)
}

fn is_due(db: &Connection, horizon: Hlc) -> Result<bool, StoreError> {
    Ok(db
        .prepare("SELECT 1 FROM set_aside WHERE reason = 'waiting' AND hlc <= ?1 LIMIT 1")?
        .exists([horizon.number()])?)
}

/// How many changes of this device count here and wait on every other.
pub fn own_ahead(db: &Connection, own: Uuid, horizon: Hlc) -> Result<u32, StoreError> {
    let is_ahead = db
        .prepare_cached("SELECT 1 FROM series WHERE device = ?1 AND hlc > ?2")?
        .exists(params![own, horizon.number()])?;
    if !is_ahead {
        return Ok(0);
    }
    let ahead = changes_ahead(db, own, own, horizon)?.len();
    Ok(u32::try_from(ahead).unwrap_or(u32::MAX))
}

/// Numbers of the changes of a device that are to be told again, in their order.
fn changes_ahead(
    db: &Connection,
    own: Uuid,
    device: Uuid,
    horizon: Hlc,
) -> Result<Vec<u64>, StoreError> {
    let mut statement = db.prepare(if device == own {
        "SELECT seq FROM change WHERE device = ?1 AND hlc > ?2
           AND NOT EXISTS (SELECT 1 FROM set_aside
                           WHERE set_aside.device = change.device
                             AND set_aside.seq = change.seq AND set_aside.fact = -1)
         ORDER BY seq"
    } else {
        "SELECT seq FROM set_aside
         WHERE device = ?1 AND reason = 'waiting' AND hlc > ?2 ORDER BY seq"
    })?;
    let rows = statement.query_map(params![device, horizon.number()], |row| row.get(0))?;
    let mut ahead: Vec<u64> = rows.collect::<Result<_, _>>()?;
    if device != own && !ahead.is_empty() {
        // They go on to wait for their day, and are not told a second time.
        let told = apply::told_again(db)?;
        ahead.retain(|seq| !told.contains(&(device, *seq)));
    }
    Ok(ahead)
}

/// Tells one change again; gives its number now, or none where it has no room for the
/// name of the old one. `told`: numbers told before, and their numbers now.
fn tell(
    writer: &mut Writer,
    old: &Change,
    told: &BTreeMap<u64, u64>,
) -> Result<Option<u64>, StoreError> {
    let Ok(body) = body_again(old, writer.device(), told) else {
        // Nothing in it can be told.
        return Ok(None);
    };
    match writer.log(&old.kind, body) {
        Ok(change) => Ok(Some(change.seq)),
        Err(StoreError::Unwritable(_)) => Ok(None),
        Err(error) => Err(error),
    }
}

/// The body of a change that is told again by `teller`: its facts byte for byte, but for
/// the numbers by which they name changes that were told again too.
fn body_again(old: &Change, teller: Uuid, told: &BTreeMap<u64, u64>) -> Result<String, StoreError> {
    let mut body: BTreeMap<String, Box<RawValue>> = serde_json::from_str(&old.body)?;
    let again = ChangeName {
        device: old.device,
        seq: old.seq,
    };
    body.insert("again".to_owned(), raw(&again)?);
    if let Some(undoes) = body.get("undoes") {
        // Of another device's changes the numbers would name ours.
        let numbers: Vec<u64> = serde_json::from_str(undoes.get())?;
        let now: BTreeSet<u64> = numbers
            .iter()
            .filter_map(|seq| {
                told.get(seq)
                    .copied()
                    .or((old.device == teller).then_some(*seq))
            })
            .collect();
        body.insert("undoes".to_owned(), raw(&now)?);
    }
    if let Some(facts) = body.get("facts") {
        let facts: Vec<Box<RawValue>> = serde_json::from_str(facts.get())?;
        let facts = facts
            .into_iter()
            .map(|fact| fact_again(fact, old.device, teller, told))
            .collect::<Result<Vec<_>, _>>()?;
        body.insert("facts".to_owned(), raw(&facts)?);
    }
    Ok(serde_json::to_string(&body)?)
}

/// A fact as it is told again: what it replaced goes by its number now.
fn fact_again(
    fact: Box<RawValue>,
    device: Uuid,
    teller: Uuid,
    told: &BTreeMap<u64, u64>,
) -> Result<Box<RawValue>, StoreError> {
    let Ok(Fact::Set {
        row,
        id,
        walk,
        to,
        mut replaces,
    }) = serde_json::from_str::<Fact>(fact.get())
    else {
        return Ok(fact);
    };
    if replaces.is_empty() {
        return Ok(fact);
    }
    for named in replaces.values_mut().flatten() {
        if let Some(now) = told.get(&named.seq).filter(|_| named.device == device) {
            *named = ChangeName {
                device: teller,
                seq: *now,
            };
        }
    }
    raw(&Fact::Set {
        row,
        id,
        walk,
        to,
        replaces,
    })
}

fn raw(value: &impl serde::Serialize) -> Result<Box<RawValue>, StoreError> {
    Ok(RawValue::from_string(serde_json::to_string(value)?)?)
}
