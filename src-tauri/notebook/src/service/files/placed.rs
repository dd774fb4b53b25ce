//! Rows of a head file with the ids that are made of them.
//!
//! All of it follows from the file alone, so a thread of its own reads ahead
//! while the rows before are stored.

use std::collections::HashMap;
use std::io::Read;
use std::sync::mpsc::{SyncSender, sync_channel};
use std::thread;

use chrono::NaiveDate;
use uuid::Uuid;

use crate::head_file::{FileHead, HeadFile, HeadFileError, RowFault, flag_words};
use crate::ids::content_id;

/// Rows that are handed over together.
const TOGETHER: usize = 1_000;
/// How often that may be ahead of what is stored.
const AHEAD: usize = 4;

/// A good row, and the ids of its walk, stop and head.
pub(super) struct Placed {
    pub row: FileHead,
    pub walk: Uuid,
    pub stop: Uuid,
    pub head: Uuid,
}

/// A row, good or bad, or why the file ends here.
type Next = Result<Result<Placed, RowFault>, HeadFileError>;

/// Calls `each` with every row of a file, in its order, until it fails.
pub(super) fn each_row<E: From<HeadFileError>>(
    source: impl Read + Send,
    mut each: impl FnMut(Result<Placed, RowFault>) -> Result<(), E>,
) -> Result<(), E> {
    thread::scope(|scope| {
        let (sender, rows) = sync_channel::<Vec<Next>>(AHEAD);
        thread::Builder::new()
            .spawn_scoped(scope, move || read_ahead(source, &sender))
            .map_err(HeadFileError::Io)?;
        // The receiver goes with an error of `each`, and ends the reading too.
        for row in rows.into_iter().flatten() {
            each(row?)?;
        }
        Ok(())
    })
}

fn read_ahead(source: impl Read, to: &SyncSender<Vec<Next>>) {
    let file = match HeadFile::open(source) {
        Ok(file) => file,
        Err(error) => {
            // Nobody listens any more: there is nobody to tell.
            let _ = to.send(vec![Err(error)]);
            return;
        }
    };
    let mut places = Places::default();
    let mut rows = file.map(|row| Ok(row?.map(|row| places.place(row))));
    loop {
        let together: Vec<Next> = rows.by_ref().take(TOGETHER).collect();
        if together.is_empty() || to.send(together).is_err() {
            return;
        }
    }
}

/// Gives rows their ids.
///
/// Ids come from the content, so a file imported twice, or on two phones, is
/// stored once. Two rows of one file that are equal are two heads: how many equal
/// rows came before is part of the content.
#[derive(Default)]
struct Places {
    /// The stop of the row before: rows of a stop mostly come together.
    before: Option<Stop>,
    times_seen: HashMap<Uuid, u32>,
}

/// Where a row's head was read, as the file says it, and the ids made of that.
struct Stop {
    planting: String,
    walked_on: NaiveDate,
    scout: String,
    name: String,
    walk: Uuid,
    id: Uuid,
}

impl Stop {
    fn of(row: &FileHead) -> Stop {
        let day = Some(row.walked_on);
        let date = row.walked_on.to_string();
        let scout = row.scout.clone().unwrap_or_default();
        Stop {
            walk: content_id(day, &["walk", &row.planting, &date]),
            id: content_id(day, &["stop", &row.planting, &date, &scout, &row.stop]),
            planting: row.planting.clone(),
            walked_on: row.walked_on,
            scout,
            name: row.stop.clone(),
        }
    }

    fn is_of(&self, row: &FileHead) -> bool {
        self.walked_on == row.walked_on
            && self.name == row.stop
            && self.planting == row.planting
            && self.scout == row.scout.as_deref().unwrap_or_default()
    }
}

impl Places {
    fn place(&mut self, row: FileHead) -> Placed {
        let stop = match self.before.take() {
            Some(before) if before.is_of(&row) => before,
            _ => Stop::of(&row),
        };
        let (walk, stop) = {
            let stop = self.before.insert(stop);
            (stop.walk, stop.id)
        };
        let content = content_of(&row, stop);
        let times = self.times_seen.entry(content).or_default();
        *times += 1;
        let head = content_id(
            Some(row.walked_on),
            &[
                "head",
                content.as_simple().encode_lower(&mut [0; 32]),
                &times.to_string(),
            ],
        );
        Placed {
            row,
            walk,
            stop,
            head,
        }
    }
}

/// One id for everything a row says, at its stop.
fn content_of(row: &FileHead, stop: Uuid) -> Uuid {
    let share = row
        .head
        .share()
        .map_or_else(String::new, |share| share.percent().to_string());
    let place = row
        .place
        .map_or_else(String::new, |(north, east)| format!("{north} {east}"));
    let flags = flag_words(&row.flags);
    let mut stop_text = [0; 36];
    let mut parts: Vec<&str> = Vec::with_capacity(6 + 2 * row.extra.len());
    parts.extend([
        &*stop.as_hyphenated().encode_lower(&mut stop_text),
        row.head.reading().word(),
        &share,
        &place,
        &flags,
        row.note.as_deref().unwrap_or_default(),
    ]);
    for (column, value) in &row.extra {
        parts.extend([column.as_str(), value.as_str()]);
    }
    content_id(None, &parts)
}

#[cfg(test)]
mod tests {
    use super::*;

    const HEADER: &str = "planting,walked_on,stop,reading,share\n";

    #[test]
    fn rows_come_in_their_order_over_many_handings() {
        let mut text = HEADER.to_owned();
        for row in 0..3 * TOGETHER + 7 {
            text += &format!("P,2026-08-01,{row},pliable,40\n");
        }
        let mut stops = Vec::new();
        each_row(text.as_bytes(), |row| {
            stops.push(row.map(|placed| placed.row.stop));
            Ok::<(), HeadFileError>(())
        })
        .unwrap();
        let expected: Vec<_> = (0..3 * TOGETHER + 7)
            .map(|row| Ok(row.to_string()))
            .collect();
        assert_eq!(stops, expected);
    }

    #[test]
    fn equal_rows_are_heads_of_their_own_and_the_same_ones_each_time() {
        let text = format!("{HEADER}P,2026-08-01,1,pliable,40\nP,2026-08-01,1,pliable,40\n");
        let heads = || {
            let mut heads = Vec::new();
            each_row(text.as_bytes(), |row| {
                heads.push(row.unwrap().head);
                Ok::<(), HeadFileError>(())
            })
            .unwrap();
            heads
        };
        let [first, second] = heads()[..] else {
            panic!("two rows")
        };
        assert_ne!(first, second);
        assert_eq!(heads(), [first, second]);
    }

    /// A file without an end, as a pipe may be.
    struct Endless;

    impl Read for Endless {
        fn read(&mut self, out: &mut [u8]) -> std::io::Result<usize> {
            let row = b"P,2026-08-01,1,pliable,40\n";
            out[..row.len()].copy_from_slice(row);
            Ok(row.len())
        }
    }

    #[test]
    fn an_error_ends_the_reading() {
        let mut rows = 0;
        let outcome = each_row(HEADER.as_bytes().chain(Endless), |_| {
            rows += 1;
            if rows < 10 {
                Ok(())
            } else {
                Err(HeadFileError::Empty)
            }
        });
        assert!(matches!(outcome, Err(HeadFileError::Empty)));
        assert_eq!(rows, 10);
    }
}
