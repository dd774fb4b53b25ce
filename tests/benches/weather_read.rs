//! How long a 100-year station takes to read: the app's table and GHCN-Daily by
//! station, beside the csv crate going over the same bytes and nothing more; and
//! cleaning, which comes after. The limit for a station is 1 s, import included; the
//! bench fails where it is not kept.

#![allow(missing_docs, reason = "criterion's macros make undocumented items")]
#![allow(clippy::unwrap_used, reason = "a bench")]

use std::hint::black_box;
use std::process::ExitCode;
use std::time::Duration;

use chrono::NaiveDate;
use criterion::Criterion;
use headwalk_tests::limit::{Limits, Times};
use notebook::{Notebook, OnDate, SystemRandomness};
use readers::weather_file::{Watch, read};
use ripening::weather::clean;
use service::{Service, ask};

fn days() -> impl Iterator<Item = (NaiveDate, f64, f64)> {
    let first = NaiveDate::from_ymd_opt(1926, 1, 1).unwrap();
    let last = NaiveDate::from_ymd_opt(2025, 12, 31).unwrap();
    first
        .iter_days()
        .take_while(move |date| *date <= last)
        .enumerate()
        .map(|(i, date)| {
            let wave = (i as f64 / 365.25 * std::f64::consts::TAU).cos();
            let high = 15.0 - 15.0 * wave + f64::from(i as u32 % 17) / 4.0;
            (date, high, high - 11.0)
        })
}

fn table() -> String {
    let mut text = String::from("date,high_c,low_c,rain_mm,station\n");
    for (date, high, low) in days() {
        text.push_str(&format!("{date},{high:.1},{low:.1},0.0,Century\n"));
    }
    text
}

fn by_station() -> String {
    let mut text = String::new();
    for (date, high, low) in days() {
        let day = date.format("%Y%m%d");
        for (element, value) in [("TMAX", high * 10.0), ("TMIN", low * 10.0), ("PRCP", 0.0)] {
            text.push_str(&format!(
                "USC00140001,{day},{element},{value:.0},,,7,0800\n"
            ));
        }
    }
    text
}

fn csv_alone(text: &str) -> usize {
    let mut reader = csv::ReaderBuilder::new()
        .has_headers(false)
        .from_reader(text.as_bytes());
    let mut record = csv::ByteRecord::new();
    let mut fields = 0;
    while reader.read_byte_record(&mut record).unwrap() {
        fields += record.len();
    }
    fields
}

fn main() -> ExitCode {
    let mut criterion = Criterion::default().configure_from_args();
    let mut limits = Limits::default();
    bench(&mut criterion, &mut limits);
    criterion.final_summary();
    limits.verdict()
}

fn bench(criterion: &mut Criterion, limits: &mut Limits) {
    for (name, text) in [("table", table()), ("by station", by_station())] {
        let mut group = criterion.benchmark_group(format!("100 years, {name}"));
        group.sample_size(20);
        let (alone, reading) = (Times::default(), Times::default());
        group.bench_function("csv crate alone", |b| {
            b.iter_custom(|rounds| {
                let once = |_| alone.time(|| csv_alone(black_box(&text)));
                (0..rounds).map(once).sum()
            });
        });
        group.bench_function("read", |b| {
            b.iter_custom(|rounds| {
                let once = |_| {
                    reading.time(|| read(black_box(&text).as_bytes(), &mut Watch::none()).unwrap())
                };
                (0..rounds).map(once).sum()
            });
        });
        let file = read(text.as_bytes(), &mut Watch::none()).unwrap();
        group.bench_function("clean", |b| {
            b.iter(|| clean(black_box(&file.stations[0].rows), None).unwrap())
        });
        group.finish();
        limits.told(
            &format!("{name}: csv crate alone, p50"),
            alone.within(0.5),
            "ms",
        );
        limits.told(&format!("{name}: read, p50"), reading.within(0.5), "ms");
    }
    into_the_notebook(criterion, limits);
}

/// To the disk, as an import is.
fn into_the_notebook(criterion: &mut Criterion, limits: &mut Limits) {
    let mut group = criterion.benchmark_group("100 years into the notebook");
    group.sample_size(10);
    for (name, text) in [("table", table()), ("by station", by_station())] {
        let times = Times::default();
        group.bench_function(name, |b| {
            b.iter_custom(|rounds| (0..rounds).map(|_| import(&text, &times)).sum());
        });
        limits.at_most(
            &format!("{name} into the notebook, the slowest"),
            times.within(1.0),
            1_000.0,
            "ms",
        );
    }
    group.finish();
}

fn import(text: &str, times: &Times) -> Duration {
    let folder = tempfile::tempdir_in(env!("CARGO_TARGET_TMPDIR")).unwrap();
    let today = NaiveDate::from_ymd_opt(2026, 8, 20).unwrap();
    let notebook = Notebook::open(
        &folder.path().join("notebook.db"),
        Box::new(OnDate(today)),
        Box::new(SystemRandomness),
    )
    .unwrap();
    let mut service = Service::new(notebook).unwrap();
    let request = ask::ImportWeatherFile {
        text: text.to_owned(),
        station: None,
        strict: false,
        job: None,
    };
    times.time(|| service.call(request).unwrap())
}
