//! What a planting holds: as a list shows it, as it is given, and as it is edited.

use std::collections::BTreeMap;

use chrono::NaiveDate;
use ripening::Band;
use serde::{Deserialize, Serialize};
use serde_json::{Value, json};
use uuid::Uuid;

use crate::rollups::pages::WalkBrief;
use crate::season::due::Due;
use crate::{Problem, checks};
use kinds::{Area, Field, Purpose};
use notebook::views::plantings::Planting;

/// A planting as a list shows it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct PlantingRow {
    /// Id of the planting.
    pub id: Uuid,
    /// Its name.
    pub name: String,
    /// Farm.
    pub farm: Option<String>,
    /// Field.
    pub field: Option<String>,
    /// Hybrid.
    pub hybrid: Option<String>,
    /// Planting date.
    pub planted_on: Option<NaiveDate>,
    /// Purpose.
    pub purpose: Purpose,
    /// Area.
    pub area: Option<Area>,
    /// The hybrid's id, which leads to its page.
    pub hybrid_id: Option<Uuid>,
    /// Day on which half of the heads were seen in bloom, where somebody noted it.
    pub half_bloom_on: Option<NaiveDate>,
    /// The latest walk with heads.
    pub last_walk: Option<WalkBrief>,
    /// Position bands of up to four walks before it, oldest first.
    pub earlier: Vec<Band>,
    /// A walk that was started and not finished.
    pub open_walk: Option<Uuid>,
    /// Why and how soon it needs a walk.
    pub due: Due,
    /// Set while the answers of its walks are not worked out yet: no stage is
    /// shown then, rather than an old one.
    pub working_out: bool,
}

impl PlantingRow {
    /// The row of a planting that has no walk.
    pub(crate) fn of(planting: Planting, due: Due) -> Self {
        PlantingRow {
            id: planting.id,
            name: planting.name,
            farm: planting.farm,
            field: planting.field,
            hybrid: planting.hybrid,
            planted_on: planting.planted_on,
            purpose: planting.purpose,
            area: planting.area,
            hybrid_id: planting.hybrid_id,
            half_bloom_on: planting.half_bloom_on,
            last_walk: None,
            earlier: Vec::new(),
            open_walk: None,
            due,
            working_out: false,
        }
    }
}

/// What may be given of a planting beside its name.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS), ts(optional_fields = nullable))]
#[serde(default)]
pub struct PlantingDetails {
    /// Farm, by name; made where new.
    pub farm: Option<String>,
    /// Field, by name; made where new.
    pub field: Option<String>,
    /// Hybrid, by name; made where new.
    pub hybrid: Option<String>,
    /// Planting date.
    pub planted_on: Option<NaiveDate>,
    /// What it is grown for; grain, where nothing is given.
    pub purpose: Option<Purpose>,
    /// Its area.
    pub area: Option<Area>,
    /// Day on which half of the heads were seen in bloom.
    pub half_bloom_on: Option<NaiveDate>,
}

/// A new planting.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS), ts(optional_fields = nullable))]
pub struct NewPlanting {
    /// Id chosen by the caller.
    pub id: Option<Uuid>,
    /// Name that the crew uses, and the key in head files; unique in a notebook.
    pub name: String,
    /// The rest of what is known.
    #[serde(flatten)]
    pub details: PlantingDetails,
}

/// New values for fields of a planting; absent fields stay as they are.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS), ts(optional_fields = nullable))]
#[serde(default)]
pub struct PlantingEdit {
    /// Name.
    pub name: Option<String>,
    /// The rest; a blank farm, field or hybrid leaves the planting without one.
    #[serde(flatten)]
    pub details: PlantingDetails,
    /// Fields to empty. (An absent value says "as it is", so that no value is lost
    /// to a screen that does not know the field.)
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub clear: Vec<Field>,
}

