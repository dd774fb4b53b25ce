//! Outline files: every format gives the same outline, and nothing that may come
//! as a file brings the reader down, makes it large, or leaves a trace.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod zipped;

use std::io::Cursor;

use headwalk_tests::memory::growth_of;
use headwalk_tests::repository;
use proptest::prelude::*;
use proptest::sample::Index;
use readers::outline_file::{
    FileOutline, LONGEST, MOST_CORNERS, MOST_OUTLINES, OutlineFileError, Part, read,
};
use shapefile::dbase::{self, FieldValue, TableWriterBuilder};
use shapefile::{Point, Polygon, PolygonRing, ShapeWriter};

use zipped::zipped;

/// More than this no file may make the reader grow.
const MOST_GROWTH: u64 = 256 << 20;

/// About 400 m by 400 m in the open ocean, with a pond of 40 m by 40 m.
const EDGE: [[f64; 2]; 5] = [
    [-40.4, 38.2],
    [-40.395_437, 38.2],
    [-40.395_437, 38.203_597],
    [-40.4, 38.203_597],
    [-40.4, 38.2],
];
const POND: [[f64; 2]; 5] = [
    [-40.398, 38.201],
    [-40.398, 38.201_36],
    [-40.397_544, 38.201_36],
    [-40.397_544, 38.201],
    [-40.398, 38.201],
];

fn geojson() -> String {
    format!(
        r#"{{"type":"FeatureCollection","features":[
            {{"type":"Feature","properties":{{"name":"North 40","acres":39.1}},
              "geometry":{{"type":"Polygon","coordinates":{:?}}}}},
            {{"type":"Feature","properties":{{"name":"gate"}},
              "geometry":{{"type":"Point","coordinates":[-40.4,38.2]}}}}]}}"#,
        [EDGE, POND]
    )
}

fn kml() -> String {
    let ring = |corners: [[f64; 2]; 5]| {
        let text: Vec<String> = corners
            .iter()
            .map(|[east, north]| format!("{east},{north},0"))
            .collect();
        format!(
            "<LinearRing><coordinates>\n {} </coordinates></LinearRing>",
            text.join(" ")
        )
    };
    format!(
        r#"<?xml version="1.0" encoding="UTF-8"?>
<kml xmlns="http://www.opengis.net/kml/2.2"><Document><name>farm</name>
 <Folder><name>fields</name>
  <Placemark><name>North 40</name>
   <ExtendedData><Data name="acres"><value>39.1</value></Data></ExtendedData>
   <Polygon><outerBoundaryIs>{}</outerBoundaryIs><innerBoundaryIs>{}</innerBoundaryIs></Polygon>
  </Placemark>
  <Placemark><name>gate</name><Point><coordinates>-40.4,38.2</coordinates></Point></Placemark>
 </Folder></Document></kml>"#,
        ring(EDGE),
        ring(POND)
    )
}

const WGS84: &str = r#"GEOGCS["GCS_WGS_1984",DATUM["D_WGS_1984",SPHEROID["WGS_1984",6378137.0,298.257223563]],PRIMEM["Greenwich",0.0],UNIT["Degree",0.0174532925199433]]"#;

fn points(corners: &[[f64; 2]]) -> Vec<Point> {
    corners
        .iter()
        .map(|[east, north]| Point::new(*east, *north))
        .collect()
}

fn shp() -> Vec<u8> {
    shp_of(vec![
        PolygonRing::Outer(points(&EDGE)),
        PolygonRing::Inner(points(&POND)),
    ])
}

fn shp_of(rings: Vec<PolygonRing<Point>>) -> Vec<u8> {
    let mut file = Cursor::new(Vec::new());
    {
        let mut writer = ShapeWriter::new(&mut file);
        writer.write_shape(&Polygon::with_rings(rings)).unwrap();
    }
    file.into_inner()
}

fn dbf() -> Vec<u8> {
    let mut file = Cursor::new(Vec::new());
    {
        let mut writer = TableWriterBuilder::new()
            .add_character_field("NAME".try_into().unwrap(), 40)
            .build_with_dest(&mut file);
        let mut record = dbase::Record::default();
        record.insert(
            "NAME".to_owned(),
            FieldValue::Character(Some("North 40".to_owned())),
        );
        writer.write_record(&record).unwrap();
        writer.finalize().unwrap();
    }
    file.into_inner()
}

fn one(name: &str, bytes: &[u8]) -> Result<Vec<FileOutline>, OutlineFileError> {
    read(&[Part { name, bytes }])
}

