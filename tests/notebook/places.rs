//! Places: of stops, of fields, and where to stop next.

use headwalk_tests::repository;
use ripening::Reading;
use service::{
    Answer, Area, ChosenFile, ChosenOutline, FileRequest, NewPlanting, OutlineFileReview,
    OutlineOf, Place, PlanIn, PlantingDetails, PlantingMapPage, ProblemCode, Service, StopPlanPage,
    ask, prepare,
};
use uuid::Uuid;

use crate::faces::{Face, head, named, service};

fn at(latitude: f64, longitude: f64) -> Place {
    Place {
        latitude,
        longitude,
        accuracy_m: Some(6.0),
        age_s: Some(2.5),
    }
}

/// A square of 400 m with its south-west corner in the open ocean.
const SQUARE: &str = r#"{"type":"Feature","properties":{"name":"north 40 "},"geometry":
    {"type":"Polygon","coordinates":[[[-40.4,38.2],[-40.395437,38.2],[-40.395437,38.203597],
    [-40.4,38.203597],[-40.4,38.2]]]}}"#;
const MIDDLE: (f64, f64) = (38.2018, -40.3977);

fn outlines(
    service: &mut Service,
    file: &str,
    chosen: Option<Vec<ChosenOutline>>,
) -> OutlineFileReview {
    let files = vec![ChosenFile {
        name: "fields.geojson".to_owned(),
        bytes: u32::try_from(file.len()).unwrap(),
    }];
    let request = FileRequest::ImportOutlineFile { files, chosen };
    let prepared = prepare(request, file.as_bytes()).unwrap();
    match service.call_prepared(prepared).unwrap().answer {
        Answer::ImportOutlineFile(review) => *review,
        other => panic!("{other:?}"),
    }
}

fn map(service: &mut Service, planting: Uuid) -> PlantingMapPage {
    service.ask(ask::PlantingMap { planting }).answer
}

fn plan(
    service: &mut Service,
    planting: Uuid,
    walk: Option<Uuid>,
    from: Option<Place>,
) -> StopPlanPage {
    let request = ask::StopPlan {
        planting,
        walk,
        from,
        rows: None,
        paces: None,
    };
    service.ask(request).answer
}

#[test]
fn a_late_fix_places_even_the_first_stop_and_costs_no_undo() {
    let (mut service, _) = service();
    let planting = service.plant(named("North 40"));
    let walk = service.start(planting.id);
    let stop = walk.stops[0].id;
    service.tap(stop, head(Reading::Pliable, 40));
    let before = service.page(walk.id);
    let place = at(MIDDLE.0, MIDDLE.1);
    let request = ask::PlaceStop { stop, place };
    let reply = service.ask(request.clone());
    assert!(!reply.changed.is_empty());
    assert!(service.ask(request).changed.is_empty());

    let after = service.page(walk.id);
    assert_eq!(after.stops[0].place, Some(place));
    assert_eq!(after.stops[0].heads, before.stops[0].heads);
    assert_eq!(after.now, before.now);
    assert_eq!(after.undo, before.undo);
    // The last thing that the scout did is the head.
    let undone = service.undo(walk.id);
    assert!(undone.stops[0].heads.is_empty());
    assert_eq!(undone.stops[0].place, Some(place));

    let digest = service.notebook().view_digest().unwrap();
    service.with_notebook(|notebook| notebook.rebuild().unwrap());
    assert_eq!(service.notebook().view_digest().unwrap(), digest);
    for wrong in [at(91.0, 0.0), at(f64::NAN, 0.0)] {
        let problem = service.refuse(ask::PlaceStop { stop, place: wrong });
        assert_eq!(problem.code, ProblemCode::BadInput);
    }
}

#[test]
fn outlines_go_to_the_plantings_of_their_names_once() {
    let (mut service, _) = service();
    let planting = service.plant(named("North 40"));
    let first = outlines(&mut service, SQUARE, None);
    assert_eq!(first.to_store, 1);
    let row = &first.outlines[0];
    assert_eq!(row.of, Some(OutlineOf::Planting(planting.id)));
    assert_eq!(row.label.as_deref(), Some("north 40"));
    // 400 m by 400 m.
    assert!(
        (row.square_meters / 160_000.0 - 1.0).abs() < 0.01,
        "{row:?}"
    );
    let again = outlines(&mut service, SQUARE, None);
    assert_eq!(again.to_store, 0);
    assert!(again.outlines[0].already_here);

    let page = map(&mut service, planting.id);
    assert_eq!(page.outline.as_ref().unwrap().rings, row.rings);
    let digest = service.notebook().view_digest().unwrap();
    service.with_notebook(|notebook| notebook.rebuild().unwrap());
    assert_eq!(service.notebook().view_digest().unwrap(), digest);

    service.ask(ask::RemoveOutline {
        of: OutlineOf::Planting(planting.id),
    });
    assert_eq!(map(&mut service, planting.id).outline, None);
}

