//! What this device did last in a walk.

use std::collections::BTreeSet;

use rusqlite::Connection;
use uuid::Uuid;

use crate::UndoWhat;
use notebook::StoreError;
use notebook::fact::{Act, Body};
use notebook::log::{self, Change};

/// A change that an undo would take back.
pub(crate) struct Step {
    pub change: Change,
    pub body: Body,
    pub what: UndoWhat,
}

/// The last thing that `device` did in a walk and has not taken back.
pub(crate) fn last_step(
    db: &Connection,
    device: Uuid,
    walk: Uuid,
) -> Result<Option<Step>, StoreError> {
    let mut undone: BTreeSet<u64> = BTreeSet::new();
    for seq in own_changes(db, device, walk)? {
        let Some(change) = log::change_at(db, device, seq?)? else {
            continue;
        };
        if undone.contains(&change.seq) {
            // Where it was itself an undo, what that took back counts again.
            continue;
        }
        let what = match change.act() {
            Act::HeadRead => UndoWhat::Head,
            Act::HeadCorrected => UndoWhat::Correction,
            Act::HeadRemoved => UndoWhat::Removal,
            Act::StopAdded => UndoWhat::Stop,
            Act::PhotoAdded => UndoWhat::Photo,
            Act::Undone => {
                undone.extend(Body::read(&change.body).undoes);
                continue;
            }
            _ => continue,
        };
        let body = Body::read(&change.body);
        return Ok(Some(Step { change, body, what }));
    }
    Ok(None)
}

/// Whether the last change of `device` in a walk was asked for by `request`.
pub(crate) fn just_did(
    db: &Connection,
    device: Uuid,
    walk: Uuid,
    request: Uuid,
) -> Result<bool, StoreError> {
    let Some(seq) = own_changes(db, device, walk)?.next().transpose()? else {
        return Ok(false);
    };
    Ok(log::change_at(db, device, seq)?
        .is_some_and(|change| Body::read(&change.body).request == Some(request)))
}

/// Numbers of the changes by `device` that speak of a walk, the latest first.
/// Read in pieces: the answer is nearly always among the first few.
pub(crate) fn own_changes(
    db: &Connection,
    device: Uuid,
    walk: Uuid,
) -> Result<impl Iterator<Item = Result<u64, StoreError>>, StoreError> {
    const PIECE: usize = 32;
    let mut before = i64::MAX;
    let mut piece: Vec<u64> = Vec::new();
    let mut more = true;
    let next_piece = move |before: i64| -> Result<Vec<u64>, StoreError> {
        let mut statement = db.prepare_cached(
            "SELECT seq FROM spoken_of WHERE id = ?1 AND device = ?2 AND seq < ?3
             ORDER BY seq DESC LIMIT ?4",
        )?;
        let rows = statement.query_map((walk, device, before, PIECE), |row| row.get(0))?;
        Ok(rows.collect::<Result<_, _>>()?)
    };
    Ok(std::iter::from_fn(move || {
        if piece.is_empty() && more {
            match next_piece(before) {
                Ok(found) => {
                    more = found.len() == PIECE;
                    piece = found;
                    piece.reverse();
                }
                Err(error) => {
                    more = false;
                    return Some(Err(error));
                }
            }
        }
        let seq = piece.pop()?;
        before = i64::try_from(seq).unwrap_or(i64::MAX);
        Some(Ok(seq))
    }))
}
