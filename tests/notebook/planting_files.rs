//! Planting files into the notebook.

use service::{Area, PlantingFileReview, ProblemCode, Purpose, Service, ask};

use crate::faces::{Face, named, service};

const FILE: &str = "planting,hybrid,planted_on,purpose,field,station,acres,half_bloom_on\n\
    North 40,H-17,2026-05-20,grain,North,S1,38.5,2026-07-25\n\
    South,H-17,2026-05-22,silage,,,,\n\
    West,H-9,2026-15-22,seed,,,,\n";

fn import(service: &mut Service, text: &str) -> PlantingFileReview {
    let request = ask::ImportPlantingFile {
        text: text.to_owned(),
    };
    service.ask(request).answer
}

#[test]
fn plantings_are_made_and_a_second_time_nothing_is_new() {
    let (mut service, _) = service();
    let review = import(&mut service, FILE);
    assert_eq!(review.new_plantings, vec!["North 40", "South"]);
    assert_eq!((review.plantings, review.refused), (2, 1));
    assert_eq!(review.refused_rows[0].line, 4);
    let rows = service.rows();
    let north = rows.iter().find(|row| row.name == "North 40").unwrap();
    assert_eq!(north.hybrid.as_deref(), Some("H-17"));
    assert_eq!(north.field.as_deref(), Some("North"));
    assert_eq!(north.area, Some(Area::Acres(38.5)));
    let south = rows.iter().find(|row| row.name == "South").unwrap();
    assert_eq!(south.purpose, Purpose::Silage);
    let names = service.ask(ask::Names {}).answer;
    assert_eq!(names.hybrids, vec!["H-17"]);

    let changes = notebook::log::heads(service.notebook().db()).unwrap();
    let again = import(&mut service, FILE);
    assert_eq!((again.new_plantings.len(), again.updated), (0, 0));
    assert_eq!(
        notebook::log::heads(service.notebook().db()).unwrap(),
        changes
    );
}

#[test]
fn lines_are_counted_whatever_ends_them() {
    for end in ["\n", "\r\n", "\r"] {
        let (mut service, _) = service();
        let review = import(&mut service, &FILE.replace('\n', end));
        assert_eq!(review.refused_rows[0].line, 4, "{end:?}");
    }
}

#[test]
fn a_review_says_what_an_import_would_do_and_stores_nothing() {
    let (mut service, _) = service();
    service.plant(named("North 40"));
    let before = service.notebook().view_digest().unwrap();
    let changes = notebook::log::heads(service.notebook().db()).unwrap();
    let text = FILE.to_owned();
    let review = service.ask(ask::ReviewPlantingFile { text }).answer;
    assert_eq!(service.notebook().view_digest().unwrap(), before);
    assert_eq!(
        notebook::log::heads(service.notebook().db()).unwrap(),
        changes
    );
    assert_eq!(import(&mut service, FILE), review);
}

#[test]
fn only_what_the_file_says_otherwise_is_set() {
    let (mut service, _) = service();
    let known = service.plant(named("North 40"));
    let review = import(&mut service, FILE);
    assert_eq!((review.new_plantings.len(), review.updated), (1, 1));
    let rows = service.rows();
    let north = rows.iter().find(|row| row.name == "North 40").unwrap();
    assert_eq!(north.id, known.id);
    assert_eq!(north.hybrid.as_deref(), Some("H-17"));
    // The date was the same already.
    let told: u32 = service
        .notebook()
        .db()
        .query_row(
            "SELECT count(*) FROM field_value WHERE id = ?1 AND field = 'planted_on'",
            [known.id],
            |row| row.get(0),
        )
        .unwrap();
    assert_eq!(told, 1);
}

#[test]
fn a_file_without_a_usable_row_is_refused() {
    let (mut service, _) = service();
    for text in [
        "",
        "planting,hybrid\n",
        "planting,hybrid,planted_on,purpose\nP,H,never,grain\n",
    ] {
        let request = ask::ImportPlantingFile {
            text: text.to_owned(),
        };
        assert_eq!(
            service.refuse(request).code,
            ProblemCode::BadInput,
            "{text:?}"
        );
    }
}
