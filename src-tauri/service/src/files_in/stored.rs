//! Heads of the same planting and day that were stored otherwise than from a
//! head file: by tapping. A file exported from this notebook holds them, and
//! must not double them.

use std::collections::BTreeMap;

use chrono::NaiveDate;
use ripening::{Flag, Head};
use rusqlite::Connection;
use uuid::Uuid;

use notebook::StoreError;
use notebook::fact::HeadRecord;
use notebook::views::walks;

/// What a head says, at the stop of which name.
type Key = (String, Head, Vec<Flag>, Option<String>);

/// How many heads of each kind are stored and not met yet in the file.
#[derive(Default)]
pub(super) struct StoredElsewhere(BTreeMap<Key, u32>);

impl StoredElsewhere {
    /// All heads of the planting's walks of that day, but for `own`, the walk
    /// that the file's rows make themselves.
    pub(super) fn read(
        db: &Connection,
        planting: Uuid,
        walked_on: NaiveDate,
        own: Uuid,
    ) -> Result<StoredElsewhere, StoreError> {
        let mut stored = StoredElsewhere::default();
        for walk in walks::of_planting_on(db, planting, walked_on)? {
            if walk.id == own {
                continue;
            }
            for (place, stop) in walks::stops(db, walk.id)?.into_iter().enumerate() {
                for head in walks::heads(db, stop.id)? {
                    let key = (
                        stop.label
                            .clone()
                            .unwrap_or_else(|| (place + 1).to_string()),
                        head.said.head,
                        head.said.flags,
                        head.said.note,
                    );
                    *stored.0.entry(key).or_default() += 1;
                }
            }
        }
        Ok(stored)
    }

    /// Whether none was stored.
    pub(super) fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    /// Whether one is stored that a row of a stop can stand for; it is used up by this.
    pub(super) fn take(&mut self, stop: &str, said: &HeadRecord) -> bool {
        if self.0.is_empty() {
            return false;
        }
        let key = (
            stop.to_owned(),
            said.head,
            said.flags.clone(),
            said.note.clone(),
        );
        match self.0.get_mut(&key) {
            Some(left) if *left > 0 => {
                *left -= 1;
                true
            }
            _ => false,
        }
    }
}
