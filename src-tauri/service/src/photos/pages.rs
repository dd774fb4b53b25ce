//! What is said between a face and the service about photos.

use chrono::{DateTime, FixedOffset, NaiveDate, NaiveDateTime};
use ripening::Head;
use serde::{Deserialize, Serialize};
use uuid::Uuid;

use crate::Place;
use notebook::photo::PhotoName;

/// What a photo shows.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
#[serde(tag = "kind", content = "id", rename_all = "snake_case")]
pub enum PhotoOf {
    /// A planting.
    Planting(Uuid),
    /// A stop.
    Stop(Uuid),
    /// A head.
    Head(Uuid),
}

/// A photo as it is asked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum PhotoSize {
    /// As it is kept.
    Whole,
    /// For a list.
    Small,
}

/// A photo as the screens show it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct PhotoView {
    /// Id of the photo.
    pub id: Uuid,
    /// What it shows, as it was taken.
    pub of: PhotoOf,
    /// Its planting.
    pub planting: Uuid,
    /// Date of its walk.
    pub walked_on: Option<NaiveDate>,
    /// Number of its stop within the walk.
    pub stop_number: Option<u32>,
    /// Number of its head within the stop.
    pub head_number: Option<u32>,
    /// What the head reads.
    pub head: Option<Head>,
    /// SHA-256 of its file.
    pub name: PhotoName,
    /// Length of its file.
    pub bytes: u32,
    /// Pixels across.
    pub width: u32,
    /// Pixels down.
    pub height: u32,
    /// Local time by the camera.
    pub taken: Option<NaiveDateTime>,
    /// When it was stored.
    pub recorded_at: DateTime<FixedOffset>,
    /// What somebody wrote below it.
    pub caption: Option<String>,
    /// Whether its file is on this device.
    pub here: bool,
    /// Whether the hub is known to hold it.
    pub on_hub: bool,
}

/// After a photo was added.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct PhotoAdded {
    /// The photo as stored.
    pub photo: PhotoView,
    /// The place that the picture's file named, where its stop has none: it was
    /// not stored, and can be given to the stop with `place_stop`.
    pub offered: Option<OfferedPlace>,
}

/// A place that may be a stop's.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct OfferedPlace {
    /// Of which stop.
    pub stop: Uuid,
    /// The position that the camera wrote.
    pub place: Place,
}

/// Room that photos take on this device.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct PhotoStorage {
    /// Photo files here.
    pub photos: u32,
    /// Their bytes.
    #[cfg_attr(feature = "ts", ts(type = "number"))]
    pub bytes: u64,
    /// Of these, files that the hub is not known to hold: never freed.
    pub only_here: u32,
    /// Bytes that freeing would give back.
    #[cfg_attr(feature = "ts", ts(type = "number"))]
    pub can_free: u64,
    /// Photos of the notebook whose file is not here.
    pub elsewhere: u32,
}

/// Photos of a thing.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct PhotoList {
    /// The newest first.
    pub rows: Vec<PhotoView>,
}
