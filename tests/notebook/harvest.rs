//! Ripe grain in the notebook: what was seen, the terms, and the answers made of
//! them.

use std::fs;

use chrono::{NaiveDate, TimeDelta};
use notebook::Notebook;
use notebook::fact::Observation;
use ripening::Reading;
use ripening::dry_down::Meter;
use ripening::grain::{DiscountStep, DiscountTable, Factor};
use ripening::harvest::{NoBestDay, Whose};
use service::{
    Area, Changed, DryDownPage, GrainMoney, HarvestOrderPage, HarvestPage, HarvestStep,
    HarvestTerm, NewObservation, NewPlanting, NotCutWhy, ObservationsPage, OutletWay, OutlookPage,
    PlantingDetails, ProblemCode, Service, SetFor, TermValue, TermsEdit, TermsPage, WetGrainPage,
    WetGrainWay, ask,
};
use uuid::Uuid;

use crate::faces::{Face, head, named, service};
use headwalk_tests::devices::{SetClock, notebook_in_memory};

fn day(text: &str) -> NaiveDate {
    text.parse().unwrap()
}

fn seen(on: &str, what: Observation) -> NewObservation {
    NewObservation {
        on: Some(day(on)),
        what,
        scout: Some("Ana".to_owned()),
        note: None,
    }
}

fn moisture(percents: &[f64]) -> Observation {
    Observation::Moisture {
        meter: Meter::Hand,
        meter_name: "truck".to_owned(),
        meter_error: None,
        percents: percents.to_vec(),
    }
}

fn ground(seeds: &[u32], heads: u32) -> Observation {
    Observation::Ground {
        frame_square_feet: 1.0,
        seeds: seeds.to_vec(),
        heads,
    }
}

fn observe(service: &mut Service, planting: Uuid, new: NewObservation) -> ObservationsPage {
    let request = ask::Observe {
        id: None,
        planting,
        seen: new,
    };
    service.ask(request).answer
}

fn observations(service: &mut Service, planting: Uuid) -> ObservationsPage {
    service.ask(ask::Observations { planting }).answer
}

fn undo(service: &mut Service, planting: Option<Uuid>) {
    service.ask(ask::UndoHarvest { id: None, planting });
}

fn dry_down(service: &mut Service, planting: Uuid, as_of: Option<NaiveDate>) -> DryDownPage {
    service.ask(ask::DryDown { planting, as_of }).answer
}

fn harvest(service: &mut Service, planting: Uuid) -> HarvestPage {
    let request = ask::Harvest {
        planting,
        as_of: None,
    };
    service.ask(request).answer
}

fn order(service: &mut Service) -> HarvestOrderPage {
    service.ask(ask::HarvestOrder { as_of: None }).answer
}

fn outlook(service: &mut Service, planting: Uuid, as_of: Option<NaiveDate>) -> OutlookPage {
    service.ask(ask::Outlook { planting, as_of }).answer
}

fn number(term: HarvestTerm, value: f64) -> TermsEdit {
    TermsEdit {
        numbers: vec![TermValue {
            term,
            value: Some(value),
            low: None,
            high: None,
        }],
        ..TermsEdit::default()
    }
}

/// A buyer's shrink factor.
fn shrink(per_point: f64) -> TermsEdit {
    TermsEdit {
        wet_grain: Some(WetGrainWay::Shrink),
        ..number(HarvestTerm::ShrinkPerPoint, per_point)
    }
}

fn set(service: &mut Service, planting: Option<Uuid>, edit: TermsEdit) -> TermsPage {
    let request = ask::SetHarvestTerms { planting, edit };
    service.ask(request).answer
}

fn term(page: &TermsPage, term: HarvestTerm) -> service::TermView {
    *page
        .terms
        .numbers
        .iter()
        .find(|view| view.term == term)
        .unwrap()
}

/// A planting on the demo's weather, on the demo's last day.
fn ripe() -> (Service, Uuid) {
    let (mut service, clock) = service();
    clock.move_by(TimeDelta::days(27));
    let text = fs::read_to_string(headwalk_tests::demo_data().join("weather.csv")).unwrap();
    service.ask(ask::ImportWeatherFile {
        text,
        station: None,
        strict: false,
        job: None,
    });
    let planting = plant(&mut service, named("North 40"));
    (service, planting)
}

