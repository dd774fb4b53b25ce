//! What can go wrong in an exchange, and whether trying again helps.

use thiserror::Error;
use uuid::Uuid;
use wire::code::NoRandomness;
use wire::{Full, PAGE_CHANGES, Refusal};

/// Trouble with an exchange. Whatever was stored before it stays stored.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum Trouble {
    /// The hub was not reached, or the way broke off.
    #[error("the hub was not reached: {0}")]
    NoSignal(String),
    /// The hub's certificate is not one this phone trusts.
    #[error("the hub's certificate is not trusted: {0}")]
    NotTrusted(String),
    /// What came was no whole message.
    #[error("the hub's answer was cut or damaged")]
    Cut,
    /// The hub does not know this phone, or it is no hub at all.
    #[error("this address does not know this phone: check the address and the code")]
    NotLetIn,
    /// This phone was removed from the crew.
    #[error("this phone was removed from the crew: ask an owner for a new invitation")]
    Removed,
    /// The role does not allow it.
    #[error("your role in the crew does not allow this")]
    NotAllowed,
    /// The hub wants fewer questions.
    #[error("the hub is busy: try again in {0} s")]
    Slower(u32),
    /// The hub has trouble of its own.
    #[error("the hub has trouble: try again later")]
    HubFault,
    /// The hub and this app do not speak the same version.
    #[error("the hub speaks versions {oldest} to {newest}: update the app or the hub")]
    Version {
        /// Oldest the hub speaks.
        oldest: u8,
        /// Newest the hub speaks.
        newest: u8,
    },
    /// A crew keeps at least one owner with a phone.
    #[error("a crew keeps an owner: make somebody else an owner first")]
    LastOwner,
    /// What was named does not exist in this crew.
    #[error("the crew has no such person, phone or invitation")]
    Unknown,
    /// The hub refused for a reason that this app did not expect.
    #[error("the hub refused: {0:?}")]
    Refused(Refusal),
    /// The answer does not fit the question.
    #[error("the hub's answer does not fit the question")]
    Nonsense,
    /// The two sides parted under a writer's numbers and could not be mended.
    #[error("changes of device {0} differ between this phone and the hub")]
    Forked(Uuid),
    /// The hub does not take changes of a series from this phone.
    #[error("the hub takes changes of series {0} only with its writer's seal")]
    NotYours(Uuid),
    /// The hub knows this phone by another key.
    #[error("the hub knows this phone by another key: leave the crew and join again")]
    OtherKey,
    /// The address cannot be used.
    #[error("{0}")]
    BadAddress(String),
    /// The file cannot be read, written, or is not an exchange file.
    #[error("{0}")]
    File(String),
    /// The file is of another crew.
    #[error("the file is of another crew")]
    OtherCrew,
    /// This phone is in no crew.
    #[error("this phone is in no crew: join one first")]
    NoCrew,
    /// The notebook came from another device; its secret stayed there.
    #[error("this notebook's key to the crew is not on this device: join with a new invitation")]
    NoToken,
    /// This phone is in a crew already.
    #[error(
        "this phone is in the crew {0} already: leave it first; where its hub is lost, \
         leave here and now"
    )]
    InCrew(String),
    /// The notebook failed.
    #[error("the notebook failed: {0}")]
    Notebook(String),
    /// There is no more room at the hub; what it refused stays here.
    #[error(
        "the hub has no more room for {}: nothing is lost, everything stays on this device; \
         ask whoever runs the hub for more room",
        full_words(.0)
    )]
    Full(Full),
    /// Stopped by hand.
    #[error("stopped; what was exchanged so far is kept")]
    Stopped,
}

impl Trouble {
    /// Whether the same exchange may succeed later without anybody doing anything.
    #[must_use]
    pub fn retry_helps(&self) -> bool {
        matches!(
            self,
            Self::NoSignal(_) | Self::Cut | Self::Slower(_) | Self::HubFault | Self::Stopped
        )
    }
}

impl From<NoRandomness> for Trouble {
    fn from(error: NoRandomness) -> Self {
        Self::Notebook(error.to_string())
    }
}

impl From<Refusal> for Trouble {
    fn from(refusal: Refusal) -> Self {
        match refusal {
            Refusal::Removed => Self::Removed,
            Refusal::NotAllowed => Self::NotAllowed,
            Refusal::LastOwner => Self::LastOwner,
            Refusal::Unknown => Self::Unknown,
            Refusal::Slower(seconds) => Self::Slower(seconds),
            Refusal::Fault => Self::HubFault,
            Refusal::Version { oldest, newest } => Self::Version { oldest, newest },
            Refusal::Full(full) => Self::Full(full),
            Refusal::Clash(clash) => Self::Forked(clash.device),
            Refusal::NotYours(series) => Self::NotYours(series),
            Refusal::OtherKey => Self::OtherKey,
            other => Self::Refused(other),
        }
    }
}

fn full_words(full: &Full) -> &'static str {
    match full {
        Full::Series => "changes that this device carries for other devices",
        Full::Changes => "changes from this device",
        Full::Photos => "photos from this device",
        Full::Crew => "another device's changes in this crew",
    }
}

/// Bounds of one page that is sent: small, so that little is lost when the
/// signal goes, large enough to pack well.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct PageSize {
    /// Most changes.
    pub changes: usize,
    /// Most bytes, before packing.
    pub bytes: usize,
}

impl Default for PageSize {
    fn default() -> Self {
        Self {
            changes: PAGE_CHANGES / 2,
            bytes: wire::PAGE_BYTES,
        }
    }
}
