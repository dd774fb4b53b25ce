//! A photo's name: the SHA-256 of its file.

use std::fmt;
use std::str::FromStr;

#[cfg(feature = "sql")]
use rusqlite::types::{FromSql, FromSqlError, FromSqlResult, ToSql, ToSqlOutput, ValueRef};
use serde::{Deserialize, Deserializer, Serialize, Serializer, de};
use sha2::{Digest as _, Sha256};
use thiserror::Error;

/// SHA-256 of a photo's file; in text 64 hexadecimal digits.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS), ts(type = "string"))]
pub struct PhotoName(pub [u8; 32]);

/// Not 64 hexadecimal digits.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Error)]
#[error("a photo's name has 64 hexadecimal digits")]
pub struct PhotoNameError;

impl PhotoName {
    /// Of a file.
    pub fn of(bytes: &[u8]) -> PhotoName {
        PhotoName(Sha256::digest(bytes).into())
    }
}

impl fmt::Display for PhotoName {
    fn fmt(&self, formatter: &mut fmt::Formatter) -> fmt::Result {
        self.0
            .iter()
            .try_for_each(|byte| write!(formatter, "{byte:02x}"))
    }
}

impl FromStr for PhotoName {
    type Err = PhotoNameError;

    fn from_str(text: &str) -> Result<PhotoName, PhotoNameError> {
        let digits = text.as_bytes();
        if digits.len() != 64 {
            return Err(PhotoNameError);
        }
        let mut name = [0; 32];
        for (byte, pair) in name.iter_mut().zip(digits.chunks(2)) {
            let digit = |at: usize| {
                let letter = char::from(*pair.get(at).unwrap_or(&b' '));
                // Capitals are refused, so that a name is written in one way.
                letter
                    .to_digit(16)
                    .filter(|_| !letter.is_ascii_uppercase())
                    .and_then(|digit| u8::try_from(digit).ok())
            };
            let (high, low) = digit(0).zip(digit(1)).ok_or(PhotoNameError)?;
            *byte = high << 4 | low;
        }
        Ok(PhotoName(name))
    }
}

impl Serialize for PhotoName {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(self)
    }
}

impl<'de> Deserialize<'de> for PhotoName {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<PhotoName, D::Error> {
        let text = String::deserialize(deserializer)?;
        text.parse().map_err(de::Error::custom)
    }
}

#[cfg(feature = "sql")]
impl ToSql for PhotoName {
    fn to_sql(&self) -> rusqlite::Result<ToSqlOutput<'_>> {
        Ok(ToSqlOutput::Borrowed(ValueRef::Blob(&self.0)))
    }
}

#[cfg(feature = "sql")]
impl FromSql for PhotoName {
    fn column_result(value: ValueRef) -> FromSqlResult<PhotoName> {
        let bytes = value.as_blob()?;
        bytes
            .try_into()
            .map(PhotoName)
            .map_err(|_| FromSqlError::InvalidType)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// FIPS 180-4, the example of one block.
    #[test]
    fn a_name_is_the_published_digest_and_is_read_back() {
        let name = PhotoName::of(b"abc");
        let text = name.to_string();
        assert_eq!(
            text,
            "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"
        );
        assert_eq!(text.parse(), Ok(name));
        for bad in [
            "",
            "ba",
            &text[1..],
            &text.to_uppercase(),
            &text.replace('b', "g"),
        ] {
            assert_eq!(bad.parse::<PhotoName>(), Err(PhotoNameError), "{bad}");
        }
    }
}
