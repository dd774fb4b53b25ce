//! Where a branch goes on: one rule for phones, hub, files and archives.

use sha2::{Digest as _, Sha256};
use uuid::Uuid;

use crate::Tag;

/// The series under which a branch goes on that parts from `device`'s at number `from`
/// with a change of the tag `first`: a UUIDv8 of these three, so that everybody who
/// holds the branch moves it to the same place, however it came.
#[must_use]
pub fn branch_id(device: Uuid, from: u64, first: Tag) -> Uuid {
    let digest = Sha256::new_with_prefix(device.as_bytes())
        .chain_update(from.to_be_bytes())
        .chain_update(first.0)
        .finalize();
    let mut bytes = [0; 16];
    bytes.copy_from_slice(&digest[..16]);
    uuid::Builder::from_custom_bytes(bytes).into_uuid()
}

/// Whether a series is the branch that parts from `origin` after number `seq` with a
/// change of that tag.
#[must_use]
pub fn is_branch(series: Uuid, origin: Uuid, seq: u64, first: Tag) -> bool {
    series == branch_id(origin, seq.saturating_add(1), first)
}
