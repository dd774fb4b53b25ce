//! Archives that are refused: one clear line, and the notebook as it was.

use std::io::{Cursor, Write};

use proptest::prelude::*;
use serde_json::{Value, json};
use service::{Keep, ProblemCode, Service};
use sha2::{Digest, Sha256};
use zip::write::SimpleFileOptions;
use zip::{CompressionMethod, ZipArchive, ZipWriter};

use crate::books::{archive, bring_in, empty, log_of, small, state};

/// An archive taken apart, to be put together otherwise.
pub struct Parts(pub Vec<(String, Vec<u8>)>);

impl Parts {
    pub fn of(archive: &[u8]) -> Parts {
        let mut zip = ZipArchive::new(Cursor::new(archive)).unwrap();
        let parts = (0..zip.len())
            .map(|at| {
                let mut entry = zip.by_index(at).unwrap();
                let mut content = Vec::new();
                std::io::Read::read_to_end(&mut entry, &mut content).unwrap();
                (entry.name().unwrap().into_owned(), content)
            })
            .collect();
        Parts(parts)
    }

    pub fn part(&mut self, name: &str) -> &mut Vec<u8> {
        &mut self
            .0
            .iter_mut()
            .find(|(known, _)| known == name)
            .unwrap()
            .1
    }

    pub fn manifest(&mut self, edit: impl FnOnce(&mut Value)) {
        let mut manifest: Value = serde_json::from_slice(self.part("manifest.json")).unwrap();
        edit(&mut manifest);
        *self.part("manifest.json") = serde_json::to_vec(&manifest).unwrap();
    }

    /// Makes the list of contents true of what the parts hold now.
    pub fn listed_truly(&mut self) {
        let entries: Vec<Value> = self
            .0
            .iter()
            .filter(|(name, _)| name != "manifest.json")
            .map(|(name, content)| {
                let digest: String = Sha256::digest(content)
                    .iter()
                    .map(|byte| format!("{byte:02x}"))
                    .collect();
                json!({"name": name, "size": content.len(), "sha256": digest})
            })
            .collect();
        self.manifest(|manifest| manifest["entries"] = Value::Array(entries));
    }

    pub fn zipped(&self) -> Vec<u8> {
        let mut zip = ZipWriter::new(Cursor::new(Vec::new()));
        for (name, content) in &self.0 {
            zip.start_file(name.as_str(), SimpleFileOptions::default())
                .unwrap();
            zip.write_all(content).unwrap();
        }
        zip.finish().unwrap().into_inner()
    }
}

/// The one line, after a check that nothing changed.
fn refused(into: &mut Service, archive: &[u8]) -> (ProblemCode, String) {
    let before = state(into);
    let device = into.notebook().device();
    let problem = bring_in(into, archive, Keep::GoodRows).expect_err("must be refused");
    assert_eq!(state(into), before);
    assert_eq!(into.notebook().device(), device);
    assert!(!problem.message.contains('\n'), "{}", problem.message);
    (problem.code, problem.message)
}

fn altered(alter: impl FnOnce(&mut Parts)) -> (ProblemCode, String) {
    let mut parts = Parts::of(&archive(&mut small()));
    alter(&mut parts);
    refused(&mut empty(9), &parts.zipped())
}

#[test]
fn taken_apart_and_put_together_it_is_still_read() {
    let mut parts = Parts::of(&archive(&mut small()));
    parts.listed_truly();
    let mut new = empty(9);
    bring_in(&mut new, &parts.zipped(), Keep::GoodRows).unwrap();
    assert_eq!(log_of(&new), log_of(&small()));
}

#[test]
fn what_is_no_archive_says_so() {
    let made = archive(&mut small());
    let mut new = empty(9);
    for bytes in [
        &b""[..],
        b"planting,walked_on\n",
        b"PK",
        &made[..made.len() / 2],
        &made[..made.len() - 1],
    ] {
        let (code, line) = refused(&mut new, bytes);
        assert_eq!(code, ProblemCode::BadInput);
        assert!(line.contains("archive"), "{line}");
    }
    let other = Parts(vec![("letter.txt".to_owned(), b"Dear".to_vec())]);
    let (_, line) = refused(&mut new, &other.zipped());
    assert!(line.contains("no notebook"), "{line}");
}

#[test]
fn a_wrong_hash_is_refused_whichever_entry_it_is() {
    for name in ["log.jsonl", "heads.csv", "settings.json", "README.txt"] {
        let (_, line) = altered(|parts| parts.part(name).push(b'\n'));
        assert!(line.contains(name) && line.contains("damaged"), "{line}");
        let (_, line) = altered(|parts| {
            let part = parts.part(name);
            let last = part.len() / 2;
            part[last] ^= 1;
        });
        assert!(line.contains(name) && line.contains("damaged"), "{line}");
    }
}

