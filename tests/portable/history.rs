//! Who changed what, taking it back, and two walks side by side.

use chrono::{NaiveDate, TimeDelta};
use headwalk_tests::devices::SetClock;
use notebook::fact::Field;
use ripening::{Reading, Stage};
use service::{
    Area, ChangeName, HistoryLine, HistoryPage, Keep, PlantingDetails, PlantingEdit, ProblemCode,
    Service, WalkComparison, ask,
};
use uuid::Uuid;

use crate::books::{archive, bring_in, empty};
use crate::faces::{Face, head, named, service};

fn page(
    service: &mut Service,
    planting: Uuid,
    before: Option<ChangeName>,
    limit: u32,
) -> HistoryPage {
    let request = ask::History {
        planting,
        before,
        limit: Some(limit),
    };
    service.ask(request).answer
}

fn history(service: &mut Service, planting: Uuid) -> HistoryPage {
    page(service, planting, None, 500)
}

fn acts(page: &HistoryPage) -> Vec<&str> {
    page.entries.iter().map(|entry| entry.act.name()).collect()
}

fn undo_change(service: &mut Service, planting: Uuid, act: &str) {
    let entry = history(service, planting)
        .entries
        .into_iter()
        .find(|entry| entry.act.name() == act && entry.can_undo)
        .unwrap();
    service.ask(ask::UndoChange {
        planting,
        seq: entry.change.seq,
    });
}

fn edit(service: &mut Service, clock: &SetClock, planting: Uuid, edit: PlantingEdit) {
    clock.move_by(TimeDelta::minutes(1));
    service.ask(ask::EditPlanting { planting, edit });
}

fn renamed(name: &str) -> PlantingEdit {
    PlantingEdit {
        name: Some(name.to_owned()),
        ..PlantingEdit::default()
    }
}

#[test]
fn every_change_is_there_the_latest_first_with_what_was_before() {
    let (mut service, clock) = service();
    let planting = service.plant(named("North 40")).id;
    edit(&mut service, &clock, planting, renamed("North"));
    let hybrid = |name: &str| PlantingEdit {
        details: PlantingDetails {
            hybrid: Some(name.to_owned()),
            area: Some(Area::Acres(40.0)),
            ..PlantingDetails::default()
        },
        ..PlantingEdit::default()
    };
    edit(&mut service, &clock, planting, hybrid("Early tan 1"));
    edit(&mut service, &clock, planting, hybrid("Late red 2"));
    clock.move_by(TimeDelta::minutes(1));
    let walk = service.start(planting);
    let stop = walk.stops[0].id;
    let first = service.tap(stop, head(Reading::Pliable, 40)).head.id;
    service.ask(ask::CorrectHead {
        head: first,
        to: head(Reading::Pliable, 60),
    });
    service.ask(ask::RemoveHead { head: first });

    let page = history(&mut service, planting);
    assert_eq!(
        acts(&page),
        [
            "head_removed",
            "head_corrected",
            "head_read",
            "walk_started",
            "planting_edited",
            "planting_edited",
            "planting_edited",
            "planting_added"
        ]
    );
    assert!(page.older.is_none());
    assert!(page.entries.iter().all(|entry| entry.own));
    assert!(
        page.entries
            .iter()
            .all(|entry| entry.who.as_deref() == Some("Ana"))
    );
    let lines = |at: usize| page.entries[at].lines.clone();
    let said = |share| head(Reading::Pliable, share);
    assert_eq!(
        lines(0),
        [HistoryLine::TakenOut {
            said: Some(said(60))
        }]
    );
    assert_eq!(
        lines(1),
        [HistoryLine::Corrected {
            was: said(40),
            to: said(60)
        }]
    );
    assert_eq!(lines(2), [HistoryLine::Head { said: said(40) }]);
    assert_eq!(
        lines(4),
        [HistoryLine::Field {
            field: Field::Hybrid,
            was: Some("Early tan 1".to_owned()),
            to: "Late red 2".to_owned()
        }]
    );
    assert_eq!(
        lines(6),
        [HistoryLine::Field {
            field: Field::Name,
            was: Some("North 40".to_owned()),
            to: "North".to_owned()
        }]
    );
    let walk_entry = &page.entries[3];
    assert_eq!(walk_entry.walk.as_ref().unwrap().id, walk.id);
    assert!(walk_entry.lines.contains(&HistoryLine::Stop { number: 1 }));
}

