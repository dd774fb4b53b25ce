//! Saving a head beside the bare insert of the same head: its change on the disk in
//! log and views, without and with the answer of the whole walk, as taps go.

use std::path::Path;
use std::time::Duration;

use criterion::Criterion;
use headwalk_tests::limit::{Limits, Times};
use notebook::Notebook;
use notebook::fact::{Act, Body, Fact, HeadRead, HeadRecord};
use notebook::log::Change;
use ripening::Head;
use rusqlite::Connection;
use service::{Keeper, NewHead, ask};
use uuid::Uuid;

use crate::season::{A_STOP, A_WALK, STORED, Scout, Season, head_of, keeper, service};

/// After all that the season holds: 2026-09-02, 15:00 UTC.
const LATER_MS: i64 = 1_788_361_200_000;

pub fn saving(criterion: &mut Criterion, season: &Season, limits: &mut Limits) {
    let (folder, path) = season.copy();
    let mut walker = Walker::new(keeper(&path), season.plantings.clone());
    let (_folder, path) = season.copy();
    let mut store = Store::new(&path, season.plantings.clone());
    let mut bare = Bare::new(&folder.path().join("bare.db"));
    let (stored, answered, inserted) = (Times::default(), Times::default(), Times::default());
    let mut round = || {
        let change = store.next();
        let ours = stored.time(|| store.notebook.ingest(&[change]).unwrap());
        walker.next();
        let save = walker.request();
        let with_answer = answered.time(|| walker.keeper.call(save).unwrap());
        let row = bare.row();
        (ours, with_answer, inserted.time(|| bare.insert(&row)))
    };

    // One after the other in turn, so that both meet the same disk and the same
    // load from others.
    let mut group = criterion.benchmark_group("save a head, 200,000 stored");
    group.measurement_time(Duration::from_secs(10));
    group.bench_function("on the disk", |bencher| {
        bencher.iter_custom(|rounds| (0..rounds).map(|_| round().0).sum());
    });
    group.bench_function("with the answer", |bencher| {
        bencher.iter_custom(|rounds| (0..rounds).map(|_| round().1).sum());
    });
    group.bench_function("bare insert of the same head", |bencher| {
        bencher.iter_custom(|rounds| (0..rounds).map(|_| round().2).sum());
    });
    group.finish();

    println!(
        "{} heads saved, each in turn with a bare one",
        stored.rounds()
    );
    for (what, times) in [
        ("saving a head", &stored),
        ("the same with the answer", &answered),
    ] {
        limits.at_most(&format!("{what}, p99"), times.within(0.99), 5.0, "ms");
        limits.told(&format!("{what}, p50"), times.within(0.5), "ms");
        limits.told(&format!("{what}, the slowest"), times.within(1.0), "ms");
    }
    limits.told("bare insert, p99", inserted.within(0.99), "ms");
    limits.told("bare insert, p50", inserted.within(0.5), "ms");
    let share = inserted.mean().zip(stored.mean());
    limits.at_least(
        "rate of saving, as a share of bare inserts'",
        share.map(|(bare, ours)| bare / ours),
        0.5,
        "",
    );
    for (what, times) in [
        ("the next stop", &walker.stops),
        ("a new walk", &walker.walks),
    ] {
        limits.told(&format!("{what}, p50"), times.within(0.5), "ms");
        limits.told(&format!("{what}, on a processor"), times.worked(), "ms");
    }
}

/// Tap after tap as a walk goes: five heads at a stop, then the next stop, and
/// after five stops a new walk in the next planting, which has ten earlier ones.
struct Walker {
    keeper: Keeper,
    plantings: Vec<Uuid>,
    walk: Uuid,
    stop: Uuid,
    heads: usize,
    stops: Times,
    walks: Times,
}

impl Walker {
    fn new(keeper: Keeper, plantings: Vec<Uuid>) -> Walker {
        Walker {
            keeper,
            plantings,
            walk: Uuid::nil(),
            stop: Uuid::nil(),
            heads: 0,
            stops: Times::default(),
            walks: Times::default(),
        }
    }

    /// What comes between two heads; timed on its own.
    fn next(&mut self) {
        if self.heads.is_multiple_of(A_WALK) {
            let number = self.heads / A_WALK;
            let request = ask::StartWalk {
                id: None,
                planting: self.plantings[number % self.plantings.len()],
                walked_on: None,
                scout: None,
            };
            self.walks.time(|| {
                let page = self.keeper.call(request).unwrap().answer;
                (self.walk, self.stop) = (page.id, page.stops[0].id);
            });
        } else if self.heads.is_multiple_of(A_STOP) {
            let request = ask::AddStop {
                id: None,
                walk: self.walk,
                place: None,
            };
            self.stops.time(|| {
                let page = self.keeper.call(request).unwrap().answer;
                self.stop = page.stops.last().unwrap().id;
            });
        }
        self.heads += 1;
    }

