//! Answers kept in the notebook: a change drops those that stand on it, and no
//! others.

use std::collections::BTreeMap;

use notebook::fact::{Act, Body, Fact, Row};
use notebook::log::{Change, latest_hlc};
use ripening::Reading;
use serde_json::json;
use service::{Answers, Service, ask};
use uuid::Uuid;

use crate::faces::{Face, head, service};

const HEADS: &str = "planting,walked_on,stop,reading,share\n\
    South,2026-08-01,1,pliable,60\n\
    South,2026-08-01,2,pliable,70\n\
    South,2026-08-06,1,pliable,80\n\
    South,2026-08-06,2,pliable,90\n\
    South,2026-08-11,1,dented,10\n\
    South,2026-08-11,2,dented,20\n";

/// A planting with three walks, their answers kept; the walks, the earliest first.
fn walked() -> (Service, Uuid, Vec<Uuid>) {
    let (mut service, _) = service();
    service.ask(ask::ImportHeadFile {
        text: HEADS.to_owned(),
    });
    let planting = service.rows()[0].id;
    let walks: Vec<Uuid> = page(&mut service, planting).into_keys().collect();
    assert_eq!(kept(&service).len(), 3);
    (service, planting, walks)
}

/// Walks and their answers. Ids of walks from files sort by their days.
fn page(service: &mut Service, planting: Uuid) -> BTreeMap<Uuid, Answers> {
    let page = service.ask(ask::Planting { planting }).answer;
    page.walks
        .into_iter()
        .map(|walk| (walk.id, walk.now))
        .collect()
}

/// What the table `answer` holds.
fn kept(service: &Service) -> BTreeMap<Uuid, (String, Vec<u8>)> {
    let db = service.notebook().db();
    let mut rows = db
        .prepare("SELECT walk, made_by, seal FROM answer")
        .unwrap();
    rows.query_map([], |row| Ok((row.get(0)?, (row.get(1)?, row.get(2)?))))
        .unwrap()
        .collect::<Result<_, _>>()
        .unwrap()
}

/// The page with nothing kept anywhere.
fn anew(service: &mut Service, planting: Uuid) -> BTreeMap<Uuid, Answers> {
    service.with_notebook(|notebook| {
        notebook.db().execute("DELETE FROM answer", []).unwrap();
    });
    page(service, planting)
}

#[test]
fn a_walk_leaves_the_answers_of_the_walks_before_it() {
    let (mut service, planting, _) = walked();
    let before = kept(&service);
    let mut walk = service.start(planting);
    for share in [30, 40, 50] {
        let stop = walk.stops.last().unwrap().id;
        let tapped = service.tap(stop, head(Reading::Dented, share));
        walk = service.next_stop(walk.id);
        assert_eq!(walk.now, tapped.now);
        // The head of the page is the walk itself.
        let last = walk.planting.last_walk.as_ref().unwrap();
        assert_eq!((last.id, &last.now), (walk.id, &walk.now));
        assert_eq!(walk.planting.earlier.len(), 3);
        assert_eq!(kept(&service), before);
    }
    // Done, it is kept like the others, and all are those of a fresh start.
    service.ask(ask::FinishWalk { walk: walk.id });
    let after = kept(&service);
    assert_eq!(after.len(), 4);
    assert!(
        before
            .iter()
            .all(|(walk, row)| after.get(walk) == Some(row))
    );
    let told = page(&mut service, planting);
    assert_eq!(anew(&mut service, planting), told);
    assert_eq!(kept(&service), after);
}

#[test]
fn a_correction_drops_the_answers_from_its_walk_on() {
    let (mut service, planting, walks) = walked();
    for walk in walks.iter().rev() {
        let id = service.page(*walk).stops[0].heads[0].id;
        service.ask(ask::CorrectHead {
            head: id,
            to: head(Reading::Pliable, 75),
        });
        let left: Vec<Uuid> = kept(&service).into_keys().collect();
        let before: Vec<Uuid> = walks.iter().copied().take_while(|w| w != walk).collect();
        assert_eq!(left, before);
        let told = page(&mut service, planting);
        assert_eq!(anew(&mut service, planting), told);
    }
}

/// Another device moves the middle walk behind the last, corrects a head there,
/// and moves it back: what stood on its old heads must not count again.
#[test]
fn a_walk_that_moves_in_time_drops_the_answers_of_all() {
    let (mut service, planting, walks) = walked();
    let head_there = service.page(walks[1]).stops[0].heads[0].id;
    let moved_to = |day: &str| Fact::Set {
        row: Row::Walk,
        id: walks[1],
        walk: None,
        to: BTreeMap::from([("walked_on".to_owned(), json!(day))]),
        replaces: BTreeMap::new(),
    };
    let mut seq = 0;
    let mut told = |service: &mut Service, fact: Fact| {
        seq += 1;
        let hlc = latest_hlc(service.notebook().db()).unwrap();
        let change = Change {
            device: Uuid::from_u128(7),
            seq,
            hlc: hlc.next(0),
            recorded_ms: 0,
            offset_min: 0,
            kind: Act::PlantingEdited.name().to_owned(),
            body: serde_json::to_string(&Body::of(vec![fact])).unwrap(),
            raw: None,
        };
        service
            .with_notebook(|notebook| notebook.ingest(&[change]))
            .unwrap();
    };
    let first = page(&mut service, planting);
    told(&mut service, moved_to("2026-08-15"));
    let said = |share| {
        let head = head(Reading::Pliable, share);
        notebook::fact::HeadRecord {
            head: head.head,
            flags: vec![],
            note: None,
        }
    };
    told(
        &mut service,
        Fact::Correct {
            walk: walks[1],
            head: head_there,
            to: said(20),
            was: said(80),
            was_corrected: false,
            as_first_read: false,
        },
    );
    told(&mut service, moved_to("2026-08-06"));
    let back = page(&mut service, planting);
    assert_ne!(back, first);
    assert_eq!(anew(&mut service, planting), back);
}
