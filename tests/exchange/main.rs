//! The exchange over real HTTP: stories on SQLite and PostgreSQL, and what a
//! hub must refuse.

#![allow(clippy::unwrap_used, clippy::panic)]

mod any_changes;
mod both_stores;
mod cluster;
mod floods;
mod hostile_hub;
mod hostile_photos;
mod hub_here;
mod leaving;
mod photo_ends;
mod program;
mod scouts;
mod security;
mod service;
mod signed;
mod stories;
mod wire;
