//! Cut now and pay for drying, or wait and lose heads, weight and grade.

use chrono::NaiveDate;
use ripening::harvest::{Guess, HarvestError, harvest_choice, sensitivity};
use uuid::Uuid;

use super::dry_down::looked_ahead;
use super::observed::loss_counted;
use super::terms::Terms;
use super::words::{HarvestPage, TermsEdit};
use crate::service::{Answer, Problem, Reply, Service, read_only};
use crate::views::harvest;

pub(super) fn refused(error: HarvestError) -> Problem {
    Problem::bad_input(error.to_string())
}

impl Service {
    pub(in crate::service) fn harvest(
        &mut self,
        id: Uuid,
        as_of: Option<NaiveDate>,
    ) -> Result<Reply, Problem> {
        let page = self.harvest_page(id, as_of, &TermsEdit::default(), true)?;
        Ok(read_only(Answer::Harvest(Box::new(page))))
    }

    pub(in crate::service) fn what_if(
        &mut self,
        id: Uuid,
        as_of: Option<NaiveDate>,
        edit: &TermsEdit,
        settled: bool,
    ) -> Result<Reply, Problem> {
        let page = self.harvest_page(id, as_of, edit, settled)?;
        Ok(read_only(Answer::WhatIf(Box::new(page))))
    }

    fn harvest_page(
        &mut self,
        id: Uuid,
        as_of: Option<NaiveDate>,
        edit: &TermsEdit,
        settled: bool,
    ) -> Result<HarvestPage, Problem> {
        let known = self.known(id, as_of)?;
        let kept = self.kept_terms(&known.planting)?;
        let mut terms = Terms::clone(&kept);
        terms.try_out(edit)?;
        let (acres, acres_assumed) = known.acres();
        let mut page = HarvestPage {
            planting: id,
            name: known.planting.name.clone(),
            as_of: known.as_of,
            acres,
            acres_assumed,
            terms: terms.shown(),
            loss_counted: self.counted(id, &terms, known.as_of)?,
            choice: None,
            why: known.grain.as_ref().err().cloned(),
            sensitivity: Vec::new(),
        };
        if let Ok(grain) = &known.grain {
            let paths = looked_ahead(&grain.paths, terms.target());
            let plan = terms.plan(acres);
            page.choice = Some(harvest_choice(&plan, &paths).map_err(refused)?);
            if settled {
                page.sensitivity = sensitivity(&plan, &paths).map_err(refused)?;
            }
        }
        Ok(page)
    }

    fn counted(&self, id: Uuid, terms: &Terms, as_of: NaiveDate) -> Result<Option<Guess>, Problem> {
        let rows = harvest::of_planting(self.notebook.db(), id)?;
        Ok(loss_counted(&rows, terms, as_of))
    }
}
