//! The whole notebook out and in again.

use std::io::{Cursor, Read};

use notebook::log;
use proptest::prelude::*;
use ripening::Reading;
use service::{FileOut, Keep, Service, Units, ask};
use sha2::{Digest, Sha256};
use zip::ZipArchive;

use crate::books::{archive, bring_in, empty, file, log_of, season, small, state};
use crate::faces::{Face, head, named};

fn entry(archive: &[u8], name: &str) -> Vec<u8> {
    let mut zip = ZipArchive::new(Cursor::new(archive)).unwrap();
    let mut content = Vec::new();
    zip.by_name(name)
        .unwrap()
        .read_to_end(&mut content)
        .unwrap();
    content
}

#[test]
fn an_empty_notebook_becomes_the_same_byte_for_byte() {
    for mut old in [small(), season()] {
        let made = archive(&mut old);
        let mut new = empty(99);
        let done = bring_in(&mut new, &made, Keep::GoodRows).unwrap();
        assert_eq!(log_of(&new), log_of(&old));
        assert_eq!(state(&new), state(&old));
        assert_eq!(done.review.new, done.review.changes);
        assert_eq!(done.review.changes, log_of(&old).len() as u64);
        assert_ne!(new.notebook().device(), old.notebook().device());
        // And out again: the log and every table to the same bytes.
        let again = archive(&mut new);
        for name in [
            "log.jsonl",
            "plantings.csv",
            "heads.csv",
            "stops.geojson",
            "outlines.geojson",
        ] {
            assert_eq!(entry(&again, name), entry(&made, name), "{name}");
        }
        // The new device goes on in a series of its own.
        new.plant(named("Later"));
        let series = log::heads(new.notebook().db()).unwrap();
        assert_eq!(series.len(), 2);
    }
}

#[test]
fn the_same_notebook_at_the_same_time_gives_the_same_bytes() {
    assert_eq!(archive(&mut small()), archive(&mut small()));
}

#[test]
fn the_list_of_contents_names_every_entry_with_its_sha_256() {
    let made = archive(&mut small());
    let manifest: serde_json::Value =
        serde_json::from_slice(&entry(&made, "manifest.json")).unwrap();
    assert_eq!(manifest["format"], "headwalk archive");
    assert_eq!(manifest["version"], 1);
    let listed = manifest["entries"].as_array().unwrap();
    let zip = ZipArchive::new(Cursor::new(&made)).unwrap();
    assert_eq!(listed.len() + 1, zip.len());
    for each in listed {
        let content = entry(&made, each["name"].as_str().unwrap());
        assert_eq!(each["size"], content.len());
        let digest: String = Sha256::digest(&content)
            .iter()
            .map(|byte| format!("{byte:02x}"))
            .collect();
        assert_eq!(each["sha256"], digest);
    }
    let readme = String::from_utf8(entry(&made, "README.txt")).unwrap();
    for each in listed {
        assert!(readme.contains(each["name"].as_str().unwrap()) || each["name"] == "README.txt");
    }
}

#[test]
fn a_review_stores_nothing_and_says_what_the_import_then_does() {
    let made = archive(&mut small());
    let mut new = empty(5);
    let before = state(&new);
    let reviewed = bring_in(&mut new, &made, Keep::Nothing).unwrap();
    assert_eq!(state(&new), before);
    assert!(reviewed.changed.is_empty());
    assert_eq!(reviewed.review.new_plantings, 1);
    assert_eq!(reviewed.review.new_walks, 1);
    assert_eq!(reviewed.review.new_heads, 4);
    let done = bring_in(&mut new, &made, Keep::GoodRows).unwrap();
    assert_eq!(done.review, reviewed.review);
    assert!(!done.changed.is_empty());
    // Once more, there is nothing new.
    let again = bring_in(&mut new, &made, Keep::GoodRows).unwrap();
    assert_eq!((again.review.new, again.review.new_heads), (0, 0));
}

#[test]
fn the_counts_tell_what_was_stored_though_removals_come_with_it() {
    let mut old = small();
    let mut new = empty(5);
    bring_in(&mut new, &archive(&mut old), Keep::GoodRows).unwrap();
    let walk = old.rows()[0].last_walk.as_ref().unwrap().id;
    let page = old.page(walk);
    let heads: Vec<_> = page.stops.iter().flat_map(|stop| &stop.heads).collect();
    for head in &heads[..3] {
        old.ask(ask::RemoveHead { head: head.id });
    }
    old.ask(ask::ReopenWalk { walk });
    for share in [10, 20] {
        old.tap(page.stops[0].id, head(Reading::Dented, share));
    }
    let done = bring_in(&mut new, &archive(&mut old), Keep::GoodRows).unwrap();
    assert_eq!((done.review.new, done.review.new_heads), (6, 2));
}

