//! A planting followed through the season: age and pace together, moved by heat
//! and narrowed by what was seen.

use chrono::NaiveDate;

use super::bloom_heat::BloomHeat;
use super::need::{NOISE, age_of_place, half_bloom_age, place_of_age};
use super::pace::{PaceBelief, PaceEvidence, band, paces};
use super::season::Season;
use super::sighting::Sighting;
use super::why::Why;
use crate::Band;

/// Distance between ages, heat units.
const STEP: f64 = 6.0;
/// Oldest age kept.
const OLDEST: f64 = 2400.0;
/// Variance that a unit of heat adds to the age: before bloom about 8 % of the
/// way from boot to bloom; after bloom what a field's days differ from the
/// station's, see [`NOISE`].
const NOISE_BEFORE: f64 = 1.6;
const NOISE_AFTER: f64 = NOISE;
/// Variance a day adds whose weather had to be assumed, heat units squared.
const NOISE_ASSUMED_DAY: f64 = 36.0;

/// A planting as far as it is known without a walk.
#[derive(Debug, Clone, PartialEq)]
pub struct Planted {
    /// The planting date, where it is known.
    pub on: Option<NaiveDate>,
    /// Belief in its heat to half bloom, in units of the season's scale.
    pub bloom_heat: BloomHeat,
}

/// Where a planting stands at the end of the weather, for every pace.
#[derive(Debug, Clone)]
pub struct Track {
    /// Lowest age.
    low: f64,
    /// For each pace, the joint weight of each age; all paces alike at the start.
    slices: Vec<Vec<f64>>,
    sightings: usize,
    bloom_heat_prior: Option<BloomHeat>,
    /// At the last sighting of a planting whose date is known.
    last_seen: Option<LastSeen>,
}

/// Where a planting stood when it was last seen. Its heat to half bloom is learned
/// from here: long after black layer, at the oldest age kept, it could not be.
#[derive(Debug, Clone)]
struct LastSeen {
    /// Heat from planting to then.
    since_planting: f64,
    slices: Vec<Vec<f64>>,
}

impl Track {
    /// Follows a planting to the end of the season's known weather. Sightings
    /// after the season's `as_of` are ignored.
    ///
    /// # Errors
    /// [`Why`] when neither the planting date nor a sighting leads to now.
    pub fn follow(
        season: &Season,
        planted: &Planted,
        sightings: &[Sighting],
    ) -> Result<Track, Why> {
        if let Some(planted_on) = planted.on
            && planted_on > season.as_of()
        {
            return Err(Why::NotPlantedYet { planted_on });
        }
        let mut seen: Vec<&Sighting> = sightings
            .iter()
            .filter(|sighting| sighting.on() <= season.as_of())
            .filter(|sighting| planted.on.is_none_or(|on| sighting.on() >= on))
            // Nothing can be moved on from before the heat is known.
            .filter(|sighting| sighting.on() >= season.unbroken_from())
            .collect();
        seen.sort_by_key(|sighting| sighting.on());

        let planted_within = planted.on.filter(|&on| on >= season.unbroken_from());
        let mut track = if let Some(planted_on) = planted_within {
            let first = seen.first().map_or(season.end(), |sighting| sighting.on());
            let heat = if seen.is_empty() {
                season.evening(first) - season.morning(planted_on)
            } else {
                season.midday(first) - season.morning(planted_on)
            };
            Track::planted(season, &planted.bloom_heat, heat)
        } else if seen.is_empty() && planted.on.is_none() {
            return Err(Why::NothingToStartFrom);
        } else if seen.is_empty() {
            return Err(Why::HeatUnknown {
                open_from: season.unbroken_from().min(season.as_of()),
            });
        } else {
            Track::anywhere()
        };

        let last = seen.last().map(|sighting| sighting.on());
        let mut before: Option<NaiveDate> = None;
        for sighting in seen {
            if let Some(before) = before {
                track.move_on(
                    season.midday(sighting.on()) - season.midday(before),
                    season.assumed_between(before, sighting.on()),
                );
            }
            track.see(sighting);
            before = Some(sighting.on());
        }
        if let (Some(planted_on), Some(last)) = (planted_within, last) {
            track.last_seen = Some(LastSeen {
                since_planting: season.midday(last) - season.morning(planted_on),
                slices: track.slices.clone(),
            });
        }
        if let Some(before) = before {
            track.move_on(
                season.evening(season.end()) - season.midday(before),
                season.assumed_between(before, season.end()),
            );
        }
        Ok(track)
    }

