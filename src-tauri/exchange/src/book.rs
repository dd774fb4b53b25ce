//! What an exchange needs of a notebook.

use crate::trouble::{PageSize, Trouble};
use crate::wire::{Heads, Page, Span, Tag};
use serde_bytes::ByteBuf;
use uuid::Uuid;

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

    /// Stores a page, all or nothing. Changes already held are passed over.
    ///
    /// # Errors
    /// See [`Rejected`].
    fn take_in(&mut self, page: &Page) -> Result<(), Rejected>;

    /// Moves a writer's changes from a number on to the series of another writer,
    /// numbered from 1, where the notebook does not hold them yet. When the first
    /// writer is this notebook itself, it writes under a new id from then on.
    ///
    /// # Errors
    /// When the notebook fails; nothing is moved then.
    fn move_branch(&mut self, device: Uuid, from: u64, to: Uuid) -> Result<(), Trouble>;
}