#[test]
fn a_later_version_is_refused_as_such() {
    let (code, line) = altered(|parts| parts.manifest(|it| it["version"] = json!(3)));
    assert_eq!(code, ProblemCode::FromNewerApp);
    assert!(line.contains("version 3"), "{line}");
    let (code, _) = altered(|parts| {
        parts.manifest(|it| *it = json!({"format": "headwalk archive", "version": 7}))
    });
    assert_eq!(code, ProblemCode::FromNewerApp);
    let (code, _) = altered(|parts| parts.manifest(|it| it["format"] = json!("a cookbook")));
    assert_eq!(code, ProblemCode::BadInput);
}

#[test]
fn names_that_lead_out_are_refused() {
    for name in [
        "../escape.txt",
        "/etc/passwd",
        "photos/../../x",
        "C:\\x",
        "a\\..\\b",
        "photos//x",
        ".hidden",
        "photos/",
        "a/b/c",
        "nul\u{0}byte",
        "line\nbreak",
        "\u{fc}n\u{ef}code",
    ] {
        let (code, line) = altered(|parts| {
            parts.0.push((name.to_owned(), b"x".to_vec()));
            parts.listed_truly();
        });
        assert_eq!(code, ProblemCode::BadInput);
        assert!(line.contains("do not trust it"), "{name}: {line}");
    }
}

#[test]
fn entries_that_are_not_listed_or_listed_and_not_there_are_refused() {
    let (_, line) = altered(|parts| parts.0.push(("photos/x.jpg".to_owned(), vec![1])));
    assert!(line.contains("photos/x.jpg"), "{line}");
    let (_, line) = altered(|parts| parts.0.retain(|(name, _)| name != "heads.csv"));
    assert!(line.contains("heads.csv"), "{line}");
    let (_, line) = altered(|parts| parts.0.retain(|(name, _)| name != "log.jsonl"));
    assert!(line.contains("log.jsonl"), "{line}");
}

#[test]
fn what_is_listed_and_not_known_is_passed_over() {
    let mut parts = Parts::of(&archive(&mut small()));
    parts.0.push(("soil.csv".to_owned(), b"depth\n".to_vec()));
    parts.listed_truly();
    bring_in(&mut empty(9), &parts.zipped(), Keep::GoodRows).unwrap();
}

#[test]
fn a_log_with_a_gap_a_foreign_line_or_another_end_is_refused() {
    let edit_lines = |edit: &dyn Fn(&mut Vec<String>)| {
        altered(|parts| {
            let log = String::from_utf8(parts.part("log.jsonl").clone()).unwrap();
            let mut lines: Vec<String> = log.lines().map(str::to_owned).collect();
            edit(&mut lines);
            *parts.part("log.jsonl") = (lines.join("\n") + "\n").into_bytes();
            parts.listed_truly();
        })
    };
    let (_, line) = edit_lines(&|lines| drop(lines.remove(2)));
    assert!(line.contains("line 3"), "{line}");
    let (_, line) = edit_lines(&|lines| lines[1] = "{}".to_owned());
    assert!(line.contains("line 2"), "{line}");
    // Content that was changed with its digests in the list made anew: the
    // series' own digest tells.
    let (_, line) = edit_lines(&|lines| lines[0] = lines[0].replace("North 40", "North 41"));
    assert!(line.contains("log.jsonl"), "{line}");
    let (_, line) = edit_lines(&|lines| drop(lines.pop()));
    assert!(line.contains("log.jsonl"), "{line}");
    let (_, line) = edit_lines(&|lines| lines[3] = "x".repeat(8 << 20));
    assert!(
        line.contains("too long") || line.contains("line 4"),
        "{line}"
    );
}

/// Hundreds of megabytes of zeros from a few hundred kilobytes.
fn bomb(name: &str, listed: u64, log: bool) -> Vec<u8> {
    let mut parts = Parts::of(&archive(&mut small()));
    if log {
        parts.0.retain(|(known, _)| known != name);
    }
    parts.manifest(|it| {
        let entries = it["entries"].as_array_mut().unwrap();
        entries.retain(|each| each["name"] != name);
        entries.push(json!({"name": name, "size": listed, "sha256": "00"}));
    });
    let mut zip = ZipWriter::new(Cursor::new(Vec::new()));
    let options = SimpleFileOptions::default()
        .compression_method(CompressionMethod::Deflated)
        .large_file(true);
    for (known, content) in &parts.0 {
        zip.start_file(known.as_str(), options).unwrap();
        zip.write_all(content).unwrap();
    }
    zip.start_file(name, options).unwrap();
    let zeros = vec![0_u8; 1 << 20];
    for _ in 0..200 {
        zip.write_all(&zeros).unwrap();
    }
    zip.finish().unwrap().into_inner()
}

