//! Changes that do not count: which, why, and telling them again.

use std::collections::BTreeSet;

use rusqlite::Connection;
use uuid::Uuid;

use crate::history::People;
use crate::safekeeping::set_aside_pages::{SetAsidePage, SetAsideRow};
use crate::{Problem, Reply, Service, ToldAgain, read_only};
use notebook::apply::told_again;
use notebook::clock::DRIFT_MS;
use notebook::error::StoreError;
use notebook::fact::{Act, Reason};
use notebook::log::{self, Hlc, instant};
use notebook::tell_again::own_ahead;

/// Most rows of a page.
const SHOWN: u32 = 500;

impl Service {
    pub(crate) fn set_aside(&self) -> Result<Reply<SetAsidePage>, Problem> {
        let db = self.notebook.db();
        let own = self.notebook.device();
        let offset_min = self.notebook.clock().now().offset().local_minus_utc() / 60;
        let total = db.query_row("SELECT count(*) FROM set_aside", [], |row| row.get(0))?;
        let waiting = waiting(db)?;
        let told_again = if waiting.is_empty() {
            BTreeSet::new()
        } else {
            told_again(db)?
        };
        let mut statement = db.prepare_cached(
            "SELECT device, seq, fact, reason, what, hlc FROM set_aside
             ORDER BY hlc DESC, device, seq DESC, fact LIMIT ?1",
        )?;
        let mut people = People::default();
        let mut rows = Vec::new();
        let mut found = statement.query([SHOWN])?;
        while let Some(row) = found.next()? {
            let (device, seq): (Uuid, u64) = (row.get(0)?, row.get(1)?);
            let fact: i64 = row.get(2)?;
            let mut reason: Reason = row.get(3)?;
            let what: String = row.get(4)?;
            let hlc: i64 = row.get(5)?;
            let due = (reason == Reason::Waiting).then(|| due(hlc, offset_min));
            if due.is_some() && told_again.contains(&(device, seq)) {
                reason = Reason::ToldAgain;
            }
            let change = log::change_at(db, device, seq)?;
            let readable = change.as_ref().filter(|change| change.raw.is_none());
            rows.push(SetAsideRow {
                device,
                seq,
                own: device == own,
                who: people.of(db, device)?,
                fact: u32::try_from(fact.saturating_add(1))
                    .ok()
                    .filter(|n| *n > 0),
                act: change.as_ref().map_or(Act::Newer, log::Change::act),
                recorded_at: readable.map(log::Change::recorded_at),
                reason,
                what: (!what.is_empty()).then_some(what),
                due,
            });
        }
        Ok(read_only(SetAsidePage {
            device: own,
            rows,
            total,
            waiting: u32::try_from(waiting.difference(&told_again).count()).unwrap_or(u32::MAX),
            own_ahead: own_ahead(db, own, self.notebook.horizon())?,
        }))
    }

    pub(crate) fn tell_again(&mut self, device: Uuid) -> Result<Reply<ToldAgain>, Problem> {
        let told = self.with_notebook(|notebook| notebook.tell_again(device))?;
        let (changes, touched) = told;
        Ok(Reply {
            answer: ToldAgain { changes },
            changed: self.changed(&touched)?,
        })
    }
}

/// The changes that wait.
fn waiting(db: &Connection) -> Result<BTreeSet<(Uuid, u64)>, StoreError> {
    let mut statement =
        db.prepare_cached("SELECT device, seq FROM set_aside WHERE reason = 'waiting'")?;
    let rows = statement.query_map([], |row| Ok((row.get(0)?, row.get(1)?)))?;
    Ok(rows.collect::<Result<_, _>>()?)
}

/// When a stamp comes within the drift of the clock.
fn due(hlc: i64, offset_min: i32) -> chrono::DateTime<chrono::FixedOffset> {
    let at = Hlc::new(hlc).unwrap_or(Hlc::LATEST).milliseconds();
    instant(at.saturating_sub(DRIFT_MS), offset_min)
}
