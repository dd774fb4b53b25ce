//! What keeps a notebook whole, and what is done when it is not.
//!
//! - [`backup`]: a copy made while the notebook is in use, looked at before it
//!   counts.
//! - [`check`]: whether the file is sound, every series of the log is whole to
//!   its last digest, and the views say what the log says; whether the seals of
//!   every series fit what the log holds of it.
//! - [`photos`]: whether every photo's file is what its name says.
//! - [`mod@salvage`]: a damaged file is set aside and every change that can still be
//!   read is carried into a new notebook.
//! - [`mod@restore`]: a backup takes the place of the notebook.
//! - `disk::lease`, `disk::last_saved`: a notebook knows the last change that it showed as
//!   saved, so that a copy or an earlier -wal that lacks it is told, not trusted.
//! - `read_copy`: a notebook that cannot be opened where it lies can be read.
//!
//! # What is told, and what cannot be
//!
//! After each commit the newest change is named in the file `NAME-last` beside the
//! notebook, and before the first one the notebook's own file is marked as open. At
//! the next opening by a program that is alone with the notebook, one that does not
//! hold what is named, or is marked as open and has neither a -wal nor a `-last`
//! file, is refused with all its files as they lie. It can still be read and
//! exported. A salvage is the way on: it sets the files aside, takes what they and
//! the backups hold, and the device writes under a new id, so that no number is used
//! twice. Files of an earlier time that are put back all together, `-last` too,
//! cannot be told from the notebook of that time; the crew's hub notices them at the
//! next exchange.
//!
//! Every file here is its owner's alone: made so, and made so at an opening where an
//! older version left it open to others.
//!
//! Nothing here deletes a notebook: what is replaced keeps lying beside it under
//! a name with the date.

pub mod check;
mod loose_seals;
pub mod photos;
pub(crate) mod read_copy;
pub mod restore;
pub mod salvage;
pub mod seals;

pub use crate::disk::backup::{self, BackupFile, back_up, backups};
pub use crate::disk::log_faults::{LogFault, LogFaultKind, log_faults};
pub use check::Check;
pub use photos::PhotosFound;
pub use restore::{Restored, restore};
pub use salvage::{Salvaged, salvage};
pub use seals::SealFault;
