//! Ids of new things.

use chrono::NaiveDate;
use sha2::{Digest, Sha256};
use uuid::{Builder, Uuid};

use crate::error::StoreError;

/// Where random bytes come from: a parameter, like the clock.
pub trait Randomness: Send {
    /// Fills `bytes`.
    ///
    /// # Errors
    /// When the source fails.
    fn fill(&mut self, bytes: &mut [u8]) -> Result<(), StoreError>;
}

/// The operating system's source.
#[derive(Debug, Clone, Copy, Default)]
pub struct SystemRandomness;

impl Randomness for SystemRandomness {
    fn fill(&mut self, bytes: &mut [u8]) -> Result<(), StoreError> {
        getrandom::fill(bytes).map_err(|error| StoreError::Randomness(error.to_string()))
    }
}

/// A new UUIDv7 (RFC 9562): the instant, then randomness.
///
/// # Errors
/// When the source of randomness fails.
pub fn new_id(now_ms: i64, randomness: &mut dyn Randomness) -> Result<Uuid, StoreError> {
    let mut random = [0; 10];
    randomness.fill(&mut random)?;
    let ms = u64::try_from(now_ms).unwrap_or(0);
    Ok(Builder::from_unix_timestamp_millis(ms, &random).into_uuid())
}

/// The id of a thing that comes from a file: a UUIDv8 made of its content, so
/// that the same row is the same thing however often, and on however many
/// phones, it is imported.
///
/// The date stands first, as the instant does in a UUIDv7, so that what
/// belongs together lies together in the store.
pub fn content_id(date: Option<NaiveDate>, parts: &[&str]) -> Uuid {
    let mut hash = Sha256::new();
    for part in parts {
        // With its length before it, no part can run into the next.
        hash.update((part.len() as u64).to_be_bytes());
        hash.update(part.as_bytes());
    }
    let hash: [u8; 32] = hash.finalize().into();
    let ms = date.map_or(0, |date| {
        date.and_time(chrono::NaiveTime::MIN)
            .and_utc()
            .timestamp_millis()
    });
    let mut bytes = [0; 16];
    bytes[..6].copy_from_slice(&u64::try_from(ms).unwrap_or(0).to_be_bytes()[2..]);
    bytes[6..].copy_from_slice(&hash[..10]);
    Builder::from_custom_bytes(bytes).into_uuid()
}

#[cfg(test)]
mod tests {
    use super::*;

    struct Fixed;
    impl Randomness for Fixed {
        fn fill(&mut self, bytes: &mut [u8]) -> Result<(), StoreError> {
            bytes.fill(0xab);
            Ok(())
        }
    }

    #[test]
    fn a_new_id_is_version_7_and_carries_its_instant() {
        let id = new_id(1_790_000_000_000, &mut Fixed).unwrap();
        assert_eq!(id.get_version_num(), 7);
        let (seconds, nanos) = id.get_timestamp().unwrap().to_unix();
        assert_eq!((seconds, nanos), (1_790_000_000, 0));
    }

    #[test]
    fn content_ids_tell_parts_apart() {
        let date = NaiveDate::from_ymd_opt(2026, 8, 1);
        let id = content_id(date, &["a", "bc"]);
        assert_eq!(id.get_version_num(), 8);
        assert_eq!(id, content_id(date, &["a", "bc"]));
        assert_ne!(id, content_id(date, &["ab", "c"]));
        assert_ne!(id, content_id(None, &["a", "bc"]));
        assert!(content_id(NaiveDate::from_ymd_opt(2026, 7, 31), &["z"]) < id);
    }
}
