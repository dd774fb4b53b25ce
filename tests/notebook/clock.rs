//! Stamps ahead of the clock: they wait, our own clock does not follow them, and a
//! notebook that followed them before this rule heals.

use chrono::TimeDelta;
use headwalk_tests::devices::{Seeded, SetClock, notebook_in_memory, service_in_memory};
use notebook::fact::Act;
use notebook::log::{self, Change, Hlc, after, heads, latest_hlc};
use notebook::{Clock, Notebook};
use ripening::Reading;
use serde_json::json;
use service::{Reason, Service, SetAsidePage, ask};
use uuid::Uuid;

use crate::faces::{Face, head, named};

const BEN: Uuid = Uuid::from_u128(0xbe);

/// After the floor of the clock, so that only the wall clock counts.
const NOON: &str = "2027-08-20T12:00:00-05:00";

fn at_noon() -> SetClock {
    SetClock::at(NOON).unwrap()
}

/// Ben names a planting at a time by his clock.
fn named_at(seq: u64, hlc: Hlc, name: &str) -> Change {
    let fact =
        json!({"fact": "set", "row": "planting", "id": Uuid::from_u128(1), "to": {"name": name}});
    Change {
        device: BEN,
        seq,
        hlc,
        recorded_ms: 0,
        offset_min: 0,
        kind: Act::PlantingEdited.name().to_owned(),
        body: json!({"facts": [fact]}).to_string(),
        raw: None,
    }
}

fn in_days(clock: &SetClock, days: i64) -> Hlc {
    Hlc::ZERO.next((clock.now() + TimeDelta::days(days)).timestamp_millis())
}

fn take(service: &mut Service, change: &Change) {
    service
        .with_notebook(|notebook| notebook.ingest(std::slice::from_ref(change)))
        .unwrap();
}

fn pull(to: &mut Service, from: &Service) {
    let ours = heads(to.notebook().db()).unwrap();
    for device in heads(from.notebook().db()).unwrap().into_keys() {
        let held = ours.get(&device).map_or(0, |head| head.seq);
        let page = after(from.notebook().db(), device, held, usize::MAX).unwrap();
        to.with_notebook(|notebook| notebook.ingest(&page)).unwrap();
    }
}

fn listed(service: &mut Service) -> SetAsidePage {
    service.ask(ask::SetAside {}).answer
}

/// The same notebook from a file, as it opens; and the file's folder.
fn reopened(service: Service, clock: &SetClock) -> (Service, tempfile::TempDir) {
    let old = service.into_notebook();
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("n.notebook");
    let to = path.to_str().unwrap().to_owned();
    old.db().execute("VACUUM INTO ?1", [to]).unwrap();
    let clock = Box::new(clock.clone());
    let notebook = Notebook::open(&path, clock, Box::new(Seeded::new(77))).unwrap();
    (Service::new(notebook).unwrap(), folder)
}

#[test]
fn the_end_of_the_clock_from_a_peer_stops_nobody() {
    let clock = at_noon();
    let mut ana = service_in_memory(&clock, 1).unwrap();
    take(&mut ana, &named_at(1, Hlc::LATEST, "Pinned"));
    assert!(latest_hlc(ana.notebook().db()).unwrap() <= in_days(&clock, 2));
    for name in ["North 40", "South 80"] {
        ana.plant(named(name));
    }
    assert_eq!(ana.rows().len(), 2);
    let list = listed(&mut ana);
    assert_eq!((list.total, list.waiting), (1, 1));
    assert_eq!(list.rows[0].reason, Reason::Waiting);
    assert!(list.rows[0].due.is_some());
    let found = notebook::durability::check::check(ana.notebook().db()).unwrap();
    assert!(found.is_sound(), "{found:?}");
}

#[test]
fn a_change_ahead_waits_until_the_clock_comes_near_it() {
    let clock = at_noon();
    let mut ana = service_in_memory(&clock, 1).unwrap();
    take(&mut ana, &named_at(1, in_days(&clock, 1), "Tomorrow"));
    take(&mut ana, &named_at(2, in_days(&clock, 10), "In ten days"));
    let name = |service: &mut Service| service.rows()[0].name.clone();
    assert_eq!(name(&mut ana), "Tomorrow");
    ana.with_notebook(Notebook::rebuild).unwrap();
    assert_eq!(name(&mut ana), "Tomorrow");
    clock.move_by(TimeDelta::days(7));
    ana.plant(named("Other"));
    assert_eq!(listed(&mut ana).waiting, 1);
    clock.move_by(TimeDelta::days(2));
    ana.plant(named("Another"));
    assert_eq!(listed(&mut ana).total, 0);
    let one = ask::Planting {
        planting: Uuid::from_u128(1),
    };
    let page = ana.ask(one).answer;
    assert_eq!(page.planting.name, "In ten days");
    // A phone to which both come then sees the same.
    let mut cleo = service_in_memory(&clock, 3).unwrap();
    pull(&mut cleo, &ana);
    assert_eq!(
        cleo.notebook().view_digest().unwrap(),
        ana.notebook().view_digest().unwrap()
    );
}

