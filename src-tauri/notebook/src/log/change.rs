//! One change, its stamp and its digest.

use chrono::{DateTime, FixedOffset, Utc};
use kinds::Act;
use serde::{Deserialize, Serialize};
use sha2::{Digest as _, Sha256};
use uuid::Uuid;

use super::Hlc;

/// Longest kind of a change, bytes.
pub const MAX_KIND: usize = 64;
/// Longest body of a change, bytes.
pub const MAX_BODY: usize = 1 << 20;
/// Longest change as bytes that travel: a body and its envelope.
pub const MAX_PACKED: usize = MAX_BODY + 1024;
/// Kind of a change whose bytes this version cannot read.
const UNREADABLE: &str = "unreadable";

/// What one person did at once, as the log keeps it and the exchange sends it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Change {
    /// The writer.
    pub device: Uuid,
    /// 1, 2, 3... within the writer's series.
    pub seq: u64,
    /// Orders changes of all devices.
    pub hlc: Hlc,
    /// The writer's wall clock, ms since 1970, UTC.
    pub recorded_ms: i64,
    /// The writer's offset from UTC, minutes.
    pub offset_min: i32,
    /// The act, in one word ([`kinds::Act`]).
    pub kind: String,
    /// The facts as JSON ([`crate::fact::Body`]), byte for byte as written.
    pub body: String,
    /// The bytes as they came, of a change that this version cannot read and keeps
    /// all the same ([`Change::unreadable`]); none for every other.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub raw: Option<Vec<u8>>,
}

/// Where a change stands among all changes: later stamps win.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Stamp {
    /// First the clock.
    pub hlc: Hlc,
    /// Then the device.
    pub device: Uuid,
    /// Then the number.
    pub seq: u64,
}

/// SHA-256 over a series up to a change.
pub type Digest = [u8; 32];

impl Change {
    /// A change whose bytes cannot be read. It keeps its number, its bytes travel on
    /// as they came, and it says nothing.
    pub fn unreadable(device: Uuid, seq: u64, bytes: &[u8]) -> Change {
        Change {
            device,
            seq,
            hlc: Hlc::ZERO,
            recorded_ms: 0,
            offset_min: 0,
            kind: UNREADABLE.to_owned(),
            body: String::new(),
            raw: Some(bytes.to_vec()),
        }
    }

    /// What the person did.
    pub fn act(&self) -> Act {
        Act::of(&self.kind)
    }

    /// Where it stands.
    pub fn stamp(&self) -> Stamp {
        Stamp {
            hlc: self.hlc,
            device: self.device,
            seq: self.seq,
        }
    }

    /// When it was written, by the writer's clock.
    pub fn recorded_at(&self) -> DateTime<FixedOffset> {
        instant(self.recorded_ms, self.offset_min)
    }

    /// Digest of the series up to this change, given the digest before it
    /// (none before change 1).
    pub fn digest(&self, before: Option<&Digest>) -> Digest {
        let mut hash = Sha256::new();
        hash.update(before.unwrap_or(&[0; 32]));
        hash.update(self.device.as_bytes());
        hash.update(self.seq.to_be_bytes());
        if let Some(raw) = &self.raw {
            // No clock is negative, so no readable change has this digest.
            hash.update((-1_i64).to_be_bytes());
            hash.update((raw.len() as u64).to_be_bytes());
            hash.update(raw);
            return hash.finalize().into();
        }
        hash.update(self.hlc.number().to_be_bytes());
        hash.update(self.recorded_ms.to_be_bytes());
        hash.update(self.offset_min.to_be_bytes());
        hash.update((self.kind.len() as u64).to_be_bytes());
        hash.update(self.kind.as_bytes());
        hash.update(self.body.as_bytes());
        hash.finalize().into()
    }

    /// Why it cannot be a change, if it cannot.
    pub fn fault(&self) -> Option<&'static str> {
        if self.seq == 0 || i64::try_from(self.seq).is_err() {
            Some("its number is out of range")
        } else if let Some(raw) = &self.raw {
            (raw.len() > MAX_PACKED).then_some("it is too long")
        } else if Hlc::new(self.hlc.number()).is_none() {
            Some("its clock is out of range")
        } else if self.offset_min.abs() > 18 * 60 {
            Some("its offset from UTC is out of range")
        } else if self.kind.is_empty() || self.kind.len() > MAX_KIND {
            Some("its kind is empty or too long")
        } else if self.body.len() > MAX_BODY {
            Some("its body is too long")
        } else {
            None
        }
    }
}

/// First and last instant that is shown, ms since 1970: within the years 1 and 9999,
/// in every offset from UTC.
const SHOWN_MS: (i64, i64) = (-62_135_510_400_000, 253_402_214_399_999);

/// An instant from its stored parts. Parts out of range give the nearest that
/// can be shown.
pub fn instant(ms: i64, offset_min: i32) -> DateTime<FixedOffset> {
    let utc = DateTime::<Utc>::from_timestamp_millis(ms.clamp(SHOWN_MS.0, SHOWN_MS.1))
        .unwrap_or_default();
    match FixedOffset::east_opt(offset_min.saturating_mul(60)) {
        Some(offset) => utc.with_timezone(&offset),
        None => utc.fixed_offset(),
    }
}