fn plant(service: &mut Service, new: NewPlanting) -> Uuid {
    let id = service.plant(new).id;
    service.ask(ask::UseStation {
        planting: id,
        station: Some("demo-north".to_owned()),
        whole_field: false,
    });
    id
}

#[test]
fn observations_are_stored_corrected_taken_out_and_undone() {
    let (mut service, planting) = ripe();
    let first = observe(
        &mut service,
        planting,
        seen("2026-09-10", moisture(&[22.0, 23.0])),
    );
    assert_eq!(first.rows.len(), 1);
    assert_eq!(first.undo, Some(HarvestStep::Observation));
    let id = first.rows[0].id;
    let request = ask::CorrectObserved {
        id,
        to: seen("2026-09-11", moisture(&[21.0])),
    };
    let reply = service.ask(request);
    assert_eq!(reply.changed, [Changed::Planting(planting)]);
    let page = observations(&mut service, planting);
    assert_eq!(
        (page.rows[0].on, page.rows[0].corrected),
        (day("2026-09-11"), true)
    );
    service.ask(ask::RemoveObserved { id });
    assert!(observations(&mut service, planting).rows.is_empty());

    let digest = service.notebook().view_digest().unwrap();
    service.with_notebook(Notebook::rebuild).unwrap();
    assert_eq!(service.notebook().view_digest().unwrap(), digest);

    undo(&mut service, Some(planting));
    let page = observations(&mut service, planting);
    assert_eq!(page.rows[0].what, moisture(&[21.0]));
    undo(&mut service, Some(planting));
    let page = observations(&mut service, planting);
    assert_eq!(page.rows[0].what, moisture(&[22.0, 23.0]));
    assert!(!page.rows[0].corrected);
    undo(&mut service, Some(planting));
    let page = observations(&mut service, planting);
    assert!(page.rows.is_empty() && page.undo.is_none());
    let nothing = service.refuse(ask::UndoHarvest {
        id: None,
        planting: Some(planting),
    });
    assert_eq!(nothing.code, ProblemCode::Conflict);
    let digest = service.notebook().view_digest().unwrap();
    service.with_notebook(Notebook::rebuild).unwrap();
    assert_eq!(service.notebook().view_digest().unwrap(), digest);
}

#[test]
fn the_same_request_twice_stores_once_and_an_undo_twice_goes_one_step() {
    let (mut service, planting) = ripe();
    let observe = |id, on| ask::Observe {
        id: Some(Uuid::from_u128(id)),
        planting,
        seen: seen(on, moisture(&[20.0])),
    };
    for (id, on) in [(1, "2026-09-10"), (1, "2026-09-10"), (2, "2026-09-12")] {
        service.ask(observe(id, on));
    }
    assert_eq!(observations(&mut service, planting).rows.len(), 2);
    let other = service.refuse(observe(1, "2026-09-13"));
    assert_eq!(other.code, ProblemCode::Conflict);
    for _ in 0..2 {
        service.ask(ask::UndoHarvest {
            id: Some(Uuid::from_u128(9)),
            planting: Some(planting),
        });
    }
    assert_eq!(observations(&mut service, planting).rows.len(), 1);
}

#[test]
fn what_cannot_be_seen_is_refused_and_changes_nothing() {
    let (mut service, planting) = ripe();
    let standing = |lodged, weathering| Observation::Standing {
        lodged,
        weak_stalks: None,
        weathering,
    };
    let bad_meter = Observation::Moisture {
        meter: Meter::Hand,
        meter_name: String::new(),
        meter_error: Some(0.0),
        percents: vec![20.0],
    };
    let bad_frame = Observation::Ground {
        frame_square_feet: 0.0,
        seeds: vec![3],
        heads: 0,
    };
    for what in [
        moisture(&[]),
        moisture(&[20.0, 2.0]),
        moisture(&[f64::NAN]),
        bad_meter,
        ground(&[], 0),
        ground(&[6000], 0),
        bad_frame,
        standing(101, 3),
        standing(5, 10),
    ] {
        let problem = service.refuse(ask::Observe {
            id: None,
            planting,
            seen: seen("2026-09-10", what),
        });
        assert_eq!(problem.code, ProblemCode::BadInput, "{problem:?}");
    }
    let tomorrow = service.refuse(ask::Observe {
        id: None,
        planting,
        seen: seen("2026-09-17", moisture(&[20.0])),
    });
    assert_eq!(tomorrow.code, ProblemCode::BadInput);
}

