//! The notebook's files on the disk, below the notebook itself: what holds them, what
//! names the last change shown as saved, and what can be read of them without opening.

pub mod backup;
pub(crate) mod carve;
pub(crate) mod chain;
pub(crate) mod files;
pub(crate) mod hold;
pub(crate) mod integrity;
pub(crate) mod last_saved;
pub(crate) mod lease;
pub mod log_faults;
pub(crate) mod read_copy;
