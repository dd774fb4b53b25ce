//! Where the series of a log are not whole.

use std::fmt;

use rusqlite::Connection;
use uuid::Uuid;

use crate::error::StoreError;
use crate::log::{self, Digest};

/// A place where a series is not whole.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LogFault {
    /// Whose series.
    pub device: Uuid,
    /// At which number.
    pub seq: u64,
    /// What is wrong.
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
    /// The series claims a later time than its changes have.
    Clock,
    /// Up to the change, the series does not hold what its device signed.
    NotSigned,
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
            LogFaultKind::Clock => write!(
                formatter,
                "the series of device {device} gives a later time than its {seq} changes have"
            ),
            LogFaultKind::NotSigned => write!(
                formatter,
                "the changes of device {device} up to {seq} are not those that it signed"
            ),
        }
    }
}

/// How many changes the log holds, and where a series is not whole: 1, 2, 3...
/// up to its head, each change with the digest of everything up to it.
///
/// # Errors
/// When the store fails.
pub fn log_faults(db: &Connection) -> Result<(u64, Vec<LogFault>), StoreError> {
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
    faults.extend(clocks(db)?);
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

/// Series whose own clock was set beyond that of their changes: the next change of
/// this device would be stamped behind it.
fn clocks(db: &Connection) -> Result<Vec<LogFault>, StoreError> {
    let mut statement = db.prepare(
        "SELECT series.device, series.head FROM series
         WHERE series.hlc > (SELECT max(hlc) FROM change WHERE change.device = series.device)",
    )?;
    let rows = statement.query_map([], |row| {
        Ok(LogFault {
            device: row.get(0)?,
            seq: row.get(1)?,
            kind: LogFaultKind::Clock,
        })
    })?;
    Ok(rows.collect::<Result<_, _>>()?)
}
