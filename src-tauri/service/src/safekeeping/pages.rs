//! What is said about the notebook's own keeping: backups, checks, salvage.

use chrono::{DateTime, FixedOffset, NaiveDateTime};
use serde::{Deserialize, Serialize};

use notebook::durability::{BackupFile, Salvaged};

/// How the notebook is kept.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct Safekeeping {
    /// Its file.
    pub notebook: String,
    /// Size of the file, in millions of bytes.
    pub megabytes: f64,
    /// Folder of its backups.
    pub folder: String,
    /// The backups there, the newest first.
    pub backups: Vec<BackupRow>,
    /// The last look at the whole notebook.
    pub last_check: Option<NotebookCheck>,
    /// The salvage that this notebook came from, if it came from one.
    pub last_salvage: Option<SalvageReport>,
}

/// A backup.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct BackupRow {
    /// Name of the file.
    pub name: String,
    /// Its whole path.
    pub path: String,
    /// When it was made, local time.
    pub made_at: Option<NaiveDateTime>,
    /// Its size, in millions of bytes.
    pub megabytes: f64,
}

/// What a look at the whole notebook found.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct NotebookCheck {
    /// When it was looked at.
    pub at: DateTime<FixedOffset>,
    /// Changes read, each proved by its digest.
    pub changes: u32,
    /// Set where what the screens show did not agree with the log and was made
    /// anew from it.
    pub mended: bool,
    /// Photo files read, each compared with its name.
    #[serde(default)]
    pub photos: u32,
    /// Of them, files that were damaged: set aside, and fetched again where the hub
    /// has them.
    #[serde(default)]
    pub photos_damaged: u32,
    /// Photo files that were here, were not freed, and are gone.
    #[serde(default)]
    pub photos_missing: u32,
}

/// What a salvage kept and what it could not.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct SalvageReport {
    /// When it was salvaged.
    pub at: DateTime<FixedOffset>,
    /// Where the damaged file lies now.
    pub set_aside: Option<String>,
    /// Changes kept.
    pub kept: u32,
    /// Of them, those that only a backup still had.
    pub from_backup: u32,
    /// Of them, those that nothing was left to prove by.
    pub unproved: u32,
    /// Changes that are known to have been there and are lost.
    pub lost: u32,
    /// Recording time of the change before the first that is lost.
    pub lost_from: Option<DateTime<FixedOffset>>,
    /// Recording time of the change after the last that is lost.
    pub lost_to: Option<DateTime<FixedOffset>>,
    /// Set where more may be lost at the end than is known.
    pub end_unknown: bool,
    /// Heads in the notebook now.
    pub heads: u32,
    /// Whether the settings of this device were kept.
    pub settings_kept: bool,
}

/// What putting a backup in the notebook's place did.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct RestoreReport {
    /// Where the notebook lies that was in its place, if there was one.
    pub set_aside: Option<String>,
    /// Changes in the notebook now.
    pub changes: u32,
    /// When the backup was made, local time.
    pub made_at: Option<NaiveDateTime>,
}

impl SalvageReport {
    pub(crate) fn of(salvaged: &Salvaged, at: DateTime<FixedOffset>) -> SalvageReport {
        SalvageReport {
            at,
            set_aside: salvaged
                .set_aside
                .as_ref()
                .map(|path| path.display().to_string()),
            kept: count(salvaged.kept),
            from_backup: count(salvaged.from_backup),
            unproved: count(salvaged.unproved),
            lost: count(salvaged.lost),
            lost_from: salvaged.lost_between.map(|(from, _)| from),
            lost_to: salvaged.lost_between.map(|(_, to)| to),
            end_unknown: salvaged.end_unknown,
            heads: count(salvaged.heads),
            settings_kept: salvaged.settings_kept,
        }
    }
}

impl BackupRow {
    pub(crate) fn of(file: &BackupFile) -> BackupRow {
        let name = file.path.file_name().unwrap_or_default();
        BackupRow {
            name: name.to_string_lossy().into_owned(),
            path: file.path.display().to_string(),
            made_at: file.made_at,
            megabytes: megabytes(file.bytes),
        }
    }
}

pub(crate) fn count(number: u64) -> u32 {
    u32::try_from(number).unwrap_or(u32::MAX)
}

#[allow(clippy::cast_precision_loss)] // told to a tenth
pub(crate) fn megabytes(bytes: u64) -> f64 {
    (bytes as f64 / 1e5).round() / 10.0
}

/// The backups, the newest first.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct BackupList {
    /// The backups.
    pub rows: Vec<BackupRow>,
}
