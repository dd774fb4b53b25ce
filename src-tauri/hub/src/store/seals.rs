//! Whose a series is and who may add to it, judged in one place for every kind of
//! store.

use super::Member;
use serde_bytes::ByteBuf;
use uuid::Uuid;
use wire::is_branch;
use wire::seal::{Link, PublicKey, Signature, Writer};
use wire::{PAGE_BYTES, PAGE_CHANGES, Refusal, SealedRun, Tag};

/// What a store knows of a series before a run is judged.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Standing {
    /// Its last number, 0 where it is new.
    pub end: u64,
    /// The membership that may add to it.
    pub owner: Option<Uuid>,
    /// The key that seals it.
    pub writer: Option<Writer>,
    /// The link at its end, where it carries seals.
    pub link: Option<Link>,
}

/// By what right new changes of a series are taken.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Right {
    /// The member owns the series, which carries no seal.
    Owned,
    /// The changes end at a seal of the series' writer.
    Sealed {
        /// The writer.
        writer: Writer,
        /// The signature at the last change.
        signature: Signature,
        /// The link there.
        link: Link,
    },
}

/// Judges whether a member may add the changes `fresh`, with which the run ends, to a
/// series. `origin_key` is the key of the series from which a moved branch parted, as
/// far as the store knows it.
///
/// # Errors
/// [`Refusal::NotYours`].
pub fn right_to_append(
    by: &Member,
    standing: &Standing,
    came: &SealedRun,
    fresh: &[ByteBuf],
    origin_key: Option<PublicKey>,
) -> Result<Right, Refusal> {
    let (run, series) = (&came.run, came.run.device);
    let refused = Err(Refusal::NotYours(series));
    #[cfg(feature = "planted")]
    if wire::planted::is(wire::planted::Bug::SealUnchecked) {
        return Ok(Right::Owned);
    }
    let (writer, seal) = match (standing.writer, &came.seal) {
        (None, None) => {
            let free = standing.owner.is_none_or(|owner| owner == by.device);
            return if free { Ok(Right::Owned) } else { refused };
        }
        (Some(writer), Some(seal)) if writer.key == seal.key => (writer, seal),
        (None, Some(seal)) if standing.end == 0 => (seal.writer(), seal),
        _ => return refused,
    };
    if let (None, Some(origin)) = (standing.writer, writer.origin) {
        let named = fresh
            .first()
            .is_some_and(|first| is_branch(series, origin.series, origin.seq, Tag::of(first)));
        if !named || origin_key.is_some_and(|key| key != writer.key) {
            return refused;
        }
    }
    let before = standing.link.unwrap_or(writer.start());
    let link = before.after_all(fresh);
    #[cfg(feature = "planted")]
    let unjudged = {
        use wire::planted::{Bug, is};
        is(Bug::GapAccepted) || is(Bug::ReuseIgnored)
    };
    #[cfg(not(feature = "planted"))]
    let unjudged = false;
    if unjudged || writer.sealed(series, run.last(), link, &seal.signature) {
        Ok(Right::Sealed {
            writer,
            signature: seal.signature,
            link,
        })
    } else {
        refused
    }
}

/// Seals of a series that were proved, each with its number and the link there.
pub type Proved = Vec<(u64, Signature, Link)>;

/// Seals that a member gives for a series of theirs which carries none, while they are
/// compared with its changes from the first to the last.
#[derive(Debug)]
pub struct Claim<'a> {
    series: Uuid,
    writer: Writer,
    seals: std::slice::Iter<'a, (u64, Signature)>,
    at: u64,
    link: Link,
    /// Changes and bytes since the last seal.
    since: (usize, usize),
    next: Option<&'a (u64, Signature)>,
    proved: Proved,
}

impl<'a> Claim<'a> {
    /// A claim of `by` on a series.
    ///
    /// # Errors
    /// [`Refusal::NotYours`] when it is not theirs to claim, [`Refusal::Gap`] when the
    /// seals do not reach its end.
    pub fn new(
        by: &Member,
        series: Uuid,
        standing: &Standing,
        seals: &'a [(u64, Signature)],
    ) -> Result<Self, Refusal> {
        let theirs = standing.owner.is_none_or(|owner| owner == by.device);
        let key = by.key.filter(|_| theirs && standing.writer.is_none());
        let writer = Writer::plain(key.ok_or(Refusal::NotYours(series))?);
        if seals.last().map(|(seq, _)| *seq) != Some(standing.end) {
            return Err(Refusal::Gap {
                device: series,
                have: standing.end,
            });
        }
        let mut seals = seals.iter();
        let next = seals.next();
        Ok(Self {
            series,
            writer,
            seals,
            at: 0,
            link: writer.start(),
            since: (0, 0),
            next,
            proved: Vec::new(),
        })
    }

    /// Goes on by one change of the series.
    ///
    /// # Errors
    /// When a seal does not fit, or is too far from the one before.
    pub fn take(&mut self, body: &[u8]) -> Result<(), Refusal> {
        self.at += 1;
        self.link = self.link.after(body);
        self.since = (self.since.0 + 1, self.since.1 + body.len());
        if self.since.0 > PAGE_CHANGES || (self.since.1 > PAGE_BYTES && self.since.0 > 1) {
            return Err(Refusal::OutOfBounds);
        }
        let Some((seq, signature)) = self.next else {
            return Ok(());
        };
        if *seq == self.at {
            if !self.writer.sealed(self.series, *seq, self.link, signature) {
                return Err(Refusal::NotYours(self.series));
            }
            self.proved.push((*seq, *signature, self.link));
            self.since = (0, 0);
            self.next = self.seals.next();
        }
        Ok(())
    }

    /// The writer and the seals that were proved, once every change was taken.
    ///
    /// # Errors
    /// [`Refusal::OutOfBounds`] when a seal names a number that is not there.
    pub fn proved(self) -> Result<(Writer, Proved), Refusal> {
        if self.next.is_some() {
            return Err(Refusal::OutOfBounds);
        }
        Ok((self.writer, self.proved))
    }
}

/// Changes of one series that are read for a page, which must end at a seal where the
/// series carries seals.
#[derive(Debug, Default)]
pub(crate) struct Reading {
    bodies: Vec<ByteBuf>,
    /// How many changes the farthest seal covers, and its signature.
    sealed: Option<(usize, Signature)>,
}

impl Reading {
    pub(crate) fn push(&mut self, body: Vec<u8>, signature: Option<Signature>) {
        self.bodies.push(ByteBuf::from(body));
        if let Some(signature) = signature {
            self.sealed = Some((self.bodies.len(), signature));
        }
    }

    /// What may be given: all of it where the series carries no seal.
    pub(crate) fn given(
        mut self,
        writer: Option<Writer>,
    ) -> Option<(Vec<ByteBuf>, Option<Signature>)> {
        if writer.is_none() {
            return (!self.bodies.is_empty()).then_some((self.bodies, None));
        }
        let (count, signature) = self.sealed?;
        self.bodies.truncate(count);
        Some((self.bodies, Some(signature)))
    }
}

/// A run as it is given, with its seal.
pub(crate) fn given_run(
    run: wire::Run,
    writer: Option<Writer>,
    signature: Option<Signature>,
) -> SealedRun {
    let seal = writer
        .zip(signature)
        .map(|(writer, signature)| wire::RunSeal {
            key: writer.key,
            signature,
            origin: writer.origin,
        });
    SealedRun { run, seal }
}
