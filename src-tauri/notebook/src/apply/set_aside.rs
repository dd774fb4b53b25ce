//! The view of what does not count: changes that cannot be read, facts out of bounds,
//! and changes that wait or were told again (see [`crate::clock`]).

use std::collections::{BTreeMap, BTreeSet};

use rusqlite::{Connection, params};
use uuid::Uuid;

use crate::error::StoreError;
use crate::fact::{Body, Reason, SetAside, WHOLE_CHANGE};
use crate::log::{self, Change, Hlc};

/// Which readable changes do not count, whatever they say.
pub(crate) enum Waiting {
    /// By the clock, for changes that arrive and for a rebuild.
    ByClock {
        /// This device, whose changes wait only where they were told again.
        own: Uuid,
        /// The latest stamp that counts.
        horizon: Hlc,
        /// Changes that their own device told again.
        told_again: BTreeSet<(Uuid, u64)>,
    },
    /// Those that a notebook lists, for a comparison with what it shows.
    AsListed(BTreeMap<(Uuid, u64), Reason>),
}

impl Waiting {
    /// The rule for changes that arrive: what they tell again has arrived before.
    pub(crate) fn on_arrival(own: Uuid, horizon: Hlc) -> Waiting {
        Waiting::ByClock {
            own,
            horizon,
            told_again: BTreeSet::new(),
        }
    }

    /// The rule for a rebuild.
    pub(crate) fn for_rebuild(
        db: &Connection,
        own: Uuid,
        horizon: Hlc,
    ) -> Result<Waiting, StoreError> {
        Ok(Waiting::ByClock {
            own,
            horizon,
            told_again: told_again(db)?,
        })
    }

    /// The changes that a notebook lists.
    pub(crate) fn listed(db: &Connection) -> Result<Waiting, StoreError> {
        let mut statement = db.prepare(
            "SELECT device, seq, reason FROM set_aside
             WHERE fact = ?1 AND reason IN ('waiting', 'told_again')",
        )?;
        let rows = statement.query_map([WHOLE_CHANGE], |row| {
            Ok(((row.get(0)?, row.get(1)?), row.get(2)?))
        })?;
        Ok(Waiting::AsListed(rows.collect::<Result<_, _>>()?))
    }

    /// Why a change does not count; none where it does.
    pub(super) fn of(&self, change: &Change) -> Option<Reason> {
        let name = (change.device, change.seq);
        match self {
            Waiting::AsListed(listed) => listed.get(&name).copied(),
            Waiting::ByClock {
                own,
                horizon,
                told_again,
            } => {
                if told_again.contains(&name) {
                    Some(Reason::ToldAgain)
                } else if change.hlc > *horizon && change.device != *own {
                    Some(Reason::Waiting)
                } else {
                    None
                }
            }
        }
    }
}

/// The changes that a later one of the same device tells again, under an
/// earlier stamp.
fn told_again(db: &Connection) -> Result<BTreeSet<(Uuid, u64)>, StoreError> {
    let mut statement = db.prepare(
        "SELECT device, hlc, body FROM change WHERE instr(body, '\"again\":') > 0 ORDER BY arrival",
    )?;
    let mut rows = statement.query([])?;
    let mut found = BTreeSet::new();
    while let Some(row) = rows.next()? {
        let (device, hlc): (Uuid, i64) = (row.get(0)?, row.get(1)?);
        let body = Body::read(row.get_ref(2)?.as_str().unwrap_or_default());
        let Some(again) = body.again.filter(|again| again.device == device) else {
            continue;
        };
        let old = log::change_at(db, device, again.seq)?;
        if old.is_some_and(|old| old.hlc.number() > hlc) {
            found.insert((device, again.seq));
        }
    }
    Ok(found)
}

/// Lists what is set aside of a change.
pub(super) fn list(db: &Connection, change: &Change, aside: &SetAside) -> Result<(), StoreError> {
    db.prepare_cached(
        "INSERT OR REPLACE INTO set_aside (device, seq, fact, reason, what, hlc)
         VALUES (?1, ?2, ?3, ?4, ?5, ?6)",
    )?
    .execute(params![
        change.device,
        change.seq,
        aside.fact,
        aside.reason,
        aside.what,
        change.hlc.number()
    ])?;
    Ok(())
}

/// A change that waits was told again: it never counts.
pub(super) fn never_due(db: &Connection, told: crate::fact::Told) -> Result<(), StoreError> {
    db.prepare_cached(
        "UPDATE set_aside SET reason = 'told_again'
         WHERE device = ?1 AND seq = ?2 AND fact = ?3 AND reason = 'waiting'",
    )?
    .execute(params![told.device, told.seq, WHOLE_CHANGE])?;
    Ok(())
}

/// Takes the changes off the list that need wait no longer, the earliest first.
pub(super) fn take_due(db: &Connection, horizon: Hlc) -> Result<Vec<Change>, StoreError> {
    let due = db
        .prepare_cached(
            "SELECT device, seq FROM set_aside
             WHERE reason = 'waiting' AND hlc <= ?1 ORDER BY hlc, device, seq",
        )?
        .query_map([horizon.number()], |row| Ok((row.get(0)?, row.get(1)?)))?
        .collect::<Result<Vec<(Uuid, u64)>, _>>()?;
    let mut changes = Vec::with_capacity(due.len());
    for (device, seq) in due {
        db.prepare_cached("DELETE FROM set_aside WHERE device = ?1 AND seq = ?2 AND fact = ?3")?
            .execute(params![device, seq, WHOLE_CHANGE])?;
        changes.extend(log::change_at(db, device, seq)?);
    }
    Ok(changes)
}
