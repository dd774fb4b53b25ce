//! What travels between notebooks and a hub.
//!
//! A message is one [`Ask`] or [`Answer`] in one [`frame`]; a file between two
//! phones is a row of frames ([`Leaf`]). Frames carry a version, so that an
//! older app and a newer hub can tell each other what they speak.
//!
//! Changes are opaque here: a change is the bytes its writer stored, named by
//! (device, seq). Kinds that this version does not know travel like the others.

mod bounded;
mod branch;
pub mod code;
pub mod frame;
#[cfg(feature = "planted")]
pub mod planted;
pub mod seal;
mod sealed;
mod talk;

pub use bounded::Bounded;
pub use branch::{branch_id, is_branch};
pub use sealed::{Roster, RosterEntry, RunSeal, SealedPage, SealedRun};
pub use talk::{
    Answer, Ask, Clash, CrewView, DeviceView, Full, InvitationView, Invited, Joined, Leaf,
    PersonView, Refusal, Role, Span,
};

use serde::{Deserialize, Serialize};
use serde_bytes::ByteBuf;
use sha2::{Digest, Sha256};
use std::collections::BTreeMap;
use uuid::Uuid;

/// Oldest version of the talk that this code understands.
pub const OLDEST_VERSION: u8 = 1;
/// Newest version. Version 2 adds keys and seals; everything of version 1 is in
/// it, and is still written as version 1 where an older side may have to read it.
pub const NEWEST_VERSION: u8 = 2;

/// Most changes in one page.
pub const PAGE_CHANGES: usize = 2_000;
/// Most bytes of changes in one page; a page with one change may hold [`CHANGE_BYTES`].
pub const PAGE_BYTES: usize = 256 * 1024;
/// Most bytes of one change: a notebook's longest body, and its envelope.
pub const CHANGE_BYTES: usize = 1024 * 1024 + 1024;
/// Highest number of a change: a page after it still has room in the stores.
pub const LAST_SEQ: u64 = i64::MAX as u64 - PAGE_CHANGES as u64;
/// Most writer series that a crew may begin.
pub const CREW_SERIES: usize = 4_096;
/// Most writer series in one list: more than a crew may begin, so that a full crew still
/// has room for the first series of a newcomer.
pub const LISTED_SERIES: usize = 2 * CREW_SERIES;
/// Most photo names in one question.
pub const PHOTO_NAMES: usize = 1_000;
/// Most bytes of one photo.
pub const PHOTO_BYTES: u64 = 16 * 1024 * 1024;
/// Bytes of a photo sent at once; every part but the last has this length.
pub const PHOTO_PART: u64 = 256 * 1024;
/// Most characters of a name of a person, device or crew.
pub const NAME_CHARS: usize = 80;

/// The first bytes of the digest of a change's bytes. Long enough to tell two
/// different changes of one writer apart, short enough to send for each series.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub struct Tag(pub [u8; 8]);

impl Tag {
    /// Of a change's bytes.
    #[must_use]
    pub fn of(body: &[u8]) -> Self {
        let digest = Sha256::digest(body);
        let mut tag = [0; 8];
        tag.copy_from_slice(&digest[..8]);
        Self(tag)
    }

    /// From the first bytes of a stored digest; absent when it is too short.
    #[must_use]
    pub fn from_digest(digest: &[u8]) -> Option<Self> {
        digest.get(..8)?.try_into().ok().map(Self)
    }
}

/// The end of the unbroken part of one writer's series.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct Mark {
    /// Highest number below which nothing is missing.
    pub seq: u64,
    /// Tag of the change with that number.
    pub tag: Tag,
}

/// What a store holds: for each writer the end of the unbroken part of its series.
/// A writer without changes is absent.
pub type Heads = BTreeMap<Uuid, Mark>;

/// Consecutive changes of one writer.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Run {
    /// Id of the series.
    pub device: Uuid,
    /// Number before the first of them.
    pub after: u64,
    /// Their bytes; the first has number `after + 1`.
    pub bodies: Bounded<ByteBuf, PAGE_CHANGES>,
}

impl Run {
    /// Number of the last change.
    #[must_use]
    pub fn last(&self) -> u64 {
        self.after.saturating_add(self.bodies.len() as u64)
    }

    /// Bytes of all changes.
    #[must_use]
    pub fn bytes(&self) -> usize {
        self.bodies.iter().map(|body| body.len()).sum()
    }
}

/// Runs that are stored together or not at all.
pub type Page = Bounded<Run, PAGE_CHANGES>;

/// Whether a page keeps within the bounds that both sides hold to.
#[must_use]
pub fn page_fits(page: &Page) -> bool {
    runs_fit(page.iter())
}

/// The same for a page with seals.
#[must_use]
pub fn sealed_page_fits(page: &SealedPage) -> bool {
    runs_fit(page.iter().map(|sealed| &sealed.run))
}

fn runs_fit<'a>(page: impl Iterator<Item = &'a Run> + Clone) -> bool {
    let changes: usize = page.clone().map(|run| run.bodies.len()).sum();
    let bytes: usize = page.clone().map(Run::bytes).sum();
    let small = page
        .clone()
        .flat_map(|run| run.bodies.iter())
        .all(|body| !body.is_empty() && body.len() <= CHANGE_BYTES);
    let numbered = page
        .clone()
        .all(|run| !run.bodies.is_empty() && run.after <= LAST_SEQ);
    small && numbered && changes <= PAGE_CHANGES && (bytes <= PAGE_BYTES || changes == 1)
}
