//! Which part of a run is new, judged in one place for every kind of store.

use exchange::wire::{Clash, Refusal, Run};
use serde_bytes::ByteBuf;

/// The new part of a run.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Piece<'a> {
    /// Number of the first new change.
    pub first: u64,
    /// The new changes.
    pub bodies: &'a [ByteBuf],
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
    Ok(Piece {
        first: run.after + repeated as u64 + 1,
        bodies: &run.bodies[repeated..],
    })
}

#[cfg(feature = "planted")]
fn planted(head: u64, run: &Run) -> Option<Piece<'_>> {
    use exchange::planted::{Bug, is};
    if is(Bug::GapAccepted) && run.after > head {
        return Some(Piece {
            first: run.after + 1,
            bodies: &run.bodies,
        });
    }
    if is(Bug::ReuseIgnored) && run.after < head {
        let held = usize::try_from(head - run.after).unwrap_or(usize::MAX);
        return Some(Piece {
            first: run.after + 1 + held.min(run.bodies.len()) as u64,
            bodies: run.bodies.get(held..).unwrap_or(&[]),
        });
    }
    None
}
