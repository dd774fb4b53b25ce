//! What may be asked about the harvest.

use chrono::NaiveDate;
use uuid::Uuid;

use crate::asking::asks;
use crate::{
    Done, DryDownPage, HarvestOrderPage, HarvestPage, NewObservation, ObservationsPage, TermsEdit,
    TermsPage, WetGrainPage, WhatIfAnswer, checks,
};

asks! {
    /// What was seen of a planting's ripe grain: moisture readings, counts on the
    /// ground, scores of its standing.
    Tap Observations {
        /// Id of the planting.
        planting: Uuid,
    } -> ObservationsPage = |service| service.observations(planting);

    /// Changes: stores an observation of ripe grain.
    Tap Observe {
        /// Id chosen by the caller.
        id: Option<Uuid>,
        /// Id of the planting.
        planting: Uuid,
        /// What was seen.
        seen: NewObservation,
    } -> ObservationsPage = |service| service.observe(id, planting, seen);

    /// Changes: replaces what an observation says; what it said first is kept in
    /// the history.
    Tap CorrectObserved {
        /// Id of the observation.
        id: Uuid,
        /// What it should say.
        to: NewObservation,
    } -> ObservationsPage = |service| service.correct_observed(id, to);

    /// Changes: takes an observation out; it is kept in the history.
    Tap RemoveObserved {
        /// Id of the observation.
        id: Uuid,
    } -> ObservationsPage = |service| service.remove_observed(id);

    /// Changes: takes back the last thing done about a planting's harvest on
    /// this device (observation, correction, removal, terms), or the last terms
    /// of all plantings. Repeating it goes further back.
    Tap UndoHarvest {
        /// Id of this request, chosen by the caller: sent again, it does not
        /// go a second step back.
        id: Option<Uuid>,
        /// Of which planting; absent for the terms of all.
        planting: Option<Uuid>,
    } -> Done = |service| service.undo_harvest(id, planting);

    /// Moisture of a planting's grain today and over the days ahead.
    Study DryDown {
        /// Id of the planting.
        planting: Uuid,
        /// The day it is made for; today where absent. Nothing later counts.
        as_of: Option<NaiveDate>,
    } -> DryDownPage = |service| service.dry_down(planting, checks::as_of(as_of)?);

    /// When to cut a planting: money by day, and what it depends on.
    Study Harvest {
        /// Id of the planting.
        planting: Uuid,
        /// The day it is made for; today where absent.
        as_of: Option<NaiveDate>,
    } -> HarvestPage = |service| service.harvest(planting, checks::as_of(as_of)?);

    /// The same with other terms, of which nothing is stored. Quick, but for
    /// the sensitivity.
    Study WhatIf {
        /// Id of the planting.
        planting: Uuid,
        /// The day it is made for; today where absent.
        as_of: Option<NaiveDate>,
        /// The terms to try out.
        edit: TermsEdit,
        /// Whether to add how much the answer depends on each input, which takes longer than
        /// a thumb waits.
        settled: bool,
    } -> WhatIfAnswer = |service| service.what_if(planting, checks::as_of(as_of)?, &edit, settled);

    /// What harvests are weighed by: for one planting, or for all.
    Tap HarvestTerms {
        /// Id of the planting; absent for all.
        planting: Option<Uuid>,
    } -> TermsPage = |service| service.harvest_terms(planting);

    /// Pay for wet grain with other terms, of which nothing is stored: what a
    /// user compares with the buyer's ticket before the terms count.
    Tap TryWetGrain {
        /// By the terms of which planting; absent for those of all.
        planting: Option<Uuid>,
        /// The terms to try out.
        edit: TermsEdit,
    } -> WetGrainPage = |service| service.try_wet_grain(planting, &edit);

    /// Changes: sets terms, for one planting or for all.
    Tap SetHarvestTerms {
        /// Id of the planting; absent for all.
        planting: Option<Uuid>,
        /// The new terms.
        edit: TermsEdit,
    } -> TermsPage = |service| service.set_harvest_terms(planting, &edit);

    /// Which planting is cut first, by one combine and one dryer.
    Round HarvestOrder {
        /// The day it is made for; today where absent.
        as_of: Option<NaiveDate>,
    } -> HarvestOrderPage = |service| service.harvest_order(checks::as_of(as_of)?);

    /// What grain of a moisture is worth, with every formula and its numbers.
    Tap GrainMoney {
        /// By the terms of which planting; absent for those of all.
        planting: Option<Uuid>,
        /// Percent wet basis.
        moisture: f64,
        /// Temperature to store it at, degrees F, to add how long it keeps.
        storage_temp_f: Option<f64>,
    } -> crate::GrainMoney = |service| service.grain_money(planting, moisture, storage_temp_f);
}
