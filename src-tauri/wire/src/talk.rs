//! The questions a notebook asks a hub, and the answers.

use crate::seal::{PublicKey, Signature};
use crate::{
    Bounded, Heads, LISTED_SERIES, Mark, NEWEST_VERSION, OLDEST_VERSION, PAGE_CHANGES, PHOTO_NAMES,
    Page, Roster, SealedPage, Tag,
};
use serde::{Deserialize, Serialize};
use uuid::Uuid;

/// What a person may do in a crew.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum Role {
    /// Sees everything, changes nothing.
    Reader,
    /// Also records.
    Scout,
    /// Also invites and removes.
    Owner,
}

/// A question. All but [`Ask::Join`] need the token of a member.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub enum Ask {
    /// Use an invitation. Asking again with the same `token_hash` gives the same
    /// answer, so that a lost answer does not use the invitation up.
    Join {
        /// The code, without its dashes.
        code: String,
        /// SHA-256 of the secret that this phone will show from now on. The phone
        /// draws the secret itself, so it never travels before it is valid.
        token_hash: [u8; 32],
        /// Name of the person.
        person: String,
        /// Name of the phone.
        device: String,
        /// Name of the crew, where the code founds one.
        crew: String,
    },
    /// What the hub holds, given what the notebook holds.
    Heads {
        /// The notebook's.
        mine: Bounded<(Uuid, Mark), LISTED_SERIES>,
    },
    /// Changes for the hub.
    Push(Page),
    /// Changes from the hub.
    Pull {
        /// The stretches wanted, by series.
        spans: Bounded<Span, LISTED_SERIES>,
    },
    /// Tags of a series, to find where two stores part.
    Tags(Span),
    /// The crew, its people and devices.
    Crew,
    /// Owner: makes an invitation.
    Invite {
        /// A person already in the crew who gets another phone; otherwise a new one.
        person: Option<Uuid>,
        /// What the new person may do.
        role: Role,
        /// How long it holds; at most a week.
        minutes: u32,
    },
    /// Owner: takes back an invitation.
    Withdraw {
        /// Id of the invitation.
        invitation: Uuid,
    },
    /// Owner, or the device itself: it is out at once.
    RemoveDevice {
        /// Id of the device.
        device: Uuid,
    },
    /// Owner: changes what a person may do.
    SetRole {
        /// Id of the person.
        person: Uuid,
        /// The new role.
        role: Role,
    },
    /// Which of these photos the hub does not hold whole.
    PhotosMissing {
        /// SHA-256 of each.
        names: Bounded<[u8; 32], PHOTO_NAMES>,
    },
    /// Version 2: as [`Ask::Heads`]; also gives the hub this phone's key, once, and
    /// says which series is its own.
    Greet {
        /// The notebook's.
        mine: Bounded<(Uuid, Mark), LISTED_SERIES>,
        /// The key with which the phone seals; none where its secret is not at hand.
        key: Option<PublicKey>,
        /// The series that the phone writes.
        own: Uuid,
    },
    /// Version 2: changes for the hub with their seals.
    PushSealed(SealedPage),
    /// Version 2: changes from the hub with their seals.
    PullSealed {
        /// The stretches wanted, by series.
        spans: Bounded<Span, LISTED_SERIES>,
    },
    /// Version 2: seals for what the hub holds of a series of this phone that
    /// carries none yet.
    Seal {
        /// The series.
        series: Uuid,
        /// Numbers, a page apart or less, the last one the hub's end, and the seals there.
        seals: Bounded<(u64, Signature), PAGE_CHANGES>,
    },
}

impl Ask {
    /// The oldest version of the talk that has this question.
    #[must_use]
    pub fn version(&self) -> u8 {
        match self {
            Self::Greet { .. }
            | Self::PushSealed(_)
            | Self::PullSealed { .. }
            | Self::Seal { .. } => NEWEST_VERSION,
            _ => OLDEST_VERSION,
        }
    }
}

/// Numbers `after + 1 ..= to` of a writer's series.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct Span {
    /// Id of the series.
    pub device: Uuid,
    /// Number before the first.
    pub after: u64,
    /// Last number.
    pub to: u64,
}

/// The answer to an [`Ask`].
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub enum Answer {
    /// To [`Ask::Join`].
    Joined(Joined),
    /// To [`Ask::Heads`].
    Heads {
        /// The hub's.
        heads: Heads,
        /// Series whose changes differ from the notebook's at the notebook's own mark.
        forked: Vec<Uuid>,
        /// What the asking person may do now.
        role: Role,
    },
    /// To [`Ask::Push`]: all stored. The ends of the touched series.
    Pushed(Heads),
    /// To [`Ask::Pull`]: as many as fit in a page; empty when there are none.
    Pulled(Page),
    /// To [`Ask::Tags`]: from the first number on, as many as fit.
    Tags(Bounded<Tag, PAGE_CHANGES>),
    /// To [`Ask::Crew`].
    Crew(CrewView),
    /// To [`Ask::Invite`].
    Invited(Invited),
    /// To the asks that only change something.
    Done,
    /// To [`Ask::PhotosMissing`]: the names the hub lacks, and how many bytes of each it holds.
    PhotosMissing(Bounded<([u8; 32], u64), PHOTO_NAMES>),
    /// Not done, and why. Only members get one.
    Refused(Refusal),
    /// To [`Ask::Greet`].
    Greeted {
        /// The hub's.
        heads: Heads,
        /// Series whose changes differ from the notebook's at the notebook's own mark.
        forked: Vec<Uuid>,
        /// What the asking person may do now.
        role: Role,
        /// Whose key seals which series.
        roster: Roster,
    },
    /// To [`Ask::PullSealed`]: as many as fit in a page, each run up to a seal where
    /// its series carries seals; empty when there are none.
    PulledSealed(SealedPage),
}

