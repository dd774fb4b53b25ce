//! Two contents under one number: a device was copied or set back, and both
//! copies went on. The branch that came second moves to a series of its own;
//! nothing is lost, and nothing is counted twice, because the ids of heads stay.

use std::collections::BTreeMap;

use sha2::{Digest as _, Sha256};
use uuid::{Builder, Uuid};

use crate::apply;
use crate::error::StoreError;
use crate::log::{self, Change};
use crate::notebook::Notebook;

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
    /// `device` is this one, it writes under a new id from then on.
    ///
    /// Where the caller makes `to` from the branch's content, every notebook
    /// that holds the branch moves it to the same place.
    ///
    /// # Errors
    /// When the store fails or `to` holds something else; nothing is moved then.
    pub fn move_branch(&mut self, device: Uuid, from: u64, to: Uuid) -> Result<(), StoreError> {
        let fresh = self.fresh_device()?;
        let tx = self.transaction()?;
        let branch = log::take_branch(&tx, device, from)?;
        let held: BTreeMap<u64, Change> = log::after(&tx, to, 0, usize::MAX)?
            .into_iter()
            .map(|change| (change.seq, change))
            .collect();
        for (seq, (mut change, received_ms)) in (1..).zip(branch) {
            change.device = to;
            change.seq = seq;
            match held.get(&seq) {
                None => log::append(&tx, &change, received_ms)?,
                Some(known) if *known == change => {}
                Some(_) => {
                    return Err(StoreError::Damaged(format!(
                        "the series {to} is taken by other changes"
                    )));
                }
            }
        }
        tx.execute(
            "UPDATE this_device SET id = ?2 WHERE id = ?1",
            (device, fresh),
        )?;
        apply::rebuild(&tx)?;
        tx.execute("DELETE FROM answer", [])?;
        tx.commit()?;
        self.look_up_device()
    }
}
