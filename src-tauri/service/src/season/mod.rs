//! The season of plantings and hybrids: dates and windows, paces, heat sets, and what
//! is to be walked next.

pub(crate) mod ask;
pub(crate) mod due;
pub(crate) mod grain;
pub(crate) mod heat_sets;
pub(crate) mod hybrids;
pub(crate) mod outlook;
pub(crate) mod pages;
