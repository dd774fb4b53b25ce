//! Where a hub keeps what it is given: one trait, with SQLite and PostgreSQL.
//!
//! Every method is one transaction. Nothing a caller was told is stored can be
//! lost, and a refused call has stored nothing. No state is kept in the process,
//! so several hubs may work on one PostgreSQL database.

mod append;
pub mod postgres;
mod quota;
mod seals;
pub mod sqlite;

pub use append::{Piece, admitted, fresh_part};
pub use quota::{CrewRoom, FIRST_SERIES, Quota, Quotas, Tally, begin_photo};
pub use seals::{Claim, Right, Standing, right_to_append};
pub(crate) use seals::{Reading, given_run};

use async_trait::async_trait;
use std::collections::BTreeMap;
use std::path::Path;
use thiserror::Error;
use uuid::Uuid;
use wire::code::NoRandomness;
use wire::seal::{PublicKey, Signature};
use wire::{
    CrewView, Heads, InvitationView, Joined, Mark, PAGE_BYTES, PAGE_CHANGES, Page, Refusal, Role,
    RosterEntry, SealedPage, SealedRun, Span, Tag,
};

/// Why a store did not do what was asked.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum StoreFault {
    /// It would be wrong to.
    #[error("refused: {0:?}")]
    Refused(Refusal),
    /// It could not; a later try may succeed.
    #[error("the store failed: {0}")]
    Failed(String),
}

impl From<NoRandomness> for StoreFault {
    fn from(error: NoRandomness) -> Self {
        Self::Failed(error.to_string())
    }
}

impl From<Refusal> for StoreFault {
    fn from(refusal: Refusal) -> Self {
        Self::Refused(refusal)
    }
}

/// What a store answers.
pub type Stored<T> = Result<T, StoreFault>;

/// The membership of a phone.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Member {
    /// The phone.
    pub device: Uuid,
    /// Id of the person whose device it is.
    pub person: Uuid,
    /// In which crew.
    pub crew: Uuid,
    /// What the person may do.
    pub role: Role,
    /// SHA-256 of its secret.
    pub token_hash: Vec<u8>,
    /// Whether it was removed.
    pub removed: bool,
    /// The key with which the phone seals, once it has given it.
    pub key: Option<PublicKey>,
}

/// An invitation to be kept.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NewInvitation {
    /// Id of the invitation.
    pub id: Uuid,
    /// To which crew; absent for one that founds a crew.
    pub crew: Option<Uuid>,
    /// For a person already there.
    pub person: Option<Uuid>,
    /// For what role.
    pub role: Role,
    /// SHA-256 of the code.
    pub code_hash: [u8; 32],
    /// Now.
    pub made_at: i64,
    /// When it ends.
    pub ends_at: i64,
}

/// A phone that wants to use an invitation. The ids are used where a new thing is made.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Joining {
    /// SHA-256 of the code.
    pub code_hash: [u8; 32],
    /// SHA-256 of the phone's secret.
    pub token_hash: [u8; 32],
    /// Id and name of a new crew.
    pub crew: (Uuid, String),
    /// Id and name of a new person.
    pub person: (Uuid, String),
    /// Id and name of the new membership.
    pub device: (Uuid, String),
    /// Now.
    pub now: i64,
}

/// What a hub holds of a photo.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct PhotoState {
    /// Its bytes.
    pub size: u64,
    /// How many of them, from the start, are here.
    pub have: u64,
    /// Whether it is complete and its name was checked.
    pub whole: bool,
}

/// Counts for the metrics.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Totals {
    /// Crews.
    pub crews: u64,
    /// Phones that were not removed.
    pub devices: u64,
    /// Changes.
    pub changes: u64,
    /// Whole photos.
    pub photos: u64,
}

