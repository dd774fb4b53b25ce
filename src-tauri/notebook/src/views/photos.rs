//! Photos as the views hold them.

use chrono::{DateTime, FixedOffset, NaiveDate, NaiveDateTime};
use rusqlite::{Connection, OptionalExtension, Row, params};
use uuid::Uuid;

use crate::error::StoreError;
use crate::log::instant;
use kinds::PhotoName;

/// A photo.
#[derive(Debug, Clone, PartialEq)]
pub struct Photo {
    /// Id of the photo.
    pub id: Uuid,
    /// The planting it is of.
    pub planting: Uuid,
    /// The walk on which it was taken.
    pub walk: Option<Uuid>,
    /// The stop at which it was taken.
    pub stop: Option<Uuid>,
    /// The head it shows.
    pub head: Option<Uuid>,
    /// Name of its file.
    pub name: PhotoName,
    /// Length of its file.
    pub bytes: u64,
    /// Width, pixels.
    pub width: u32,
    /// Height, pixels.
    pub height: u32,
    /// When it was taken, by the camera, local time.
    pub taken: Option<NaiveDateTime>,
    /// What was written under it.
    pub caption: Option<String>,
    /// When it was recorded, by the clock of its device.
    pub recorded_at: DateTime<FixedOffset>,
    /// Whether it was removed.
    pub removed: bool,
    /// Date of its walk.
    pub walked_on: Option<NaiveDate>,
}

// A walk that was moved takes its photos along.
const PHOTO: &str = "SELECT photo.id, coalesce(walk.planting, photo.planting), photo.walk,
      photo.stop, photo.head, photo.name, photo.bytes, photo.width, photo.height, photo.taken,
      photo.caption, photo.recorded_ms, photo.offset_min, photo.removed, walk.walked_on
    FROM photo
    LEFT JOIN walk ON walk.id = photo.walk
    LEFT JOIN head ON head.id = photo.head
    WHERE photo.made_hlc IS NOT NULL";

/// Not removed, nor is anything that it shows. A stop with a photo is never hidden.
const SHOWN: &str = "NOT photo.removed AND NOT coalesce(walk.removed, 0)
    AND NOT coalesce(head.removed, 0)";

/// One photo, removed or not.
pub fn photo(db: &Connection, id: Uuid) -> Result<Option<Photo>, StoreError> {
    let mut statement = db.prepare_cached(&format!("{PHOTO} AND photo.id = ?1"))?;
    Ok(statement.query_row([id], read).optional()?)
}

/// The photos of a planting and of those shown as it, with all their walks, the
/// newest first.
pub fn of_planting(db: &Connection, planting: Uuid) -> Result<Vec<Photo>, StoreError> {
    const THESE: &str = "(SELECT ?1 UNION SELECT id FROM planting WHERE shown_as = ?1)";
    let own = format!("{PHOTO} AND photo.planting IN {THESE} AND photo.walk IS NULL AND {SHOWN}");
    let of_walks = format!("{PHOTO} AND walk.planting IN {THESE} AND {SHOWN}");
    several(db, &format!("{own} UNION ALL {of_walks}"), planting)
}

/// The photos of a stop and its heads, the newest first.
pub fn of_stop(db: &Connection, stop: Uuid) -> Result<Vec<Photo>, StoreError> {
    several(
        db,
        &format!("{PHOTO} AND photo.stop = ?1 AND {SHOWN}"),
        stop,
    )
}

/// The photos of a head, the newest first.
pub fn of_head(db: &Connection, head: Uuid) -> Result<Vec<Photo>, StoreError> {
    several(
        db,
        &format!("{PHOTO} AND photo.head = ?1 AND {SHOWN}"),
        head,
    )
}

/// Names of all photos that any change tells of, removed ones too.
pub fn is_named(db: &Connection, name: PhotoName) -> Result<bool, StoreError> {
    Ok(db
        .prepare_cached("SELECT 1 FROM photo WHERE name = ?1")?
        .exists(params![name])?)
}

fn several(db: &Connection, sql: &str, id: Uuid) -> Result<Vec<Photo>, StoreError> {
    let mut statement = db.prepare_cached(sql)?;
    let rows = statement.query_map([id], read)?;
    let mut photos: Vec<Photo> = rows.collect::<Result<_, _>>()?;
    photos.sort_by_key(|photo| std::cmp::Reverse((photo.recorded_at, photo.id)));
    Ok(photos)
}

fn read(row: &Row) -> rusqlite::Result<Photo> {
    Ok(Photo {
        id: row.get(0)?,
        planting: row.get(1)?,
        walk: row.get(2)?,
        stop: row.get(3)?,
        head: row.get(4)?,
        name: row.get(5)?,
        bytes: row.get(6)?,
        width: row.get(7)?,
        height: row.get(8)?,
        taken: row.get(9)?,
        caption: row.get(10)?,
        recorded_at: instant(row.get(11)?, row.get(12)?),
        removed: row.get(13)?,
        walked_on: row.get(14)?,
    })
}