/// As a version before this rule left it: the series' clock stands at the end, and our
/// own changes followed it there.
#[test]
fn a_notebook_that_was_carried_to_the_end_heals_when_it_opens() {
    for far in [
        Hlc::LATEST,
        Hlc::new(((70_000_000_000_000_i64) << 16) | 7).unwrap(),
    ] {
        let clock = at_noon();
        let mut ana = service_in_memory(&clock, 1).unwrap();
        let row = ana.plant(named("North 40"));
        let walk = ana.start(row.id);
        ana.tap(walk.stops[0].id, head(Reading::Pliable, 40));
        ana.tap(walk.stops[0].id, head(Reading::Pliable, 60));
        take(&mut ana, &named_at(1, far, "Pinned"));
        let own = ana.notebook().device();
        let moved = carried_along(ana.into_notebook(), own, far);
        let (mut ana, _folder) = reopened(Service::new(moved).unwrap(), &clock);
        assert_eq!(ana.notebook().device(), own);
        ana.tap(walk.stops[0].id, head(Reading::Pliable, 80));
        let page = ana.page(walk.id);
        assert_eq!(page.stops[0].heads.len(), 3);
        assert!(latest_hlc(ana.notebook().db()).unwrap() <= in_days(&clock, 2));
        let found = notebook::durability::check::check(ana.notebook().db()).unwrap();
        assert!(found.is_sound(), "{found:?}");
        // On another phone everything counts, and once.
        let mut cleo = service_in_memory(&clock, 3).unwrap();
        pull(&mut cleo, &ana);
        assert_eq!(cleo.page(walk.id).stops[0].heads.len(), 3);
        // An undo goes back over what was told again.
        for left in [2, 1] {
            assert_eq!(ana.undo(walk.id).stops[0].heads.len(), left);
        }
    }
}

/// The log as it would be had our own changes been stamped after `far`.
fn carried_along(notebook: Notebook, own: Uuid, far: Hlc) -> Notebook {
    let db = notebook.db();
    let ours = after(db, own, 0, usize::MAX).unwrap();
    let mut before = None;
    for (place, mut change) in (1_i64..).zip(ours) {
        if place > 2 {
            let number = (far.number() - 100).saturating_add(place);
            change.hlc = Hlc::new(number).unwrap();
        }
        let digest = change.digest(before.as_ref());
        db.execute(
            "UPDATE change SET hlc = ?3, digest = ?4 WHERE device = ?1 AND seq = ?2",
            (own, change.seq, change.hlc.number(), digest),
        )
        .unwrap();
        db.execute(
            "UPDATE series SET hlc = ?2, digest = ?3 WHERE device = ?1",
            (own, change.hlc.number(), digest),
        )
        .unwrap();
        before = Some(digest);
    }
    db.execute(
        "UPDATE series SET hlc = ?2 WHERE device = ?1",
        (BEN, far.number()),
    )
    .unwrap();
    // A version before this rule: the views are filled anew.
    db.execute("UPDATE this_device SET views = 3", []).unwrap();
    notebook
}

#[test]
fn a_clock_that_was_a_month_ahead_is_told_again_on_request_and_never_comes_back() {
    let clock = at_noon();
    let mut ana = service_in_memory(&clock, 1).unwrap();
    clock.move_by(TimeDelta::days(30));
    let row = ana.plant(named("Ahead"));
    let walk = ana.start(row.id);
    ana.tap(walk.stops[0].id, head(Reading::Pliable, 40));
    clock.move_by(TimeDelta::days(-30));
    // Still in sight here, after a rebuild too, and waiting elsewhere.
    ana.with_notebook(Notebook::rebuild).unwrap();
    assert_eq!(ana.page(walk.id).stops[0].heads.len(), 1);
    assert_eq!(listed(&mut ana).own_ahead, 3);
    let remarks = notebook::durability::check::remarks(ana.notebook()).unwrap();
    assert!(
        remarks[0].starts_with("3 changes of this device"),
        "{remarks:?}"
    );
    let mut cleo = service_in_memory(&clock, 3).unwrap();
    pull(&mut cleo, &ana);
    assert_eq!(cleo.rows().len(), 0);
    assert_eq!(listed(&mut cleo).waiting, 3);

    let own = ana.notebook().device();
    let told = ana.ask(ask::TellAgain { device: own }).answer;
    assert_eq!(told.changes, 3);
    assert_eq!(listed(&mut ana).own_ahead, 0);
    pull(&mut cleo, &ana);
    assert_eq!(cleo.page(walk.id).stops[0].heads.len(), 1);
    assert_eq!(listed(&mut cleo).waiting, 0);
    assert_eq!(
        cleo.notebook().view_digest().unwrap(),
        ana.notebook().view_digest().unwrap()
    );
    // A name given since stands, also when the old stamp has come.
    let edit = service::PlantingEdit {
        name: Some("Since".to_owned()),
        ..Default::default()
    };
    ana.ask(ask::EditPlanting {
        planting: row.id,
        edit,
    });
    clock.move_by(TimeDelta::days(60));
    ana.plant(named("Later"));
    for _ in 0..2 {
        assert!(ana.rows().iter().any(|row| row.name == "Since"));
        ana.with_notebook(Notebook::rebuild).unwrap();
    }
}