/// Another notebook that hears the changes one by one, in the order of the
/// series, has the same views; and so has one that hears two devices' changes
/// in either order.
#[test]
fn other_notebooks_come_to_the_same_views() {
    let (mut service, planting) = ripe();
    let page = observe(
        &mut service,
        planting,
        seen("2026-09-10", moisture(&[22.0])),
    );
    let id = page.rows[0].id;
    set(
        &mut service,
        Some(planting),
        number(HarvestTerm::Price, 8.0),
    );
    set(&mut service, None, number(HarvestTerm::Price, 7.0));
    let series = |notebook: &Notebook| {
        notebook::log::after(notebook.db(), notebook.device(), 0, usize::MAX).unwrap()
    };
    let clock = SetClock::at("2026-09-16T18:00:00-05:00").unwrap();
    let mut other = notebook_in_memory(&clock, 2).unwrap();
    other.ingest(&series(service.notebook())).unwrap();
    assert_eq!(
        other.view_digest().unwrap(),
        service.notebook().view_digest().unwrap()
    );
    // The other device corrects it; a third hears the correction first.
    let mut there = Service::new(other).unwrap();
    there.ask(ask::CorrectObserved {
        id,
        to: seen("2026-09-10", moisture(&[19.0])),
    });
    set(&mut there, Some(planting), number(HarvestTerm::Price, 9.0));
    let mut third = notebook_in_memory(&clock, 3).unwrap();
    third.ingest(&series(there.notebook())).unwrap();
    third.ingest(&series(service.notebook())).unwrap();
    assert_eq!(
        third.view_digest().unwrap(),
        there.notebook().view_digest().unwrap()
    );
    let mut third = Service::new(third).unwrap();
    assert_eq!(
        observations(&mut third, planting).rows[0].what,
        moisture(&[19.0])
    );
}

#[test]
fn terms_count_for_one_before_all_and_say_whose_they_are() {
    let (mut service, planting) = ripe();
    let page = set(&mut service, None, number(HarvestTerm::Price, 8.0));
    let price = term(&page, HarvestTerm::Price);
    let guess = price.guess.unwrap();
    assert_eq!((guess.value, guess.whose), (8.0, Whose::User));
    assert!(guess.low < 8.0 && guess.high > 8.0);
    let one = |service: &mut Service| {
        service
            .ask(ask::HarvestTerms {
                planting: Some(planting),
            })
            .answer
    };
    assert_eq!(
        term(&one(&mut service), HarvestTerm::Price).set_for,
        Some(SetFor::All)
    );
    let own = set(
        &mut service,
        Some(planting),
        number(HarvestTerm::Price, 9.0),
    );
    assert_eq!(
        term(&own, HarvestTerm::Price).set_for,
        Some(SetFor::Planting)
    );
    // What is a default says so.
    let base = term(&own, HarvestTerm::BaseMoisture).guess.unwrap();
    assert_eq!((base.value, base.whose), (14.0, Whose::Published));
    assert_eq!(
        term(&own, HarvestTerm::Yield).guess.unwrap().whose,
        Whose::Assumed
    );
    assert!(term(&own, HarvestTerm::LossPerDay).guess.is_none());
    // Taken back, those of all count again; undone, the own one is back.
    let mut none = number(HarvestTerm::Price, 0.0);
    none.numbers[0].value = None;
    let page = set(&mut service, Some(planting), none);
    assert_eq!(term(&page, HarvestTerm::Price).guess.unwrap().value, 8.0);
    undo(&mut service, Some(planting));
    assert_eq!(
        term(&one(&mut service), HarvestTerm::Price)
            .guess
            .unwrap()
            .value,
        9.0
    );
    undo(&mut service, Some(planting));
    undo(&mut service, None);
    let price = term(&one(&mut service), HarvestTerm::Price);
    assert_eq!(price.guess.unwrap().whose, Whose::Assumed);

    for edit in [
        number(HarvestTerm::Price, -1.0),
        number(HarvestTerm::Lodged, 1.5),
        TermsEdit {
            numbers: vec![TermValue {
                term: HarvestTerm::Yield,
                value: Some(40.0),
                low: Some(50.0),
                high: Some(60.0),
            }],
            ..TermsEdit::default()
        },
        TermsEdit {
            discounts: vec![DiscountTable {
                factor: Factor::Moisture,
                steps: vec![
                    DiscountStep {
                        beyond: 16.0,
                        cents_per_cwt: 20.0,
                    },
                    DiscountStep {
                        beyond: 15.0,
                        cents_per_cwt: 40.0,
                    },
                ],
                refused_beyond: None,
            }],
            ..TermsEdit::default()
        },
    ] {
        let problem = service.refuse(ask::SetHarvestTerms {
            planting: None,
            edit,
        });
        assert_eq!(problem.code, ProblemCode::BadInput, "{problem:?}");
    }
    let digest = service.notebook().view_digest().unwrap();
    service.with_notebook(Notebook::rebuild).unwrap();
    assert_eq!(service.notebook().view_digest().unwrap(), digest);
}

