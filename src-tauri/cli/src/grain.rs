//! `headwalk grain`: what grain is worth at the moisture it is cut at, as JSON.

use std::io::{self, Write};

use clap::{Args, ValueEnum};
use ripening::grain::{
    DiscountSchedule, DiscountStep, DiscountTable, Discounts, DryerUse, DryingCost, Factor, Fuel,
    GradeAnswer, GrainError, POUNDS_PER_BUSHEL, PUBLISHED_BASE, Sample, StorageDays, Worked,
    all_energy_cents_per_point, dry_share, drying_cost, grade, pounds_equal_to_a_bushel,
    shrink_worked, storage_days, value_per_cwt, value_worked,
};
use serde::Serialize;

use crate::failure::Failure;

/// Value of grain at a moisture: shrink, over-dry loss, drying cost, discounts,
/// US grade and storage life; one JSON object
///
/// "dry_share" is the weight at base moisture per weight as cut.
/// "value_per_cwt" is what a hundredweight as cut fetches when wet; for grain
/// drier than the base, what had been a hundredweight at base moisture fetches.
#[derive(Args)]
pub struct Grain {
    /// Moisture of the grain, percent wet basis
    #[arg(long)]
    moisture: f64,
    /// Base moisture of the price, percent
    #[arg(long, default_value_t = PUBLISHED_BASE)]
    base: f64,
    /// Price at base moisture, dollars a hundredweight
    #[arg(long)]
    price_per_cwt: f64,
    /// What the dryer burns, to add the cost of drying to base
    #[arg(long, requires = "fuel_price")]
    fuel: Option<FuelName>,
    /// Dollars a gallon of propane, a therm of gas or a kilowatt-hour
    #[arg(long, requires = "fuel")]
    fuel_price: Option<f64>,
    /// Test weight, pounds a bushel
    #[arg(long)]
    test_weight: Option<f64>,
    /// Heat-damaged kernels, percent
    #[arg(long)]
    heat_damage: Option<f64>,
    /// Damaged kernels in all, percent
    #[arg(long)]
    total_damage: Option<f64>,
    /// Foreign material, percent
    #[arg(long)]
    foreign_material: Option<f64>,
    /// Broken kernels and foreign material, percent
    #[arg(long)]
    broken_and_foreign: Option<f64>,
    /// A line of the buyer's discounts, FACTOR:BEYOND:CENTS a hundredweight, or
    /// FACTOR:BEYOND:refused; again for each line, from mild to severe
    #[arg(long, value_name = "LINE", value_parser = discount)]
    discount: Vec<DiscountLine>,
    /// Temperature of stored grain, degrees F, to add its storage life
    #[arg(long, allow_negative_numbers = true)]
    storage_temp_f: Option<f64>,
    /// Add every formula with its numbers
    #[arg(long)]
    explain: bool,
}

#[derive(Clone, Copy, ValueEnum)]
enum FuelName {
    Propane,
    NaturalGas,
    Electricity,
}

#[derive(Clone, Copy)]
struct DiscountLine {
    factor: Factor,
    beyond: f64,
    /// Absent: refused.
    cents: Option<f64>,
}

fn discount(text: &str) -> Result<DiscountLine, String> {
    let wanted = || {
        let words = Factor::ALL.map(Factor::word);
        format!(
            "use FACTOR:BEYOND:CENTS, with a factor of {}",
            words.join(", ")
        )
    };
    let mut parts = text.split(':');
    let (Some(word), Some(beyond), Some(cents), None) =
        (parts.next(), parts.next(), parts.next(), parts.next())
    else {
        return Err(wanted());
    };
    Ok(DiscountLine {
        factor: Factor::ALL
            .into_iter()
            .find(|factor| factor.word() == word)
            .ok_or_else(wanted)?,
        beyond: beyond.parse().map_err(|_| wanted())?,
        cents: match cents {
            "refused" => None,
            number => Some(number.parse().map_err(|_| wanted())?),
        },
    })
}

#[derive(Serialize)]
struct Answer {
    moisture: f64,
    base: f64,
    price_per_cwt: f64,
    dry_share: f64,
    value_per_cwt: f64,
    /// Dollars a hundredweight below the price.
    loss_per_cwt: f64,
    pounds_equal_to_a_bushel: f64,
    #[serde(skip_serializing_if = "Option::is_none")]
    drying: Option<Drying>,
    #[serde(skip_serializing_if = "Option::is_none")]
    discounts: Option<Discounts>,
    /// Value less the discounts; absent without discounts, null when refused.
    #[serde(skip_serializing_if = "Option::is_none")]
    value_after_discounts: Option<Option<f64>>,
    #[serde(skip_serializing_if = "Option::is_none")]
    grade: Option<GradeAnswer>,
    #[serde(skip_serializing_if = "Option::is_none")]
    storage: Option<StorageDays>,
    #[serde(skip_serializing_if = "Option::is_none")]
    worked: Option<Vec<Worked>>,
}

