//! Photos: made small and clean ([`picture`]), kept as files beside the notebook
//! under the SHA-256 of their bytes ([`files`]), and told by the log.
//!
//! The file is on the disk before the log speaks of it. A photo that another
//! device took is known before its file has come; see [`crate::Notebook::photos_to_fetch`].

pub mod files;
pub(crate) mod marks;
pub mod picture;

pub use files::PhotoFiles;
pub use kinds::PhotoName;
pub use picture::{Picture, PictureError};

/// Most bytes of a photo's file, as the exchange has it too. What this app makes
/// of a picture is a tenth of it.
pub const LONGEST: u64 = 16 << 20;

/// A photo's file on its way to or from the hub.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct PhotoFile {
    /// Its name.
    pub name: PhotoName,
    /// Its length.
    pub bytes: u64,
}

/// Files whose room may be freed.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct ToFree {
    /// Only where the hub says that it holds them still.
    pub ask_hub: Vec<PhotoName>,
    /// Of photos whose change was never stored.
    pub unnamed: Vec<PhotoName>,
}