#[test]
fn a_file_that_unpacks_without_end_is_refused_before_it_is_unpacked() {
    for (name, log) in [("soil.csv", false), ("log.jsonl", true)] {
        let archive = bomb(name, 200 << 20, log);
        assert!(archive.len() < 1 << 20);
        let (_, line) = refused(&mut empty(9), &archive);
        assert!(line.contains("unpacks to more than"), "{line}");
    }
}

#[test]
fn a_file_that_lies_about_its_size_is_read_no_further_than_it_said() {
    // The zip's own headers are made to lie as the list of contents does.
    let honest = bomb("soil.csv", 100, false);
    let size = u64::to_le_bytes(200 << 20);
    let small = u64::to_le_bytes(100);
    let mut lying = honest;
    let mut at = 0;
    while let Some(found) = lying[at..].windows(8).position(|bytes| bytes == size) {
        at += found;
        lying[at..at + 8].copy_from_slice(&small);
        at += 8;
    }
    // Where the sizes are held in four bytes.
    let size = u32::to_le_bytes(200 << 20);
    let mut at = 0;
    while let Some(found) = lying[at..].windows(4).position(|bytes| bytes == size) {
        at += found;
        lying[at..at + 4].copy_from_slice(&u32::to_le_bytes(100));
        at += 4;
    }
    let mut most = 0;
    let mut new = empty(9);
    let before = state(&new);
    let outcome = new.archive_in(Cursor::new(&lying), Keep::GoodRows, &mut |read| {
        most = most.max(read);
        true
    });
    assert!(outcome.is_err());
    assert_eq!(state(&new), before);
    assert!(most < 2 << 20, "{most} bytes were read");
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    /// Whatever happens to the bytes of an archive, either it is refused and the
    /// notebook stays as it was, or what it holds is exactly the notebook.
    #[test]
    fn a_spoiled_archive_never_gives_another_notebook(
        places in prop::collection::vec((any::<prop::sample::Index>(), any::<u8>()), 1..6),
        cut in prop::option::of(any::<prop::sample::Index>()),
        doubled in prop::option::of(any::<prop::sample::Index>()),
    ) {
        let mut old = small();
        let made = archive(&mut old);
        let mut bytes = made;
        for (place, byte) in places {
            let place = place.index(bytes.len());
            bytes[place] = byte;
        }
        if let Some(at) = doubled {
            let at = at.index(bytes.len());
            let piece = bytes[at..(at + 50).min(bytes.len())].to_vec();
            bytes.splice(at..at, piece);
        }
        if let Some(end) = cut {
            bytes.truncate(end.index(bytes.len()));
        }
        let mut new = empty(9);
        let before = state(&new);
        match bring_in(&mut new, &bytes, Keep::GoodRows) {
            Ok(_) => prop_assert_eq!(log_of(&new), log_of(&old)),
            Err(problem) => {
                prop_assert_eq!(&state(&new), &before);
                prop_assert!(!problem.message.contains('\n'));
            }
        }
    }

    /// A log of any lines, listed truly, is a notebook or is refused; never a panic.
    #[test]
    fn any_log_is_a_notebook_or_is_refused(
        lines in prop::collection::vec(
            prop_oneof![
                Just(r#"{"device":"00000000-0000-0000-0000-000000000001","seq":1,"hlc":1,"recorded_ms":1,"offset_min":0,"kind":"x","body":"{}"}"#.to_owned()),
                "\\PC{0,40}",
                r#"\{"device":"00000000-0000-0000-0000-00000000000[12]","seq":[0-3],"hlc":-?[0-9]{1,19},"recorded_ms":-?[0-9]{1,19},"offset_min":-?[0-9]{1,5},"kind":"[a-z]{0,3}","body":"[a-z]{0,9}"\}"#,
            ],
            0..6,
        )
    ) {
        let mut parts = Parts::of(&archive(&mut empty(1)));
        *parts.part("log.jsonl") = lines.iter().flat_map(|line| format!("{line}\n").into_bytes()).collect();
        parts.listed_truly();
        let mut new = empty(9);
        let before = state(&new);
        if bring_in(&mut new, &parts.zipped(), Keep::GoodRows).is_err() {
            prop_assert_eq!(&state(&new), &before);
        } else {
            // The list says that there is no series.
            prop_assert!(lines.is_empty());
        }
    }
}
