//! A [`Notebook`] as an exchange sees it.
//!
//! What travels of a change is everything but the writer and the number, which
//! its run carries.

use crate::book::{Book, Rejected};
use crate::trouble::{PageSize, Trouble};
use crate::wire::{Heads, Mark, Page, Span, Tag};
use notebook::apply::Touched;
use notebook::log::{self, Change};
use notebook::{IngestError, Notebook, StoreError};
use serde_bytes::ByteBuf;
use uuid::Uuid;

/// The bytes of a change as they travel.
///
/// # Errors
/// When they cannot be written, which is no property of any change.
pub fn pack(change: &Change) -> Result<ByteBuf, Trouble> {
    Ok(ByteBuf::from(log::pack(change)?))
}

pub use log::unpack;

impl From<StoreError> for Trouble {
    fn from(error: StoreError) -> Self {
        Self::Notebook(error.to_string())
    }
}

impl Book for Notebook {
    fn own(&mut self) -> Result<Uuid, Trouble> {
        Ok(self.device())
    }

    fn heads(&mut self) -> Result<Heads, Trouble> {
        let ends = log::heads(self.db())?;
        let mut heads = Heads::new();
        for (device, end) in ends {
            let tag = self
                .tag(device, end.seq)?
                .ok_or_else(|| Trouble::Notebook("the end of a series is missing".into()))?;
            heads.insert(device, Mark { seq: end.seq, tag });
        }
        Ok(heads)
    }

    fn tag(&mut self, device: Uuid, seq: u64) -> Result<Option<Tag>, Trouble> {
        log::change_at(self.db(), device, seq)?
            .map(|change| Ok(Tag::of(&pack(&change)?)))
            .transpose()
    }

    fn read(&mut self, span: Span, room: PageSize) -> Result<Vec<ByteBuf>, Trouble> {
        let mut bodies = Vec::new();
        let mut bytes = 0;
        for change in log::after(self.db(), span.device, span.after, room.bytes)? {
            let body = pack(&change)?;
            bytes += body.len();
            let full = bodies.len() == room.changes || (bytes > room.bytes && !bodies.is_empty());
            if full || change.seq > span.to {
                break;
            }
            bodies.push(body);
        }
        Ok(bodies)
    }

    fn take_in(&mut self, page: &Page) -> Result<(), Rejected> {
        take_in(self, &changes_of(page)?).map(|_| ())
    }

    fn move_branch(&mut self, device: Uuid, from: u64, to: Uuid) -> Result<(), Trouble> {
        Ok(Notebook::move_branch(self, device, from, to)?)
    }
}

/// The changes of a page, in its order.
pub(crate) fn changes_of(page: &Page) -> Result<Vec<Change>, Rejected> {
    let mut changes = Vec::new();
    for run in page.iter() {
        if i64::try_from(run.last()).is_err() {
            return Err(Rejected::Nonsense);
        }
        for (seq, body) in (run.after + 1..=run.last()).zip(run.bodies.iter()) {
            let change = log::received(run.device, seq, body);
            #[cfg(feature = "planted")]
            if crate::planted::is(crate::planted::Bug::UnknownKindDropped)
                && change.kind.starts_with("later_")
            {
                break;
            }
            changes.push(change);
        }
    }
    Ok(changes)
}

/// Stores changes, all or nothing, and says what they touched.
pub(crate) fn take_in(notebook: &mut Notebook, changes: &[Change]) -> Result<Touched, Rejected> {
    match notebook.ingest(changes) {
        Ok(ingested) => Ok(ingested.touched),
        Err(IngestError::Fork { device, .. }) => Err(Rejected::Forked(device)),
        Err(IngestError::Gap { .. } | IngestError::Malformed { .. }) => Err(Rejected::Nonsense),
        Err(IngestError::Store(error)) => Err(Rejected::Failed(error.to_string())),
    }
}
