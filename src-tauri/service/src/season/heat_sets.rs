//! Heat sets: published ones and the notebook's own, and which one counts.

use std::collections::BTreeMap;

use ripening::heat::{HeatScale, published_scales};
use rusqlite::Connection;
use serde_json::json;
use uuid::Uuid;

use crate::live::live_planting;
use crate::rows::set;
use crate::season::pages::{ChosenHeatSet, HeatSetRow, HeatSetUser, NewHeatSet, SetChosenBy};
use crate::{Done, HeatSetList, Problem, Reply, Service, checks, read_only};
use notebook::fact::{Act, Field, Row};
use notebook::views::heat_sets::{self, OwnSet, WHOLE_NOTEBOOK};
use notebook::views::hybrids;
use notebook::views::plantings::Planting;

/// Keys of the published sets, in the order of [`published_scales`].
const PUBLISHED: [&str; 4] = [
    "us_50_100",
    "metric_10_38",
    "regional_center_50_86",
    "extension_50_100",
];
/// The set that counts where nobody chose.
const DEFAULT: &str = PUBLISHED[0];
/// Most columns of a table; five classes and room.
const MOST_TABLES: usize = 8;

/// The sets of a notebook by key, and the one chosen for all of it.
pub(crate) struct HeatSets {
    by_key: BTreeMap<String, HeatScale>,
    notebook: Option<String>,
}

impl HeatSets {
    pub(crate) fn read(db: &Connection) -> Result<HeatSets, Problem> {
        let published = PUBLISHED
            .into_iter()
            .map(str::to_owned)
            .zip(published_scales());
        let own = heat_sets::all(db)?
            .into_iter()
            .filter(|set| !set.removed)
            .map(|set| (set.id.to_string(), set.scale));
        Ok(HeatSets {
            by_key: published.chain(own).collect(),
            notebook: heat_sets::of_notebook(db)?,
        })
    }

    pub(crate) fn scale(&self, key: &str) -> Option<&HeatScale> {
        self.by_key.get(key)
    }

    /// The set that counts for a planting: its own choice, else its hybrid's, else
    /// the notebook's. A choice whose set is gone is passed over.
    pub(crate) fn of_planting(&self, planting: &Planting) -> ChosenHeatSet {
        self.first_known([
            (planting.heat_set.as_deref(), SetChosenBy::Planting),
            (planting.hybrid_heat_set.as_deref(), SetChosenBy::Hybrid),
        ])
    }

    /// The set that counts for a hybrid.
    pub(crate) fn of_hybrid(&self, choice: Option<&str>) -> ChosenHeatSet {
        self.first_known([(choice, SetChosenBy::Hybrid), (None, SetChosenBy::Hybrid)])
    }

    fn first_known(&self, narrow: [(Option<&str>, SetChosenBy); 2]) -> ChosenHeatSet {
        let wide = [
            (self.notebook.as_deref(), SetChosenBy::Notebook),
            (Some(DEFAULT), SetChosenBy::Default),
        ];
        narrow
            .into_iter()
            .chain(wide)
            .find_map(|(key, by)| {
                let key = key?;
                let scale = self.by_key.get(key)?;
                Some(ChosenHeatSet {
                    key: key.to_owned(),
                    name: scale.name().to_owned(),
                    source: scale.source().to_owned(),
                    by,
                })
            })
            .unwrap_or_else(the_default)
    }

    fn rows(&self) -> Vec<HeatSetRow> {
        let row = |key: &str, own: Option<Uuid>| {
            self.by_key.get(key).map(|scale| HeatSetRow {
                key: key.to_owned(),
                own,
                set: scale.clone(),
            })
        };
        let published = PUBLISHED.into_iter().filter_map(|key| row(key, None));
        let mut own: Vec<HeatSetRow> = self
            .by_key
            .keys()
            .filter_map(|key| row(key, Some(Uuid::try_parse(key).ok()?)))
            .collect();
        own.sort_by(|a, b| a.set.name().cmp(b.set.name()));
        published.chain(own).collect()
    }
}

/// The default's names, for the type's sake: the default is always among the sets.
fn the_default() -> ChosenHeatSet {
    let scale = ripening::heat::us_50_100();
    ChosenHeatSet {
        key: DEFAULT.to_owned(),
        name: scale.name().to_owned(),
        source: scale.source().to_owned(),
        by: SetChosenBy::Default,
    }
}

impl Service {
    pub(crate) fn heat_sets(&self) -> Result<Reply<HeatSetList>, Problem> {
        let sets = HeatSets::read(self.notebook.db())?;
        Ok(read_only(HeatSetList {
            rows: sets.rows(),
            notebook: sets.notebook.filter(|key| sets.by_key.contains_key(key)),
        }))
    }

