//! What may be asked about plantings.

use uuid::Uuid;

use crate::asking::asks;
use crate::{
    Done, DuplicatePairs, NewPlanting, PlantingBriefs, PlantingEdit, PlantingList, PlantingPage,
    PlantingRow, WorkedOut, read_only,
};
use notebook::views;

asks! {
    /// All plantings, the one that most needs a walk first. Answers that are not
    /// kept yet are not waited for: their rows say so ([`WorkOut`]).
    List Plantings -> PlantingList = |service| service.plantings();

    /// Works out a few of the answers that the list still lacks, and keeps them.
    /// Asked again until none is left, it fills the list.
    List WorkOut -> WorkedOut = |service| service.work_out();

    /// One planting with its walks.
    List Planting {
        /// Id of the planting.
        planting: Uuid,
    } -> PlantingPage = |service| service.planting(planting);

    /// Fields of a planting to which people gave different values without having
    /// seen each other's. The latest stands; [`EditPlanting`] with
    /// another settles it, and [`SettleMerge`] what was merged differently.
    List Conflicts {
        /// Id of the planting.
        planting: Uuid,
    } -> crate::Conflicts = |service| {
        let known = crate::live::live_planting(service.notebook.db(), planting)?;
        let fields = views::conflicts::of_planting(service.notebook.db(), known.id)?;
        let merges = views::merges::of_planting(service.notebook.db(), known.id)?;
        Ok(read_only(crate::Conflicts { fields, merges }))
    };

    /// Farms, fields, hybrids and scouts known, for the pickers.
    Tap Names -> crate::Names = |service| {
        let names = views::names::names(service.notebook.db())?;
        Ok(read_only(names))
    };

    /// Changes: makes a planting, and its farm, field and hybrid where new.
    Tap AddPlanting {
        /// All that is said of it.
        #[serde(flatten)]
        new: NewPlanting,
    } -> PlantingRow = |service| service.add_planting(new);

    /// Changes: edits the named fields of a planting, the others stay.
    Tap EditPlanting {
        /// Id of the planting.
        planting: Uuid,
        /// The new values.
        edit: PlantingEdit,
    } -> PlantingRow = |service| service.edit_planting(planting, edit);

    /// Changes: hides a planting and its walks; nothing is erased.
    Tap RemovePlanting {
        /// Id of the planting.
        planting: Uuid,
    } -> Done = |service| service.remove_planting(planting);

    /// Changes: restores a removed planting.
    Tap RestorePlanting {
        /// Id of the planting.
        planting: Uuid,
    } -> PlantingRow = |service| service.restore_planting(planting);

    /// Pairs of plantings that may be one, made by two people.
    List LikelyDuplicates -> DuplicatePairs = |service| service.likely_duplicates();

    /// The plantings that were merged into one.
    List MergedPlantings {
        /// The one that is shown.
        planting: Uuid,
    } -> PlantingBriefs = |service| service.merged_plantings(planting);

    /// Changes: shows a planting as another one, with the walks of both; what is
    /// recorded of either stays, and it can be undone.
    Tap MergePlantings {
        /// The one that is no longer shown by itself.
        duplicate: Uuid,
        /// The one that stays, with its name and dates.
        into: Uuid,
    } -> PlantingRow = |service| service.merge_plantings(duplicate, into);

    /// Changes: makes a merged planting one of its own again, with its walks.
    Tap UnmergePlanting {
        /// Id of the planting that was merged.
        duplicate: Uuid,
    } -> PlantingRow = |service| service.unmerge_planting(duplicate);

    /// Changes: chooses among what people said a planting is.
    Tap SettleMerge {
        /// Id of the planting.
        planting: Uuid,
        /// The one into which it is merged; none: it is one of its own.
        into: Option<Uuid>,
    } -> Done = |service| service.settle_merge(planting, into);
}
