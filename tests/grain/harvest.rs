//! The harvest choice against sums done by hand.

#![allow(clippy::unwrap_used, reason = "all of this file is a test")]

use chrono::{Days, NaiveDate};
use ripening::air::EquilibriumSet;
use ripening::dry_down::{
    DryDownInput, DryingDay, Meter, MoisturePaths, MoistureReading, PastDays, RatePrior, dry_down,
};
use ripening::grain::{
    DiscountSchedule, DiscountStep, DiscountTable, Factor, Fuel, dry_share, drying_cost,
};
use ripening::harvest::{
    Dryer, Guess, HarvestChoice, HarvestInput, HarvestPlan, NoBestDay, Outlet, SEEDS_PER_POUND,
    WetGrainCost, Whose, bushels_per_acre, harvest_choice, pay_for_a_cwt, sensitivity,
    wet_grain_pay,
};

fn today() -> NaiveDate {
    NaiveDate::from_ymd_opt(2025, 10, 1).unwrap()
}

/// Twenty equal members of fair days, or of other days.
fn ahead(high_c: f64, low_c: f64, rain_mm: f64) -> Vec<Vec<DryingDay>> {
    let day = DryingDay::new(
        high_c,
        low_c,
        Some(rain_mm),
        Some(55.0),
        EquilibriumSet::DEFAULT,
    )
    .unwrap();
    vec![vec![day; 40]; 20]
}

/// Grain that an oven has found to hold `percent`, many times over.
fn known_moisture(percent: f64, ahead: &[Vec<DryingDay>]) -> MoisturePaths {
    let readings = [MoistureReading {
        on: today(),
        meter: Meter::Oven,
        meter_name: "oven".to_owned(),
        meter_error: None,
        percents: vec![percent; 30],
    }];
    paths(&[], &readings, ahead)
}

fn paths(
    black_layer: &[(NaiveDate, f64)],
    readings: &[MoistureReading],
    ahead: &[Vec<DryingDay>],
) -> MoisturePaths {
    let past = PastDays {
        first: today(),
        days: vec![None],
    };
    dry_down(&DryDownInput {
        as_of: today(),
        black_layer,
        readings,
        past: &past,
        prior: RatePrior::default(),
    })
    .unwrap()
    .paths(ahead)
    .unwrap()
}

/// A buyer who takes no more for wet grain than the weight of its water.
fn nothing_off() -> DiscountSchedule {
    DiscountSchedule {
        tables: vec![DiscountTable {
            factor: Factor::Moisture,
            steps: vec![DiscountStep {
                beyond: 14.0,
                cents_per_cwt: 0.0,
            }],
            refused_beyond: None,
        }],
    }
}

/// 100 acres of 40 cwt at $8.50, cut in a day.
fn plan(loss_percent_per_day: Option<f64>) -> HarvestPlan {
    let mut plan = HarvestPlan::new(
        100.0,
        Guess::new(35.0, 40.0, 45.0, Whose::User),
        Guess::exact(8.5, Whose::User),
    );
    plan.combine_acres_per_day = 200.0;
    plan.discounts = nothing_off();
    plan.loss.percent_per_day =
        loss_percent_per_day.map(|loss| Guess::new(0.2 * loss, loss, 3.0 * loss, Whose::User));
    plan
}

fn choice(plan: &HarvestPlan, moisture: f64) -> HarvestChoice {
    let ahead = ahead(26.0, 12.0, 0.0);
    harvest_choice(plan, &known_moisture(moisture, &ahead)).unwrap()
}

fn near(ours: f64, by_hand: f64, within: f64) {
    assert!((ours - by_hand).abs() < within, "{ours} against {by_hand}");
}