#[test]
fn readings_move_the_moisture_dates_of_the_outlook_and_later_ones_do_not_count() {
    let (mut service, planting) = ripe();
    let p50 = |page: &OutlookPage| {
        page.outlook
            .as_ref()
            .unwrap()
            .events
            .moisture_14
            .p50
            .unwrap()
    };
    let before = outlook(&mut service, planting, None);
    let earlier = outlook(&mut service, planting, Some(day("2026-09-12")));
    observe(
        &mut service,
        planting,
        seen("2026-09-14", moisture(&[44.0, 45.0, 44.5])),
    );
    let wet = outlook(&mut service, planting, None);
    assert!(p50(&wet) > p50(&before), "{} {}", p50(&wet), p50(&before));
    assert_eq!(
        outlook(&mut service, planting, Some(day("2026-09-12"))),
        earlier
    );
    undo(&mut service, Some(planting));
    assert_eq!(outlook(&mut service, planting, None), before);
    observe(
        &mut service,
        planting,
        seen("2026-09-14", moisture(&[15.0, 15.4, 14.8])),
    );
    assert!(p50(&outlook(&mut service, planting, None)) < p50(&before));
}

#[test]
fn a_dry_down_has_windows_for_each_target_and_the_own_one() {
    let (mut service, planting) = ripe();
    set(
        &mut service,
        Some(planting),
        number(HarvestTerm::TargetMoisture, 17.0),
    );
    let blind = dry_down(&mut service, planting, None);
    let targets: Vec<f64> = blind.windows.iter().map(|window| window.target).collect();
    assert_eq!(targets, [20.0, 18.0, 17.0, 16.0, 14.0]);
    assert!(blind.readings.is_empty() && blind.why.is_none() && blind.seasons >= 9);
    assert!(blind.fan.len() > 45);
    assert!(blind.other_constants.is_some());
    observe(
        &mut service,
        planting,
        seen("2026-09-15", moisture(&[23.0, 23.4, 22.6])),
    );
    let seen = dry_down(&mut service, planting, None);
    let width = |page: &DryDownPage| page.now.as_ref().unwrap().moisture.width();
    assert!(
        width(&seen) < 0.7 * width(&blind),
        "{} {}",
        width(&seen),
        width(&blind)
    );
    assert_eq!(seen.now.as_ref().unwrap().readings.len(), 1);
    assert_eq!(seen.readings.len(), 1);
    assert!(!seen.over);
    // Asked a year later, the planting's own season is over.
    let past = dry_down(&mut service, planting, Some(day("2027-08-01")));
    assert!(past.over || past.why.is_some(), "{past:?}");
}

