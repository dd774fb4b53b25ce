//! Keys and seals: how everybody knows that a series was written by the device
//! whose series it is. Phones, hub, files and archives share this one rule.
//!
//! # Chain
//!
//! Each number of a series has a **link**: link 0 is zeros, link n is
//! SHA-256(link n-1, SHA-256(the bytes of change n as they travel)). Whoever
//! passes changes on need not understand them.
//!
//! # Seal
//!
//! A **seal** is an Ed25519 signature over `headwalk seal 1`, the id of the
//! series, a number and the link at that number. It covers every change up to
//! there, so one a page is enough. A device seals what it gives away; the part
//! of a series that was never given away carries no seal.
//!
//! # Branches
//!
//! A device that was set back to a backup writes numbers twice. Its second
//! branch moves to a series of its own ([`crate::branch_id`]) and keeps its
//! seals: an [`Origin`] says where the branch parted, and the seals of the branch
//! are seals of that series. So every notebook that holds the branch can pass it
//! on, and nobody but the device can add to it.

use ed25519_dalek::{Signer as _, SigningKey, VerifyingKey};
use serde::{Deserialize, Serialize};
use sha2::{Digest as _, Sha256};
use std::fmt;
use uuid::Uuid;

/// What a signature is made over begins with this.
const PURPOSE: &[u8] = b"headwalk seal 1";

/// The public key of a device, Ed25519.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub struct PublicKey(pub [u8; 32]);

impl fmt::Debug for PublicKey {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let [one, two, three, four, ..] = self.0;
        write!(f, "PublicKey({one:02x}{two:02x}{three:02x}{four:02x}..)")
    }
}

/// A signature, Ed25519, in its two halves.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct Signature {
    /// The first half, R.
    pub r: [u8; 32],
    /// The second half, s.
    pub s: [u8; 32],
}

impl Signature {
    /// The signature as one piece.
    #[must_use]
    pub fn to_bytes(self) -> [u8; 64] {
        let mut bytes = [0; 64];
        bytes[..32].copy_from_slice(&self.r);
        bytes[32..].copy_from_slice(&self.s);
        bytes
    }

    /// The signature from one piece.
    #[must_use]
    pub fn from_bytes(bytes: [u8; 64]) -> Self {
        let (mut r, mut s) = ([0; 32], [0; 32]);
        r.copy_from_slice(&bytes[..32]);
        s.copy_from_slice(&bytes[32..]);
        Self { r, s }
    }
}

/// The digest of a series up to one of its numbers.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct Link(pub [u8; 32]);

impl Link {
    /// The link before change 1.
    pub const START: Self = Self([0; 32]);

    /// The link after one more change, given its bytes as they travel.
    #[must_use]
    pub fn after(self, body: &[u8]) -> Self {
        let digest = Sha256::digest(body);
        let link = Sha256::new_with_prefix(self.0).chain_update(digest);
        Self(link.finalize().into())
    }

    /// The link after more changes.
    #[must_use]
    pub fn after_all<B: AsRef<[u8]>>(self, bodies: &[B]) -> Self {
        bodies
            .iter()
            .fold(self, |link, body| link.after(body.as_ref()))
    }
}

/// The place in another series at which a moved branch parted from it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct Origin {
    /// The series whose seals the branch carries.
    pub series: Uuid,
    /// Its number before the first change of the branch.
    pub seq: u64,
    /// Its link there.
    pub link: Link,
}

/// The key that seals a series, and where the series begins.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct Writer {
    /// The public key of the device that writes the series.
    pub key: PublicKey,
    /// Where the series parted from another, if it is a moved branch.
    pub origin: Option<Origin>,
}

impl Writer {
    /// A writer whose series is no moved branch.
    #[must_use]
    pub fn plain(key: PublicKey) -> Self {
        Self { key, origin: None }
    }

    /// The link before change 1 of the series.
    #[must_use]
    pub fn start(&self) -> Link {
        self.origin.map_or(Link::START, |origin| origin.link)
    }

    /// The series and the number that the seals of a change name: its own, or
    /// those it had before its branch moved.
    #[must_use]
    pub fn sealed_as(&self, series: Uuid, seq: u64) -> (Uuid, u64) {
        match self.origin {
            Some(origin) => (origin.series, origin.seq.saturating_add(seq)),
            None => (series, seq),
        }
    }

