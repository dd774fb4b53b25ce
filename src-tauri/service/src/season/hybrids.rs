//! Hybrids: their maturity class, and what their plantings have shown of them.

use std::collections::BTreeMap;

use chrono::NaiveDate;
use ripening::heat::{MaturityClass, heat_to_half_bloom};
use ripening::outlook::{HybridLearned, learn_hybrid};
use serde_json::json;
use uuid::Uuid;

use crate::rows::set;
use crate::season::heat_sets::HeatSets;
use crate::season::outlook::{followed_alone, records, told};
use crate::season::pages::{ClassHeat, HybridPace, HybridPage, HybridPlanting, HybridRow};
use crate::{Done, HybridList, Problem, Reply, Service, read_only};
use notebook::fact::{Act, Field, Row};
use notebook::views::{hybrids, plantings};

impl Service {
    pub(crate) fn hybrids(&self) -> Result<Reply<HybridList>, Problem> {
        let rows = hybrids::all(self.notebook.db())?
            .into_iter()
            .map(|hybrid| HybridRow {
                id: hybrid.id,
                name: hybrid.name,
                maturity: hybrid.maturity,
                plantings: hybrid.plantings,
            })
            .collect();
        Ok(read_only(HybridList { rows }))
    }

    pub(crate) fn hybrid(
        &mut self,
        id: Uuid,
        as_of: Option<NaiveDate>,
    ) -> Result<Reply<HybridPage>, Problem> {
        let as_of = as_of.unwrap_or(self.notebook.clock().today());
        let db = self.notebook.db();
        let hybrid = hybrids::one(db, id)?.ok_or_else(|| Problem::not_found("hybrid"))?;
        let sets = HeatSets::read(db)?;
        let chosen = sets.of_hybrid(hybrid.heat_set.as_deref());
        let scale = sets
            .scale(&chosen.key)
            .ok_or_else(|| Problem::not_found("heat set"))?;

        let mut own: Vec<_> = plantings::all(db)?
            .into_iter()
            .filter(|planting| planting.hybrid_id == Some(id))
            .collect();
        own.sort_by(|a, b| (b.planted_on, &a.name).cmp(&(a.planted_on, &b.name)));
        let told = told(db, own, as_of)?;
        let records = records(db, &told, as_of)?;
        let followed = followed_alone(&told, &records, scale, as_of);
        let teaching: Vec<_> = told
            .iter()
            .zip(&followed)
            .filter(|(told, _)| sets.of_planting(&told.planting).key == chosen.key)
            .filter_map(|(_, followed)| followed.as_ref().ok())
            .collect();
        let published = learn_hybrid(scale, hybrid.maturity, &[]);
        let learned = learn_hybrid(scale, hybrid.maturity, &teaching);
        let rows = told
            .iter()
            .zip(&followed)
            .map(|(told, followed)| HybridPlanting {
                id: told.planting.id,
                name: told.planting.name.clone(),
                planted_on: told.planting.planted_on,
                sightings: u32::try_from(told.sightings.len()).unwrap_or(u32::MAX),
                pace: followed.as_ref().ok().and_then(|followed| {
                    (followed.track.sightings() > 0).then(|| followed.own_pace())
                }),
                why: followed.as_ref().err().cloned(),
                other_set: sets.of_planting(&told.planting).key != chosen.key,
            })
            .collect();
        Ok(read_only(HybridPage {
            id,
            name: hybrid.name,
            maturity: hybrid.maturity,
            own_heat_set: hybrid.heat_set,
            classes: MaturityClass::ALL
                .into_iter()
                .map(|class| ClassHeat {
                    class,
                    units: heat_to_half_bloom(scale, Some(class)).0,
                })
                .collect(),
            heat_set: chosen,
            as_of,
            published: pace(&published),
            learned: pace(&learned),
            plantings: rows,
        }))
    }

    pub(crate) fn set_maturity(
        &mut self,
        id: Uuid,
        maturity: Option<MaturityClass>,
    ) -> Result<Reply<Done>, Problem> {
        let ((), touched) = self.notebook.write(|writer| {
            let known =
                hybrids::one(writer.db(), id)?.ok_or_else(|| Problem::not_found("hybrid"))?;
            if known.maturity == maturity {
                return Ok(());
            }
            let to = BTreeMap::from([(Field::Maturity, json!(maturity))]);
            set(writer, Act::HybridEdited, Row::Hybrid, id, to)
        })?;
        Ok(Reply {
            answer: Done {},
            changed: self.changed(&touched)?,
        })
    }
}

fn pace(learned: &HybridLearned) -> HybridPace {
    HybridPace {
        pace: learned.pace,
        next_planting: learned.next_planting,
        half_bloom: learned.half_bloom,
        plantings: u32::try_from(learned.plantings).unwrap_or(u32::MAX),
    }
}
