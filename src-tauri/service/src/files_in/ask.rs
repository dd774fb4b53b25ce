//! What may be asked about files to read in.

use crate::asking::asks;
use crate::{HeadFileReview, Keep, PlaceOrder, PlantingFileReview};

asks! {
    /// Reads a head file without storing anything.
    Study ReviewHeadFile {
        /// The file's text.
        text: String,
    } -> HeadFileReview = |service| service.head_file(&text, Keep::Nothing);

    /// Changes: stores the good rows of a head file, all or nothing.
    Study ImportHeadFile {
        /// The file's text.
        text: String,
    } -> HeadFileReview = |service| service.head_file(&text, Keep::GoodRows);

    /// Reads a head file with an answer to what the review asks about its places.
    Study ReviewHeadFilePlaced {
        /// The file's text.
        text: String,
        /// How its latitude and longitude are taken.
        places: PlaceOrder,
    } -> HeadFileReview = |service| {
        service.head_file_placed(&text, Keep::Nothing, places)
    };

    /// Changes: stores the good rows of a head file with such an answer, all or nothing.
    Study ImportHeadFilePlaced {
        /// The file's text.
        text: String,
        /// How its latitude and longitude are taken.
        places: PlaceOrder,
    } -> HeadFileReview = |service| {
        service.head_file_placed(&text, Keep::GoodRows, places)
    };

    /// Reads a planting file without storing anything.
    Study ReviewPlantingFile {
        /// The file's text.
        text: String,
    } -> PlantingFileReview = |service| service.planting_file(&text, Keep::Nothing);

    /// Changes: makes the plantings of a planting file, and sets what it says
    /// of those that are there, all or nothing.
    Study ImportPlantingFile {
        /// The file's text.
        text: String,
    } -> PlantingFileReview = |service| service.planting_file(&text, Keep::GoodRows);
}
