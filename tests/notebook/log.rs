//! The log is the truth: any order of arrival gives the same views.

use chrono::TimeDelta;
use headwalk_tests::devices::{SetClock, notebook_in_memory, service_in_memory};
use notebook::fact::Body;
use notebook::log::{Change, after, heads};
use notebook::{IngestError, Notebook, StoreError};
use proptest::prelude::*;
use ripening::Reading;
use service::{Place, PlantingDetails, PlantingEdit, Request, Service, ask};
use uuid::Uuid;

use crate::faces::{Face, NOON, head, named};

const PAGE: usize = 4_000;

/// Everything one notebook lacks of another, page by page.
fn pull(to: &mut Service, from: &Service) {
    let ours = heads(to.notebook().db()).unwrap();
    for (device, theirs) in heads(from.notebook().db()).unwrap() {
        let mut held = ours.get(&device).map_or(0, |head| head.seq);
        while held < theirs.seq {
            let page = after(from.notebook().db(), device, held, PAGE).unwrap();
            held += page.len() as u64;
            to.with_notebook(|notebook| notebook.ingest(&page)).unwrap();
        }
    }
}

fn all_changes(notebook: &Notebook) -> Vec<Vec<Change>> {
    heads(notebook.db())
        .unwrap()
        .into_keys()
        .map(|device| after(notebook.db(), device, 0, usize::MAX).unwrap())
        .collect()
}

/// One random act of one of the devices.
#[derive(Debug, Clone)]
struct Act {
    device: usize,
    what: u8,
    which: usize,
    share: u8,
    clock: i64,
}

fn acts() -> impl Strategy<Value = Vec<Act>> {
    let act = (
        0..3_usize,
        0..15_u8,
        0..1_000_usize,
        1..=100_u8,
        -90..300_i64,
    )
        .prop_map(|(device, what, which, share, clock)| Act {
            device,
            what,
            which,
            share,
            clock,
        });
    prop::collection::vec(act, 1..60)
}

