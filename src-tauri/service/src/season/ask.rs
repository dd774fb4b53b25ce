//! What may be asked about the season ahead.

use chrono::NaiveDate;
use ripening::heat::MaturityClass;
use uuid::Uuid;

use crate::asking::asks;
use crate::{
    Done, FortnightPage, HeatSetList, HeatSetRow, HeatSetUser, HybridList, HybridPage, NewHeatSet,
    OutlookPage, checks,
};

asks! {
    /// The heat sets: published ones, and this notebook's own.
    Tap HeatSets -> HeatSetList = |service| service.heat_sets();

    /// Changes: makes a heat set of the notebook's own, or edits one.
    Tap SaveHeatSet {
        /// Id of the set, chosen by the caller where it is new.
        id: Uuid,
        /// All of it.
        set: NewHeatSet,
    } -> HeatSetRow = |service| service.save_heat_set(id, set);

    /// Changes: hides a heat set; what went by it falls back to the next choice.
    Tap RemoveHeatSet {
        /// Id of the heat set.
        id: Uuid,
    } -> Done = |service| service.remove_heat_set(id);

    /// Changes: restores a removed heat set.
    Tap RestoreHeatSet {
        /// Id of the heat set.
        id: Uuid,
    } -> HeatSetRow = |service| service.restore_heat_set(id);

    /// Changes: chooses the heat set of the notebook, a hybrid or a planting; none
    /// leaves it to the wider choice.
    Tap UseHeatSet {
        /// For what.
        by: HeatSetUser,
        /// Key of the set.
        set: Option<String>,
    } -> Done = |service| service.use_heat_set(by, set);

    /// The hybrids.
    Tap Hybrids -> HybridList = |service| service.hybrids();

    /// What is known of one hybrid, and what its plantings have shown.
    Study Hybrid {
        /// Id of the hybrid.
        hybrid: Uuid,
        /// The day it is asked for; today where absent. Nothing later counts.
        as_of: Option<NaiveDate>,
    } -> HybridPage = |service| service.hybrid(hybrid, checks::as_of(as_of)?);

    /// Changes: gives a hybrid a maturity class, or takes it away.
    Tap SetMaturity {
        /// Id of the hybrid.
        hybrid: Uuid,
        /// Its class.
        maturity: Option<MaturityClass>,
    } -> Done = |service| service.set_maturity(hybrid, maturity);

    /// Dates of a planting's stages and grain moistures, with its windows.
    Study Outlook {
        /// Id of the planting.
        planting: Uuid,
        /// The day it is made for; today where absent. Nothing later counts.
        as_of: Option<NaiveDate>,
    } -> OutlookPage = |service| service.outlook(planting, checks::as_of(as_of)?);

    /// Over all plantings, the windows that may be open in the next fortnight.
    Round Fortnight {
        /// Its first day; today where absent.
        as_of: Option<NaiveDate>,
    } -> FortnightPage = |service| service.fortnight(checks::as_of(as_of)?);
}
