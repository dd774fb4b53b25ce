//! Faults that the simulation plants to show that it would find them. Compiled
//! for its tests only.

use std::sync::atomic::{AtomicU8, Ordering};

/// A fault.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[repr(u8)]
pub enum Bug {
    /// None.
    None = 0,
    /// The hub takes the highest number for its progress and lets gaps through.
    GapAccepted = 1,
    /// Nobody notices a number that comes with other content; the hub passes over it.
    ReuseIgnored = 2,
    /// The hub says a page is stored and stores all but its last change.
    AcknowledgedTooSoon = 3,
    /// A phone that was removed may still store.
    RemovedMayWrite = 4,
    /// A notebook does not look whether it and the hub have parted.
    ForkOverlooked = 5,
    /// A notebook drops changes of kinds that it does not know.
    UnknownKindDropped = 7,
    /// A notebook drops what it cannot read instead of setting it aside.
    SetAsideDropped = 8,
    /// Neither hub nor notebook looks whether a series' writer sealed its changes.
    SealUnchecked = 9,
    /// A notebook's clock follows every stamp, however far ahead.
    ClockFollowed = 10,
}

static PLANTED: AtomicU8 = AtomicU8::new(Bug::None as u8);

/// Plants a fault, for the whole process.
pub fn plant(bug: Bug) {
    PLANTED.store(bug as u8, Ordering::SeqCst);
}

/// Whether this fault is planted.
#[must_use]
pub fn is(bug: Bug) -> bool {
    PLANTED.load(Ordering::SeqCst) == bug as u8
}
