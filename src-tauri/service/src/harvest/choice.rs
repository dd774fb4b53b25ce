//! Cut now and pay for drying, or wait and lose heads, weight and grade.

use chrono::NaiveDate;
use ripening::harvest::{HarvestError, harvest_choice, sensitivity};
use uuid::Uuid;

use super::known::Known;
use super::observed::loss_counted;
use super::pages::{HarvestPage, TermsEdit, WhatIfAnswer};
use super::terms::Terms;
use crate::{Problem, Reply, Service, read_only};
use notebook::views::harvest;

pub(super) fn refused(error: HarvestError) -> Problem {
    Problem::bad_input(error.to_string())
}

impl Service {
    pub(crate) fn harvest(
        &mut self,
        id: Uuid,
        as_of: Option<NaiveDate>,
    ) -> Result<Reply<HarvestPage>, Problem> {
        let known = self.known(id, as_of)?;
        let terms = self.kept_terms(&known.planting)?;
        let (acres, acres_assumed) = known.acres();
        let rows = harvest::of_planting(self.notebook.db(), id)?;
        let WhatIfAnswer {
            choice,
            sensitivity,
        } = self.weighed(&known, &terms, true)?;
        Ok(read_only(HarvestPage {
            planting: id,
            name: known.planting.name.clone(),
            as_of: known.as_of,
            acres,
            acres_assumed,
            terms: terms.shown(),
            loss_counted: loss_counted(&rows, &terms, known.as_of),
            choice,
            why: known.grain.as_ref().err().cloned(),
            sensitivity,
        }))
    }

    pub(crate) fn what_if(
        &mut self,
        id: Uuid,
        as_of: Option<NaiveDate>,
        edit: &TermsEdit,
        settled: bool,
    ) -> Result<Reply<WhatIfAnswer>, Problem> {
        let known = self.known(id, as_of)?;
        let mut terms = Terms::clone(&*self.kept_terms(&known.planting)?);
        terms.try_out(edit)?;
        let answer = self.weighed(&known, &terms, settled)?;
        Ok(read_only(answer))
    }

    fn weighed(
        &mut self,
        known: &Known,
        terms: &Terms,
        with_sensitivity: bool,
    ) -> Result<WhatIfAnswer, Problem> {
        let mut answer = WhatIfAnswer {
            choice: None,
            sensitivity: Vec::new(),
        };
        if let Some(paths) = self.kept_paths(known, terms.target()) {
            let plan = terms.plan(known.acres().0);
            answer.choice = Some(harvest_choice(&plan, &paths).map_err(refused)?);
            if with_sensitivity {
                answer.sensitivity = sensitivity(&plan, &paths).map_err(refused)?;
            }
        }
        Ok(answer)
    }
}
