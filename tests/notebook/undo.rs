//! Undo, step by step back through a walk.

use ripening::Reading;
use service::{ProblemCode, UndoWhat, WalkPage, ask};
use uuid::Uuid;

use crate::faces::{Face, head, named, service};

fn readings(page: &WalkPage) -> Vec<Vec<(Reading, bool)>> {
    page.stops
        .iter()
        .map(|stop| {
            stop.heads
                .iter()
                .map(|head| (head.head.reading(), head.corrected))
                .collect()
        })
        .collect()
}

#[test]
fn undo_goes_back_through_stop_removal_correction_and_heads_to_the_start() {
    use Reading::{Bloom, Dented, Liquid};
    let (mut service, _) = service();
    let planting = service.plant(named("North 40"));
    let page = service.start(planting.id);
    let walk = page.id;
    let stop = page.stops[0].id;
    let first = service.tap(stop, head(Bloom, 10)).head.id;
    service.tap(stop, head(Liquid, 20));
    service.ask(ask::CorrectHead {
        head: first,
        to: head(Dented, 30),
    });
    service.ask(ask::RemoveHead { head: first });
    let page = service.next_stop(walk);
    assert_eq!(readings(&page), vec![vec![(Liquid, false)], vec![]]);
    assert_eq!(page.undo, Some(UndoWhat::Stop));

    let page = service.undo(walk);
    assert_eq!(page.undo, Some(UndoWhat::Removal));
    assert_eq!(readings(&page), vec![vec![(Liquid, false)]]);
    let page = service.undo(walk);
    assert_eq!(page.undo, Some(UndoWhat::Correction));
    assert_eq!(readings(&page), vec![vec![(Dented, true), (Liquid, false)]]);
    let page = service.undo(walk);
    assert_eq!(page.undo, Some(UndoWhat::Head));
    assert_eq!(readings(&page), vec![vec![(Bloom, false), (Liquid, false)]]);
    let page = service.undo(walk);
    assert_eq!(readings(&page), vec![vec![(Bloom, false)]]);
    let page = service.undo(walk);
    assert_eq!(readings(&page), vec![Vec::new()]);
    assert_eq!(page.undo, None);
    let nothing = service.refuse(ask::Undo { id: None, walk });
    assert_eq!(nothing.code, ProblemCode::Conflict);

    // And on from there.
    service.tap(stop, head(Dented, 5));
    let page = service.undo(walk);
    assert_eq!(readings(&page), vec![Vec::new()]);
}

#[test]
fn a_stop_that_was_undone_leaves_no_gap_in_the_numbers() {
    let (mut service, _) = service();
    let planting = service.plant(named("North 40"));
    let walk = service.start(planting.id).id;
    service.next_stop(walk);
    service.undo(walk);
    let page = service.next_stop(walk);
    let numbers: Vec<u32> = page.stops.iter().map(|stop| stop.number).collect();
    assert_eq!(numbers, vec![1, 2]);
}

#[test]
fn an_undo_sent_twice_goes_one_step_back() {
    let (mut service, _) = service();
    let planting = service.plant(named("North 40"));
    let page = service.start(planting.id);
    for share in [10, 20, 30] {
        service.tap(page.stops[0].id, head(Reading::Bloom, share));
    }
    let undo = ask::Undo {
        id: Some(Uuid::from_u128(5)),
        walk: page.id,
    };
    service.ask(undo.clone());
    service.ask(undo);
    assert_eq!(service.page(page.id).stops[0].heads.len(), 2);
}

#[test]
fn two_corrections_are_undone_one_by_one() {
    let (mut service, _) = service();
    let planting = service.plant(named("North 40"));
    let page = service.start(planting.id);
    let of = service
        .tap(page.stops[0].id, head(Reading::Bloom, 10))
        .head
        .id;
    for share in [20, 30] {
        service.ask(ask::CorrectHead {
            head: of,
            to: head(Reading::Bloom, share),
        });
    }
    let share = |page: &WalkPage| {
        let head = &page.stops[0].heads[0];
        (head.head.share().unwrap().percent(), head.corrected)
    };
    assert_eq!(share(&service.undo(page.id)), (20, true));
    assert_eq!(share(&service.undo(page.id)), (10, false));
}
