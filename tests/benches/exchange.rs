//! How fast notebooks meet, beside what bounds them.
//!
//! - 10,000 heads from a phone over a hub to a second phone, over HTTP on loopback;
//! - changes a second that a hub accepts, on SQLite and PostgreSQL, over HTTP from
//!   four phones at once, beside bare inserts of the same changes into the same
//!   kind of table;
//! - the same heads as one automerge document: saving, loading, bytes.

#![allow(missing_docs, clippy::unwrap_used, clippy::panic)]

#[allow(dead_code)]
#[path = "../exchange/cluster.rs"]
mod cluster;
#[allow(dead_code)]
#[path = "../exchange/hub_here.rs"]
mod hub_here;
#[allow(dead_code)]
#[path = "../exchange/scouts.rs"]
mod scouts;

use automerge::transaction::Transactable;
use automerge::{AutoCommit, ObjType, ROOT, ReadDoc};
use cluster::Cluster;
use criterion::{BatchSize, Criterion, Throughput, criterion_group, criterion_main};
use exchange::PageSize;
use exchange::book::Book as _;
use exchange::meet::Way;
use exchange::own_book::pack;
use exchange::wire::{Answer, Ask, Role, Run, Span};
use hub_here::{HubHere, Kept};
use notebook::log::{Change, change_at};
use rusqlite::Connection;
use serde_bytes::ByteBuf;
use std::time::Duration;
use uuid::Uuid;

const HEADS: u64 = 10_000;
const CHANGES: u64 = 30_000;
const PHONES: u64 = 4;
const PAGE: usize = 1_000;

fn phone_to_phone(c: &mut Criterion) {
    let mut group = c.benchmark_group("phone to hub to phone");
    group
        .sample_size(10)
        .measurement_time(Duration::from_secs(20))
        .throughput(Throughput::Elements(HEADS));
    let mut source = scouts::tapped(HEADS);
    group.bench_function("10,000 heads", |b| {
        b.iter_batched(
            || {
                let here = HubHere::start(&Kept::Sqlite);
                let owner = here.crew("Ada");
                let scout = here.further(&owner, Role::Scout, "Ben");
                (here, owner, scout, scouts::in_memory())
            },
            |(here, owner, scout, mut second)| {
                scouts::exchange(&here, &mut source, &owner).unwrap();
                scouts::exchange(&here, &mut second, &scout).unwrap();
                assert_eq!(second.heads().unwrap().len(), 1);
                (here, second)
            },
            BatchSize::PerIteration,
        );
    });
    group.finish();
}

fn bodies() -> Vec<Vec<u8>> {
    let mut source = scouts::tapped(PAGE as u64);
    let span = Span {
        device: source.device(),
        after: 0,
        to: PAGE as u64,
    };
    let room = PageSize {
        changes: PAGE,
        bytes: usize::MAX,
    };
    let page = source.read(span, room).unwrap();
    page.into_iter().map(ByteBuf::into_vec).collect()
}

fn push_all(here: &HubHere, phone: &hub_here::Phone, bodies: &[Vec<u8>]) {
    std::thread::scope(|scope| {
        for _ in 0..PHONES {
            let mut way = here.way(Some(phone.token.clone()));
            scope.spawn(move || {
                let device = Uuid::now_v7();
                let mut after = 0;
                while after < CHANGES / PHONES {
                    let wanted = (CHANGES / PHONES - after).min(PAGE as u64);
                    let count = usize::try_from(wanted).unwrap();
                    let run = Run {
                        device,
                        after,
                        bodies: bodies[..count].iter().cloned().map(ByteBuf::from).collect(),
                    };
                    after = run.last();
                    let answer = way.ask(&Ask::Push(vec![run].into())).unwrap();
                    assert!(matches!(answer, Answer::Pushed(_)), "{answer:?}");
                }
            });
        }
    });
}