/// The storage of a hub.
#[async_trait]
pub trait Store: Send + Sync {
    /// Whether the store answers.
    async fn ping(&self) -> Stored<()>;
    /// Counts of everything.
    async fn totals(&self) -> Stored<Totals>;
    /// Whether no crew exists yet.
    async fn is_empty(&self) -> Stored<bool>;
    /// Keeps an invitation; refused when its person is not of its crew.
    async fn invite(&self, invitation: NewInvitation) -> Stored<()>;
    /// Ends every unused invitation that would found a crew.
    async fn drop_founding_invitations(&self) -> Stored<()>;
    /// Whether an invitation has this code, used or not.
    async fn knows_code(&self, code_hash: [u8; 32]) -> Stored<bool>;
    /// Uses an invitation. Used before by the same secret it gives the same answer;
    /// otherwise [`Refusal::Unknown`], whatever is wrong with it.
    async fn join(&self, joining: Joining) -> Stored<Joined>;
    /// A membership.
    async fn member(&self, device: Uuid) -> Stored<Option<Member>>;
    /// Notes that a phone was here.
    async fn seen(&self, device: Uuid, now: i64) -> Stored<()>;
    /// The ends of all series of a crew.
    async fn heads(&self, crew: Uuid) -> Stored<Heads>;
    /// Those of the given series whose change at the given mark has another tag.
    async fn forked(&self, crew: Uuid, marks: Vec<(Uuid, Mark)>) -> Stored<Vec<Uuid>>;
    /// Notes the key of a membership, once, and that a series from before there were
    /// seals is this membership's, if nobody owns it.
    async fn introduce(&self, by: Uuid, key: PublicKey, own: Uuid) -> Stored<()>;
    /// The keys of the series that carry seals, and whose they are.
    async fn writers(&self, crew: Uuid) -> Stored<BTreeMap<Uuid, RosterEntry>>;
    /// Keeps the first seals of a series that is the member's.
    async fn seal(&self, by: Uuid, series: Uuid, seals: Vec<(u64, Signature)>) -> Stored<()>;
    /// Stores a page for a member who may do so at the moment of storing.
    async fn append_sealed(&self, by: Uuid, page: SealedPage, now: i64) -> Stored<Heads>;
    /// The same without seals.
    async fn append(&self, by: Uuid, page: Page, now: i64) -> Stored<Heads> {
        let page: Vec<SealedRun> = page.into_vec().into_iter().map(Into::into).collect();
        self.append_sealed(by, page.into(), now).await
    }
    /// As many of the asked changes as fit in a page, in order, each run up to a seal
    /// where its series carries seals.
    async fn read_sealed(&self, crew: Uuid, spans: Vec<Span>) -> Stored<SealedPage>;
    /// As many of the asked changes as fit in a page, in order.
    async fn read(&self, crew: Uuid, spans: Vec<Span>) -> Stored<Page>;
    /// Tags of changes, as many as fit in a page.
    async fn tags(&self, crew: Uuid, span: Span) -> Stored<Vec<Tag>>;
    /// A crew, its people and devices, and open invitations.
    async fn crew(&self, crew: Uuid, now: i64) -> Stored<CrewView>;
    /// Takes back an unused invitation.
    async fn withdraw(&self, crew: Uuid, invitation: Uuid) -> Stored<()>;
    /// Removes a phone; the last phone of the last owner stays.
    async fn remove_device(&self, crew: Uuid, device: Uuid, now: i64) -> Stored<()>;
    /// Changes a role; the last owner with a phone stays owner.
    async fn set_role(&self, crew: Uuid, person: Uuid, role: Role) -> Stored<()>;
    /// What is held of photos, in the order asked.
    async fn photos(&self, crew: Uuid, names: Vec<[u8; 32]>) -> Stored<Vec<Option<PhotoState>>>;
    /// Notes a part: `have` bytes were there before, `have + length` are now.
    /// False when another part came first; refused when the photo is one more than the
    /// membership that begins it may send.
    async fn photo_grew(&self, crew: Uuid, part: PhotoPart) -> Stored<bool>;
    /// Notes that a photo is complete, or with `None` that it begins anew.
    async fn photo_ended(&self, crew: Uuid, name: [u8; 32], whole_at: Option<i64>) -> Stored<()>;
    /// Forgets a whole photo, whose bytes are gone.
    async fn photo_lost(&self, crew: Uuid, name: [u8; 32]) -> Stored<()>;
    /// Writes everything to a new SQLite hub file.
    async fn backup(&self, to: &Path) -> Stored<()>;
}

/// A part of a photo that has come.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct PhotoPart {
    /// Membership that sends it, and its role.
    pub by: (Uuid, Role),
    /// SHA-256 of the whole photo.
    pub name: [u8; 32],
    /// Bytes of the whole photo.
    pub size: u64,
    /// Bytes that were there before.
    pub have: u64,
    /// Bytes of this part.
    pub length: u64,
}

/// As a store keeps a role.
pub(crate) fn role_text(role: Role) -> &'static str {
    match role {
        Role::Reader => "reader",
        Role::Scout => "scout",
        Role::Owner => "owner",
    }
}

/// From a store.
pub(crate) fn role_from(text: &str) -> Stored<Role> {
    match text {
        "reader" => Ok(Role::Reader),
        "scout" => Ok(Role::Scout),
        "owner" => Ok(Role::Owner),
        _ => Err(StoreFault::Failed("a role is none".into())),
    }
}

/// Room left in a page that is being read.
pub(crate) struct Room {
    changes: usize,
    bytes: usize,
}

impl Room {
    pub(crate) fn new() -> Self {
        Self {
            changes: PAGE_CHANGES,
            bytes: PAGE_BYTES,
        }
    }

    pub(crate) fn changes(&self) -> usize {
        self.changes
    }

    /// Takes room for a change; false when there is none. The first always fits.
    pub(crate) fn take(&mut self, bytes: usize) -> bool {
        let first = self.changes == PAGE_CHANGES;
        if self.changes == 0 || (!first && bytes > self.bytes) {
            return false;
        }
        self.changes -= 1;
        self.bytes = self.bytes.saturating_sub(bytes);
        true
    }
}

/// Open invitations, without the ended.
pub(crate) fn open_invitations(invitations: Vec<InvitationView>, now: i64) -> Vec<InvitationView> {
    invitations
        .into_iter()
        .filter(|invitation| invitation.ends_at > now)
        .collect()
}
