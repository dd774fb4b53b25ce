//! Whether a notebook is whole.

use std::collections::BTreeMap;

use rusqlite::Connection;
use uuid::Uuid;

use super::seals::{self, SealFault};
use crate::apply;
use crate::disk::integrity;
use crate::disk::lease;
use crate::disk::log_faults::{LogFault, LogFaultKind, log_faults};
use crate::error::StoreError;
use crate::log::{self};
use crate::notebook::Notebook;
use crate::notebook::tell_again::own_ahead;
use crate::{open, own_id, setting};

/// What is said of an id that is not the one given.
const OWN_ID: &str = "this device's id is not the one it was given";

/// What a look at the whole notebook found.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Check {
    /// What SQLite finds wrong with the file, and tables, indexes and triggers that
    /// are not those Headwalk makes.
    pub file: Vec<String>,
    /// What the notebook showed as saved and does not hold.
    pub lacks: Option<String>,
    /// Set where this device's id is another than was given: it can take a new one.
    pub own_id_altered: bool,
    /// Where a series of the log is not whole.
    pub log: Vec<LogFault>,
    /// Views that say something else than the log: these can be filled anew.
    pub views: Vec<&'static str>,
    /// Seals and keys that were altered; what they sealed was not. They can be let go,
    /// and the next exchange brings others.
    pub seals: Vec<SealFault>,
    /// Changes read.
    pub changes: u64,
}

impl Check {
    /// Whether nothing was found.
    pub fn is_sound(&self) -> bool {
        !self.is_damaged() && self.views.is_empty() && !self.own_id_altered && self.seals.is_empty()
    }

    /// Whether the log itself, or the file it lies in, is damaged or lacks something:
    /// what the views still show of it is then not to be made anew from the log.
    pub fn is_damaged(&self) -> bool {
        !self.file.is_empty() || !self.log.is_empty() || self.lacks.is_some()
    }

    /// The first thing found, in one line.
    pub fn first_fault(&self) -> Option<String> {
        let view = || {
            self.views
                .first()
                .map(|view| format!("the view '{view}' does not say what the log says"))
        };
        self.file
            .first()
            .cloned()
            .or_else(|| self.log.first().map(ToString::to_string))
            .or_else(|| self.lacks.clone())
            .or_else(|| self.own_id_altered.then(|| OWN_ID.to_owned()))
            .or_else(view)
            .or_else(|| self.seals.first().map(ToString::to_string))
    }
}

impl Notebook {
    /// Looks at everything, in one state of the notebook, whatever others record
    /// meanwhile. Reads only.
    ///
    /// # Errors
    /// As [`check`].
    pub fn check(&self) -> Result<Check, StoreError> {
        // Before the look begins: what is named now is in every later state.
        let named = self.last_saved();
        let tx = self.db().unchecked_transaction()?;
        let mut found = check(&tx)?;
        if let Some(named) = named.filter(|named| found.file.is_empty() && !named.is_in(&tx)) {
            found.lacks.get_or_insert_with(|| lease::lacks(&named));
        }
        if let Some(copied) = self.copied_from()
            && let Err(StoreError::Lacks(what)) = copied.judge(&tx)
        {
            found.lacks.get_or_insert(what);
        }
        Ok(found)
    }
}

/// Looks at everything that one connection shows. Reads only. The caller holds a
/// transaction where others may write.
///
/// # Errors
/// When the store fails; damage so grave that nothing can be read is an error too.
pub fn check(db: &Connection) -> Result<Check, StoreError> {
    looked(db).map_err(StoreError::or_damage)
}

fn looked(db: &Connection) -> Result<Check, StoreError> {
    let mut file = integrity::integrity(db)?;
    if file.is_empty() {
        file.extend(schema(db)?);
    }
    if file.is_empty() {
        let settings = setting::all(db)?;
        file.extend(settings.altered.iter().map(|name| setting::altered(name)));
    }
    if !file.is_empty() {
        return Ok(Check {
            file,
            ..Check::default()
        });
    }
    let (changes, mut log) = log_faults(db)?;
    let lacks = if log.is_empty() {
        beyond_log(db)?
    } else {
        None
    };
    let views = if log.is_empty() && lacks.is_none() {
        views(db)?
    } else {
        Vec::new()
    };
    let mut altered = Vec::new();
    if log.is_empty() {
        // Where the log itself is not whole, no chain could be followed.
        let looked = seals::look(db)?;
        altered = looked.altered;
        log.extend(looked.unsigned.into_iter().map(|(device, seq)| LogFault {
            device,
            seq,
            kind: LogFaultKind::NotSigned,
        }));
    }
    Ok(Check {
        file,
        lacks,
        own_id_altered: own_id::is_altered(db)?,
        log,
        views,
        seals: altered,
        changes,
    })
}

/// Tables, indexes and triggers that are missing, or are not those that Headwalk
/// makes: what they do with a change nobody knows.
fn schema(db: &Connection) -> Result<Vec<String>, StoreError> {
    let here = made(db)?;
    let ours = made(&open::open_in_memory()?)?;
    let missing = ours
        .iter()
        .filter(|(named, _)| !here.contains_key(named))
        .map(|((kind, name), _)| format!("the {kind} '{name}' is missing"));
    let other = here.iter().filter_map(|(named, sql)| {
        let (kind, name) = named;
        match ours.get(named) {
            None => Some(format!("the {kind} '{name}' is not of Headwalk")),
            Some(made) if made != sql => {
                Some(format!("the {kind} '{name}' is not as Headwalk makes it"))
            }
            Some(_) => None,
        }
    });
    Ok(missing
        .chain(other)
        .take(integrity::MOST_TOLD as usize)
        .collect())
}

