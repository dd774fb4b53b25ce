//! Ripe grain: what was seen of it, its dry-down, and when to cut.

pub(crate) mod ask;
mod choice;
mod dry_down;
mod known;
mod money;
mod observed;
mod order;
mod pages;
mod settings;
mod terms;
mod undo;

pub(crate) use known::KeptGrain;
pub(crate) use observed::observation;
pub use pages::{
    CutRow, DryDownPage, GrainMoney, GroundLoss, HarvestOrderPage, HarvestPage, HarvestStep,
    HarvestTerms, NewObservation, NotCut, NotCutWhy, ObservationsPage, ObservedView, OutletWay,
    SetFor, TermValue, TermView, TermsEdit, TermsPage, WetGrainPage, WetGrainWay, WhatIfAnswer,
};
pub use terms::HarvestTerm;
pub(crate) use undo::opposite;
