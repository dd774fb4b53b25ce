//! The marks of a heat table: how many units from planting to each stage.

use serde::{Deserialize, Serialize};

/// A stage that heat tables name, in the order of growth.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum Mark {
    /// Plants through the soil.
    Emergence,
    /// Three leaves fully out.
    ThreeLeaf,
    /// Five leaves fully out.
    FiveLeaf,
    /// Growing point turns from leaves to head.
    GrowingPoint,
    /// Flag leaf in sight.
    FlagLeaf,
    /// Head in the sheath of the flag leaf.
    Boot,
    /// Half of the plants at some stage of bloom.
    HalfBloom,
    /// Kernel squeezes flat.
    SoftDough,
    /// Kernel dents under the nail.
    HardDough,
    /// Physiological maturity.
    BlackLayer,
}

/// Units from planting to one mark.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct MarkAt {
    /// Which mark.
    pub mark: Mark,
    /// Heat units from planting, in the unit of the scale the table belongs to.
    pub units: f64,
}

/// The marks of one maturity class.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct MarkTable {
    /// The maturity class as the source names it.
    pub maturity: String,
    /// Marks in the order of growth, units rising. Half bloom and black layer
    /// are always there.
    pub marks: Vec<MarkAt>,
}

impl MarkTable {
    /// Units from planting to the mark, where the table has it.
    pub fn at(&self, mark: Mark) -> Option<f64> {
        self.marks
            .iter()
            .find(|entry| entry.mark == mark)
            .map(|entry| entry.units)
    }

    /// Units from half bloom to the mark (below 0 before bloom).
    pub fn from_half_bloom(&self, mark: Mark) -> Option<f64> {
        Some(self.at(mark)? - self.at(Mark::HalfBloom)?)
    }
}
