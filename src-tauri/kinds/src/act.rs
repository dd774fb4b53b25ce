//! What a person did, as the kind of a change: for the history and for undo.
//! What a change *means* is in its facts.

use crate::names::names;

names! {
    /// What a person did.
    Act {
        /// A planting was made (and its farm, field and hybrid where new).
        PlantingAdded = "planting_added",
        /// Fields of a planting were edited.
        PlantingEdited = "planting_edited",
        /// A planting was hidden.
        PlantingRemoved = "planting_removed",
        /// A planting was restored.
        PlantingRestored = "planting_restored",
        /// A planting was said to be another one too.
        PlantingMerged = "planting_merged",
        /// A merged planting is one of its own again.
        PlantingUnmerged = "planting_unmerged",
        /// A walk was begun, with its first stop.
        WalkStarted = "walk_started",
        /// A walk was marked as finished.
        WalkFinished = "walk_finished",
        /// A finished walk was opened again.
        WalkReopened = "walk_reopened",
        /// A walk was given another date.
        WalkEdited = "walk_edited",
        /// A walk was hidden.
        WalkRemoved = "walk_removed",
        /// A hidden walk was restored.
        WalkRestored = "walk_restored",
        /// The next stop was opened.
        StopAdded = "stop_added",
        /// A stop was given a place.
        StopPlaced = "stop_placed",
        /// Outlines of a file were stored.
        OutlinesImported = "outlines_imported",
        /// An outline was removed.
        OutlineRemoved = "outline_removed",
        /// A photo was taken or chosen.
        PhotoAdded = "photo_added",
        /// A photo's caption was written.
        PhotoCaptioned = "photo_captioned",
        /// A photo was removed.
        PhotoRemoved = "photo_removed",
        /// A photo was restored.
        PhotoRestored = "photo_restored",
        /// A head was read.
        HeadRead = "head_read",
        /// A head was corrected.
        HeadCorrected = "head_corrected",
        /// A head was removed.
        HeadRemoved = "head_removed",
        /// A branch of a copied device's series was moved to a series of its own.
        BranchMoved = "branch_moved",
        /// Something in a walk was undone.
        Undone = "undone",
        /// Days of a weather file were stored.
        WeatherImported = "weather_imported",
        /// A day's weather was typed in.
        WeatherTyped = "weather_typed",
        /// A station was given a place.
        StationPlaced = "station_placed",
        /// A heat set was made or edited.
        HeatSetSaved = "heat_set_saved",
        /// A heat set was hidden.
        HeatSetRemoved = "heat_set_removed",
        /// A heat set was restored.
        HeatSetRestored = "heat_set_restored",
        /// A heat set was chosen for the notebook, a hybrid or a planting.
        HeatSetChosen = "heat_set_chosen",
        /// A hybrid was given a maturity class.
        HybridEdited = "hybrid_edited",
        /// A station was chosen for the plantings of a field.
        FieldEdited = "field_edited",
        /// Rows of a file were stored.
        FileImported = "file_imported",
        /// Ripe grain was looked at.
        Observed = "observed",
        /// An observation was corrected.
        ObservationCorrected = "observation_corrected",
        /// An observation was removed.
        ObservationRemoved = "observation_removed",
        /// Terms of a harvest were set.
        TermsSet = "terms_set",
        /// Something about a harvest was undone.
        HarvestUndone = "harvest_undone",
    }
}
