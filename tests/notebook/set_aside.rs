//! What another device sends and cannot count: it is kept, listed and passed on, and the
//! series goes on.

use std::time::{Duration, Instant};

use exchange::book::Book;
use headwalk_tests::devices::{SetClock, notebook_in_memory, service_in_memory};
use notebook::fact::Act;
use notebook::log::{self, Change, Hlc, pack};
use notebook::{Notebook, OnDate, SystemRandomness};
use ripening::Reading;
use serde_bytes::ByteBuf;
use serde_json::{Value, json};
use service::{Reason, Service, SetAsidePage, WalkNotice, ask};
use uuid::Uuid;
use wire::{Page, Run, Tag};

use crate::faces::{Face, NOON, head, named, service};

/// The device of somebody else.
const BEN: Uuid = Uuid::from_u128(0xbe);

/// A change of Ben's at noon.
pub fn change(seq: u64, body: String) -> Change {
    Change {
        device: BEN,
        seq,
        hlc: Hlc::ZERO.next(1_787_245_200_000 + i64::try_from(seq).unwrap()),
        recorded_ms: 1_787_245_200_000,
        offset_min: -300,
        kind: Act::PlantingEdited.name().to_owned(),
        body,
        raw: None,
    }
}

fn facts(facts: &[Value]) -> String {
    json!({ "facts": facts }).to_string()
}

fn planting(id: u128, field: &str, value: &Value) -> Value {
    json!({"fact": "set", "row": "planting", "id": Uuid::from_u128(id), "to": {field: value}})
}

/// A page of these bodies, from change 1 on.
fn page(bodies: Vec<Vec<u8>>) -> Page {
    Page::from(vec![Run {
        device: BEN,
        after: 0,
        bodies: bodies
            .into_iter()
            .map(ByteBuf::from)
            .collect::<Vec<_>>()
            .into(),
    }])
}

fn listed(service: &mut Service) -> SetAsidePage {
    service.ask(ask::SetAside {}).answer
}

fn take(service: &mut Service, page: &Page) {
    service.with_notebook(|notebook| notebook.take_in(page, &[]).unwrap());
}

#[test]
fn a_byte_that_is_no_change_is_kept_as_it_came_and_the_series_goes_on() {
    let (mut ana, _) = service();
    let good = |seq| {
        pack(&change(
            seq,
            facts(&[planting(seq.into(), "name", &json!(format!("P{seq}")))]),
        ))
        .unwrap()
    };
    let bodies = vec![good(1), vec![0x7f], good(3)];
    take(&mut ana, &page(bodies.clone()));
    assert_eq!(ana.rows().len(), 2);

    let list = listed(&mut ana);
    assert_eq!((list.total, list.waiting), (1, 0));
    assert_eq!(
        (list.rows[0].seq, list.rows[0].fact, list.rows[0].reason),
        (2, None, Reason::Unreadable)
    );

    // It travels on under the same tag, to a phone that takes it as this one did.
    let clock = SetClock::at(NOON).unwrap();
    let mut cleo = service_in_memory(&clock, 3).unwrap();
    let sent = ana.with_notebook(|notebook| {
        let span = wire::Span {
            device: BEN,
            after: 0,
            to: 3,
        };
        assert_eq!(notebook.tag(BEN, 2).unwrap(), Some(Tag::of(&[0x7f])));
        notebook.read(span, exchange::PageSize::default()).unwrap()
    });
    assert_eq!(sent, bodies);
    take(&mut cleo, &page(bodies));
    assert_eq!(
        cleo.notebook().view_digest().unwrap(),
        ana.notebook().view_digest().unwrap()
    );
    // Known already, it is passed over.
    take(&mut cleo, &page(vec![good(1), vec![0x7f], good(3)]));
    let faults = notebook::durability::check::check(cleo.notebook().db()).unwrap();
    assert!(faults.is_sound(), "{faults:?}");
    cleo.with_notebook(Notebook::rebuild).unwrap();
    assert_eq!(listed(&mut cleo).rows, list.rows);
}

#[test]
fn bytes_that_would_travel_on_as_others_are_kept_as_they_came() {
    let mut padded = pack(&change(1, facts(&[]))).unwrap();
    // The offset, a number of variable length, written one byte longer than it need be.
    let at = padded
        .windows(2)
        .position(|pair| pair == [0xd7, 0x04])
        .unwrap();
    padded.splice(at..at + 2, [0xd7, 0x84, 0x00]);
    let change = log::received(BEN, 1, &padded);
    assert_eq!(change.raw.as_deref(), Some(&padded[..]));
    assert_eq!(pack(&change).unwrap(), padded);
}