#[test]
fn wet_grain_sold_as_cut_brings_its_base_weight_less_the_discount() {
    let mut plan = plan(Some(0.5));
    plan.discounts = DiscountSchedule {
        tables: vec![DiscountTable {
            factor: Factor::Moisture,
            steps: vec![DiscountStep {
                beyond: 14.0,
                cents_per_cwt: 30.0,
            }],
            refused_beyond: Some(21.0),
        }],
    };
    plan.cutting_cost_per_acre = 35.0;
    let day = choice(&plan, 18.0).days[0];
    near(day.mean, 40.0 * (8.50 - 0.30) - 35.0, 0.01);
    near(day.fit, 1.0, 1e-9);
    // Beyond the limit of refusal nothing is cut until it has dried.
    let wet = choice(&plan, 24.0);
    near(wet.days[0].fit, 0.0, 1e-9);
    assert!(wet.best.unwrap().day.date > today());
}

#[test]
fn over_dry_grain_sells_by_its_lower_weight() {
    let day = choice(&plan(Some(0.0)), 12.0).days[0];
    near(day.mean, 40.0 * 8.50 / dry_share(12.0, 14.0).unwrap(), 1.5);
}

#[test]
fn grain_dried_first_pays_for_fuel_and_handling() {
    let mut plan = plan(Some(0.5));
    let mut dryer = Dryer::published(Fuel::Propane, 2.10);
    dryer.handling_per_bushel = 0.05;
    plan.outlet = Outlet::DriedFirst(dryer);
    let day = choice(&plan, 20.0).days[0];
    let usage = ripening::grain::DryerUse::PUBLISHED;
    let fuel = drying_cost(20.0, 14.0, Fuel::Propane, 2.10, usage).unwrap();
    let wet_bushels = 40.0 / dry_share(20.0, 14.0).unwrap() * 100.0 / 56.0;
    // Moisture is known to about a tenth of a point.
    near(
        day.mean,
        40.0 * 8.50 - wet_bushels * (fuel.typical + 0.05),
        0.5,
    );
}

#[test]
fn without_a_loss_no_day_is_named() {
    let answer = choice(&plan(None), 16.0);
    assert_eq!(answer.best, None);
    assert_eq!(answer.waiting, None);
    assert_eq!(answer.why, Some(NoBestDay::LossNotKnown));
    assert_eq!(answer.days.len(), 41);
}

fn shrink(per_point: f64, charge_per_bushel_point: f64) -> Option<WetGrainCost> {
    Some(WetGrainCost::Shrink {
        per_point,
        charge_per_bushel_point,
    })
}

#[test]
fn while_nothing_says_what_wet_grain_costs_no_day_is_named() {
    let mut plan = plan(Some(0.5));
    let says = |plan: &HarvestPlan| {
        let answer = choice(plan, 24.0);
        assert_eq!(answer.best.is_none(), answer.why.is_some());
        assert_eq!(answer.waiting.is_none(), answer.why.is_some());
        answer.why
    };
    plan.discounts.tables.clear();
    assert_eq!(says(&plan), Some(NoBestDay::WetGrainCostNotKnown));
    // A table that only refuses grain above a limit does not say what wet grain costs below it.
    plan.discounts.tables.push(DiscountTable {
        factor: Factor::Moisture,
        steps: Vec::new(),
        refused_beyond: Some(30.0),
    });
    plan.discounts.tables.push(DiscountTable {
        factor: Factor::TestWeight,
        steps: vec![DiscountStep {
            beyond: 55.0,
            cents_per_cwt: 2.0,
        }],
        refused_beyond: None,
    });
    assert_eq!(says(&plan), Some(NoBestDay::WetGrainCostNotKnown));
    plan.wet_cost = shrink(1.4, 0.0);
    assert_eq!(says(&plan), None);
    plan.wet_cost = Some(WetGrainCost::energy(
        Fuel::Propane,
        Guess::exact(1.9, Whose::User),
    ));
    assert_eq!(says(&plan), None);
    // A buyer by weight has no factor; only a table speaks.
    plan.outlet = Outlet::SoldAsCut { shrunk: false };
    assert_eq!(says(&plan), Some(NoBestDay::WetGrainCostNotKnown));
    plan.discounts = nothing_off();
    assert_eq!(says(&plan), None);
    plan.discounts.tables.clear();
    plan.outlet = Outlet::DriedFirst(Dryer::published(Fuel::Propane, 2.0));
    assert_eq!(says(&plan), None);
    // What standing loses is asked for first.
    plan.loss.percent_per_day = None;
    assert_eq!(says(&plan), Some(NoBestDay::LossNotKnown));
}

