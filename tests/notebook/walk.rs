//! A walk from the first head to the finished answer.

use ripening::{Flag, Reading, Stage, Verdict};
use service::{Changed, NewHead, Place, ProblemCode, UndoWhat, ask};
use uuid::Uuid;

use crate::faces::{Face, head, named, service};

#[test]
fn twenty_five_heads_at_five_stops_give_a_narrowing_answer_that_reloads_equal() {
    let (mut service, _) = service();
    let planting = service.plant(named("North 40"));
    let page = service.start(planting.id);
    assert_eq!(page.stops.len(), 1);
    assert_eq!(page.now.advice.verdict, Verdict::NoHeads);
    assert_eq!(page.now.alone, None);

    let mut widths = Vec::new();
    let mut stop = page.stops[0].id;
    let mut last = None;
    for at in 0..5 {
        for of in 0..5_u8 {
            let saved = service.tap(stop, head(Reading::Pliable, 60 + 4 * of));
            assert_eq!(saved.head.number, u32::from(of) + 1);
            assert_eq!(saved.undo, Some(UndoWhat::Head));
            let answer = saved.now.alone.unwrap();
            assert_eq!(answer.heads, at * 5 + u32::from(of) + 1);
            widths.push(answer.position.width());
            last = Some(saved.now);
        }
        if at < 4 {
            stop = service.next_stop(page.id).stops.last().unwrap().id;
        }
    }
    assert!(widths[24] < widths[0] / 2.0, "{widths:?}");

    let reloaded = service.page(page.id);
    assert_eq!(reloaded.stops.len(), 5);
    assert!(reloaded.stops.iter().all(|stop| stop.heads.len() == 5));
    // Tap by tap and at once, bit for bit.
    assert_eq!(Some(reloaded.now), last);

    service.ask(ask::FinishWalk { walk: page.id });
    let row = &service.rows()[0];
    assert_eq!(row.open_walk, None);
    let brief = row.last_walk.as_ref().unwrap();
    assert!(brief.finished);
    assert_eq!(brief.now.alone.unwrap().stage, Stage::SoftDough);
}

#[test]
fn changes_are_named_so_that_a_screen_redraws_only_those() {
    let (mut service, _) = service();
    let planting = service.plant(named("North 40"));
    let page = service.start(planting.id);
    let reply = service.ask(ask::AddHead {
        id: None,
        stop: page.stops[0].id,
        head: head(Reading::Liquid, 30),
    });
    assert_eq!(
        reply.changed,
        vec![Changed::Planting(planting.id), Changed::Walk(page.id)]
    );
    assert!(service.ask(ask::Plantings {}).changed.is_empty());
}

#[test]
fn the_same_request_with_the_same_id_changes_nothing() {
    let (mut service, _) = service();
    let planting = service.plant(named("North 40"));
    let [walk, stop, of_head] = [1, 2, 3].map(Uuid::from_u128);
    let start = ask::StartWalk {
        id: Some(walk),
        planting: planting.id,
        walked_on: None,
        scout: None,
    };
    let first = service.ask(start.clone());
    let again = service.ask(start);
    assert_eq!(first.answer, again.answer);
    assert!(again.changed.is_empty());
    let add = ask::AddStop {
        id: Some(stop),
        walk,
        place: Some(Place {
            latitude: 38.5,
            longitude: -99.25,
            accuracy_m: Some(4.0),
            age_s: None,
        }),
    };
    service.ask(add.clone());
    assert!(service.ask(add).changed.is_empty());
    let tap = ask::AddHead {
        id: Some(of_head),
        stop,
        head: head(Reading::Bloom, 60),
    };
    let first = service.ask(tap.clone());
    let again = service.ask(tap);
    assert_eq!(first.answer, again.answer);
    assert!(again.changed.is_empty());
    assert_eq!(service.page(walk).stops[1].heads.len(), 1);

    let problem = service.refuse(ask::AddHead {
        id: Some(of_head),
        stop,
        head: head(Reading::Bloom, 70),
    });
    assert_eq!(problem.code, ProblemCode::Conflict);
}

