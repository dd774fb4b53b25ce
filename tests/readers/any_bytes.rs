//! Any bytes at all, and files with a few bytes wrong, into every reader of tables:
//! no panic, no memory beyond bounds, one clear line, and a notebook that stays as
//! it is where nothing could be used.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod importers;
mod zipped;

use std::fs;
use std::io::{self, Read as _};

use headwalk_tests::devices::{SetClock, service_in_memory};
use proptest::prelude::*;
use proptest::sample::Index;
use readers::head_file::HeadFile;
use readers::planting_file;
use readers::weather_file::{self, Watch};
use service::{Problem, ProblemCode, Request, Service, ask};

const HEADS: &str = "planting,walked_on,stop,reading,share,latitude,longitude,note,flags\n\
    North,2026-08-01,1,pliable,40,38.1,-98.2,\"by the \"\"road\"\"\",moldy\n\
    North,2026-08-01,1,boot,,,,,\n\
    South,2026-08-02,2,dark_spot,100,,,,bird_fed sheathed\n";
const PLANTINGS: &str = "planting,hybrid,planted_on,purpose,field,acres,half_bloom_on\n\
    North,H-17,2026-05-20,grain,N,38.5,2026-07-25\n\
    South,H-17,2026-05-22,silage,,,\n";
const TABLE: &str = "date,high_f,low_f,rain_in,humidity,station\n\
    2026-07-01,95,65,0.25,55,North\n\
    2026-07-02,M,65,T,,North\n";
const BY_STATION: &str = "ST000000001,20260701,TMAX,350,,,S,\n\
    ST000000001,20260701,TMIN,183,,,S,\n\
    ST000000001,20260702,PRCP,12,,I,S,\n";
const SUMMARIES: &str = "\"STATION\",\"DATE\",\"TMAX\",\"TMAX_ATTRIBUTES\",\"TMIN\"\n\
    \"ST1\",\"2026-07-01\",\"350\",\",,S\",\"183\"\n";

fn fixed_width() -> String {
    let mut line = "ST000000001202607TMAX".to_owned();
    for day in 0..31 {
        line.push_str(&format!("{:>5}   ", 300 + day));
    }
    line.push('\n');
    line
}

/// A good file of one of the layouts, with some bytes put in, taken out or changed.
fn nearly_good() -> impl Strategy<Value = Vec<u8>> {
    let files = prop::sample::select(vec![
        HEADS.to_owned(),
        PLANTINGS.to_owned(),
        TABLE.to_owned(),
        BY_STATION.to_owned(),
        SUMMARIES.to_owned(),
        fixed_width(),
    ]);
    let byte = prop_oneof![
        any::<u8>(),
        prop::sample::select(b"\"\n\r,;\0-+.e9 \xef\xbb\xbf\xff".to_vec()),
    ];
    let edits = prop::collection::vec((any::<Index>(), 0..3, byte), 0..12);
    (files, edits).prop_map(|(file, edits)| {
        let mut bytes = file.into_bytes();
        for (at, what, byte) in edits {
            let place = at.index(bytes.len() + 1);
            match what {
                0 => bytes.insert(place, byte),
                1 if place < bytes.len() => {
                    bytes.remove(place);
                }
                _ if place < bytes.len() => bytes[place] = byte,
                _ => bytes.push(byte),
            }
        }
        bytes
    })
}

fn any_bytes() -> impl Strategy<Value = Vec<u8>> {
    prop_oneof![
        3 => nearly_good(),
        1 => prop::collection::vec(any::<u8>(), 0..600),
        1 => "[\"\n\r, 0-9a-zA-Z_]{0,300}".prop_map(String::into_bytes),
    ]
}

fn is_one_clear_line(said: &str) {
    assert!(!said.is_empty() && said.len() < 2000, "{said}");
    assert!(!said.contains('\n') && !said.contains('\0'), "{said:?}");
}

/// The service's answer to text; what is not UTF-8 never gets so far.
fn called(service: &mut Service, bytes: &[u8]) {
    let Ok(text) = std::str::from_utf8(bytes) else {
        return;
    };
    let text = || text.to_owned();
    let station = || Some("North".to_owned());
    let pairs: [(Request, Request); 3] = [
        (
            ask::ReviewHeadFile { text: text() }.into(),
            ask::ImportHeadFile { text: text() }.into(),
        ),
        (
            ask::ReviewPlantingFile { text: text() }.into(),
            ask::ImportPlantingFile { text: text() }.into(),
        ),
        (
            ask::ReviewWeatherFile {
                text: text(),
                station: station(),
                job: None,
            }
            .into(),
            ask::ImportWeatherFile {
                text: text(),
                station: station(),
                strict: false,
                job: None,
            }
            .into(),
        ),
    ];
    for (review, import) in pairs {
        let before = state(service);
        let reviewed = service.answer(review);
        assert_eq!(state(service), before, "a review stored something");
        let imported = service.answer(import);
        assert_eq!(reviewed.is_ok(), imported.is_ok());
        if let Err(Problem { code, message }) = imported {
            assert_eq!(code, ProblemCode::BadInput, "{message}");
            is_one_clear_line(&message);
            assert_eq!(state(service), before, "a refused file stored something");
        }
    }
    assert!(service.call(ask::Plantings {}).is_ok());
}

