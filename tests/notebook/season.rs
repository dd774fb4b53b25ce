//! Heat sets, hybrids, half bloom, stations by field, and works that are stopped.

use service::{
    Changed, ChosenBy, Field, HeatSetList, HeatSetRow, HeatSetUser, HybridPage, NewHeatSet,
    NewPlanting, OutlookPage, PlantingDetails, PlantingEdit, PlantingRow, ProblemCode, Service,
    SetChosenBy, SharedService, StationChoice, ask,
};
use std::fs;
use std::time::{Duration, Instant};

use ripening::Reading;
use ripening::heat::{Mark, MarkAt, MarkTable, MaturityClass, Method};
use ripening::temperature::TempUnit;
use uuid::Uuid;

use crate::faces::{Face, head, named, service};

fn weather_text() -> String {
    fs::read_to_string(headwalk_tests::demo_data().join("weather.csv")).unwrap()
}

fn import(text: String) -> ask::ImportWeatherFile {
    ask::ImportWeatherFile {
        text,
        station: None,
        strict: false,
        job: None,
    }
}

fn outlook(service: &mut Service, planting: Uuid) -> OutlookPage {
    service
        .ask(ask::Outlook {
            planting,
            as_of: None,
        })
        .answer
}

fn hybrid_page(service: &mut Service, hybrid: Uuid) -> HybridPage {
    service
        .ask(ask::Hybrid {
            hybrid,
            as_of: None,
        })
        .answer
}

fn edit(service: &mut Service, planting: Uuid, edit: PlantingEdit) -> PlantingRow {
    service.ask(ask::EditPlanting { planting, edit }).answer
}

fn use_station(planting: Uuid, station: Option<&str>, whole_field: bool) -> ask::UseStation {
    ask::UseStation {
        planting,
        station: station.map(str::to_owned),
        whole_field,
    }
}

/// Two plantings of one hybrid on one field, with weather.
fn with_weather() -> (Service, PlantingRow, PlantingRow) {
    let (mut service, _) = service();
    service.ask(import(weather_text()));
    let on_field = |name: &str| NewPlanting {
        details: PlantingDetails {
            hybrid: Some("Hybrid A".to_owned()),
            field: Some("Bottom".to_owned()),
            ..named(name).details
        },
        ..named(name)
    };
    let one = service.plant(on_field("One"));
    let two = service.plant(on_field("Two"));
    service.ask(use_station(one.id, Some("demo-north"), true));
    (service, one, two)
}

fn own_set(name: &str, half_bloom: f64, black_layer: f64) -> NewHeatSet {
    NewHeatSet {
        name: name.to_owned(),
        source: "own counts".to_owned(),
        unit: TempUnit::Fahrenheit,
        base: 50.0,
        upper: 100.0,
        method: Method::BothLimits,
        tables: vec![MarkTable {
            maturity: "medium".to_owned(),
            marks: vec![
                MarkAt {
                    mark: Mark::HalfBloom,
                    units: half_bloom,
                },
                MarkAt {
                    mark: Mark::BlackLayer,
                    units: black_layer,
                },
            ],
        }],
    }
}

fn sets(service: &mut Service) -> (Vec<HeatSetRow>, Option<String>) {
    let HeatSetList { rows, notebook } = service.ask(ask::HeatSets {}).answer;
    (rows, notebook)
}

fn use_set(by: HeatSetUser, set: Option<&str>) -> ask::UseHeatSet {
    ask::UseHeatSet {
        by,
        set: set.map(str::to_owned),
    }
}

