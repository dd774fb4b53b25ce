//! When: the dates of the stages ahead, as windows.
//!
//! A planting is followed as a joint distribution of its middle age (the age of
//! its middle head, in heat units from bloom) and its *pace* (units of age per
//! unit of heat). It starts from the planting date and the published table,
//! is moved by the heat received, and is narrowed by every walk. Because the
//! pace does not change within a season, the tracking is done once for all
//! paces alike ([`Track`]); what the hybrid is believed to be ([`PaceBelief`])
//! is laid over it afterwards, and what the track says of the pace goes back
//! into that belief for the hybrid's other plantings.
//!
//! The days ahead are the past seasons of the station
//! ([`crate::weather::WeatherEnsemble`]), each as likely as the others.

mod bloom_heat;
mod fan;
mod forecast;
mod freeze;
mod hybrid;
mod moisture;
mod need;
mod pace;
mod season;
mod season_end;
mod sighting;
mod timing;
mod together;
mod track;
mod why;

pub use bloom_heat::BloomHeat;
pub use fan::{FanDay, position_fan};
pub use forecast::{EventDates, Outlook, PerEvent, RestsOn, outlook};
pub use freeze::{FREEZES_F, FreezeChance, Freezes, INJURY_F};
pub use hybrid::{HybridLearned, learn_hybrid};
pub use moisture::{GrainAhead, grain_from_readings};
pub use pace::{HYBRID_SPREAD, PLANTING_SPREAD, PaceBelief, PaceEvidence};
pub use season::{AheadRefusal, Season};
pub use season_end::KILLING_F;
pub use sighting::Sighting;
pub use timing::{Event, Timing};
pub use together::{Case, Followed, follow_together};
pub use track::{Planted, Track};
pub use why::Why;