    fn request(&self) -> ask::AddHead {
        ask::AddHead {
            id: None,
            stop: self.stop,
            head: NewHead {
                head: a_head(self.heads),
                flags: vec![],
                note: None,
            },
        }
    }
}

/// The store alone: the same changes as taps make, one transaction each.
struct Store {
    notebook: Notebook,
    scout: Scout,
    plantings: Vec<Uuid>,
    walks: usize,
    /// Of the walk under way, the last first.
    rest: Vec<Change>,
}

impl Store {
    fn new(path: &Path, plantings: Vec<Uuid>) -> Store {
        let notebook = service(path).into_notebook();
        Store {
            scout: Scout::of(&notebook, LATER_MS),
            notebook,
            plantings,
            walks: 0,
            rest: Vec::new(),
        }
    }

    /// The next head; what comes before it is stored already.
    fn next(&mut self) -> Change {
        loop {
            if let Some(change) = self.rest.pop() {
                if change.kind == Act::HeadRead.name() {
                    return change;
                }
                self.notebook.ingest(&[change]).unwrap();
                continue;
            }
            let planting = self.plantings[self.walks % self.plantings.len()];
            self.rest = self.scout.walk(planting, self.walks, 10);
            self.rest.reverse();
            self.walks += 1;
        }
    }
}

fn a_head(number: usize) -> Head {
    head_of(10, number * 13)
}

/// The limit: the same head as one row of one table with an index, its words
/// beside it as the notebook's log has them, as durably.
struct Bare {
    db: Connection,
    rows: usize,
}

struct Row {
    id: Uuid,
    stop: Uuid,
    recorded_ms: i64,
    head: Head,
    body: String,
}

impl Bare {
    fn new(path: &Path) -> Bare {
        let db = Connection::open(path).unwrap();
        db.execute_batch(
            "PRAGMA journal_mode = WAL;
             PRAGMA synchronous = FULL;
             PRAGMA cache_size = -16000;
             CREATE TABLE head (
                 id          BLOB    NOT NULL PRIMARY KEY,
                 stop        BLOB    NOT NULL,
                 reading     TEXT    NOT NULL,
                 share       INTEGER,
                 recorded_ms INTEGER NOT NULL,
                 offset_min  INTEGER NOT NULL,
                 kind        TEXT    NOT NULL,
                 body        TEXT    NOT NULL
             ) STRICT, WITHOUT ROWID;
             CREATE INDEX head_by_stop ON head (stop);",
        )
        .unwrap();
        let mut bare = Bare { db, rows: 0 };
        bare.db.execute_batch("BEGIN").unwrap();
        for _ in 0..STORED {
            let row = bare.row();
            bare.insert(&row);
        }
        bare.db.execute_batch("COMMIT").unwrap();
        let durable: i64 = bare
            .db
            .query_row("PRAGMA synchronous", [], |row| row.get(0))
            .unwrap();
        assert_eq!(durable, 2);
        bare
    }

    fn row(&mut self) -> Row {
        self.rows += 1;
        let ms = 1_790_000_000_000 + 9_137 * self.rows as u64;
        let id =
            |what: u8, ms| uuid::Builder::from_unix_timestamp_millis(ms, &[what; 10]).into_uuid();
        let stop = id(2, ms - ms % (9_137 * A_STOP as u64));
        let head = a_head(self.rows);
        let read = HeadRead {
            id: id(1, ms),
            said: HeadRecord {
                head,
                flags: vec![],
                note: None,
            },
            extra: None,
        };
        let fact = Fact::Heads {
            walk: id(3, 1_790_000_000_000),
            stop,
            heads: vec![read],
        };
        Row {
            id: id(1, ms),
            stop,
            recorded_ms: ms.cast_signed(),
            head,
            body: serde_json::to_string(&Body::of(vec![fact])).unwrap(),
        }
    }

    fn insert(&self, row: &Row) {
        self.db
            .prepare_cached("INSERT INTO head VALUES (?1, ?2, ?3, ?4, ?5, -300, ?6, ?7)")
            .unwrap()
            .execute((
                row.id,
                row.stop,
                row.head.reading().word(),
                row.head.share().map(ripening::Share::percent),
                row.recorded_ms,
                Act::HeadRead.name(),
                &row.body,
            ))
            .unwrap();
    }
}
