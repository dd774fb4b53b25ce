//! Every importer, each with good files and with files that are spoiled, into one
//! notebook on the disk: no panic, no growth beyond 256 MB, one clear line, and a
//! refused file leaves no row, no setting and no file behind.

use std::collections::BTreeMap;
use std::io::Cursor;
use std::path::Path;

use headwalk_tests::devices::{Seeded, SetClock};
use headwalk_tests::memory::growth_of;
use headwalk_tests::picture::{Camera, OWNER, jpeg, scene};
use notebook::Notebook;
use proptest::prelude::*;
use proptest::sample::Index;
use service::{
    Answer, ChosenFile, FileOut, FileRequest, Keep, NewPlanting, PhotoOf, PlantingDetails, Problem,
    ProblemCode, Service, ask, import_observations, prepare,
};
use shapefile::{Point, Polygon, PolygonRing, ShapeWriter};
use tempfile::TempDir;
use uuid::Uuid;

use crate::zipped::zipped;
use crate::{BY_STATION, HEADS, PLANTINGS, SUMMARIES, TABLE, fixed_width, is_one_clear_line};

/// More than this no file may make the app grow.
const MOST_GROWTH: u64 = 256 << 20;
const OBSERVATIONS: &str = "planting,observed_on,what,percents,meter,lodged,weathering,scout,note\n\
    North,2026-08-28,moisture,21.5 20 19.75,hand,,,Ana,by the road\n\
    North,2026-08-29,standing,,,5,2,Ana,\n";

/// What a file is brought in as.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Importer {
    Heads,
    Plantings,
    Weather,
    DailyByStation,
    DailyFixedWidth,
    DailySummaries,
    Observations,
    GeoJson,
    Kml,
    Kmz,
    Shapefile,
    Archive,
    Photo,
}

use Importer::*;

const ALL: [Importer; 13] = [
    Heads,
    Plantings,
    Weather,
    DailyByStation,
    DailyFixedWidth,
    DailySummaries,
    Observations,
    GeoJson,
    Kml,
    Kmz,
    Shapefile,
    Archive,
    Photo,
];

struct Book {
    folder: TempDir,
    service: Service,
    planting: Uuid,
}

fn book(seed: u64) -> Book {
    let folder = tempfile::tempdir().unwrap();
    let clock = SetClock::at("2026-09-01T12:00:00-05:00").unwrap();
    let path = folder.path().join("n.notebook");
    let notebook = Notebook::open(&path, Box::new(clock), Box::new(Seeded::new(seed))).unwrap();
    let mut service = Service::new(notebook).unwrap();
    let planting = Uuid::from_u64_pair(0x7000_0000_0000_7000, seed);
    service
        .call(ask::AddPlanting {
            new: NewPlanting {
                id: Some(planting),
                name: "North".to_owned(),
                details: PlantingDetails::default(),
            },
        })
        .unwrap();
    Book {
        folder,
        service,
        planting,
    }
}

fn camera_file() -> Vec<u8> {
    let camera = Camera {
        orientation: 6,
        place: Some((38.25, -40.5)),
    };
    jpeg(&scene(96, 64), camera).unwrap()
}

const RING: [[f64; 2]; 5] = [
    [-40.4, 38.2],
    [-40.4, 38.204],
    [-40.395, 38.204],
    [-40.395, 38.2],
    [-40.4, 38.2],
];

fn kml() -> String {
    let corners: Vec<String> = RING.iter().map(|[x, y]| format!("{x},{y}")).collect();
    format!(
        "<kml xmlns=\"http://www.opengis.net/kml/2.2\"><Placemark><name>North</name><Polygon>\
         <outerBoundaryIs><LinearRing><coordinates>{}</coordinates></LinearRing>\
         </outerBoundaryIs></Polygon></Placemark></kml>",
        corners.join(" ")
    )
}

fn shapes() -> Vec<u8> {
    let mut file = Cursor::new(Vec::new());
    {
        let ring = RING.iter().map(|[x, y]| Point::new(*x, *y)).collect();
        let mut writer = ShapeWriter::new(&mut file);
        let polygon = Polygon::with_rings(vec![PolygonRing::Outer(ring)]);
        writer.write_shape(&polygon).unwrap();
    }
    file.into_inner()
}

