//! How fast notebooks meet, beside what bounds them, and beside limits (2 cores,
//! loopback); the bench fails where one is not kept.
//!
//! - 10,000 heads from a phone over a hub to a second phone, over HTTP, sealed: 2 s;
//! - what a head takes of the way, as frames and on the wire with all headers: 80 bytes,
//!   sealed and not;
//! - changes a second that a hub accepts over HTTP from four members at once: 30,000
//!   on SQLite; on PostgreSQL beside it; in both with seals and without, as older
//!   phones give them; and bare inserts of the same changes into
//!   the same kind of table in each, which is what no hub can pass;
//! - the most memory of a hub while 200 devices push and pull at once: 200 MB;
//! - the same heads as one automerge document: saving, loading, bytes, memory.
//!
//! `cargo bench -p headwalk-tests --bench exchange`

#![allow(missing_docs, clippy::unwrap_used, clippy::panic)]

#[allow(dead_code)]
#[path = "../../exchange/cluster.rs"]
mod cluster;
#[allow(dead_code)]
#[path = "../../exchange/hub_here.rs"]
mod hub_here;
#[allow(dead_code)]
#[path = "../../exchange/scouts.rs"]
mod scouts;

mod memory;
mod passage;

use automerge::transaction::Transactable;
use automerge::{AutoCommit, ObjType, ROOT, ReadDoc};
use cluster::Cluster;
use criterion::{Bencher, Criterion, Throughput};
use exchange::PageSize;
use exchange::book::Book as _;
use exchange::http::{HttpWay, Trust};
use exchange::meet::{Way, meet};
use exchange::own_book::pack;
use headwalk_tests::limit::{Limits, Times};
use hub_here::{HubHere, Kept};
use notebook::log::{Change, change_at};
use rusqlite::Connection;
use serde_bytes::ByteBuf;
use std::ops::ControlFlow;
use std::process::ExitCode;
use std::sync::Barrier;
use std::time::Duration;
use uuid::Uuid;
use wire::seal::{Signer, Writer};
use wire::{Answer, Ask, Role, Run, RunSeal, SealedRun, Span};

const HEADS: u64 = 10_000;
const CHANGES: u64 = 30_000;
const PHONES: u64 = 4;
const PAGE: usize = 1_000;

/// Devices at one hub at once, and heads that each brings.
const DEVICES: usize = 200;
const HEADS_EACH: usize = 200;

/// The limits: seconds, bytes a head, changes a second, megabytes.
const PHONE_TO_PHONE_S: f64 = 2.0;
const BYTES_A_HEAD: f64 = 80.0;
const ACCEPTED_A_SECOND: f64 = 30_000.0;
const HUB_MEGABYTES: f64 = 200.0;

fn main() -> ExitCode {
    if memory::task() {
        return ExitCode::SUCCESS;
    }
    let mut criterion = Criterion::default().configure_from_args();
    let mut limits = Limits::default();
    phone_to_phone(&mut criterion, &mut limits);
    bytes_a_head(&mut limits, true);
    bytes_a_head(&mut limits, false);
    accepted(&mut criterion, &mut limits);
    many_devices(&mut limits);
    automerge_document(&mut criterion, &mut limits);
    criterion.final_summary();
    limits.verdict()
}

/// Rounds one by one; setting up and clearing away are not timed.
fn each<S, T>(
    bencher: &mut Bencher<'_>,
    times: &Times,
    mut set_up: impl FnMut() -> S,
    mut work: impl FnMut(S) -> T,
) {
    bencher.iter_custom(|rounds| {
        (0..rounds)
            .map(|_| {
                let ready = set_up();
                times.time(|| work(ready))
            })
            .sum()
    });
}

fn phone_to_phone(c: &mut Criterion, limits: &mut Limits) {
    let mut group = c.benchmark_group("phone to hub to phone");
    group
        .sample_size(10)
        .measurement_time(Duration::from_secs(20))
        .throughput(Throughput::Elements(HEADS));
    let times = Times::default();
    group.bench_function("10,000 heads", |b| {
        each(
            b,
            &times,
            || {
                let here = HubHere::start(&Kept::Sqlite);
                let owner = here.crew("Ada");
                let scout = here.further(&owner, Role::Scout, "Ben");
                // A phone seals with one key all its life: a new phone each time.
                (
                    here,
                    owner,
                    scout,
                    scouts::tapped(HEADS),
                    scouts::in_memory(),
                )
            },
            |(here, owner, scout, mut source, mut second)| {
                scouts::exchange(&here, &mut source, &owner).unwrap();
                scouts::exchange(&here, &mut second, &scout).unwrap();
                assert_eq!(second.heads().unwrap().len(), 1);
                (here, source, second)
            },
        );
    });
    group.finish();
    let seconds = |share| times.within(share).map(|ms| ms / 1e3);
    limits.at_most(
        "10,000 heads phone-hub-phone, p50",
        seconds(0.5),
        PHONE_TO_PHONE_S,
        "s",
    );
    limits.told("the slowest", seconds(1.0), "s");
}

