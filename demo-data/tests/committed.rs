//! The committed files are what the generator makes, byte for byte, and hold
//! what the README says they hold.

#![allow(clippy::expect_used)] // A test: what is not there fails it.

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

fn rows(bytes: &[u8]) -> Vec<BTreeMap<String, String>> {
    csv::Reader::from_reader(bytes)
        .deserialize()
        .map(|row| row.expect("a row of text"))
        .collect()
}

#[test]
fn committed_files_are_the_generated_ones() {
    let files = invented_season::season().expect("the season is made");
    for (name, made) in files.all() {
        let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(name);
        let committed = std::fs::read(&path).expect("a committed file");
        assert!(
            committed == made,
            "{name} differs from what the generator makes; after a wanted change, \
             run `cargo run -p invented-season` and commit the files"
        );
    }
}

#[test]
fn season_has_twelve_plantings_of_six_hybrids_walked_five_to_seven_times() {
    let files = invented_season::season().expect("the season is made");
    let plantings = rows(&files.plantings);
    let hybrids: BTreeSet<_> = plantings.iter().map(|row| &row["hybrid"]).collect();
    assert_eq!((plantings.len(), hybrids.len()), (12, 6));

    let heads = rows(&files.heads);
    for planting in &plantings {
        let walks: BTreeSet<_> = heads
            .iter()
            .filter(|head| head["planting"] == planting["planting"])
            .map(|head| &head["walked_on"])
            .collect();
        assert!((5..=7).contains(&walks.len()), "{planting:?}: {walks:?}");
        assert!(walks.iter().all(|date| **date > planting["planted_on"]));
    }
}

#[test]
fn grain_that_is_ripe_has_readings_counts_and_scores() {
    let files = invented_season::season().expect("the season is made");
    let seen = rows(&files.observations);
    for what in ["moisture", "ground", "standing"] {
        let plantings: BTreeSet<_> = seen
            .iter()
            .filter(|row| row["what"] == what)
            .map(|row| &row["planting"])
            .collect();
        assert!((3..12).contains(&plantings.len()), "{what}: {plantings:?}");
    }
}

#[test]
fn nothing_is_dated_after_the_demo_day() {
    let files = invented_season::season().expect("the season is made");
    let today = invented_season::today().to_string();
    let weather = rows(&files.weather);
    assert!(weather.iter().all(|day| day["date"] <= today));
    assert!(
        rows(&files.heads)
            .iter()
            .all(|head| head["walked_on"] <= today)
    );
    assert!(
        rows(&files.observations)
            .iter()
            .all(|seen| seen["observed_on"] <= today)
    );
    // The demo is started with the last day of the weather file as its today.
    assert_eq!(weather.last().map(|day| &day["date"]), Some(&today));
}
