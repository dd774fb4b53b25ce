//! Where stops are, and which planting is near.

pub(crate) mod ask;
pub(crate) mod outline_import;
pub(crate) mod pages;
pub(crate) mod stop_plans;

use std::collections::BTreeMap;

use ripening::stop_plan::Spot;
use ripening::weather::distance_km;
use serde_json::json;
use uuid::Uuid;

use crate::live::live_planting;
use crate::live::live_stop;
use crate::rows::giving;
use crate::walks::number;
use crate::{
    MapStop, MapWalk, NearPlanting, NearPlantings, Place, PlantingMapPage, PlantingOutline,
    Problem, Reply, Service, WalkPage, checks, read_only,
};
use notebook::fact::{Act, Body, Field, Row};
use notebook::views::{outlines, plantings, walks, weather};
use readers::outline_file;

/// Plantings told as near.
const NEAREST: usize = 5;

impl Service {
    /// Says where a stop is. Asked twice it changes nothing.
    pub(crate) fn place_stop(
        &mut self,
        stop: Uuid,
        place: Place,
    ) -> Result<Reply<WalkPage>, Problem> {
        checks::place(Some(place))?;
        let (walk, touched) = self.notebook.write(|writer| {
            let known = live_stop(writer.db(), stop)?;
            if known.place != Some(place) {
                let to = BTreeMap::from([(Field::Place, json!(place))]);
                let fact = giving(writer.db(), Row::Stop, stop, Some(known.walk), to)?;
                writer.record(Act::StopPlaced, &Body::of(vec![fact]))?;
            }
            Ok::<Uuid, Problem>(known.walk)
        })?;
        let changed = self.changed(&touched)?;
        let page = self.walk_page(walk)?;
        Ok(Reply {
            answer: page,
            changed,
        })
    }

    /// The nearest plantings: by their outlines, else by the middle of their stops.
    pub(crate) fn nearest_plantings(&self, place: Place) -> Result<Reply<NearPlantings>, Problem> {
        checks::place(Some(place))?;
        let spot = Spot {
            latitude: place.latitude,
            longitude: place.longitude,
        };
        let db = self.notebook.db();
        let mut rows = Vec::new();
        for planting in plantings::all(db)? {
            let to_outline = outlines::of_planting(db, planting.id)?
                .and_then(|(_, rings)| outline_file::outline(&rings).ok()?.meters_to(spot));
            let to_stops = || -> Result<Option<f64>, Problem> {
                let middle = weather::field_place(db, planting.id)?;
                Ok(middle
                    .map(|middle| 1000.0 * distance_km((spot.latitude, spot.longitude), middle)))
            };
            let meters = match to_outline {
                Some(meters) => Some(meters),
                None => to_stops()?,
            };
            if let Some(meters) = meters {
                rows.push(NearPlanting {
                    planting: planting.id,
                    name: planting.name,
                    meters,
                    outlined: to_outline.is_some(),
                });
            }
        }
        // All are in order of name; of equals the first stays first.
        rows.sort_by(|a, b| a.meters.total_cmp(&b.meters));
        rows.truncate(NEAREST);
        Ok(read_only(NearPlantings { rows }))
    }

    /// Outline and walked stops of a planting.
    pub(crate) fn planting_map(&self, id: Uuid) -> Result<Reply<PlantingMapPage>, Problem> {
        let db = self.notebook.db();
        let planting = live_planting(db, id)?;
        let outline = outlines::of_planting(db, id)?.and_then(|(of, rings)| {
            let square_meters = outline_file::outline(&rings).ok()?.square_meters();
            Some(PlantingOutline {
                of,
                rings,
                square_meters,
            })
        });
        let mut drawn = Vec::new();
        for walk in walks::of_planting(db, id)?.into_iter().rev() {
            let mut stops = Vec::new();
            for (at, stop) in walks::stops(db, walk.id)?.into_iter().enumerate() {
                let heads = walks::heads(db, stop.id)?.len();
                stops.push(MapStop {
                    stop: stop.id,
                    number: number(at),
                    place: stop.place,
                    heads: u32::try_from(heads).unwrap_or(u32::MAX),
                });
            }
            if !walk.finished || stops.iter().any(|stop| stop.place.is_some()) {
                drawn.push(MapWalk {
                    walk: walk.id,
                    walked_on: walk.walked_on,
                    finished: walk.finished,
                    stops,
                });
            }
        }
        Ok(read_only(PlantingMapPage {
            planting: id,
            name: planting.name,
            outline,
            walks: drawn,
        }))
    }
}
