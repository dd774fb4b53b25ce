//! Rows of a head file, those of a stop together, with the ids that are made of them.
//!
//! All of it follows from the file alone, so a thread of its own reads ahead
//! while the rows before are stored.

use std::collections::HashMap;
use std::io::Read;
use std::sync::mpsc::{SyncSender, sync_channel};
use std::thread;

use chrono::NaiveDate;
use uuid::Uuid;

use kinds::flag_words;
use notebook::fact::HeadRecord;
use notebook::ids::content_id;
use readers::head_file::{FileHead, HeadFile, HeadFileError, RowFault};

/// Rows that are handed over together.
const TOGETHER: usize = 1_000;
/// How often that may be ahead of what is stored.
const AHEAD: usize = 4;

/// Good rows that come one after the other and were read at one stop, with the ids
/// that are made of them.
pub(super) struct Placed {
    /// Line of the first of them.
    pub line: u64,
    pub planting: String,
    pub walked_on: NaiveDate,
    pub scout: Option<String>,
    /// What the file calls the stop.
    pub name: String,
    pub walk: Uuid,
    pub stop: Uuid,
    /// At least one.
    pub heads: Vec<PlacedHead>,
}

/// What a row says of its head.
pub(super) struct PlacedHead {
    pub id: Uuid,
    pub said: HeadRecord,
    /// Latitude and longitude.
    pub place: Option<(f64, f64)>,
    /// Further columns.
    pub extra: Vec<(String, String)>,
}

impl Placed {
    fn first(row: &FileHead) -> Placed {
        let day = Some(row.walked_on);
        let date = row.walked_on.to_string();
        let scout = row.scout.as_deref().unwrap_or_default();
        Placed {
            line: row.line,
            walk: content_id(day, &["walk", &row.planting, &date]),
            stop: content_id(day, &["stop", &row.planting, &date, scout, &row.stop]),
            planting: row.planting.clone(),
            walked_on: row.walked_on,
            scout: row.scout.clone(),
            name: row.stop.clone(),
            heads: Vec::new(),
        }
    }

    fn is_of(&self, row: &FileHead) -> bool {
        self.walked_on == row.walked_on
            && self.name == row.stop
            && self.planting == row.planting
            && self.scout == row.scout
    }
}

/// Rows of a stop, a bad row, or why the file ends here.
type Next = Result<Result<Placed, RowFault>, HeadFileError>;

/// Calls `each` with every row of a file, those of a stop together, in its order,
/// until it fails. `swap_places`: the file's latitude is the longitude.
pub(super) fn each_stop<E: From<HeadFileError>>(
    source: impl Read + Send,
    swap_places: bool,
    mut each: impl FnMut(Result<Placed, RowFault>) -> Result<(), E>,
) -> Result<(), E> {
    thread::scope(|scope| {
        let (sender, rows) = sync_channel::<Vec<Next>>(AHEAD);
        thread::Builder::new()
            .spawn_scoped(scope, move || read_ahead(source, swap_places, &sender))
            .map_err(HeadFileError::Io)?;
        // The receiver goes with an error of `each`, and ends the reading too.
        for next in rows.into_iter().flatten() {
            each(next?)?;
        }
        Ok(())
    })
}