/// A good file.
fn good(importer: Importer) -> Vec<u8> {
    match importer {
        Heads => HEADS.into(),
        Plantings => PLANTINGS.into(),
        Weather => TABLE.into(),
        DailyByStation => BY_STATION.into(),
        DailyFixedWidth => {
            let highs = fixed_width();
            let lows = highs.replace("TMAX", "TMIN").replace("  3", "  1");
            (highs + &lows).into_bytes()
        }
        DailySummaries => SUMMARIES.into(),
        Observations => OBSERVATIONS.into(),
        GeoJson => format!(
            r#"{{"type":"Feature","properties":{{"name":"North"}},
            "geometry":{{"type":"Polygon","coordinates":[{RING:?}]}}}}"#
        )
        .into_bytes(),
        Kml => kml().into_bytes(),
        Kmz => zipped(&[("doc.kml", kml().as_bytes())]),
        Shapefile => shapes(),
        Archive => {
            let mut old = book(2);
            bring_in(&mut old, Heads, HEADS.as_bytes()).unwrap();
            bring_in(&mut old, Photo, &camera_file()).unwrap();
            let mut made = Cursor::new(Vec::new());
            old.service.file_out(&FileOut::Notebook, &mut made).unwrap();
            made.into_inner()
        }
        Photo => camera_file(),
    }
}

/// Brings a file in, as the faces do; says whether anything of it was stored.
fn bring_in(book: &mut Book, importer: Importer, bytes: &[u8]) -> Result<bool, Problem> {
    let before = state(book);
    let text = || {
        String::from_utf8(bytes.to_vec()).map_err(|_| Problem::bad_input("the file is not UTF-8"))
    };
    let service = &mut book.service;
    let call = |service: &mut Service, request: FileRequest| {
        prepare(request, bytes).and_then(|prepared| service.call_prepared(prepared))
    };
    match importer {
        Heads => drop(service.call(ask::ImportHeadFile { text: text()? })?),
        Plantings => drop(service.call(ask::ImportPlantingFile { text: text()? })?),
        Weather | DailyByStation | DailyFixedWidth | DailySummaries => {
            drop(service.call(ask::ImportWeatherFile {
                text: text()?,
                station: Some("North".to_owned()),
                strict: false,
                job: None,
            })?);
        }
        Observations => {
            service.with_notebook(|notebook| import_observations(notebook, bytes, |_| Ok(())))?;
        }
        GeoJson | Kml | Kmz | Shapefile => {
            let ending = match importer {
                GeoJson => "geojson",
                Kml => "kml",
                Kmz => "kmz",
                _ => "shp",
            };
            let files = vec![ChosenFile {
                name: format!("fields.{ending}"),
                bytes: u32::try_from(bytes.len()).unwrap(),
            }];
            let review = call(
                service,
                FileRequest::ReviewOutlineFile {
                    files: files.clone(),
                },
            )?;
            // A shapefile alone names nobody, so the scout does.
            let chosen = match review.answer {
                Answer::ReviewOutlineFile(review) if importer == Shapefile => {
                    let of = service::OutlineOf::Planting(book.planting);
                    let first = review.outlines.iter().find(|row| row.refused.is_none());
                    Some(
                        first
                            .map(|row| service::ChosenOutline {
                                number: row.number,
                                of,
                            })
                            .into_iter()
                            .collect(),
                    )
                }
                _ => None,
            };
            drop(call(
                service,
                FileRequest::ImportOutlineFile { files, chosen },
            )?);
        }
        Archive => {
            service.archive_in(Cursor::new(bytes), Keep::GoodRows, &mut |_| true)?;
        }
        Photo => {
            let of = PhotoOf::Planting(book.planting);
            drop(call(service, FileRequest::AddPhoto { id: None, of })?);
        }
    }
    Ok(state(book) != before)
}

