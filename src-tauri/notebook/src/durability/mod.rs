//! What keeps a notebook whole, and what is done when it is not.
//!
//! - [`backup`]: a copy made while the notebook is in use, looked at before it
//!   counts.
//! - [`check`]: whether the file is sound, every series of the log is whole to
//!   its last digest, and the views say what the log says.
//! - [`photos`]: whether every photo's file is what its name says.
//! - [`mod@salvage`]: a damaged file is set aside and every change that can still be
//!   read is carried into a new notebook.
//! - [`mod@restore`]: a backup takes the place of the notebook.
//!
//! Nothing here deletes a notebook: what is replaced keeps lying beside it under
//! a name with the date.

pub mod backup;
pub(crate) mod carve;
mod chain;
pub mod check;
pub(crate) mod files;
pub(crate) mod hold;
pub mod photos;
pub mod restore;
pub mod salvage;

pub use backup::{BackupFile, back_up, backups};
pub use check::{Check, LogFault, LogFaultKind};
pub use photos::PhotosFound;
pub use restore::{Restored, restore};
pub use salvage::{Salvaged, salvage};
