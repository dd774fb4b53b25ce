//! Plantings: the list, one page, and editing.

pub(crate) mod ask;
pub(crate) mod details;
pub(crate) mod merging;
pub(crate) mod pages;

use std::collections::BTreeMap;
use std::time::{Duration, Instant};

use chrono::NaiveDate;
use serde_json::json;
use uuid::Uuid;

use crate::live::live_planting;
use crate::rollups::notice::{date_notice, notice};
use crate::rollups::{Latest, side_by_side};
use crate::rows::{self, set_flag};
use crate::season::due::{due, due_by_date};
use crate::{
    Answers, Done, NewPlanting, PlantingEdit, PlantingList, PlantingPage, PlantingRow, Problem,
    Reply, Service, WalkBrief, WorkedOut, checks, read_only, settings,
};
use kinds::Purpose;
use notebook::error::StoreError;
use notebook::fact::{Act, Body, Fact, Field, Row};
use notebook::notebook::Writer;
use notebook::views::plantings::{self, Planting};
use notebook::views::walks::{self, Walk};
use notebook::views::{conflicts, names};

/// A planting, its walks and, where it is kept, what a list shows.
type Listed = (Planting, Vec<Walk>, Option<Latest>);

/// How long a request that works out answers goes on before it tells what it has.
const A_MOMENT: Duration = Duration::from_millis(150);

impl Service {
    pub(crate) fn plantings(&mut self) -> Result<Reply<PlantingList>, Problem> {
        let today = self.notebook.clock().today();
        let listed = self.listed()?;
        let mut rows: Vec<PlantingRow> = listed
            .into_iter()
            .map(|(planting, walks, latest)| row(planting, &walks, latest, today))
            .collect();
        rows.sort_by(|a, b| {
            (a.due.reason, b.due.days_since, &a.name).cmp(&(
                b.due.reason,
                a.due.days_since,
                &b.name,
            ))
        });
        Ok(read_only(PlantingList { today, rows }))
    }

    /// All plantings with their walks and, where it is kept, what a list shows.
    fn listed(&mut self) -> Result<Vec<Listed>, Problem> {
        let db = self.notebook.db();
        let settings = settings::read(db)?;
        let plantings = plantings::all(db)?;
        let mut walks = walks::by_planting(db)?;
        let walked: Vec<(Planting, Vec<Walk>)> = plantings
            .into_iter()
            .map(|planting| {
                let walks = walks.remove(&planting.id).unwrap_or_default();
                (planting, walks)
            })
            .collect();
        let latest = self.kept.kept_of_list(db, &settings, &walked)?;
        Ok(walked
            .into_iter()
            .zip(latest)
            .map(|((planting, walks), latest)| (planting, walks, latest))
            .collect())
    }

    pub(crate) fn work_out(&mut self) -> Result<Reply<WorkedOut>, Problem> {
        let today = self.notebook.clock().today();
        let mut lacking: Vec<(Planting, Vec<Walk>)> = self
            .listed()?
            .into_iter()
            .filter(|(_, _, latest)| latest.is_none())
            .map(|(planting, walks, _)| (planting, walks))
            .collect();
        // The latest walked are looked at first.
        lacking
            .sort_by_key(|(_, walks)| std::cmp::Reverse(walks.last().map(|walk| walk.walked_on)));
        let begun = Instant::now();
        let mut rows = Vec::new();
        let mut left = lacking.len();
        while left > 0 && (rows.is_empty() || begun.elapsed() < A_MOMENT) {
            let few: Vec<(Planting, Vec<Walk>)> =
                lacking.drain(..left.min(side_by_side::cores())).collect();
            left -= few.len();
            let db = self.notebook.db();
            let settings = settings::read(db)?;
            let walks: Vec<(Uuid, Vec<Walk>)> = few
                .iter()
                .map(|(planting, walks)| (planting.id, walks.clone()))
                .collect();
            let latest = self.kept.of_list(db, &settings, &walks)?;
            rows.extend(
                few.into_iter()
                    .zip(latest)
                    .map(|((planting, walks), latest)| row(planting, &walks, Some(latest), today)),
            );
        }
        Ok(read_only(WorkedOut {
            rows,
            left: u32::try_from(left).unwrap_or(u32::MAX),
        }))
    }

    pub(crate) fn planting(&mut self, id: Uuid) -> Result<Reply<PlantingPage>, Problem> {
        let settings = settings::read(self.notebook.db())?;
        let planting = self.planting_row(id)?;
        let id = planting.id;
        let walks = walks::of_planting(self.notebook.db(), id)?;
        let answers = self
            .kept
            .of_planting(self.notebook.db(), &settings, id, &walks)?;
        let mut rows = Vec::with_capacity(walks.len());
        for (walk, now) in walks.iter().zip(answers).rev() {
            rows.push(WalkBrief {
                notice: notice(self.notebook.db(), walk)?,
                ..brief(walk, now)
            });
        }
        Ok(read_only(PlantingPage {
            today: self.notebook.clock().today(),
            planting,
            walks: rows,
        }))
    }