    /// What it says of the planting's pace; `None` when it was never seen.
    pub fn pace_evidence(&self) -> Option<PaceEvidence> {
        if self.sightings == 0 {
            return None;
        }
        let mut likelihood = paces();
        for (value, slice) in likelihood.iter_mut().zip(&self.slices) {
            *value = slice.iter().sum();
        }
        let highest = likelihood.iter().copied().fold(0.0, f64::max);
        for value in &mut likelihood {
            *value /= highest;
        }
        Some(PaceEvidence { likelihood })
    }

    /// Sightings it rests on.
    pub fn sightings(&self) -> usize {
        self.sightings
    }

    /// The planting's pace once the hybrid's belief is laid over the track.
    pub fn pace(&self, belief: &PaceBelief, level: f64) -> Band {
        let mut weights = belief.for_planting();
        for (weight, slice) in weights.iter_mut().zip(&self.slices) {
            *weight *= slice.iter().sum::<f64>();
        }
        let sum: f64 = weights.iter().sum();
        for weight in &mut weights {
            *weight /= sum;
        }
        band(&weights, level)
    }

    /// The hybrid's heat to half bloom with this planting added.
    pub fn learn_bloom_heat(
        &self,
        season: &Season,
        belief: &PaceBelief,
        hybrid: &BloomHeat,
    ) -> BloomHeat {
        let (Some(prior), Some(seen)) = (&self.bloom_heat_prior, &self.last_seen) else {
            return *hybrid;
        };
        let (mut sum, mut first, mut second) = (0.0, 0.0, 0.0);
        self.each_of(&seen.slices, belief, |place, _, weight| {
            let heat = season.in_scale(seen.since_planting - place);
            sum += weight;
            first += weight * heat;
            second += weight * heat * heat;
        });
        let mean = first / sum;
        let sd = (second / sum - mean * mean).max(1.0).sqrt();
        hybrid.with(mean, sd, prior)
    }

    /// Calls `take` with every place (heat since half bloom at the pace of that
    /// node, see [`place_of_age`]), the pace and their weight, for a belief in the
    /// pace. The weights sum to 1.
    pub(super) fn each_pace(&self, belief: &PaceBelief, take: impl FnMut(f64, f64, f64)) {
        self.each_of(&self.slices, belief, take);
    }

    fn each_of(
        &self,
        slices: &[Vec<f64>],
        belief: &PaceBelief,
        mut take: impl FnMut(f64, f64, f64),
    ) {
        let prior = belief.for_planting();
        let all: f64 = slices
            .iter()
            .zip(prior)
            .map(|(slice, weight)| weight * slice.iter().sum::<f64>())
            .sum();
        for ((slice, weight), pace) in slices.iter().zip(prior).zip(paces()) {
            for (i, value) in slice.iter().enumerate() {
                let share = weight * value / all;
                if share > 1e-9 {
                    take(place_of_age(self.low + STEP * i as f64, pace), pace, share);
                }
            }
        }
    }

    fn planted(season: &Season, bloom_heat: &BloomHeat, heat: f64) -> Track {
        let mean = season.in_model(bloom_heat.mean);
        let sd = season.in_model(bloom_heat.planting_sd());
        let lowest_place = heat - mean - 4.5 * sd;
        let low = (half_bloom_age() + lowest_place.min(-60.0)).max(-4000.0);
        let size = grid_size(low);
        let slices = paces()
            .into_iter()
            .map(|pace| {
                (0..size)
                    .map(|i| {
                        // Heat since half bloom is what was received less what
                        // bloom took.
                        let place = place_of_age(low + STEP * i as f64, pace);
                        let z = (heat - place - mean) / sd;
                        // Ages after bloom lie `pace` times as far apart.
                        let stretch = if place > 0.0 { pace } else { 1.0 };
                        libm::exp(-0.5 * z * z) / stretch
                    })
                    .collect()
            })
            .collect();
        let mut track = Track {
            low,
            slices,
            sightings: 0,
            bloom_heat_prior: Some(*bloom_heat),
            last_seen: None,
        };
        track.even_out();
        track
    }