#[test]
fn values_out_of_bounds_are_set_aside_and_the_facts_beside_them_count() {
    let (mut ana, _) = service();
    let walk = Uuid::from_u128(50);
    let stop = Uuid::from_u128(51);
    let id = Uuid::from_u128(60);
    let name = "0".repeat(64);
    let photo = |bytes: u64| {
        json!({"fact": "photo", "id": id, "planting": Uuid::from_u128(1), "name": name,
               "bytes": bytes, "width": 10, "height": 10})
    };
    let seen = |on: &str, what: Value| json!({"fact": "observed", "planting": id, "id": id, "on": on, "what": what});
    let absurd = [
        (planting(2, "name", &Value::Null), "name"),
        (
            planting(1, "planted_on", &json!("2162-05-01")),
            "planted_on",
        ),
        (
            planting(1, "area", &json!({"unit": "acres", "size": -1.0})),
            "area",
        ),
        (planting(1, "purpose", &json!("barn")), "purpose"),
        (photo(u64::MAX), "bytes"),
        (photo(17 << 20), "bytes"),
        (
            json!({"fact": "moved", "device": BEN, "first": u64::MAX, "to": id}),
            "first",
        ),
        (
            json!({"fact": "walk", "id": walk, "planting": id, "walked_on": "+12026-01-01", "scout": ""}),
            "walked_on",
        ),
        (
            json!({"fact": "stop", "id": stop, "walk": walk, "number": 1,
                "place": {"latitude": 91.0, "longitude": 0.0, "accuracy_m": null}}),
            "place",
        ),
        (
            json!({"fact": "station", "name": "", "place": null}),
            "name",
        ),
        (
            json!({"fact": "weather", "station": "S", "unit": "fahrenheit",
                "days": [["1700-01-01", 1.0, 1.0, null, null]]}),
            "date",
        ),
        (
            json!({"fact": "weather", "station": "S", "unit": "fahrenheit",
                "days": [["2026-07-01", 1e300, 1.0, null, null]]}),
            "high",
        ),
        (seen("9999-01-01", json!({"kind": "cut"})), "on"),
        (
            seen(
                "2026-09-01",
                json!({"kind": "standing", "lodged": 200, "weathering": 0}),
            ),
            "lodged",
        ),
        (json!({"fact": "terms", "to": {"price": 1e300}}), "to"),
    ];
    let mut told: Vec<Value> = absurd.iter().map(|(fact, _)| fact.clone()).collect();
    told.push(json!({"fact": "stop", "id": stop, "walk": walk, "number": 1e99}));
    told.push(planting(1, "name", &json!("North 40")));
    told.push(planting(1, "later", &json!([1, 2])));
    told.push(json!({"fact": "soil_probe", "depth_cm": 30}));
    take(
        &mut ana,
        &page(vec![pack(&change(1, facts(&told))).unwrap()]),
    );

    let rows = listed(&mut ana).rows;
    let found: Vec<(u32, Reason, Option<&str>)> = rows
        .iter()
        .map(|row| (row.fact.unwrap(), row.reason, row.what.as_deref()))
        .collect();
    let mut expected: Vec<(u32, Reason, Option<&str>)> = (1..)
        .zip(&absurd)
        .map(|(place, (_, what))| (place, Reason::OutOfBounds, Some(*what)))
        .collect();
    expected.push((16, Reason::Unreadable, None));
    assert_eq!(found, expected);
    let plantings = ana.rows();
    assert_eq!(plantings.len(), 1);
    assert_eq!(plantings[0].name, "North 40");
    ana.ask(ask::Planting {
        planting: plantings[0].id,
    });
}

#[test]
fn our_own_changes_keep_to_the_same_bounds() {
    let (mut ana, _) = service();
    let mut new = named("North 40");
    for (date, words) in [
        ("2062-05-01", "more than a year ahead"),
        ("9999-01-01", "must lie between 1950-01-01 and 2100-12-31"),
        ("0001-01-01", "must lie between 1950-01-01 and 2100-12-31"),
    ] {
        new.details.planted_on = Some(date.parse().unwrap());
        let problem = ana.refuse(ask::AddPlanting { new: new.clone() });
        assert!(problem.message.contains(words), "{problem}");
    }
    new.details.planted_on = Some("1950-01-01".parse().unwrap());
    ana.plant(new);
    let planting = ana.rows()[0].id;
    for (walked_on, words) in [
        ("0001-01-01", "between"),
        ("9999-01-01", "between"),
        ("2062-01-01", "ahead"),
    ] {
        let problem = ana.refuse(ask::StartWalk {
            id: None,
            planting,
            walked_on: Some(walked_on.parse().unwrap()),
            scout: None,
        });
        assert!(problem.message.contains(words), "{problem}");
    }
    let problem = ana.refuse(ask::Outlook {
        planting,
        as_of: Some("9999-01-01".parse().unwrap()),
    });
    assert!(problem.message.contains("between"), "{problem}");
}

