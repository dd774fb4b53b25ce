//! Two contents under one number: a device was copied or set back, and both
//! copies went on. The branch that came second moves to a series of its own;
//! nothing is lost, and nothing is counted twice, because the ids of heads stay.

use std::collections::BTreeMap;

use rusqlite::Connection;
use sha2::{Digest as _, Sha256};
use uuid::{Builder, Uuid};

use crate::apply;
use crate::error::StoreError;
use crate::fact::{Body, Fact, act};
use crate::log::{self, Change};
use crate::notebook::Notebook;
use crate::own_id;

/// The series under which a branch goes on that parts from `device`'s at number
/// `from` with the change `first`: a UUIDv8 of its content, so that every
/// notebook that holds the branch moves it to the same place, whether it came
/// by an exchange or in an archive.
///
/// # Errors
/// When the change cannot be packed.
pub fn branch_id(device: Uuid, from: u64, first: &Change) -> Result<Uuid, StoreError> {
    let tag = Sha256::digest(log::pack(first)?);
    let digest = Sha256::new_with_prefix(device.as_bytes())
        .chain_update(from.to_be_bytes())
        .chain_update(&tag[..8])
        .finalize();
    let mut bytes = [0; 16];
    bytes.copy_from_slice(&digest[..16]);
    Ok(Builder::from_custom_bytes(bytes).into_uuid())
}

impl Notebook {
    /// Moves the changes of `device` from number `from` on to the series `to`,
    /// numbered from 1; those that `to` holds already are dropped here. If
    /// `device` is this one, it writes under a new id from then on. A change says
    /// where the branch went: its own changes name each other by the old numbers.
    ///
    /// Where the caller makes `to` from the branch's content, every notebook
    /// that holds the branch moves it to the same place.
    ///
    /// # Errors
    /// When the store fails or `to` holds something else; nothing is moved then.
    pub fn move_branch(&mut self, device: Uuid, from: u64, to: Uuid) -> Result<(), StoreError> {
        let fresh = self.fresh_device()?;
        self.write(|writer| {
            let db = writer.db();
            let branch = log::take_branch(db, device, from)?;
            let held: BTreeMap<u64, Change> = log::after(db, to, 0, usize::MAX)?
                .into_iter()
                .map(|change| (change.seq, change))
                .collect();
            for (seq, (mut change, received_ms)) in (1..).zip(branch) {
                change.device = to;
                change.seq = seq;
                match held.get(&seq) {
                    None => log::append(db, &change, received_ms)?,
                    Some(known) if *known == change => {}
                    Some(_) => {
                        return Err(StoreError::Damaged(format!(
                            "the series {to} is taken by other changes"
                        )));
                    }
                }
            }
            if writer.device() == device {
                own_id::store(db, fresh)?;
            }
            apply::rebuild(db)?;
            db.execute("DELETE FROM answer", [])?;
            writer.look_again()?;
            if !is_told(writer.db(), to)? {
                let moved = Fact::Moved {
                    device,
                    first: from,
                    to,
                };
                writer.record(act::BRANCH_MOVED, &Body::of(vec![moved]))?;
            }
            Ok(())
        })?;
        self.look_up_device()
    }
}

/// Whether somebody has said already where this series comes from.
fn is_told(db: &Connection, series: Uuid) -> Result<bool, StoreError> {
    Ok(db
        .prepare_cached("SELECT 1 FROM moved_series WHERE series = ?1")?
        .exists([series])?)
}
