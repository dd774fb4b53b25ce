//! What is said between a face and the service about changes that do not count, and
//! about walks of which something cannot be worked out.

use chrono::{DateTime, FixedOffset};
use serde::{Deserialize, Serialize};
use uuid::Uuid;

use notebook::fact::{Act, Reason};

/// The changes, and facts of changes, that do not count.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct SetAsidePage {
    /// This device, as `tell_again` names it.
    pub device: Uuid,
    /// The first of them, the latest stamp first.
    pub rows: Vec<SetAsideRow>,
    /// How many there are.
    pub total: u32,
    /// Of them, changes that wait for the clock and were not told again.
    pub waiting: u32,
    /// Changes of this device that count here and wait on every other, because its clock
    /// was ahead when they were made.
    pub own_ahead: u32,
}

/// A change, or a fact of one, that does not count.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct SetAsideRow {
    /// Device that made the change.
    pub device: Uuid,
    /// Number of the change in that device's series.
    #[cfg_attr(feature = "ts", ts(type = "number"))]
    pub seq: u64,
    /// Whether it is this device's own.
    pub own: bool,
    /// Person who uses the device, where a walk says so.
    pub who: Option<String>,
    /// Place of the fact in the change, from 1; absent where it is the whole change.
    pub fact: Option<u32>,
    /// The act, as the history names it.
    pub act: Act,
    /// When it was recorded, by that device's clock; absent where that cannot be read.
    pub recorded_at: Option<DateTime<FixedOffset>>,
    /// Why it does not count.
    pub reason: Reason,
    /// Name of the value that breaks a bound.
    pub what: Option<String>,
    /// When it counts by itself, where it waits for the clock; also where another device
    /// told it again meanwhile.
    pub due: Option<DateTime<FixedOffset>>,
}

/// Changes of a device that count now.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct ToldAgain {
    /// Changes that were told again.
    pub changes: u32,
}
