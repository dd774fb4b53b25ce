//! Plantings: made, edited, hidden, listed.

use chrono::{NaiveDate, TimeDelta};
use ripening::Reading;
use service::{
    Area, DueReason, NewPlanting, PlantingDetails, PlantingEdit, ProblemCode, Purpose, ask,
};
use uuid::Uuid;

use crate::faces::{Face, head, named, service};

#[test]
fn a_planting_brings_its_farm_field_and_hybrid() {
    let (mut service, _) = service();
    let new = NewPlanting {
        details: PlantingDetails {
            farm: Some(" Home ".to_owned()),
            field: Some("North".to_owned()),
            hybrid: Some("H-17".to_owned()),
            purpose: Some(Purpose::Silage),
            area: Some(Area::Acres(38.5)),
            ..named("North 40").details
        },
        ..named("North 40")
    };
    let row = service.plant(new.clone());
    assert_eq!(row.farm.as_deref(), Some("Home"));
    assert_eq!(row.field.as_deref(), Some("North"));
    assert_eq!(row.area, Some(Area::Acres(38.5)));
    service.plant(NewPlanting {
        name: "South".to_owned(),
        details: PlantingDetails {
            field: Some("South".to_owned()),
            ..new.details
        },
        ..new
    });
    let names = service.ask(ask::Names {}).answer;
    assert_eq!(names.farms, vec!["Home"]);
    assert_eq!(names.fields, vec!["North", "South"]);
    assert_eq!(names.hybrids, vec!["H-17"]);
}

#[test]
fn an_edit_changes_only_what_it_names() {
    let (mut service, _) = service();
    let row = service.plant(NewPlanting {
        details: PlantingDetails {
            farm: Some("Home".to_owned()),
            hybrid: Some("H-17".to_owned()),
            ..named("North 40").details
        },
        ..named("North 40")
    });
    let edit = PlantingEdit {
        details: PlantingDetails {
            field: Some("Bend".to_owned()),
            hybrid: Some(String::new()),
            planted_on: NaiveDate::from_ymd_opt(2026, 6, 1),
            ..PlantingDetails::default()
        },
        ..PlantingEdit::default()
    };
    let request = ask::EditPlanting {
        planting: row.id,
        edit,
    };
    service.ask(request.clone());
    let edited = &service.rows()[0];
    assert_eq!(edited.name, "North 40");
    assert_eq!(edited.farm.as_deref(), Some("Home"));
    assert_eq!(edited.field.as_deref(), Some("Bend"));
    assert_eq!(edited.hybrid, None);
    assert_eq!(edited.planted_on, NaiveDate::from_ymd_opt(2026, 6, 1));
    assert!(service.ask(request).changed.is_empty(), "nothing new");
}

#[test]
fn names_are_unique_and_removal_can_be_undone() {
    let (mut service, _) = service();
    let row = service.plant(named("North 40"));
    let taken = service.refuse(ask::AddPlanting {
        new: named(" North 40 "),
    });
    assert_eq!(taken.code, ProblemCode::Conflict);
    service.ask(ask::RemovePlanting { planting: row.id });
    assert!(service.rows().is_empty());
    let gone = service.refuse(ask::Planting { planting: row.id });
    assert_eq!(gone.code, ProblemCode::NotFound);

    let other = service.plant(named("North 40"));
    let taken = service.refuse(ask::RestorePlanting { planting: row.id });
    assert_eq!(taken.code, ProblemCode::Conflict);
    service.ask(ask::RemovePlanting { planting: other.id });
    service.ask(ask::RestorePlanting { planting: row.id });
    assert_eq!(service.rows()[0].id, row.id);
}

#[test]
fn bad_names_and_areas_are_refused() {
    let (mut service, _) = service();
    for name in ["", "   ", "a\nb", &"x".repeat(201)] {
        let problem = service.refuse(ask::AddPlanting { new: named(name) });
        assert_eq!(problem.code, ProblemCode::BadInput, "{name:?}");
    }
    for size in [0.0, -1.0, f64::NAN, f64::INFINITY] {
        let new = NewPlanting {
            details: PlantingDetails {
                area: Some(Area::Hectares(size)),
                ..named("P").details
            },
            ..named("P")
        };
        let problem = service.refuse(ask::AddPlanting { new });
        assert_eq!(problem.code, ProblemCode::BadInput, "{size}");
    }
    let edit = ask::EditPlanting {
        planting: Uuid::from_u128(4),
        edit: PlantingEdit::default(),
    };
    assert_eq!(service.refuse(edit).code, ProblemCode::NotFound);
}

#[test]
fn the_list_begins_with_what_needs_a_walk() {
    let (mut service, clock) = service();
    let walk = |service: &mut service::Service, name: &str, reading, finish| {
        let planting = service.plant(named(name)).id;
        let mut page = service.start(planting);
        for _ in 0..4 {
            let stop = page.stops.last().unwrap().id;
            for _ in 0..5 {
                service.tap(stop, head(reading, 90));
            }
            page = service.next_stop(page.id);
        }
        if finish {
            service.ask(ask::FinishWalk { walk: page.id });
        }
    };
    walk(&mut service, "ripe", Reading::DarkSpot, true);
    walk(&mut service, "old", Reading::Pliable, true);
    clock.move_by(TimeDelta::days(12));
    walk(&mut service, "fresh", Reading::Pliable, true);
    walk(&mut service, "open", Reading::Pliable, false);
    service.plant(named("new"));
    let rows = service.rows();
    let order: Vec<(&str, DueReason)> = rows
        .iter()
        .map(|row| (row.name.as_str(), row.due.reason))
        .collect();
    assert_eq!(
        order,
        vec![
            ("open", DueReason::WalkOpen),
            ("old", DueReason::Overdue),
            ("new", DueReason::NeverWalked),
            ("fresh", DueReason::Fresh),
            ("ripe", DueReason::Ripe),
        ]
    );
    assert_eq!(rows[1].due.days_since, Some(12));
}
