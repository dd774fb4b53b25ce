//! What a file would bring, and which of its rows are refused.

use serde::{Deserialize, Serialize};

use crate::RefusedRow;

/// What a head file holds, and what of it is stored.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct HeadFileReview {
    /// Good rows.
    pub heads: u32,
    /// Walks (planting and date) among them.
    pub walks: u32,
    /// Stops among them.
    pub stops: u32,
    /// Plantings that the notebook did not have.
    pub new_plantings: Vec<String>,
    /// Good rows that the notebook already holds, not stored again.
    pub already_here: u32,
    /// Rows whose latitude and longitude seem to be swapped: good ones far from every
    /// place of the notebook, and near one the other way round, and in a review also
    /// refused ones that are a place only the other way round. An import stores nothing
    /// while there are any.
    pub swapped_places: u32,
    /// Number of rows refused.
    pub refused: u32,
    /// The first of the refused rows, at most 100.
    pub refused_rows: Vec<RefusedRow>,
}

/// What a planting file held, and what of it was new.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct PlantingFileReview {
    /// Good rows.
    pub plantings: u32,
    /// Plantings that the notebook did not have.
    pub new_plantings: Vec<String>,
    /// Plantings of which the file said something new.
    pub updated: u32,
    /// Number of rows refused.
    pub refused: u32,
    /// The first of the refused rows, at most 100.
    pub refused_rows: Vec<RefusedRow>,
}
