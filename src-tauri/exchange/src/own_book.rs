//! A [`Notebook`] as an exchange sees it.
//!
//! What travels of a change is everything but the writer and the number, which
//! its run carries.

use crate::book::{Book, Rejected};
use crate::trouble::{PageSize, Trouble};
use notebook::apply::Touched;
use notebook::log::{self, Change};
use notebook::seal::{self, Sealed};
use notebook::{IngestError, Notebook, StoreError};
use serde_bytes::ByteBuf;
use uuid::Uuid;
use wire::seal::{Link, PublicKey, Signature, Signer, Writer};
use wire::{Heads, Mark, PAGE_BYTES, PAGE_CHANGES, Page, Run, RunSeal, SealedRun, Span, Tag};

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

    fn take_in(&mut self, page: &Page, seals: &[(Writer, Sealed)]) -> Result<(), Rejected> {
        take_in(self, &changes_of(page)?, seals).map(|_| ())
    }

    fn key(&mut self) -> Result<Option<PublicKey>, Trouble> {
        Ok(Notebook::key(self))
    }

    fn writer(&mut self, series: Uuid) -> Result<Option<Writer>, Trouble> {
        Ok(seal::writer(self.db(), series)?)
    }

    fn sealed_to(&mut self, series: Uuid) -> Result<u64, Trouble> {
        Ok(seal::last(self.db(), series)?)
    }

    fn link(&mut self, series: Uuid, seq: u64, start: Link) -> Result<Link, Trouble> {
        Ok(seal::link_at(self.db(), series, seq, start)?)
    }

    fn read_sealed(
        &mut self,
        span: Span,
        room: PageSize,
        may_seal: bool,
    ) -> Result<Option<SealedRun>, Trouble> {
        let writer = seal::writer(self.db(), span.device)?;
        let own =
            Notebook::key(self).filter(|key| writer.map_or(may_seal, |writer| writer.key == *key));
        match (own, writer) {
            (Some(key), _) => {
                let writer = writer.unwrap_or(Writer::plain(key));
                let bodies = self.read(span, room)?;
                if bodies.is_empty() {
                    return Ok(None);
                }
                let sealed = own_seal(self, &writer, span.device, span.after, &bodies)?;
                if seal::writer(self.db(), span.device)?.is_some() {
                    // Kept before it is given: what may be known of elsewhere is known here.
                    self.keep_seals(&[(writer, sealed)])?;
                }
                Ok(Some(sealed_run(span, bodies, &writer, sealed.signature)))
            }
            (None, Some(writer)) => read_to_a_seal(self, &writer, span, room),
            (None, None) => {
                let bodies = self.read(span, room)?;
                Ok((!bodies.is_empty()).then(|| SealedRun {
                    run: run_of(span, bodies),
                    seal: None,
                }))
            }
        }
    }

    fn seal_stretches(&mut self, series: Uuid, to: u64) -> Result<Vec<(u64, Signature)>, Trouble> {
        let Some(key) = Notebook::key(self) else {
            return Ok(Vec::new());
        };
        let writer = seal::writer(self.db(), series)?.unwrap_or(Writer::plain(key));
        let (mut after, mut link) = (0, writer.start());
        let mut seals = Vec::new();
        while after < to {
            let device = series;
            let bodies = self.read(Span { device, after, to }, PageSize::default())?;
            if bodies.is_empty() {
                return Err(Trouble::Notebook("a change is missing".into()));
            }
            link = link.after_all(&bodies);
            after += bodies.len() as u64;
            let signer = self.signer().ok_or(Trouble::NoToken)?;
            seals.push((after, signer.seal(&writer, series, after, link)));
        }
        Ok(seals)
    }

    fn note_given(&mut self, given: &SealedRun) -> Result<(), Trouble> {
        let (run, Some(sealed)) = (&given.run, &given.seal) else {
            return Ok(());
        };
        let kept = seal::last(self.db(), run.device)? >= run.last();
        if kept || Notebook::key(self) != Some(sealed.key) {
            return Ok(());
        }
        let writer = sealed.writer();
        let before = seal::link_at(self.db(), run.device, run.after, writer.start())?;
        let sealed = Sealed {
            series: run.device,
            seq: run.last(),
            signature: sealed.signature,
            link: before.after_all(&run.bodies),
        };
        Ok(self.keep_seals(&[(writer, sealed)])?)
    }

    fn branch_root(&mut self, device: Uuid, from: u64) -> Result<(Uuid, u64), Trouble> {
        Ok(Notebook::branch_root(self, device, from)?)
    }

    fn take_new_id(&mut self) -> Result<(), Trouble> {
        self.take_new_device_id()?;
        Ok(())
    }

    fn move_branch(&mut self, device: Uuid, from: u64, to: Uuid) -> Result<(), Trouble> {
        Ok(Notebook::move_branch(self, device, from, to)?)
    }
}

