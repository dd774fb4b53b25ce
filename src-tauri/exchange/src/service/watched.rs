//! A notebook and a way as the exchange of a face uses them: in pieces small
//! enough that a tap between two of them does not wait, and counted.

use super::runner::Shared;
use crate::book::{Book, Rejected};
use crate::crew::heads_in;
use crate::http::HttpWay;
use crate::meet::Way;
use crate::own_book::{changes_of, take_in, unpack};
use crate::trouble::{PageSize, Trouble};
use notebook::Notebook;
use notebook::seal::Sealed;
use serde_bytes::ByteBuf;
use service::{Changed, changed_by};
use std::cell::Cell;
use std::collections::BTreeSet;
use std::rc::Rc;
use uuid::Uuid;
use wire::seal::{Link, PublicKey, Signature, Writer};
use wire::{Answer, Ask, Heads, Page, SealedRun, Span, Tag};

/// Changes stored in one go: some tens of milliseconds on a slow phone.
const PIECE: usize = 200;

/// A notebook that stores when no request is in hand, and tells what changed.
pub(super) struct Watched<'a> {
    notebook: &'a mut Notebook,
    shared: &'a Shared,
    changed: BTreeSet<Changed>,
}

impl<'a> Watched<'a> {
    pub(super) fn new(notebook: &'a mut Notebook, shared: &'a Shared) -> Self {
        Self {
            notebook,
            shared,
            changed: BTreeSet::new(),
        }
    }

    /// Everything that changed.
    pub(super) fn into_changed(self) -> BTreeSet<Changed> {
        self.changed
    }
}

impl Book for Watched<'_> {
    fn own(&mut self) -> Result<Uuid, Trouble> {
        self.notebook.own()
    }

    fn heads(&mut self) -> Result<Heads, Trouble> {
        self.notebook.heads()
    }

    fn tag(&mut self, device: Uuid, seq: u64) -> Result<Option<Tag>, Trouble> {
        self.notebook.tag(device, seq)
    }

    fn read(&mut self, span: Span, room: PageSize) -> Result<Vec<ByteBuf>, Trouble> {
        self.notebook.read(span, room)
    }

    fn take_in(&mut self, page: &Page, seals: &[(Writer, Sealed)]) -> Result<(), Rejected> {
        let changes = changes_of(page)?;
        let mut pieces = changes.chunks(PIECE).peekable();
        while let Some(piece) = pieces.next() {
            self.shared.gate.wait_for_quiet();
            // The seals cover the whole page, so they come with the last of it. Cut
            // before, the next page brings one that covers this, too.
            let seals = if pieces.peek().is_none() { seals } else { &[] };
            let touched = take_in(self.notebook, piece, seals)?;
            let changed = changed_by(self.notebook.db(), &touched)
                .map_err(|error| Rejected::Failed(error.to_string()))?;
            self.shared.note_changed(&changed);
            self.changed.extend(changed);
        }
        Ok(())
    }

    fn move_branch(&mut self, device: Uuid, from: u64, to: Uuid) -> Result<(), Trouble> {
        self.shared.gate.wait_for_quiet();
        Book::move_branch(self.notebook, device, from, to)
    }

    fn key(&mut self) -> Result<Option<PublicKey>, Trouble> {
        Book::key(self.notebook)
    }

    fn writer(&mut self, series: Uuid) -> Result<Option<Writer>, Trouble> {
        self.notebook.writer(series)
    }

    fn sealed_to(&mut self, series: Uuid) -> Result<u64, Trouble> {
        self.notebook.sealed_to(series)
    }

    fn link(&mut self, series: Uuid, seq: u64, start: Link) -> Result<Link, Trouble> {
        self.notebook.link(series, seq, start)
    }

    fn read_sealed(
        &mut self,
        span: Span,
        room: PageSize,
        may_seal: bool,
    ) -> Result<Option<SealedRun>, Trouble> {
        self.shared.gate.wait_for_quiet();
        self.notebook.read_sealed(span, room, may_seal)
    }

    fn seal_stretches(&mut self, series: Uuid, to: u64) -> Result<Vec<(u64, Signature)>, Trouble> {
        self.notebook.seal_stretches(series, to)
    }

    fn note_given(&mut self, given: &SealedRun) -> Result<(), Trouble> {
        self.shared.gate.wait_for_quiet();
        self.notebook.note_given(given)
    }

    fn branch_root(&mut self, device: Uuid, from: u64) -> Result<(Uuid, u64), Trouble> {
        Book::branch_root(self.notebook, device, from)
    }

    fn take_new_id(&mut self) -> Result<(), Trouble> {
        self.shared.gate.wait_for_quiet();
        self.notebook.take_new_id()
    }
}

/// A way to the hub that counts the heads it carried there.
pub(super) struct Counted {
    way: HttpWay,
    heads: Rc<Cell<u64>>,
}

impl Counted {
    pub(super) fn new(way: HttpWay) -> Self {
        Self {
            way,
            heads: Rc::default(),
        }
    }

    /// The count, to be read meanwhile.
    pub(super) fn heads(&self) -> Rc<Cell<u64>> {
        Rc::clone(&self.heads)
    }
}

impl Way for Counted {
    fn ask(&mut self, ask: &Ask) -> Result<Answer, Trouble> {
        let answer = self.way.ask(ask)?;
        if let (Ask::PushSealed(page), Answer::Pushed(_)) = (ask, &answer) {
            let heads: u64 = page
                .iter()
                .flat_map(|SealedRun { run, .. }| {
                    let numbered = (run.after + 1..).zip(run.bodies.iter());
                    numbered.filter_map(|(seq, body)| unpack(run.device, seq, body))
                })
                .map(|change| heads_in(&change.body))
                .sum();
            self.heads.set(self.heads.get() + heads);
        }
        Ok(answer)
    }
}