/// All that a file could leave: the log, the views, every table that neither gives,
/// and the photos' files.
fn state(book: &Book) -> (String, [u8; 32], String, BTreeMap<String, u64>) {
    let db = book.service.notebook().db();
    let beside = ["setting", "photo_file", "answer"].map(|table| {
        let count = format!("SELECT count(*) FROM {table}");
        let rows: i64 = db.query_row(&count, [], |row| row.get(0)).unwrap();
        format!("{table} {rows}")
    });
    (
        format!("{:?}", notebook::log::heads(db).unwrap()),
        book.service.notebook().view_digest().unwrap(),
        beside.join(", "),
        files_below(book.folder.path()),
    )
}

fn files_below(folder: &Path) -> BTreeMap<String, u64> {
    let mut found = BTreeMap::new();
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            found.extend(files_below(&path));
        } else {
            let name = path.file_name().unwrap().to_string_lossy().into_owned();
            if !name.starts_with("n.notebook") {
                found.insert(name, std::fs::metadata(&path).unwrap().len());
            }
        }
    }
    found
}

#[test]
fn a_good_file_of_every_kind_is_stored_once() {
    for importer in ALL {
        let mut book = book(1);
        let file = good(importer);
        assert_eq!(
            bring_in(&mut book, importer, &file),
            Ok(true),
            "{importer:?}"
        );
        let again = bring_in(&mut book, importer, &file);
        // The same picture may be of two things.
        assert_eq!(again, Ok(importer == Photo), "{importer:?}, once more");
        // What a camera wrote of its owner is nowhere in the photos' files.
        let files = book.service.notebook().photo_files().unwrap();
        for (name, _) in files.all().unwrap() {
            let bytes = files.read(name).unwrap().unwrap();
            let owner = OWNER.as_bytes();
            assert!(!bytes.windows(owner.len()).any(|at| at == owner));
        }
    }
}

/// Some bytes changed, put in or taken out, a piece doubled, the end cut off.
#[derive(Debug, Clone)]
struct Spoil {
    changes: Vec<(Index, u8, u8)>,
    doubled: Option<Index>,
    cut: Option<Index>,
}

impl Spoil {
    fn any() -> impl Strategy<Value = Spoil> {
        (
            prop::collection::vec(any::<(Index, u8, u8)>(), 0..10),
            prop::option::of(any::<Index>()),
            prop::option::of(any::<Index>()),
        )
            .prop_map(|(changes, doubled, cut)| Spoil {
                changes,
                doubled,
                cut,
            })
    }

