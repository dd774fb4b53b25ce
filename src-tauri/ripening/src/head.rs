//! One head as the scout reads it: what the squeeze shows, and how far down.

use serde::{Deserialize, Serialize};
use thiserror::Error;

/// What the squeeze (or the look) shows at the most advanced place of a head:
/// its top, since a head ripens from the top down.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum Reading {
    /// Still inside the sheath. Carries no share.
    Boot,
    /// Coming out; share is the part out of the sheath.
    Emerging,
    /// Anthers showing; share is the part that has bloomed.
    Bloom,
    /// Kernels give liquid.
    Liquid,
    /// Kernels squeeze flat, little or no liquid.
    Pliable,
    /// Kernels dent under the nail, do not squeeze flat.
    Dented,
    /// Dark spot at the kernel's base.
    DarkSpot,
}

impl Reading {
    /// All readings in the order of growth.
    pub const ALL: [Reading; 7] = [
        Reading::Boot,
        Reading::Emerging,
        Reading::Bloom,
        Reading::Liquid,
        Reading::Pliable,
        Reading::Dented,
        Reading::DarkSpot,
    ];

    /// The word of the head file (contract of the file format).
    pub fn word(self) -> &'static str {
        match self {
            Reading::Boot => "boot",
            Reading::Emerging => "emerging",
            Reading::Bloom => "bloom",
            Reading::Liquid => "liquid",
            Reading::Pliable => "pliable",
            Reading::Dented => "dented",
            Reading::DarkSpot => "dark_spot",
        }
    }

    /// Reads the word of the head file.
    ///
    /// # Errors
    /// [`HeadError::UnknownReading`] for anything else.
    pub fn from_word(word: &str) -> Result<Reading, HeadError> {
        Reading::ALL
            .into_iter()
            .find(|reading| reading.word() == word)
            .ok_or_else(|| HeadError::UnknownReading(word.to_owned()))
    }
}

/// How far down the head the reading goes: whole percent of its length, from
/// the top, 1 to 100.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
#[serde(try_from = "u8", into = "u8")]
pub struct Share(#[cfg_attr(feature = "ts", ts(type = "number"))] u8);

impl Share {
    /// # Errors
    /// [`HeadError::ShareOutOfRange`] unless `percent` is 1 to 100.
    pub fn new(percent: u8) -> Result<Share, HeadError> {
        if (1..=100).contains(&percent) {
            Ok(Share(percent))
        } else {
            Err(HeadError::ShareOutOfRange(i64::from(percent)))
        }
    }

    /// Whole percent, 1 to 100.
    pub fn percent(self) -> u8 {
        self.0
    }
}

impl TryFrom<u8> for Share {
    type Error = HeadError;
    fn try_from(percent: u8) -> Result<Share, HeadError> {
        Share::new(percent)
    }
}

impl From<Share> for u8 {
    fn from(share: Share) -> u8 {
        share.0
    }
}

/// A validated head: boot has no share, every other reading has one.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
#[serde(try_from = "UncheckedHead")]
pub struct Head {
    reading: Reading,
    share: Option<Share>,
}

impl Head {
    /// # Errors
    /// [`HeadError::ShareMissing`] or [`HeadError::ShareOnBoot`].
    pub fn new(reading: Reading, share: Option<Share>) -> Result<Head, HeadError> {
        match (reading, share) {
            (Reading::Boot, Some(_)) => Err(HeadError::ShareOnBoot),
            (Reading::Boot, None) => Ok(Head { reading, share }),
            (_, None) => Err(HeadError::ShareMissing(reading)),
            (_, Some(_)) => Ok(Head { reading, share }),
        }
    }

    /// What the top of the head shows.
    pub fn reading(self) -> Reading {
        self.reading
    }

    /// How far down; `None` for boot only.
    pub fn share(self) -> Option<Share> {
        self.share
    }
}

#[derive(Deserialize)]
struct UncheckedHead {
    reading: Reading,
    share: Option<Share>,
}

impl TryFrom<UncheckedHead> for Head {
    type Error = HeadError;
    fn try_from(head: UncheckedHead) -> Result<Head, HeadError> {
        Head::new(head.reading, head.share)
    }
}

/// Something worth marking on a head beside its reading.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum Flag {
    /// Mould on the grain.
    Moldy,
    /// Head not fully out of the sheath.
    Sheathed,
    /// Birds have fed on it.
    BirdFed,
    /// Florets that set no grain.
    SterileFlorets,
    /// Plant lodged.
    LodgedPlant,
}

/// Why a head was refused.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum HeadError {
    /// A word that is no reading.
    #[error(
        "unknown reading '{0}': use boot, emerging, bloom, liquid, pliable, dented or dark_spot"
    )]
    UnknownReading(String),
    /// Not within 1 to 100.
    #[error("share {0} is out of range: use a whole percent from 1 to 100")]
    ShareOutOfRange(i64),
    /// A reading other than boot needs a share.
    #[error("{} needs a share: a whole percent from 1 to 100", .0.word())]
    ShareMissing(Reading),
    /// A head in the boot has none.
    #[error("boot takes no share: leave it empty")]
    ShareOnBoot,
}
