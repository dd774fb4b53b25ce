//! Changes of other devices on their way into the notebook.

use std::collections::BTreeMap;

use rusqlite::{Connection, Transaction};
use uuid::Uuid;

use super::Ingested;
use crate::apply::{self, BATCH_CHANGES, Batch, Touched, Waiting};
use crate::error::{IngestError, StoreError};
use crate::log::{self, Change, Hlc};
use crate::own_id;
use crate::seal::{self, Sealed};
use wire::seal::Writer as SeriesWriter;

/// A running transaction that takes in changes as they were written elsewhere.
pub(crate) struct Intake<'n> {
    pub(super) tx: Transaction<'n>,
    pub(super) own: Uuid,
    pub(super) received_ms: i64,
    pub(super) horizon: Hlc,
    pub(super) waiting: Waiting,
    /// How far each series is held.
    pub(super) ends: BTreeMap<Uuid, u64>,
    pub(super) outcome: Ingested,
    /// Told, and not yet in the views.
    pub(super) batch: Batch,
}

impl Intake<'_> {
    /// The database as this transaction sees it.
    pub fn db(&self) -> &Connection {
        &self.tx
    }

    /// The device whose series this notebook writes.
    pub fn own(&self) -> Uuid {
        self.own
    }

    /// Changes that were new so far.
    pub fn new_changes(&self) -> u64 {
        self.outcome.new as u64
    }

    /// How far a series is held, what came in this transaction included.
    pub fn end(&self, device: Uuid) -> u64 {
        self.ends.get(&device).copied().unwrap_or_default()
    }

    /// Takes in one change, which must be known or the next of its series.
    pub fn take(&mut self, change: &Change) -> Result<(), IngestError> {
        let (device, seq) = (change.device, change.seq);
        if let Some(reason) = change.fault() {
            return Err(IngestError::Malformed {
                device,
                seq,
                reason,
            });
        }
        let end = self.end(device);
        if seq <= end {
            let known = log::change_at(&self.tx, device, seq)?;
            if !known.is_some_and(|known| is_same(&known, change)) {
                return Err(IngestError::Fork {
                    device,
                    seq,
                    own: device == self.own,
                });
            }
            self.outcome.known += 1;
        } else if seq == end + 1 {
            log::append(&self.tx, change, self.received_ms, self.horizon)?;
            let touched = apply::take(&self.tx, change, &self.waiting, &mut self.batch)?;
            self.outcome.touched.join(touched);
            if self.batch.count() >= BATCH_CHANGES / 8 {
                self.settle()?;
            }
            self.ends.insert(device, seq);
            self.outcome.new += 1;
        } else {
            return Err(IngestError::Gap {
                device,
                expected: end + 1,
                got: seq,
            });
        }
        Ok(())
    }

    /// Brings the views up to date with all that was taken in.
    pub fn settle(&mut self) -> Result<(), StoreError> {
        let shown_otherwise = self.batch.store(&self.tx)?;
        self.outcome.touched.plantings.extend(shown_otherwise);
        Ok(())
    }

    /// Brings the views up to date at the end: anew, at most once, where something counts
    /// that its own device told again before it came due here.
    pub(super) fn finish(&mut self) -> Result<(), StoreError> {
        self.settle()?;
        if self.batch.wants_rebuild() {
            apply::rebuild(&self.tx, self.own, self.horizon)?;
            self.tx.execute("DELETE FROM answer", [])?;
            self.outcome.touched.join(Touched::all());
        }
        Ok(())
    }

    /// Keeps seals of what came.
    pub fn keep_seals(&self, seals: &[(SeriesWriter, Sealed)]) -> Result<(), StoreError> {
        seals
            .iter()
            .try_for_each(|(writer, sealed)| seal::keep(&self.tx, writer, sealed))
    }

    /// This notebook writes under another id from now on.
    pub fn write_as(&mut self, device: Uuid) -> Result<(), StoreError> {
        own_id::store(&self.tx, device)?;
        self.own = device;
        Ok(())
    }
}

/// Whether two changes of one number are the same: a version that cannot read one keeps
/// its bytes.
fn is_same(known: &Change, came: &Change) -> bool {
    let packed = |change: &Change| log::pack(change).ok();
    known == came || (known.raw.is_some() != came.raw.is_some() && packed(known) == packed(came))
}
