//! The crew's meeting point: keeps what each phone has written and gives it to
//! the others of its crew. It does not look into changes; it knows whose they
//! are, their numbers and their bytes.

pub mod answer;
pub mod bodies;
pub mod connections;
pub mod door;
pub mod journal;
pub mod metrics;
pub mod network;
pub mod open;
pub mod photos;
pub mod serve;
pub mod store;

pub use answer::{Clock, Hub, Outcome, machine_clock};
