//! Searching names, scouts and notes.

use proptest::prelude::*;
use ripening::Reading;
use service::{Found, FoundBy, NewHead, PlantingEdit, Service, ask};

use crate::books::season;
use crate::faces::{Face, head, named, service};

fn search(service: &mut Service, text: &str) -> Found {
    let request = ask::Search {
        text: text.to_owned(),
    };
    service.ask(request).answer
}

fn noted(note: &str) -> NewHead {
    NewHead {
        note: Some(note.to_owned()),
        ..head(Reading::Pliable, 40)
    }
}

fn integrity(service: &Service) {
    service
        .notebook()
        .db()
        .execute_batch(
            "INSERT INTO search_index (search_index, rank) VALUES ('integrity-check', 1)",
        )
        .unwrap();
}

#[test]
fn notes_are_found_by_beginnings_without_accents_and_case() {
    let (mut service, _) = service();
    let planting = service.plant(named("North 40")).id;
    let walk = service.start(planting);
    service.tap(
        walk.stops[0].id,
        noted("Pulg\u{f3}n amarillo bajo las hojas"),
    );
    let stop = service.next_stop(walk.id).stops[1].id;
    service.tap(stop, noted("birds at the corner"));
    for text in ["pulgon", "PULG\u{d3}N", "amar pulg", "hoja", "  bajo, las "] {
        let found = search(&mut service, text);
        assert_eq!(found.notes.len(), 1, "{text}");
        assert_eq!(found.notes[0].planting_name, "North 40");
        assert_eq!(found.notes[0].stop, 1);
    }
    let found = search(&mut service, "corner");
    assert_eq!((found.notes[0].stop, found.notes[0].walk), (2, walk.id));
    assert_eq!(found.notes[0].scout, "Ana");
    for text in ["", "  ", "-", "amarillo birds", "ulgon", "\"", "* OR *"] {
        let found = search(&mut service, text);
        assert!(found.notes.is_empty(), "{text}");
    }
}

#[test]
fn names_hybrids_fields_farms_and_scouts_are_found_in_their_groups() {
    let (mut service, clock) = service();
    let mut new = named("North 40");
    new.details.hybrid = Some("Early tan 1".to_owned());
    new.details.field = Some("Bottom".to_owned());
    new.details.farm = Some("Home place".to_owned());
    let planting = service.plant(new).id;
    let walk = service.start(planting).id;
    for (text, by) in [
        ("north", FoundBy::Name),
        ("early", FoundBy::Hybrid),
        ("bott", FoundBy::Field),
        ("home", FoundBy::Farm),
    ] {
        let found = search(&mut service, text);
        assert_eq!(found.plantings.len(), 1, "{text}");
        assert_eq!(found.plantings[0].by, by);
        assert_eq!(found.plantings[0].planting, planting);
    }
    assert_eq!(search(&mut service, "ana").walks[0].walk, walk);
    // After another name, the old one is found no more.
    clock.move_by(chrono::TimeDelta::minutes(1));
    service.ask(ask::EditPlanting {
        planting,
        edit: PlantingEdit {
            name: Some("South".to_owned()),
            ..PlantingEdit::default()
        },
    });
    assert!(search(&mut service, "north").plantings.is_empty());
    assert_eq!(search(&mut service, "sou").plantings.len(), 1);
    integrity(&service);
}

#[test]
fn what_is_removed_is_not_found_and_comes_back_with_it() {
    let (mut service, _) = service();
    let planting = service.plant(named("North 40")).id;
    let walk = service.start(planting);
    let saved = service.tap(walk.stops[0].id, noted("aphids")).head.id;
    service.ask(ask::CorrectHead {
        head: saved,
        to: noted("mites"),
    });
    assert!(search(&mut service, "aphids").notes.is_empty());
    assert_eq!(search(&mut service, "mites").notes.len(), 1);
    service.ask(ask::RemoveHead { head: saved });
    assert!(search(&mut service, "mites").notes.is_empty());
    service.undo(walk.id);
    assert_eq!(search(&mut service, "mites").notes.len(), 1);
    service.ask(ask::RemovePlanting { planting });
    let found = search(&mut service, "north mites ana");
    assert_eq!(found, Found::default());
    service.ask(ask::RestorePlanting { planting });
    assert_eq!(search(&mut service, "mites").notes.len(), 1);
    integrity(&service);
}

#[test]
fn the_index_is_the_same_after_a_rebuild() {
    let mut service = season();
    let before = service.notebook().view_digest().unwrap();
    let found = search(&mut service, "h");
    service.with_notebook(|notebook| notebook.rebuild().unwrap());
    assert_eq!(service.notebook().view_digest().unwrap(), before);
    assert_eq!(search(&mut service, "h"), found);
    assert!(!found.plantings.is_empty());
    integrity(&service);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    /// No text is an error or an operator of the index.
    #[test]
    fn any_text_is_a_search(text in any::<String>()) {
        let (mut service, _) = service();
        service.plant(named("North 40"));
        search(&mut service, &text);
    }
}