#[test]
fn a_reading_alone_is_enough_and_nothing_at_all_says_why() {
    let (mut service, _) = ripe();
    let bare = plant(
        &mut service,
        NewPlanting {
            details: PlantingDetails {
                planted_on: None,
                ..named("Bare").details
            },
            ..named("Bare")
        },
    );
    let nothing = dry_down(&mut service, bare, None);
    assert!(nothing.now.is_none() && nothing.why.is_some());
    assert!(harvest(&mut service, bare).choice.is_none());
    observe(&mut service, bare, seen("2026-09-16", moisture(&[21.0])));
    let page = dry_down(&mut service, bare, None);
    assert!((page.now.unwrap().moisture.mid - 21.0).abs() < 1.0);
    assert!(page.windows[4 - 1].window.p50.is_some());
}

#[test]
fn the_choice_names_no_day_until_a_loss_is_said_or_counted() {
    let (mut service, planting) = ripe();
    observe(
        &mut service,
        planting,
        seen("2026-09-15", moisture(&[19.0, 19.4])),
    );
    let silent = harvest(&mut service, planting);
    assert!(silent.acres_assumed);
    let choice = silent.choice.as_ref().unwrap();
    assert_eq!(choice.why, Some(NoBestDay::LossNotKnown));

    observe(
        &mut service,
        planting,
        seen("2026-09-06", ground(&[4, 6, 5], 0)),
    );
    let page = observe(
        &mut service,
        planting,
        seen("2026-09-16", ground(&[40, 36, 44], 0)),
    );
    assert_eq!(page.ground.len(), 2);
    // 40 seeds a square foot: 43,560 of them an acre, 14,500 to a pound.
    let bushels = 40.0 * 43_560.0 / 14_500.0 / 56.0;
    assert!((page.ground[1].bushels_per_acre.value - bushels).abs() < 1e-9);
    let loss = page.loss_per_day.unwrap();
    assert!((loss.value - 0.2103).abs() < 0.001, "{loss:?}");
    // With a loss and nothing on wet grain, cutting wet would look free.
    let silent = harvest(&mut service, planting);
    assert!(!silent.terms.wet_grain_cost_known);
    let choice = silent.choice.unwrap();
    assert_eq!(choice.why, Some(NoBestDay::WetGrainCostNotKnown));
    assert!(choice.best.is_none() && choice.waiting.is_none());
    assert!(!order(&mut service).rows[0].wet_grain_cost_known);
    set(&mut service, None, shrink(1.4));
    let counted = harvest(&mut service, planting);
    assert_eq!(counted.loss_counted, Some(loss));
    let best = counted.choice.as_ref().unwrap().best.unwrap();
    assert!(best.day.date >= counted.as_of && best.day.net.low <= best.day.net.high);
    assert!(!counted.sensitivity.is_empty());
    // Five hundred seeds of a head on one of three square feet count too.
    let page = observe(
        &mut service,
        planting,
        seen("2026-09-16", ground(&[0, 0, 0], 1)),
    );
    assert!((page.ground[2].seeds_per_square_foot - 500.0).abs() < 1e-9);
    // One head on small frames says little: the range of the loss is wide.
    let scarce = page.loss_per_day.unwrap();
    assert!(scarce.high - scarce.low > 0.8 * scarce.value, "{scarce:?}");
    undo(&mut service, Some(planting));

    // The user's word for this planting stands above the count.
    set(
        &mut service,
        Some(planting),
        number(HarvestTerm::LossPerDay, 2.0),
    );
    let told = harvest(&mut service, planting);
    let used = told
        .terms
        .numbers
        .iter()
        .find(|view| view.term == HarvestTerm::LossPerDay)
        .unwrap();
    assert_eq!(used.guess.unwrap().whose, Whose::User);
    assert!(told.choice.as_ref().unwrap().best.unwrap().day.date <= best.day.date);
}

