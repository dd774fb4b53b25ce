//! What is there and not removed.

use rusqlite::Connection;
use uuid::Uuid;

use crate::Problem;
use notebook::views::plantings;
use notebook::views::walks::{self, HeadRow, Stop, Walk};

/// A planting that is not removed; a merged one is the one it is shown as.
pub(crate) fn live_planting(db: &Connection, id: Uuid) -> Result<plantings::Planting, Problem> {
    plantings::one(db, plantings::shown(db, id)?)?
        .filter(|planting| !planting.removed)
        .ok_or_else(|| Problem::not_found("planting"))
}

/// A walk that is not removed, of a planting that is not removed.
pub(crate) fn live_walk(db: &Connection, id: Uuid) -> Result<Walk, Problem> {
    let walk = walks::walk(db, id)?
        .filter(|walk| !walk.removed)
        .ok_or_else(|| Problem::not_found("walk"))?;
    live_planting(db, walk.planting)?;
    Ok(walk)
}

/// A walk that may get further stops and heads.
pub(crate) fn open_walk(db: &Connection, id: Uuid) -> Result<Walk, Problem> {
    let walk = live_walk(db, id)?;
    if walk.finished {
        return Err(Problem::conflict(
            "this walk is finished: reopen it to add to it",
        ));
    }
    Ok(walk)
}

pub(crate) fn live_stop(db: &Connection, id: Uuid) -> Result<Stop, Problem> {
    let stop = walks::stop(db, id)?
        .filter(|stop| !stop.removed)
        .ok_or_else(|| Problem::not_found("stop"))?;
    live_walk(db, stop.walk)?;
    Ok(stop)
}

pub(crate) fn live_head(db: &Connection, id: Uuid) -> Result<HeadRow, Problem> {
    walks::head(db, id)?
        .filter(|head| !head.removed)
        .ok_or_else(|| Problem::not_found("head"))
}
