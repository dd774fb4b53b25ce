//! A change as bytes: what an exchange sends, and what names a branch.

use serde::{Deserialize, Serialize};
use uuid::Uuid;

use super::{Change, Hlc};
use crate::error::StoreError;

/// Everything but the writer and the number, which stand beside the bytes.
#[derive(Serialize, Deserialize)]
struct Travelling<'a> {
    hlc: i64,
    recorded_ms: i64,
    offset_min: i32,
    kind: &'a str,
    body: &'a str,
}

/// The bytes of a change.
///
/// # Errors
/// When they cannot be written, which is no property of any change.
pub fn pack(change: &Change) -> Result<Vec<u8>, StoreError> {
    if let Some(raw) = &change.raw {
        return Ok(raw.clone());
    }
    let travelling = Travelling {
        hlc: change.hlc.number(),
        recorded_ms: change.recorded_ms,
        offset_min: change.offset_min,
        kind: &change.kind,
        body: &change.body,
    };
    postcard::to_stdvec(&travelling).map_err(|_| StoreError::Unwritable("it cannot be packed"))
}

/// A change from its bytes; absent when they are none, or not those that [`pack`]
/// would make of it: it must travel on as it came.
pub fn unpack(device: Uuid, seq: u64, bytes: &[u8]) -> Option<Change> {
    let (travelling, rest) = postcard::take_from_bytes::<Travelling>(bytes).ok()?;
    let change = Change {
        device,
        seq,
        hlc: Hlc::new(travelling.hlc)?,
        recorded_ms: travelling.recorded_ms,
        offset_min: travelling.offset_min,
        kind: travelling.kind.to_owned(),
        body: travelling.body.to_owned(),
        raw: None,
    };
    let comes_back = rest.is_empty()
        && change.fault().is_none()
        && pack(&change).is_ok_and(|packed| packed == bytes);
    comes_back.then_some(change)
}

/// A change as it was received: bytes that cannot be read are kept as they came, so
/// that the series goes on.
pub fn received(device: Uuid, seq: u64, bytes: &[u8]) -> Change {
    unpack(device, seq, bytes).unwrap_or_else(|| Change::unreadable(device, seq, bytes))
}
