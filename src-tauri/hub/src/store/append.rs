//! Who may append what, judged in one place for every kind of store.

use super::Member;
use serde_bytes::ByteBuf;
use wire::{Clash, Mark, Refusal, Role, Run, Tag};

/// The member who gave a page, if they may at the moment of storing: a phone
/// removed since it was let in at the door stores nothing.
///
/// # Errors
/// The [`Refusal`] that it gets.
pub fn admitted(member: Option<Member>) -> Result<Member, Refusal> {
    let member = member.ok_or(Refusal::Unknown)?;
    #[cfg(feature = "planted")]
    let member = Member {
        removed: member.removed && !wire::planted::is(wire::planted::Bug::RemovedMayWrite),
        ..member
    };
    if member.removed {
        return Err(Refusal::Removed);
    }
    if member.role < Role::Scout {
        return Err(Refusal::NotAllowed);
    }
    Ok(member)
}

/// The new part of a run.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Piece<'a> {
    /// Number of the first new change.
    pub first: u64,
    /// The new changes, as they are stored.
    pub bodies: &'a [ByteBuf],
    /// The new changes, as they came.
    pub fresh: &'a [ByteBuf],
    /// Where the series ends with them; none where nothing is new.
    pub end: Option<Mark>,
}

impl<'a> Piece<'a> {
    fn of(run: &'a Run, first: u64, bodies: &'a [ByteBuf]) -> Self {
        let end = bodies.last().map(|last| Mark {
            seq: run.last(),
            tag: Tag::of(last),
        });
        let fresh = bodies;
        #[cfg(feature = "planted")]
        let bodies = match bodies.split_last() {
            Some((_, rest)) if wire::planted::is(wire::planted::Bug::AcknowledgedTooSoon) => rest,
            _ => bodies,
        };
        Self {
            first,
            bodies,
            fresh,
            end,
        }
    }
}

/// Compares a run with a series whose last number is `head` and whose changes
/// `run.after + 1 ..= head`, as far as the run repeats them, are `stored`.
///
/// # Errors
/// [`Refusal::Gap`] when the run starts past the end of the series,
/// [`Refusal::Clash`] when it repeats a number with other content.
pub fn fresh_part<'a>(head: u64, stored: &[Vec<u8>], run: &'a Run) -> Result<Piece<'a>, Refusal> {
    #[cfg(feature = "planted")]
    if let Some(piece) = planted(head, run) {
        return Ok(piece);
    }
    if run.after > head {
        return Err(Refusal::Gap {
            device: run.device,
            have: head,
        });
    }
    for (seq, (old, new)) in (run.after + 1..).zip(stored.iter().zip(run.bodies.iter())) {
        if old.as_slice() != new.as_ref() {
            return Err(Refusal::Clash(Clash {
                device: run.device,
                seq,
            }));
        }
    }
    let repeated = usize::try_from(head - run.after)
        .unwrap_or(usize::MAX)
        .min(run.bodies.len());
    let first = run.after + repeated as u64 + 1;
    Ok(Piece::of(run, first, &run.bodies[repeated..]))
}

#[cfg(feature = "planted")]
fn planted(head: u64, run: &Run) -> Option<Piece<'_>> {
    use wire::planted::{Bug, is};
    if is(Bug::GapAccepted) && run.after > head {
        return Some(Piece::of(run, run.after + 1, &run.bodies));
    }
    if is(Bug::ReuseIgnored) && run.after < head {
        let held = usize::try_from(head - run.after).unwrap_or(usize::MAX);
        let first = run.after + 1 + held.min(run.bodies.len()) as u64;
        return Some(Piece::of(run, first, run.bodies.get(held..).unwrap_or(&[])));
    }
    None
}
