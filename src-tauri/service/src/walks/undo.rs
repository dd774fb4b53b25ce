//! Undo: a further change that says the opposite. Nothing is erased.

use std::collections::BTreeMap;

use rusqlite::Connection;
use serde_json::Value;
use uuid::Uuid;

use crate::live::live_walk;
use crate::walks::last_step::{just_did, last_step};
use crate::{Problem, Reply, Service, WalkPage};
use notebook::fact::{Act, Body, Fact, Row};
use notebook::views::walks;

impl Service {
    pub(crate) fn undo(
        &mut self,
        request: Option<Uuid>,
        walk: Uuid,
    ) -> Result<Reply<WalkPage>, Problem> {
        let ((), touched) = self.notebook.write(|writer| {
            live_walk(writer.db(), walk)?;
            let device = writer.device();
            if let Some(request) = request
                && just_did(writer.db(), device, walk, request)?
            {
                return Ok(());
            }
            let Some(step) = last_step(writer.db(), device, walk)? else {
                return Err(Problem::conflict(
                    "there is nothing of this device to take back in this walk",
                ));
            };
            let mut facts = Vec::new();
            for fact in step.body.facts.iter().rev() {
                opposite(writer.db(), fact, &mut facts)?;
            }
            if facts.is_empty() {
                // Others changed it since, and theirs stays. This still counts
                // as the step back, and must be found under the walk.
                facts.push(Fact::Set {
                    row: Row::Walk,
                    id: walk,
                    walk: None,
                    to: BTreeMap::new(),
                    replaces: BTreeMap::new(),
                });
            }
            let body = Body {
                facts,
                undoes: vec![step.change.seq],
                request,
                again: None,
            };
            Ok(writer.record(Act::Undone, &body)?)
        })?;
        let changed = self.changed(&touched)?;
        let page = self.walk_page(walk)?;
        Ok(Reply {
            answer: page,
            changed,
        })
    }
}

/// What takes a fact back, as far as it still stands.
pub(crate) fn opposite(db: &Connection, fact: &Fact, facts: &mut Vec<Fact>) -> Result<(), Problem> {
    match fact {
        Fact::Heads { walk, heads, .. } => {
            facts.extend(heads.iter().rev().map(|head| Fact::Remove {
                walk: *walk,
                head: head.id,
                removed: true,
            }));
        }
        Fact::Correct {
            walk,
            head,
            to,
            was,
            was_corrected,
            ..
        } => {
            let stands = walks::head(db, *head)?.is_some_and(|head| head.said == *to);
            if stands {
                facts.push(Fact::Correct {
                    walk: *walk,
                    head: *head,
                    to: was.clone(),
                    was: to.clone(),
                    was_corrected: true,
                    as_first_read: !was_corrected,
                });
            }
        }
        Fact::Remove {
            walk,
            head,
            removed,
        } => facts.push(Fact::Remove {
            walk: *walk,
            head: *head,
            removed: !removed,
        }),
        Fact::Stop { id, walk, .. } => {
            if !walks::heads(db, *id)?.is_empty() {
                return Err(Problem::conflict(
                    "the stop holds heads of another device: remove those first",
                ));
            }
            if walks::holds_something(db, *id, *walk)? {
                return Err(Problem::conflict(
                    "the stop holds photos: remove those first",
                ));
            }
            facts.push(Fact::Set {
                row: Row::Stop,
                id: *id,
                walk: Some(*walk),
                to: BTreeMap::from([("removed".to_owned(), Value::Bool(true))]),
                replaces: BTreeMap::new(),
            });
        }
        Fact::Photo(taken) => facts.push(Fact::Set {
            row: Row::Photo,
            id: taken.id,
            walk: taken.walk,
            to: BTreeMap::from([("removed".to_owned(), Value::Bool(true))]),
            replaces: BTreeMap::new(),
        }),
        // Not of a walk, or not taken back by an undo in one.
        Fact::Walk { .. }
        | Fact::Set { .. }
        | Fact::Weather(_)
        | Fact::Station { .. }
        | Fact::Observed { .. }
        | Fact::CorrectObserved { .. }
        | Fact::RemoveObserved { .. }
        | Fact::Terms { .. }
        | Fact::Moved { .. } => {}
    }
    Ok(())
}