/// One exchange each way, counted: up from the phone that tapped, and down to one
/// that has nothing.
fn bytes_a_head(limits: &mut Limits, sealed: bool) {
    let here = HubHere::start(&Kept::Sqlite);
    let owner = here.crew("Ada");
    let scout = here.further(&owner, Role::Scout, "Ben");
    let passage = passage::Passage::to(here.at);
    let url = format!("http://{}", passage.at);
    for (what, mut notebook, phone) in [
        ("up", scouts::tapped(HEADS), owner),
        ("down", scouts::in_memory(), scout),
    ] {
        let what = named(what, sealed);
        let before = passage.bytes();
        if sealed {
            notebook.sign_with(scouts::signer(&phone));
        }
        let mut way = scouts::CountedWay {
            way: HttpWay::new(&url, &Trust::Public, Some(phone.token)).unwrap(),
            bytes: 0,
        };
        let met = meet(&mut notebook, &mut way, PageSize::default(), &mut |_| {
            ControlFlow::Continue(())
        })
        .unwrap();
        assert_eq!(met.progress.sent + met.progress.received, HEADS);
        let a_head = |bytes: u64| Some(bytes as f64 / HEADS as f64);
        limits.at_most(
            &format!("{what}: bytes a head in frames"),
            a_head(way.bytes as u64),
            BYTES_A_HEAD,
            "bytes",
        );
        limits.at_most(
            &format!("{what}: bytes a head over HTTP"),
            a_head(passage.bytes() - before),
            BYTES_A_HEAD,
            "bytes",
        );
    }
}

