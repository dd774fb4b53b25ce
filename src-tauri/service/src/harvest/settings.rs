//! The terms of a harvest, shown and set.

use ripening::harvest::wet_grain_pay;
use uuid::Uuid;

use super::choice::refused;
use super::observed::{lodged, loss_counted};
use super::pages::{TermsEdit, TermsPage, WetGrainPage};
use super::terms::{HarvestTerm, Terms, edited};
use super::undo::last_step;
use crate::live::live_planting;
use crate::{Problem, Reply, Service, read_only};
use notebook::fact::{Act, Body, Fact};
use notebook::views::harvest;
use notebook::views::plantings::Planting;

impl Service {
    pub(crate) fn harvest_terms(
        &mut self,
        planting: Option<Uuid>,
    ) -> Result<Reply<TermsPage>, Problem> {
        let page = self.terms_page(planting)?;
        Ok(read_only(page))
    }

    pub(crate) fn set_harvest_terms(
        &mut self,
        planting: Option<Uuid>,
        edit: &TermsEdit,
    ) -> Result<Reply<TermsPage>, Problem> {
        let mut to = edited(edit)?;
        self.named_terms(planting)?.try_out(edit)?;
        let ((), touched) = self.notebook.write(|writer| {
            if let Some(planting) = planting {
                live_planting(writer.db(), planting)?;
            }
            let standing = harvest::terms(writer.db(), planting.unwrap_or_default())?;
            let null = serde_json::Value::Null;
            to.retain(|name, value| standing.get(name).unwrap_or(&null) != value);
            if to.is_empty() {
                return Ok(());
            }
            let was = to
                .keys()
                .filter_map(|name| Some((name.clone(), standing.get(name)?.clone())))
                .collect();
            let fact = Fact::Terms { planting, to, was };
            Ok::<(), Problem>(writer.record(Act::TermsSet, &Body::of(vec![fact]))?)
        })?;
        let changed = self.changed(&touched)?;
        let page = self.terms_page(planting)?;
        Ok(Reply {
            answer: page,
            changed,
        })
    }

    pub(crate) fn try_wet_grain(
        &mut self,
        planting: Option<Uuid>,
        edit: &TermsEdit,
    ) -> Result<Reply<WetGrainPage>, Problem> {
        let mut terms = self.named_terms(planting)?;
        terms.try_out(edit)?;
        let plan = terms.plan(1.0);
        Ok(read_only(WetGrainPage {
            known: plan.wet_grain_cost_known(),
            pay: wet_grain_pay(&plan).map_err(refused)?.to_vec(),
        }))
    }

    /// The terms of a planting that is there, or of all.
    fn named_terms(&self, planting: Option<Uuid>) -> Result<Terms, Problem> {
        let db = self.notebook.db();
        match planting {
            Some(id) => self.terms_of(&live_planting(db, id)?),
            None => Ok(Terms::read(db, None)?),
        }
    }

    fn terms_page(&self, planting: Option<Uuid>) -> Result<TermsPage, Problem> {
        let db = self.notebook.db();
        let known = planting.map(|id| live_planting(db, id)).transpose()?;
        let terms = match &known {
            Some(known) => self.terms_of(known)?,
            None => Terms::read(db, None)?,
        };
        Ok(TermsPage {
            planting,
            name: known.map(|known| known.name),
            terms: terms.shown(),
            undo: last_step(db, self.notebook.device(), planting.unwrap_or_default())?
                .map(|step| step.what),
        })
    }

    /// A planting's terms, with what was counted in it.
    pub(super) fn terms_of(&self, planting: &Planting) -> Result<Terms, Problem> {
        let db = self.notebook.db();
        let today = self.notebook.clock().today();
        let mut terms = Terms::read(db, Some(planting.id))?;
        let rows = harvest::of_planting(db, planting.id)?;
        if let Some(share) = lodged(db, planting.id, &rows, today)? {
            terms.count(HarvestTerm::Lodged, share);
        }
        if let Some(loss) = loss_counted(&rows, &terms, today) {
            terms.count(HarvestTerm::LossPerDay, loss);
        }
        Ok(terms)
    }
}
