//! What the field sheet of a planting says.

use ripening::outlook::Why;
use serde::{Deserialize, Serialize};
use uuid::Uuid;

use crate::walks::number;
use crate::{Answers, Area, Problem, ProblemCode, Purpose, Service, Settings, Units, settings};
use notebook::fact::Observation;
use notebook::views::{harvest, outlines, photos, walks};
use sheet::{Form, Photo, Sheet, Walk};
use words::Language;

/// Hectares in an acre (international acre).
const HECTARES_PER_ACRE: f64 = 0.404_685_642_24;

/// Most pictures on a sheet.
const PICTURES: usize = 3;

/// The size of the page.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum Paper {
    /// 210 by 297 mm.
    A4,
    /// 8.5 by 11 inches.
    Letter,
}

/// What a field sheet is asked for with; the settings stand in for what is absent.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS), ts(optional_fields = nullable))]
pub struct SheetAsk {
    /// Of which planting.
    pub planting: Uuid,
    /// Letter where the units are US, else A4.
    pub paper: Option<Paper>,
    /// `en` or `es`.
    pub language: Option<String>,
    /// Units.
    pub units: Option<Units>,
}

impl Service {
    /// The sheet as a PDF, and the planting's name.
    pub(crate) fn field_sheet(&mut self, ask: &SheetAsk) -> Result<(Vec<u8>, String), Problem> {
        let settings = settings::read(self.notebook.db())?;
        let form = form(ask, &settings)?;
        let sheet = self.gather(ask.planting, settings.scout)?;
        let pdf = sheet::draw(&sheet, &form).map_err(|error| Problem {
            code: ProblemCode::Internal,
            message: error.to_string(),
        })?;
        Ok((pdf, sheet.name))
    }

    fn gather(&mut self, id: Uuid, made_by: String) -> Result<Sheet, Problem> {
        let as_of = self.notebook.clock().today();
        let row = self.planting_row(id)?;
        let page = self.outlook(id, Some(as_of))?.answer;
        let walk = match row.last_walk {
            Some(brief) => {
                let places = self.places(brief.id)?;
                told(&brief.now).map(|field| Walk {
                    on: brief.walked_on,
                    scout: brief.scout,
                    heads: brief.now.alone.map_or(field.heads, |alone| alone.heads),
                    stops: brief.now.alone.map_or(field.stops, |alone| alone.stops),
                    field,
                    contradicts: brief.now.contradiction.is_some(),
                    places,
                })
            }
            None => None,
        };
        Ok(Sheet {
            name: row.name,
            hybrid: row.hybrid,
            field: row.field,
            farm: row.farm,
            purpose: match row.purpose {
                Purpose::Grain => sheet::Purpose::Grain,
                Purpose::Silage => sheet::Purpose::Silage,
                Purpose::Seed => sheet::Purpose::Seed,
            },
            planted_on: row.planted_on,
            hectares: row.area.map(|area| match area {
                Area::Acres(size) => size * HECTARES_PER_ACRE,
                Area::Hectares(size) => size,
            }),
            walk,
            earlier: row.earlier,
            as_of,
            outlook: match (page.outlook, page.why) {
                (Some(outlook), _) => Ok(outlook),
                (None, why) => Err(why.unwrap_or(Why::NothingToStartFrom)),
            },
            windows: page.windows,
            moisture_measured: harvest::of_planting(self.notebook.db(), id)?
                .iter()
                .any(|row| matches!(row.seen.what, Observation::Moisture { .. })),
            outline: self.outline(id)?,
            photos: self.pictures(id)?,
            made_at: self.notebook.clock().now(),
            made_by,
        })
    }

    /// Edges and holes of the planting's outline, or its field's.
    fn outline(&self, id: Uuid) -> Result<Vec<Vec<(f64, f64)>>, Problem> {
        let found = outlines::of_planting(self.notebook.db(), id)?;
        let rings = found.into_iter().flat_map(|(_, parts)| parts).flatten();
        Ok(rings
            .map(|ring| {
                ring.into_iter()
                    .map(|[east, north]| (east, north))
                    .collect()
            })
            .collect())
    }

    /// The newest pictures of the planting that are on this device.
    fn pictures(&self, id: Uuid) -> Result<Vec<Photo>, Problem> {
        let Some(files) = &self.notebook.photos else {
            return Ok(Vec::new());
        };
        let mut pictures = Vec::new();
        for photo in photos::of_planting(self.notebook.db(), id)? {
            // One that was freed or is damaged is left out.
            if let Ok(Some(jpeg)) = files.read(photo.name) {
                pictures.push(Photo {
                    jpeg,
                    caption: photo.caption.unwrap_or_default(),
                });
            }
            if pictures.len() == PICTURES {
                break;
            }
        }
        Ok(pictures)
    }

    /// Stops of a walk that have heads and a known place.
    fn places(&self, walk: Uuid) -> Result<Vec<(u32, f64, f64)>, Problem> {
        let db = self.notebook.db();
        crate::live::live_walk(db, walk)?;
        let mut places = Vec::new();
        for (at, stop) in walks::stops(db, walk)?.into_iter().enumerate() {
            if let Some(place) = stop.place
                && !walks::heads(db, stop.id)?.is_empty()
            {
                places.push((number(at), place.longitude, place.latitude));
            }
        }
        Ok(places)
    }
}

/// The answer to go by: with history where there is one, else the heads alone.
fn told(answers: &Answers) -> Option<ripening::WholeField> {
    answers.with_history.or(answers.alone)
}

fn form(ask: &SheetAsk, settings: &Settings) -> Result<Form, Problem> {
    let units = ask.units.unwrap_or(settings.units);
    let language = match ask.language.as_deref().unwrap_or(&settings.language) {
        "en" => Language::English,
        "es" => Language::Spanish,
        _ => {
            return Err(Problem::bad_input(
                "the language is not known: use en or es",
            ));
        }
    };
    let paper = match (ask.paper, units) {
        (Some(Paper::A4), _) | (None, Units::Metric) => sheet::Paper::A4,
        (Some(Paper::Letter), _) | (None, Units::Us) => sheet::Paper::Letter,
    };
    Ok(Form {
        paper,
        language,
        units: match units {
            Units::Us => sheet::Units::Us,
            Units::Metric => sheet::Units::Metric,
        },
    })
}
