//! The table `answer`.

use std::collections::BTreeMap;

use ripening::Band;
use rusqlite::types::ValueRef;
use rusqlite::{Connection, Transaction, TransactionBehavior, params};
use sha2::{Digest as _, Sha256};
use uuid::Uuid;

use super::{EARLIER, Latest, data_version, position};
use crate::StoreError;
use crate::service::{Answers, Settings};
use crate::views::walks::Walk;

/// Raised when the model's answer to the same heads changes.
const MODEL: u32 = 3;

/// Everything but the heads that an answer stands on: the model, the settings, and
/// the heat that moved its history.
pub(super) fn made_by(settings: &Settings, moves: &str) -> String {
    format!(
        "model {MODEL}, level {}, target {} {}, cost {} {} {}, moved{moves}",
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
        "SELECT walk, heads, low, mid, high, seal FROM answer
         WHERE planting = ?1 AND made_by = ?2",
    )?;
    let mut bands: BTreeMap<Uuid, Option<Band>> = BTreeMap::new();
    let mut rows = statement.query(params![planting, made_by])?;
    while let Some(row) = rows.next()? {
        let walk = row.get(0)?;
        let heads: u32 = row.get(1)?;
        let ends: Ends = (row.get(2)?, row.get(3)?, row.get(4)?);
        if !is_sealed(
            row.get_ref(5)?,
            0,
            seal_of_row(walk, planting, made_by, heads, ends),
        ) {
            continue;
        }
        let band = match ends {
            (Some(low), Some(mid), Some(high)) if heads > 0 => Some(Band { low, mid, high }),
            _ => None,
        };
        bands.insert(walk, band);
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
        "SELECT value, seal FROM answer WHERE walk = ?1 AND planting = ?2 AND made_by = ?3",
    )?;
    let mut rows = statement.query(params![walk.id, walk.planting, made_by])?;
    let Some(row) = rows.next()? else {
        return Ok(None);
    };
    let value = row.get_ref(0)?.as_bytes().unwrap_or_default();
    if !is_sealed(row.get_ref(1)?, HALF, digest(value)) {
        return Ok(None);
    }
    Ok(serde_json::from_slice(value).ok())
}

/// Bytes of a seal for the row, and as many for the value.
const HALF: usize = 8;

/// Ends and middle of a band.
type Ends = (Option<f64>, Option<f64>, Option<f64>);

fn digest(bytes: &[u8]) -> [u8; HALF] {
    let whole: [u8; 32] = Sha256::digest(bytes).into();
    std::array::from_fn(|place| whole[place])
}

/// Seal of all of a row but its value.
fn seal_of_row(
    walk: Uuid,
    planting: Uuid,
    made_by: &str,
    heads: u32,
    (low, mid, high): Ends,
) -> [u8; HALF] {
    let mut bytes = Vec::with_capacity(160);
    bytes.extend(walk.as_bytes());
    bytes.extend(planting.as_bytes());
    bytes.extend(heads.to_be_bytes());
    for end in [low, mid, high] {
        bytes.extend(end.map_or(u64::MAX, f64::to_bits).to_be_bytes());
    }
    bytes.extend(made_by.as_bytes());
    digest(&bytes)
}

/// Whether a half of the seal is this.
fn is_sealed(seal: ValueRef, from: usize, wanted: [u8; HALF]) -> bool {
    seal.as_bytes()
        .ok()
        .and_then(|seal| seal.get(from..from + HALF))
        .is_some_and(|half| half == wanted)
}

/// Keeps answers. That is a convenience: a full or read-only device must not
/// stand in the way of an answer, so trouble here is passed over.
pub(super) fn keep(
    db: &Connection,
    as_of: i64,
    plantings: &[(Uuid, &str, &[Walk], &Vec<Answers>)],
) {
    if plantings.iter().any(|(_, _, walks, _)| !walks.is_empty()) {
        let _ = write(db, as_of, plantings);
    }
}

fn write(
    db: &Connection,
    as_of: i64,
    plantings: &[(Uuid, &str, &[Walk], &Vec<Answers>)],
) -> Result<(), StoreError> {
    let tx = Transaction::new_unchecked(db, TransactionBehavior::Immediate)?;
    // Another connection wrote while this one computed: what it dropped must not
    // come back from older heads.
    if data_version(&tx)? != as_of {
        return Ok(());
    }
    {
        let mut statement = tx.prepare_cached(
            "INSERT OR REPLACE INTO answer (walk, planting, made_by, heads, low, mid, high, value,
                                            seal)
             VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9)",
        )?;
        for (planting, made_by, walks, answers) in plantings {
            for (walk, answer) in walks.iter().zip(answers.iter()) {
                let band = position(answer);
                let heads = answer.alone.map_or(0, |alone| alone.heads);
                let value = serde_json::to_string(answer)?;
                let ends = (
                    band.map(|band| band.low),
                    band.map(|band| band.mid),
                    band.map(|band| band.high),
                );
                let mut seal = [0; 2 * HALF];
                seal[..HALF]
                    .copy_from_slice(&seal_of_row(walk.id, *planting, made_by, heads, ends));
                seal[HALF..].copy_from_slice(&digest(value.as_bytes()));
                statement.execute(params![
                    walk.id, planting, made_by, heads, ends.0, ends.1, ends.2, value, seal,
                ])?;
            }
        }
    }
    tx.commit()?;
    Ok(())
}