#[test]
fn pages_join_to_the_whole_without_gap_or_repeat() {
    let (mut service, _) = service();
    let planting = service.plant(named("North 40")).id;
    let walk = service.start(planting);
    for share in 1..=60 {
        service.tap(walk.stops[0].id, head(Reading::Pliable, share));
    }
    let whole = history(&mut service, planting);
    assert_eq!(whole.entries.len(), 62);
    let (mut joined, mut before) = (Vec::new(), None);
    loop {
        let page = page(&mut service, planting, before, 7);
        joined.extend(page.entries);
        before = page.older;
        if before.is_none() {
            break;
        }
    }
    assert_eq!(joined, whole.entries);
}

#[test]
fn any_own_change_is_undone_and_again_the_other_way() {
    let (mut service, clock) = service();
    let planting = service.plant(named("North 40")).id;
    edit(&mut service, &clock, planting, renamed("South"));
    let area = PlantingEdit {
        details: PlantingDetails {
            area: Some(Area::Hectares(16.0)),
            ..PlantingDetails::default()
        },
        ..PlantingEdit::default()
    };
    edit(&mut service, &clock, planting, area);
    let walk = service.start(planting);
    let stop = walk.stops[0].id;
    service.tap(stop, head(Reading::Pliable, 40));
    service.tap(stop, head(Reading::Pliable, 60));
    service.ask(ask::FinishWalk { walk: walk.id });
    let heads = |service: &mut Service| service.page(walk.id).stops[0].heads.len();

    // The name, though a later edit of another field stands above it.
    let rename = history(&mut service, planting)
        .entries
        .into_iter()
        .filter(|entry| entry.act.name() == "planting_edited")
        .nth(1)
        .unwrap();
    let again = ask::UndoChange {
        planting,
        seq: rename.change.seq,
    };
    service.ask(again.clone());
    assert_eq!(service.rows()[0].name, "North 40");
    assert_eq!(service.rows()[0].area, Some(Area::Hectares(16.0)));
    // Sent twice it does nothing more.
    let before = history(&mut service, planting).entries.len();
    service.ask(again);
    assert_eq!(history(&mut service, planting).entries.len(), before);
    // Taking the undo back brings the new name again.
    undo_change(&mut service, planting, "undone");
    assert_eq!(service.rows()[0].name, "South");
    // An area that there was none before goes to none.
    undo_change(&mut service, planting, "planting_edited");
    assert_eq!(service.rows()[0].area, None);
    // A finished walk opens, a head goes and comes.
    undo_change(&mut service, planting, "walk_finished");
    assert!(!service.page(walk.id).finished);
    undo_change(&mut service, planting, "head_read");
    assert_eq!(heads(&mut service), 1);
    undo_change(&mut service, planting, "undone");
    assert_eq!(heads(&mut service), 2);
    // A removed walk is back with its heads.
    service.ask(ask::RemoveWalk { walk: walk.id });
    undo_change(&mut service, planting, "walk_removed");
    assert_eq!(heads(&mut service), 2);
    // The walk as a whole.
    undo_change(&mut service, planting, "walk_started");
    let gone = service.refuse(ask::Walk { walk: walk.id });
    assert_eq!(gone.code, ProblemCode::NotFound);
    // And the planting.
    undo_change(&mut service, planting, "planting_added");
    assert!(service.rows().is_empty());
    undo_change(&mut service, planting, "undone");
    assert_eq!(service.rows()[0].name, "South");
    service.with_notebook(|notebook| {
        let before = notebook.view_digest().unwrap();
        notebook.rebuild().unwrap();
        assert_eq!(notebook.view_digest().unwrap(), before);
    });
}

#[test]
fn an_undo_in_the_walk_goes_on_from_what_was_brought_back() {
    let (mut service, _) = service();
    let planting = service.plant(named("North 40")).id;
    let walk = service.start(planting);
    service.tap(walk.stops[0].id, head(Reading::Pliable, 40));
    service.undo(walk.id);
    undo_change(&mut service, planting, "undone");
    assert_eq!(service.page(walk.id).stops[0].heads.len(), 1);
    assert!(service.page(walk.id).undo.is_some());
    service.undo(walk.id);
    assert!(service.page(walk.id).stops[0].heads.is_empty());
}

