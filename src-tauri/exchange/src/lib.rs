//! The meeting of notebooks: what travels, the plan (pure), how it is carried
//! out, and the way over HTTP or through a file.
//!
//! ```text
//! look    hear what the hub holds            -> plan::plan (pure)
//! mend    where two contents share a number  -> the branch moves to its own series
//! push    own changes first, page by page    -> each stored before the next
//! pull    page by page                       -> each stored before the next
//! ```
//!
//! Nothing but the stored changes says how far an exchange has come, so it can
//! be cut at any byte and resumed by starting again.

pub mod book;
pub mod code;
pub mod crew;
pub mod file;
pub mod http;
pub mod meet;
pub mod own_book;
pub mod photos;
pub mod plan;
#[cfg(feature = "planted")]
pub mod planted;
pub mod service;
pub mod trouble;
pub mod wire;

pub use book::{Book, Rejected};
pub use meet::{Met, Progress, Way, branch_id, meet};
pub use trouble::{PageSize, Trouble};
