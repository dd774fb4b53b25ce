//! Walks and stops.

pub(crate) mod ask;
pub(crate) mod heads;
pub(crate) mod last_step;
pub(crate) mod pages;
pub(crate) mod undo;

use std::collections::BTreeMap;

use chrono::{Days, NaiveDate};
use serde_json::json;
use uuid::Uuid;

use crate::live::live_planting;
use crate::live::live_walk;
use crate::live::open_walk;
use crate::rollups::notice::notice;
use crate::rows::{self, set_flag};
use crate::walks::last_step::last_step;
use crate::{
    Done, HeadView, Place, Problem, Reply, Service, StopView, WalkPage, checks, read_only, settings,
};
use notebook::fact::{Act, Body, Fact, Field, Row};
use notebook::views::plantings;
use notebook::views::walks::{self, HeadRow};

impl Service {
    pub(crate) fn walk(&mut self, id: Uuid) -> Result<Reply<WalkPage>, Problem> {
        let page = self.walk_page(id)?;
        Ok(read_only(page))
    }

    pub(crate) fn start_walk(
        &mut self,
        id: Option<Uuid>,
        planting: Uuid,
        walked_on: Option<NaiveDate>,
        scout: Option<String>,
    ) -> Result<Reply<WalkPage>, Problem> {
        let scout = match checks::optional_name("scout", scout.as_deref())? {
            Some(scout) => scout,
            None => settings::read(self.notebook.db())?.scout,
        };
        let (id, touched) = self.notebook.write(|writer| {
            if let Some(id) = id
                && let Some(walk) = walks::walk(writer.db(), id)?
            {
                // The same request once more.
                return if walk.planting == plantings::shown(writer.db(), planting)? {
                    Ok(id)
                } else {
                    Err(Problem::conflict(
                        "this id is taken by a walk of another planting: use a new id",
                    ))
                };
            }
            live_planting(writer.db(), planting)?;
            let today = writer.today();
            let walked_on = checks::date("walk's date", walked_on.unwrap_or(today))?;
            not_ahead(walked_on, today)?;
            let id = writer.id(id)?;
            let facts = vec![
                Fact::Walk {
                    id,
                    planting,
                    walked_on,
                    scout,
                    finished: false,
                },
                Fact::Stop {
                    id: writer.id(None)?,
                    walk: id,
                    number: 1,
                    label: None,
                    place: None,
                },
            ];
            writer.record(Act::WalkStarted, &Body::of(facts))?;
            Ok(id)
        })?;
        let changed = self.changed(&touched)?;
        let page = self.walk_page(id)?;
        Ok(Reply {
            answer: page,
            changed,
        })
    }

    pub(crate) fn correct_walk_date(
        &mut self,
        walk: Uuid,
        walked_on: NaiveDate,
    ) -> Result<Reply<WalkPage>, Problem> {
        checks::date("walk's date", walked_on)?;
        let ((), touched) = self.notebook.write(|writer| {
            let known = live_walk(writer.db(), walk)?;
            not_ahead(walked_on, writer.today())?;
            if known.walked_on == walked_on {
                return Ok(());
            }
            let to = BTreeMap::from([(Field::WalkedOn, json!(walked_on))]);
            rows::set(writer, Act::WalkEdited, Row::Walk, walk, to)
        })?;
        let changed = self.changed(&touched)?;
        let page = self.walk_page(walk)?;
        Ok(Reply {
            answer: page,
            changed,
        })
    }

    pub(crate) fn add_stop(
        &mut self,
        id: Option<Uuid>,
        walk: Uuid,
        place: Option<Place>,
    ) -> Result<Reply<WalkPage>, Problem> {
        let place = checks::place(place)?;
        let ((), touched) = self.notebook.write(|writer| {
            if let Some(id) = id
                && let Some(stop) = walks::stop(writer.db(), id)?
            {
                return if stop.walk == walk {
                    Ok(())
                } else {
                    Err(Problem::conflict(
                        "this id is taken by a stop of another walk: use a new id",
                    ))
                };
            }
            open_walk(writer.db(), walk)?;
            let number = walks::stops(writer.db(), walk)?
                .iter()
                .map(|stop| stop.number)
                .max()
                .unwrap_or(0)
                .saturating_add(1);
            let fact = Fact::Stop {
                id: writer.id(id)?,
                walk,
                number,
                label: None,
                place,
            };
            Ok(writer.record(Act::StopAdded, &Body::of(vec![fact]))?)
        })?;
        let changed = self.changed(&touched)?;
        let page = self.walk_page(walk)?;
        Ok(Reply {
            answer: page,
            changed,
        })
    }

