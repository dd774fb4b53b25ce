//! Heads: read, corrected, removed.

use ripening::Flag;
use uuid::Uuid;

use crate::live::live_head;
use crate::live::live_stop;
use crate::live::{live_walk, open_walk};
use crate::walks::last_step::last_step;
use crate::walks::{head_view, number};
use crate::{HeadSaved, NewHead, Problem, Reply, Service, WalkPage, checks, settings};
use notebook::fact::HeadRecord;
use notebook::fact::{Act, Body, Fact, HeadRead};
use notebook::views::walks::{self};

impl Service {
    pub(crate) fn add_head(
        &mut self,
        id: Option<Uuid>,
        stop: Uuid,
        head: NewHead,
    ) -> Result<Reply<HeadSaved>, Problem> {
        let said = said(head)?;
        let (id, touched) = self.notebook.write(|writer| {
            if let Some(id) = id
                && let Some(known) = walks::head(writer.db(), id)?
            {
                // The same request once more, unless it says something else.
                let same = known.stop == stop && (known.corrected || known.said == said);
                return if same {
                    Ok(id)
                } else {
                    Err(Problem::conflict(
                        "this id is taken by another head: use a new id",
                    ))
                };
            }
            let stop = live_stop(writer.db(), stop)?;
            open_walk(writer.db(), stop.walk)?;
            let id = writer.id(id)?;
            let fact = Fact::Heads {
                walk: stop.walk,
                stop: stop.id,
                heads: vec![HeadRead {
                    id,
                    said,
                    extra: None,
                }],
            };
            writer.record(Act::HeadRead, &Body::of(vec![fact]))?;
            Ok(id)
        })?;
        let changed = self.changed(&touched)?;
        let saved = self.head_saved(id)?;
        Ok(Reply {
            answer: saved,
            changed,
        })
    }

    pub(crate) fn correct_head(
        &mut self,
        id: Uuid,
        to: NewHead,
    ) -> Result<Reply<HeadSaved>, Problem> {
        let to = said(to)?;
        let ((), touched) = self.notebook.write(|writer| {
            let head = live_head(writer.db(), id)?;
            let stop = live_stop(writer.db(), head.stop)?;
            if head.said == to {
                return Ok(());
            }
            let fact = Fact::Correct {
                walk: stop.walk,
                head: id,
                to,
                was: head.said,
                was_corrected: head.corrected,
                as_first_read: false,
            };
            Ok::<(), Problem>(writer.record(Act::HeadCorrected, &Body::of(vec![fact]))?)
        })?;
        let changed = self.changed(&touched)?;
        let saved = self.head_saved(id)?;
        Ok(Reply {
            answer: saved,
            changed,
        })
    }

    pub(crate) fn remove_head(&mut self, id: Uuid) -> Result<Reply<WalkPage>, Problem> {
        let (walk, touched) = self.notebook.write(|writer| {
            let head = walks::head(writer.db(), id)?.ok_or_else(|| Problem::not_found("head"))?;
            let stop = live_stop(writer.db(), head.stop)?;
            if !head.removed {
                let fact = Fact::Remove {
                    walk: stop.walk,
                    head: id,
                    removed: true,
                };
                writer.record(Act::HeadRemoved, &Body::of(vec![fact]))?;
            }
            Ok::<Uuid, Problem>(stop.walk)
        })?;
        let changed = self.changed(&touched)?;
        let page = self.walk_page(walk)?;
        Ok(Reply {
            answer: page,
            changed,
        })
    }

    fn head_saved(&mut self, id: Uuid) -> Result<HeadSaved, Problem> {
        let db = self.notebook.db();
        let head = live_head(db, id)?;
        let stop = live_stop(db, head.stop)?;
        let walk = live_walk(db, stop.walk)?;
        let settings = settings::read(db)?;
        let now = self
            .kept
            .after_stop(self.notebook.db(), &settings, &walk, stop.id)?;
        let db = self.notebook.db();
        let place = walks::heads(db, stop.id)?
            .iter()
            .position(|other| other.id == id)
            .unwrap_or_default();
        Ok(HeadSaved {
            walk: walk.id,
            stop: stop.id,
            head: head_view(number(place), head),
            now,
            undo: last_step(db, self.notebook.device(), walk.id)?.map(|step| step.what),
        })
    }
}

/// A head's reading with its marks in order and its note trimmed.
pub(crate) fn said(new: NewHead) -> Result<HeadRecord, Problem> {
    let mut flags: Vec<Flag> = new.flags;
    flags.sort_unstable();
    flags.dedup();
    Ok(HeadRecord {
        head: new.head,
        flags,
        note: checks::note(new.note)?,
    })
}