    /// One planting as the list shows it.
    pub(crate) fn planting_row(&mut self, id: Uuid) -> Result<PlantingRow, Problem> {
        let db = self.notebook.db();
        let settings = settings::read(db)?;
        let planting = live_planting(db, id)?;
        let walks = [(planting.id, walks::of_planting(db, planting.id)?)];
        let latest = self.kept.of_list(db, &settings, &walks)?;
        let [(_, walks)] = walks;
        let latest = latest.into_iter().next().unwrap_or_default();
        Ok(row(
            planting,
            &walks,
            Some(latest),
            self.notebook.clock().today(),
        ))
    }

    pub(crate) fn add_planting(&mut self, new: NewPlanting) -> Result<Reply<PlantingRow>, Problem> {
        let NewPlanting { id, name, details } = new;
        let name = checks::name("planting", &name)?;
        let farm = checks::optional_name("farm", details.farm.as_deref())?;
        let field = checks::optional_name("field", details.field.as_deref())?;
        let hybrid = checks::optional_name("hybrid", details.hybrid.as_deref())?;
        details.check(self.notebook.clock().today())?;
        let (id, touched) = self.notebook.write(|writer| {
            if let Some(id) = id
                && let Some(known) = plantings::one(writer.db(), id)?
            {
                // The same request once more, unless it means another planting.
                return if known.name == name && !known.removed {
                    Ok(id)
                } else {
                    Err(Problem::conflict(
                        "this id is taken by another planting: use a new id",
                    ))
                };
            }
            name_is_free(writer, &name, None)?;
            let id = writer.id(id)?;
            let mut facts = Vec::new();
            let mut to = details.first();
            to.insert(Field::Name, json!(name));
            to.entry(Field::Purpose)
                .or_insert_with(|| json!(Purpose::Grain));
            let (farm, field) = place(writer, &mut facts, farm.as_deref(), field.as_deref())?;
            let hybrid = named(writer, &mut facts, hybrid.as_deref())?;
            for (key, value) in [
                (Field::Farm, farm),
                (Field::Field, field),
                (Field::Hybrid, hybrid),
            ] {
                if let Some(value) = value {
                    to.insert(key, json!(value));
                }
            }
            facts.push(rows::first(Row::Planting, id, None, to));
            writer.record(Act::PlantingAdded, &Body::of(facts))?;
            Ok(id)
        })?;
        let changed = self.changed(&touched)?;
        let row = self.planting_row(id)?;
        Ok(Reply {
            answer: row,
            changed,
        })
    }

    pub(crate) fn edit_planting(
        &mut self,
        id: Uuid,
        edit: PlantingEdit,
    ) -> Result<Reply<PlantingRow>, Problem> {
        let name = edit.name.as_deref();
        let name = name
            .map(|name| checks::name("planting", name))
            .transpose()?;
        edit.check(self.notebook.clock().today())?;
        let ((), touched) = self.notebook.write(|writer| {
            let known = live_planting(writer.db(), id)?;
            let id = known.id;
            let mut facts = Vec::new();
            let open = conflicts::open_fields(writer.db(), id)?;
            let settles = |field| open.contains(&field);
            let mut to = edit.changes(&known, settles, writer.today())?;
            if let Some(name) = name.filter(|name| *name != known.name || settles(Field::Name)) {
                name_is_free(writer, &name, Some(id))?;
                to.insert(Field::Name, json!(name));
            }
            let given = &edit.details;
            let farm = edited("farm", given.farm.as_deref(), known.farm.as_ref())?;
            let field = edited("field", given.field.as_deref(), known.field.as_ref())?;
            let moved = farm != known.farm || (given.farm.is_some() && settles(Field::Farm));
            if moved || field != known.field || (given.field.is_some() && settles(Field::Field)) {
                let (farm, field) = place(writer, &mut facts, farm.as_deref(), field.as_deref())?;
                if moved {
                    to.insert(Field::Farm, json!(farm));
                }
                to.insert(Field::Field, json!(field));
            }
            let hybrid = edited("hybrid", given.hybrid.as_deref(), known.hybrid.as_ref())?;
            if hybrid != known.hybrid || (given.hybrid.is_some() && settles(Field::Hybrid)) {
                let hybrid = named(writer, &mut facts, hybrid.as_deref())?;
                to.insert(Field::Hybrid, json!(hybrid));
            }
            if to.is_empty() {
                return Ok(());
            }
            facts.push(rows::giving(writer.db(), Row::Planting, id, None, to)?);
            Ok::<(), Problem>(writer.record(Act::PlantingEdited, &Body::of(facts))?)
        })?;
        let changed = self.changed(&touched)?;
        let row = self.planting_row(id)?;
        Ok(Reply {
            answer: row,
            changed,
        })
    }

