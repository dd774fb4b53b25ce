//! Outlines of fields and plantings as the views hold them.

use rusqlite::{Connection, OptionalExtension};
use serde::Deserialize;
use uuid::Uuid;

use crate::error::StoreError;
use kinds::OutlineOf;
use kinds::Rings;

/// A planting's outline: its own, else its field's.
pub fn of_planting(
    db: &Connection,
    planting: Uuid,
) -> Result<Option<(OutlineOf, Rings)>, StoreError> {
    let mut statement = db.prepare_cached(
        "SELECT planting.outline, field.id, field.outline FROM planting
         LEFT JOIN field ON field.id = planting.field AND NOT field.removed
         WHERE planting.id = ?1",
    )?;
    let found = statement
        .query_row([planting], |row| {
            let own: Option<String> = row.get(0)?;
            let field: Option<Uuid> = row.get(1)?;
            let of_field: Option<String> = row.get(2)?;
            Ok((own, field.zip(of_field)))
        })
        .optional()?;
    let Some((own, of_field)) = found else {
        return Ok(None);
    };
    if let Some(rings) = own.as_deref().and_then(rings) {
        return Ok(Some((OutlineOf::Planting(planting), rings)));
    }
    Ok(of_field.and_then(|(field, text)| Some((OutlineOf::Field(field), rings(&text)?))))
}

/// The outline that stands at a field or a planting itself.
pub fn standing(db: &Connection, of: OutlineOf) -> Result<Option<Rings>, StoreError> {
    let (sql, id) = match of {
        OutlineOf::Planting(id) => ("SELECT outline FROM planting WHERE id = ?1", id),
        OutlineOf::Field(id) => ("SELECT outline FROM field WHERE id = ?1", id),
    };
    let text: Option<Option<String>> = db
        .prepare_cached(sql)?
        .query_row([id], |row| row.get(0))
        .optional()?;
    Ok(text.flatten().as_deref().and_then(rings))
}

/// Fields with a name, by it: id, name, name of the farm.
pub fn fields(db: &Connection) -> Result<Vec<(Uuid, String, Option<String>)>, StoreError> {
    let mut statement = db.prepare_cached(
        "SELECT field.id, field.name, farm.name FROM field
         LEFT JOIN farm ON farm.id = field.farm
         WHERE field.name IS NOT NULL AND NOT field.removed ORDER BY field.name, field.id",
    )?;
    let rows = statement.query_map([], |row| Ok((row.get(0)?, row.get(1)?, row.get(2)?)))?;
    Ok(rows.collect::<Result<_, _>>()?)
}

/// A GeoJSON MultiPolygon as the log holds it; none where it is something else.
fn rings(text: &str) -> Option<Rings> {
    #[derive(Deserialize)]
    struct Geometry {
        coordinates: Rings,
    }
    serde_json::from_str::<Geometry>(text)
        .ok()
        .map(|geometry| geometry.coordinates)
}