/// All at once: each joins, gives its heads page by page, and fetches what others gave.
fn many_devices(limits: &mut Limits) {
    let hub = memory::HubThere::start();
    let way = |token| HttpWay::new(&hub.url, &Trust::Public, token).unwrap();
    let owner = hub_here::join(&mut way(None), &hub.founding_code, "Ada").unwrap();
    let bodies = bodies();
    let mut invitations = Vec::new();
    for _ in 0..DEVICES {
        let invite = Ask::Invite {
            person: None,
            role: Role::Scout,
            minutes: 60,
        };
        match way(Some(owner.token.clone())).ask(&invite).unwrap() {
            Answer::Invited(invited) => invitations.push(invited.code),
            other => panic!("{other:?}"),
        }
    }
    let (together, bodies) = (Barrier::new(DEVICES), &bodies[..HEADS_EACH]);
    std::thread::scope(|scope| {
        for (number, code) in invitations.iter().enumerate() {
            let (together, way) = (&together, &way);
            scope.spawn(move || {
                let phone =
                    hub_here::join(&mut way(None), code, &format!("scout {number}")).unwrap();
                let mut way = way(Some(phone.token));
                together.wait();
                let run = Run {
                    device: Uuid::now_v7(),
                    after: 0,
                    bodies: bodies.iter().cloned().map(ByteBuf::from).collect(),
                };
                let answer = way.ask(&Ask::Push(vec![run].into())).unwrap();
                assert!(matches!(answer, Answer::Pushed(_)), "{answer:?}");
                together.wait();
                let mine = Vec::new().into();
                let Answer::Heads { heads, .. } = way.ask(&Ask::Heads { mine }).unwrap() else {
                    panic!("another answer");
                };
                assert_eq!(heads.len(), DEVICES);
                let spans: Vec<Span> = heads
                    .iter()
                    .map(|(device, mark)| Span {
                        device: *device,
                        after: 0,
                        to: mark.seq,
                    })
                    .collect();
                let pulled = way
                    .ask(&Ask::Pull {
                        spans: spans.into(),
                    })
                    .unwrap();
                assert!(matches!(pulled, Answer::Pulled(page) if !page.is_empty()));
            });
        }
    });
    limits.at_most(
        "memory of a hub, 200 devices at once",
        Some(hub.most()),
        HUB_MEGABYTES,
        "MB",
    );
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

/// A member's phone, and what it has for the hub.
struct Giver {
    phone: hub_here::Phone,
    pushes: Vec<Ask>,
}

/// The same runs with a seal at the end of each page.
fn sealed(runs: impl Iterator<Item = Run>, signer: &Signer) -> Vec<Ask> {
    let writer = Writer::plain(signer.key());
    let mut link = writer.start();
    runs.map(|run| {
        link = link.after_all(&run.bodies);
        let seal = RunSeal {
            key: writer.key,
            signature: signer.seal(&writer, run.device, run.last(), link),
            origin: None,
        };
        let sealed = SealedRun {
            run,
            seal: Some(seal),
        };
        Ask::PushSealed(vec![sealed].into())
    })
    .collect()
}

/// A phone's share of the changes, in a series of its own.
fn runs(bodies: &[Vec<u8>]) -> impl Iterator<Item = Run> {
    let device = Uuid::now_v7();
    let share = CHANGES / PHONES;
    (0..share).step_by(PAGE).map(move |after| {
        let count = usize::try_from(share - after).unwrap().min(PAGE);
        Run {
            device,
            after,
            bodies: bodies[..count].iter().cloned().map(ByteBuf::from).collect(),
        }
    })
}

fn push_all(here: &HubHere, givers: &[Giver]) {
    std::thread::scope(|scope| {
        for giver in givers {
            let mut way = here.way(Some(giver.phone.token.clone()));
            scope.spawn(move || {
                for push in &giver.pushes {
                    let answer = way.ask(push).unwrap();
                    assert!(matches!(answer, Answer::Pushed(_)), "{answer:?}");
                }
            });
        }
    });
}

/// A hub with a crew, and what the phone of each member has for it.
fn hub_and_givers(kept: &Kept, seals: bool, bodies: &[Vec<u8>]) -> (HubHere, Vec<Giver>) {
    let here = HubHere::start(kept);
    let owner = here.crew("Ada");
    let givers = (0..PHONES).map(|number| {
        let phone = here.further(&owner, Role::Scout, &format!("Scout {number}"));
        let signer = scouts::signer(&phone);
        let pushes = if seals {
            sealed(runs(bodies), &signer)
        } else {
            runs(bodies)
                .map(|run| Ask::Push(vec![run].into()))
                .collect()
        };
        let greet = Ask::Greet {
            mine: Vec::new().into(),
            key: seals.then(|| signer.key()),
            own: Uuid::now_v7(),
        };
        let greeted = here.way(Some(phone.token.clone())).ask(&greet).unwrap();
        assert!(matches!(greeted, Answer::Greeted { .. }), "{greeted:?}");
        Giver { phone, pushes }
    });
    let givers = givers.collect();
    (here, givers)
}

fn named(what: &str, sealed: bool) -> String {
    let how = if sealed { ", sealed" } else { "" };
    format!("{what}{how}")
}

fn accepted(c: &mut Criterion, limits: &mut Limits) {
    let bodies = bodies();
    let cluster = Cluster::start();
    let mut databases = 0;
    let mut group = c.benchmark_group("changes accepted");
    group
        .sample_size(10)
        .measurement_time(Duration::from_secs(15))
        .throughput(Throughput::Elements(CHANGES));
    let push = |(here, givers): (HubHere, Vec<Giver>)| {
        push_all(&here, &givers);
        (here, givers)
    };
    let on_sqlite = [Times::default(), Times::default()];
    for (sealed, times) in [false, true].into_iter().zip(&on_sqlite) {
        group.bench_function(named("hub on SQLite", sealed), |b| {
            let ready = || hub_and_givers(&Kept::Sqlite, sealed, &bodies);
            each(b, times, ready, push);
        });
    }
    let of_sqlite = Times::default();
    group.bench_function("bare inserts into SQLite", |b| {
        each(b, &of_sqlite, bare_sqlite, |(folder, mut db)| {
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
        });
    });
    let on_postgres = [Times::default(), Times::default()];
    for (sealed, times) in [false, true].into_iter().zip(&on_postgres) {
        group.bench_function(named("hub on PostgreSQL", sealed), |b| {
            let ready = || {
                databases += 1;
                let database = cluster.database(&format!("bench{databases}"));
                hub_and_givers(&Kept::Postgres(database), sealed, &bodies)
            };
            each(b, times, ready, push);
        });
    }
    let of_postgres = Times::default();
    let bare = BarePostgres::connect(&cluster.database("bare"));
    group.bench_function("bare inserts into PostgreSQL", |b| {
        each(b, &of_postgres, || bare.empty(), |()| bare.insert(&bodies));
    });
    group.finish();
    let a_second = |times: &Times| times.within(0.5).map(|ms| CHANGES as f64 / ms * 1e3);
    let [plain_sqlite, sealed_sqlite] = &on_sqlite;
    let [plain_postgres, sealed_postgres] = &on_postgres;
    for (what, times) in [
        ("accepted by a hub on SQLite", plain_sqlite),
        ("accepted by a hub on SQLite, sealed", sealed_sqlite),
    ] {
        limits.at_least(what, a_second(times), ACCEPTED_A_SECOND, "changes/s");
    }
    for (what, times) in [
        ("bare inserts into SQLite", &of_sqlite),
        ("accepted by a hub on PostgreSQL", plain_postgres),
        ("accepted by a hub on PostgreSQL, sealed", sealed_postgres),
        ("bare inserts into PostgreSQL", &of_postgres),
    ] {
        limits.told(what, a_second(times), "changes/s");
    }
}

/// A table of changes on its own, as the hub's is.
struct BarePostgres {
    runtime: tokio::runtime::Runtime,
    client: tokio_postgres::Client,
}

impl BarePostgres {
    fn connect(url: &str) -> Self {
        let runtime = tokio::runtime::Runtime::new().unwrap();
        let client = runtime.block_on(async {
            let (client, connection) = tokio_postgres::connect(url, tokio_postgres::NoTls)
                .await
                .unwrap();
            tokio::spawn(connection);
            client
        });
        Self { runtime, client }
    }

    fn empty(&self) {
        let tables = "DROP TABLE IF EXISTS change; CREATE TABLE change (series BIGINT NOT NULL,
             seq BIGINT NOT NULL, received_at BIGINT NOT NULL, body BYTEA NOT NULL,
             PRIMARY KEY (series, seq))";
        self.runtime
            .block_on(self.client.batch_execute(tables))
            .unwrap();
    }

    fn insert(&self, bodies: &[Vec<u8>]) {
        for page in 0..i64::try_from(CHANGES).unwrap() / PAGE as i64 {
            let seqs: Vec<i64> = (page * PAGE as i64..).take(PAGE).collect();
            self.runtime
                .block_on(self.client.execute(
                    "INSERT INTO change SELECT 1, seq, 0, body
                     FROM unnest($1::bigint[], $2::bytea[]) AS fresh (seq, body)",
                    &[&seqs, &bodies],
                ))
                .unwrap();
        }
    }
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

fn automerge_document(c: &mut Criterion, limits: &mut Limits) {
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
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("document");
    std::fs::write(&file, &saved).unwrap();
    let notebook = memory::in_a_file(HEADS, folder.path());
    let a_head = |bytes: u64| Some(bytes as f64 / HEADS as f64);
    limits.told(
        "automerge: bytes a head, saved",
        a_head(saved.len() as u64),
        "bytes",
    );
    limits.told("the log before packing", a_head(packed as u64), "bytes");
    let length = std::fs::metadata(&notebook).unwrap().len();
    limits.told("the notebook's file, views too", a_head(length), "bytes");
    let mut group = c.benchmark_group("10,000 heads into memory");
    group
        .sample_size(10)
        .measurement_time(Duration::from_secs(10))
        .throughput(Throughput::Elements(HEADS));
    let (loaded, fed, opened) = (Times::default(), Times::default(), Times::default());
    group.bench_function("automerge document loaded", |b| {
        each(b, &loaded, || (), |()| AutoCommit::load(&saved).unwrap());
    });
    group.bench_function("notebook fed with the log", |b| {
        each(b, &fed, scouts::in_memory, |mut notebook| {
            for page in changes.chunks(PAGE) {
                notebook.ingest(page).unwrap();
            }
            notebook
        });
    });
    group.bench_function("notebook opened from its file", |b| {
        each(b, &opened, || (), |()| memory::opened(&notebook));
    });
    group.finish();
    for (what, times) in [
        ("automerge: loading, p50", &loaded),
        ("a notebook fed with the log, p50", &fed),
        ("a notebook opened from its file, p50", &opened),
    ] {
        limits.told(what, times.within(0.5), "ms");
    }
    let taken = |what, file| Some(memory::taken_by(what, file));
    limits.told("automerge: memory", taken("document", &file), "MB");
    limits.told(
        "an open notebook: memory",
        taken("notebook", &notebook),
        "MB",
    );
}