impl Answer {
    /// The oldest version of the talk that has this answer.
    #[must_use]
    pub fn version(&self) -> u8 {
        match self {
            Self::Greeted { .. }
            | Self::PulledSealed(_)
            | Self::Refused(Refusal::NotYours(_) | Refusal::OtherKey | Refusal::Full(_)) => {
                NEWEST_VERSION
            }
            _ => OLDEST_VERSION,
        }
    }
}

/// A phone that has joined.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Joined {
    /// The crew.
    pub crew: Uuid,
    /// Its name.
    pub crew_name: String,
    /// The membership of this phone, which it shows with its secret.
    pub device: Uuid,
    /// The person.
    pub person: Uuid,
    /// What the person may do.
    pub role: Role,
}

/// A new invitation.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Invited {
    /// Its id, to take it back.
    pub invitation: Uuid,
    /// The code, shown this once.
    pub code: String,
    /// Milliseconds since 1970 at which it ends.
    pub ends_at: i64,
}

/// A crew as its members see it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct CrewView {
    /// Id of the crew.
    pub id: Uuid,
    /// Its name.
    pub name: String,
    /// By id.
    pub people: Vec<PersonView>,
    /// Open ones; only owners see them.
    pub invitations: Vec<InvitationView>,
}

/// A person of a crew.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct PersonView {
    /// Their id.
    pub id: Uuid,
    /// Their name.
    pub name: String,
    /// What they may do.
    pub role: Role,
    /// Their phones, removed ones too.
    pub devices: Vec<DeviceView>,
}

/// A phone of a person.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct DeviceView {
    /// Id of the device.
    pub id: Uuid,
    /// Its name.
    pub name: String,
    /// When it joined, milliseconds since 1970.
    pub joined_at: i64,
    /// When it last met the hub.
    pub seen_at: i64,
    /// When it was removed.
    pub removed_at: Option<i64>,
}

/// An invitation nobody has used yet.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct InvitationView {
    /// Id of the invitation.
    pub id: Uuid,
    /// For what role.
    pub role: Role,
    /// Milliseconds since 1970 at which it ends.
    pub ends_at: i64,
}

/// Two contents under one (device, seq).
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct Clash {
    /// Whose number.
    pub device: Uuid,
    /// The first number that differs.
    pub seq: u64,
}

/// Why a member's question was not carried out. Nothing was stored.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub enum Refusal {
    /// This device was removed from the crew: it must forget its token.
    Removed,
    /// The person's role does not allow it.
    NotAllowed,
    /// A run starts past the end of its series.
    Gap {
        /// Id of the series.
        device: Uuid,
        /// The end of the hub's series.
        have: u64,
    },
    /// Other content is stored under that number.
    Clash(Clash),
    /// The question breaks a bound.
    OutOfBounds,
    /// What it names does not exist in this crew.
    Unknown,
    /// A crew keeps at least one owner with a phone.
    LastOwner,
    /// The hub speaks only these versions.
    Version {
        /// Oldest.
        oldest: u8,
        /// Newest.
        newest: u8,
    },
    /// Too many questions; try again after so many seconds.
    Slower(u32),
    /// A fault of the hub; try again later.
    Fault,
    /// There is no more room for it at the hub.
    Full(Full),
    /// Changes of this series are not this phone's to give: they do not end at a
    /// seal of its writer, or another membership owns it.
    NotYours(Uuid),
    /// The hub knows this membership by another key.
    OtherKey,
}

/// What is full at a hub.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub enum Full {
    /// The membership has begun as many series as it may.
    Series,
    /// The membership has stored as many bytes of changes as it may.
    Changes,
    /// The membership has sent as many bytes of photos as it may.
    Photos,
    /// The crew has begun as many series as it may.
    Crew,
}

/// One frame of a file between two phones.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub enum Leaf {
    /// The first: of which crew.
    Start {
        /// The crew.
        crew: Uuid,
        /// What the writing notebook held, so that forks are seen.
        heads: Heads,
    },
    /// Changes.
    Page(Page),
    /// The last, so that a cut file is known for one.
    End {
        /// How many changes the file holds.
        changes: u64,
    },
    /// Version 2: changes with their seals.
    SealedPage(SealedPage),
}
