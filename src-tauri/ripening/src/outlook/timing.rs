//! The chance that an event has come, day by day, behind and ahead.

use chrono::{Days, NaiveDate};
use serde::{Deserialize, Serialize};

use super::need::{Need, mark_age, place_of_age};
use super::pace::PaceBelief;
use super::season::Season;
use super::season_end::SeasonEnd;
use super::track::Track;
use super::why::Why;
use crate::stage::Stage;

/// What an outlook gives dates for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum Event {
    /// Half of the heads in bloom.
    HalfBloom,
    /// Half of the heads at milk.
    Milk,
    /// Half of the heads at soft dough.
    SoftDough,
    /// Half of the heads at hard dough.
    HardDough,
    /// Half of the heads at black layer.
    BlackLayer,
    /// Grain at 20 % moisture.
    #[serde(rename = "moisture_20")]
    Moisture20,
    /// Grain at 18 % moisture.
    #[serde(rename = "moisture_18")]
    Moisture18,
    /// Grain at 16 % moisture.
    #[serde(rename = "moisture_16")]
    Moisture16,
    /// Grain at 14 % moisture.
    #[serde(rename = "moisture_14")]
    Moisture14,
}

impl Event {
    /// The stage it is the reaching of; `None` for grain moisture.
    pub fn stage(self) -> Option<Stage> {
        match self {
            Event::HalfBloom => Some(Stage::HalfBloom),
            Event::Milk => Some(Stage::Milk),
            Event::SoftDough => Some(Stage::SoftDough),
            Event::HardDough => Some(Stage::HardDough),
            Event::BlackLayer => Some(Stage::BlackLayer),
            Event::Moisture20 | Event::Moisture18 | Event::Moisture16 | Event::Moisture14 => None,
        }
    }
}

/// The chance that half of the heads have reached a mark, by the evening of each
/// day.
#[derive(Debug, Clone, PartialEq)]
pub struct Timing {
    first: NaiveDate,
    /// Days behind: chance by each evening.
    behind: Vec<f64>,
    /// Days ahead: for each member of the ensemble, chance by each evening.
    members: Vec<Vec<f64>>,
    /// Days ahead: the mean over the members.
    ahead: Vec<f64>,
    /// Why there are no days ahead.
    no_days_ahead: Option<Why>,
}

impl Timing {
    /// For a stage of a tracked planting.
    pub fn of_stage(season: &Season, track: &Track, belief: &PaceBelief, stage: Stage) -> Timing {
        let end = SeasonEnd::of(season, track, belief);
        let need = need_of_age(track, belief, mark_age(stage));
        Timing::of_need(season, &end, &need)
    }

    /// Chances rise with heat up to the season's end, and not after it.
    pub(super) fn of_need(season: &Season, end: &SeasonEnd, need: &Need) -> Timing {
        let now = season.evening(season.end());
        let mut behind: Vec<f64> = season
            .days()
            .iter()
            .map(|day| need.chance(season.evening(day.date) - now))
            .collect();
        hold_from(&mut behind, end.behind, 0.0);
        let so_far = behind.last().copied().unwrap_or(0.0);
        let (members, no_days_ahead) = match season.ahead() {
            Ok(ahead) => (
                ahead
                    .sums
                    .iter()
                    .zip(&end.members)
                    .map(|(sums, ends)| {
                        let mut chances: Vec<f64> =
                            sums.iter().map(|&heat| need.chance(heat)).collect();
                        let ends = if end.behind.is_some() { Some(0) } else { *ends };
                        hold_from(&mut chances, ends, so_far);
                        chances
                    })
                    .collect(),
                None,
            ),
            Err(cause) => (
                Vec::new(),
                Some(Why::NoDaysAhead {
                    cause: cause.clone(),
                }),
            ),
        };
        Timing {
            first: season.unbroken_from(),
            behind,
            ahead: mean_of(&members),
            members,
            no_days_ahead,
        }
    }

    /// First day it is told for.
    pub fn first(&self) -> NaiveDate {
        self.first
    }

    /// Chance by each evening of the days behind.
    pub fn behind(&self) -> &[f64] {
        &self.behind
    }

    /// For each member of the ensemble, chance by each evening of the days ahead,
    /// which follow the days behind.
    pub fn members(&self) -> &[Vec<f64>] {
        &self.members
    }

    /// Chance that it has come by the evening of a date; `None` outside the days
    /// told for.
    pub fn chance_by(&self, date: NaiveDate) -> Option<f64> {
        let place = usize::try_from((date - self.first).num_days()).ok()?;
        self.both().nth(place)
    }

    /// The first day by whose evening the chance is at least `p`.
    ///
    /// # Errors
    /// [`Why`] when no day told for is that day.
    pub fn quantile(&self, p: f64) -> Result<NaiveDate, Why> {
        match self.both().position(|chance| chance >= p) {
            Some(0) => Err(Why::BeforeWeather),
            Some(place) => Ok(self.date(place)),
            None => Err(self.no_days_ahead.clone().unwrap_or_else(|| {
                let come = self.both().last().unwrap_or(0.0);
                Why::NotBefore {
                    horizon: self.date((self.behind.len() + self.ahead.len()).saturating_sub(1)),
                    in_hundred: (100.0 * (1.0 - come)).round().clamp(0.0, 100.0) as u32,
                }
            })),
        }
    }

    /// Each day with the chance that it is the day. What comes later than all days
    /// told for counts as the last of them.
    pub fn weights(&self) -> Vec<(NaiveDate, f64)> {
        let mut before = 0.0;
        let mut weights: Vec<(NaiveDate, f64)> = self
            .both()
            .enumerate()
            .map(|(place, chance)| {
                let share = (chance - before).max(0.0);
                before = chance;
                (self.date(place), share)
            })
            .filter(|(_, share)| *share > 1e-6)
            .collect();
        if before < 1.0 {
            let last = (self.behind.len() + self.ahead.len()).saturating_sub(1);
            weights.push((self.date(last), 1.0 - before));
        }
        weights
    }

    fn both(&self) -> impl Iterator<Item = f64> {
        self.behind.iter().chain(&self.ahead).copied()
    }

    fn date(&self, place: usize) -> NaiveDate {
        self.first
            .checked_add_days(Days::new(u64::try_from(place).unwrap_or(u64::MAX)))
            .unwrap_or(NaiveDate::MAX)
    }
}

/// From a place on, the chance of the day before it (`before` where there is none).
fn hold_from(chances: &mut [f64], place: Option<usize>, before: f64) {
    let Some(place) = place else { return };
    let held = place
        .checked_sub(1)
        .and_then(|last| chances.get(last))
        .copied()
        .unwrap_or(before);
    for chance in chances.iter_mut().skip(place) {
        *chance = held;
    }
}

/// Heat needed for the middle head to reach an age.
pub(super) fn need_of_age(track: &Track, belief: &PaceBelief, age: f64) -> Need {
    let mut needs = Vec::new();
    track.each_pace(belief, |place, pace, weight| {
        needs.push((place_of_age(age, pace) - place, weight));
    });
    Need::new(&needs, age)
}

fn mean_of(members: &[Vec<f64>]) -> Vec<f64> {
    let count = members.len() as f64;
    let length = members.iter().map(Vec::len).min().unwrap_or(0);
    (0..length)
        .map(|day| {
            members
                .iter()
                .filter_map(|member| member.get(day))
                .sum::<f64>()
                / count
        })
        .collect()
}