/// Carries out an act; many are refused, and that is as it should be.
fn act(services: &mut [Service], clock: &SetClock, act: &Act) {
    clock.move_by(TimeDelta::seconds(act.clock));
    if act.what == 0 {
        let from = (act.device + 1 + act.which % 2) % 3;
        let [to, from] = services.get_disjoint_mut([act.device, from]).unwrap();
        pull(to, from);
        return;
    }
    let service = &mut services[act.device];
    let plantings = service.rows();
    let Some(planting) = plantings.get(act.which % plantings.len().max(1)) else {
        // Refused where a planting of that name was merged into one that was removed:
        // it keeps its name, since either may come back.
        let _ = service.call(ask::AddPlanting { new: named("P0") });
        return;
    };
    let walk = planting
        .open_walk
        .or(planting.last_walk.as_ref().map(|walk| walk.id));
    let page = walk.and_then(|walk| service.call(ask::Walk { walk }).ok());
    let page = page.map(|reply| reply.answer);
    let stop = page.as_ref().and_then(|page| {
        let place = act.which % page.stops.len().max(1);
        page.stops.get(place)
    });
    let of = stop.and_then(|stop| stop.heads.get(act.which % stop.heads.len().max(1)));
    let request: Option<Request> = match act.what {
        1 => Some(
            ask::AddPlanting {
                new: named(&format!("P{}", act.which % 5)),
            }
            .into(),
        ),
        2 => Some(
            ask::EditPlanting {
                planting: planting.id,
                edit: PlantingEdit {
                    details: PlantingDetails {
                        hybrid: Some(format!("H{}", act.which % 4)),
                        farm: (act.which.is_multiple_of(3)).then(|| format!("F{}", act.which % 2)),
                        ..PlantingDetails::default()
                    },
                    ..PlantingEdit::default()
                },
            }
            .into(),
        ),
        3 => Some(
            ask::StartWalk {
                id: None,
                planting: planting.id,
                walked_on: None,
                scout: Some(format!("S{}", act.device)),
            }
            .into(),
        ),
        4 => walk.map(|walk| {
            ask::AddStop {
                id: None,
                walk,
                place: None,
            }
            .into()
        }),
        5 | 6 => stop.map(|stop| {
            ask::AddHead {
                id: None,
                stop: stop.id,
                head: head(Reading::Pliable, act.share),
            }
            .into()
        }),
        7 => of.map(|of| {
            ask::CorrectHead {
                head: of.id,
                to: head(Reading::Dented, act.share),
            }
            .into()
        }),
        8 => of.map(|of| ask::RemoveHead { head: of.id }.into()),
        9 => walk.map(|walk| ask::Undo { id: None, walk }.into()),
        10 => walk.map(|walk| ask::FinishWalk { walk }.into()),
        11 if act.which.is_multiple_of(7) => Some(
            ask::RemovePlanting {
                planting: planting.id,
            }
            .into(),
        ),
        11 => walk.map(|walk| ask::ReopenWalk { walk }.into()),
        12 => Some(
            ask::MergePlantings {
                duplicate: planting.id,
                into: plantings[act.share as usize % plantings.len()].id,
            }
            .into(),
        ),
        13 => {
            let merged = service.call(ask::MergedPlantings {
                planting: planting.id,
            });
            let first = merged
                .ok()
                .and_then(|reply| reply.answer.rows.into_iter().next());
            first.map(|row| ask::UnmergePlanting { duplicate: row.id }.into())
        }
        _ => Some(
            ask::ImportHeadFile {
                text: format!(
                    "planting,walked_on,stop,reading,share,scout,more\n\
                 P{0},2026-08-1{1},a{1},bloom,{2},S{0},x\nP{0},2026-08-1{1},2,boot,,,\n",
                    act.which % 5,
                    act.which % 2,
                    act.share % 3 + 1
                ),
            }
            .into(),
        ),
    };
    if let Some(request) = request {
        let _ = service.answer(request);
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 20, ..ProptestConfig::default() })]

    #[test]
    fn equal_logs_give_equal_views_in_any_order_of_arrival(
        acts in acts(),
        order in prop::collection::vec(0..1_000_usize, 400),
    ) {
        let clock = SetClock::at(NOON).unwrap();
        let mut services: Vec<Service> =
            (1..=3).map(|seed| service_in_memory(&clock, seed).unwrap()).collect();
        for each in &acts {
            act(&mut services, &clock, each);
        }
        // All to the first, then the same changes interleaved by chance.
        for other in 1..3 {
            let [first, other] = services.get_disjoint_mut([0, other]).unwrap();
            pull(first, other);
        }
        let first = services[0].notebook();
        let digest = first.view_digest().unwrap();
        let mut series = all_changes(first);
        let mut fresh = notebook_in_memory(&clock, 9).unwrap();
        for pick in order.into_iter().chain(0..) {
            series.retain(|changes| !changes.is_empty());
            if series.is_empty() {
                break;
            }
            let place = pick % series.len();
            let change = series[place].remove(0);
            fresh.ingest(&[change]).unwrap();
        }
        prop_assert_eq!(fresh.view_digest().unwrap(), digest);
        let held = heads(first.db()).unwrap();
        prop_assert_eq!(heads(fresh.db()).unwrap(), held);

        // And the views can be made anew from the log.
        fresh.rebuild().unwrap();
        prop_assert_eq!(fresh.view_digest().unwrap(), digest);
        services[0].with_notebook(Notebook::rebuild).unwrap();
        prop_assert_eq!(services[0].notebook().view_digest().unwrap(), digest);
    }
}

fn two() -> (Service, Service, SetClock) {
    let clock = SetClock::at(NOON).unwrap();
    (
        service_in_memory(&clock, 1).unwrap(),
        service_in_memory(&clock, 2).unwrap(),
        clock,
    )
}

/// Takes in what one device wrote, and nothing of others.
fn hear(to: &mut Service, from: &Service) {
    let notebook = from.notebook();
    let page = after(notebook.db(), notebook.device(), 0, usize::MAX).unwrap();
    to.with_notebook(|notebook| notebook.ingest(&page)).unwrap();
}

