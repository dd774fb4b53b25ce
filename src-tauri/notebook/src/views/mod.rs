//! Reading the views.

pub(crate) mod conflicts;
pub(crate) mod harvest;
pub(crate) mod heat_sets;
pub(crate) mod hybrids;
pub(crate) mod known_places;
pub(crate) mod merges;
pub(crate) mod moved;
pub(crate) mod names;
pub(crate) mod outlines;
pub(crate) mod photos;
pub(crate) mod plantings;
pub(crate) mod search;
pub(crate) mod walks;
pub(crate) mod weather;