fn refused(name: &str, bytes: &[u8]) -> String {
    let error = one(name, bytes).expect_err(name).to_string();
    assert!(!error.is_empty() && !error.contains('\n'), "{error}");
    error
}

#[test]
fn every_format_gives_the_same_outline_and_its_name() {
    let (shp, dbf) = (shp(), dbf());
    let loose = [
        Part {
            name: "Farm.SHP",
            bytes: &shp,
        },
        Part {
            name: "farm.dbf",
            bytes: &dbf,
        },
        Part {
            name: "farm.prj",
            bytes: WGS84.as_bytes(),
        },
    ];
    let archive = zipped(&[
        ("__MACOSX/._farm.shp", b"no shapefile"),
        ("fields/farm.shp", &shp),
        ("fields/farm.dbf", &dbf),
        ("fields/farm.prj", WGS84.as_bytes()),
    ]);
    let kmz = zipped(&[("doc.kml", kml().as_bytes())]);
    let all = [
        ("GeoJSON", one("fields.geojson", geojson().as_bytes())),
        (
            "GeoJSON with a mark",
            one("f.json", format!("\u{feff}{}", geojson()).as_bytes()),
        ),
        ("KML", one("fields.kml", kml().as_bytes())),
        ("KMZ", one("fields.kmz", &kmz)),
        ("shapefile", read(&loose)),
        ("zipped shapefile", one("fields.zip", &archive)),
    ];
    let mut areas = Vec::new();
    for (format, outlines) in all {
        let outlines = outlines.unwrap_or_else(|error| panic!("{format}: {error}"));
        let field = &outlines[0];
        assert!(
            field.labels.iter().any(|(column, value)| {
                column.eq_ignore_ascii_case("name") && value == "North 40"
            }),
            "{format}: {:?}",
            field.labels
        );
        let shape = field
            .shape
            .as_ref()
            .unwrap_or_else(|fault| panic!("{format}: {fault}"));
        assert_eq!(
            (shape.rings.len(), shape.rings[0].len()),
            (1, 2),
            "{format}"
        );
        assert_eq!(shape.corners, 10, "{format}");
        areas.push(shape.square_meters);
        // The gate is named as no outline, not passed over.
        if let Some(gate) = outlines.get(1) {
            let fault = gate.shape.as_ref().unwrap_err().to_string();
            assert!(fault.contains("a point"), "{fault}");
        }
    }
    // 398.8 m by 400 m less 39.8 m by 40 m, on a sphere of the mean radius.
    for area in &areas {
        assert!(
            (area / (398.8 * 400.0 - 39.8 * 40.0) - 1.0).abs() < 0.002,
            "{areas:?}"
        );
    }
}

