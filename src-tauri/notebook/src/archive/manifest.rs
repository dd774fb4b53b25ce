//! The archive's list of contents.

use std::collections::BTreeMap;

use chrono::{DateTime, FixedOffset};
use serde::{Deserialize, Serialize};
use uuid::Uuid;

/// What `manifest.json` says.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub(super) struct Manifest {
    pub format: String,
    pub version: u32,
    pub made_at: DateTime<FixedOffset>,
    pub made_by: MadeBy,
    pub series: BTreeMap<Uuid, Series>,
    pub entries: Vec<Entry>,
}

/// Who made it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub(super) struct MadeBy {
    pub device: Uuid,
    pub program: String,
}

/// One device's changes.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub(super) struct Series {
    pub changes: u64,
    pub digest: String,
}

/// One entry.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub(super) struct Entry {
    pub name: String,
    pub size: u64,
    pub sha256: String,
}

/// Bytes as lower-case hexadecimal digits.
pub(super) fn hex(bytes: &[u8]) -> String {
    use std::fmt::Write as _;
    bytes.iter().fold(String::new(), |mut text, byte| {
        let _ = write!(text, "{byte:02x}");
        text
    })
}

/// Bytes from hexadecimal digits; none where it is something else.
pub(super) fn bytes_of_hex(text: &str) -> Option<Vec<u8>> {
    let digit = |digit: u8| char::from(digit).to_digit(16);
    let (pairs, rest) = text.as_bytes().as_chunks::<2>();
    if !rest.is_empty() {
        return None;
    }
    pairs
        .iter()
        .map(|[high, low]| u8::try_from(digit(*high)? << 4 | digit(*low)?).ok())
        .collect()
}
