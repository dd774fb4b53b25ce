//! `headwalk import`: every kind of file, once and again.

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

#[test]
fn weather_is_told_by_its_columns_and_stored_once() {
    let folder = Folder::new();
    let good = "date,high_f,low_f,rain_in\n2026-08-01,95,65,0\n2026-08-02,96,66,0.2\n";
    folder.file("weather.csv", good);
    let unnamed = folder.run(&["import", "weather.csv", "--notebook", "n.db"]);
    assert_eq!(unnamed.code, 1);
    assert!(unnamed.err.contains("names no station"), "{}", unnamed.err);

    let named = [
        "import",
        "weather.csv",
        "--notebook",
        "n.db",
        "--station",
        "gauge",
    ];
    let ran = folder.run(&named);
    assert_eq!(
        (ran.code, ran.out.as_str()),
        (
            0,
            "gauge: 2 days from 2026-08-01 to 2026-08-02; 0 were here already\n"
        )
    );
    assert!(folder.run(&named).out.ends_with("; 2 were here already\n"));
}

#[test]
fn a_bad_day_of_weather_is_told_or_fatal() {
    let folder = Folder::new();
    folder.file(
        "weather.csv",
        "station,date,high_f,low_f\ngauge,2026-08-01,95,65\ngauge,2026-02-30,95,65\n",
    );
    let strict = folder.run(&["import", "weather.csv", "--notebook", "n.db", "--strict"]);
    assert_eq!(strict.code, 1);
    assert!(strict.err.contains("line 3"), "{}", strict.err);
    let ran = folder.run(&["import", "weather.csv", "--notebook", "n.db"]);
    assert_eq!(ran.code, 0);
    assert!(ran.err.contains("line 3"), "{}", ran.err);
    // The strict call stored nothing: the one good day is new.
    assert!(ran.out.ends_with("; 0 were here already\n"), "{}", ran.out);
}