/// The terms that were stored before wet grain was asked for: a table of
/// moisture discounts goes on counting as what wet grain costs, and so does a
/// dryer.
#[test]
fn terms_that_were_stored_before_keep_their_meaning() {
    let (mut service, planting) = ripe();
    observe(
        &mut service,
        planting,
        seen("2026-09-15", moisture(&[19.0, 19.4])),
    );
    let known = |service: &mut Service| harvest(service, planting).terms.wet_grain_cost_known;
    set(&mut service, None, number(HarvestTerm::LossPerDay, 0.5));
    assert!(!known(&mut service));
    let table = TermsEdit {
        discounts: vec![DiscountTable {
            factor: Factor::Moisture,
            steps: vec![DiscountStep {
                beyond: 14.0,
                cents_per_cwt: 20.0,
            }],
            refused_beyond: None,
        }],
        ..TermsEdit::default()
    };
    set(&mut service, None, table);
    let by_table = harvest(&mut service, planting);
    assert!(by_table.terms.wet_grain_cost_known && by_table.terms.wet_grain.is_none());
    assert!(by_table.choice.unwrap().best.is_some());
    undo(&mut service, None);
    for (outlet, says) in [
        (OutletWay::SoldShrunk, false),
        (OutletWay::SoldByWeight, false),
        (OutletWay::DriedFirst, true),
    ] {
        let edit = TermsEdit {
            outlet: Some(outlet),
            ..TermsEdit::default()
        };
        set(&mut service, Some(planting), edit);
        assert_eq!(known(&mut service), says, "{outlet:?}");
    }
}

#[test]
fn wet_grain_shows_its_pay_before_it_counts_and_a_factor_that_pays_for_water_is_refused() {
    let (mut service, planting) = ripe();
    set(&mut service, None, number(HarvestTerm::Price, 8.0));
    let try_out = |service: &mut Service, edit: &TermsEdit| -> WetGrainPage {
        let request = ask::TryWetGrain {
            planting: Some(planting),
            edit: edit.clone(),
        };
        let reply = service.ask(request);
        assert!(reply.changed.is_empty());
        reply.answer
    };
    let digest = service.notebook().view_digest().unwrap();
    assert!(!try_out(&mut service, &TermsEdit::default()).known);
    let page = try_out(&mut service, &shrink(1.4));
    assert!(page.known);
    let dollars: Vec<f64> = page
        .pay
        .iter()
        .map(|pay| pay.dollars_per_cwt.unwrap())
        .collect();
    for (ours, by_hand) in dollars.iter().zip([8.0, 8.0 * 0.944, 8.0 * 0.846]) {
        assert!((ours - by_hand).abs() < 1e-9, "{dollars:?}");
    }
    assert_eq!(service.notebook().view_digest().unwrap(), digest);

    for edit in [shrink(1.15), shrink(3.2)] {
        let problem = service.refuse(ask::TryWetGrain {
            planting: None,
            edit: edit.clone(),
        });
        assert_eq!(problem.code, ProblemCode::BadInput);
        let problem = service.refuse(ask::SetHarvestTerms {
            planting: None,
            edit,
        });
        assert_eq!(problem.code, ProblemCode::BadInput);
        assert_eq!(service.notebook().view_digest().unwrap(), digest);
    }
    set(&mut service, Some(planting), shrink(1.16));
    // The base may not move so that the factor pays for water.
    let problem = service.refuse(ask::SetHarvestTerms {
        planting: Some(planting),
        edit: number(HarvestTerm::BaseMoisture, 16.0),
    });
    assert_eq!(problem.code, ProblemCode::BadInput);
    // Where the base of all moves under it, the factor says nothing any more.
    set(&mut service, None, number(HarvestTerm::BaseMoisture, 16.0));
    let page = service
        .ask(ask::HarvestTerms {
            planting: Some(planting),
        })
        .answer;
    assert!(!page.terms.wet_grain_cost_known);
    assert!((page.terms.least_shrink_per_point - 1.19).abs() < 1e-9);
    // One that fits, or the energy rule, counts again; undone, it does not.
    set(&mut service, Some(planting), shrink(1.3));
    let energy = TermsEdit {
        wet_grain: Some(WetGrainWay::Energy),
        ..number(HarvestTerm::FuelPrice, 2.2)
    };
    let page = set(&mut service, Some(planting), energy);
    assert!(page.terms.wet_grain_cost_known);
    assert_eq!(page.terms.wet_grain, Some(WetGrainWay::Energy));
    assert_eq!(page.terms.wet_grain_for, Some(SetFor::Planting));
    undo(&mut service, Some(planting));
    undo(&mut service, Some(planting));
    undo(&mut service, Some(planting));
    let page = service
        .ask(ask::HarvestTerms {
            planting: Some(planting),
        })
        .answer;
    assert_eq!(page.terms.wet_grain, None);
    let digest = service.notebook().view_digest().unwrap();
    service.with_notebook(Notebook::rebuild).unwrap();
    assert_eq!(service.notebook().view_digest().unwrap(), digest);
}

