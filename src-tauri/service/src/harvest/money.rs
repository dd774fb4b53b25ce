//! What grain is worth at a moisture, with every formula and its numbers.

use ripening::grain::{
    DryerUse, GrainError, POUNDS_PER_BUSHEL, Sample, buyer_shrink_worked, dry_share, drying_cost,
    grade, shrink_worked, storage_days, value_per_cwt, value_worked,
};
use ripening::harvest::{WetGrainCost, pay_for_a_cwt};
use uuid::Uuid;

use super::pages::{GrainMoney, OutletWay};
use super::terms::{HarvestTerm, Terms};
use crate::live::live_planting;
use crate::{Problem, Reply, Service, read_only};

fn refused(error: GrainError) -> Problem {
    Problem::bad_input(error.to_string())
}

impl Service {
    pub(crate) fn grain_money(
        &mut self,
        planting: Option<Uuid>,
        moisture: f64,
        storage_temp_f: Option<f64>,
    ) -> Result<Reply<GrainMoney>, Problem> {
        let db = self.notebook.db();
        let terms = match planting {
            Some(id) => self.terms_of(&live_planting(db, id)?)?,
            None => Terms::read(db, None)?,
        };
        let value = |term: HarvestTerm| terms.value(term).unwrap_or_default();
        let (base, price) = (value(HarvestTerm::BaseMoisture), value(HarvestTerm::Price));
        let dries = terms.outlet == OutletWay::DriedFirst && moisture > base;
        let dry_share = dry_share(moisture, base).map_err(refused)?;
        let mut worked = vec![shrink_worked(moisture, base).map_err(refused)?];
        // Bought by weight, wet grain is paid for as it is.
        let by_weight = terms.outlet == OutletWay::SoldByWeight && moisture > base;
        let plan = terms.plan(1.0);
        let pay = pay_for_a_cwt(&plan, moisture).map_err(super::choice::refused)?;
        let sold_wet = terms.outlet == OutletWay::SoldShrunk && moisture > base;
        let factor = match plan.wet_cost {
            Some(WetGrainCost::Shrink { per_point, .. }) if sold_wet => Some(per_point),
            _ => None,
        };
        let value_per_cwt = if by_weight {
            price
        } else if let Some(per_point) = factor {
            let shrunk = buyer_shrink_worked(moisture, base, per_point, price).map_err(refused)?;
            let value = shrunk.result.value;
            worked.push(shrunk);
            value
        } else {
            worked.push(value_worked(moisture, base, price).map_err(refused)?);
            value_per_cwt(moisture, base, price).map_err(refused)?
        };
        let drying = dries
            .then(|| {
                let dryer = terms.dryer();
                let usage = DryerUse {
                    low: dryer.fuel_use.low,
                    typical: dryer.fuel_use.value,
                    high: dryer.fuel_use.high,
                };
                drying_cost(moisture, base, dryer.fuel, dryer.fuel_price.value, usage)
            })
            .transpose()
            .map_err(refused)?;
        worked.extend(drying.as_ref().map(|drying| drying.worked.clone()));
        // What is dried first is sold at base.
        let sample = Sample {
            moisture: Some(if dries { base } else { moisture }),
            ..terms.sample()
        };
        let discounts = terms.discounts.discounts(&sample);
        let charged_per_cwt = if sold_wet { pay.charged } else { 0.0 };
        Ok(read_only(GrainMoney {
            moisture,
            terms: terms.shown(),
            dry_share,
            value_per_cwt,
            charged_per_cwt,
            // Discounts are taken from the price of the weight that is paid for.
            net_per_cwt: discounts.cents_per_cwt.map(|cents| {
                let paid = 1.0 - pay.weight_off / 100.0;
                let dried = drying.as_ref().map_or(0.0, |drying| drying.typical);
                let drying = dried * 100.0 / POUNDS_PER_BUSHEL;
                value_per_cwt - paid * cents / 100.0 - drying - charged_per_cwt
            }),
            drying,
            discounts,
            grade: grade(&sample).map_err(refused)?,
            storage: storage_temp_f
                .map(|temp_f| storage_days(moisture, temp_f))
                .transpose()
                .map_err(refused)?,
            worked,
        }))
    }
}
