//! The chance that a freeze comes before black layer, and what it would cost.

use chrono::NaiveDate;
use serde::{Deserialize, Serialize};

use super::need::{Need, mark_age};
use super::pace::PaceBelief;
use super::season::Season;
use super::season_end::PastBoot;
use super::timing::need_of_age;
use super::track::Track;
use crate::stage::Stage;

/// Air temperatures looked at, deg F: freezing; injury from two hours on; plants
/// killed (Texas extension).
pub const FREEZES_F: [f64; 3] = [32.0, 28.0, 26.0];
/// The one that counts as "the freeze" where only one number is asked for.
pub const INJURY_F: f64 = 28.0;

/// All freezes looked at.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct Freezes {
    /// One for each temperature, warmest first.
    pub by_temperature: Vec<FreezeChance>,
}

/// The first night this cold after boot, against black layer.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct FreezeChance {
    /// Air temperature, deg F.
    pub at_f: f64,
    /// Chance (0-1) that it comes before half of the heads are at black layer.
    pub before_black_layer: f64,
    /// Chance that it comes at all within the days looked at.
    pub comes: f64,
    /// The first such night already was, on this date.
    pub was_on: Option<NaiveDate>,
    /// Chance that it meets the planting before soft dough: no published number
    /// for the loss was found; it is more than at soft dough.
    pub before_soft_dough: f64,
    /// Chance that it meets the planting from soft dough to hard dough: grain
    /// weight 27 to 52 % less after 28 F for four hours (Staggenborg &
    /// Vanderlip 1996).
    pub at_soft_dough: f64,
    /// Chance that it meets the planting from hard dough to black layer: grain
    /// weight 6.5 to 27 % less (the same).
    pub at_hard_dough: f64,
}

impl Freezes {
    /// Of all seasons ahead. `None` without days ahead.
    pub fn of(season: &Season, track: &Track, belief: &PaceBelief) -> Option<Freezes> {
        let ahead = season.ahead().ok()?;
        let need = |stage| need_of_age(track, belief, mark_age(stage));
        let needs = Needs {
            past_boot: PastBoot::of(track, belief),
            soft_dough: need(Stage::SoftDough),
            hard_dough: need(Stage::HardDough),
            black_layer: need(Stage::BlackLayer),
        };
        let now = season.evening(season.end());
        let behind = |at_f: f64| {
            season.days().iter().find_map(|day| {
                let heat = season.morning(day.date) - now;
                needs
                    .past_boot
                    .meets(day, heat, at_f)
                    .then_some((day.date, heat))
            })
        };
        let by_temperature = FREEZES_F
            .iter()
            .map(|&at_f| {
                let mut chance = FreezeChance {
                    at_f,
                    before_black_layer: 0.0,
                    comes: 0.0,
                    was_on: None,
                    before_soft_dough: 0.0,
                    at_soft_dough: 0.0,
                    at_hard_dough: 0.0,
                };
                if let Some((date, heat)) = behind(at_f) {
                    chance.was_on = Some(date);
                    needs.add(&mut chance, heat, 1.0);
                    return chance;
                }
                let share = 1.0 / ahead.sums.len() as f64;
                for (member, sums) in ahead.ensemble.members().iter().zip(&ahead.sums) {
                    if let Some(place) = needs.past_boot.first(&member.days, sums, at_f) {
                        let before = place.checked_sub(1).and_then(|before| sums.get(before));
                        needs.add(&mut chance, before.copied().unwrap_or(0.0), share);
                    }
                }
                chance
            })
            .collect();
        Some(Freezes { by_temperature })
    }

    /// The chance at one of the temperatures looked at.
    pub fn at(&self, at_f: f64) -> Option<&FreezeChance> {
        self.by_temperature
            .iter()
            .find(|chance| chance.at_f == at_f)
    }
}

struct Needs {
    past_boot: PastBoot,
    soft_dough: Need,
    hard_dough: Need,
    black_layer: Need,
}

impl Needs {
    fn add(&self, chance: &mut FreezeChance, heat: f64, share: f64) {
        let soft = self.soft_dough.chance(heat);
        let hard = self.hard_dough.chance(heat).min(soft);
        let black = self.black_layer.chance(heat).min(hard);
        chance.comes += share;
        chance.before_soft_dough += share * (1.0 - soft);
        chance.at_soft_dough += share * (soft - hard);
        chance.at_hard_dough += share * (hard - black);
        chance.before_black_layer += share * (1.0 - black);
    }
}