    fn anywhere() -> Track {
        let low = half_bloom_age() - 700.0;
        let size = grid_size(low);
        Track {
            low,
            slices: paces().iter().map(|_| vec![1.0; size]).collect(),
            sightings: 0,
            bloom_heat_prior: None,
            last_seen: None,
        }
    }

    /// Every pace counts alike before anything was seen.
    fn even_out(&mut self) {
        for slice in &mut self.slices {
            let sum: f64 = slice.iter().sum();
            if sum > 0.0 {
                for value in slice {
                    *value /= sum;
                }
            }
        }
    }

    fn see(&mut self, sighting: &Sighting) {
        let mut all = 0.0;
        for slice in &mut self.slices {
            for (i, value) in slice.iter_mut().enumerate() {
                *value *= sighting.at(self.low + STEP * i as f64);
                all += *value;
            }
        }
        for value in self.slices.iter_mut().flatten() {
            *value /= all;
        }
        self.sightings += 1;
    }

    fn move_on(&mut self, heat: f64, assumed_days: f64) {
        let heat = heat.max(0.0);
        let size = grid_size(self.low);
        for (slice, pace) in self.slices.iter_mut().zip(paces()) {
            let mut moved = vec![0.0; size];
            let (mut weight_after, mut weight_all) = (0.0, 0.0);
            for (i, &value) in slice.iter().enumerate() {
                let age = self.low + STEP * i as f64;
                let place = place_of_age(age, pace) + heat;
                weight_all += value;
                if place > 0.5 * heat {
                    weight_after += value;
                }
                let to = (age_of_place(place, pace).min(OLDEST) - self.low) / STEP;
                let below = to.max(0.0) as usize;
                let part = to - below as f64;
                if let Some(cell) = moved.get_mut(below) {
                    *cell += (1.0 - part) * value;
                }
                if let Some(cell) = moved.get_mut(below + 1) {
                    *cell += part * value;
                }
            }
            let after = if weight_all > 0.0 {
                weight_after / weight_all
            } else {
                1.0
            };
            let noise = heat * (after * NOISE_AFTER + (1.0 - after) * NOISE_BEFORE)
                + assumed_days * NOISE_ASSUMED_DAY;
            *slice = blurred(&moved, noise.sqrt() / STEP);
        }
    }
}

fn grid_size(low: f64) -> usize {
    ((OLDEST - low) / STEP) as usize + 2
}

/// Blurs by a bell curve of this spread, in steps; what would leave at an end
/// stays there.
fn blurred(values: &[f64], spread: f64) -> Vec<f64> {
    if spread < 0.05 {
        return values.to_vec();
    }
    let reach = (4.0 * spread) as usize + 1;
    let mut taps: Vec<f64> = (0..=reach)
        .map(|i| {
            let z = i as f64 / spread;
            libm::exp(-0.5 * z * z)
        })
        .collect();
    let total: f64 = 2.0 * taps.iter().sum::<f64>() - 1.0;
    for tap in &mut taps {
        *tap /= total;
    }
    let last = values.len() - 1;
    let mut blurred = vec![0.0; values.len()];
    for (i, &value) in values.iter().enumerate() {
        if value == 0.0 {
            continue;
        }
        blurred[i] += taps[0] * value;
        for (distance, tap) in taps.iter().enumerate().skip(1) {
            blurred[i.saturating_sub(distance)] += tap * value;
            blurred[(i + distance).min(last)] += tap * value;
        }
    }
    blurred
}
