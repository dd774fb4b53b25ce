//! The table `answer`.

use std::collections::BTreeMap;

use ripening::Band;
use rusqlite::types::ValueRef;
use rusqlite::{Connection, Transaction, TransactionBehavior, params};
use sha2::{Digest as _, Sha256};
use uuid::Uuid;

use super::heat::Way;
use super::{EARLIER, Latest, data_version, position};
use crate::{Answers, Settings};
use notebook::StoreError;
use notebook::views::walks::Walk;

/// Raised when the model's answer to the same heads changes.
const MODEL: u32 = 7;

/// Of each of a planting's walks, everything but the heads that its answer stands
/// on: the model, the settings, and how the planting came to it.
pub(super) struct MadeBy(Vec<String>);

impl MadeBy {
    pub(super) fn of(settings: &Settings, ways: &[Way]) -> MadeBy {
        let all = format!(
            "model {MODEL}, level {}, target {} {}, cost {} {} {}, way ",
            settings.level,
            settings.target_stage_chance,
            settings.target_position_width,
            settings.minutes_per_stop,
            settings.minutes_per_head,
            settings.heads_per_stop
        );
        MadeBy(ways.iter().map(|way| format!("{all}{way}")).collect())
    }

    /// That of the last walk alone.
    pub(super) fn of_last(&self) -> MadeBy {
        MadeBy(self.0.last().into_iter().cloned().collect())
    }

    /// Each walk with its own.
    fn with<'a>(&'a self, walks: &'a [Walk]) -> impl Iterator<Item = (&'a Walk, &'a str)> {
        walks.iter().zip(self.0.iter().map(String::as_str))
    }
}

/// A planting's answers, to be kept.
pub(super) struct ToKeep<'a> {
    pub walks: &'a [Walk],
    pub made_by: &'a MadeBy,
    pub answers: &'a [Answers],
}

/// The answers of all these walks, if all are kept.
pub(super) fn whole(
    db: &Connection,
    made_by: &MadeBy,
    walks: &[Walk],
) -> Result<Option<Vec<Answers>>, StoreError> {
    made_by
        .with(walks)
        .map(|(walk, made_by)| one(db, made_by, walk))
        .collect()
}

/// What a list shows of a planting, if the answers of all its walks are kept. The
/// answer of the last may be known otherwise.
pub(super) fn latest(
    db: &Connection,
    made_by: &MadeBy,
    planting: Uuid,
    walks: &[Walk],
    of_last: Option<Answers>,
) -> Result<Option<Latest>, StoreError> {
    let in_table = match (&of_last, walks) {
        (Some(_), [earlier @ .., _]) => earlier,
        _ => walks,
    };
    let Some(mut with_heads) = bands(db, made_by, planting, in_table)? else {
        return Ok(None);
    };
    let last = match (of_last, walks.last()) {
        (Some(answers), Some(walk)) if answers.alone.is_some() => Some((walk.id, answers)),
        _ => match with_heads.pop() {
            Some((walk, made_by, _)) => match one(db, made_by, walk)? {
                Some(answers) => Some((walk.id, answers)),
                None => return Ok(None),
            },
            None => None,
        },
    };
    let first = with_heads.len().saturating_sub(EARLIER);
    Ok(Some(Latest {
        last,
        earlier: with_heads
            .iter()
            .skip(first)
            .map(|(.., band)| *band)
            .collect(),
    }))
}

/// A walk, what made its answer, and its position.
type Placed<'a> = (&'a Walk, &'a str, Band);

/// Those of the walks that have heads, each with its position, if all are kept.
fn bands<'a>(
    db: &Connection,
    made_by: &'a MadeBy,
    planting: Uuid,
    walks: &'a [Walk],
) -> Result<Option<Vec<Placed<'a>>>, StoreError> {
    if walks.is_empty() {
        return Ok(Some(Vec::new()));
    }
    let mut wanted: BTreeMap<Uuid, &str> = made_by
        .with(walks)
        .map(|(walk, made_by)| (walk.id, made_by))
        .collect();
    let mut bands: BTreeMap<Uuid, Band> = BTreeMap::new();
    let mut statement = db.prepare_cached(
        "SELECT walk, made_by, heads, low, mid, high, seal FROM answer WHERE planting = ?1",
    )?;
    let mut rows = statement.query([planting])?;
    while let Some(row) = rows.next()? {
        let walk = row.get(0)?;
        let made_by = row.get_ref(1)?.as_str().unwrap_or_default();
        let heads: u32 = row.get(2)?;
        let ends: Ends = (row.get(3)?, row.get(4)?, row.get(5)?);
        let seal = seal_of_row(walk, planting, made_by, heads, ends);
        if wanted.get(&walk) != Some(&made_by) || !is_sealed(row.get_ref(6)?, 0, seal) {
            continue;
        }
        wanted.remove(&walk);
        if let (Some(low), Some(mid), Some(high)) = ends
            && heads > 0
        {
            bands.insert(walk, Band { low, mid, high });
        }
    }
    let with_heads = made_by
        .with(walks)
        .filter_map(|(walk, made_by)| Some((walk, made_by, *bands.get(&walk.id)?)));
    Ok(wanted.is_empty().then(|| with_heads.collect()))
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
pub(super) fn keep(db: &Connection, as_of: i64, plantings: &[ToKeep<'_>]) {
    if plantings.iter().any(|one| !one.walks.is_empty()) {
        let _ = write(db, as_of, plantings);
    }
}

fn write(db: &Connection, as_of: i64, plantings: &[ToKeep<'_>]) -> Result<(), StoreError> {
    let tx = Transaction::new_unchecked(db, TransactionBehavior::Immediate)?;
    // Another connection wrote while this one computed: what it dropped must not
    // come back from older heads.
    if data_version(&tx)? != as_of {
        return Ok(());
    }
    {
        // What is there already is not written once more.
        let mut statement = tx.prepare_cached(
            "INSERT INTO answer (walk, planting, made_by, heads, low, mid, high, value, seal)
             VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9)
             ON CONFLICT (walk) DO UPDATE SET
               planting = excluded.planting, made_by = excluded.made_by,
               heads = excluded.heads, low = excluded.low, mid = excluded.mid,
               high = excluded.high, value = excluded.value, seal = excluded.seal
             WHERE (answer.planting, answer.made_by, answer.heads, answer.low, answer.mid,
                    answer.high, answer.value, answer.seal)
                IS NOT (excluded.planting, excluded.made_by, excluded.heads, excluded.low,
                        excluded.mid, excluded.high, excluded.value, excluded.seal)",
        )?;
        for one in plantings {
            for ((walk, made_by), answer) in one.made_by.with(one.walks).zip(one.answers) {
                let band = position(answer);
                let heads = answer.alone.map_or(0, |alone| alone.heads);
                let value = serde_json::to_string(answer)?;
                let ends = (
                    band.map(|band| band.low),
                    band.map(|band| band.mid),
                    band.map(|band| band.high),
                );
                let planting = walk.planting;
                let mut seal = [0; 2 * HALF];
                seal[..HALF].copy_from_slice(&seal_of_row(walk.id, planting, made_by, heads, ends));
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
