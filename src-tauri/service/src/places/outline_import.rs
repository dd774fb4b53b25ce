//! Outlines of fields into the notebook.

use std::collections::{BTreeMap, BTreeSet};

use serde_json::{Value, json};
use uuid::Uuid;

use crate::live::live_planting;
use crate::rows;
use crate::{
    ChosenOutline, Done, Keep, OutlineFileReview, OutlineOf, OutlineReview, OutlineTarget, Problem,
    Reply, Service, read_only,
};
use kinds::Rings;
use notebook::StoreError;
use notebook::fact::{Act, Field, Row};
use notebook::notebook::Writer;
use notebook::views::known_places::KnownPlaces;
use notebook::views::{outlines, plantings};
use readers::outline_file::FileOutline;

/// Columns that are looked at first for a name.
const NAMING: [&str; 7] = [
    "planting",
    "field",
    "name",
    "field_name",
    "fieldname",
    "label",
    "title",
];

impl Service {
    /// Says what a file's outlines are worth; with [`Keep::GoodRows`] stores those
    /// that are somebody's and not here yet.
    pub(crate) fn outline_file(
        &mut self,
        file: Vec<FileOutline>,
        chosen: Option<&[ChosenOutline]>,
        keep: Keep,
    ) -> Result<Reply<OutlineFileReview>, Problem> {
        let known = Known::read(self)?;
        let places = KnownPlaces::read(self.notebook.db())?;
        let mut taken = BTreeSet::new();
        let mut review = OutlineFileReview {
            outlines: Vec::with_capacity(file.len()),
            targets: known.targets(),
            to_store: 0,
        };
        for outline in file {
            let of = match chosen {
                Some(chosen) => chosen
                    .iter()
                    .find(|each| each.number == outline.number)
                    .map(|each| known.check(each.of))
                    .transpose()?,
                None => known.named(&outline.labels),
            };
            // Of two for one field the first counts, and the other is shown as
            // nobody's.
            let of = of.filter(|of| outline.shape.is_ok() && taken.insert(*of));
            let row = self.review_outline(outline, of, &places)?;
            if row.of.is_some() && !row.already_here {
                review.to_store += 1;
            }
            review.outlines.push(row);
        }
        if matches!(keep, Keep::Nothing) {
            return Ok(read_only(review));
        }
        let ((), touched) = self.notebook.write(|writer| {
            for row in &review.outlines {
                if let Some(of) = row.of.filter(|_| !row.already_here) {
                    set_outline(writer, of, Some(&row.rings), Act::OutlinesImported)?;
                }
            }
            Ok::<(), Problem>(())
        })?;
        Ok(Reply {
            answer: review,
            changed: self.changed(&touched)?,
        })
    }

    /// Takes an outline out.
    pub(crate) fn remove_outline(&mut self, of: OutlineOf) -> Result<Reply<Done>, Problem> {
        let ((), touched) = self.notebook.write(|writer| {
            if let OutlineOf::Planting(planting) = of {
                live_planting(writer.db(), planting)?;
            }
            if outlines::standing(writer.db(), of)?.is_some() {
                set_outline(writer, of, None, Act::OutlineRemoved)?;
            }
            Ok::<(), Problem>(())
        })?;
        Ok(Reply {
            answer: Done {},
            changed: self.changed(&touched)?,
        })
    }

    fn review_outline(
        &self,
        outline: FileOutline,
        of: Option<OutlineOf>,
        places: &KnownPlaces,
    ) -> Result<OutlineReview, Problem> {
        let label = best_label(&outline.labels);
        let mut row = OutlineReview {
            number: outline.number,
            label,
            of,
            already_here: false,
            replaces: false,
            rings: Vec::new(),
            square_meters: 0.0,
            corners: 0,
            refused: None,
        };
        match outline.shape {
            Ok(shape) if seems_swapped(&shape.rings, places) => {
                row.of = None;
                row.refused = Some(
                    "it is far from every place in the notebook, and near one with latitude and \
                     longitude swapped: write its longitude first"
                        .to_owned(),
                );
            }
            Ok(shape) => {
                if let Some(of) = of {
                    let standing = outlines::standing(self.notebook.db(), of)?;
                    row.already_here = standing.as_ref() == Some(&shape.rings);
                    row.replaces = standing.is_some() && !row.already_here;
                }
                row.square_meters = shape.square_meters;
                row.corners = shape.corners;
                row.rings = shape.rings;
            }
            Err(fault) => row.refused = Some(fault.to_string()),
        }
        Ok(row)
    }
}

