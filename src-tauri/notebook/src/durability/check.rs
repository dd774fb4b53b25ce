//! Whether a notebook is whole.

use std::fmt;

use rusqlite::Connection;
use uuid::Uuid;

use crate::apply;
use crate::error::StoreError;
use crate::log::{self, Digest};
use crate::notebook::Notebook;
use crate::tell_again::own_ahead;
use crate::{open, setting};

/// Faults of the file that are told.
const TOLD: u32 = 10;

/// What a look at the whole notebook found.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Check {
    /// What SQLite finds wrong with the file.
    pub file: Vec<String>,
    /// Where a series of the log is not whole.
    pub log: Vec<LogFault>,
    /// Views that say something else than the log: these can be filled anew.
    pub views: Vec<&'static str>,
    /// Changes read.
    pub changes: u64,
}

impl Check {
    /// Whether nothing was found.
    pub fn is_sound(&self) -> bool {
        self.file.is_empty() && self.log.is_empty() && self.views.is_empty()
    }

    /// Whether the log itself, or the file it lies in, is damaged.
    pub fn is_damaged(&self) -> bool {
        !self.file.is_empty() || !self.log.is_empty()
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
            .or_else(view)
    }
}

/// A place where a series is not whole.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LogFault {
    /// Whose series.
    pub device: Uuid,
    /// At which number.
    pub seq: u64,
    /// What.
    pub kind: LogFaultKind,
}

/// What is wrong in a series.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LogFaultKind {
    /// The change is not there.
    Missing,
    /// It does not say what was written.
    Altered,
    /// The series ends elsewhere than it should.
    End,
}

impl fmt::Display for LogFault {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        let LogFault { device, seq, kind } = self;
        match kind {
            LogFaultKind::Missing => {
                write!(formatter, "change {seq} of device {device} is missing")
            }
            LogFaultKind::Altered => write!(
                formatter,
                "change {seq} of device {device} does not say what was written"
            ),
            LogFaultKind::End => write!(
                formatter,
                "the series of device {device} does not end at change {seq}, where it should"
            ),
        }
    }
}

/// Looks at everything. Reads only.
///
/// # Errors
/// When the store fails; damage so grave that nothing can be read is an error too.
pub fn check(db: &Connection) -> Result<Check, StoreError> {
    looked(db).map_err(StoreError::or_damage)
}

fn looked(db: &Connection) -> Result<Check, StoreError> {
    let mut file = integrity(db)?;
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
    let (changes, log) = log(db)?;
    let views = if log.is_empty() {
        views(db)?
    } else {
        Vec::new()
    };
    Ok(Check {
        file,
        log,
        views,
        changes,
    })
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

/// What SQLite finds wrong with the file: its pages, its tables, its indexes.
///
/// # Errors
/// When it cannot even look.
pub fn integrity(db: &Connection) -> Result<Vec<String>, StoreError> {
    let mut statement = db.prepare(&format!("PRAGMA integrity_check({TOLD})"))?;
    let found = statement
        .query_map([], |row| row.get::<_, String>(0))?
        .collect::<Result<Vec<_>, _>>()?;
    Ok(found.into_iter().filter(|line| line != "ok").collect())
}

/// How many changes the log holds, and where a series is not whole: 1, 2, 3...
/// up to its head, each change with the digest of everything up to it.
///
/// # Errors
/// When the store fails.
pub fn log(db: &Connection) -> Result<(u64, Vec<LogFault>), StoreError> {
    let heads = log::heads(db)?;
    let mut ends: Vec<(Uuid, u64, Option<Digest>)> = Vec::new();
    let mut faults = Vec::new();
    let mut changes = 0;
    log::each_with_digest(db, |change, digest| {
        changes += 1;
        if ends
            .last()
            .is_none_or(|(device, ..)| *device != change.device)
        {
            ends.push((change.device, 0, None));
        }
        let Some((device, seq, before)) = ends.last_mut() else {
            return;
        };
        let mut fault = |seq, kind| {
            faults.push(LogFault {
                device: *device,
                seq,
                kind,
            });
        };
        if change.seq == *seq + 1 {
            if change.digest(before.as_ref()) != digest {
                fault(change.seq, LogFaultKind::Altered);
            }
        } else {
            fault(*seq + 1, LogFaultKind::Missing);
        }
        *seq = change.seq;
        *before = Some(digest);
    })?;
    for (device, head) in &heads {
        let end = ends.iter().find(|(known, ..)| known == device);
        if end.is_none_or(|(_, seq, digest)| *seq != head.seq || *digest != Some(head.digest)) {
            faults.push(LogFault {
                device: *device,
                seq: head.seq,
                kind: LogFaultKind::End,
            });
        }
    }
    for (device, seq, _) in ends {
        if !heads.contains_key(&device) {
            faults.push(LogFault {
                device,
                seq,
                kind: LogFaultKind::End,
            });
        }
    }
    Ok((changes, faults))
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