/// A walk that was saved with a mistyped year: the notebook opens, says so, and the date
/// can be corrected and taken back.
#[test]
fn a_walk_on_a_day_that_cannot_be_opens_and_can_be_mended() {
    for year in ["9999", "2999", "0001"] {
        let (mut ana, _) = service();
        let row = ana.plant(named("North 40"));
        let good = ana.start(row.id);
        ana.tap(good.stops[0].id, head(Reading::Pliable, 40));
        let alone = ana.page(good.id).now;
        let (walk, stop) = (Uuid::from_u128(50), Uuid::from_u128(51));
        let day = format!("{year}-01-01");
        let told = facts(&[
            json!({"fact": "walk", "id": walk, "planting": row.id, "walked_on": day, "scout": "Ben"}),
            json!({"fact": "stop", "id": stop, "walk": walk, "number": 1}),
            json!({"fact": "heads", "walk": walk, "stop": stop,
                   "heads": [[Uuid::from_u128(52), "pliable", 60]]}),
        ]);
        take(&mut ana, &page(vec![pack(&change(1, told)).unwrap()]));
        let began = Instant::now();
        ana.rows();
        let opened = ana.page(walk);
        assert!(
            began.elapsed() < Duration::from_secs(20),
            "{:?}",
            began.elapsed()
        );
        assert!(matches!(
            opened.notice,
            Some(WalkNotice::DateNotPlausible { .. })
        ));
        assert_eq!(opened.now.with_history, None);
        // It is the history of no other walk.
        assert_eq!(ana.page(good.id).now, alone);
        let planting = ana.ask(ask::Planting { planting: row.id }).answer;
        let noticed: Vec<bool> = planting
            .walks
            .iter()
            .map(|walk| walk.notice.is_some())
            .collect();
        assert_eq!(noticed.iter().filter(|noticed| **noticed).count(), 1);

        let mended = ask::CorrectWalkDate {
            walk,
            walked_on: "2026-08-10".parse().unwrap(),
        };
        let page = ana.ask(mended).answer;
        assert_eq!(
            (page.notice, page.walked_on.to_string()),
            (None, "2026-08-10".to_owned())
        );
        assert!(ana.page(good.id).now.with_history.is_some());
        let own = ana.notebook().device();
        let last = log::heads(ana.notebook().db()).unwrap()[&own].seq;
        ana.ask(ask::UndoChange {
            planting: row.id,
            seq: last,
        });
        assert_eq!(ana.page(walk).walked_on.to_string(), day);
    }
}

#[test]
fn a_walk_of_thousands_of_stops_says_that_it_is_too_large() {
    let (mut ana, _) = service();
    let row = ana.plant(named("North 40"));
    let walk = Uuid::from_u128(50);
    let begun = json!({"fact": "walk", "id": walk, "planting": row.id,
                       "walked_on": "2026-08-19", "scout": "Ben"});
    let of_stop = |stop: u32| {
        let id = Uuid::from_u128(1_000 + u128::from(stop));
        let head = Uuid::from_u128(100_000 + u128::from(stop));
        [
            json!({"fact": "stop", "id": id, "walk": walk, "number": stop + 1}),
            json!({"fact": "heads", "walk": walk, "stop": id, "heads": [[head, "pliable", 60]]}),
        ]
    };
    let half = |stops: std::ops::Range<u32>| stops.flat_map(of_stop).collect::<Vec<_>>();
    let first = [vec![begun], half(0..2_000)].concat();
    let bodies = [first, half(2_000..4_000)];
    let bodies = (1..)
        .zip(bodies)
        .map(|(seq, told)| pack(&change(seq, facts(&told))).unwrap());
    take(&mut ana, &page(bodies.collect()));
    let began = Instant::now();
    ana.rows();
    let page = ana.page(walk);
    assert!(
        began.elapsed() < Duration::from_secs(60),
        "{:?}",
        began.elapsed()
    );
    assert!(matches!(page.notice, Some(WalkNotice::TooLarge { .. })));
    assert_eq!((page.stops.len(), page.now.alone), (4_000, None));
}