#[test]
fn changes_of_another_device_that_wait_can_be_told_by_anyone() {
    let clock = at_noon();
    let mut ana = service_in_memory(&clock, 1).unwrap();
    take(&mut ana, &named_at(1, in_days(&clock, 40), "Ahead"));
    assert_eq!(ana.rows().len(), 0);
    ana.ask(ask::TellAgain { device: BEN });
    assert_eq!(ana.rows()[0].name, "Ahead");
    let list = listed(&mut ana);
    assert_eq!((list.total, list.waiting), (1, 0));
    assert_eq!(list.rows[0].reason, Reason::ToldAgain);
    assert!(list.rows[0].due.is_some());
    // Nobody tells it a second time.
    let again = ana.ask(ask::TellAgain { device: BEN }).answer;
    assert_eq!(again.changes, 0);
    // It counts on its day, in whatever order the two come.
    let mut cleo = service_in_memory(&clock, 3).unwrap();
    clock.move_by(TimeDelta::days(50));
    pull(&mut cleo, &ana);
    ana.plant(named("Another"));
    pull(&mut cleo, &ana);
    assert_eq!(listed(&mut ana).total, 0);
    assert_eq!(
        cleo.notebook().view_digest().unwrap(),
        ana.notebook().view_digest().unwrap()
    );
}

#[test]
fn what_counted_once_counts_after_a_rebuild_by_a_clock_set_back() {
    let clock = at_noon();
    let mut ana = service_in_memory(&clock, 1).unwrap();
    clock.move_by(TimeDelta::days(30));
    take(&mut ana, &named_at(1, in_days(&clock, 1), "Seen"));
    assert_eq!(ana.rows()[0].name, "Seen");
    clock.move_by(TimeDelta::days(-30));
    take(&mut ana, &named_at(2, in_days(&clock, 20), "Not yet"));
    for _ in 0..2 {
        ana.with_notebook(Notebook::rebuild).unwrap();
        assert_eq!(ana.rows()[0].name, "Seen");
        assert_eq!(listed(&mut ana).waiting, 1);
    }
}

#[test]
fn a_device_that_tells_its_own_again_is_heard_in_any_order() {
    let clock = at_noon();
    let mut ben = service_in_memory(&clock, 1).unwrap();
    clock.move_by(TimeDelta::days(30));
    ben.plant(named("Ahead"));
    clock.move_by(TimeDelta::days(-30));
    let mut early = service_in_memory(&clock, 3).unwrap();
    let mut late = service_in_memory(&clock, 4).unwrap();
    pull(&mut early, &ben);
    pull(&mut late, &ben);
    let own = ben.notebook().device();
    ben.ask(ask::TellAgain { device: own });
    pull(&mut early, &ben);
    // On this one the old change comes due first, and counts until it hears the new one.
    clock.move_by(TimeDelta::days(40));
    late.with_notebook(|notebook| notebook.ingest(&[])).unwrap();
    assert_eq!(late.rows()[0].name, "Ahead");
    pull(&mut late, &ben);
    for other in [&late, &ben] {
        assert_eq!(
            other.notebook().view_digest().unwrap(),
            early.notebook().view_digest().unwrap()
        );
    }
}

#[test]
fn a_clock_before_1970_writes_and_reads() {
    let clock = SetClock::at("1969-07-20T12:00:00-05:00").unwrap();
    let mut ana = service_in_memory(&clock, 1).unwrap();
    let row = ana.plant(named("North 40"));
    let walk = ana.start(row.id);
    ana.tap(walk.stops[0].id, head(Reading::Pliable, 40));
    assert_eq!(ana.page(walk.id).stops[0].heads.len(), 1);
    let (mut ana, _folder) = reopened(ana, &clock);
    assert_eq!(ana.rows().len(), 1);
    let notebook = notebook_in_memory(&clock, 9).unwrap();
    assert_eq!(log::heads(notebook.db()).unwrap().len(), 0);
}
