//! Plantings that two scouts made for the same sorghum: finding, merging and
//! taking apart again.

use std::collections::{BTreeMap, BTreeSet};

use chrono::NaiveDate;
use serde_json::json;
use uuid::Uuid;

use crate::live::live_planting;
use crate::rows::giving;
use crate::{
    Done, DuplicatePair, DuplicatePairs, PlantingBrief, PlantingBriefs, PlantingRow, Problem,
    Reply, Service, read_only,
};
use notebook::error::StoreError;
use notebook::fact::{Act, Body, Fact, Field, Row};
use notebook::notebook::Writer;
use notebook::views::merged::parents;
use notebook::views::merges;
use notebook::views::plantings::{self, Planting};
use notebook::views::walks;

/// Planting dates that may be the same day's work, noted by two people, days.
const DAYS_APART: i64 = 3;
/// Most pairs that are asked about at once; the others come when these are settled.
const MOST_PAIRS: usize = 200;

impl Service {
    pub(crate) fn likely_duplicates(&mut self) -> Result<Reply<DuplicatePairs>, Problem> {
        let plantings = plantings::all(self.notebook.db())?;
        let mut pairs = Vec::new();
        for (one, other) in alike(&plantings) {
            let mut pair = [self.brief_of(one)?, self.brief_of(other)?];
            // The one that more was recorded on is the likelier to stay.
            pair.sort_by_key(|brief| std::cmp::Reverse(brief.walks));
            let [one, other] = pair;
            pairs.push(DuplicatePair { one, other });
        }
        Ok(read_only(DuplicatePairs { pairs }))
    }

    pub(crate) fn merged_plantings(
        &mut self,
        planting: Uuid,
    ) -> Result<Reply<PlantingBriefs>, Problem> {
        let shown = live_planting(self.notebook.db(), planting)?;
        let rows = plantings::shown_as(self.notebook.db(), shown.id)?
            .iter()
            .map(|planting| self.brief_of(planting))
            .collect::<Result<_, _>>()?;
        Ok(read_only(PlantingBriefs { rows }))
    }

    pub(crate) fn merge_plantings(
        &mut self,
        duplicate: Uuid,
        into: Uuid,
    ) -> Result<Reply<PlantingRow>, Problem> {
        let (shown, touched) = self.notebook.write(|writer| {
            let duplicate = live_planting(writer.db(), duplicate)?;
            let into = live_planting(writer.db(), into)?;
            if duplicate.id != into.id {
                let body = Body::of(vec![merge(writer, duplicate.id, Some(into.id))?]);
                writer.record(Act::PlantingMerged, &body)?;
            }
            Ok::<Uuid, Problem>(into.id)
        })?;
        self.forget_answers();
        Ok(Reply {
            changed: self.changed(&touched)?,
            answer: self.planting_row(shown)?,
        })
    }

    pub(crate) fn unmerge_planting(
        &mut self,
        duplicate: Uuid,
    ) -> Result<Reply<PlantingRow>, Problem> {
        let ((), touched) = self.notebook.write(|writer| {
            plantings::one(writer.db(), duplicate)?
                .ok_or_else(|| Problem::not_found("planting"))?;
            let shown = plantings::shown(writer.db(), duplicate)?;
            if shown == duplicate {
                return Ok(());
            }
            let mut facts = vec![merge(writer, duplicate, None)?];
            // Where two people merged the two either way round, the other word
            // would tie them together again.
            if is_merged(writer, shown)? {
                facts.push(merge(writer, shown, None)?);
            }
            Ok::<(), Problem>(writer.record(Act::PlantingUnmerged, &Body::of(facts))?)
        })?;
        self.forget_answers();
        Ok(Reply {
            changed: self.changed(&touched)?,
            answer: self.planting_row(duplicate)?,
        })
    }

