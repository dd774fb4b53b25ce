//! What may be asked about places.

use uuid::Uuid;

use crate::asking::asks;
use crate::{Done, NearPlantings, OutlineOf, Place, PlantingMapPage, StopPlanPage, WalkPage};

asks! {
    /// Changes: says where a stop is, when the position came late or was better
    /// than the one before.
    Tap PlaceStop {
        /// Id of the stop.
        stop: Uuid,
        /// The position of the stop.
        place: Place,
    } -> WalkPage = |service| service.place_stop(stop, place);

    /// Plantings with a known place, the nearest to this one first, at most five.
    List NearestPlantings {
        /// Where the scout stands.
        place: Place,
    } -> NearPlantings = |service| service.nearest_plantings(place);

    /// A planting's outline, and the stops of its walks that have a place.
    List PlantingMap {
        /// Id of the planting.
        planting: Uuid,
    } -> PlantingMapPage = |service| service.planting_map(planting);

    /// Where to stop: inside the planting's outline, else in rows and paces.
    List StopPlan {
        /// Id of the planting.
        planting: Uuid,
        /// For which walk: it keeps its plan for as long as it is open.
        walk: Option<Uuid>,
        /// Where the scout stands, where the plan should begin.
        from: Option<Place>,
        /// Rows of the part that is walked, where there is no outline.
        rows: Option<u32>,
        /// Paces along its rows.
        paces: Option<u32>,
    } -> StopPlanPage = |service| service.stop_plan(planting, walk, from, rows.zip(paces));

    /// Changes: removes an outline; it is kept in the history.
    Tap RemoveOutline {
        /// The planting or field whose outline it is.
        of: OutlineOf,
    } -> Done = |service| service.remove_outline(of);
}