fn accepted(c: &mut Criterion) {
    let bodies = bodies();
    let cluster = Cluster::start();
    let mut databases = 0;
    let mut group = c.benchmark_group("changes accepted");
    group
        .sample_size(10)
        .measurement_time(Duration::from_secs(15))
        .throughput(Throughput::Elements(CHANGES));
    let ready = |kept: Kept| {
        let here = HubHere::start(&kept);
        let owner = here.crew("Ada");
        (here, owner)
    };
    group.bench_function("hub on SQLite", |b| {
        b.iter_batched(
            || ready(Kept::Sqlite),
            |(here, owner)| {
                push_all(&here, &owner, &bodies);
                here
            },
            BatchSize::PerIteration,
        );
    });
    group.bench_function("bare inserts into SQLite", |b| {
        b.iter_batched(
            bare_sqlite,
            |(folder, mut db)| {
                for page in 0..CHANGES / PAGE as u64 {
                    let tx = db.transaction().unwrap();
                    let mut insert = tx
                        .prepare_cached("INSERT INTO change VALUES (1, ?1, 0, ?2)")
                        .unwrap();
                    for (seq, body) in (page * PAGE as u64..).zip(&bodies) {
                        insert.execute((seq, body)).unwrap();
                    }
                    drop(insert);
                    tx.commit().unwrap();
                }
                (folder, db)
            },
            BatchSize::PerIteration,
        );
    });
    group.bench_function("hub on PostgreSQL", |b| {
        b.iter_batched(
            || {
                databases += 1;
                ready(Kept::Postgres(
                    cluster.database(&format!("bench{databases}")),
                ))
            },
            |(here, owner)| {
                push_all(&here, &owner, &bodies);
                here
            },
            BatchSize::PerIteration,
        );
    });
    let url = cluster.database("bare");
    let runtime = tokio::runtime::Runtime::new().unwrap();
    let client = runtime.block_on(async {
        let (client, connection) = tokio_postgres::connect(&url, tokio_postgres::NoTls)
            .await
            .unwrap();
        tokio::spawn(connection);
        client
    });
    group.bench_function("bare inserts into PostgreSQL", |b| {
        b.iter_batched(
            || {
                runtime
                    .block_on(client.batch_execute(
                        "DROP TABLE IF EXISTS change; CREATE TABLE change (series BIGINT NOT NULL,
                         seq BIGINT NOT NULL, received_at BIGINT NOT NULL, body BYTEA NOT NULL,
                         PRIMARY KEY (series, seq))",
                    ))
                    .unwrap();
            },
            |()| {
                for page in 0..i64::try_from(CHANGES).unwrap() / PAGE as i64 {
                    let seqs: Vec<i64> = (page * PAGE as i64..).take(PAGE).collect();
                    runtime
                        .block_on(client.execute(
                            "INSERT INTO change SELECT 1, seq, 0, body
                             FROM unnest($1::bigint[], $2::bytea[]) AS fresh (seq, body)",
                            &[&seqs, &bodies],
                        ))
                        .unwrap();
                }
            },
            BatchSize::PerIteration,
        );
    });
    group.finish();
}

fn bare_sqlite() -> (tempfile::TempDir, Connection) {
    let folder = tempfile::tempdir().unwrap();
    let db = Connection::open(folder.path().join("bare.sqlite")).unwrap();
    db.pragma_update_and_check(None, "journal_mode", "WAL", |_| Ok(()))
        .unwrap();
    db.pragma_update(None, "synchronous", "FULL").unwrap();
    db.execute_batch(
        "CREATE TABLE change (series INTEGER NOT NULL, seq INTEGER NOT NULL,
         received_at INTEGER NOT NULL, body BLOB NOT NULL, PRIMARY KEY (series, seq))
         STRICT, WITHOUT ROWID",
    )
    .unwrap();
    (folder, db)
}

/// Stops as maps, heads as lists of maps, one commit a head, as the taps came.
fn document(changes: &[Change]) -> AutoCommit {
    let mut document = AutoCommit::new();
    let mut stop = (String::new(), ROOT);
    for change in changes {
        let body: serde_json::Value = serde_json::from_str(&change.body).unwrap();
        let fact = &body["facts"][0];
        let at = fact["stop"].as_str().unwrap();
        if stop.0 != at {
            let heads = document.put_object(ROOT, at, ObjType::List).unwrap();
            stop = (at.to_owned(), heads);
        }
        let read = &fact["heads"][0];
        let place = document.length(&stop.1);
        let head = document
            .insert_object(&stop.1, place, ObjType::Map)
            .unwrap();
        document
            .put(&head, "id", read[0].as_str().unwrap())
            .unwrap();
        document
            .put(&head, "reading", read[1].as_str().unwrap())
            .unwrap();
        document
            .put(&head, "share", read[2].as_i64().unwrap())
            .unwrap();
        document
            .put(&head, "recorded_ms", change.recorded_ms)
            .unwrap();
        document.commit();
    }
    document
}

fn automerge_document(c: &mut Criterion) {
    let source = scouts::tapped(HEADS);
    let changes: Vec<Change> = (1..=HEADS)
        .map(|seq| {
            change_at(source.db(), source.device(), seq)
                .unwrap()
                .unwrap()
        })
        .collect();
    let saved = document(&changes).save();
    let packed: usize = changes
        .iter()
        .map(|change| pack(change).unwrap().len())
        .sum();
    eprintln!(
        "automerge document of {HEADS} heads: {} bytes, {:.1} a head; the same log before packing: {:.1} a head",
        saved.len(),
        saved.len() as f64 / HEADS as f64,
        packed as f64 / HEADS as f64,
    );
    let mut group = c.benchmark_group("10,000 heads into memory");
    group
        .sample_size(10)
        .measurement_time(Duration::from_secs(10))
        .throughput(Throughput::Elements(HEADS));
    group.bench_function("automerge document loaded", |b| {
        b.iter(|| AutoCommit::load(&saved).unwrap());
    });
    group.bench_function("notebook fed with the log", |b| {
        b.iter_batched(
            scouts::in_memory,
            |mut notebook| {
                for page in changes.chunks(PAGE) {
                    notebook.ingest(page).unwrap();
                }
                notebook
            },
            BatchSize::PerIteration,
        );
    });
    group.finish();
}

criterion_group!(benches, phone_to_phone, accepted, automerge_document);
criterion_main!(benches);