#[test]
fn a_field_lends_its_outline_to_its_plantings_and_an_own_one_wins() {
    let (mut service, _) = service();
    let in_field = |name: &str| NewPlanting {
        details: PlantingDetails {
            field: Some("East".to_owned()),
            ..named(name).details
        },
        ..named(name)
    };
    let one = service.plant(in_field("East A"));
    let other = service.plant(in_field("East B"));
    let nameless = SQUARE.replace("north 40 ", "a map's own name");
    let looked = outlines(&mut service, &nameless, None);
    assert_eq!((looked.to_store, looked.outlines[0].of), (0, None));
    let field = looked
        .targets
        .iter()
        .map(|target| target.of)
        .find(|of| matches!(of, OutlineOf::Field(_)))
        .unwrap();
    let give = |of| Some(vec![ChosenOutline { number: 1, of }]);
    outlines(&mut service, &nameless, give(field));
    for planting in [one.id, other.id] {
        assert_eq!(map(&mut service, planting).outline.unwrap().of, field);
    }
    let own = OutlineOf::Planting(one.id);
    outlines(&mut service, SQUARE, give(own));
    assert_eq!(map(&mut service, one.id).outline.unwrap().of, own);
    assert_eq!(map(&mut service, other.id).outline.unwrap().of, field);

    let strange = OutlineOf::Planting(Uuid::from_u128(9));
    let files = vec![ChosenFile {
        name: "a.geojson".to_owned(),
        bytes: u32::try_from(SQUARE.len()).unwrap(),
    }];
    let request = FileRequest::ImportOutlineFile {
        files,
        chosen: give(strange),
    };
    let prepared = prepare(request, SQUARE.as_bytes()).unwrap();
    let problem = service.call_prepared(prepared).unwrap_err();
    assert_eq!(problem.code, ProblemCode::NotFound);
}

#[test]
fn the_nearest_planting_is_found_by_outline_else_by_stops() {
    let (mut service, _) = service();
    let outlined = service.plant(named("North 40"));
    outlines(&mut service, SQUARE, None);
    let walked = service.plant(named("Creek"));
    let walk = service.start(walked.id);
    service.ask(ask::PlaceStop {
        stop: walk.stops[0].id,
        place: at(MIDDLE.0 + 0.01, MIDDLE.1),
    });
    service.plant(named("Nowhere"));
    let mut near = |place| service.ask(ask::NearestPlantings { place }).answer.rows;
    let inside = near(at(MIDDLE.0, MIDDLE.1));
    assert_eq!(inside.len(), 2);
    assert_eq!((inside[0].planting, inside[0].meters), (outlined.id, 0.0));
    assert!(inside[0].outlined && !inside[1].outlined);
    // A hundredth of a degree of latitude is 1112 m on the mean sphere.
    assert!((inside[1].meters - 1112.0).abs() < 2.0, "{inside:?}");
    // 100 m south of the southern edge.
    let south = near(at(38.2 - 100.0 / 111_195.0, MIDDLE.1));
    assert!((south[0].meters - 100.0).abs() < 0.5, "{south:?}");
}

#[test]
fn a_plan_stays_for_its_walk_keeps_off_the_edge_and_falls_back_on_paces() {
    let (mut service, _) = service();
    let planting = service.plant(NewPlanting {
        details: PlantingDetails {
            area: Some(Area::Hectares(4.0)),
            ..named("North 40").details
        },
        ..named("North 40")
    });
    // 200 m square: 262 rows and paces.
    let PlanIn::Paces {
        plan: paced,
        rows,
        paces,
        guessed,
    } = plan(&mut service, planting.id, None, None).plan
    else {
        panic!("no paces");
    };
    assert_eq!((rows, paces, guessed), (262, 262, true));
    assert_eq!(paced.stops.len(), 5);

    outlines(&mut service, SQUARE, None);
    let walk = service.start(planting.id);
    let drawn = plan(&mut service, planting.id, Some(walk.id), None);
    let PlanIn::Outline { plan: first, .. } = &drawn.plan else {
        panic!("{drawn:?}");
    };
    assert_eq!((first.stops.len(), first.spare.len()), (5, 3));
    let margin = 19.9 / 111_195.0;
    for stop in first.stops.iter().chain(&first.spare) {
        assert!(stop.latitude > 38.2 + margin && stop.latitude < 38.203597 - margin);
    }
    assert_eq!(plan(&mut service, planting.id, Some(walk.id), None), drawn);
    // From another continent the plan is made all the same.
    let far = plan(
        &mut service,
        planting.id,
        Some(walk.id),
        Some(at(10.0, 10.0)),
    );
    assert_eq!(far, drawn);
    // Once the first stop has a place, the scout's own no longer turns the order.
    service.ask(ask::PlaceStop {
        stop: walk.stops[0].id,
        place: at(38.2002, -40.3998),
    });
    let begun = plan(&mut service, planting.id, Some(walk.id), None);
    let elsewhere = Some(at(38.2034, -40.3956));
    assert_eq!(
        plan(&mut service, planting.id, Some(walk.id), elsewhere),
        begun
    );

    let mut settings = service.ask(ask::Settings {}).answer;
    settings.plan_edge_m = 199.0;
    service.ask(ask::SaveSettings { settings });
    let narrow = plan(&mut service, planting.id, Some(walk.id), None);
    assert!(narrow.why.unwrap().contains("smaller distance"));
    assert!(matches!(narrow.plan, PlanIn::Paces { .. }));
}

#[test]
fn the_demo_outlines_find_their_plantings() {
    let (mut service, _) = service();
    let demo =
        |file: &str| std::fs::read_to_string(repository().join("demo-data").join(file)).unwrap();
    service.ask(ask::ImportPlantingFile {
        text: demo("plantings.csv"),
    });
    let review = outlines(&mut service, &demo("fields.geojson"), None);
    let plantings = service.rows().len();
    assert_eq!(review.to_store as usize, plantings);
    assert!(review.outlines.iter().all(|row| row.refused.is_none()));
    for row in service.rows() {
        let Some(Area::Acres(acres)) = row.area else {
            panic!("{row:?}");
        };
        let outline = map(&mut service, row.id).outline.unwrap();
        let drawn = outline.square_meters / 4_046.856_422_4;
        assert!((drawn / acres - 1.0).abs() < 0.01, "{}: {drawn}", row.name);
    }
}
