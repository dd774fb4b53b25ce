//! One line of the log.

use std::borrow::Cow;
use std::io::BufRead;

use serde::{Deserialize, Serialize};
use uuid::Uuid;

use super::ArchiveFault;
use super::manifest::{bytes_of_hex, hex};
use crate::log::{Change, Hlc, MAX_BODY, MAX_KIND};

/// Longest line: every byte of kind and body written as `\u0000`, and the rest.
const LONGEST: usize = 6 * (MAX_BODY + MAX_KIND) + 4096;

#[derive(Serialize, Deserialize)]
struct Line<'a> {
    device: Uuid,
    seq: u64,
    hlc: i64,
    recorded_ms: i64,
    offset_min: i32,
    #[serde(borrow)]
    kind: Cow<'a, str>,
    #[serde(borrow)]
    body: Cow<'a, str>,
    #[serde(borrow, default, skip_serializing_if = "Option::is_none")]
    raw: Option<Cow<'a, str>>,
}

/// A change as its line, without the end of the line.
pub(super) fn write(change: &Change) -> serde_json::Result<String> {
    serde_json::to_string(&Line {
        device: change.device,
        seq: change.seq,
        hlc: change.hlc.number(),
        recorded_ms: change.recorded_ms,
        offset_min: change.offset_min,
        kind: Cow::Borrowed(&change.kind),
        body: Cow::Borrowed(&change.body),
        raw: change.raw.as_deref().map(|raw| Cow::Owned(hex(raw))),
    })
}

/// The changes of a log, line by line.
pub(super) struct Lines<R> {
    from: R,
    line: Vec<u8>,
    number: u64,
}

impl<R: BufRead> Lines<R> {
    pub(super) fn of(from: R) -> Lines<R> {
        Lines {
            from,
            line: Vec::new(),
            number: 0,
        }
    }

    /// The next change; `None` at the end.
    pub(super) fn next(&mut self) -> Result<Option<Change>, ArchiveFault> {
        self.line.clear();
        self.number += 1;
        loop {
            let piece = self.from.fill_buf()?;
            if piece.is_empty() {
                break;
            }
            let end = piece.iter().position(|byte| *byte == b'\n');
            let taken = end.unwrap_or(piece.len());
            if self.line.len() + taken > LONGEST {
                return Err(self.fault("it is too long"));
            }
            self.line.extend_from_slice(&piece[..taken]);
            self.from.consume(taken + usize::from(end.is_some()));
            if end.is_some() {
                return self.parse().map(Some);
            }
        }
        if self.line.is_empty() {
            Ok(None)
        } else {
            Err(self.fault("it does not end"))
        }
    }

    fn parse(&self) -> Result<Change, ArchiveFault> {
        let line: Line =
            serde_json::from_slice(&self.line).map_err(|error| self.fault(&error.to_string()))?;
        if let Some(raw) = &line.raw {
            let raw = bytes_of_hex(raw).ok_or_else(|| self.fault("its bytes are no digits"))?;
            let change = Change::unreadable(line.device, line.seq, &raw);
            return match change.fault() {
                Some(fault) => Err(self.fault(fault)),
                None => Ok(change),
            };
        }
        let change = Change {
            device: line.device,
            seq: line.seq,
            hlc: Hlc::new(line.hlc).ok_or_else(|| self.fault("its clock is out of range"))?,
            recorded_ms: line.recorded_ms,
            offset_min: line.offset_min,
            kind: line.kind.into_owned(),
            body: line.body.into_owned(),
            raw: None,
        };
        match change.fault() {
            Some(fault) => Err(self.fault(fault)),
            None => Ok(change),
        }
    }

    pub(super) fn fault(&self, reason: &str) -> ArchiveFault {
        ArchiveFault::Line {
            line: self.number,
            reason: reason.to_owned(),
        }
    }
}