#[test]
fn edits_of_a_walk_and_of_a_stop_may_come_before_their_making() {
    let (mut ana, mut ben, clock) = two();
    let planting = ana.plant(named("North 40"));
    let page = ana.start(planting.id);
    pull(&mut ben, &ana);
    let place = Place {
        latitude: 38.5,
        longitude: -99.25,
        accuracy_m: Some(4.0),
        age_s: None,
    };
    ben.ask(ask::PlaceStop {
        stop: page.stops[0].id,
        place,
    });
    ben.ask(ask::FinishWalk { walk: page.id });

    let mut late = service_in_memory(&clock, 3).unwrap();
    hear(&mut late, &ben);
    hear(&mut late, &ana);
    let heard = late.page(page.id);
    assert!(heard.finished);
    assert_eq!(heard.stops[0].place, Some(place));
}

#[test]
fn a_correction_and_a_removal_may_come_before_their_head() {
    let (mut ana, mut ben, clock) = two();
    let planting = ana.plant(named("North 40"));
    let page = ana.start(planting.id);
    let corrected = ana.tap(page.stops[0].id, head(Reading::Bloom, 10)).head.id;
    let removed = ana.tap(page.stops[0].id, head(Reading::Bloom, 20)).head.id;
    pull(&mut ben, &ana);
    ben.ask(ask::CorrectHead {
        head: corrected,
        to: head(Reading::Dented, 30),
    });
    ben.ask(ask::RemoveHead { head: removed });

    let mut late = service_in_memory(&clock, 3).unwrap();
    hear(&mut late, &ben);
    assert!(late.rows().is_empty());
    hear(&mut late, &ana);
    let heads = &late.page(page.id).stops[0].heads;
    assert_eq!(heads.len(), 1);
    assert_eq!(heads[0].head.reading(), Reading::Dented);
    assert!(heads[0].corrected);
}

#[test]
fn the_later_edit_of_a_field_stands_and_the_other_stays_visible() {
    let (mut ana, mut ben, clock) = two();
    let planting = ana.plant(named("North 40"));
    pull(&mut ben, &ana);
    let edit = |hybrid: &str| ask::EditPlanting {
        planting: planting.id,
        edit: PlantingEdit {
            details: PlantingDetails {
                hybrid: Some(hybrid.to_owned()),
                ..PlantingDetails::default()
            },
            ..PlantingEdit::default()
        },
    };
    ana.ask(edit("H-1"));
    clock.move_by(TimeDelta::seconds(5));
    ben.ask(edit("H-2"));
    pull(&mut ana, &ben);
    pull(&mut ben, &ana);
    for service in [&mut ana, &mut ben] {
        assert_eq!(service.rows()[0].hybrid.as_deref(), Some("H-2"));
        let values: u32 = service
            .notebook()
            .db()
            .query_row(
                "SELECT count(*) FROM field_value WHERE id = ?1 AND field = 'hybrid'",
                [planting.id],
                |row| row.get(0),
            )
            .unwrap();
        assert_eq!(values, 2);
    }
    // An edit that saw both replaces both.
    ana.ask(edit("H-3"));
    let replaces: String = ana
        .notebook()
        .db()
        .query_row(
            "SELECT replaces FROM field_value WHERE id = ?1 AND field = 'hybrid'
             ORDER BY hlc DESC LIMIT 1",
            [planting.id],
            |row| row.get(0),
        )
        .unwrap();
    assert_eq!(replaces.matches("seq").count(), 2, "{replaces}");
}

#[test]
fn an_edit_made_after_another_was_seen_wins_though_its_clock_is_behind() {
    let (mut ana, mut ben, clock) = two();
    let planting = ana.plant(named("North 40"));
    pull(&mut ben, &ana);
    let edit = |day: u32| ask::EditPlanting {
        planting: planting.id,
        edit: PlantingEdit {
            details: PlantingDetails {
                planted_on: chrono::NaiveDate::from_ymd_opt(2026, 6, day),
                ..PlantingDetails::default()
            },
            ..PlantingEdit::default()
        },
    };
    ana.ask(edit(1));
    pull(&mut ben, &ana);
    clock.move_by(TimeDelta::days(-30));
    ben.ask(edit(2));
    pull(&mut ana, &ben);
    assert_eq!(
        ana.rows()[0].planted_on,
        chrono::NaiveDate::from_ymd_opt(2026, 6, 2)
    );
}

