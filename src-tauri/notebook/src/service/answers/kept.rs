//! The table `answer`.

use std::collections::BTreeMap;

use ripening::Band;
use rusqlite::{Connection, Transaction, TransactionBehavior, params};
use uuid::Uuid;

use super::{EARLIER, Latest, data_version, position};
use crate::StoreError;
use crate::service::{Answers, Settings};
use crate::views::walks::Walk;

/// Raised when the model's answer to the same heads changes.
const MODEL: u32 = 3;

/// Everything but the heads that an answer stands on.
pub(super) fn made_by(settings: &Settings) -> String {
    format!(
        "model {MODEL}, level {}, target {} {}, cost {} {} {}",
        settings.level,
        settings.target_stage_chance,
        settings.target_position_width,
        settings.minutes_per_stop,
        settings.minutes_per_head,
        settings.heads_per_stop
    )
}

/// The answers of all these walks, if all are kept.
pub(super) fn whole(
    db: &Connection,
    made_by: &str,
    walks: &[Walk],
) -> Result<Option<Vec<Answers>>, StoreError> {
    walks.iter().map(|walk| one(db, made_by, walk)).collect()
}

/// What a list shows of a planting, if the answers of all its walks are kept.
pub(super) fn latest(
    db: &Connection,
    made_by: &str,
    planting: Uuid,
    walks: &[Walk],
) -> Result<Option<Latest>, StoreError> {
    let mut statement = db.prepare_cached(
        "SELECT walk, heads, low, mid, high FROM answer WHERE planting = ?1 AND made_by = ?2",
    )?;
    let mut bands: BTreeMap<Uuid, Option<Band>> = BTreeMap::new();
    let mut rows = statement.query(params![planting, made_by])?;
    while let Some(row) = rows.next()? {
        let heads: u32 = row.get(1)?;
        let band = match (row.get(2)?, row.get(3)?, row.get(4)?) {
            (Some(low), Some(mid), Some(high)) if heads > 0 => Some(Band { low, mid, high }),
            _ => None,
        };
        bands.insert(row.get(0)?, band);
    }
    let Some(bands) = walks
        .iter()
        .map(|walk| Some((walk, *bands.get(&walk.id)?)))
        .collect::<Option<Vec<_>>>()
    else {
        return Ok(None);
    };
    let mut with_heads: Vec<(&Walk, Band)> = bands
        .into_iter()
        .filter_map(|(walk, band)| Some((walk, band?)))
        .collect();
    let last = match with_heads.pop() {
        Some((walk, _)) => match one(db, made_by, walk)? {
            Some(answers) => Some((walk.id, answers)),
            None => return Ok(None),
        },
        None => None,
    };
    let first = with_heads.len().saturating_sub(EARLIER);
    Ok(Some(Latest {
        last,
        earlier: with_heads
            .iter()
            .skip(first)
            .map(|(_, band)| *band)
            .collect(),
    }))
}

fn one(db: &Connection, made_by: &str, walk: &Walk) -> Result<Option<Answers>, StoreError> {
    let mut statement = db.prepare_cached(
        "SELECT value FROM answer WHERE walk = ?1 AND planting = ?2 AND made_by = ?3",
    )?;
    let mut rows = statement.query(params![walk.id, walk.planting, made_by])?;
    let Some(row) = rows.next()? else {
        return Ok(None);
    };
    Ok(serde_json::from_str(row.get_ref(0)?.as_str().unwrap_or_default()).ok())
}

/// Keeps answers. That is a convenience: a full or read-only device must not
/// stand in the way of an answer, so trouble here is passed over.
pub(super) fn keep(
    db: &Connection,
    as_of: i64,
    made_by: &str,
    plantings: &[(Uuid, &[Walk], &Vec<Answers>)],
) {
    if plantings.iter().any(|(_, walks, _)| !walks.is_empty()) {
        let _ = write(db, as_of, made_by, plantings);
    }
}

fn write(
    db: &Connection,
    as_of: i64,
    made_by: &str,
    plantings: &[(Uuid, &[Walk], &Vec<Answers>)],
) -> Result<(), StoreError> {
    let tx = Transaction::new_unchecked(db, TransactionBehavior::Immediate)?;
    // Another connection wrote while this one computed: what it dropped must not
    // come back from older heads.
    if data_version(&tx)? != as_of {
        return Ok(());
    }
    {
        let mut statement = tx.prepare_cached(
            "INSERT OR REPLACE INTO answer (walk, planting, made_by, heads, low, mid, high, value)
             VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8)",
        )?;
        for (planting, walks, answers) in plantings {
            for (walk, answer) in walks.iter().zip(answers.iter()) {
                let band = position(answer);
                statement.execute(params![
                    walk.id,
                    planting,
                    made_by,
                    answer.alone.map_or(0, |alone| alone.heads),
                    band.map(|band| band.low),
                    band.map(|band| band.mid),
                    band.map(|band| band.high),
                    serde_json::to_string(answer)?,
                ])?;
            }
        }
    }
    tx.commit()?;
    Ok(())
}
