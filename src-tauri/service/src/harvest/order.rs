//! One combine and one dryer for all plantings: which is cut first.

use chrono::NaiveDate;
use ripening::harvest::Guess;
use ripening::harvest::{NetReturns, PlantingToCut, harvest_order};
use ripening::outlook::Why;
use uuid::Uuid;

use super::choice::refused;
use super::dry_down::looked_ahead;
use super::known::{Known, each};
use super::pages::{CutRow, HarvestOrderPage, NotCut, NotCutWhy, OutletWay};
use super::terms::{HarvestTerm, Terms};
use crate::{Problem, Reply, Service, read_only};

/// A planting that waits for the combine.
struct Waiting {
    planting: Uuid,
    name: String,
    acres: f64,
    acres_assumed: bool,
    loss_per_day: Option<Guess>,
    wet_grain_cost_known: bool,
}

impl Service {
    pub(crate) fn harvest_order(
        &mut self,
        as_of: Option<NaiveDate>,
    ) -> Result<Reply<HarvestOrderPage>, Problem> {
        let as_of = as_of.unwrap_or(self.notebook.clock().today());
        let mut waiting = Vec::new();
        let mut to_cut = Vec::new();
        let mut left_out = Vec::new();
        each(self.notebook.db(), as_of, |known| {
            match self.to_cut(&known)? {
                Ok((row, cut)) => {
                    waiting.push(row);
                    to_cut.push(cut);
                }
                Err(why) => left_out.push(NotCut {
                    planting: known.planting.id,
                    name: known.planting.name,
                    why,
                }),
            }
            Ok(())
        })?;
        let shared = Terms::read(self.notebook.db(), None)?;
        let combine = shared.view(HarvestTerm::CombineRate);
        let dryer = shared.view(HarvestTerm::DryerCapacity);
        let ordered = harvest_order(
            &to_cut,
            combine.guess.map_or(80.0, |guess| guess.value),
            dryer.guess.map(|guess| guess.value),
            as_of,
        );
        left_out.extend(ordered.not_fit.iter().filter_map(|&which| {
            let row = waiting.get(which)?;
            Some(NotCut {
                planting: row.planting,
                name: row.name.clone(),
                why: NotCutWhy::NotFit,
            })
        }));
        let rows = ordered
            .rows
            .iter()
            .filter_map(|row| {
                let of = waiting.get(row.planting)?;
                Some(CutRow {
                    planting: of.planting,
                    name: of.name.clone(),
                    acres: of.acres,
                    acres_assumed: of.acres_assumed,
                    from: row.from,
                    to: row.to,
                    net: row.net,
                    given_up: row.given_up,
                    loss_per_day: of.loss_per_day,
                    wet_grain_cost_known: of.wet_grain_cost_known,
                })
            })
            .collect();
        Ok(read_only(HarvestOrderPage {
            as_of,
            rows,
            left_out,
            net: ordered.net,
            way: ordered.way,
            shared: vec![combine, dryer],
        }))
    }

    /// A planting for the order, or why it is not in it.
    fn to_cut(
        &self,
        known: &Known,
    ) -> Result<Result<(Waiting, PlantingToCut), NotCutWhy>, Problem> {
        if let Some(on) = known.cut_on {
            return Ok(Err(NotCutWhy::Cut { on }));
        }
        if known.over {
            return Ok(Err(NotCutWhy::Over));
        }
        let grain = match &known.grain {
            Ok(grain) => grain,
            Err(Why::NoGrain) => return Ok(Err(NotCutWhy::Silage)),
            Err(why) => return Ok(Err(NotCutWhy::Unknown { why: why.clone() })),
        };
        let terms = self.terms_of(&known.planting)?;
        let (acres, acres_assumed) = known.acres();
        let plan = terms.plan(acres);
        let paths = looked_ahead(&grain.paths, terms.target());
        let returns = NetReturns::new(&plan, &paths).map_err(refused)?;
        let mut cut = PlantingToCut::new(acres, &returns);
        if terms.outlet != OutletWay::DriedFirst {
            // It does not pass the dryer.
            cut.dryer_load.fill(0.0);
        }
        Ok(Ok((
            Waiting {
                planting: known.planting.id,
                name: known.planting.name.clone(),
                acres,
                acres_assumed,
                loss_per_day: terms.guess(HarvestTerm::LossPerDay),
                wet_grain_cost_known: plan.wet_grain_cost_known(),
            },
            cut,
        )))
    }
}