/// Whether its first corner seems to have latitude and longitude swapped.
fn seems_swapped(rings: &Rings, places: &KnownPlaces) -> bool {
    let first = rings.first().and_then(|part| part.first()?.first());
    first.is_some_and(|&[longitude, latitude]| places.seem_swapped((latitude, longitude)))
}

/// Plantings and fields by their names.
struct Known {
    plantings: Vec<(Uuid, String)>,
    fields: Vec<(Uuid, String, Option<String>)>,
}

impl Known {
    fn read(service: &Service) -> Result<Known, StoreError> {
        let db = service.notebook.db();
        let plantings = plantings::all(db)?;
        Ok(Known {
            plantings: plantings
                .into_iter()
                .map(|planting| (planting.id, planting.name))
                .collect(),
            fields: outlines::fields(db)?,
        })
    }

    fn targets(&self) -> Vec<OutlineTarget> {
        let plantings = self.plantings.iter().map(|(id, name)| OutlineTarget {
            of: OutlineOf::Planting(*id),
            name: name.clone(),
        });
        let fields = self.fields.iter().map(|(id, name, farm)| OutlineTarget {
            of: OutlineOf::Field(*id),
            name: match farm {
                Some(farm) => format!("{name} ({farm})"),
                None => name.clone(),
            },
        });
        plantings.chain(fields).collect()
    }

    fn check(&self, of: OutlineOf) -> Result<OutlineOf, Problem> {
        let there = match of {
            OutlineOf::Planting(id) => self.plantings.iter().any(|(known, _)| *known == id),
            OutlineOf::Field(id) => self.fields.iter().any(|(known, ..)| *known == id),
        };
        if there {
            Ok(of)
        } else {
            Err(Problem::not_found("field"))
        }
    }

    /// Whose an outline is by what the file says of it: a planting before a field,
    /// columns that name before others.
    fn named(&self, labels: &[(String, String)]) -> Option<OutlineOf> {
        let same =
            |one: &str, other: &str| one.trim().to_lowercase() == other.trim().to_lowercase();
        let values: Vec<&str> = in_order(labels).map(|(_, value)| value).collect();
        let planting = values.iter().find_map(|value| {
            self.plantings
                .iter()
                .find(|(_, name)| same(name, value))
                .map(|(id, _)| OutlineOf::Planting(*id))
        });
        planting.or_else(|| {
            values.iter().find_map(|value| {
                let mut fits = self.fields.iter().filter(|(_, name, _)| same(name, value));
                let first = fits.next().map(|(id, ..)| OutlineOf::Field(*id));
                // Two farms' "North" are not told apart by a name alone.
                first.filter(|_| fits.next().is_none())
            })
        })
    }
}

/// Labels with those of naming columns first.
fn in_order(labels: &[(String, String)]) -> impl Iterator<Item = (&str, &str)> {
    let rank = |column: &str| {
        let column = column.to_lowercase();
        NAMING
            .iter()
            .position(|name| *name == column)
            .unwrap_or(NAMING.len())
    };
    let mut sorted: Vec<(&str, &str)> = labels
        .iter()
        .map(|(column, value)| (column.as_str(), value.as_str()))
        .collect();
    sorted.sort_by_key(|(column, _)| rank(column));
    sorted.into_iter()
}

fn best_label(labels: &[(String, String)]) -> Option<String> {
    in_order(labels).next().map(|(_, value)| value.to_owned())
}

fn set_outline(
    writer: &mut Writer,
    of: OutlineOf,
    rings: Option<&Rings>,
    act: Act,
) -> Result<(), Problem> {
    let (row, id) = match of {
        OutlineOf::Planting(id) => (Row::Planting, id),
        OutlineOf::Field(id) => (Row::Field, id),
    };
    let value = rings.map_or(
        Value::Null,
        |rings| json!({ "type": "MultiPolygon", "coordinates": rings }),
    );
    rows::set(
        writer,
        act,
        row,
        id,
        BTreeMap::from([(Field::Outline, value)]),
    )
}
