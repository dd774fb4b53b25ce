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

#[test]
fn observations_of_ripe_grain_are_stored_once_and_bad_rows_named() {
    let folder = Folder::new();
    let demo = |name: &str| demo_data().join(name).to_str().unwrap().to_owned();
    for name in ["plantings.csv", "observations.csv"] {
        let ran = folder.run(&["import", &demo(name), "--notebook", "n.db"]);
        assert_eq!((ran.code, ran.err.as_str()), (0, ""), "{name}");
        assert!(ran.out.ends_with('\n'));
    }
    let again = folder.run(&["import", &demo("observations.csv"), "--notebook", "n.db"]);
    let rows = std::fs::read_to_string(demo("observations.csv"))
        .unwrap()
        .lines()
        .count()
        - 1;
    assert_eq!(
        again.out,
        format!("{rows} observations of ripe grain; {rows} were here already\n")
    );
    folder.file(
        "bad.csv",
        "planting,observed_on,what,percents,seeds,lodged,weathering\n\
         North 1,2026-09-10,moisture,20.5 21,,,\n\
         North 1,2026-09-10,moisture,wet,,,\n\
         North 1,2026-09-10,moisture,90,,,\n\
         North 1,2026-09-31,moisture,20,,,\n\
         North 1,2026-09-10,smell,,,,\n\
         Nowhere,2026-09-10,cut,,,,\n\
         North 1,2026-09-10,standing,,,5,10\n\
         North 1,2026-09-10,ground,,4 6 x,,\n",
    );
    let strict = folder.run(&["import", "bad.csv", "--notebook", "n.db", "--strict"]);
    assert_eq!(strict.code, 1);
    let bad = folder.run(&["import", "bad.csv", "--notebook", "n.db"]);
    assert_eq!(
        (bad.code, bad.out.as_str()),
        (0, "1 observations of ripe grain; 0 were here already\n")
    );
    for says in [
        "line 3: percents 'wet'",
        "line 4: moisture 90",
        "line 5: observed_on",
        "line 6: what 'smell'",
        "line 7: planting 'Nowhere'",
        "line 8: weathering",
        "line 9: seeds",
    ] {
        assert!(bad.err.contains(says), "{says}: {}", bad.err);
    }
}
