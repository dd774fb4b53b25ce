//! Ripe grain: what was seen of it, its dry-down, and when to cut.

mod choice;
mod dry_down;
mod known;
mod money;
mod observed;
mod order;
mod settings;
mod terms;
mod undo;
mod words;

pub(super) use dry_down::{grain_of, moisture_readings};
pub(super) use known::KeptGrain;
pub(super) use observed::observation;
pub use terms::HarvestTerm;
pub(super) use undo::opposite;
pub use words::{
    CutRow, DryDownPage, GrainMoney, GroundLoss, HarvestOrderPage, HarvestPage, HarvestStep,
    HarvestTerms, NewObservation, NotCut, NotCutWhy, ObservationsPage, ObservedView, OutletWay,
    SetFor, TermValue, TermView, TermsEdit, TermsPage, WhatIfAnswer,
};
