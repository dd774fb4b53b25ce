//! The store beside its limits: saving a head beside a bare SQLite insert with
//! the same durability, importing a million rows, opening to the first list.
//!
//! `cargo bench -p headwalk-tests --bench notebook`

#![allow(clippy::unwrap_used, missing_docs)]

use std::fmt::Write as _;
use std::hint::black_box;
use std::path::Path;
use std::time::{Duration, Instant};

use criterion::{BatchSize, Criterion, Throughput, criterion_group, criterion_main};
use notebook::service::{Answer, Keep, NewHead, Request, Service, import_heads};
use notebook::{Notebook, OnDate, SystemRandomness};
use ripening::{Head, Reading, Share};
use rusqlite::Connection;
use uuid::Uuid;

/// Heads already stored where a head is saved or a notebook opened.
const STORED: usize = 200_000;
/// Heads of a walk in the files made here.
const A_WALK: usize = 25;

/// A head file of so many rows: plantings of ten walks, five stops of five heads.
fn head_file(rows: usize) -> String {
    let mut text = "planting,walked_on,stop,reading,share\n".to_owned();
    for row in 0..rows {
        let walk = row / A_WALK;
        let day = 1 + 3 * (walk % 10);
        let stop = 1 + row % A_WALK / 5;
        let share = 1 + (row * 37) % 100;
        writeln!(
            text,
            "Planting {},2026-08-{day:02},{stop},pliable,{share}",
            walk / 10
        )
        .unwrap();
    }
    text
}

fn open(path: &Path) -> Service {
    let today = chrono::NaiveDate::from_ymd_opt(2026, 9, 1).unwrap();
    let notebook =
        Notebook::open(path, Box::new(OnDate(today)), Box::new(SystemRandomness)).unwrap();
    Service::new(notebook).unwrap()
}

fn import(service: &mut Service, text: &str) {
    let done = service
        .with_notebook(|notebook| {
            import_heads(notebook, text.as_bytes(), Keep::GoodRows, |_| Ok(()))
        })
        .unwrap();
    black_box(done);
}

fn a_head(share: u8) -> NewHead {
    NewHead {
        head: Head::new(Reading::Pliable, Some(Share::new(share).unwrap())).unwrap(),
        flags: vec![],
        note: None,
    }
}

/// A walk with one stop, begun in one planting after the other: each has ten
/// earlier walks.
fn begin_walk(service: &mut Service, number: usize) -> (Uuid, Uuid) {
    let planting = planting(service, number);
    let request = Request::StartWalk {
        id: None,
        planting,
        walked_on: None,
        scout: None,
    };
    match service.call(request).unwrap().answer {
        Answer::StartWalk(page) => (page.id, page.stops[0].id),
        _ => unreachable!(),
    }
}

fn planting(service: &Service, number: usize) -> Uuid {
    service
        .notebook()
        .db()
        .query_row(
            "SELECT id FROM planting ORDER BY name LIMIT 1 OFFSET ?1",
            [number % (STORED / A_WALK / 10)],
            |row| row.get(0),
        )
        .unwrap()
}

/// Tap after tap as a walk goes: five heads at a stop, then the next stop, and
/// a new walk after five stops.
struct Walker {
    service: Service,
    walk: Uuid,
    stop: Uuid,
    heads: usize,
}

impl Walker {
    fn new(mut service: Service) -> Walker {
        let (walk, stop) = begin_walk(&mut service, 0);
        Walker {
            service,
            walk,
            stop,
            heads: 0,
        }
    }

    /// What comes between two heads; not part of saving one.
    fn step(&mut self) {
        if self.heads > 0 && self.heads.is_multiple_of(A_WALK) {
            (self.walk, self.stop) = begin_walk(&mut self.service, self.heads / A_WALK);
        } else if self.heads > 0 && self.heads.is_multiple_of(5) {
            let request = Request::AddStop {
                id: None,
                walk: self.walk,
                place: None,
            };
            match self.service.call(request).unwrap().answer {
                Answer::AddStop(page) => self.stop = page.stops.last().unwrap().id,
                _ => unreachable!(),
            }
        }
    }

    fn save(&mut self) -> Duration {
        self.step();
        self.heads += 1;
        let share = 1 + u8::try_from(self.heads * 13 % 100).unwrap();
        let request = Request::AddHead {
            id: None,
            stop: self.stop,
            head: a_head(share),
        };
        let start = Instant::now();
        black_box(self.service.call(request).unwrap());
        start.elapsed()
    }
}

