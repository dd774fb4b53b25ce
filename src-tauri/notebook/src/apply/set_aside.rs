//! The view of what does not count: changes that cannot be read, facts out of bounds,
//! and changes that wait or were told again (see [`crate::clock`]).

use std::collections::{BTreeMap, BTreeSet};

use rusqlite::{Connection, params};
use uuid::Uuid;

use crate::error::StoreError;
use crate::fact::{self, Body, Reason, SetAside, WHOLE_CHANGE};
use crate::log::{self, Change, Hlc};

/// Which readable changes do not count, whatever they say.
pub(crate) enum Waiting {
    /// By the clock, for changes that arrive.
    ByClock {
        /// This device, whose changes never wait here.
        own: Uuid,
        /// The latest stamp that counts.
        horizon: Hlc,
    },
    /// For a rebuild: what counted goes on to count, whatever the clock says by now.
    Again {
        /// Changes that wait, and still lie beyond the horizon.
        waiting: BTreeSet<(Uuid, u64)>,
        /// Changes that their own device told again.
        told_again: BTreeSet<(Uuid, u64)>,
    },
    /// Those that a notebook lists, for a comparison with what it shows.
    AsListed(BTreeMap<(Uuid, u64), Reason>),
}

impl Waiting {
    /// The rule for a rebuild of views that this version, or one with the same rule of
    /// waiting, filled.
    pub(crate) fn for_rebuild(db: &Connection, horizon: Hlc) -> Result<Waiting, StoreError> {
        let waiting = names(
            db,
            "SELECT device, seq FROM set_aside WHERE reason = 'waiting' AND hlc > ?1",
            horizon,
        )?;
        Ok(Waiting::Again {
            waiting,
            told_again: told_again_by_own(db)?,
        })
    }

    /// The rule for the first rebuild by a version that lets changes wait.
    pub(crate) fn for_first_rebuild(
        db: &Connection,
        own: Uuid,
        horizon: Hlc,
    ) -> Result<Waiting, StoreError> {
        let mut waiting = names(db, "SELECT device, seq FROM change WHERE hlc > ?1", horizon)?;
        waiting.retain(|(device, _)| *device != own);
        Ok(Waiting::Again {
            waiting,
            told_again: told_again_by_own(db)?,
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
            Waiting::ByClock { own, horizon } => {
                let waits = change.hlc > *horizon && change.device != *own;
                waits.then_some(Reason::Waiting)
            }
            Waiting::Again {
                waiting,
                told_again,
            } => {
                if told_again.contains(&name) {
                    Some(Reason::ToldAgain)
                } else {
                    waiting.contains(&name).then_some(Reason::Waiting)
                }
            }
        }
    }
}

/// The changes that a statement finds beyond the horizon.
fn names(
    db: &Connection,
    statement: &str,
    horizon: Hlc,
) -> Result<BTreeSet<(Uuid, u64)>, StoreError> {
    let mut statement = db.prepare(statement)?;
    let rows = statement.query_map([horizon.number()], |row| Ok((row.get(0)?, row.get(1)?)))?;
    Ok(rows.collect::<Result<_, _>>()?)
}

/// The changes that a later one of the same device tells again, under an
/// earlier stamp.
fn told_again_by_own(db: &Connection) -> Result<BTreeSet<(Uuid, u64)>, StoreError> {
    let mut found = BTreeSet::new();
    each_again(db, |device, hlc, again| {
        if again.device == device {
            let old = log::change_at(db, device, again.seq)?;
            if old.is_some_and(|old| old.hlc.number() > hlc) {
                found.insert((device, again.seq));
            }
        }
        Ok(())
    })?;
    Ok(found)
}

/// The changes that any device tells again.
pub fn told_again(db: &Connection) -> Result<BTreeSet<(Uuid, u64)>, StoreError> {
    let mut found = BTreeSet::new();
    each_again(db, |_, _, again| {
        found.insert((again.device, again.seq));
        Ok(())
    })?;
    Ok(found)
}

/// Calls `each` with the device and stamp of every change that tells one again, and that
/// one's name.
fn each_again(
    db: &Connection,
    mut each: impl FnMut(Uuid, i64, fact::ChangeName) -> Result<(), StoreError>,
) -> Result<(), StoreError> {
    let mut statement = db.prepare(
        "SELECT device, hlc, body FROM change WHERE instr(body, '\"again\":') > 0 ORDER BY arrival",
    )?;
    let mut rows = statement.query([])?;
    while let Some(row) = rows.next()? {
        let body = Body::read(row.get_ref(2)?.as_str().unwrap_or_default());
        if let Some(again) = body.again {
            each(row.get(0)?, row.get(1)?, again)?;
        }
    }
    Ok(())
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

/// A device told its own earlier change again, under an earlier stamp: the old one never
/// counts. Gives whether it counts so far, so that the views must be filled anew.
///
/// What another device tells again does not keep a change from counting on its day: any
/// member could silence any other so.
pub(super) fn told_again_by(
    db: &Connection,
    change: &Change,
    told: fact::ChangeName,
) -> Result<bool, StoreError> {
    if told.device != change.device {
        return Ok(false);
    }
    let listed = db
        .prepare_cached(
            "UPDATE set_aside SET reason = 'told_again'
             WHERE device = ?1 AND seq = ?2 AND fact = ?3 AND reason = 'waiting' AND hlc > ?4",
        )?
        .execute(params![
            told.device,
            told.seq,
            WHOLE_CHANGE,
            change.hlc.number()
        ])?;
    let counts = || -> Result<bool, StoreError> {
        Ok(db
            .prepare_cached(
                "SELECT 1 FROM change WHERE device = ?1 AND seq = ?2 AND hlc > ?3
                   AND NOT EXISTS (SELECT 1 FROM set_aside
                                   WHERE set_aside.device = change.device
                                     AND set_aside.seq = change.seq AND set_aside.fact = ?4)",
            )?
            .exists(params![
                told.device,
                told.seq,
                change.hlc.number(),
                WHOLE_CHANGE
            ])?)
    };
    Ok(listed == 0 && counts()?)
}

/// The changes from `from` on of a series stand in another one from now on, under the
/// numbers from 1 on: what waits of them still does, and nothing else.
pub(crate) fn move_to(
    db: &Connection,
    device: Uuid,
    from: u64,
    to: Uuid,
    count: u64,
) -> Result<(), StoreError> {
    db.execute(
        "DELETE FROM set_aside WHERE device = ?1 AND seq <= ?2",
        params![to, count],
    )?;
    db.execute(
        "UPDATE set_aside SET device = ?3, seq = seq - ?2 + 1 WHERE device = ?1 AND seq >= ?2",
        params![device, from, to],
    )?;
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