    pub(crate) fn remove_planting(&mut self, id: Uuid) -> Result<Reply<Done>, Problem> {
        let ((), touched) = self.notebook.write(|writer| {
            let id = plantings::shown(writer.db(), id)?;
            let known =
                plantings::one(writer.db(), id)?.ok_or_else(|| Problem::not_found("planting"))?;
            if known.removed {
                return Ok(());
            }
            let body = set_flag(writer.db(), Row::Planting, id, Field::Removed, true)?;
            Ok::<(), Problem>(writer.record(Act::PlantingRemoved, &body)?)
        })?;
        Ok(Reply {
            answer: Done {},
            changed: self.changed(&touched)?,
        })
    }

    pub(crate) fn restore_planting(&mut self, id: Uuid) -> Result<Reply<PlantingRow>, Problem> {
        let ((), touched) = self.notebook.write(|writer| {
            let known =
                plantings::one(writer.db(), id)?.ok_or_else(|| Problem::not_found("planting"))?;
            if !known.removed {
                return Ok(());
            }
            name_is_free(writer, &known.name, Some(id))?;
            let body = set_flag(writer.db(), Row::Planting, id, Field::Removed, false)?;
            Ok::<(), Problem>(writer.record(Act::PlantingRestored, &body)?)
        })?;
        let changed = self.changed(&touched)?;
        let row = self.planting_row(id)?;
        Ok(Reply {
            answer: row,
            changed,
        })
    }
}

/// A row of the list; without `latest` it is still being worked out.
fn row(
    planting: Planting,
    walks: &[Walk],
    latest: Option<Latest>,
    today: NaiveDate,
) -> PlantingRow {
    let working_out = latest.is_none();
    let latest = latest.unwrap_or_default();
    let open_walk = walks.iter().rev().find(|walk| !walk.finished);
    let last_walk = latest.last.and_then(|(id, now)| {
        let walk = walks.iter().find(|walk| walk.id == id)?;
        Some(brief(walk, now))
    });
    let due = match walks.last().filter(|_| working_out) {
        Some(last) => due_by_date(today, open_walk.is_some(), last.walked_on),
        None => due(today, open_walk.is_some(), last_walk.as_ref()),
    };
    let shown = PlantingRow::of(planting, due);
    PlantingRow {
        last_walk,
        earlier: latest.earlier,
        open_walk: open_walk.map(|walk| walk.id),
        working_out,
        ..shown
    }
}

pub(crate) fn brief(walk: &Walk, now: Answers) -> WalkBrief {
    WalkBrief {
        id: walk.id,
        walked_on: walk.walked_on,
        scout: walk.scout.clone(),
        finished: walk.finished,
        now,
        notice: date_notice(walk),
    }
}

pub(crate) fn name_is_free(
    writer: &Writer,
    name: &str,
    except: Option<Uuid>,
) -> Result<(), Problem> {
    // One that is shown as the planting itself may share its name.
    let same = |other| -> Result<bool, StoreError> {
        let shown = plantings::shown(writer.db(), other)?;
        Ok(except.is_some_and(|id| id == other || id == shown))
    };
    match plantings::by_name(writer.db(), name)? {
        Some(other) if !same(other)? => Err(Problem::conflict(format!(
            "there is a planting named '{name}' already: choose another name"
        ))),
        _ => Ok(()),
    }
}

/// A name after an edit: as it was where the edit leaves it out, none where it
/// is blank.
fn edited(
    what: &str,
    edit: Option<&str>,
    known: Option<&String>,
) -> Result<Option<String>, Problem> {
    match edit {
        Some(text) => checks::optional_name(what, Some(text)),
        None => Ok(known.cloned()),
    }
}

/// Finds or makes a farm and a field on it.
fn place(
    writer: &mut Writer,
    facts: &mut Vec<Fact>,
    farm: Option<&str>,
    field: Option<&str>,
) -> Result<(Option<Uuid>, Option<Uuid>), Problem> {
    let farm = match farm {
        Some(name) => Some(match names::farm(writer.db(), name)? {
            Some(id) => id,
            None => {
                let id = writer.id(None)?;
                let to = BTreeMap::from([(Field::Name, json!(name))]);
                facts.push(rows::first(Row::Farm, id, None, to));
                id
            }
        }),
        None => None,
    };
    let field = match field {
        Some(name) => Some(match names::field(writer.db(), farm, name)? {
            Some(id) => id,
            None => {
                let id = writer.id(None)?;
                let mut to = BTreeMap::from([(Field::Name, json!(name))]);
                if let Some(farm) = farm {
                    to.insert(Field::Farm, json!(farm));
                }
                facts.push(rows::first(Row::Field, id, None, to));
                id
            }
        }),
        None => None,
    };
    Ok((farm, field))
}

/// Finds or makes a hybrid.
fn named(
    writer: &mut Writer,
    facts: &mut Vec<Fact>,
    hybrid: Option<&str>,
) -> Result<Option<Uuid>, Problem> {
    let Some(name) = hybrid else {
        return Ok(None);
    };
    if let Some(id) = names::hybrid(writer.db(), name)? {
        return Ok(Some(id));
    }
    let id = writer.id(None)?;
    let to = BTreeMap::from([(Field::Name, json!(name))]);
    facts.push(rows::first(Row::Hybrid, id, None, to));
    Ok(Some(id))
}