    fn apply(&self, whole: &[u8]) -> Vec<u8> {
        let mut bytes = whole.to_vec();
        for (at, kind, byte) in &self.changes {
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
        if let Some(at) = self.doubled.filter(|_| !bytes.is_empty()) {
            let at = at.index(bytes.len());
            let piece = bytes[at..(at + 80).min(bytes.len())].to_vec();
            bytes.splice(at..at, piece);
        }
        if let Some(cut) = self.cut {
            bytes.truncate(cut.index(bytes.len() + 1));
        }
        bytes
    }
}

/// The judgement of one file.
fn judged(book: &mut Book, importer: Importer, bytes: &[u8]) -> Result<(), TestCaseError> {
    let before = state(book);
    let (outcome, growth) = growth_of(|| bring_in(book, importer, bytes));
    prop_assert!(
        growth.unwrap_or(0) <= MOST_GROWTH,
        "{importer:?}: {growth:?}"
    );
    if let Err(Problem { code, message }) = outcome {
        prop_assert!(
            matches!(code, ProblemCode::BadInput | ProblemCode::FromNewerApp),
            "{importer:?}: {code:?} {message}"
        );
        is_one_clear_line(&message);
        prop_assert!(
            state(book) == before,
            "{importer:?}: a refused file left something"
        );
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    /// Each case goes through every importer with a file of its own kind.
    #[test]
    fn a_spoiled_file_of_any_kind_is_used_or_leaves_nothing(
        spoils in prop::collection::vec(Spoil::any(), ALL.len()),
    ) {
        let mut book = book(1);
        for (importer, spoil) in ALL.into_iter().zip(spoils) {
            judged(&mut book, importer, &spoil.apply(&good(importer)))?;
        }
        let before = book.service.notebook().view_digest().unwrap();
        book.service.with_notebook(|notebook| notebook.rebuild()).unwrap();
        prop_assert_eq!(book.service.notebook().view_digest().unwrap(), before);
        let found = notebook::durability::check::check(book.service.notebook().db()).unwrap();
        prop_assert!(found.is_sound(), "{:?}", found);
        let photos = notebook::durability::photos::look(book.service.notebook()).unwrap();
        prop_assert!(photos.is_sound(), "{:?}", photos);
    }

    /// Each case brings a file of one kind in as another.
    #[test]
    fn a_file_under_the_wrong_name_leaves_nothing(
        pairs in prop::collection::vec((0..ALL.len(), 0..ALL.len(), Spoil::any()), 1..6),
    ) {
        let mut book = book(1);
        for (kind, importer, spoil) in pairs {
            judged(&mut book, ALL[importer], &spoil.apply(&good(ALL[kind])))?;
        }
    }
}

/// The largest files of each kind that are taken, or that are just refused.
#[test]
fn large_files_of_every_kind_stay_within_memory() {
    const LONG: usize = 30 << 20;
    let repeated = |start: &str, row: &str, length: usize| -> Vec<u8> {
        let mut bytes = start.as_bytes().to_vec();
        while bytes.len() < length {
            bytes.extend_from_slice(row.as_bytes());
        }
        bytes
    };
    let pairs = "[0,0],".repeat(1_300_000);
    let dense = format!(r#"{{"type":"Polygon","coordinates":[[{pairs}[0,0]]]}}"#);
    let dense_kml = kml().replace("-40.4,38.2 ", &"-40.4,38.2 ".repeat(700_000));
    // Declared wide and high, with nothing behind it; and a file of nothing at all.
    let mut boast = camera_file();
    let frame = boast
        .windows(3)
        .position(|at| at == [0xff, 0xc0, 0])
        .unwrap();
    boast[frame + 5..frame + 9].copy_from_slice(&[0x1b, 0x00, 0x1b, 0x00]);
    let head = "planting,walked_on,stop,reading,share\n";
    let planting = "planting,hybrid,planted_on,purpose\n";
    let weather = "date,high_f,low_f\n";
    let seen = "planting,observed_on,what,percents\n";
    for (importer, bytes) in [
        (Heads, repeated(head, "a,b\n", LONG)),
        (Heads, repeated(head, "\"", LONG)),
        (Plantings, repeated(planting, "a,b\n", LONG)),
        (Weather, repeated(weather, "a,b\n", LONG)),
        (Weather, repeated(weather, "2026-07-01,95,65\n", LONG)),
        (
            DailyByStation,
            repeated(BY_STATION, "S,x,TMAX,1,,,S,\n", LONG),
        ),
        (DailyFixedWidth, repeated(&fixed_width(), "\n1", LONG)),
        (DailySummaries, repeated(SUMMARIES, "\n1", LONG)),
        (Observations, repeated(seen, "a,b\n", LONG)),
        (
            Observations,
            repeated(seen, "North,2026-08-28,moisture,\"", LONG),
        ),
        (GeoJson, dense.into_bytes()),
        (Kml, dense_kml.into_bytes()),
        (Kmz, zipped(&[("doc.kml", &vec![b' '; 64 << 20])])),
        (Shapefile, vec![0; 8 << 20]),
        (Photo, boast),
        (Photo, vec![0xff; 60 << 20]),
    ] {
        let mut book = book(1);
        let before = state(&book);
        let (outcome, growth) = growth_of(|| bring_in(&mut book, importer, &bytes));
        let growth = growth.unwrap_or(0);
        println!(
            "{importer:?}, {} MB: grew by {} MB, {}",
            bytes.len() >> 20,
            growth >> 20,
            match &outcome {
                Ok(true) => "stored",
                Ok(false) => "nothing to store",
                Err(problem) => &problem.message,
            }
        );
        if let Err(problem) = outcome {
            is_one_clear_line(&problem.message);
            assert!(state(&book) == before, "{importer:?}");
        }
        assert!(growth <= MOST_GROWTH, "{importer:?}: {growth} bytes");
    }
}