#[test]
fn the_narrowest_choice_of_a_heat_set_counts_and_the_outlook_says_which() {
    let (mut service, one, two) = with_weather();
    let page = outlook(&mut service, one.id);
    assert_eq!(page.heat_set.by, SetChosenBy::Default);
    assert_eq!(page.heat_set.key, "us_50_100");

    let id = Uuid::from_u128(77);
    let save = ask::SaveHeatSet {
        id,
        set: own_set("Ours", 1800.0, 3000.0),
    };
    let reply = service.ask(save.clone());
    assert_eq!(reply.changed, [Changed::HeatSets]);
    // Sent again it stores nothing.
    assert!(service.ask(save).changed.is_empty());
    let (rows, notebook) = sets(&mut service);
    assert_eq!((rows.len(), notebook), (5, None));
    let key = id.to_string();

    service.ask(use_set(HeatSetUser::Notebook, Some("metric_10_38")));
    let hybrid = one.hybrid_id.unwrap();
    service.ask(use_set(
        HeatSetUser::Hybrid(hybrid),
        Some("regional_center_50_86"),
    ));
    service.ask(use_set(HeatSetUser::Planting(one.id), Some(&key)));
    let (own, other) = (outlook(&mut service, one.id), outlook(&mut service, two.id));
    assert_eq!(
        (own.heat_set.by, own.heat_set.name.as_str()),
        (SetChosenBy::Planting, "Ours")
    );
    assert_eq!(other.heat_set.by, SetChosenBy::Hybrid);
    let black = |page: &OutlookPage| page.outlook.as_ref().unwrap().events.black_layer.p50;
    assert!(black(&own) > black(&other), "a longer table ripens later");

    // A removed set is passed over; restored it counts again.
    service.ask(ask::RemoveHeatSet { id });
    assert_eq!(
        outlook(&mut service, one.id).heat_set.by,
        SetChosenBy::Hybrid
    );
    service.ask(ask::RestoreHeatSet { id });
    assert_eq!(
        outlook(&mut service, one.id).heat_set.by,
        SetChosenBy::Planting
    );
    for by in [HeatSetUser::Planting(one.id), HeatSetUser::Hybrid(hybrid)] {
        service.ask(use_set(by, None));
    }
    assert_eq!(
        outlook(&mut service, one.id).heat_set.by,
        SetChosenBy::Notebook
    );

    let digest = service.notebook().view_digest().unwrap();
    service
        .with_notebook(|notebook| notebook.rebuild())
        .unwrap();
    assert_eq!(service.notebook().view_digest().unwrap(), digest);
}

/// Fahrenheit or Celsius, the same table is the same crop.
#[test]
fn the_metric_set_gives_the_dates_of_the_default() {
    let (mut service, one, _) = with_weather();
    let dates = |service: &mut Service| {
        let events = outlook(service, one.id).outlook.unwrap().events;
        [events.half_bloom, events.soft_dough, events.black_layer]
            .map(|dates| (dates.p10, dates.p50, dates.p90))
    };
    let us = dates(&mut service);
    service.ask(use_set(HeatSetUser::Notebook, Some("metric_10_38")));
    assert_eq!(dates(&mut service), us);
}

#[test]
fn a_daft_set_is_refused_in_one_line_and_nothing_is_stored() {
    let (mut service, _) = service();
    let id = Uuid::from_u128(77);
    for (set, says) in [
        (
            NewHeatSet {
                base: 10.0,
                ..own_set("a", 1500.0, 2600.0)
            },
            "base of 10",
        ),
        (
            NewHeatSet {
                upper: 40.0,
                ..own_set("a", 1500.0, 2600.0)
            },
            "base must be below",
        ),
        (own_set("a", 150.0, 260.0), "half bloom would take"),
        (own_set("a", 1500.0, 1600.0), "black layer would come"),
        (own_set("a", 2600.0, 1500.0), "must rise"),
        (
            NewHeatSet {
                tables: vec![],
                ..own_set("a", 1500.0, 2600.0)
            },
            "no table",
        ),
        (own_set(" ", 1500.0, 2600.0), "needs a name"),
    ] {
        let problem = service.refuse(ask::SaveHeatSet { id, set });
        assert_eq!(problem.code, ProblemCode::BadInput);
        assert!(problem.message.contains(says), "{says}: {problem:?}");
        assert_eq!(problem.message.lines().count(), 1);
    }
    let taken = service.refuse(ask::SaveHeatSet {
        id,
        set: own_set("US 50/100", 1500.0, 2600.0),
    });
    assert_eq!(taken.code, ProblemCode::Conflict);
    assert_eq!(sets(&mut service).0.len(), 4);
    let unknown = service.refuse(use_set(HeatSetUser::Notebook, Some("nobody's")));
    assert_eq!(unknown.code, ProblemCode::NotFound);
}

