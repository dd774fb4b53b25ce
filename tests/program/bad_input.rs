//! Every class of bad input: what is said, the exit code, and nothing stored.

use crate::run::Folder;

const HEADER: &str = "planting,walked_on,stop,reading,share\n";
const GOOD: &str = "P,2026-08-01,1,pliable,40\n";

#[test]
fn a_bad_row_is_told_and_the_good_ones_are_used_unless_strict() {
    for (row, reason) in [
        ("P,2026-08-01,1,ripe,40", "unknown reading 'ripe'"),
        ("P,2026-08-01,1,pliable,0", "share 0 is out of range"),
        ("P,2026-08-01,1,pliable,101", "share 101 is out of range"),
        ("P,2026-08-01,1,pliable,", "pliable needs a share"),
        (
            "P,2026-08-01,1,pliable,most",
            "share 'most' is no whole number",
        ),
        (
            "P,2026-02-29,1,pliable,40",
            "walked_on '2026-02-29' is no date",
        ),
    ] {
        let folder = Folder::new();
        folder.file("heads.csv", format!("{HEADER}{GOOD}{row}\n"));
        let ran = folder.run(&["roll-up", "heads.csv"]);
        assert_eq!(ran.code, 0, "{row}");
        assert_eq!(ran.lines().len(), 1, "{row}");
        assert!(
            ran.err.starts_with(&format!("line 3: {reason}")),
            "{row}: {}",
            ran.err
        );
        assert!(
            ran.err.contains("1 bad rows left out, 1 good rows used"),
            "{}",
            ran.err
        );

        let strict = folder.run(&["roll-up", "heads.csv", "--strict"]);
        assert_eq!(strict.code, 1, "{row}");
        assert_eq!(strict.out, "", "{row}");
        assert_eq!(strict.err.lines().count(), 1, "{}", strict.err);
        assert!(strict.err.contains("line 3"), "{}", strict.err);

        let import = folder.run(&["import", "heads.csv", "--notebook", "n.db", "--strict"]);
        assert_eq!(import.code, 1, "{row}");
        let after = folder.run(&["import", "heads.csv", "--notebook", "n.db"]);
        assert_eq!(after.code, 0, "{row}");
        assert!(
            after
                .out
                .starts_with("1 heads at 1 stops of 1 walks; 1 new plantings; 0 heads"),
            "{}",
            after.out
        );
    }
}

#[test]
fn an_unusable_file_is_one_line_and_exit_1() {
    let no_share = b"planting,walked_on,stop,reading\nP,2026-08-01,1,pliable\n".to_vec();
    let mut latin = format!("{HEADER}{GOOD}").into_bytes();
    latin.extend(b"Pe\xf1a,2026-08-01,1,pliable,40\n");
    let all_bad = format!("{HEADER}P,2026-08-01,1,pliable,0\n").into_bytes();
    for (content, says) in [
        (no_share, "line 1: column 'share' is missing"),
        (Vec::new(), "the file is empty"),
        (latin, "line 3: the text is not UTF-8"),
        (
            all_bad,
            "no good row in the file; the first bad one is line 2",
        ),
        (HEADER.as_bytes().to_vec(), "no good row in the file"),
        (vec![0; 5_000], "column 'planting' is missing"),
    ] {
        let folder = Folder::new();
        folder.file("heads.csv", content);
        for command in [
            vec!["roll-up", "heads.csv"],
            vec!["import", "heads.csv", "--notebook", "n.db"],
        ] {
            let ran = folder.run(&command);
            assert_eq!(ran.code, 1, "{says}");
            assert_eq!(ran.out, "", "{says}");
            let line = ran.err.lines().last().unwrap();
            assert!(
                line.starts_with("headwalk: heads.csv: ") && line.contains(says),
                "{says}: {}",
                ran.err
            );
        }
    }
}

#[test]
fn a_wrong_call_is_one_line_and_exit_2() {
    let folder = Folder::new();
    folder.file("heads.csv", format!("{HEADER}{GOOD}"));
    for call in [
        vec![],
        vec!["rollup"],
        vec!["roll-up"],
        vec!["roll-up", "heads.csv", "--level", "90"],
        vec!["roll-up", "heads.csv", "--colour"],
        vec!["desk", "--today", "yesterday"],
        vec!["desk", "--port", "70000"],
        vec!["desk", "--screens", "nowhere", "--no-open"],
    ] {
        let ran = folder.run(&call);
        assert_eq!(ran.code, 2, "{call:?}: {}", ran.err);
        assert_eq!(ran.out, "", "{call:?}");
        assert_eq!(ran.err.lines().count(), 1, "{call:?}: {}", ran.err);
    }
    for call in [vec!["--help"], vec!["--version"], vec!["roll-up", "--help"]] {
        let ran = folder.run(&call);
        assert_eq!((ran.code, ran.err.as_str()), (0, ""), "{call:?}");
    }
}

#[test]
fn missing_and_foreign_files_are_told_with_their_path() {
    let folder = Folder::new();
    folder.file("heads.csv", format!("{HEADER}{GOOD}"));
    for (call, says) in [
        (
            vec!["roll-up", "gone.csv"],
            "gone.csv: there is no such file",
        ),
        (
            vec!["import", "heads.csv", "--notebook", "heads.csv"],
            "heads.csv: the file is no Headwalk notebook",
        ),
        (
            vec!["import", "heads.csv", "--notebook", "gone/n.db"],
            "gone/n.db: the notebook cannot be opened",
        ),
    ] {
        let ran = folder.run(&call);
        assert_eq!(ran.code, 1, "{call:?}");
        assert!(ran.err.contains(says), "{}", ran.err);
    }
    let kept = std::fs::read_to_string(folder.path().join("heads.csv")).unwrap();
    assert_eq!(kept, format!("{HEADER}{GOOD}"));
}

/// A million rows are read as they come: the one bad row at the end is named, and
/// a strict import that meets a bad row after 50,000 good ones stores none of them.
#[test]
fn a_million_rows_are_read_and_a_late_bad_row_is_named() {
    let mut text = String::from(HEADER);
    for row in 0..1_000_000 {
        text.push_str(&format!(
            "P{},2026-08-01,{},pliable,40\n",
            row / 250,
            row / 25 % 10
        ));
    }
    text.push_str("P,2026-08-01,1,pliable,101\n");
    let folder = Folder::new();
    folder.file("heads.csv", &text);
    let ran = folder.run(&["roll-up", "heads.csv", "--strict"]);
    assert_eq!((ran.code, ran.out.as_str()), (1, ""));
    assert_eq!(ran.err.lines().count(), 1, "{}", ran.err);
    assert!(ran.err.contains("line 1000002"), "{}", ran.err);

    let cut: String = text.split_inclusive('\n').take(50_001).collect();
    folder.file("late.csv", cut + "P,2026-08-01,1,pliable,101\n");
    let import = folder.run(&["import", "late.csv", "--notebook", "n.db", "--strict"]);
    assert_eq!(import.code, 1);
    assert!(import.err.contains("line 50002"), "{}", import.err);
    folder.file("one.csv", format!("{HEADER}{GOOD}"));
    let after = folder.run(&["import", "one.csv", "--notebook", "n.db"]);
    assert!(
        after
            .out
            .starts_with("1 heads at 1 stops of 1 walks; 1 new plantings; 0 heads"),
        "{}",
        after.out
    );
    let again = folder.run(&["import", "one.csv", "--notebook", "n.db"]);
    assert!(
        again.out.ends_with("1 heads were here already\n"),
        "{}",
        again.out
    );
}