/// What a database is made of, by kind and name, with the statement that made it.
type Made = BTreeMap<(String, String), Option<String>>;

fn made(db: &Connection) -> Result<Made, StoreError> {
    let mut statement = db.prepare(
        "SELECT type, name, sql FROM sqlite_schema WHERE substr(name, 1, 7) <> 'sqlite_'",
    )?;
    let rows = statement.query_map([], |row| Ok(((row.get(0)?, row.get(1)?), row.get(2)?)))?;
    Ok(rows.collect::<Result<_, _>>()?)
}

/// A change that the views show and the log does not hold: the log was shortened. One
/// that a single row names is a row altered on the disk, which is made anew.
fn beyond_log(db: &Connection) -> Result<Option<String>, StoreError> {
    let ends = log::heads(db)?;
    let end_of = |device: &Uuid| ends.get(device).map_or(0, |end| end.seq);
    let mut named: BTreeMap<(Uuid, u64), u64> = BTreeMap::new();
    for (view, device, seq) in naming_columns(db)? {
        let last: Vec<(Uuid, u64)> = db
            .prepare(&format!(
                "SELECT {device}, max({seq}) FROM {view}
                 WHERE typeof({device}) = 'blob' AND length({device}) = 16 AND {seq} > 0
                 GROUP BY {device}"
            ))?
            .query_map([], |row| Ok((row.get(0)?, row.get(1)?)))?
            .collect::<Result<_, _>>()?;
        for (writer, _) in last.iter().filter(|(writer, seq)| *seq > end_of(writer)) {
            let mut rows = db.prepare(&format!(
                "SELECT {seq}, count(*) FROM {view} WHERE {device} = ?1 AND {seq} > ?2
                 GROUP BY {seq}"
            ))?;
            for row in rows.query_map((writer, end_of(writer)), |row| {
                Ok((row.get::<_, u64>(0)?, row.get::<_, u64>(1)?))
            })? {
                let (seq, rows) = row?;
                *named.entry((*writer, seq)).or_default() += rows;
            }
        }
    }
    Ok(named
        .into_iter()
        .find(|(_, rows)| *rows > 1)
        .map(|((device, seq), _)| {
            let end = end_of(&device);
            format!("the screens show change {seq} of device {device}, and the log ends at {end}")
        }))
}

/// Columns of the views by which rows name the changes they come from: the view, the
/// column of the device, the column of the number.
fn naming_columns(db: &Connection) -> Result<Vec<(&'static str, String, String)>, StoreError> {
    let mut found = Vec::new();
    for view in apply::view_names() {
        let columns: Vec<String> = db
            .prepare("SELECT name FROM pragma_table_info(?1)")?
            .query_map([view], |row| row.get(0))?
            .collect::<Result<_, _>>()?;
        for device in &columns {
            let seq = device
                .strip_suffix("device")
                .map(|part| format!("{part}seq"));
            if let Some(seq) = seq.filter(|seq| columns.contains(seq)) {
                found.push((view, device.clone(), seq));
            }
        }
    }
    Ok(found)
}

/// What is no damage and should be known all the same: changes that do not count, and
/// stamps ahead of the clock. Each in one line: what, and what to do.
///
/// # Errors
/// When the store fails.
pub fn remarks(notebook: &Notebook) -> Result<Vec<String>, StoreError> {
    let db = notebook.db();
    let (unusable, waiting): (u32, u32) = db.query_row(
        "SELECT count(*) FILTER (WHERE reason IN ('unreadable', 'out_of_bounds')),
                count(*) FILTER (WHERE reason = 'waiting') FROM set_aside",
        [],
        |row| Ok((row.get(0)?, row.get(1)?)),
    )?;
    let ahead = own_ahead(db, notebook.device(), notebook.horizon())?;
    let mut remarks = Vec::new();
    if unusable > 0 {
        remarks.push(format!(
            "{unusable} changes or parts of changes cannot be used and are set aside: a newer \
             version may read them"
        ));
    }
    if waiting > 0 {
        remarks.push(format!(
            "{waiting} changes of other devices are stamped ahead of this clock and wait: check \
             the date on both"
        ));
    }
    if ahead > 0 {
        remarks.push(format!(
            "{ahead} changes of this device are stamped ahead of its clock and wait on every \
             other: check the date here, then record them again"
        ));
    }
    Ok(remarks)
}

/// Views that differ from those that the log gives, made anew in memory.
///
/// # Errors
/// When the store fails.
pub fn views(db: &Connection) -> Result<Vec<&'static str>, StoreError> {
    let anew = open::open_in_memory()?;
    anew.execute_batch("BEGIN")?;
    // Which changes wait follows from the clock as it was; all else from the log.
    apply::fill(db, &anew, &apply::Waiting::listed(db)?)?;
    let ours = apply::digests(db)?;
    let theirs = apply::digests(&anew)?;
    Ok(ours
        .into_iter()
        .zip(theirs)
        .filter(|(ours, theirs)| ours != theirs)
        .map(|((view, _), _)| view)
        .collect())
}