/// Drying to base. Dollars.
#[derive(Serialize)]
struct Drying {
    per_bushel: Range,
    per_cwt: Range,
    /// Fuel and fans by rule of thumb, for propane only.
    #[serde(skip_serializing_if = "Option::is_none")]
    all_energy_per_bushel: Option<f64>,
}

#[derive(Serialize)]
struct Range {
    low: f64,
    typical: f64,
    high: f64,
}

impl Range {
    fn of(cost: &DryingCost, times: f64) -> Range {
        Range {
            low: cost.low * times,
            typical: cost.typical * times,
            high: cost.high * times,
        }
    }
}

fn wrong(error: GrainError) -> Failure {
    Failure::call(error.to_string())
}

impl Grain {
    pub fn run(self) -> Result<(), Failure> {
        let answer = self.answer()?;
        let mut out = io::stdout().lock();
        serde_json::to_writer(&mut out, &answer)?;
        out.write_all(b"\n")?;
        Ok(())
    }

    fn answer(&self) -> Result<Answer, Failure> {
        let (moisture, base, price) = (self.moisture, self.base, self.price_per_cwt);
        let value = value_per_cwt(moisture, base, price).map_err(wrong)?;
        let sample = Sample {
            moisture: Some(moisture),
            test_weight: self.test_weight,
            heat_damage: self.heat_damage,
            total_damage: self.total_damage,
            foreign_material: self.foreign_material,
            broken_and_foreign: self.broken_and_foreign,
            distinctly_low_quality: false,
        };
        let graded = grade(&sample).map_err(wrong)?;
        let discounts = self.discounts(&sample)?;
        let (drying, drying_worked) = self.drying()?.unzip();
        let worked = self
            .explain
            .then(|| {
                let mut worked = vec![
                    shrink_worked(moisture, base)?,
                    value_worked(moisture, base, price)?,
                ];
                worked.extend(drying_worked);
                Ok(worked)
            })
            .transpose()
            .map_err(wrong)?;
        let after = |discounts: &Discounts| discounts.cents_per_cwt.map(|c| value - c / 100.0);
        Ok(Answer {
            moisture,
            base,
            price_per_cwt: price,
            dry_share: dry_share(moisture, base).map_err(wrong)?,
            value_per_cwt: value,
            loss_per_cwt: price - value,
            pounds_equal_to_a_bushel: pounds_equal_to_a_bushel(moisture, base).map_err(wrong)?,
            drying,
            value_after_discounts: discounts.as_ref().map(after),
            discounts,
            grade: (!graded.factors.is_empty()).then_some(graded),
            storage: self
                .storage_temp_f
                .map(|temp_f| storage_days(moisture, temp_f))
                .transpose()
                .map_err(wrong)?,
            worked,
        })
    }

    fn drying(&self) -> Result<Option<(Drying, Worked)>, Failure> {
        let (Some(name), Some(price)) = (self.fuel, self.fuel_price) else {
            return Ok(None);
        };
        let fuel = match name {
            FuelName::Propane => Fuel::Propane,
            FuelName::NaturalGas => Fuel::NaturalGas,
            FuelName::Electricity => Fuel::Electricity,
        };
        let cost = drying_cost(self.moisture, self.base, fuel, price, DryerUse::PUBLISHED)
            .map_err(wrong)?;
        let points = (self.moisture - self.base).max(0.0);
        let all_energy = matches!(name, FuelName::Propane)
            .then(|| all_energy_cents_per_point(price))
            .transpose()
            .map_err(wrong)?;
        Ok(Some((
            Drying {
                per_bushel: Range::of(&cost, 1.0),
                per_cwt: Range::of(&cost, 100.0 / POUNDS_PER_BUSHEL),
                all_energy_per_bushel: all_energy.map(|cents| cents * points / 100.0),
            },
            cost.worked,
        )))
    }

    fn discounts(&self, sample: &Sample) -> Result<Option<Discounts>, Failure> {
        if self.discount.is_empty() {
            return Ok(None);
        }
        let mut schedule = DiscountSchedule::default();
        for factor in Factor::ALL {
            let lines = || self.discount.iter().filter(|line| line.factor == factor);
            if lines().next().is_none() {
                continue;
            }
            schedule.tables.push(DiscountTable {
                factor,
                steps: lines()
                    .filter_map(|line| {
                        Some(DiscountStep {
                            beyond: line.beyond,
                            cents_per_cwt: line.cents?,
                        })
                    })
                    .collect(),
                refused_beyond: lines().find(|line| line.cents.is_none()).map(|l| l.beyond),
            });
        }
        schedule
            .checked()
            .map_err(|error| Failure::call(error.to_string()))?;
        Ok(Some(schedule.discounts(sample)))
    }
}
