//! Whether what came was written by whose series it is.

use crate::book::Book;
use crate::trouble::Trouble;
use notebook::seal::Sealed;
use serde::{Deserialize, Serialize};
use wire::is_branch;
use wire::seal::{PublicKey, Writer};
use wire::{SealedRun, Tag};

/// Why a series was left as it is, here and at the hub, while the others went on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum LeftAlone {
    /// The other side holds changes of the series that its writer did not sign.
    NotSigned,
    /// The other side names another key than the series was first seen with.
    OtherKey,
    /// The hub does not take changes of the series from this phone.
    NotTaken,
    /// What the hub says of the series does not hold together: it claims changes that
    /// it does not give, gives others than were asked for, or says now this, now that.
    Incoherent,
}

/// What is known of a run that came.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[allow(clippy::large_enum_variant)] // made and taken apart once a run
pub(crate) enum Proof {
    /// It ends at a seal that fits.
    Sealed(Writer, Sealed),
    /// It carries no seal, and nothing known of the series asks for one.
    Bare,
    /// It must not be taken in.
    None(LeftAlone),
}

/// Judges a run that follows what the notebook holds of its series. `named` is the
/// key that the other side names for it.
///
/// # Errors
/// When the notebook fails.
pub(crate) fn prove(
    book: &mut dyn Book,
    came: &SealedRun,
    named: Option<PublicKey>,
) -> Result<Proof, Trouble> {
    let (run, series) = (&came.run, came.run.device);
    #[cfg(feature = "planted")]
    if wire::planted::is(wire::planted::Bug::SealUnchecked) {
        return Ok(Proof::Bare);
    }
    let known = book.writer(series)?;
    let Some(seal) = &came.seal else {
        return Ok(if known.is_none() && named.is_none() {
            Proof::Bare
        } else {
            Proof::None(LeftAlone::NotSigned)
        });
    };
    if known.is_some_and(|known| known.key != seal.key) {
        return Ok(Proof::None(LeftAlone::OtherKey));
    }
    if named.is_some_and(|named| named != seal.key) {
        return Ok(Proof::None(LeftAlone::NotSigned));
    }
    let writer = known.unwrap_or(seal.writer());
    if known.is_none() && !is_branch_of_its_origin(book, came, &writer)? {
        return Ok(Proof::None(LeftAlone::NotSigned));
    }
    let link = book
        .link(series, run.after, writer.start())?
        .after_all(&run.bodies);
    if !writer.sealed(series, run.last(), link, &seal.signature) {
        return Ok(Proof::None(LeftAlone::NotSigned));
    }
    let sealed = Sealed {
        series,
        seq: run.last(),
        signature: seal.signature,
        link,
    };
    Ok(Proof::Sealed(writer, sealed))
}

/// Whether a moved branch has the id that its first change gives it, and the key of
/// the series it parted from. A series that is no branch has nothing to show.
fn is_branch_of_its_origin(
    book: &mut dyn Book,
    came: &SealedRun,
    writer: &Writer,
) -> Result<bool, Trouble> {
    let Some(origin) = writer.origin else {
        return Ok(true);
    };
    let parent = book.writer(origin.series)?;
    if parent.is_some_and(|parent| parent.key != writer.key) {
        return Ok(false);
    }
    let run = &came.run;
    let first = match run.bodies.first() {
        Some(body) if run.after == 0 => Some(Tag::of(body)),
        _ => book.tag(run.device, 1)?,
    };
    Ok(first.is_some_and(|first| is_branch(run.device, origin.series, origin.seq, first)))
}
