//! The log of changes: the notebook's truth.

mod change;
mod hlc;
mod store;
mod travel;

pub use change::instant;
pub use change::{Change, Digest, MAX_BODY, MAX_KIND, MAX_PACKED, Stamp};
pub use hlc::Hlc;
pub(crate) use hlc::{DAY_MS, FAR_MS};
pub use store::{Head, after, change_at, digest_at, heads, latest_hlc};
pub(crate) use store::{
    append, each_in_order, each_with_digest, follow_again, follow_to, raw_or_none, take_branch,
};
pub use travel::{pack, received, unpack};
