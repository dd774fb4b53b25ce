//! A plan in rows and paces, for a planting without an outline.

use geo::Coord;
use serde::{Deserialize, Serialize};

use super::halton::HaltonStart;
use super::{MOST_STOPS, MOST_TRIES, StopPlanError, route};

/// Rows and paces of the part of a planting that is to be walked.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct PacedRequest {
    /// Stops of the walk, 1 or more.
    pub stops: u32,
    /// Rows across, from the corner where the walk begins.
    pub rows: u32,
    /// Paces along the rows.
    pub paces: u32,
    /// Rows left out at either side.
    pub edge_rows: u32,
    /// Paces left out at either end.
    pub edge_paces: u32,
    /// Same seed, same plan.
    #[cfg_attr(feature = "ts", ts(type = "number"))]
    pub seed: u64,
}

/// Stops in walking order.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct PacedPlan {
    /// The stops, in walking order.
    pub stops: Vec<PacedStop>,
}

/// One stop, counted from the corner and from the stop before.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct PacedStop {
    /// Rows from the corner.
    pub row: u32,
    /// Paces along the row from the corner.
    pub pace: u32,
    /// Rows from the stop before (from the corner for the first); below zero is
    /// back towards the corner.
    pub rows_on: i32,
    /// Paces from the stop before, in the same way.
    pub paces_on: i32,
}

/// Draws evenly spread stops in rows and paces (rows of 30 inches are about a
/// pace apart, which settles what is near).
///
/// # Errors
/// [`StopPlanError::Stops`] or [`StopPlanError::TooFewRows`].
pub fn paced_plan(request: &PacedRequest) -> Result<PacedPlan, StopPlanError> {
    if request.stops == 0 || request.stops > MOST_STOPS {
        return Err(StopPlanError::Stops(u64::from(request.stops)));
    }
    let room = |all: u32, edge: u32| {
        let inside = i64::from(all) - 2 * i64::from(edge);
        u32::try_from(inside)
            .ok()
            .filter(|inside| *inside > 0 && i32::try_from(all).is_ok())
    };
    let (Some(rows), Some(paces)) = (
        room(request.rows, request.edge_rows),
        room(request.paces, request.edge_paces),
    ) else {
        return Err(StopPlanError::TooFewRows(request.rows, request.paces));
    };
    let too_few_rows = StopPlanError::TooFewRows(request.rows, request.paces);
    let start = HaltonStart::candidates(request.seed)
        .next()
        .ok_or_else(|| too_few_rows.clone())?;
    let mut places: Vec<Coord<f64>> = Vec::with_capacity(request.stops as usize);
    for step in 0..MOST_TRIES {
        let [across, along] = start.point(step);
        // Whole rows and paces from 1 on, inside the edges.
        let place = Coord {
            x: f64::from(request.edge_rows + 1 + (across * f64::from(rows)) as u32),
            y: f64::from(request.edge_paces + 1 + (along * f64::from(paces)) as u32),
        };
        if !places.contains(&place) {
            places.push(place);
        }
        if places.len() == request.stops as usize {
            break;
        }
    }
    if places.len() < request.stops as usize {
        return Err(too_few_rows);
    }
    let (walk, _) = route::shortest(places, Some(Coord { x: 0.0, y: 0.0 }));
    let mut before = (0, 0);
    let stops = walk
        .iter()
        .map(|place| {
            let here = (place.x as i32, place.y as i32);
            let stop = PacedStop {
                row: here.0.unsigned_abs(),
                pace: here.1.unsigned_abs(),
                rows_on: here.0 - before.0,
                paces_on: here.1 - before.1,
            };
            before = here;
            stop
        })
        .collect();
    Ok(PacedPlan { stops })
}