/// Percent off the weight as cut at base 14, worked by hand: 100/86 for the
/// water alone, else the factor times the points.
#[test]
fn each_factor_takes_its_weight_off() {
    let mut plan = plan(Some(0.5));
    for (factor, off) in [
        (None, [2.33, 4.65, 6.98, 12.79]),
        (Some(1.16), [2.33, 4.65, 6.98, 12.79]),
        (Some(1.2), [2.4, 4.8, 7.2, 13.2]),
        (Some(1.4), [2.8, 5.6, 8.4, 15.4]),
        (Some(1.5), [3.0, 6.0, 9.0, 16.5]),
    ] {
        plan.wet_cost = factor.and_then(|per_point| shrink(per_point, 0.0));
        for (moisture, off) in [16.0, 18.0, 20.0, 25.0].into_iter().zip(off) {
            let pay = pay_for_a_cwt(&plan, moisture).unwrap();
            near(pay.weight_off, off, 0.0051);
            near(
                pay.dollars_per_cwt.unwrap(),
                8.5 * (1.0 - pay.weight_off / 100.0),
                1e-9,
            );
        }
    }
}

/// NDSU's rule at $1.90 propane: 4.18 cents a bushel and point, 46 cents from
/// 25 to 14 %; a posted charge counts the same way.
#[test]
fn energy_and_charges_come_off_by_the_bushel_and_point() {
    let mut plan = plan(Some(0.5));
    plan.wet_cost = Some(WetGrainCost::energy(
        Fuel::Propane,
        Guess::exact(1.9, Whose::User),
    ));
    let per_bushel = |dollars_per_cwt: f64| dollars_per_cwt * 56.0 / 100.0;
    let wet = pay_for_a_cwt(&plan, 25.0).unwrap();
    near(per_bushel(wet.charged), 0.4598, 1e-4);
    near(
        per_bushel(pay_for_a_cwt(&plan, 15.0).unwrap().charged),
        0.0418,
        1e-6,
    );
    near(
        wet.dollars_per_cwt.unwrap(),
        8.5 * 75.0 / 86.0 - wet.charged,
        1e-9,
    );
    plan.wet_cost = shrink(1.5, 0.055);
    let [base, middle, wettest] = wet_grain_pay(&plan).unwrap();
    assert_eq!(
        [base.moisture, middle.moisture, wettest.moisture],
        [14.0, 18.0, 25.0]
    );
    near(base.dollars_per_cwt.unwrap(), 8.5, 1e-9);
    near(
        middle.dollars_per_cwt.unwrap(),
        8.5 * 0.94 - 4.0 * 0.055 / 0.56,
        1e-9,
    );
    near(
        wettest.dollars_per_cwt.unwrap(),
        8.5 * 0.835 - 11.0 * 0.055 / 0.56,
        1e-9,
    );
    // An acre is paid by the same rule.
    let day = choice(&plan, 18.0).days[0];
    let as_cut = 40.0 * 0.86 / 0.82;
    near(day.mean, as_cut * middle.dollars_per_cwt.unwrap(), 1.0);
}

#[test]
fn a_factor_that_pays_for_water_is_refused() {
    let mut plan = plan(Some(0.5));
    for (base, refused, taken) in [(14.0, 1.15, 1.16), (15.5, 1.17, 1.18), (13.0, 1.13, 1.14)] {
        plan.base_moisture = base;
        plan.wet_cost = shrink(taken, 0.0);
        assert_eq!(plan.checked(), Ok(()));
        plan.wet_cost = shrink(refused, 0.0);
        let line = plan.checked().unwrap_err().to_string();
        assert!(
            line.contains("pays for water") && line.contains(&format!("use {taken}")),
            "{line}"
        );
        assert_eq!(line.lines().count(), 1);
    }
    plan.wet_cost = shrink(3.5, 0.0);
    assert!(plan.checked().is_err());
    plan.wet_cost = shrink(1.4, 2.0);
    assert!(plan.checked().is_err());
}

