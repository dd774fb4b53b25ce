//! Invitation codes and tokens.
//!
//! Both are drawn from the system's generator and have far more than 100 bits,
//! so a plain SHA-256 of them is kept, not a slow password hash: there is no
//! list of likely values to try.

use data_encoding::{Encoding, HEXLOWER, Specification};
use sha2::{Digest, Sha256};
use std::sync::LazyLock;
use subtle::ConstantTimeEq;
use thiserror::Error;
use uuid::Uuid;

/// Characters of a code: 20 of 5 bits each are 100 bits.
pub const CODE_CHARS: usize = 20;
const CODE_BYTES: usize = 13;

/// Digits and letters without those that look like others (I, L, O, U).
static ALPHABET: LazyLock<Option<Encoding>> = LazyLock::new(|| {
    let mut spec = Specification::new();
    spec.symbols.push_str("0123456789ABCDEFGHJKMNPQRSTVWXYZ");
    spec.check_trailing_bits = false;
    spec.encoding().ok()
});

/// The system gave no randomness.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Error)]
#[error("the system's random generator does not answer")]
pub struct NoRandomness;

/// Bytes from the system's generator.
///
/// # Errors
/// When it does not answer.
pub fn random<const N: usize>() -> Result<[u8; N], NoRandomness> {
    let mut bytes = [0; N];
    getrandom::fill(&mut bytes).map_err(|_| NoRandomness)?;
    Ok(bytes)
}

/// A new id (UUIDv7) for the instant `now_ms`, milliseconds since 1970; a clock before
/// that counts as 1970.
///
/// # Errors
/// When there is no randomness.
pub fn new_id(now_ms: i64) -> Result<Uuid, NoRandomness> {
    let random: [u8; 10] = random()?;
    let ms = u64::try_from(now_ms).unwrap_or(0);
    Ok(uuid::Builder::from_unix_timestamp_millis(ms, &random).into_uuid())
}

/// A new code.
///
/// # Errors
/// When there is no randomness.
pub fn new_code() -> Result<String, NoRandomness> {
    let bytes: [u8; CODE_BYTES] = random()?;
    let alphabet = ALPHABET.as_ref().ok_or(NoRandomness)?;
    let mut code = alphabet.encode(&bytes);
    code.truncate(CODE_CHARS);
    Ok(code)
}

/// A code as people read it: `ABCDE-FGHJK-MNPQR-STVWX`.
#[must_use]
pub fn spell(code: &str) -> String {
    let mut spelled = String::with_capacity(code.len() + 3);
    for (place, letter) in code.chars().enumerate() {
        if place > 0 && place % 5 == 0 {
            spelled.push('-');
        }
        spelled.push(letter);
    }
    spelled
}

/// A code as typed by people: any case, dashes and spaces, and the letters that
/// are easily mistaken. Absent when it cannot be one.
#[must_use]
pub fn read_code(typed: &str) -> Option<String> {
    let mut code = String::with_capacity(CODE_CHARS);
    for letter in typed.chars() {
        if letter == '-' || letter.is_whitespace() {
            continue;
        }
        let letter = match letter.to_ascii_uppercase() {
            'O' => '0',
            'I' | 'L' => '1',
            other => other,
        };
        if code.len() == CODE_CHARS || !"0123456789ABCDEFGHJKMNPQRSTVWXYZ".contains(letter) {
            return None;
        }
        code.push(letter);
    }
    (code.len() == CODE_CHARS).then_some(code)
}

/// What a store keeps of a code or secret.
#[must_use]
pub fn hash(secret: &[u8]) -> [u8; 32] {
    Sha256::digest(secret).into()
}

/// Whether two hashes are equal, in a time that does not tell where they differ.
#[must_use]
pub fn same(one: &[u8], other: &[u8]) -> bool {
    one.ct_eq(other).into()
}

/// What a phone shows to the hub: which membership, and its secret.
#[derive(Clone, PartialEq, Eq)]
pub struct Token {
    /// The membership.
    pub device: Uuid,
    /// The secret.
    pub secret: [u8; 32],
}

impl std::fmt::Debug for Token {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "Token({}, secret)", self.device)
    }
}

impl Token {
    /// As it travels and is kept.
    #[must_use]
    pub fn to_text(&self) -> String {
        format!("{}.{}", self.device.simple(), HEXLOWER.encode(&self.secret))
    }

    /// From text; absent when it is none.
    #[must_use]
    pub fn from_text(text: &str) -> Option<Self> {
        let (device, secret) = text.split_once('.')?;
        if device.len() != 32 || secret.len() != 64 {
            return None;
        }
        Some(Self {
            device: Uuid::try_parse(device).ok()?,
            secret: HEXLOWER.decode(secret.as_bytes()).ok()?.try_into().ok()?,
        })
    }
}
