//! Requests in, answers out, and what changed.

mod answer;
mod problem;
mod request;
#[cfg(feature = "ts")]
pub mod wire_types;

pub use answer::{
    Answer, Answers, Changed, Due, DueReason, HeadFileReview, HeadSaved, HeadView, Names,
    PlantingPage, PlantingRow, RefusedRow, Reply, StopView, UndoWhat, WalkBrief, WalkPage,
};
pub use problem::{Problem, ProblemCode};
pub use request::{
    Area, NewHead, NewPlanting, Place, PlantingEdit, Purpose, Request, Settings, Theme, Units,
};
