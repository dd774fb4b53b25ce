//! Faults: what becomes of a notebook when the process is killed, the disk is full
//! or locked, bits flip, files are cut, or the schema is old.
//!
//! Each check prints what it did and what came of it. Nothing that was shown as
//! saved may be lost, except what the check itself destroyed, which it states.
//!
//! A kill stops a process, not the power: what the disk does with writes it has
//! confirmed is beyond these checks. `synchronous = FULL` asks SQLite to wait for
//! the disk before it answers.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod backups;
mod bit_flips;
mod cut_files;
mod full_or_locked;
mod kill;
mod lacking;
mod lazy_list;
mod looked_at;
mod old_notebooks;
mod outcome;
mod photo_files;
mod photo_kills;
mod photo_room;
mod seals;
mod season;
mod worker;