#[test]
fn a_maturity_class_dates_bloom_before_any_walk() {
    let (mut service, one, _) = with_weather();
    let hybrid = one.hybrid_id.unwrap();
    let bloom = |service: &mut Service| {
        let page = outlook(service, one.id);
        let dates = page.outlook.unwrap().events.half_bloom;
        (dates.p10.unwrap(), dates.p90.unwrap(), page.maturity)
    };
    let unknown = bloom(&mut service);
    let class = |maturity| ask::SetMaturity { hybrid, maturity };
    service.ask(class(Some(MaturityClass::MediumEarly)));
    let early = bloom(&mut service);
    service.ask(class(Some(MaturityClass::MediumLate)));
    let late = bloom(&mut service);
    assert_eq!(late.2, Some(MaturityClass::MediumLate));
    assert!(early.0 < late.0 && early.1 < late.1);
    assert!(
        early.1 - early.0 < unknown.1 - unknown.0,
        "{early:?} {unknown:?}"
    );
    let page = hybrid_page(&mut service, hybrid);
    assert_eq!(page.published.half_bloom.mid, 1908.0);
    service.ask(class(None));
    assert_eq!(bloom(&mut service), unknown);
}

#[test]
fn a_noted_half_bloom_counts_and_can_be_undone_like_date_and_area() {
    let (mut service, one, _) = with_weather();
    let width = |service: &mut Service| {
        let dates = outlook(service, one.id).outlook.unwrap().events.black_layer;
        dates.p90.unwrap() - dates.p10.unwrap()
    };
    let before = width(&mut service);
    let noted = |day: &str| PlantingEdit {
        details: PlantingDetails {
            half_bloom_on: Some(day.parse().unwrap()),
            ..PlantingDetails::default()
        },
        ..PlantingEdit::default()
    };
    let row = edit(&mut service, one.id, noted("2026-07-25"));
    assert_eq!(row.half_bloom_on, Some("2026-07-25".parse().unwrap()));
    let page = outlook(&mut service, one.id);
    assert_eq!(page.half_bloom_on, row.half_bloom_on);
    assert_eq!(page.outlook.unwrap().rests_on.sightings, 1);
    assert!(width(&mut service) < before);

    for (day, says) in [
        ("2026-09-20", "still ahead"),
        ("2026-05-01", "not after planting"),
    ] {
        let problem = service.refuse(ask::EditPlanting {
            planting: one.id,
            edit: noted(day),
        });
        assert!(problem.message.contains(says), "{problem:?}");
    }
    let cleared = PlantingEdit {
        clear: vec![Field::HalfBloomOn, Field::PlantedOn, Field::Area],
        ..PlantingEdit::default()
    };
    let row = edit(&mut service, one.id, cleared.clone());
    assert_eq!(
        (row.half_bloom_on, row.planted_on, row.area),
        (None, None, None)
    );
    // A second time there is nothing to change.
    let again = service.ask(ask::EditPlanting {
        planting: one.id,
        edit: cleared,
    });
    assert!(again.changed.is_empty());
    // Nothing is emptied that the edit does not name.
    let row = edit(&mut service, one.id, noted("2026-07-25"));
    let renamed = PlantingEdit {
        name: Some("Uno".to_owned()),
        ..PlantingEdit::default()
    };
    assert_eq!(
        edit(&mut service, one.id, renamed).half_bloom_on,
        row.half_bloom_on
    );
    let both = PlantingEdit {
        clear: vec![Field::HalfBloomOn],
        ..noted("2026-07-26")
    };
    service.refuse(ask::EditPlanting {
        planting: one.id,
        edit: both,
    });
    let digest = service.notebook().view_digest().unwrap();
    service
        .with_notebook(|notebook| notebook.rebuild())
        .unwrap();
    assert_eq!(service.notebook().view_digest().unwrap(), digest);
}