#[test]
fn a_head_carries_its_marks_and_note_and_can_be_corrected() {
    let (mut service, clock) = service();
    let planting = service.plant(named("North 40"));
    let page = service.start(planting.id);
    let saved = service.tap(
        page.stops[0].id,
        NewHead {
            flags: vec![Flag::LodgedPlant, Flag::Moldy, Flag::Moldy],
            note: Some("  low spot ".to_owned()),
            ..head(Reading::Pliable, 40)
        },
    );
    assert_eq!(saved.head.flags, vec![Flag::Moldy, Flag::LodgedPlant]);
    assert_eq!(saved.head.note.as_deref(), Some("low spot"));
    assert_eq!(
        saved.head.recorded_at.to_rfc3339(),
        "2026-08-20T12:00:00-05:00"
    );

    clock.move_by(chrono::TimeDelta::minutes(3));
    let reply = service.ask(ask::CorrectHead {
        head: saved.head.id,
        to: head(Reading::Dented, 10),
    });
    let corrected = reply.answer;
    assert!(corrected.head.corrected);
    assert_eq!(corrected.head.head, head(Reading::Dented, 10).head);
    assert_eq!(corrected.head.number, 1);
    assert_eq!(corrected.head.recorded_at, saved.head.recorded_at);
    assert_eq!(corrected.undo, Some(UndoWhat::Correction));
}

#[test]
fn what_does_not_fit_is_refused_and_stores_nothing() {
    let (mut service, _) = service();
    let planting = service.plant(named("North 40"));
    let page = service.start(planting.id);
    let stop = page.stops[0].id;
    let tap = |stop| ask::AddHead {
        id: None,
        stop,
        head: head(Reading::Bloom, 5),
    };
    assert_eq!(
        service.refuse(tap(Uuid::from_u128(77))).code,
        ProblemCode::NotFound
    );
    let mut lost = page.stops[0].clone();
    lost.place = Some(Place {
        latitude: 91.0,
        longitude: 0.0,
        accuracy_m: None,
        age_s: None,
    });
    let add = ask::AddStop {
        id: None,
        walk: page.id,
        place: lost.place,
    };
    assert_eq!(service.refuse(add).code, ProblemCode::BadInput);
    let ahead = ask::StartWalk {
        id: None,
        planting: planting.id,
        walked_on: chrono::NaiveDate::from_ymd_opt(2026, 9, 1),
        scout: None,
    };
    assert_eq!(service.refuse(ahead).code, ProblemCode::BadInput);

    service.ask(ask::FinishWalk { walk: page.id });
    assert_eq!(service.refuse(tap(stop)).code, ProblemCode::Conflict);
    service.ask(ask::ReopenWalk { walk: page.id });
    service.tap(stop, head(Reading::Bloom, 5));
    service.ask(ask::RemoveWalk { walk: page.id });
    assert_eq!(service.refuse(tap(stop)).code, ProblemCode::NotFound);
    let walk = ask::Walk { walk: page.id };
    assert_eq!(service.refuse(walk).code, ProblemCode::NotFound);
}

#[test]
fn an_earlier_walk_narrows_the_answer_and_a_contradiction_is_told() {
    let (mut service, clock) = service();
    let planting = service.plant(named("North 40"));
    let mut walks = Vec::new();
    for (days, reading, share) in [
        (0, Reading::Liquid, 60),
        (9, Reading::Pliable, 50),
        (1, Reading::Boot, 0),
    ] {
        clock.move_by(chrono::TimeDelta::days(days));
        let mut page = service.start(planting.id);
        for at in 0..4 {
            let stop = page.stops.last().unwrap().id;
            for _ in 0..4 {
                let tapped = if reading == Reading::Boot {
                    NewHead {
                        head: ripening::Head::new(Reading::Boot, None).unwrap(),
                        flags: vec![],
                        note: None,
                    }
                } else {
                    head(reading, share)
                };
                service.tap(stop, tapped);
            }
            if at < 3 {
                page = service.next_stop(page.id);
            }
        }
        service.ask(ask::FinishWalk { walk: page.id });
        walks.push(service.page(page.id));
    }
    assert_eq!(walks[0].now.with_history, None);
    let [alone, with] = [walks[1].now.alone, walks[1].now.with_history].map(Option::unwrap);
    assert!(with.position.width() < alone.position.width());
    assert!(walks[2].now.contradiction.is_some());
    assert_eq!(walks[2].now.with_history, None);

    // The list and the page say what the walk said.
    let row = &service.rows()[0];
    assert_eq!(row.last_walk.as_ref().unwrap().now, walks[2].now);
    assert_eq!(
        row.earlier,
        vec![walks[0].now.alone.unwrap().position, with.position]
    );
}