fn run_of(span: Span, bodies: Vec<ByteBuf>) -> Run {
    Run {
        device: span.device,
        after: span.after,
        bodies: bodies.into(),
    }
}

fn sealed_run(
    span: Span,
    bodies: Vec<ByteBuf>,
    writer: &Writer,
    signature: Signature,
) -> SealedRun {
    SealedRun {
        run: run_of(span, bodies),
        seal: Some(RunSeal {
            key: writer.key,
            signature,
            origin: writer.origin,
        }),
    }
}

/// Seals a series with this notebook's key up to the last of `bodies`, which come
/// after number `after`.
fn own_seal(
    notebook: &Notebook,
    writer: &Writer,
    series: Uuid,
    after: u64,
    bodies: &[ByteBuf],
) -> Result<Sealed, Trouble> {
    let signer: &Signer = notebook.signer().ok_or(Trouble::NoToken)?;
    let link = seal::link_at(notebook.db(), series, after, writer.start())?.after_all(bodies);
    let seq = after + bodies.len() as u64;
    Ok(Sealed {
        series,
        seq,
        signature: signer.seal(writer, series, seq, link),
        link,
    })
}

/// Reads another device's changes up to one of the seals that came with them: the
/// farthest that the room holds, or else the next one, as long as a page may be.
fn read_to_a_seal(
    notebook: &mut Notebook,
    writer: &Writer,
    span: Span,
    room: PageSize,
) -> Result<Option<SealedRun>, Trouble> {
    let mut bodies = notebook.read(span, room)?;
    let reach = span.after + bodies.len() as u64;
    let Some(sealed) = seal::next_after(notebook.db(), span.device, span.after, reach)? else {
        return Ok(None);
    };
    if sealed.seq > reach {
        let stretch = Span {
            to: sealed.seq,
            ..span
        };
        let page = PageSize {
            changes: PAGE_CHANGES,
            bytes: PAGE_BYTES,
        };
        bodies = notebook.read(stretch, page)?;
    }
    let wanted = usize::try_from(sealed.seq - span.after).unwrap_or(usize::MAX);
    if bodies.len() < wanted {
        return Ok(None);
    }
    bodies.truncate(wanted);
    Ok(Some(sealed_run(span, bodies, writer, sealed.signature)))
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
            if wire::planted::is(wire::planted::Bug::UnknownKindDropped)
                && change.kind.starts_with("later_")
            {
                break;
            }
            #[cfg(feature = "planted")]
            if wire::planted::is(wire::planted::Bug::SetAsideDropped) && change.raw.is_some() {
                break;
            }
            changes.push(change);
        }
    }
    Ok(changes)
}

/// Stores changes, all or nothing, and says what they touched.
pub(crate) fn take_in(
    notebook: &mut Notebook,
    changes: &[Change],
    seals: &[(Writer, Sealed)],
) -> Result<Touched, Rejected> {
    match notebook.ingest_sealed(changes, seals) {
        Ok(ingested) => {
            #[cfg(feature = "planted")]
            follow_every_clock(notebook, changes)?;
            Ok(ingested.touched)
        }
        Err(IngestError::Fork { device, .. }) => Err(Rejected::Forked(device)),
        Err(IngestError::Gap { .. } | IngestError::Malformed { .. }) => Err(Rejected::Nonsense),
        Err(IngestError::Store(error)) => Err(Rejected::Failed(error.to_string())),
    }
}

#[cfg(feature = "planted")]
fn follow_every_clock(notebook: &Notebook, changes: &[Change]) -> Result<(), Rejected> {
    if !wire::planted::is(wire::planted::Bug::ClockFollowed) {
        return Ok(());
    }
    for change in changes {
        notebook
            .db()
            .execute(
                "UPDATE series SET hlc = max(hlc, ?2) WHERE device = ?1",
                (change.device, change.hlc.number()),
            )
            .map_err(|error| Rejected::Failed(error.to_string()))?;
    }
    Ok(())
}