#[test]
fn files_that_cannot_be_used_say_so_in_one_line() {
    for (name, bytes, words) in [
        ("a.geojson", &b"{"[..], "not GeoJSON"),
        ("a.geojson", br#"{"type":"Nonsense"}"#, "not GeoJSON"),
        (
            "a.geojson",
            br#"{"type":"FeatureCollection","features":[]}"#,
            "no outlines",
        ),
        ("a.kml", b"<kml><Placemark><Polygon></kml>", "not KML"),
        (
            "a.kml",
            b"<html><body>not a map</body></html>",
            "no outlines",
        ),
        ("heads.csv", b"planting,walked_on\n", "no outline file"),
        ("photo.jpg", b"\xff\xd8\xff\xe0", "no outline file"),
        ("a.kml", b"\xff\xfe<\0k\0", "UTF-8"),
        ("a.zip", b"PK\x03\x04 and no more", "zipped"),
        ("a.shp", b"short", "damaged"),
        ("a.dbf", &dbf(), "no outline file"),
        ("empty.geojson", b"", "no outline file"),
    ] {
        let error = refused(name, bytes);
        assert!(error.contains(words), "{name}: {error}");
    }
    assert!(refused("a.zip", &zipped(&[("notes.txt", b"hello")])).contains("neither"));
    let long = vec![b' '; LONGEST + 1];
    assert!(refused("a.geojson", &long).contains("8 MB"));
    let several = Part {
        name: "a.dbf",
        bytes: b"",
    };
    assert!(
        read(&[several, several])
            .unwrap_err()
            .to_string()
            .contains(".shp")
    );
}

/// Grids of maps, by PROJ; see `tests/reference/map_grids.py`.
#[derive(serde::Deserialize)]
struct MapGrids {
    grids: Vec<MapGrid>,
    apart: Vec<Apart>,
}

#[derive(serde::Deserialize)]
struct MapGrid {
    grid: String,
    prjs: Vec<String>,
    corners: Vec<[f64; 2]>,
    degrees: Vec<[f64; 2]>,
}

/// On a datum that lies apart from WGS 84.
#[derive(serde::Deserialize)]
struct Apart {
    grid: String,
    prjs: Vec<String>,
}

fn map_grids() -> MapGrids {
    let path = repository().join("tests/reference/map_grids.json");
    serde_json::from_slice(&std::fs::read(path).unwrap()).unwrap()
}

/// What becomes of a shapefile beside this .prj.
fn beside(prj: &str, shp: &[u8]) -> Result<Vec<FileOutline>, OutlineFileError> {
    one(
        "f.zip",
        &zipped(&[("f.shp", shp), ("f.prj", prj.as_bytes())]),
    )
}

/// Fails where the outline's corners are not there, to a centimeter as outlines are kept.
fn assert_there(outlines: &[FileOutline], degrees: &[[f64; 2]], what: &str) {
    let shape = outlines[0].shape.as_ref().unwrap();
    let edge = &shape.rings[0][0];
    for [east, north] in degrees {
        let is_there = edge
            .iter()
            .any(|corner| (corner[0] - east).abs() < 1.5e-7 && (corner[1] - north).abs() < 1.5e-7);
        assert!(is_there, "{what}: {east} {north} not in {edge:?}");
    }
}

#[test]
fn a_shapefile_on_a_grid_is_turned_into_degrees() {
    for MapGrid {
        grid,
        prjs,
        corners,
        degrees,
    } in map_grids().grids
    {
        let shp = shp_of(vec![PolygonRing::Outer(points(&corners))]);
        for prj in prjs {
            let outlines =
                beside(&prj, &shp).unwrap_or_else(|error| panic!("{grid}: {error}: {prj}"));
            assert_there(&outlines, &degrees, &grid);
        }
    }
}

#[test]
fn a_prj_is_read_however_its_program_wrote_it() {
    let grids = map_grids().grids;
    let on = |name: &str| grids.iter().find(|grid| grid.grid == name).unwrap();
    // The Mercator of maps on the web, by a program that does not say so in its method.
    let web = on("WGS 84 / Pseudo-Mercator");
    let shp = shp_of(vec![PolygonRing::Outer(points(&web.corners))]);
    let prj = r#"PROJCS["WGS_84_Pseudo_Mercator",GEOGCS["GCS_WGS_1984",DATUM["D_WGS_1984",SPHEROID["WGS_1984",6378137,298.257223563]],PRIMEM["Greenwich",0],UNIT["Degree",0.017453292519943295]],PROJECTION["Mercator"],PARAMETER["central_meridian",0],PARAMETER["false_easting",0],PARAMETER["false_northing",0],UNIT["Meter",1],PARAMETER["standard_parallel_1",0.0]]"#;
    assert_there(&beside(prj, &shp).unwrap(), &web.degrees, "web");

    let utm = on("NAD83 / UTM zone 14N");
    let shp = shp_of(vec![PolygonRing::Outer(points(&utm.corners))]);
    let heights = r#",VERTCS["NAVD_1988",VDATUM["North_American_Vertical_Datum_1988"],PARAMETER["Vertical_Shift",0.0],PARAMETER["Direction",1.0],UNIT["Meter",1.0]]"#;
    for prj in [
        format!("\u{feff}{}\n", utm.prjs[0]),
        utm.prjs[0].replace(',', " ,\n "),
        utm.prjs[0].replace('[', "(").replace(']', ")"),
        format!("{}{heights}", utm.prjs[0]),
    ] {
        assert_there(&beside(&prj, &shp).unwrap(), &utm.degrees, &prj);
    }
}

#[test]
fn a_shapefile_that_would_lie_beside_the_field_is_refused() {
    let refused_as_apart = |prj: &str| {
        let error = beside(prj, &shp()).unwrap_err().to_string();
        let name = prj.split('"').nth(1).unwrap();
        assert!(
            error.contains(name) && error.contains("datum") && error.contains("EPSG 4326"),
            "{prj}: {error}"
        );
    };
    for Apart { grid, prjs } in map_grids().apart {
        assert!(!prjs.is_empty(), "{grid}");
        for prj in prjs {
            refused_as_apart(&prj);
            refused_as_apart(&format!(r#"{prj},VERTCS["Heights"]"#));
        }
    }
    // Counted from Paris.
    let utm = &map_grids().grids[0].prjs[0];
    refused_as_apart(&utm.replace("\"Greenwich\",0.0", "\"Paris\",2.337229167"));
}

#[test]
fn a_grid_that_cannot_be_read_is_named_and_refused() {
    let deep = "PROJCS[\"Deep\",".repeat(300);
    // What stands in quotes closes no bracket.
    let hidden = format!("B[{}0]", "A[\"]\",".repeat(1_100));
    let long = format!("PROJCS[\"Long\",{}]", "1,".repeat(10_000));
    let grads = WGS84.replace(
        "UNIT[\"Degree\",0.0174532925199433]",
        "UNIT[\"Grad\",0.01570796326794897]",
    );
    let earth = WGS84.replace("GEOGCS", "GEOCCS");
    for (prj, name) in [
        (
            r#"PROJCS["WGS_1984_UTM_Zone_14N",GEOGCS["GCS_WGS_1984"]]"#,
            "WGS_1984_UTM_Zone_14N",
        ),
        (r#"LOCAL_CS["Farm"]"#, "Farm"),
        ("LOCAL_CS[\"Lower\nfarm\"]", "Lower farm"),
        ("no well-known text", "unknown"),
        (&deep, "Deep"),
        (&hidden, "]"),
        (&long, "Long"),
        (&grads, "GCS_WGS_1984"),
        (&earth, "GCS_WGS_1984"),
    ] {
        let error = beside(prj, &shp()).unwrap_err().to_string();
        assert!(
            error.contains(name) && error.contains("cannot be read") && error.contains("EPSG 4326"),
            "{error}"
        );
        assert!(!error.contains('\n'), "{error}");
    }
    // No degrees, and no word of what they are.
    let shp = shp_of(vec![PolygonRing::Outer(points(
        &map_grids().grids[0].corners,
    ))]);
    let outlines = one("f.shp", &shp).unwrap();
    let fault = outlines[0].shape.as_ref().unwrap_err().to_string();
    assert!(fault.contains("longitude"), "{fault}");
}

#[test]
fn outlines_beyond_all_measure_are_named_and_the_others_used() {
    let wheel = |corners: usize| -> Vec<[f64; 2]> {
        (0..=corners)
            .map(|at| {
                let turn = (at % corners) as f64 / corners as f64 * std::f64::consts::TAU;
                [-40.4 + 0.002 * turn.cos(), 38.2 + 0.002 * turn.sin()]
            })
            .collect()
    };
    let feature = |ring: &[[f64; 2]]| {
        format!(
            r#"{{"type":"Feature","properties":null,"geometry":{{"type":"Polygon","coordinates":[{ring:?}]}}}}"#
        )
    };
    let file = |features: &[String]| {
        format!(
            r#"{{"type":"FeatureCollection","features":[{}]}}"#,
            features.join(",")
        )
    };
    let bow_tie = [EDGE[0], EDGE[2], EDGE[1], EDGE[3], EDGE[0]];
    let text = file(&[
        feature(&wheel(MOST_CORNERS)),
        feature(&wheel(MOST_CORNERS - 1)),
        feature(&bow_tie),
        // Latitude first, as many spreadsheets have it.
        feature(&EDGE.map(|[east, north]| [north, east * 4.0])),
    ]);
    let outlines = one("a.geojson", text.as_bytes()).unwrap();
    let fault = |at: usize| outlines[at].shape.as_ref().unwrap_err().to_string();
    assert!(fault(0).contains("simplify"), "{}", fault(0));
    assert!(outlines[1].shape.is_ok());
    assert!(fault(2).contains("not a plain shape"), "{}", fault(2));
    assert!(fault(3).contains("longitude comes first"), "{}", fault(3));
    let many: Vec<String> = (0..=MOST_OUTLINES).map(|_| feature(&EDGE)).collect();
    assert!(refused("a.geojson", file(&many).as_bytes()).contains("split it"));
}

#[test]
fn files_made_to_do_harm_are_refused_within_memory() {
    let deep_json = format!(
        r#"{{"type":"Polygon","coordinates":{}"#,
        "[".repeat(1 << 20)
    );
    let deep_kml = format!("<kml>{}", "<Folder>".repeat(400_000));
    let deep_multi = format!("<kml><Placemark>{}", "<MultiGeometry>".repeat(300_000));
    let bomb = zipped(&[("doc.kml", &vec![b' '; 64 << 20])]);
    let names: Vec<String> = (0..600).map(|at| format!("{at}.kml")).collect();
    let crowd: Vec<(&str, &[u8])> = names.iter().map(|name| (name.as_str(), &b""[..])).collect();
    let crowd = zipped(&crowd);
    // Counts of points and parts that no record can hold.
    let mut boast = shp();
    boast[100 + 8 + 36..100 + 8 + 44]
        .copy_from_slice(&[0xff, 0xff, 0xff, 0x7f, 0xff, 0xff, 0xff, 0x7f]);
    // As many positions as eight megabytes hold.
    let pairs = "[0,0],".repeat(1_390_000);
    let dense = format!(r#"{{"type":"Polygon","coordinates":[[{pairs}[0,0]]]}}"#);
    assert!(dense.len() <= LONGEST);
    for (what, name, bytes) in [
        ("deep JSON", "a.geojson", deep_json.as_bytes()),
        ("deep KML", "a.kml", deep_kml.as_bytes()),
        ("deep geometry", "a.kml", deep_multi.as_bytes()),
        ("zip bomb", "a.zip", &bomb),
        ("crowded zip", "a.zip", &crowd),
        ("boasting shapefile", "a.shp", &boast),
        ("dense GeoJSON", "a.geojson", dense.as_bytes()),
    ] {
        let (outcome, growth) = growth_of(|| one(name, bytes));
        let harmless = match &outcome {
            Ok(outlines) => outlines.iter().all(|outline| outline.shape.is_err()),
            Err(error) => !error.to_string().contains('\n'),
        };
        assert!(harmless, "{what}");
        println!("{what}: grew by {growth:?} bytes");
        assert!(growth.unwrap_or(0) <= MOST_GROWTH, "{what}: {growth:?}");
    }
}

/// A few bytes changed, put in or cut off.
fn spoiled(whole: &[u8], changes: &[(Index, u8, u8)], cut: Option<Index>) -> Vec<u8> {
    let mut bytes = whole.to_vec();
    for (at, kind, byte) in changes {
        if bytes.is_empty() {
            break;
        }
        let at = at.index(bytes.len());
        match kind % 3 {
            0 => bytes[at] = *byte,
            1 => bytes.insert(at, *byte),
            _ => drop(bytes.remove(at)),
        }
    }
    if let Some(cut) = cut {
        bytes.truncate(cut.index(bytes.len() + 1));
    }
    bytes
}

fn clear(outcome: Result<Vec<FileOutline>, OutlineFileError>) -> Result<(), TestCaseError> {
    match outcome {
        Ok(outlines) => {
            for outline in outlines {
                match outline.shape {
                    Ok(shape) => prop_assert!(shape.square_meters.is_finite()),
                    Err(fault) => prop_assert!(!fault.to_string().is_empty()),
                }
            }
        }
        Err(error) => {
            let line = error.to_string();
            prop_assert!(
                !line.is_empty() && !line.contains('\n') && line.len() < 600,
                "{line}"
            );
        }
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 512, ..ProptestConfig::default() })]

    #[test]
    fn spoiled_files_of_every_format_end_in_a_clear_word(
        format in 0_usize..7,
        changes in prop::collection::vec(any::<(Index, u8, u8)>(), 0..12),
        cut in prop::option::of(any::<Index>()),
    ) {
        let whole = match format {
            0 => geojson().into_bytes(),
            1 => kml().into_bytes(),
            2 => shp(),
            3 => dbf(),
            4 => map_grids().grids[0].prjs[0].clone().into_bytes(),
            5 => zipped(&[("f.shp", &shp()), ("f.dbf", &dbf()), ("f.prj", WGS84.as_bytes())]),
            _ => zipped(&[("doc.kml", kml().as_bytes())]),
        };
        let bytes = spoiled(&whole, &changes, cut);
        let (outcome, growth) = growth_of(|| match format {
            // Beside shapes that are whole.
            3 => read(&[
                Part { name: "f.shp", bytes: &shp() },
                Part { name: "f.dbf", bytes: &bytes },
            ]),
            2 => one("f.shp", &bytes),
            4 => read(&[
                Part { name: "f.shp", bytes: &shp() },
                Part { name: "f.prj", bytes: &bytes },
            ]),
            _ => one("f", &bytes),
        });
        prop_assert!(growth.unwrap_or(0) <= MOST_GROWTH);
        clear(outcome)?;
    }

    #[test]
    fn any_bytes_under_any_name_end_in_a_clear_word(
        name in "[a-z]{0,4}\\.(geojson|kml|kmz|shp|zip|dbf|prj)",
        start in prop::sample::select(vec![&b""[..], b"{", b"<kml>", b"PK\x03\x04", b"\0\0\x27\x0a"]),
        rest in prop::collection::vec(any::<u8>(), 0..400),
    ) {
        let bytes = [start, &rest].concat();
        clear(one(&name, &bytes))?;
    }
}
