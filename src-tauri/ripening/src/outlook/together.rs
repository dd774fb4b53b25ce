//! Plantings followed together: what each says of its hybrid serves the others.

use std::collections::BTreeMap;
use std::sync::Arc;

use chrono::{Days, NaiveDate};

use super::bloom_heat::BloomHeat;
use super::forecast::{LEVEL, Outlook, outlook};
use super::pace::PaceBelief;
use super::season::Season;
use super::sighting::Sighting;
use super::track::{Planted, Track};
use super::why::Why;
use crate::Band;
use crate::heat::{HeatScale, MaturityClass};
use crate::weather::WeatherRecord;

/// Days from planting after which a season is over, whatever the weather.
const SEASON_DAYS: u64 = 240;

/// One planting among others.
#[derive(Debug, Clone)]
pub struct Case<'a> {
    /// Its hybrid; plantings without one share nothing.
    pub hybrid: Option<&'a str>,
    /// The hybrid's maturity class, if known.
    pub class: Option<MaturityClass>,
    /// Planting date, if known.
    pub planted_on: Option<NaiveDate>,
    /// Its walks, and noted half bloom, in any order.
    pub sightings: Vec<Sighting>,
    /// Weather of its station, cleaned with the day of the outlook as the last.
    pub weather: &'a WeatherRecord,
}

/// A planting followed to now, with what is believed of its hybrid.
#[derive(Debug, Clone)]
pub struct Followed {
    /// Its season.
    pub season: Arc<Season>,
    /// Where it stands.
    pub track: Track,
    /// The hybrid's pace, from its other plantings.
    pub belief: PaceBelief,
    /// The hybrid's heat to half bloom, from its other plantings.
    pub bloom_heat: BloomHeat,
}

impl Followed {
    /// Its outlook.
    pub fn outlook(&self) -> Outlook {
        outlook(&self.season, &self.track, &self.belief)
    }

    /// Its pace by the published tables and its own walks alone, P10 to P90.
    pub fn own_pace(&self) -> Band {
        self.track.pace(&PaceBelief::published(), LEVEL)
    }
}

/// Follows all plantings to `as_of`; each learns from the others of its hybrid.
/// Answers come in the order of the cases. A planting of an earlier year is
/// followed to the end of its own season.
pub fn follow_together(
    scale: &HeatScale,
    as_of: NaiveDate,
    cases: &[Case<'_>],
) -> Vec<Result<Followed, Why>> {
    let mut seasons: BTreeMap<(usize, NaiveDate), Result<Arc<Season>, Why>> = BTreeMap::new();
    let mut season_of = |case: &Case<'_>| {
        let first_seen = case.sightings.iter().map(Sighting::on).min();
        let over = case
            .planted_on
            .or(first_seen)
            .and_then(|start| start.checked_add_days(Days::new(SEASON_DAYS)))
            .unwrap_or(as_of);
        let until = as_of.min(over);
        seasons
            .entry((std::ptr::from_ref(case.weather) as usize, until))
            .or_insert_with(|| Season::new(scale, case.weather, until).map(Arc::new))
            .clone()
    };
    let alone: Vec<Result<(Arc<Season>, Track), Why>> = cases
        .iter()
        .map(|case| {
            if let Some(planted_on) = case.planted_on
                && planted_on > as_of
            {
                return Err(Why::NotPlantedYet { planted_on });
            }
            let season = season_of(case)?;
            let planted = Planted {
                on: case.planted_on,
                bloom_heat: BloomHeat::published(scale, case.class),
            };
            let track = Track::follow(&season, &planted, &case.sightings)?;
            Ok((season, track))
        })
        .collect();

    cases
        .iter()
        .zip(&alone)
        .enumerate()
        .map(|(place, (case, own))| {
            let (season, track) = own.as_ref().map_err(Why::clone)?;
            let mut belief = PaceBelief::published();
            let mut bloom_heat = BloomHeat::published(scale, case.class);
            for (other_place, (other, followed)) in cases.iter().zip(&alone).enumerate() {
                let same = case.hybrid.is_some() && case.hybrid == other.hybrid;
                if let Ok((season, track)) = followed
                    && same
                    && other_place != place
                    && let Some(evidence) = track.pace_evidence()
                {
                    bloom_heat = track.learn_bloom_heat(season, &belief, &bloom_heat);
                    belief = belief.with(&evidence);
                }
            }
            let planted = Planted {
                on: case.planted_on,
                bloom_heat,
            };
            let track = if bloom_heat.plantings == 0 {
                track.clone()
            } else {
                Track::follow(season, &planted, &case.sightings)?
            };
            Ok(Followed {
                season: season.clone(),
                track,
                belief,
                bloom_heat,
            })
        })
        .collect()
}
