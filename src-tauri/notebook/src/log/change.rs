//! One change, its stamp and its digest.

use chrono::{DateTime, FixedOffset, Utc};
use serde::{Deserialize, Serialize};
use sha2::{Digest as _, Sha256};
use uuid::Uuid;

use super::Hlc;

/// Longest kind of a change, bytes.
pub const MAX_KIND: usize = 64;
/// Longest body of a change, bytes.
pub const MAX_BODY: usize = 1 << 20;

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
    /// The act, in one word ([`crate::fact::act`]).
    pub kind: String,
    /// The facts as JSON ([`crate::fact::Body`]), byte for byte as written.
    pub body: String,
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

/// An instant from its stored parts. Parts out of range give the nearest that
/// can be shown, in UTC.
pub(crate) fn instant(ms: i64, offset_min: i32) -> DateTime<FixedOffset> {
    let utc = DateTime::<Utc>::from_timestamp_millis(ms).unwrap_or(if ms < 0 {
        DateTime::<Utc>::MIN_UTC
    } else {
        DateTime::<Utc>::MAX_UTC
    });
    let offset = FixedOffset::east_opt(offset_min.saturating_mul(60));
    match offset {
        // At the very ends a local time cannot be written.
        Some(offset) if utc != DateTime::<Utc>::MIN_UTC && utc != DateTime::<Utc>::MAX_UTC => {
            utc.with_timezone(&offset)
        }
        _ => utc.fixed_offset(),
    }
}
