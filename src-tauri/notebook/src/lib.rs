//! The store on the scout's device: the log of changes and what it says.
//!
//! # How a notebook remembers
//!
//! A notebook is one SQLite file. Its truth is a **log of changes**; every
//! other table is a **view**: what the log says, filled in the same
//! transaction, and at any time built anew from the log to the same bytes
//! ([`Notebook::rebuild`]).
//!
//! *A series per device.* Each device writes its own series: change 1, 2, 3...
//! without a gap. Nobody else ever writes into it. So two notebooks know what
//! they lack of each other from one number per device ([`log::heads`]), and an
//! interrupted exchange goes on where it stopped.
//!
//! *A change is one act of a person*, for instance "head read" or "undo", and
//! carries one or more [facts](fact::Fact). It is stored whole or not at all,
//! is never altered and never removed. A kind of fact that this version does
//! not know is kept and passed on, and counts once a later version knows it.
//!
//! *Facts, not states.* A head is read once. A correction names the head and
//! says what it should say instead; a removal marks it and can be taken back.
//! Shared rows (farm, field, hybrid, planting) are edited field by field: only
//! the fields that the person changed are in the change.
//!
//! *Order without a common clock.* Facts may arrive in any order, a correction
//! even before its head. Where two facts compete, the later **stamp** wins:
//! hybrid logical clock, then device, then number ([`log::Stamp`]). The clock
//! never runs backwards, even where the phone's does. The value that lost
//! stays in `field_value`, to be shown.
//!
//! *Four times, never mixed.* `walked_on` is the civil date that the scout
//! gave and what statistics use. `recorded_at` is what the writer's clock
//! said. `hlc` only orders. `received_at` is when a change came to this
//! device; no view depends on it.
//!
//! *Whose a series is* says its writer's key: what leaves a device is sealed with
//! it, and a series that carries seals takes nothing that they do not cover
//! ([`seal`]).
//!
//! *Same number, other content* cannot happen unless a device was copied or
//! set back. The digest of a change covers its series up to there, so it is
//! noticed at once and refused ([`IngestError::Fork`]); the device then takes
//! a new id ([`Notebook::take_new_device_id`]) and nothing is lost or counted
//! twice, because the ids of heads stay.
//!
//! The tables are in `migrations/notebook/`.

pub mod apply;
pub mod archive;
pub mod clock;
pub(crate) mod disk;
pub mod durability;
pub mod ending;
pub mod error;
pub mod export;
pub mod fact;
pub mod ids;
pub mod log;
pub mod notebook;
pub mod open;
pub mod own_id;
pub mod photo;
pub mod seal;
pub mod setting;
pub mod views;

pub use clock::{Clock, OnDate, SystemClock};
pub use error::{IngestError, StoreError};
pub use export::ExportError;
pub use ids::{Randomness, SystemRandomness};
pub use notebook::branch::branch_id;
pub use notebook::{Ingested, Notebook, branch, import_ending, tell_again};
pub use open::migrations;
