//! Fields of the rows that are edited field by field.

use crate::names::names;

names! {
    /// A field of a row.
    Field {
        /// What people call it.
        Name = "name",
        /// Its farm.
        Farm = "farm",
        /// Its field.
        Field = "field",
        /// Its hybrid.
        Hybrid = "hybrid",
        /// Day of planting.
        PlantedOn = "planted_on",
        /// Day of half bloom.
        HalfBloomOn = "half_bloom_on",
        /// What it is grown for.
        Purpose = "purpose",
        /// How large it is.
        Area = "area",
        /// The weather station that counts for it.
        Station = "station",
        /// Its outline.
        Outline = "outline",
        /// The heat set that counts for it.
        HeatSet = "heat_set",
        /// The planting into which it was merged.
        MergedInto = "merged_into",
        /// Maturity class of a hybrid.
        Maturity = "maturity",
        /// The scale of a heat set.
        Scale = "scale",
        /// The planting of a walk.
        Planting = "planting",
        /// Day of a walk.
        WalkedOn = "walked_on",
        /// Who walked.
        Scout = "scout",
        /// Whether a walk is over.
        Finished = "finished",
        /// Place of a stop in its walk.
        Number = "number",
        /// Where a stop was.
        Place = "place",
        /// What is said of a photo.
        Caption = "caption",
        /// Whether it is hidden.
        Removed = "removed",
    }
}