    /// Whether a signature seals this writer's series up to a number.
    #[must_use]
    pub fn sealed(&self, series: Uuid, seq: u64, link: Link, signature: &Signature) -> bool {
        let (series, seq) = self.sealed_as(series, seq);
        let signature = ed25519_dalek::Signature::from_components(signature.r, signature.s);
        // Strict: keys and signatures that fit more than one message are none.
        VerifyingKey::from_bytes(&self.key.0).is_ok_and(|key| {
            key.verify_strict(&message(series, seq, link), &signature)
                .is_ok()
        })
    }
}

/// The secret key of a device. It lies beside the notebook, never in it.
#[derive(Clone)]
pub struct Signer(SigningKey);

impl fmt::Debug for Signer {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "Signer({:?}, secret)", self.key())
    }
}

impl Signer {
    /// The key that follows from 32 random bytes.
    #[must_use]
    pub fn from_secret(secret: &[u8; 32]) -> Self {
        Self(SigningKey::from_bytes(secret))
    }

    /// Its public half.
    #[must_use]
    pub fn key(&self) -> PublicKey {
        PublicKey(self.0.verifying_key().to_bytes())
    }

    /// Seals a series of `writer`, whose key this is, up to a number.
    #[must_use]
    pub fn seal(&self, writer: &Writer, series: Uuid, seq: u64, link: Link) -> Signature {
        let (series, seq) = writer.sealed_as(series, seq);
        let signature = self.0.sign(&message(series, seq, link));
        Signature::from_bytes(signature.to_bytes())
    }
}

fn message(series: Uuid, seq: u64, link: Link) -> [u8; PURPOSE.len() + 56] {
    let mut message = [0; PURPOSE.len() + 56];
    let (purpose, rest) = message.split_at_mut(PURPOSE.len());
    purpose.copy_from_slice(PURPOSE);
    rest[..16].copy_from_slice(series.as_bytes());
    rest[16..24].copy_from_slice(&seq.to_be_bytes());
    rest[24..].copy_from_slice(&link.0);
    message
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_seal_fits_its_series_its_number_its_content_and_its_key_alone() {
        let (signer, other) = (Signer::from_secret(&[1; 32]), Signer::from_secret(&[2; 32]));
        let (series, writer) = (Uuid::from_u128(1), Writer::plain(signer.key()));
        let link = Link::START.after_all(&[b"one".as_slice(), b"two"]);
        let signature = signer.seal(&writer, series, 2, link);
        assert!(writer.sealed(series, 2, link, &signature));
        assert!(!writer.sealed(Uuid::from_u128(2), 2, link, &signature));
        assert!(!writer.sealed(series, 3, link, &signature));
        assert!(!writer.sealed(series, 2, link.after(b"three"), &signature));
        assert!(!Writer::plain(other.key()).sealed(series, 2, link, &signature));
        let mut spoiled = signature;
        spoiled.r[5] ^= 1;
        assert!(!writer.sealed(series, 2, link, &spoiled));
    }

    #[test]
    fn a_branch_carries_the_seals_of_the_series_it_parted_from() {
        let signer = Signer::from_secret(&[1; 32]);
        let (series, branch) = (Uuid::from_u128(1), Uuid::from_u128(2));
        let writer = Writer::plain(signer.key());
        let parted = Link::START.after(b"one");
        let link = parted.after_all(&[b"two".as_slice(), b"three"]);
        let signature = signer.seal(&writer, series, 3, link);
        let origin = Origin {
            series,
            seq: 1,
            link: parted,
        };
        let moved = Writer {
            origin: Some(origin),
            ..writer
        };
        let of_branch = moved.start().after_all(&[b"two".as_slice(), b"three"]);
        assert!(moved.sealed(branch, 2, of_branch, &signature));
        assert!(!moved.sealed(branch, 1, of_branch, &signature));
    }

    #[test]
    fn a_key_of_small_order_seals_nothing() {
        // The neutral element as a key, with which a signature of zeros would fit
        // any message where the check is not strict.
        let mut neutral = [0; 32];
        neutral[0] = 1;
        let signature = Signature {
            r: neutral,
            s: [0; 32],
        };
        let writer = Writer::plain(PublicKey(neutral));
        assert!(!writer.sealed(Uuid::from_u128(1), 1, Link::START, &signature));
    }
}
