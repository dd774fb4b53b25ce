//! The envelope of every message: version, packing, lengths, check sum, payload.
//!
//! ```text
//! 0   2  "HW"
//! 2   1  version of the payload
//! 3   1  packing: 0 plain, 1 zstd
//! 4   4  length of the payload when unpacked, little endian
//! 8   4  length of the payload as sent, little endian
//! 12  8  first bytes of SHA-256 over bytes 0-11 and the payload as sent
//! 20  .. payload
//! ```
//!
//! The check sum finds cuts and flipped bits in files handed from phone to phone;
//! it is no protection against forgery, which is TLS's and the token's work.

use crate::{NEWEST_VERSION, OLDEST_VERSION};
use serde::Serialize;
use serde::de::DeserializeOwned;
use sha2::{Digest, Sha256};
use thiserror::Error;

/// Bytes before the payload.
pub const HEADER: usize = 20;
/// Most bytes of a payload, as sent and unpacked.
pub const MOST_PAYLOAD: usize = 1024 * 1024 + 64 * 1024;

const MAGIC: [u8; 2] = *b"HW";
const PLAIN: u8 = 0;
const ZSTD: u8 = 1;
/// Below this packing wins nothing.
const WORTH_PACKING: usize = 200;
/// zstd's level. A head takes 45 bytes at level 3 and 43 at level 6, which is more work
/// for every phone and hub.
const LEVEL: i32 = 3;

/// Why bytes are no frame.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Error)]
pub enum FrameFault {
    /// The bytes end inside the frame.
    #[error("the message ends early")]
    Cut,
    /// Not ours.
    #[error("this is not a Headwalk message")]
    Foreign,
    /// Another version.
    #[error("the message is of version {0}, which this app does not know")]
    Version(u8),
    /// Longer than allowed.
    #[error("the message is larger than {MOST_PAYLOAD} bytes")]
    TooLarge,
    /// Damaged, or not what its type says.
    #[error("the message is damaged")]
    Damaged,
}

/// A message in its frame, of the newest version.
///
/// # Errors
/// [`FrameFault::TooLarge`] when the message is larger than [`MOST_PAYLOAD`].
pub fn encode<T: Serialize>(message: &T) -> Result<Vec<u8>, FrameFault> {
    encode_as(NEWEST_VERSION, message)
}

/// A message in a frame of the given version.
///
/// # Errors
/// As [`encode`].
pub fn encode_as<T: Serialize>(version: u8, message: &T) -> Result<Vec<u8>, FrameFault> {
    let plain = postcard::to_stdvec(message).map_err(|_| FrameFault::Damaged)?;
    if plain.len() > MOST_PAYLOAD {
        return Err(FrameFault::TooLarge);
    }
    let packed = if plain.len() < WORTH_PACKING {
        None
    } else {
        zstd::bulk::compress(&plain, LEVEL)
            .ok()
            .filter(|packed| packed.len() < plain.len())
    };
    let (packing, payload) = match &packed {
        Some(packed) => (ZSTD, packed),
        None => (PLAIN, &plain),
    };
    let mut frame = Vec::with_capacity(HEADER + payload.len());
    frame.extend_from_slice(&MAGIC);
    frame.push(version);
    frame.push(packing);
    frame.extend_from_slice(&length(plain.len())?);
    frame.extend_from_slice(&length(payload.len())?);
    let sum = check_sum(&frame, payload);
    frame.extend_from_slice(&sum);
    frame.extend_from_slice(payload);
    Ok(frame)
}

/// The message of a frame that fills `bytes` exactly.
///
/// # Errors
/// When it is not one, or not of a known version.
pub fn decode<T: DeserializeOwned>(bytes: &[u8]) -> Result<T, FrameFault> {
    let (message, rest) = decode_first(bytes)?;
    if rest.is_empty() {
        Ok(message)
    } else {
        Err(FrameFault::Damaged)
    }
}

/// The message of the first frame in `bytes`, and the bytes after it.
///
/// # Errors
/// As [`decode`].
pub fn decode_first<T: DeserializeOwned>(bytes: &[u8]) -> Result<(T, &[u8]), FrameFault> {
    let magic = bytes.get(..2).ok_or(FrameFault::Cut)?;
    if magic != MAGIC {
        return Err(FrameFault::Foreign);
    }
    let header = bytes.get(..HEADER).ok_or(FrameFault::Cut)?;
    let (version, packing) = (header[2], header[3]);
    if !(OLDEST_VERSION..=NEWEST_VERSION).contains(&version) {
        return Err(FrameFault::Version(version));
    }
    let unpacked = number(&header[4..8]);
    let sent = number(&header[8..12]);
    if unpacked > MOST_PAYLOAD || sent > MOST_PAYLOAD {
        return Err(FrameFault::TooLarge);
    }
    let payload = bytes.get(HEADER..HEADER + sent).ok_or(FrameFault::Cut)?;
    if check_sum(&header[..12], payload) != header[12..HEADER] {
        return Err(FrameFault::Damaged);
    }
    let message = match packing {
        PLAIN if unpacked == sent => read(payload)?,
        ZSTD => {
            let plain =
                zstd::bulk::decompress(payload, unpacked).map_err(|_| FrameFault::Damaged)?;
            if plain.len() != unpacked {
                return Err(FrameFault::Damaged);
            }
            read(&plain)?
        }
        _ => return Err(FrameFault::Damaged),
    };
    Ok((message, &bytes[HEADER + sent..]))
}

fn read<T: DeserializeOwned>(plain: &[u8]) -> Result<T, FrameFault> {
    match postcard::take_from_bytes(plain) {
        Ok((message, [])) => Ok(message),
        _ => Err(FrameFault::Damaged),
    }
}

fn length(bytes: usize) -> Result<[u8; 4], FrameFault> {
    u32::try_from(bytes)
        .map(u32::to_le_bytes)
        .map_err(|_| FrameFault::TooLarge)
}

fn number(bytes: &[u8]) -> usize {
    bytes
        .iter()
        .rev()
        .fold(0, |sum, byte| sum << 8 | usize::from(*byte))
}

fn check_sum(header: &[u8], payload: &[u8]) -> [u8; 8] {
    let digest = Sha256::new_with_prefix(header)
        .chain_update(payload)
        .finalize();
    let mut sum = [0; 8];
    sum.copy_from_slice(&digest[..8]);
    sum
}
