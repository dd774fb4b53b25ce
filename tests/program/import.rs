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

#[test]
fn a_file_of_semicolons_is_told_what_to_do() {
    let folder = Folder::new();
    for header in [
        "planting;walked_on;stop;reading;share",
        "planting;hybrid;planted_on;purpose",
        "planting;observed_on;what;percents",
        "date;high_f;low_f",
    ] {
        folder.file("s.csv", format!("{header}\nP;1;2;3;4\n"));
        let ran = folder.run(&["import", "s.csv", "--notebook", "n.db"]);
        assert_eq!((ran.code, ran.out.as_str()), (1, ""), "{header}");
        assert!(
            ran.err.contains("save the file as CSV with commas"),
            "{}",
            ran.err
        );
        assert_eq!(ran.err.lines().count(), 1, "{}", ran.err);
    }
}

#[test]
fn years_typed_wrong_are_refused_with_their_line() {
    let folder = Folder::new();
    let import = |text: &str| {
        folder.file("f.csv", text);
        folder.run(&["import", "f.csv", "--notebook", "n.db"])
    };
    let heads = import(
        "planting,walked_on,stop,reading,share\nP,2026-08-01,1,boot,\nP,9999-01-01,1,boot,\n",
    );
    assert!(
        heads
            .err
            .contains("line 3: walked_on 9999-01-01 is outside 1950 to 2100"),
        "{}",
        heads.err
    );
    let plantings = import(
        "planting,hybrid,planted_on,purpose,half_bloom_on\nP,,2026-05-01,grain,\n\
         Q,,0026-05-01,grain,\nR,,2026-05-01,grain,2260-07-01\n",
    );
    for says in [
        "line 3: planted_on 0026-05-01 is outside",
        "line 4: half_bloom_on 2260-07-01 is outside",
    ] {
        assert!(plantings.err.contains(says), "{}", plantings.err);
    }
    let seen = import("planting,observed_on,what\nP,2026-09-01,cut\nP,9999-09-01,cut\n");
    assert!(
        seen.err
            .contains("line 3: observed_on 9999-09-01 is outside"),
        "{}",
        seen.err
    );
    let weather =
        import("station,date,high_f,low_f\ngauge,1893-08-01,95,65\ngauge,2626-08-01,95,65\n");
    assert!(
        weather
            .err
            .contains("line 3: date 2626-08-01 is outside 1750 to 2100"),
        "{}",
        weather.err
    );
    assert!(weather.out.starts_with("gauge: 1 days"), "{}", weather.out);
}

#[test]
fn a_map_of_which_nothing_is_taken_fails() {
    let folder = Folder::new();
    folder.file(
        "map.geojson",
        r#"{"type":"Feature","properties":{"name":"Nobody's"},"geometry":{"type":"Polygon",
           "coordinates":[[[-99.2,38.5],[-99.19,38.5],[-99.19,38.51],[-99.2,38.5]]]}}"#,
    );
    let ran = folder.run(&["import", "map.geojson", "--notebook", "n.db"]);
    assert_eq!((ran.code, ran.out.as_str()), (1, ""));
    assert!(ran.err.contains("no outline was taken"), "{}", ran.err);
}

#[test]
fn a_review_of_observations_stores_none() {
    let folder = Folder::new();
    let demo = |name: &str| demo_data().join(name).to_str().unwrap().to_owned();
    folder.run(&["import", &demo("plantings.csv"), "--notebook", "n.db"]);
    let file = demo("observations.csv");
    for _ in 0..2 {
        let ran = folder.run(&["import", &file, "--notebook", "n.db", "--review"]);
        assert!(ran.out.ends_with("; 0 were here already\n"), "{}", ran.out);
    }
}

#[test]
fn places_that_seem_swapped_are_asked_about_and_the_answer_is_a_flag() {
    let folder = Folder::new();
    let header = "planting,walked_on,stop,reading,share,latitude,longitude\n";
    folder.file(
        "a.csv",
        format!("{header}P,2026-08-01,1,boot,,-33.1,-61.2\n"),
    );
    folder.file(
        "b.csv",
        format!("{header}P,2026-08-02,1,boot,,-61.21,-33.12\n"),
    );
    let import = |file: &str, flags: &[&str]| {
        folder.run(&[&["import", file, "--notebook", "n.db"], flags].concat())
    };
    assert_eq!(import("a.csv", &[]).code, 0);
    let asked = import("b.csv", &[]);
    assert_eq!((asked.code, asked.out.as_str()), (1, ""));
    assert!(
        asked.err.contains("latitude and longitude swapped"),
        "{}",
        asked.err
    );
    let reviewed = import("b.csv", &["--review"]);
    assert!(reviewed.err.contains("--swap-lat-lon"), "{}", reviewed.err);
    assert_eq!(import("b.csv", &["--swap-lat-lon"]).code, 0);
    let exported = folder.run(&["export", "heads", "--notebook", "n.db", "--to", "-"]);
    assert!(exported.out.contains(",-33.12,-61.21,"), "{}", exported.out);
}

#[test]
fn a_notebook_whose_name_begins_like_an_address_is_a_file() {
    let folder = Folder::new();
    folder.file(
        "heads.csv",
        "planting,walked_on,stop,reading,share\nP,2026-08-01,1,boot,\n",
    );
    let name = "file:n.db?mode=memory";
    let ran = folder.run(&["import", "heads.csv", "--notebook", name]);
    assert_eq!(ran.code, 0, "{}", ran.err);
    assert!(folder.path().join(name).is_file());
    let exported = folder.run(&[
        "export",
        "heads",
        "--notebook",
        name,
        "--to",
        "file:out.csv",
    ]);
    assert_eq!(exported.code, 0, "{}", exported.err);
    assert!(folder.path().join("file:out.csv").is_file());
    let kept = folder.run(&["backup", "file:kept.db?mode=memory", "--notebook", name]);
    assert_eq!(kept.code, 0, "{}", kept.err);
    assert!(folder.path().join("file:kept.db?mode=memory").is_file());
}