/// The limit: one row of the same size into one table, as durably.
fn bare(path: &Path) -> Connection {
    let mut db = Connection::open(path).unwrap();
    db.execute_batch(
        "PRAGMA journal_mode = WAL; PRAGMA synchronous = FULL;
         CREATE TABLE head (id BLOB NOT NULL PRIMARY KEY, stop BLOB NOT NULL,
                            reading TEXT NOT NULL, share INTEGER NOT NULL,
                            recorded_ms INTEGER NOT NULL) STRICT, WITHOUT ROWID;",
    )
    .unwrap();
    let tx = db.transaction().unwrap();
    for row in 0..STORED {
        insert(&tx, row as u64);
    }
    tx.commit().unwrap();
    db
}

fn insert(db: &Connection, row: u64) {
    db.prepare_cached("INSERT INTO head VALUES (?1, ?2, 'pliable', 40, ?3)")
        .unwrap()
        .execute((
            Uuid::from_u64_pair(row, row),
            Uuid::from_u64_pair(row / 5, 0),
            1_790_000_000_000_i64 + row.cast_signed(),
        ))
        .unwrap();
}

fn percentile(times: &mut [Duration], share: f64) -> Duration {
    times.sort_unstable();
    times[(((times.len() - 1) as f64) * share).round() as usize]
}

fn saving(criterion: &mut Criterion) {
    let folder = tempfile::tempdir().unwrap();
    let mut service = open(&folder.path().join("notebook.db"));
    import(&mut service, &head_file(STORED));
    let mut walker = Walker::new(service);
    let limit = bare(&folder.path().join("bare.db"));
    let mut row = STORED as u64;

    let mut ours: Vec<Duration> = (0..2_000).map(|_| walker.save()).collect();
    let mut bares: Vec<Duration> = (0..2_000)
        .map(|_| {
            row += 1;
            let start = Instant::now();
            insert(&limit, row);
            start.elapsed()
        })
        .collect();
    for (name, times) in [("save a head", &mut ours), ("bare insert", &mut bares)] {
        println!(
            "{name}: p50 {:?}, p99 {:?}, most {:?}",
            percentile(times, 0.5),
            percentile(times, 0.99),
            percentile(times, 1.0)
        );
    }

    let mut group = criterion.benchmark_group("save with 200,000 heads stored");
    group.bench_function("notebook, with the answer", |bencher| {
        bencher.iter_custom(|times| (0..times).map(|_| walker.save()).sum());
    });
    group.bench_function("bare SQLite insert", |bencher| {
        bencher.iter(|| {
            row += 1;
            insert(&limit, row);
        });
    });
    group.finish();
}

fn importing(criterion: &mut Criterion) {
    let text = head_file(1_000_000);
    let mut group = criterion.benchmark_group("import");
    group.throughput(Throughput::Elements(1_000_000));
    group.sample_size(10);
    group.measurement_time(Duration::from_secs(30));
    group.bench_function("1e6 rows", |bencher| {
        bencher.iter_batched(
            || {
                let folder = tempfile::tempdir().unwrap();
                let service = open(&folder.path().join("notebook.db"));
                (folder, service)
            },
            |(folder, mut service)| {
                import(&mut service, &text);
                (folder, service)
            },
            BatchSize::PerIteration,
        );
    });
    group.finish();
}

fn opening(criterion: &mut Criterion) {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("notebook.db");
    let mut service = open(&path);
    import(&mut service, &head_file(STORED));
    // The first list ever is there before its answers are; a few are worked out at
    // a time.
    let start = Instant::now();
    service.call(Request::Plantings).unwrap();
    println!("first list ever, no answer kept: {:?}", start.elapsed());
    let start = Instant::now();
    let mut longest = Duration::ZERO;
    loop {
        let asked = Instant::now();
        let reply = service.call(Request::WorkOut).unwrap();
        longest = longest.max(asked.elapsed());
        match reply.answer {
            Answer::WorkOut { left: 0, .. } => break,
            Answer::WorkOut { .. } => {}
            _ => unreachable!(),
        }
    }
    println!(
        "its answers, all of them: {:?}, at most {longest:?} at a time",
        start.elapsed()
    );
    let start = Instant::now();
    service
        .call(Request::CheckNotebook { only_if_due: false })
        .unwrap();
    println!("a look at the whole notebook: {:?}", start.elapsed());
    let start = Instant::now();
    service.call(Request::BackUp).unwrap();
    println!("a backup, checked: {:?}", start.elapsed());
    drop(service);
    criterion.bench_function("open 200,000 heads to the first list", |bencher| {
        bencher.iter(|| open(&path).call(Request::Plantings).unwrap());
    });
}

criterion_group!(benches, saving, importing, opening);
criterion_main!(benches);
