//! How long a harvest answer takes: the redraw while a slider is dragged (money
//! only, the courses kept), and all of it from the readings on. The limit for
//! the redraw is 10 ms.

#![allow(missing_docs, reason = "criterion's macros make undocumented items")]
#![allow(clippy::unwrap_used, reason = "a bench")]

use std::hint::black_box;

use chrono::{Days, NaiveDate};
use criterion::{Criterion, criterion_group, criterion_main};
use ripening::air::EquilibriumSet;
use ripening::dry_down::{
    DryDownInput, DryingDay, Meter, MoisturePaths, MoistureReading, PastDays, RatePrior, dry_down,
};
use ripening::grain::Fuel;
use ripening::harvest::{
    Dryer, Guess, HarvestPlan, NetReturns, Outlet, PlantingToCut, Whose, harvest_choice,
    harvest_order, sensitivity,
};

const AHEAD: u64 = 60;

fn today() -> NaiveDate {
    NaiveDate::from_ymd_opt(2025, 9, 25).unwrap()
}

/// Thirty autumns of sixty days.
fn ahead() -> Vec<Vec<DryingDay>> {
    (0..30)
        .map(|year| {
            (0..AHEAD)
                .map(|day| {
                    let wave = f64::from(u32::try_from((year * 7 + day * 3) % 11).unwrap());
                    let cooling = 0.2 * f64::from(u32::try_from(day).unwrap());
                    let rain = if (year + day) % 5 == 0 { 8.0 } else { 0.0 };
                    let high = 24.0 + wave - cooling;
                    let set = EquilibriumSet::DEFAULT;
                    DryingDay::new(high, high - 13.0, Some(rain), Some(60.0), set).unwrap()
                })
                .collect()
        })
        .collect()
}

fn courses(ahead: &[Vec<DryingDay>]) -> MoisturePaths {
    let past = PastDays {
        first: today() - Days::new(10),
        days: vec![Some(DryingDay::REFERENCE); 11],
    };
    let black_layer: Vec<(NaiveDate, f64)> = (0..9)
        .map(|day| (today() - Days::new(12) + Days::new(day), 1.0))
        .collect();
    let readings = [MoistureReading {
        on: today(),
        meter: Meter::Hand,
        meter_name: "a".to_owned(),
        meter_error: None,
        percents: vec![24.0, 25.0, 23.5],
    }];
    dry_down(&DryDownInput {
        as_of: today(),
        black_layer: &black_layer,
        readings: &readings,
        past: &past,
        prior: RatePrior::default(),
    })
    .unwrap()
    .paths(ahead)
    .unwrap()
}

fn plan() -> HarvestPlan {
    let mut plan = HarvestPlan::new(
        160.0,
        Guess::new(40.0, 50.0, 60.0, Whose::User),
        Guess::new(7.0, 8.0, 9.0, Whose::User),
    );
    plan.loss.percent_per_day = Some(Guess::new(0.2, 0.6, 1.5, Whose::User));
    let mut dryer = Dryer::published(Fuel::Propane, 2.0);
    dryer.bushel_points_per_day = Some(30_000.0);
    plan.outlet = Outlet::DriedFirst(dryer);
    plan
}

fn benches(c: &mut Criterion) {
    let ahead = ahead();
    let paths = courses(&ahead);
    let plan = plan();
    c.bench_function("harvest/what-if redraw", |b| {
        b.iter(|| harvest_choice(black_box(&plan), &paths).unwrap());
    });
    c.bench_function("harvest/sensitivity", |b| {
        b.iter(|| sensitivity(black_box(&plan), &paths).unwrap());
    });
    c.bench_function("dry-down/courses from readings", |b| {
        b.iter(|| courses(black_box(&ahead)));
    });
    c.bench_function("dry-down/fan and five windows", |b| {
        b.iter(|| {
            let windows = [20.0, 18.0, 16.0, 15.0, 14.0].map(|target| paths.window(target));
            (windows, black_box(&paths).fan())
        });
    });
    let returns = NetReturns::new(&plan, &paths).unwrap();
    let one = PlantingToCut::new(160.0, &returns);
    for count in [10_usize, 40] {
        let farm: Vec<PlantingToCut> = (0..count)
            .map(|i| {
                let mut planting = one.clone();
                planting.acres = 40.0 + 20.0 * (i % 7) as f64;
                planting.net.rotate_left(i % 5);
                planting
            })
            .collect();
        c.bench_function(&format!("harvest/order of {count}"), |b| {
            b.iter(|| harvest_order(black_box(&farm), 80.0, None, today()));
        });
    }
}

criterion_group! {
    name = harvest;
    config = Criterion::default().sample_size(20);
    targets = benches
}
criterion_main!(harvest);