    /// Chooses among what people said a planting is, so that no other word is left.
    /// What stands may be chosen whatever became of it, the others as long as they
    /// are not removed.
    pub(crate) fn settle_merge(
        &mut self,
        planting: Uuid,
        into: Option<Uuid>,
    ) -> Result<Reply<Done>, Problem> {
        let ((), touched) = self.notebook.write(|writer| {
            let known = plantings::one(writer.db(), planting)?
                .ok_or_else(|| Problem::not_found("planting"))?;
            if into == Some(planting) {
                return Err(Problem::bad_input(
                    "a planting cannot be merged into itself: choose another",
                ));
            }
            let parents = parents(writer.db())?;
            if parents.get(&planting).copied() != into {
                match into {
                    Some(into) => drop(live_planting(writer.db(), into)?),
                    None if known.removed => return Err(Problem::not_found("planting")),
                    None => (),
                }
            }
            let mut facts = vec![merge(writer, planting, into)?];
            let mut kind = Act::PlantingUnmerged;
            if let Some(into) = into {
                // The word that this one is that one gives way to the choice.
                if let Some(link) = merges::link_to(&parents, into, planting) {
                    facts.push(merge(writer, link, None)?);
                }
                kind = Act::PlantingMerged;
            }
            Ok::<(), Problem>(writer.record(kind, &Body::of(facts))?)
        })?;
        self.forget_answers();
        Ok(Reply {
            changed: self.changed(&touched)?,
            answer: Done {},
        })
    }

    fn brief_of(&self, planting: &Planting) -> Result<PlantingBrief, StoreError> {
        let own = walks::of_planting(self.notebook.db(), planting.id)?;
        let scouts: BTreeSet<String> = own
            .iter()
            .map(|walk| walk.scout.clone())
            .filter(|scout| !scout.is_empty())
            .collect();
        Ok(PlantingBrief {
            id: planting.id,
            name: planting.name.clone(),
            field: planting.field.clone(),
            hybrid: planting.hybrid.clone(),
            planted_on: planting.planted_on,
            walks: u32::try_from(own.len()).unwrap_or(u32::MAX),
            scouts: scouts.into_iter().collect(),
        })
    }
}

/// Plantings that may be one: of one name, or of one field, hybrid and time of planting.
/// Only a person can say. Each name is folded once: there may be thousands.
fn alike(plantings: &[Planting]) -> Vec<(&Planting, &Planting)> {
    let mut by_name: BTreeMap<String, Vec<&Planting>> = BTreeMap::new();
    let mut by_field: BTreeMap<(String, String), Vec<&Planting>> = BTreeMap::new();
    let mut pairs = Vec::new();
    for planting in plantings {
        let name = fold(&planting.name);
        let field = planting.field.as_deref().zip(planting.hybrid.as_deref());
        let field = field.map(|(field, hybrid)| (fold(field), fold(hybrid)));
        let of_name = by_name.get(&name).into_iter().flatten();
        let of_field = field.iter().flat_map(|field| by_field.get(field));
        let of_field = of_field.flatten().filter(|other| {
            near(other.planted_on, planting.planted_on) && fold(&other.name) != name
        });
        for other in of_name.chain(of_field) {
            pairs.push((*other, planting));
            if pairs.len() == MOST_PAIRS {
                return pairs;
            }
        }
        by_name.entry(name).or_default().push(planting);
        if let Some(field) = field {
            by_field.entry(field).or_default().push(planting);
        }
    }
    pairs
}

/// A date that nobody noted rules nothing out.
fn near(one: Option<NaiveDate>, other: Option<NaiveDate>) -> bool {
    one.zip(other)
        .is_none_or(|(one, other)| (one - other).num_days().abs() <= DAYS_APART)
}

/// A name without what two thumbs type differently: case, blanks, dashes.
fn fold(name: &str) -> String {
    name.chars()
        .filter(|letter| letter.is_alphanumeric())
        .flat_map(char::to_lowercase)
        .collect()
}

fn merge(writer: &Writer, id: Uuid, into: Option<Uuid>) -> Result<Fact, Problem> {
    let to = BTreeMap::from([(Field::MergedInto, json!(into))]);
    Ok(giving(writer.db(), Row::Planting, id, None, to)?)
}

fn is_merged(writer: &Writer, id: Uuid) -> Result<bool, Problem> {
    Ok(writer
        .db()
        .prepare_cached("SELECT 1 FROM planting WHERE id = ?1 AND merged_into IS NOT NULL")?
        .exists([id])?)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_are_compared_as_thumbs_type_them() {
        assert_eq!(fold("Creek-3"), fold("creek 3"));
        assert_ne!(fold("Creek 3"), fold("Creek 4"));
    }

    #[test]
    fn dates_are_near_within_days_or_where_one_is_not_known() {
        let day = |day| NaiveDate::from_ymd_opt(2026, 5, day);
        assert!(near(day(1), day(4)));
        assert!(!near(day(1), day(5)));
        assert!(near(None, day(5)));
    }
}