#[test]
fn what_was_changed_again_or_by_others_is_not_undone() {
    let (mut service, clock) = service();
    let planting = service.plant(named("North 40")).id;
    edit(&mut service, &clock, planting, renamed("South"));
    edit(&mut service, &clock, planting, renamed("West"));
    let first = history(&mut service, planting).entries[1].change.seq;
    let refused = service.refuse(ask::UndoChange {
        planting,
        seq: first,
    });
    assert_eq!(refused.code, ProblemCode::Conflict);
    let nothing = service.refuse(ask::UndoChange { planting, seq: 99 });
    assert_eq!(nothing.code, ProblemCode::NotFound);

    // On another device the same changes are somebody else's.
    let made = archive(&mut service);
    let mut other = empty(50);
    bring_in(&mut other, &made, Keep::GoodRows).unwrap();
    let page = history(&mut other, planting);
    assert!(
        page.entries
            .iter()
            .all(|entry| !entry.own && !entry.can_undo)
    );

    // A walk with heads of another device stays.
    let walk = service.start(planting);
    service.tap(walk.stops[0].id, head(Reading::Pliable, 40));
    let made = archive(&mut service);
    bring_in(&mut other, &made, Keep::GoodRows).unwrap();
    other.tap(walk.stops[0].id, head(Reading::Dented, 10));
    let made = archive(&mut other);
    bring_in(&mut service, &made, Keep::GoodRows).unwrap();
    let started = history(&mut service, planting)
        .entries
        .into_iter()
        .find(|entry| entry.act.name() == "walk_started")
        .unwrap();
    let refused = service.refuse(ask::UndoChange {
        planting,
        seq: started.change.seq,
    });
    assert!(refused.message.contains("another device"), "{refused}");
}

#[test]
fn a_name_that_was_taken_meanwhile_is_not_taken_again() {
    let (mut service, clock) = service();
    let planting = service.plant(named("North 40")).id;
    edit(&mut service, &clock, planting, renamed("South"));
    service.plant(named("North 40"));
    let seq = history(&mut service, planting).entries[0].change.seq;
    let refused = service.refuse(ask::UndoChange { planting, seq });
    assert_eq!(refused.code, ProblemCode::Conflict);
}

fn compare(service: &mut Service, one: Uuid, other: Uuid) -> WalkComparison {
    service.ask(ask::CompareWalks { one, other }).answer
}

#[test]
fn two_walks_side_by_side_say_how_much_the_shares_grew() {
    let (mut service, _) = service();
    let planting = service.plant(named("North 40")).id;
    let mut walk_on = |day: u32, reading, share| {
        let request = ask::StartWalk {
            id: None,
            planting,
            walked_on: NaiveDate::from_ymd_opt(2026, 8, day),
            scout: None,
        };
        let page = service.ask(request).answer;
        let mut stop = page.stops[0].id;
        for at in 0..5 {
            if at > 0 {
                stop = service.next_stop(page.id).stops.last().unwrap().id;
            }
            for _ in 0..5 {
                service.tap(stop, head(reading, share));
            }
        }
        page.id
    };
    let early = walk_on(1, Reading::Liquid, 50);
    let late = walk_on(12, Reading::Dented, 60);
    let again = walk_on(13, Reading::Dented, 60);
    let found = compare(&mut service, late, early);
    assert_eq!(
        (found.earlier.id, found.later.id, found.days),
        (early, late, 11)
    );
    let gained = found.gained.unwrap();
    // Nobody at soft dough, then everybody: nearly all of the heads gained it.
    let soft = *gained.get(Stage::SoftDough);
    assert!(soft.low > 0.7 && soft.high <= 1.0, "{soft:?}");
    // All were past boot both times.
    let boot = *gained.get(Stage::Boot);
    assert!(boot.low.abs() < 0.02 && boot.high.abs() < 0.02, "{boot:?}");
    // Two walks that saw the same have nothing to tell apart.
    let same = compare(&mut service, late, again).gained.unwrap();
    for stage in Stage::ALL {
        let band = *same.get(stage);
        assert!(band.mid.abs() < 0.01, "{stage:?} {band:?}");
        assert!(band.low <= 0.0 && band.high >= 0.0, "{stage:?} {band:?}");
    }
}

#[test]
fn walks_of_two_plantings_are_not_compared() {
    let (mut service, _) = service();
    let one = service.plant(named("One")).id;
    let other = service.plant(named("Other")).id;
    let (one, other) = (service.start(one).id, service.start(other).id);
    let refused = service.refuse(ask::CompareWalks { one, other });
    assert_eq!(refused.code, ProblemCode::BadInput);
}
