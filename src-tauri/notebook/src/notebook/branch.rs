//! Two contents under one number: a device was copied or set back, and both
//! copies went on. The branch that came second moves to a series of its own;
//! nothing is lost, and nothing is counted twice, because the ids of heads stay.

use std::collections::BTreeMap;

use rusqlite::Connection;
use uuid::Uuid;
use wire::Tag;

use crate::apply;
use crate::error::StoreError;
use crate::fact::{Act, Body, Fact};
use crate::log::{self, Change};
use crate::notebook::Notebook;
use crate::own_id;
use crate::seal;
use wire::seal::{Origin, PublicKey, Writer};

/// The series under which a branch goes on that parts from `device`'s at number `from`
/// with the change `first` ([`wire::branch_id`]).
///
/// # Errors
/// When the change cannot be packed.
pub fn branch_id(device: Uuid, from: u64, first: &Change) -> Result<Uuid, StoreError> {
    Ok(wire::branch_id(device, from, Tag::of(&log::pack(first)?)))
}

impl Notebook {
    /// The series and number that name the branch of `device` from number `from`
    /// on: those that its seals name, where it goes on with its seals.
    ///
    /// # Errors
    /// When the store fails.
    pub fn branch_root(&self, device: Uuid, from: u64) -> Result<(Uuid, u64), StoreError> {
        let writer = sealed_branch(self.db(), device, from, self.key())?;
        Ok(writer
            .and_then(|writer| writer.origin)
            .map_or((device, from), |origin| (origin.series, origin.seq + 1)))
    }

    /// Moves the changes of `device` from number `from` on to the series `to`,
    /// numbered from 1; those that `to` holds already are dropped here. If
    /// `device` is this one, it writes under a new id from then on. A change says
    /// where the branch went: its own changes name each other by the old numbers.
    ///
    /// A branch that carries seals goes on with them under the key it had.
    ///
    /// Where the caller makes `to` from the branch's content, every notebook
    /// that holds the branch moves it to the same place.
    ///
    /// # Errors
    /// When the store fails or `to` holds something else; nothing is moved then.
    pub fn move_branch(&mut self, device: Uuid, from: u64, to: Uuid) -> Result<(), StoreError> {
        let (fresh, key) = (self.fresh_device()?, self.key());
        self.write(|writer| {
            let own = writer.device();
            let horizon = writer.horizon();
            let db = writer.db();
            let sealed = sealed_branch(db, device, from, key)?;
            seal::move_to(db, device, from.saturating_sub(1), to, sealed)?;
            let branch = log::take_branch(db, device, from)?;
            apply::move_set_aside(db, device, from, to, branch.len() as u64)?;
            let held: BTreeMap<u64, Change> = log::after(db, to, 0, usize::MAX)?
                .into_iter()
                .map(|change| (change.seq, change))
                .collect();
            for (seq, (mut change, received_ms)) in (1..).zip(branch) {
                change.device = to;
                change.seq = seq;
                match held.get(&seq) {
                    None => log::append(db, &change, received_ms, horizon)?,
                    Some(known) if *known == change => {}
                    Some(_) => {
                        return Err(StoreError::Damaged(format!(
                            "the series {to} is taken by other changes"
                        )));
                    }
                }
            }
            if own == device {
                own_id::store(db, fresh)?;
            }
            let own = if own == device { fresh } else { own };
            apply::rebuild(db, own, horizon)?;
            db.execute("DELETE FROM answer", [])?;
            writer.look_again()?;
            if !is_told(writer.db(), to)? {
                let moved = Fact::Moved {
                    device,
                    first: from,
                    to,
                };
                writer.record(Act::BranchMoved, &Body::of(vec![moved]))?;
            }
            Ok(())
        })?;
        self.look_up_device()
    }
}

/// The writer of a branch that goes on with the seals of `device`'s series: one that
/// carries a seal already, or that `key`, this device's own, may still seal.
fn sealed_branch(
    db: &Connection,
    device: Uuid,
    from: u64,
    key: Option<PublicKey>,
) -> Result<Option<Writer>, StoreError> {
    let Some(writer) = seal::writer(db, device)? else {
        return Ok(None);
    };
    if key != Some(writer.key) && seal::last(db, device)? < from {
        return Ok(None);
    }
    let before = from.saturating_sub(1);
    let link = seal::link_at(db, device, before, writer.start())?;
    let (series, seq) = writer.sealed_as(device, before);
    let origin = Some(Origin { series, seq, link });
    Ok(Some(Writer { origin, ..writer }))
}

/// Whether somebody has said already where this series comes from.
fn is_told(db: &Connection, series: Uuid) -> Result<bool, StoreError> {
    Ok(db
        .prepare_cached("SELECT 1 FROM moved_series WHERE series = ?1")?
        .exists([series])?)
}
