//! A photo as a change tells it.

use chrono::NaiveDateTime;
use serde::{Deserialize, Serialize};
use uuid::Uuid;

use kinds::PhotoName;

/// A photo of a planting, a stop or a head. Its file travels apart, by its name.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct PhotoTaken {
    /// Id of the photo.
    pub id: Uuid,
    /// The planting it shows.
    pub planting: Uuid,
    /// In which walk, where it shows a stop or a head.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub walk: Option<Uuid>,
    /// At which stop.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub stop: Option<Uuid>,
    /// Which head.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub head: Option<Uuid>,
    /// SHA-256 of its file.
    pub name: PhotoName,
    /// Length of the file.
    pub bytes: u64,
    /// Pixels across.
    pub width: u32,
    /// Pixels down.
    pub height: u32,
    /// Local time by the camera.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub taken: Option<NaiveDateTime>,
}
