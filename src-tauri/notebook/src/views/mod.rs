//! Reading the views.

pub mod conflicts;
pub mod harvest;
pub mod heat_sets;
pub mod hybrids;
pub mod known_places;
pub mod merged;
pub mod merges;
pub(crate) mod moved;
pub mod names;
pub mod outlines;
pub mod photos;
pub mod plantings;
pub mod search;
pub mod walks;
pub mod weather;