#[test]
fn a_station_is_chosen_for_a_field_or_a_planting() {
    let (mut service, one, two) = with_weather();
    for planting in [one.id, two.id] {
        let chosen = outlook(&mut service, planting).station.unwrap();
        assert_eq!(
            (chosen.name.as_str(), chosen.by),
            ("demo-north", ChosenBy::Field)
        );
    }
    service.ask(use_station(two.id, Some("demo-south"), false));
    let choice = |service: &mut Service, planting| -> StationChoice {
        service.ask(ask::StationChoice { planting }).answer
    };
    let two_now = choice(&mut service, two.id);
    assert_eq!(two_now.chosen.unwrap().by, ChosenBy::Planting);
    assert_eq!(two_now.field.as_deref(), Some("Bottom"));
    assert_eq!(two_now.rows.len(), 2);
    assert_eq!(
        choice(&mut service, one.id).chosen.unwrap().name,
        "demo-north"
    );
    let bare = service.plant(named("Three"));
    let problem = service.refuse(use_station(bare.id, Some("demo-south"), true));
    assert!(problem.message.contains("no field"), "{problem:?}");
}

#[test]
fn a_hybrids_page_shows_what_its_plantings_have_taught() {
    let (mut service, one, _) = with_weather();
    let hybrid = one.hybrid_id.unwrap();
    let before = hybrid_page(&mut service, hybrid);
    assert_eq!(before.learned, before.published);
    assert!(before.plantings.iter().all(|each| each.pace.is_none()));

    let walk = service.start(one.id);
    let stop = walk.stops[0].id;
    for share in [40, 50, 60, 50, 40] {
        service.tap(stop, head(Reading::Pliable, share));
    }
    let after = hybrid_page(&mut service, hybrid);
    assert_eq!(after.learned.plantings, 1);
    assert!(after.learned.pace.width() < after.published.pace.width());
    assert!(after.learned.next_planting.width() > after.learned.pace.width());
    let own = after
        .plantings
        .iter()
        .find(|each| each.id == one.id)
        .unwrap();
    assert!(own.pace.is_some() && own.sightings == 1);
}

#[test]
fn a_strict_import_stores_nothing_of_a_file_with_a_bad_row() {
    let (mut service, _) = service();
    let text = "date,high_f,low_f,station\n2026-08-01,95,65,Yard\nnever,95,65,Yard\n";
    let strict = |strict| ask::ImportWeatherFile {
        text: text.to_owned(),
        station: None,
        strict,
        job: None,
    };
    let problem = service.refuse(strict(true));
    assert!(
        problem
            .message
            .starts_with("line 3: date 'never' is no date"),
        "{problem:?}"
    );
    let rows = service.ask(ask::Stations {}).answer.rows;
    assert!(rows.is_empty());
    service.ask(strict(false));
}

/// A century of four stations, stopped from another thread while it is
/// stored: the answer is "stopped", and the notebook is as it was.
#[test]
fn a_long_import_tells_how_far_it_is_and_can_be_stopped() {
    let folder = tempfile::tempdir().unwrap();
    let face = SharedService::open(&folder.path().join("n.notebook"), None).unwrap();
    let mut text = String::from("date,high_f,low_f,station\n");
    let first = chrono::NaiveDate::from_ymd_opt(1926, 1, 1).unwrap();
    for station in 0..4 {
        for date in first.iter_days().take(36_525) {
            text.push_str(&format!("{date},80,60,S{station}\n"));
        }
    }
    let job = Uuid::from_u128(5);
    let digest =
        |face: &SharedService| face.with_notebook(|notebook| notebook.view_digest().unwrap());
    let before = digest(&face);
    let started = Instant::now();
    let ended = std::thread::scope(|scope| {
        let work = scope.spawn(|| {
            face.call(ask::ImportWeatherFile {
                text,
                station: None,
                strict: false,
                job: Some(job),
            })
        });
        // Asked while the work holds the service.
        let mut seen = None;
        while seen.is_none_or(|done: u64| done == 0) && started.elapsed() < Duration::from_secs(60)
        {
            if let Some(progress) = face.jobs().progress(job).progress {
                assert!(progress.done <= progress.of);
                seen = Some(progress.done);
            }
        }
        assert!(seen.is_some(), "the work was never seen");
        assert!(face.jobs().stop(job).running);
        work.join().unwrap()
    });
    assert_eq!(ended.unwrap_err().code, ProblemCode::Stopped);
    assert_eq!(digest(&face), before);
    assert_eq!(face.jobs().progress(job).progress, None);
}