#[test]
fn what_if_answers_as_the_stored_terms_would_and_stores_nothing() {
    let (mut service, planting) = ripe();
    set(&mut service, None, number(HarvestTerm::LossPerDay, 0.5));
    let mut edit = number(HarvestTerm::Price, 9.5);
    edit.outlet = Some(OutletWay::DriedFirst);
    let digest = service.notebook().view_digest().unwrap();
    let what_if = |service: &mut Service, edit: &TermsEdit, settled| {
        let request = ask::WhatIf {
            planting,
            as_of: None,
            edit: edit.clone(),
            settled,
        };
        let reply = service.ask(request);
        assert!(reply.changed.is_empty());
        reply.answer
    };
    let tried = what_if(&mut service, &edit, false);
    assert!(tried.sensitivity.is_empty());
    assert_eq!(service.notebook().view_digest().unwrap(), digest);
    let settled = what_if(&mut service, &edit, true);
    set(&mut service, Some(planting), edit);
    let stored = harvest(&mut service, planting);
    assert_eq!(tried.choice, stored.choice);
    assert_eq!(settled.sensitivity, stored.sensitivity);
    let bad = service.refuse(ask::WhatIf {
        planting,
        as_of: None,
        edit: number(HarvestTerm::Yield, 4000.0),
        settled: false,
    });
    assert_eq!(bad.code, ProblemCode::BadInput);
}

#[test]
fn lodging_comes_from_the_latest_of_marks_and_scores() {
    let (mut service, planting) = ripe();
    let lodged = |service: &mut Service| {
        let page = harvest(service, planting);
        page.terms
            .numbers
            .iter()
            .find(|view| view.term == HarvestTerm::Lodged)
            .unwrap()
            .guess
            .unwrap()
    };
    assert_eq!(lodged(&mut service).whose, Whose::Assumed);
    let walk = service.start(planting);
    let mut flagged = head(Reading::DarkSpot, 90);
    flagged.flags.push(ripening::Flag::LodgedPlant);
    service.tap(walk.stops[0].id, flagged);
    service.tap(walk.stops[0].id, head(Reading::DarkSpot, 80));
    assert_eq!(lodged(&mut service).value, 0.5);
    let standing = Observation::Standing {
        lodged: 20,
        weak_stalks: Some(10),
        weathering: 3,
    };
    observe(&mut service, planting, seen("2026-09-16", standing));
    assert_eq!(lodged(&mut service).value, 0.2);
    let page = observations(&mut service, planting);
    assert_eq!(page.heads.len(), 1);
    assert_eq!(page.heads[0].lodged.mid, 0.5);
}