#[test]
fn thousands_of_chained_merges_in_one_change_are_taken_in_at_once() {
    let (mut ana, _) = service();
    let mut told = Vec::new();
    for id in 1..=3_000_u128 {
        told.push(planting(id, "name", &json!(format!("P{id}"))));
    }
    for id in 1..3_000_u128 {
        told.push(planting(id, "merged_into", &json!(Uuid::from_u128(id + 1))));
    }
    let began = Instant::now();
    take(
        &mut ana,
        &page(vec![pack(&change(1, facts(&told))).unwrap()]),
    );
    assert!(
        began.elapsed() < Duration::from_secs(30),
        "{:?}",
        began.elapsed()
    );
    let shown = ana.rows();
    assert_eq!(shown.len(), 1);
    assert_eq!(shown[0].id, Uuid::from_u128(3_000));
}

#[test]
fn what_could_not_be_read_is_in_archives_backups_and_salvage() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("n.notebook");
    let open = |path: &std::path::Path| {
        let today = OnDate("2026-08-20".parse().unwrap());
        Notebook::open(path, Box::new(today), Box::new(SystemRandomness)).unwrap()
    };
    let mut ana = Service::new(open(&path)).unwrap();
    ana.plant(named("North 40"));
    let version = |notebook: &Notebook| {
        let mut file = std::io::Cursor::new(Vec::new());
        let settings = service::Settings::default();
        notebook::archive::write(notebook, &settings, &mut file).unwrap();
        let mut zip = zip::ZipArchive::new(file.clone()).unwrap();
        let manifest: Value =
            serde_json::from_reader(zip.by_name("manifest.json").unwrap()).unwrap();
        (manifest["version"].as_u64().unwrap(), file)
    };
    assert_eq!(version(ana.notebook()).0, 1);
    let good = pack(&change(
        1,
        facts(&[planting(9, "name", &json!("South 80"))]),
    ))
    .unwrap();
    // A long one, which overflows onto further pages.
    take(&mut ana, &page(vec![good, vec![0x7f; 9_000], vec![0x7f]]));
    let held = log::heads(ana.notebook().db()).unwrap();
    let remarks = notebook::durability::check::remarks(ana.notebook()).unwrap();
    assert!(remarks[0].starts_with("2 changes"), "{remarks:?}");
    let (form, archive) = version(ana.notebook());
    assert_eq!(form, 2);

    let clock = SetClock::at(NOON).unwrap();
    let mut cleo = notebook_in_memory(&clock, 3).unwrap();
    let keep = service::Keep::GoodRows;
    notebook::archive::read(&mut cleo, archive, keep, &mut |_| true).unwrap();
    assert_eq!(log::heads(cleo.db()).unwrap(), held);

    ana.into_notebook().close().unwrap();
    // The first page is lost: everything is found in the loose pages.
    let mut bytes = std::fs::read(&path).unwrap();
    bytes[..100].fill(0);
    std::fs::write(&path, bytes).unwrap();
    let today = OnDate("2026-08-20".parse().unwrap());
    let salvaged =
        notebook::durability::salvage(&path, Box::new(today), Box::new(SystemRandomness)).unwrap();
    assert_eq!(
        (salvaged.lost, salvaged.kept, salvaged.unproved),
        (0, 4, 0),
        "{salvaged:?}"
    );
    let after = log::heads(open(&path).db()).unwrap();
    assert_eq!(after.get(&BEN), held.get(&BEN));
}

/// What the rule for others says, the rule for us says too.
#[test]
fn a_value_out_of_bounds_of_our_own_is_refused() {
    let (mut ana, _) = service();
    let planting = ana.plant(named("North 40")).id;
    ana.refuse(ask::ImportPlantingFile {
        text: "planting,hybrid,planted_on,purpose\nP,H,2150-05-01,grain\n".to_owned(),
    });
    let seen = ask::Observe {
        id: None,
        planting,
        seen: service::NewObservation {
            on: Some("1066-10-14".parse().unwrap()),
            what: notebook::fact::Observation::Cut,
            scout: None,
            note: None,
        },
    };
    let problem = ana.refuse(seen);
    assert!(problem.message.contains("1950-01-01"), "{problem}");
}
