//! `headwalk import`: both kinds of file, once and again.

use headwalk_tests::demo_data;

use crate::run::Folder;

#[test]
fn the_demo_is_stored_once() {
    let folder = Folder::new();
    let import = |name: &str| {
        let file = demo_data().join(name);
        let ran = folder.run(&["import", file.to_str().unwrap(), "--notebook", "n.db"]);
        assert_eq!((ran.code, ran.err.as_str()), (0, ""));
        ran.out
    };
    assert_eq!(import("plantings.csv"), "12 plantings; 12 new, 0 updated\n");
    let first = import("heads.csv");
    assert!(
        first.ends_with("; 0 new plantings; 0 heads were here already\n"),
        "{first}"
    );
    assert_eq!(import("plantings.csv"), "12 plantings; 0 new, 0 updated\n");
    let heads = first.split(' ').next().unwrap();
    let again = import("heads.csv");
    assert!(
        again.ends_with(&format!("; {heads} heads were here already\n")),
        "{again}"
    );
}

#[test]
fn line_ends_and_a_byte_order_mark_make_no_difference() {
    let unix = "planting,walked_on,stop,reading,share\nP,2026-08-01,1,pliable,40\n";
    let folder = Folder::new();
    folder.file("unix.csv", unix);
    folder.file(
        "windows.csv",
        format!("\u{feff}{}", unix.replace('\n', "\r\n")),
    );
    assert_eq!(
        folder
            .run(&["import", "unix.csv", "--notebook", "n.db"])
            .code,
        0
    );
    let again = folder.run(&["import", "windows.csv", "--notebook", "n.db"]);
    assert!(
        again.out.ends_with("1 heads were here already\n"),
        "{}",
        again.out
    );
}