fn read_ahead(source: impl Read, swap_places: bool, to: &SyncSender<Vec<Next>>) {
    let mut file = match HeadFile::open(source) {
        Ok(file) => file,
        Err(error) => {
            // Nobody listens any more: there is nobody to tell.
            let _ = to.send(vec![Err(error)]);
            return;
        }
    };
    if swap_places {
        file.swap_places();
    }
    let mut counts = Counts::default();
    loop {
        let mut together = Vec::new();
        for row in file.by_ref().take(TOGETHER) {
            match row {
                Ok(Ok(row)) => counts.place(row, &mut together),
                Ok(Err(fault)) => together.push(Ok(Err(fault))),
                Err(error) => together.push(Err(error)),
            }
        }
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
struct Counts(HashMap<Uuid, u32>);

impl Counts {
    /// Puts a row to those of its stop where they came last, or begins a stop.
    fn place(&mut self, row: FileHead, to: &mut Vec<Next>) {
        let mut placed = match to.pop() {
            Some(Ok(Ok(last))) if last.is_of(&row) => last,
            other => {
                to.extend(other);
                Placed::first(&row)
            }
        };
        let content = content_of(&row, placed.stop);
        let times = self.0.entry(content).or_default();
        *times += 1;
        let id = content_id(
            Some(row.walked_on),
            &[
                "head",
                content.as_simple().encode_lower(&mut [0; 32]),
                &times.to_string(),
            ],
        );
        placed.heads.push(PlacedHead {
            id,
            said: HeadRecord {
                head: row.head,
                flags: row.flags,
                note: row.note,
            },
            place: row.place,
            extra: row.extra,
        });
        to.push(Ok(Ok(placed)));
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

    fn stops_of(text: &str) -> Vec<Result<Placed, RowFault>> {
        let mut stops = Vec::new();
        each_stop(text.as_bytes(), false, |stop| {
            stops.push(stop);
            Ok::<(), HeadFileError>(())
        })
        .unwrap();
        stops
    }

    fn heads_of(text: &str) -> Vec<Uuid> {
        let stops = stops_of(text).into_iter();
        stops
            .flat_map(|stop| stop.unwrap().heads)
            .map(|head| head.id)
            .collect()
    }

    #[test]
    fn rows_come_in_their_order_over_many_handings() {
        let mut text = HEADER.to_owned();
        for row in 0..3 * TOGETHER + 7 {
            text += &format!("P,2026-08-01,{row},pliable,40\n");
        }
        let stops: Vec<String> = stops_of(&text)
            .into_iter()
            .map(|stop| stop.unwrap().name)
            .collect();
        let expected: Vec<_> = (0..3 * TOGETHER + 7).map(|row| row.to_string()).collect();
        assert_eq!(stops, expected);
    }

    #[test]
    fn rows_of_a_stop_come_together_where_they_stand_together() {
        let row = |stop: u32, scout: &str| format!("P,2026-08-01,{stop},pliable,40,{scout}\n");
        let mut text = "planting,walked_on,stop,reading,share,scout\n".to_owned();
        text += &row(1, "Ana").repeat(3);
        text += &row(1, "Ben");
        text += "P,2026-08-01,1,grey,40,Ben\n";
        text += &row(1, "Ben");
        text += &row(2, "Ben");
        text += &row(1, "Ana").repeat(2);
        let found: Vec<String> = stops_of(&text)
            .into_iter()
            .map(|stop| match stop {
                Ok(placed) => format!(
                    "{} {} {}",
                    placed.name,
                    placed.scout.unwrap(),
                    placed.heads.len()
                ),
                Err(fault) => format!("line {}", fault.line),
            })
            .collect();
        let expected = [
            "1 Ana 3", "1 Ben 1", "line 6", "1 Ben 1", "2 Ben 1", "1 Ana 2",
        ];
        assert_eq!(found, expected);
    }

    #[test]
    fn equal_rows_are_heads_of_their_own_and_the_same_ones_each_time() {
        let row = "P,2026-08-01,1,pliable,40\n";
        let [first, second] = heads_of(&format!("{HEADER}{row}{row}"))[..] else {
            panic!("two rows")
        };
        assert_ne!(first, second);
        // However many rows stand between them.
        let between = "P,2026-08-01,2,pliable,40\n".repeat(2 * TOGETHER);
        let apart = heads_of(&format!("{HEADER}{row}{between}{row}"));
        assert_eq!((apart.first(), apart.last()), (Some(&first), Some(&second)));
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
        let mut stops = 0;
        let outcome = each_stop(HEADER.as_bytes().chain(Endless), false, |_| {
            stops += 1;
            if stops < 10 {
                Ok(())
            } else {
                Err(HeadFileError::Empty)
            }
        });
        assert!(matches!(outcome, Err(HeadFileError::Empty)));
        assert_eq!(stops, 10);
    }
}
