//! How long a 100-year station takes to read: the app's table and GHCN-Daily by
//! station, beside the csv crate going over the same bytes and nothing more; and
//! cleaning, which comes after. The limit for a station is 1 s, import included.

#![allow(missing_docs, reason = "criterion's macros make undocumented items")]
#![allow(clippy::unwrap_used, reason = "a bench")]

use std::hint::black_box;

use chrono::NaiveDate;
use criterion::{Criterion, criterion_group, criterion_main};
use headwalk_tests::devices::{SetClock, service_in_memory};
use notebook::service::Request;
use notebook::weather_file::{Watch, read};
use ripening::weather::clean;

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

fn bench(criterion: &mut Criterion) {
    for (name, text) in [("table", table()), ("by station", by_station())] {
        let mut group = criterion.benchmark_group(format!("100 years, {name}"));
        group.sample_size(20);
        group.bench_function("csv crate alone", |b| {
            b.iter(|| csv_alone(black_box(&text)))
        });
        group.bench_function("read", |b| {
            b.iter(|| read(black_box(&text).as_bytes(), &mut Watch::none()).unwrap())
        });
        let file = read(text.as_bytes(), &mut Watch::none()).unwrap();
        group.bench_function("clean", |b| {
            b.iter(|| clean(black_box(&file.stations[0].rows), None).unwrap())
        });
        group.finish();
    }
    let text = table();
    let mut group = criterion.benchmark_group("100 years into the notebook");
    group.sample_size(10);
    group.bench_function("import", |b| {
        b.iter_with_setup(
            || {
                let clock = SetClock::at("2026-08-20T12:00:00-05:00").unwrap();
                service_in_memory(&clock, 1).unwrap()
            },
            |mut service| {
                service
                    .call(Request::ImportWeatherFile {
                        text: text.clone(),
                        station: None,
                        strict: false,
                        job: None,
                    })
                    .unwrap()
            },
        );
    });
    group.finish();
}

criterion_group!(benches, bench);
criterion_main!(benches);