    /// Makes a set or edits one; a daft one is refused.
    pub(crate) fn save_heat_set(
        &mut self,
        id: Uuid,
        new: NewHeatSet,
    ) -> Result<Reply<HeatSetRow>, Problem> {
        let scale = checked(new)?;
        let value = serde_json::to_value(&scale).map_err(notebook::StoreError::from)?;
        let ((), touched) = self.notebook.write(|writer| {
            let known = heat_sets::all(writer.db())?;
            name_is_free(&known, id, scale.name())?;
            if known
                .iter()
                .any(|set| set.id == id && set.scale == scale && !set.removed)
            {
                return Ok(());
            }
            let to = BTreeMap::from([(Field::Scale, value), (Field::Removed, json!(false))]);
            set(writer, Act::HeatSetSaved, Row::HeatSet, id, to)
        })?;
        self.own_set(id, &touched).map(|(row, changed)| Reply {
            answer: row,
            changed,
        })
    }

    pub(crate) fn remove_heat_set(&mut self, id: Uuid) -> Result<Reply<Done>, Problem> {
        let ((), touched) = self.notebook.write(|writer| {
            if stored(writer.db(), id)?.removed {
                return Ok(());
            }
            let to = BTreeMap::from([(Field::Removed, json!(true))]);
            set(writer, Act::HeatSetRemoved, Row::HeatSet, id, to)
        })?;
        Ok(Reply {
            answer: Done {},
            changed: self.changed(&touched)?,
        })
    }

    pub(crate) fn restore_heat_set(&mut self, id: Uuid) -> Result<Reply<HeatSetRow>, Problem> {
        let ((), touched) = self.notebook.write(|writer| {
            let known = stored(writer.db(), id)?;
            if !known.removed {
                return Ok(());
            }
            name_is_free(&heat_sets::all(writer.db())?, id, known.scale.name())?;
            let to = BTreeMap::from([(Field::Removed, json!(false))]);
            set(writer, Act::HeatSetRestored, Row::HeatSet, id, to)
        })?;
        self.own_set(id, &touched).map(|(row, changed)| Reply {
            answer: row,
            changed,
        })
    }

    pub(crate) fn use_heat_set(
        &mut self,
        by: HeatSetUser,
        key: Option<String>,
    ) -> Result<Reply<Done>, Problem> {
        let ((), touched) = self.notebook.write(|writer| {
            let sets = HeatSets::read(writer.db())?;
            if let Some(key) = &key
                && !sets.by_key.contains_key(key)
            {
                return Err(Problem::not_found("heat set"));
            }
            let (row, id, known) = match by {
                HeatSetUser::Notebook => (Row::WholeNotebook, WHOLE_NOTEBOOK, sets.notebook),
                HeatSetUser::Hybrid(id) => {
                    let hybrid = hybrids::one(writer.db(), id)?
                        .ok_or_else(|| Problem::not_found("hybrid"))?;
                    (Row::Hybrid, id, hybrid.heat_set)
                }
                HeatSetUser::Planting(id) => {
                    (Row::Planting, id, live_planting(writer.db(), id)?.heat_set)
                }
            };
            if known == key {
                return Ok(());
            }
            let to = BTreeMap::from([(Field::HeatSet, json!(key))]);
            set(writer, Act::HeatSetChosen, row, id, to)
        })?;
        Ok(Reply {
            answer: Done {},
            changed: self.changed(&touched)?,
        })
    }

    fn own_set(
        &mut self,
        id: Uuid,
        touched: &notebook::apply::Touched,
    ) -> Result<(HeatSetRow, Vec<crate::Changed>), Problem> {
        let changed = self.changed(touched)?;
        let set = stored(self.notebook.db(), id)?;
        let row = HeatSetRow {
            key: id.to_string(),
            own: Some(id),
            set: set.scale,
        };
        Ok((row, changed))
    }
}

fn stored(db: &Connection, id: Uuid) -> Result<OwnSet, Problem> {
    heat_sets::all(db)?
        .into_iter()
        .find(|set| set.id == id)
        .ok_or_else(|| Problem::not_found("heat set"))
}

fn checked(new: NewHeatSet) -> Result<HeatScale, Problem> {
    let name = checks::name("heat set", &new.name)?;
    let source = checks::optional_name("source", Some(&new.source))?.unwrap_or_default();
    if new.tables.len() > MOST_TABLES {
        return Err(Problem::bad_input(format!(
            "heat scale '{name}' has more than {MOST_TABLES} tables: give one for each maturity class"
        )));
    }
    let mut tables = new.tables;
    for table in &mut tables {
        table.maturity = checks::name("table", &table.maturity)?;
    }
    let limits = (new.unit, new.base, new.upper, new.method);
    HeatScale::new(name, source, limits, tables)
        .and_then(|scale| scale.check_for_sorghum().map(|()| scale))
        .map_err(|error| Problem::bad_input(error.to_string()))
}

fn name_is_free(known: &[OwnSet], id: Uuid, name: &str) -> Result<(), Problem> {
    let published = published_scales();
    let taken = known
        .iter()
        .filter(|set| set.id != id && !set.removed)
        .map(|set| &set.scale)
        .chain(&published)
        .any(|scale| scale.name() == name);
    if taken {
        return Err(Problem::conflict(format!(
            "there is a heat set named '{name}' already: choose another name"
        )));
    }
    Ok(())
}
