//! The meeting of notebooks: what travels, the plan (pure), how it is carried
//! out, and the way over HTTP or through a file.
//!
//! ```text
//! look    hear what the hub holds            -> plan::plan (pure)
//! mend    where two contents share a number  -> the branch moves to its own series
//! push    own changes first, page by page    -> each stored before the next
//! pull    page by page, each run proved      -> each stored before the next
//! ```
//!
//! # Keys and seals
//!
//! A series belongs to a membership. Each phone draws an Ed25519 key when it joins
//! (or, if it joined before there were keys, at its next exchange) and keeps it
//! beside its notebook ([`crew::Tokens`]); the hub learns the public half once and
//! tells everybody which key seals which series ([`wire::Roster`]). What a phone
//! gives away, to the hub or into a file, ends at a seal ([`wire::seal`]), one
//! a page.
//!
//! The hub takes new changes of a sealed series only up to a seal of its key, from
//! whoever brings them: a phone may carry another's changes, and can add nothing to
//! them. A new series belongs to the membership whose key seals it first. A series
//! that carries no seal (an older app writes it) belongs to the first member who
//! adds to it, until its phone is updated and seals it ([`wire::Ask::Seal`]).
//!
//! A phone believes neither the hub nor a file: a run must link to what the phone
//! holds and end at a seal of the key that it first saw with that series. If it does
//! not, the series stays as it is and is told ([`LeftAlone`]), and the others go on.
//! This phone's own branch moves only if the other content is sealed with this
//! phone's key, or the phone never sealed the series.
//!
//! A phone that joins anew draws a new key and goes on in a new series; what it had
//! not given away yet moves there.
//!
//! What remains: the hub can keep changes back, and can lie about a series that this
//! phone has never seen sealed. A member can make up series of their own, in their
//! own name. Series of older apps are open to whoever adds to them first.
//!
//! Nothing but the stored changes says how far an exchange has come, so it can
//! be cut at any byte and resumed by starting again.

pub mod book;
pub mod crew;
pub mod file;
pub mod http;
pub mod meet;
pub mod own_book;
pub mod photos;
pub mod plan;
mod proof;
pub mod service;
pub mod trouble;

pub use book::{Book, Rejected};
pub use meet::{Met, Moved, MovedWhy, Progress, Way, meet};
pub use proof::LeftAlone;
pub use trouble::{PageSize, Trouble};