#[test]
fn gaps_forks_and_malformed_changes_are_refused_whole() {
    let (mut ana, mut ben, _) = two();
    let planting = ana.plant(named("North 40"));
    let page = ana.start(planting.id);
    ana.tap(page.stops[0].id, head(Reading::Bloom, 10));
    let device = ana.notebook().device();
    let changes = after(ana.notebook().db(), device, 0, usize::MAX).unwrap();
    let untouched = ben.notebook().view_digest().unwrap();
    let mut ingest = |page: &[Change]| ben.with_notebook(|notebook| notebook.ingest(page));

    let gap = ingest(&[changes[0].clone(), changes[2].clone()]).unwrap_err();
    assert!(
        matches!(
            gap,
            IngestError::Gap {
                expected: 2,
                got: 3,
                ..
            }
        ),
        "{gap}"
    );
    assert_eq!(ben.notebook().view_digest().unwrap(), untouched);
    let mut ingest = |page: &[Change]| ben.with_notebook(|notebook| notebook.ingest(page));

    assert_eq!(ingest(&changes).unwrap().new, 3);
    let again = ingest(&changes).unwrap();
    assert_eq!((again.new, again.known), (0, 3));

    let mut other = changes[2].clone();
    other.body = other.body.replace("bloom", "liquid");
    let fork = ingest(&[other.clone()]).unwrap_err();
    assert!(
        matches!(
            fork,
            IngestError::Fork {
                seq: 3,
                own: false,
                ..
            }
        ),
        "{fork}"
    );
    let own = ana
        .with_notebook(|notebook| notebook.ingest(&[other]))
        .unwrap_err();
    assert!(matches!(own, IngestError::Fork { own: true, .. }), "{own}");

    let mut zero = changes[0].clone();
    zero.seq = 0;
    let mut huge = changes[0].clone();
    huge.seq = 4;
    huge.body = "x".repeat(notebook::log::MAX_BODY + 1);
    for malformed in [zero, huge] {
        assert!(matches!(
            ben.with_notebook(|notebook| notebook.ingest(&[malformed])),
            Err(IngestError::Malformed { .. })
        ));
    }
}

#[test]
fn a_new_device_id_begins_a_new_series_and_counts_nothing_twice() {
    let (mut ana, mut ben, _) = two();
    let planting = ana.plant(named("North 40"));
    let page = ana.start(planting.id);
    ana.tap(page.stops[0].id, head(Reading::Bloom, 10));
    let old = ana.notebook().device();
    let new = ana.with_notebook(Notebook::take_new_device_id).unwrap();
    assert_ne!(old, new);
    ana.tap(page.stops[0].id, head(Reading::Bloom, 20));
    pull(&mut ben, &ana);
    assert_eq!(heads(ben.notebook().db()).unwrap().len(), 2);
    assert_eq!(ben.page(page.id).stops[0].heads.len(), 2);
}

#[test]
fn unknown_kinds_are_kept_and_passed_on_byte_for_byte() {
    let (mut ana, mut ben, _) = two();
    let from_later = Change {
        device: Uuid::from_u128(42),
        seq: 1,
        hlc: notebook::log::Hlc::ZERO.next(1_790_000_000_000),
        recorded_ms: 1_790_000_000_000,
        offset_min: -300,
        kind: "soil_probed".to_owned(),
        body: r#"{"facts": [{"fact":"soil_probe", "depth_cm":30.10}]}"#.to_owned(),
        raw: None,
    };
    ana.with_notebook(|notebook| notebook.ingest(std::slice::from_ref(&from_later)))
        .unwrap();
    pull(&mut ben, &ana);
    let passed = after(ben.notebook().db(), from_later.device, 0, usize::MAX).unwrap();
    assert_eq!(passed, vec![from_later]);
}

#[test]
fn an_act_of_a_newer_version_is_never_recorded() {
    let (mut ana, _, _) = two();
    let refused = ana.with_notebook(|notebook| {
        notebook.write(|writer| writer.record(notebook::fact::Act::Newer, &Body::of(Vec::new())))
    });
    assert!(matches!(refused, Err(StoreError::Unwritable(_))));
    assert!(heads(ana.notebook().db()).unwrap().is_empty());
}
