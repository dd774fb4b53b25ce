//! What an exchange needs of a notebook.

use crate::trouble::{PageSize, Trouble};
use notebook::seal::Sealed;
use serde_bytes::ByteBuf;
use uuid::Uuid;
use wire::seal::{Link, PublicKey, Signature, Writer};
use wire::{Heads, Page, SealedRun, Span, Tag};

/// Why a page was not taken in. Nothing of it is stored then.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Rejected {
    /// Other content is stored under a number of this writer.
    Forked(Uuid),
    /// The page starts past the end of a series, or is no page of changes.
    Nonsense,
    /// The notebook failed.
    Failed(String),
}

impl From<Rejected> for Trouble {
    fn from(rejected: Rejected) -> Self {
        match rejected {
            Rejected::Forked(device) => Self::Forked(device),
            Rejected::Nonsense => Self::Nonsense,
            Rejected::Failed(why) => Self::Notebook(why),
        }
    }
}

/// A notebook, as an exchange sees it.
pub trait Book {
    /// The writer that this notebook itself is.
    ///
    /// # Errors
    /// When the notebook fails.
    fn own(&mut self) -> Result<Uuid, Trouble>;

    /// What it holds.
    ///
    /// # Errors
    /// When the notebook fails.
    fn heads(&mut self) -> Result<Heads, Trouble>;

    /// The tag of one change, if it is held.
    ///
    /// # Errors
    /// When the notebook fails.
    fn tag(&mut self, device: Uuid, seq: u64) -> Result<Option<Tag>, Trouble>;

    /// The first changes of a span, as many as fit, at least one if there is one.
    ///
    /// # Errors
    /// When the notebook fails.
    fn read(&mut self, span: Span, room: PageSize) -> Result<Vec<ByteBuf>, Trouble>;

    /// Stores a page with the seals found to fit it, all or nothing. Changes
    /// already held are passed over.
    ///
    /// # Errors
    /// See [`Rejected`].
    fn take_in(&mut self, page: &Page, seals: &[(Writer, Sealed)]) -> Result<(), Rejected>;

    /// The key with which this notebook seals, if its secret is at hand.
    ///
    /// # Errors
    /// When the notebook fails.
    fn key(&mut self) -> Result<Option<PublicKey>, Trouble>;

    /// The writer that a series was first seen with.
    ///
    /// # Errors
    /// When the notebook fails.
    fn writer(&mut self, series: Uuid) -> Result<Option<Writer>, Trouble>;

    /// The number up to which a series is known to be sealed, 0 where it is not.
    ///
    /// # Errors
    /// When the notebook fails.
    fn sealed_to(&mut self, series: Uuid) -> Result<u64, Trouble>;

    /// The link of a series at a number it holds; `start` is the one before change 1.
    ///
    /// # Errors
    /// When the notebook fails or does not hold the number.
    fn link(&mut self, series: Uuid, seq: u64, start: Link) -> Result<Link, Trouble>;

    /// The first changes of a span up to a seal: one of this notebook's own, made
    /// now, where it is the writer or `may_seal` a series that has none; otherwise
    /// one that came with them. Without a seal where the series has no writer.
    /// None where nothing can be given.
    ///
    /// # Errors
    /// When the notebook fails.
    fn read_sealed(
        &mut self,
        span: Span,
        room: PageSize,
        may_seal: bool,
    ) -> Result<Option<SealedRun>, Trouble>;

    /// Seals of this notebook's key over a series that carries none, a page apart.
    ///
    /// # Errors
    /// When the notebook fails.
    fn seal_stretches(&mut self, series: Uuid, to: u64) -> Result<Vec<(u64, Signature)>, Trouble>;

    /// Keeps the seal of a run of this notebook's own that was taken elsewhere.
    ///
    /// # Errors
    /// When the notebook fails.
    fn note_given(&mut self, given: &SealedRun) -> Result<(), Trouble>;

    /// The series and number by which a branch is named.
    ///
    /// # Errors
    /// When the notebook fails.
    fn branch_root(&mut self, device: Uuid, from: u64) -> Result<(Uuid, u64), Trouble>;

    /// Writes under a new id from now on.
    ///
    /// # Errors
    /// When the notebook fails.
    fn take_new_id(&mut self) -> Result<(), Trouble>;

    /// Moves a writer's changes from a number on to the series of another writer,
    /// numbered from 1, where the notebook does not hold them yet. When the first
    /// writer is this notebook itself, it writes under a new id from then on.
    ///
    /// # Errors
    /// When the notebook fails; nothing is moved then.
    fn move_branch(&mut self, device: Uuid, from: u64, to: Uuid) -> Result<(), Trouble>;
}