    pub(crate) fn finish_walk(
        &mut self,
        walk: Uuid,
        finished: bool,
    ) -> Result<Reply<WalkPage>, Problem> {
        let ((), touched) = self.notebook.write(|writer| {
            if live_walk(writer.db(), walk)?.finished == finished {
                return Ok(());
            }
            let kind = if finished {
                Act::WalkFinished
            } else {
                Act::WalkReopened
            };
            let body = set_flag(writer.db(), Row::Walk, walk, Field::Finished, finished)?;
            Ok::<(), Problem>(writer.record(kind, &body)?)
        })?;
        let changed = self.changed(&touched)?;
        Ok(Reply {
            answer: self.walk_page(walk)?,
            changed,
        })
    }

    pub(crate) fn remove_walk(&mut self, walk: Uuid) -> Result<Reply<Done>, Problem> {
        let ((), touched) = self.notebook.write(|writer| {
            let known =
                walks::walk(writer.db(), walk)?.ok_or_else(|| Problem::not_found("walk"))?;
            if known.removed {
                return Ok(());
            }
            let body = set_flag(writer.db(), Row::Walk, walk, Field::Removed, true)?;
            Ok::<(), Problem>(writer.record(Act::WalkRemoved, &body)?)
        })?;
        Ok(Reply {
            answer: Done {},
            changed: self.changed(&touched)?,
        })
    }

    pub(crate) fn restore_walk(&mut self, walk: Uuid) -> Result<Reply<Done>, Problem> {
        let ((), touched) = self.notebook.write(|writer| {
            let known =
                walks::walk(writer.db(), walk)?.ok_or_else(|| Problem::not_found("walk"))?;
            live_planting(writer.db(), known.planting)?;
            if !known.removed {
                return Ok(());
            }
            let body = set_flag(writer.db(), Row::Walk, walk, Field::Removed, false)?;
            Ok::<(), Problem>(writer.record(Act::WalkRestored, &body)?)
        })?;
        Ok(Reply {
            answer: Done {},
            changed: self.changed(&touched)?,
        })
    }

    pub(crate) fn walk_page(&mut self, id: Uuid) -> Result<WalkPage, Problem> {
        let walk = live_walk(self.notebook.db(), id)?;
        let settings = settings::read(self.notebook.db())?;
        let now = self.kept.of_open(self.notebook.db(), &settings, &walk)?;
        let planting = self.planting_row(walk.planting)?;
        let db = self.notebook.db();
        let mut stops = Vec::new();
        for (place, stop) in walks::stops(db, id)?.into_iter().enumerate() {
            stops.push(StopView {
                id: stop.id,
                number: number(place),
                place: stop.place,
                heads: walks::heads(db, stop.id)?
                    .into_iter()
                    .enumerate()
                    .map(|(place, head)| head_view(number(place), head))
                    .collect(),
            });
        }
        let notice = notice(db, &walk)?;
        Ok(WalkPage {
            id,
            planting,
            walked_on: walk.walked_on,
            scout: walk.scout,
            finished: walk.finished,
            stops,
            now,
            undo: last_step(db, self.notebook.device(), id)?.map(|step| step.what),
            notice,
        })
    }
}

/// Refuses the date of a walk that is yet to come; tomorrow is today elsewhere.
fn not_ahead(walked_on: NaiveDate, today: NaiveDate) -> Result<(), Problem> {
    if walked_on > today.checked_add_days(Days::new(1)).unwrap_or(today) {
        return Err(Problem::bad_input(format!(
            "the walk's date {walked_on} lies ahead: use today or an earlier day"
        )));
    }
    Ok(())
}

/// 1, 2, 3... from a place in a list.
pub(crate) fn number(place: usize) -> u32 {
    u32::try_from(place + 1).unwrap_or(u32::MAX)
}

/// A head as the screens see it.
pub(crate) fn head_view(number: u32, head: HeadRow) -> HeadView {
    HeadView {
        id: head.id,
        number,
        head: head.said.head,
        flags: head.said.flags,
        note: head.said.note,
        recorded_at: head.recorded_at,
        corrected: head.corrected,
    }
}
