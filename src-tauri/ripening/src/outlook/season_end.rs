//! Where a season ends for a planting: with the first killing freeze. What has
//! not come by then does not come.

use super::need::{Need, mark_age};
use super::pace::PaceBelief;
use super::season::Season;
use super::timing::need_of_age;
use super::track::Track;
use crate::stage::Stage;
use crate::weather::Day;

/// Plants are killed at about this air temperature, deg F (Texas extension).
pub const KILLING_F: f64 = 26.0;

/// The killing freeze of the days behind, and of each course of the days ahead.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct SeasonEnd {
    /// Place among the days behind.
    pub(super) behind: Option<usize>,
    /// Place among the days of each member.
    pub(super) members: Vec<Option<usize>>,
}

impl SeasonEnd {
    pub(super) fn of(season: &Season, track: &Track, belief: &PaceBelief) -> SeasonEnd {
        let past_boot = PastBoot::of(track, belief);
        let now = season.evening(season.end());
        let behind = season.days().iter().position(|day| {
            let heat = season.morning(day.date) - now;
            past_boot.meets(day, heat, KILLING_F)
        });
        let members = season.ahead().map_or_else(
            |_| Vec::new(),
            |ahead| {
                ahead
                    .ensemble
                    .members()
                    .iter()
                    .zip(&ahead.sums)
                    .map(|(member, sums)| past_boot.first(&member.days, sums, KILLING_F))
                    .collect()
            },
        );
        SeasonEnd { behind, members }
    }
}

/// Whether a planting is (more likely than not) past boot: a spring freeze is
/// another matter.
pub(super) struct PastBoot(Need);

impl PastBoot {
    pub(super) fn of(track: &Track, belief: &PaceBelief) -> PastBoot {
        PastBoot(need_of_age(track, belief, mark_age(Stage::Boot)))
    }

    /// Cold enough and past boot, after `heat` more units.
    pub(super) fn meets(&self, day: &Day, heat: f64, at_f: f64) -> bool {
        day.low_f <= at_f && self.0.chance(heat) >= 0.5
    }

    /// First such day of a course, with its heat by each evening. The coldest hour
    /// comes before the day's heat.
    pub(super) fn first(&self, days: &[Day], sums: &[f64], at_f: f64) -> Option<usize> {
        (0..days.len()).find(|&place| {
            let before = place
                .checked_sub(1)
                .and_then(|before| sums.get(before))
                .copied()
                .unwrap_or(0.0);
            days.get(place)
                .is_some_and(|day| self.meets(day, before, at_f))
        })
    }
}