/// Grain at 24 % with a buyer who charges: waiting pays, and the more so the
/// more wet grain costs.
#[test]
fn the_more_wet_grain_costs_the_later_the_best_day() {
    let mut plan = plan(Some(0.3));
    let mut last = NaiveDate::MIN;
    let mut dates = Vec::new();
    for (per_point, charge) in [
        (1.16, 0.0),
        (1.2, 0.0),
        (1.3, 0.0),
        (1.4, 0.02),
        (1.5, 0.055),
    ] {
        plan.wet_cost = shrink(per_point, charge);
        let date = choice(&plan, 24.0).best.unwrap().day.date;
        assert!(date >= last, "{per_point}: {date} before {last}");
        last = date;
        dates.push(date);
    }
    println!("best days by cost of wet grain: {dates:?}");
    assert_eq!(dates[0], today());
    assert!(last > today() + Days::new(5));
}

#[test]
fn a_week_of_one_percent_a_day_costs_what_compounding_says() {
    // At 14 % and below 20 % all along; over-drying comes on top.
    let lossy = choice(&plan(Some(1.0)), 14.0).waiting.unwrap();
    let still = choice(&plan(Some(0.0)), 14.0).waiting.unwrap();
    let seven_days = 1.0 - 0.99_f64.powi(7);
    near(lossy.mean - still.mean, 40.0 * 8.5 * seven_days, 1.0);
    near(lossy.loses, 1.0, 1e-9);
}

#[test]
fn the_more_standing_loses_the_earlier_the_best_day() {
    let mut plan = plan(Some(0.0));
    plan.outlet = Outlet::DriedFirst(Dryer::published(Fuel::Propane, 2.5));
    let mut last = NaiveDate::MAX;
    let mut dates = Vec::new();
    for loss in [0.0, 0.1, 0.3, 0.6, 1.0, 2.0] {
        plan.loss.percent_per_day = Some(Guess::exact(loss, Whose::User));
        let date = choice(&plan, 24.0).best.unwrap().day.date;
        assert!(date <= last, "loss {loss}: {date} after {last}");
        last = date;
        dates.push(date);
    }
    println!("best days by loss a day: {dates:?}");
    assert!(dates[0] > today() + Days::new(7) && last <= today() + Days::new(7));
}

#[test]
fn lodging_and_wet_days_cost_more() {
    let mut plan = plan(Some(1.0));
    let upright = choice(&plan, 15.0).waiting.unwrap().mean;
    plan.loss.lodged = Guess::exact(0.3, Whose::Counted);
    let lodged = choice(&plan, 15.0).waiting.unwrap().mean;
    assert!(lodged > 1.3 * upright, "{lodged} against {upright}");

    let rainy = ahead(20.0, 12.0, 8.0);
    let cost = |plan: &HarvestPlan| {
        harvest_choice(plan, &known_moisture(15.0, &rainy))
            .unwrap()
            .waiting
            .unwrap()
            .mean
    };
    let mild = cost(&plan);
    plan.loss.percent_per_wet_day = Guess::exact(0.5, Whose::User);
    assert!(cost(&plan) > mild + 5.0);
    plan.weathering.now.total_damage = Some(3.0);
    plan.weathering.damage_per_wet_day = Guess::exact(1.0, Whose::User);
    plan.discounts.tables.push(DiscountTable {
        factor: Factor::TotalDamage,
        steps: vec![DiscountStep {
            beyond: 5.0,
            cents_per_cwt: 50.0,
        }],
        refused_beyond: None,
    });
    assert!(cost(&plan) > mild + 20.0);
}

