//! Tables for the grower's own tools, read back by the readers of the same files.

use std::io::Cursor;

use proptest::prelude::*;
use readers::head_file::HeadFile;
use readers::watch::Watch;
use readers::weather_file;
use ripening::Reading;
use ripening::temperature::TempUnit;
use service::{FileOut, ask};

use crate::books::{empty, file, season, small};
use crate::faces::{Face, head, named};

fn text(bytes: Vec<u8>) -> String {
    String::from_utf8(bytes).unwrap()
}

#[test]
fn heads_brought_back_into_the_same_notebook_are_all_here_already() {
    for mut service in [small(), season()] {
        let text = text(file(&mut service, &FileOut::Heads));
        let review = service.ask(ask::ReviewHeadFile { text }).answer;
        assert!(review.heads > 0);
        assert_eq!((review.already_here, review.refused), (review.heads, 0));
        assert!(review.new_plantings.is_empty());
    }
}

#[test]
fn heads_in_another_notebook_give_the_same_answers() {
    let mut old = season();
    let (heads, plantings) = (
        text(file(&mut old, &FileOut::Heads)),
        text(file(&mut old, &FileOut::Plantings)),
    );
    let mut new = empty(8);
    new.ask(ask::ImportPlantingFile { text: plantings });
    new.ask(ask::ImportHeadFile { text: heads });
    let positions = |service: &mut service::Service| {
        let mut rows: Vec<_> = service
            .rows()
            .into_iter()
            .map(|row| {
                let field = row.last_walk.unwrap().now.alone.unwrap();
                (row.name, row.hybrid, row.planted_on, field)
            })
            .collect();
        rows.sort_by(|a, b| a.0.cmp(&b.0));
        rows
    };
    assert_eq!(positions(&mut new), positions(&mut old));
}

#[test]
fn two_walks_of_one_day_keep_their_stops_apart() {
    let mut service = empty(1);
    let planting = service.plant(named("Twice")).id;
    for share in [30, 70] {
        let walk = service.start(planting);
        service.tap(walk.stops[0].id, head(Reading::Pliable, share));
        service.ask(ask::FinishWalk { walk: walk.id });
    }
    let text = text(file(&mut service, &FileOut::Heads));
    let stops: Vec<String> = HeadFile::open(text.as_bytes())
        .unwrap()
        .map(|row| row.unwrap().unwrap().stop)
        .collect();
    assert_eq!(stops, ["1", "1 (walk 2)"]);
}

#[test]
fn a_column_of_the_growers_own_goes_out_as_it_came() {
    let mut service = empty(1);
    let came = "planting,walked_on,stop,reading,share,latitude,longitude,scout,note,flags,seed_lot\n\
                East,2026-08-01,b2,boot,,38.5,-99.25,Ana,\"tall, green\",moldy smutty,L-7\n";
    service.ask(ask::ImportHeadFile {
        text: came.to_owned(),
    });
    let went = text(file(&mut service, &FileOut::Heads));
    assert_eq!(went, came);
}

#[test]
fn weather_goes_out_in_the_unit_it_came_in_or_the_one_asked_for() {
    let mut service = small();
    let as_it_came = text(file(&mut service, &FileOut::Weather { unit: None }));
    assert_eq!(
        as_it_came,
        "station,date,high_c,low_c,rain_in,humidity\n\
         Pump house,2026-08-01,31.5,18.25,0.1,60\n\
         Pump house,2026-08-02,30,17,,\n"
    );
    let unit = Some(TempUnit::Fahrenheit);
    let in_f = text(file(&mut service, &FileOut::Weather { unit }));
    // 31.5 C is 88.7 F, 18.25 C is 64.85 F, 30 C is 86 F, 17 C is 62.6 F.
    assert!(in_f.contains("high_f,low_f"));
    assert!(in_f.contains("2026-08-01,88.7,64.85,"), "{in_f}");
    assert!(in_f.contains("2026-08-02,86,62.6,,"), "{in_f}");
    let read = weather_file::read(in_f.as_bytes(), &mut Watch::none()).unwrap();
    assert!(read.problems.is_empty());
}

#[test]
fn stops_are_geojson_with_longitude_first() {
    let made = file(&mut small(), &FileOut::Stops);
    let read: serde_json::Value = serde_json::from_reader(Cursor::new(made)).unwrap();
    assert_eq!(read["type"], "FeatureCollection");
    let features = read["features"].as_array().unwrap();
    // The walk's first stop has no place.
    assert_eq!(features.len(), 2);
    assert_eq!(
        features[0]["geometry"],
        serde_json::json!({"type": "Point", "coordinates": [-99.2, 38.1]})
    );
    assert_eq!(features[0]["properties"]["planting"], "North 40");
    assert_eq!(features[0]["properties"]["accuracy_m"], 4.5);
    assert_eq!(
        features[0]["properties"]["heads"].as_array().unwrap().len(),
        2
    );
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    /// A spreadsheet runs a cell that begins like this. It is made text on the way out,
    /// a number is not, and both come back as they were.
    #[test]
    fn cells_that_begin_a_formula_are_made_text_and_come_back(
        name in "[=+@'-][a-z0-9=']{1,6}",
        note in "[=+@'-]{0,2}[a-z0-9.]{1,4}",
        lot in "[=+@'-]{0,2}[a-z0-9.]{1,4}",
        scout in "[=+@'-][a-z]{1,4}",
    ) {
        // Into this notebook through a planting and a tap, so as no reader sees it.
        let mut service = empty(1);
        let planting = service.plant(named(&name)).id;
        let walk = service.ask(ask::StartWalk {
            id: None,
            planting,
            walked_on: None,
            scout: Some(scout.clone()),
        });
        let walk = walk.answer;
        let mut noted = head(Reading::Pliable, 40);
        noted.note = Some(note.clone());
        service.tap(walk.stops[0].id, noted);
        // As a table holds the name: an apostrophe before what begins a formula.
        let plain = name.trim_start_matches('\'');
        let formula = plain.starts_with(['=', '+', '-', '@']) && plain.parse::<f64>().is_err();
        let cell = if formula { format!("'{name}") } else { name.clone() };
        let came = format!(
            "planting,walked_on,stop,reading,share,seed_lot\n\"{cell}\",2026-08-01,1,boot,,\"'{lot}\"\n"
        );
        service.ask(ask::ImportHeadFile { text: came });

        let exported = text(file(&mut service, &FileOut::Heads));
        let mut table = csv::Reader::from_reader(exported.as_bytes());
        for row in table.records() {
            for cell in &row.unwrap() {
                let number = cell.parse::<f64>().is_ok_and(f64::is_finite);
                let begins = cell.starts_with(['=', '+', '-', '@', '\t', '\r']);
                prop_assert!(number || !begins, "{}", cell);
            }
        }
        let again = service.ask(ask::ReviewHeadFile { text: exported.clone() });
        let review = again.answer;
        prop_assert_eq!((review.heads, review.already_here), (2, 2));

        let plantings = text(file(&mut service, &FileOut::Plantings));
        let mut other = empty(2);
        other.ask(ask::ImportPlantingFile { text: plantings });
        other.ask(ask::ImportHeadFile { text: exported.clone() });
        prop_assert_eq!(text(file(&mut other, &FileOut::Heads)), exported);
        prop_assert_eq!(&other.rows()[0].name, &name);
    }
}
