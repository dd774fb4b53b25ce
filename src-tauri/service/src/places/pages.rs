//! What is said between a face and the service about places.

use chrono::NaiveDate;
use ripening::stop_plan::{PacedPlan, StopPlan};
use serde::{Deserialize, Serialize};
use uuid::Uuid;

use kinds::{OutlineOf, Place, Rings};

/// A planting near a place.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct NearPlanting {
    /// Id of the planting.
    pub planting: Uuid,
    /// Its name.
    pub name: String,
    /// Meters to its outline, 0 inside; without one, to the middle of its stops.
    pub meters: f64,
    /// Whether there is an outline to be inside of.
    pub outlined: bool,
}

/// An outline as it is drawn.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct PlantingOutline {
    /// Whose it is.
    pub of: OutlineOf,
    /// Parts, of rings, of [longitude, latitude]; of a part the edge first.
    pub rings: Rings,
    /// Area inside.
    pub square_meters: f64,
}

/// A planting's places.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct PlantingMapPage {
    /// Id of the planting.
    pub planting: Uuid,
    /// Its name.
    pub name: String,
    /// Its outline.
    pub outline: Option<PlantingOutline>,
    /// Walks with at least one stop whose place is known, the newest first.
    pub walks: Vec<MapWalk>,
}

/// A walk as it is drawn.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct MapWalk {
    /// Id of the walk.
    pub walk: Uuid,
    /// Civil date.
    pub walked_on: NaiveDate,
    /// Whether it was finished.
    pub finished: bool,
    /// All its stops, in the order walked.
    pub stops: Vec<MapStop>,
}

/// A stop as it is drawn.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct MapStop {
    /// Id of the stop.
    pub stop: Uuid,
    /// 1, 2, 3...
    pub number: u32,
    /// Where, if known.
    pub place: Option<Place>,
    /// Heads read there.
    pub heads: u32,
}

/// Where to stop.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct StopPlanPage {
    /// The plan.
    pub plan: PlanIn,
    /// Why there is no plan inside the outline, where there is an outline.
    pub why: Option<String>,
}

/// A plan on the ground or in paces.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
#[serde(tag = "kind", rename_all = "snake_case")]
pub enum PlanIn {
    /// Inside the outline.
    Outline {
        /// The stops.
        plan: StopPlan,
        /// Meters kept off every edge.
        edge_m: f64,
    },
    /// In rows and paces from the corner where the walk begins.
    Paces {
        /// The stops.
        plan: PacedPlan,
        /// Rows across that are taken for the planting.
        rows: u32,
        /// Paces along them.
        paces: u32,
        /// Whether rows and paces are a guess from the area, or from nothing.
        guessed: bool,
    },
    /// Neither can be made.
    None,
}

/// A file as it was chosen; its bytes follow the request in this order.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct ChosenFile {
    /// Its name.
    pub name: String,
    /// Its length in bytes.
    pub bytes: u32,
}

/// What an outline of a file is to be stored as.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct ChosenOutline {
    /// Its place in the file, from 1.
    pub number: u32,
    /// Whose outline it is.
    pub of: OutlineOf,
}

/// A field or planting that an outline can be given to.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct OutlineTarget {
    /// The planting or field whose outline it is.
    pub of: OutlineOf,
    /// Its name, with the farm's where it has one.
    pub name: String,
}

/// What an outline file holds.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct OutlineFileReview {
    /// Its outlines, in order.
    pub outlines: Vec<OutlineReview>,
    /// Plantings, then fields, that one can be given to.
    pub targets: Vec<OutlineTarget>,
    /// Outlines that an import stores: new or different ones.
    pub to_store: u32,
}

/// One outline of a file.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct OutlineReview {
    /// Its place in the file, from 1.
    pub number: u32,
    /// What the file calls it.
    pub label: Option<String>,
    /// Whose it is, by that name, or as it was chosen.
    pub of: Option<OutlineOf>,
    /// Whether it stands in the notebook just so.
    pub already_here: bool,
    /// Whether it takes the place of another.
    pub replaces: bool,
    /// Its rings; none where it was refused.
    pub rings: Rings,
    /// Area inside.
    pub square_meters: f64,
    /// Corners in all.
    pub corners: u32,
    /// Why it cannot be used.
    pub refused: Option<String>,
}

/// Plantings with a known place.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct NearPlantings {
    /// The nearest first.
    pub rows: Vec<NearPlanting>,
}