/// Staggenborg & Vanderlip 1996: 28 F for four hours at hard dough costs 6.5 to
/// 27 % of the weight; after black layer nothing.
#[test]
fn a_freeze_costs_weight_only_before_black_layer() {
    let cold = ahead(10.0, -4.0, 0.0);
    let plan = plan(Some(0.0));
    let mean_at_the_end = |days: u64| {
        let paths = paths(&[(today() + Days::new(days), 1.0)], &[], &cold);
        harvest_choice(&plan, &paths)
            .unwrap()
            .days
            .last()
            .unwrap()
            .mean
    };
    let ripe = mean_at_the_end(0);
    // The freeze comes tomorrow: 15 days before black layer.
    let hard_dough = 1.0 - mean_at_the_end(16) / ripe;
    println!("freeze at hard dough costs {:.3}", hard_dough);
    assert!((0.065..0.27).contains(&hard_dough));
    let soft_dough = 1.0 - mean_at_the_end(31) / ripe;
    assert!((0.27..0.52).contains(&soft_dough));
}

#[test]
fn a_small_dryer_spreads_the_harvest_over_later_days() {
    let mut plan = plan(Some(2.0));
    let mut dryer = Dryer::published(Fuel::Propane, 2.0);
    plan.outlet = Outlet::DriedFirst(dryer);
    let free = choice(&plan, 19.0).days[0].mean;
    // 100 acres of 71 wet bushels an acre and five points, 3500 a day: ten days.
    dryer.bushel_points_per_day = Some(3500.0);
    plan.outlet = Outlet::DriedFirst(dryer);
    let held_up = choice(&plan, 19.0).days[0].mean;
    assert!(held_up < free - 10.0, "{held_up} against {free}");
}

#[test]
fn guesses_are_named_and_the_loss_matters_most() {
    let mut plan = plan(Some(0.6));
    plan.outlet = Outlet::DriedFirst(Dryer::published(Fuel::Propane, 2.5));
    let fair = ahead(26.0, 12.0, 0.0);
    let moisture = known_moisture(21.0, &fair);
    let answer = harvest_choice(&plan, &moisture).unwrap();
    assert!(answer.guesses.contains(&HarvestInput::LossPerDay));
    assert!(answer.guesses.contains(&HarvestInput::Yield));
    assert!(!answer.guesses.contains(&HarvestInput::FreezeAtHardDough));
    let rows = sensitivity(&plan, &moisture).unwrap();
    let row = |input| rows.iter().find(|row| row.input == input).unwrap();
    let yields = row(HarvestInput::Yield);
    assert!(yields.net_at_high > yields.net_at_low && yields.regret < 1.0);
    assert!(row(HarvestInput::LossPerDay).net_at_high < row(HarvestInput::LossPerDay).net_at_low);
    assert!(rows.iter().all(|row| row.regret >= -1e-9));
    assert!(row(HarvestInput::LossPerDay).regret > yields.regret);
}

#[test]
fn impossible_plans_are_refused_by_name() {
    let fair = ahead(26.0, 12.0, 0.0);
    let moisture = known_moisture(18.0, &fair);
    let mut bad = plan(Some(60.0));
    let error = harvest_choice(&bad, &moisture).unwrap_err();
    assert!(
        error
            .to_string()
            .starts_with("loss per day 60 is out of range")
    );
    bad = plan(Some(1.0));
    bad.yield_cwt_per_acre = Guess::new(50.0, 40.0, 60.0, Whose::User);
    let error = harvest_choice(&bad, &moisture).unwrap_err();
    assert!(error.to_string().contains("yield"));
}

/// Texas Coastal Bend, 2010: 16 to 21 seeds a square foot are a bushel an acre.
#[test]
fn seeds_on_the_ground_to_bushels() {
    near(
        bushels_per_acre(16.7, SEEDS_PER_POUND.low).unwrap(),
        1.0,
        0.005,
    );
    near(
        bushels_per_acre(20.6, SEEDS_PER_POUND.high).unwrap(),
        1.0,
        0.005,
    );
    let (few, many) = (16.0, 21.0);
    let per_bushel = |seeds_per_pound: f64| 1.0 / bushels_per_acre(1.0, seeds_per_pound).unwrap();
    assert!((few..=many).contains(&per_bushel(SEEDS_PER_POUND.value)));
}