#[test]
fn settings_come_along_into_an_empty_notebook_and_into_no_other() {
    let settings = |service: &mut Service| service.ask(ask::Settings {}).answer;
    let mut old = small();
    let mut chosen = settings(&mut old);
    chosen.scout = "Ana".to_owned();
    chosen.units = Units::Metric;
    old.ask(ask::SaveSettings {
        settings: chosen.clone(),
    });
    let made = archive(&mut old);

    let mut new = empty(2);
    assert!(
        bring_in(&mut new, &made, Keep::Nothing)
            .unwrap()
            .review
            .settings
    );
    assert_ne!(settings(&mut new), chosen);
    bring_in(&mut new, &made, Keep::GoodRows).unwrap();
    assert_eq!(settings(&mut new), chosen);

    let mut other = empty(3);
    other.plant(named("South"));
    let before = settings(&mut other);
    let done = bring_in(&mut other, &made, Keep::GoodRows).unwrap();
    assert!(!done.review.settings);
    assert_eq!(settings(&mut other), before);
}

#[test]
fn two_notebooks_merge_to_the_same_whichever_is_brought_into_which() {
    let (mut one, mut two) = (small(), season());
    let (of_one, of_two) = (archive(&mut one), archive(&mut two));
    bring_in(&mut one, &of_two, Keep::GoodRows).unwrap();
    bring_in(&mut two, &of_one, Keep::GoodRows).unwrap();
    assert_eq!(log_of(&one), log_of(&two));
    assert_eq!(state(&one), state(&two));
}

#[test]
fn a_copied_device_that_went_on_apart_keeps_both_parts() {
    let mut here = small();
    let mut copy = small();
    assert_eq!(here.notebook().device(), copy.notebook().device());
    let common = log_of(&here).len();
    here.plant(named("Only here"));
    let mut other = named("Only in the copy");
    // Both devices draw the same random numbers here.
    other.id = Some(uuid::Uuid::from_u128(7));
    let there = copy.plant(other).id;
    let walk = copy.start(there);
    copy.tap(walk.stops[0].id, head(Reading::Bloom, 50));
    let made = archive(&mut copy);

    let device = here.notebook().device();
    let done = bring_in(&mut here, &made, Keep::GoodRows).unwrap();
    assert_eq!(done.review.parted, 1);
    assert_eq!(done.review.new, 3);
    let names: Vec<String> = here.rows().into_iter().map(|row| row.name).collect();
    for name in ["North 40", "Only here", "Only in the copy"] {
        assert!(names.contains(&name.to_owned()), "{names:?}");
    }
    // Nothing of either is lost, and this device writes under a new id.
    assert_eq!(log_of(&here).len(), common + 1 + 3);
    assert_ne!(here.notebook().device(), device);
    // Where the part goes on is where an exchange would put it.
    let first = log::change_at(copy.notebook().db(), device, common as u64 + 1)
        .unwrap()
        .unwrap();
    let tag = wire::Tag::of(&exchange::own_book::pack(&first).unwrap());
    let series = wire::branch_id(device, common as u64 + 1, tag);
    let ends = log::heads(here.notebook().db()).unwrap();
    assert_eq!(ends[&series].seq, 3);
    // A second time there is nothing new.
    let again = bring_in(&mut here, &made, Keep::GoodRows).unwrap();
    assert_eq!((again.review.new, again.review.parted), (0, 1));
}

#[test]
fn an_import_can_be_stopped_and_leaves_nothing() {
    let made = archive(&mut season());
    let mut new = empty(4);
    let before = state(&new);
    let stopped = new.archive_in(Cursor::new(&made), Keep::GoodRows, &mut |read| {
        read < 10_000
    });
    assert_eq!(stopped.unwrap_err().message, "stopped; nothing was stored");
    assert_eq!(state(&new), before);
}

#[test]
fn an_empty_notebook_has_an_archive_too() {
    let made = archive(&mut empty(1));
    let mut new = empty(2);
    let done = bring_in(&mut new, &made, Keep::GoodRows).unwrap();
    assert_eq!((done.review.changes, done.review.new), (0, 0));
    assert!(!file(&mut new, &FileOut::Heads).is_empty());
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    /// Bodies of any text, of facts that no version knows, come back as they were.
    #[test]
    fn any_body_comes_back_byte_for_byte(bodies in prop::collection::vec(any::<String>(), 1..12)) {
        let mut old = empty(1);
        let device = uuid::Uuid::from_u128(77);
        let changes: Vec<log::Change> = bodies
            .into_iter()
            .zip(1_u16..)
            .map(|(body, seq)| log::Change {
                device,
                seq: seq.into(),
                hlc: log::Hlc::new(i64::from(seq) << 20).unwrap(),
                recorded_ms: -i64::from(seq),
                offset_min: -330,
                kind: "from_a_later_version".to_owned(),
                body,
                raw: None,
            })
            .collect();
        old.with_notebook(|notebook| notebook.ingest(&changes)).unwrap();
        let made = archive(&mut old);
        let mut new = empty(2);
        bring_in(&mut new, &made, Keep::GoodRows).unwrap();
        prop_assert_eq!(log_of(&new), changes);
    }
}
