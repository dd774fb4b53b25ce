//! Where to stop in a planting.

use ripening::stop_plan::{PacedRequest, PlanRequest, Spot, StopPlanError, paced_plan, stop_plan};
use sha2::{Digest as _, Sha256};
use uuid::Uuid;

use crate::live::{live_planting, live_walk};
use crate::{
    Area, Place, PlanIn, Problem, Reply, Service, StopPlanPage, checks, read_only, settings,
};
use notebook::views::{outlines, walks};
use readers::outline_file;

/// Rows are 30 inches apart, and so long is a pace, near enough: meters.
const PACE_M: f64 = 0.762;
/// Rows and paces taken for a planting of which nothing is known.
const UNKNOWN: u32 = 200;
/// Farther than this nobody counts rows.
const MOST_PACES: u32 = 2_000;

const SQUARE_METERS_PER_ACRE: f64 = 4_046.856_422_4;

impl Service {
    /// A plan for a walk, or for one that is not begun. The same walk gets the
    /// same places each time; without a walk, the same all day.
    pub(crate) fn stop_plan(
        &self,
        planting: Uuid,
        walk: Option<Uuid>,
        from: Option<Place>,
        rows_and_paces: Option<(u32, u32)>,
    ) -> Result<Reply<StopPlanPage>, Problem> {
        checks::place(from)?;
        let db = self.notebook.db();
        let known = live_planting(db, planting)?;
        let settings = settings::read(db)?;
        let mut begun_at = None;
        let seed = match walk {
            Some(walk) => {
                let walk = live_walk(db, walk)?;
                // Where it began settles the order; walking on must not change it.
                begun_at = walks::stops(db, walk.id)?
                    .iter()
                    .find_map(|stop| stop.place);
                seed(&["walk", &walk.id.to_string()])
            }
            None => seed(&[
                "day",
                &planting.to_string(),
                &self.notebook.clock().today().to_string(),
            ]),
        };
        let mut why = None;
        if let Some((_, rings)) = outlines::of_planting(db, planting)? {
            let outline = outline_file::outline(&rings)
                .map_err(|error| Problem::bad_input(error.to_string()))?;
            let mut request = PlanRequest {
                stops: settings.plan_stops,
                spare: settings.plan_spare,
                edge_meters: settings.plan_edge_m,
                start: begun_at.or(from).map(|place| Spot {
                    latitude: place.latitude,
                    longitude: place.longitude,
                }),
                seed,
            };
            let mut plan = stop_plan(&outline, &request);
            if plan == Err(StopPlanError::Start) {
                // Planned from the kitchen table.
                request.start = None;
                plan = stop_plan(&outline, &request);
            }
            match plan {
                Ok(plan) => {
                    return Ok(answer(
                        PlanIn::Outline {
                            plan,
                            edge_m: settings.plan_edge_m,
                        },
                        None,
                    ));
                }
                Err(error) => why = Some(error.to_string()),
            }
        }
        let guessed = rows_and_paces.is_none();
        let (rows, paces) = rows_and_paces.unwrap_or_else(|| square(known.area));
        // Not more than a quarter at either side, however small the planting.
        let edge = |across: u32| {
            let paces = (settings.plan_edge_m / PACE_M).round() as u32;
            paces.min(across / 4)
        };
        let request = PacedRequest {
            stops: settings.plan_stops,
            rows: rows.clamp(1, MOST_PACES),
            paces: paces.clamp(1, MOST_PACES),
            edge_rows: edge(rows),
            edge_paces: edge(paces),
            seed,
        };
        match paced_plan(&request) {
            Ok(plan) => Ok(answer(
                PlanIn::Paces {
                    plan,
                    rows: request.rows,
                    paces: request.paces,
                    guessed,
                },
                why,
            )),
            Err(error) => Ok(answer(PlanIn::None, Some(error.to_string()))),
        }
    }
}

fn answer(plan: PlanIn, why: Option<String>) -> Reply<StopPlanPage> {
    read_only(StopPlanPage { plan, why })
}

/// Rows and paces of a square of this area.
fn square(area: Option<Area>) -> (u32, u32) {
    let square_meters = match area {
        Some(Area::Acres(size)) => size * SQUARE_METERS_PER_ACRE,
        Some(Area::Hectares(size)) => size * 10_000.0,
        None => return (UNKNOWN, UNKNOWN),
    };
    let side = (square_meters.sqrt() / PACE_M) as u32;
    let side = side.clamp(4, MOST_PACES);
    (side, side)
}

fn seed(of: &[&str]) -> u64 {
    let mut hash = Sha256::new();
    for part in of {
        hash.update(part.as_bytes());
        hash.update([0]);
    }
    let mut first = [0; 8];
    first.copy_from_slice(&hash.finalize()[..8]);
    // Below 2^53, so that a screen may hold it.
    u64::from_be_bytes(first) >> 11
}
