//! Where to stop in a planting: places spread evenly and by chance, kept off the
//! edges, in an order that makes a short walk.
//!
//! The draw is balanced acceptance sampling (Robertson, Brown, McDonald & Jaksons
//! 2013, Biometrics 69:776-784): points of a Halton sequence with a random start,
//! those inside the outline kept in turn. Any run of them is evenly spread, so a
//! scout who stops early, or goes on to the spare places, still has a fair sample.

mod halton;
mod outline;
mod paced;
mod route;

use serde::{Deserialize, Serialize};
use thiserror::Error;

pub use outline::{Outline, OutlineError};
pub use paced::{PacedPlan, PacedRequest, PacedStop, paced_plan};

use halton::HaltonStart;
use outline::Meters;

/// Most stops (spare ones included) that a plan gives.
pub const MOST_STOPS: u32 = 60;

/// Places tried before a draw gives up: enough where one in several thousand is
/// far enough from the edges.
const MOST_TRIES: u64 = 100_000;

/// A place on the ground, WGS 84.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct Spot {
    /// Degrees north.
    pub latitude: f64,
    /// Degrees east.
    pub longitude: f64,
}

/// What a plan is asked to be.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct PlanRequest {
    /// Stops of the walk, 1 or more.
    pub stops: u32,
    /// Further places in case more stops are needed.
    pub spare: u32,
    /// Distance kept from every edge, meters.
    pub edge_meters: f64,
    /// Where the walk begins; without it, at whichever end makes it shortest.
    pub start: Option<Spot>,
    /// Same seed, same plan.
    #[cfg_attr(feature = "ts", ts(type = "number"))]
    pub seed: u64,
}

/// Stops in walking order.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct StopPlan {
    /// The stops, in walking order.
    pub stops: Vec<Spot>,
    /// Length of the walk from the start (or the first stop) to the last, meters.
    pub walk_meters: f64,
    /// Further places, the first to be used first.
    pub spare: Vec<Spot>,
}

/// Why there is no plan.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum StopPlanError {
    /// None, or too many.
    #[error("a plan has 1 to {MOST_STOPS} stops (spare ones included), not {0}: change the number")]
    Stops(u64),
    /// Not a distance.
    #[error("the distance from the edge is {0}: give meters, 0 or more")]
    EdgeDistance(f64),
    /// Not on the globe, or nowhere near.
    #[error("the start of the walk is not within 30 km of the field: check latitude and longitude")]
    Start,
    /// Nothing of the field is left.
    #[error(
        "hardly any place in the field is {0} m or more from every edge: \
         use a smaller distance or check the outline"
    )]
    TooNarrow(f64),
    /// Fields too small to walk.
    #[error(
        "{0} rows by {1} paces leave no room for the stops inside the edge: \
         use a smaller edge or fewer stops"
    )]
    TooFewRows(u32, u32),
}

/// Draws the stops of a walk inside an outline.
///
/// # Errors
/// [`StopPlanError`]: a number out of range, or no room inside the edges.
pub fn stop_plan(outline: &Outline, request: &PlanRequest) -> Result<StopPlan, StopPlanError> {
    let wanted = u64::from(request.stops) + u64::from(request.spare);
    if request.stops == 0 || wanted > u64::from(MOST_STOPS) {
        return Err(StopPlanError::Stops(wanted));
    }
    if !(request.edge_meters.is_finite() && request.edge_meters >= 0.0) {
        return Err(StopPlanError::EdgeDistance(request.edge_meters));
    }
    let start = match request.start {
        Some(spot) => Some(outline.near(spot).ok_or(StopPlanError::Start)?),
        None => None,
    };
    let mut places = draw(outline, request, wanted as usize)?;
    let spare = places.split_off(request.stops as usize);
    let (stops, walk_meters) = route::shortest(places, start);
    let spots = |places: Vec<Meters>| places.iter().map(|place| outline.spot(*place)).collect();
    Ok(StopPlan {
        stops: spots(stops),
        walk_meters,
        spare: spots(spare),
    })
}

/// Balanced acceptance: a start whose first point is inside, then the points that
/// follow it, those outside passed over.
fn draw(
    outline: &Outline,
    request: &PlanRequest,
    wanted: usize,
) -> Result<Vec<Meters>, StopPlanError> {
    let inside = |unit: [f64; 2]| {
        let place = outline.in_box(unit);
        outline.holds(place, request.edge_meters).then_some(place)
    };
    let too_narrow = StopPlanError::TooNarrow(request.edge_meters);
    let start = HaltonStart::candidates(request.seed)
        .take(MOST_TRIES as usize)
        .find(|start| inside(start.point(0)).is_some())
        .ok_or_else(|| too_narrow.clone())?;
    let places: Vec<Meters> = (0..MOST_TRIES)
        .filter_map(|step| inside(start.point(step)))
        .take(wanted)
        .collect();
    if places.len() == wanted {
        Ok(places)
    } else {
        Err(too_narrow)
    }
}
