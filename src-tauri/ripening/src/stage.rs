//! The stages of a sorghum planting from boot on, with the published numbers.

use serde::{Deserialize, Serialize};

/// A growth stage of the reproductive part of the season.
///
/// Order is the order of growth: `Boot < BlackLayer`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum Stage {
    /// Head inside the flag leaf sheath.
    Boot,
    /// Head coming out of the sheath.
    Heading,
    /// Half of the heads at some stage of bloom.
    HalfBloom,
    /// Kernel full of clear to milky liquid.
    Milk,
    /// Kernel can be squeezed flat, with little or no liquid.
    SoftDough,
    /// Kernel dents under the nail but cannot be squeezed flat.
    HardDough,
    /// Dark spot where the kernel was attached: physiological maturity.
    BlackLayer,
}

impl Stage {
    /// All stages, in the order of growth.
    pub const ALL: [Stage; 7] = [
        Stage::Boot,
        Stage::Heading,
        Stage::HalfBloom,
        Stage::Milk,
        Stage::SoftDough,
        Stage::HardDough,
        Stage::BlackLayer,
    ];

    /// Place in [`Stage::ALL`], 0 to 6.
    pub fn index(self) -> usize {
        self as usize
    }

    /// Number on the 0-9 scale of Vanderlip & Reeves 1972 (Agronomy Journal
    /// 64:13-16), where the scale has one: it names neither heading nor milk.
    pub fn published_number(self) -> Option<u8> {
        match self {
            Stage::Boot => Some(5),
            Stage::Heading => None,
            Stage::HalfBloom => Some(6),
            Stage::Milk => None,
            Stage::SoftDough => Some(7),
            Stage::HardDough => Some(8),
            Stage::BlackLayer => Some(9),
        }
    }

    /// Days after emergence in the same table (Vanderlip & Reeves 1972, Table 1).
    pub fn published_days(self) -> Option<u16> {
        match self {
            Stage::Boot => Some(50),
            Stage::Heading => None,
            Stage::HalfBloom => Some(60),
            Stage::Milk => None,
            Stage::SoftDough => Some(70),
            Stage::HardDough => Some(85),
            Stage::BlackLayer => Some(95),
        }
    }

    /// First and last BBCH code that falls in the stage (BBCH monograph, 2001;
    /// codes from 60 on from memory).
    pub fn bbch(self) -> (u8, u8) {
        match self {
            Stage::Boot => (41, 49),
            Stage::Heading => (51, 59),
            Stage::HalfBloom => (61, 69),
            Stage::Milk => (71, 77),
            Stage::SoftDough => (83, 85),
            Stage::HardDough => (87, 87),
            Stage::BlackLayer => (89, 89),
        }
    }
}

/// One value for each stage. Serialises as an object with the stages as keys,
/// in the order of growth.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct PerStage<T> {
    /// Value for [`Stage::Boot`].
    pub boot: T,
    /// Value for [`Stage::Heading`].
    pub heading: T,
    /// Value for [`Stage::HalfBloom`].
    pub half_bloom: T,
    /// Value for [`Stage::Milk`].
    pub milk: T,
    /// Value for [`Stage::SoftDough`].
    pub soft_dough: T,
    /// Value for [`Stage::HardDough`].
    pub hard_dough: T,
    /// Value for [`Stage::BlackLayer`].
    pub black_layer: T,
}

impl<T> PerStage<T> {
    /// Builds the seven values by calling `make` for each stage in order.
    pub fn from_fn(mut make: impl FnMut(Stage) -> T) -> Self {
        PerStage {
            boot: make(Stage::Boot),
            heading: make(Stage::Heading),
            half_bloom: make(Stage::HalfBloom),
            milk: make(Stage::Milk),
            soft_dough: make(Stage::SoftDough),
            hard_dough: make(Stage::HardDough),
            black_layer: make(Stage::BlackLayer),
        }
    }

    /// The value for one stage.
    pub fn get(&self, stage: Stage) -> &T {
        match stage {
            Stage::Boot => &self.boot,
            Stage::Heading => &self.heading,
            Stage::HalfBloom => &self.half_bloom,
            Stage::Milk => &self.milk,
            Stage::SoftDough => &self.soft_dough,
            Stage::HardDough => &self.hard_dough,
            Stage::BlackLayer => &self.black_layer,
        }
    }
}