impl PlantingDetails {
    fn of(known: &Planting) -> Self {
        PlantingDetails {
            farm: known.farm.clone(),
            field: known.field.clone(),
            hybrid: known.hybrid.clone(),
            planted_on: known.planted_on,
            purpose: Some(known.purpose),
            area: known.area,
            half_bloom_on: known.half_bloom_on,
        }
    }

    /// Fields that are not the name of another row, with the value given, if any.
    fn plain(&self) -> [(Field, Option<Value>); 4] {
        [
            (Field::PlantedOn, self.planted_on.map(|day| json!(day))),
            (Field::Purpose, self.purpose.map(|purpose| json!(purpose))),
            (Field::Area, self.area.map(|area| json!(area))),
            (Field::HalfBloomOn, self.half_bloom_on.map(|day| json!(day))),
        ]
    }

    /// Plain values of a new planting.
    pub(crate) fn first(&self) -> BTreeMap<Field, Value> {
        let given = self.plain().into_iter();
        given
            .filter_map(|(field, value)| Some((field, value?)))
            .collect()
    }

    /// Refuses what no planting can have.
    pub(crate) fn check(&self, today: NaiveDate) -> Result<(), Problem> {
        checks::area(self.area)?;
        if let Some(planted_on) = self.planted_on {
            checks::planting_date(planted_on, today)?;
        }
        if let Some(half_bloom_on) = self.half_bloom_on {
            checks::date("day of half bloom", half_bloom_on)?;
        }
        Ok(())
    }
}

impl PlantingEdit {
    /// Refuses what no planting can have, and what says two things of one field.
    pub(crate) fn check(&self, today: NaiveDate) -> Result<(), Problem> {
        self.details.check(today)?;
        let plain = self.details.plain();
        for emptied in &self.clear {
            match plain.iter().find(|(field, _)| field == emptied) {
                Some((_, None)) => {}
                Some((_, Some(_))) => {
                    return Err(Problem::bad_input(
                        "a field is given a value and emptied at once: do one of the two",
                    ));
                }
                None => {
                    return Err(Problem::bad_input(format!(
                        "the field '{}' of a planting cannot be emptied: give it another value",
                        emptied.name()
                    )));
                }
            }
        }
        Ok(())
    }

    /// Plain values that it changes. Giving the value that a planting has settles
    /// what others gave beside it.
    pub(crate) fn changes(
        &self,
        known: &Planting,
        settles: impl Fn(Field) -> bool,
        today: NaiveDate,
    ) -> Result<BTreeMap<Field, Value>, Problem> {
        let mut to = BTreeMap::new();
        let before = PlantingDetails::of(known).plain();
        for ((field, given), (_, before)) in self.details.plain().into_iter().zip(before) {
            let emptied = self.clear.contains(&field);
            if given.is_none() && !emptied {
                continue;
            }
            if given != before || settles(field) {
                to.insert(field, given.unwrap_or(Value::Null));
            }
        }
        bloom_in_its_time(known, &to, today)?;
        Ok(to)
    }
}

/// Refuses an edit that would put half bloom before planting, or after today.
fn bloom_in_its_time(
    known: &Planting,
    to: &BTreeMap<Field, Value>,
    today: NaiveDate,
) -> Result<(), Problem> {
    let day = |value: &Value| serde_json::from_value(value.clone()).unwrap_or_default();
    let bloom: Option<Option<NaiveDate>> = to.get(&Field::HalfBloomOn).map(day);
    if bloom.flatten().is_some_and(|bloom| bloom > today) {
        return Err(Problem::bad_input(
            "half bloom is still ahead on this day: note it once it was seen",
        ));
    }
    let planting = to.get(&Field::PlantedOn).map(day);
    let edited = planting.is_some() || bloom.is_some();
    match (
        planting.unwrap_or(known.planted_on),
        bloom.unwrap_or(known.half_bloom_on),
    ) {
        (Some(planted), Some(bloomed)) if edited && bloomed <= planted => Err(Problem::bad_input(
            format!("half bloom on {bloomed} is not after planting on {planted}: check both dates"),
        )),
        _ => Ok(()),
    }
}