fn state(service: &Service) -> (String, [u8; 32]) {
    let heads = notebook::log::heads(service.notebook().db()).unwrap();
    (
        format!("{heads:?}"),
        service.notebook().view_digest().unwrap(),
    )
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    #[test]
    fn no_bytes_make_a_reader_fall(bytes in any_bytes()) {
        match HeadFile::open(&bytes[..]) {
            Ok(rows) => for row in rows {
                match row {
                    Ok(Ok(head)) => assert!(head.line >= 2),
                    Ok(Err(fault)) => is_one_clear_line(&fault.reason.to_string().replace(['\n', '\0'], " ")),
                    Err(error) => is_one_clear_line(&error.to_string().replace(['\n', '\0'], " ")),
                }
            },
            Err(error) => is_one_clear_line(&error.to_string().replace(['\n', '\0'], " ")),
        }
        if let Ok(file) = planting_file::read(&bytes[..], &mut Watch::none()) {
            assert!(file.plantings.iter().all(|row| row.line >= 2));
        }
        if let Ok(file) = weather_file::read(&bytes[..], &mut Watch::none()) {
            assert!(file.stations.iter().any(|station| !station.rows.is_empty()));
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(60))]

    #[test]
    fn what_cannot_be_used_changes_no_notebook(files in prop::collection::vec(any_bytes(), 1..4)) {
        let clock = SetClock::at("2026-09-01T12:00:00-05:00").unwrap();
        let mut service = service_in_memory(&clock, 1).unwrap();
        for bytes in files {
            called(&mut service, &bytes);
        }
        let before = service.notebook().view_digest().unwrap();
        service.with_notebook(|notebook| notebook.rebuild()).unwrap();
        assert_eq!(service.notebook().view_digest().unwrap(), before);
    }
}

/// Memory of this process at its most so far, kilobytes; none where the system does
/// not tell.
fn most_memory() -> Option<u64> {
    let status = fs::read_to_string("/proc/self/status").ok()?;
    let line = status.lines().find(|line| line.starts_with("VmHWM:"))?;
    line.split_whitespace().nth(1)?.parse().ok()
}

#[test]
fn endless_files_stay_within_memory() {
    const LENGTH: u64 = 40 << 20;
    let before = most_memory();
    let endless = |start: &str, piece: &'static [u8]| {
        struct Again(&'static [u8], usize);
        impl io::Read for Again {
            fn read(&mut self, out: &mut [u8]) -> io::Result<usize> {
                for byte in out.iter_mut() {
                    *byte = self.0[self.1 % self.0.len()];
                    self.1 += 1;
                }
                Ok(out.len())
            }
        }
        io::Cursor::new(start.as_bytes().to_vec()).chain(Again(piece, 0).take(LENGTH))
    };
    for (what, piece) in [
        ("a quote left open", &b"x"[..]),
        ("bad rows", &b"a,b\n"[..]),
    ] {
        let start = format!("{HEADS}{}", if piece == b"x" { "\"" } else { "" });
        let rows = HeadFile::open(endless(&start, piece)).unwrap();
        let good = rows.filter(|row| matches!(row, Ok(Ok(_)))).count();
        assert_eq!(good, 3, "heads, {what}");
    }
    let table = planting_file::read(endless(PLANTINGS, b"a,b\n"), &mut Watch::none());
    is_one_clear_line(&table.unwrap_err().to_string());
    let quote = format!("{PLANTINGS}\"");
    let table = planting_file::read(endless(&quote, b"x"), &mut Watch::none()).unwrap();
    assert_eq!((table.plantings.len(), table.problems.len()), (2, 1));
    for (start, piece) in [
        (TABLE.to_owned(), &b"a,b\n"[..]),
        (TABLE.to_owned(), &b"2026-07-01,95,65,0,50,North\n"[..]),
        (BY_STATION.to_owned(), &b"S,x,TMAX,1,,,S,\n"[..]),
        (SUMMARIES.to_owned(), &b"\n1"[..]),
        (fixed_width(), &b"\n1"[..]),
        (fixed_width(), &b"1"[..]),
    ] {
        let read = weather_file::read(endless(&start, piece), &mut Watch::none());
        if let Err(error) = read {
            is_one_clear_line(&error.to_string());
        }
    }
    if let (Some(before), Some(after)) = (before, most_memory()) {
        let grown = (after - before) / 1024;
        println!("endless files: memory grew by {grown} MB at most");
        assert!(grown < 256, "memory grew by {grown} MB");
    }
}