#[test]
fn the_order_puts_first_what_loses_fast_and_leaves_out_what_is_cut() {
    let (mut service, first) = ripe();
    let acres = |name: &str| NewPlanting {
        details: PlantingDetails {
            area: Some(Area::Acres(80.0)),
            ..named(name).details
        },
        ..named(name)
    };
    let second = plant(&mut service, acres("Second"));
    let third = plant(&mut service, acres("Third"));
    let silage = plant(
        &mut service,
        NewPlanting {
            details: PlantingDetails {
                purpose: Some(service::Purpose::Silage),
                ..named("Silage").details
            },
            ..named("Silage")
        },
    );
    for (planting, loss) in [(first, 0.2), (second, 0.2), (third, 6.0)] {
        observe(
            &mut service,
            planting,
            seen("2026-09-16", moisture(&[15.0, 15.2, 14.9])),
        );
        set(
            &mut service,
            Some(planting),
            number(HarvestTerm::LossPerDay, loss),
        );
    }
    let page = order(&mut service);
    assert_eq!(page.rows.len(), 3);
    assert_eq!(page.rows[0].planting, third);
    assert!(page.rows.iter().all(|row| row.from <= row.to));
    let left: Vec<_> = page.left_out.iter().map(|row| row.planting).collect();
    assert_eq!(left, [silage]);
    assert_eq!(page.left_out[0].why, NotCutWhy::Silage);
    assert!(page.rows.iter().any(|row| row.acres_assumed));

    observe(&mut service, third, seen("2026-09-16", Observation::Cut));
    let page = order(&mut service);
    assert_eq!(page.rows.len(), 2);
    let cut = page.left_out.iter().find(|row| row.planting == third);
    assert_eq!(
        cut.unwrap().why,
        NotCutWhy::Cut {
            on: day("2026-09-16")
        }
    );
    assert!(dry_down(&mut service, third, None).cut_on.is_some());
}

/// Texas over-dry example at $8.50 a hundredweight, base 14.
#[test]
fn grain_money_shows_its_formulas() {
    let (mut service, planting) = ripe();
    set(&mut service, None, number(HarvestTerm::Price, 8.5));
    let money = |service: &mut Service, moisture| {
        let request = ask::GrainMoney {
            planting: Some(planting),
            moisture,
            storage_temp_f: Some(70.0),
        };
        service.ask(request).answer
    };
    let dry: GrainMoney = money(&mut service, 13.0);
    assert!((8.5 - dry.value_per_cwt - 0.098).abs() < 0.0005);
    assert!((money(&mut service, 10.0).value_per_cwt - 8.12).abs() < 0.005);
    assert_eq!(dry.worked.len(), 2);
    assert!(dry.storage.is_some());
    let mut edit = number(HarvestTerm::TestWeight, 54.0);
    edit.outlet = Some(OutletWay::DriedFirst);
    edit.discounts = vec![DiscountTable {
        factor: Factor::TestWeight,
        steps: vec![DiscountStep {
            beyond: 55.0,
            cents_per_cwt: 10.0,
        }],
        refused_beyond: None,
    }];
    set(&mut service, Some(planting), edit);
    let wet = money(&mut service, 18.0);
    assert_eq!(wet.worked.len(), 3);
    assert_eq!(wet.discounts.cents_per_cwt, Some(10.0));
    assert_eq!(wet.grade.at_best, Some(ripening::grain::Grade::No3));
    // Four points of 0.018 gallon at $2, on 100/56 bushels.
    let fuel = 4.0 * 0.018 * 2.0 * 100.0 / 56.0;
    let by_hand = (8.5 - 0.10) * (82.0 / 86.0) - fuel;
    assert!((wet.net_per_cwt.unwrap() - by_hand).abs() < 1e-9);
    // A buyer's factor and charge take the place of the weight of the water.
    let mut edit = shrink(1.5);
    edit.outlet = Some(OutletWay::SoldShrunk);
    edit.numbers.push(TermValue {
        term: HarvestTerm::DryingCharge,
        value: Some(0.05),
        low: None,
        high: None,
    });
    set(&mut service, Some(planting), edit);
    let shrunk = money(&mut service, 18.0);
    assert!((shrunk.value_per_cwt - 8.5 * 0.94).abs() < 1e-9);
    let by_hand = (8.5 - 0.10) * 0.94 - 4.0 * 0.05 * 100.0 / 56.0;
    assert!((shrunk.net_per_cwt.unwrap() - by_hand).abs() < 1e-9);
    let bad = service.refuse(ask::GrainMoney {
        planting: None,
        moisture: 80.0,
        storage_temp_f: None,
    });
    assert_eq!(bad.code, ProblemCode::BadInput);
}
