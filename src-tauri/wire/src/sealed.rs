//! Runs of changes with the seals that cover them, and who seals which series.

use crate::seal::{Origin, PublicKey, Signature, Writer};
use crate::{Bounded, Heads, LISTED_SERIES, PAGE_CHANGES, Run};
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;
use uuid::Uuid;

/// A seal at the last change of a run. It covers the series up to there.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct RunSeal {
    /// The key of the series' writer.
    pub key: PublicKey,
    /// The signature.
    pub signature: Signature,
    /// Where the series parted from another, if it is a moved branch.
    pub origin: Option<Origin>,
}

impl RunSeal {
    /// The writer that the seal names.
    #[must_use]
    pub fn writer(&self) -> Writer {
        Writer {
            key: self.key,
            origin: self.origin,
        }
    }
}

/// Consecutive changes of one writer, sealed at the last of them. A run without a
/// seal is of a series that carries none.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct SealedRun {
    /// The changes.
    pub run: Run,
    /// The seal at their end.
    pub seal: Option<RunSeal>,
}

impl From<Run> for SealedRun {
    fn from(run: Run) -> Self {
        Self { run, seal: None }
    }
}

/// Sealed runs that are stored together or not at all.
pub type SealedPage = Bounded<SealedRun, PAGE_CHANGES>;

/// The keys of a crew's series, in the order of the series that stand beside it.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Roster {
    /// Keys of writers, each once.
    pub writers: Bounded<RosterEntry, LISTED_SERIES>,
    /// For each series the number of its writer, counted from 1; 0 for none.
    pub of: Bounded<u32, LISTED_SERIES>,
}

/// A key, and the membership whose it is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub struct RosterEntry {
    /// The public key.
    pub key: PublicKey,
    /// The membership that gave the key; none for the key of a device that is not
    /// in this crew.
    pub member: Option<Uuid>,
}

impl Roster {
    /// The roster of the series of `heads`, whose writers are `writers`.
    #[must_use]
    pub fn new(heads: &Heads, writers: &BTreeMap<Uuid, RosterEntry>) -> Self {
        let mut numbers: BTreeMap<RosterEntry, u32> = BTreeMap::new();
        let mut listed = Vec::new();
        let of = heads
            .keys()
            .map(|series| match writers.get(series) {
                None => 0,
                Some(entry) => *numbers.entry(*entry).or_insert_with(|| {
                    listed.push(*entry);
                    u32::try_from(listed.len()).unwrap_or(0)
                }),
            })
            .collect();
        Self {
            writers: listed.into(),
            of,
        }
    }

    /// The key of each series of `heads` that has one.
    #[must_use]
    pub fn keys(&self, heads: &Heads) -> BTreeMap<Uuid, PublicKey> {
        let entry = |number: u32| {
            let place = usize::try_from(number).ok()?.checked_sub(1)?;
            self.writers.get(place)
        };
        heads
            .keys()
            .zip(self.of.iter())
            .filter_map(|(series, number)| Some((*series, entry(*number)?.key)))
            .collect()
    }
}
