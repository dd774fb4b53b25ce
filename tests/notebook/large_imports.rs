//! Large head files: taps come in between, and a kill leaves nothing half done.

use std::fmt::Write as _;
use std::io::Cursor;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::Path;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, AtomicI64, Ordering};
use std::thread;
use std::time::{Duration, Instant};

use chrono::{DateTime, FixedOffset};
use headwalk_tests::devices::{Seeded, SetClock};
use notebook::{Clock, Notebook};
use ripening::Reading;
use service::{
    FileOut, HeadFileReview, Keep, PlaceOrder, Problem, Service, SharedService, ask, import_heads,
};

use super::faces::{Face, NOON, head, named};

/// Plantings of `walks` walks each, a stop of five heads in each walk.
fn file(plantings: usize, walks: usize, share: usize) -> String {
    let mut text = "planting,walked_on,stop,reading,share\n".to_owned();
    for planting in 0..plantings {
        for walk in 0..walks {
            for head in 0..5 {
                let day = 1 + walk % 28;
                let month = 1 + walk / 28;
                let share = 1 + (head * 7 + planting + share) % 100;
                writeln!(
                    text,
                    "Planting {planting},2026-{month:02}-{day:02},{},pliable,{share}",
                    1 + head / 3
                )
                .unwrap();
            }
        }
    }
    text
}

/// A clock that stands, and ends the program when it was asked so many times: once
/// for each transaction.
struct Killing {
    clock: SetClock,
    left: Arc<AtomicI64>,
}

impl Clock for Killing {
    fn now(&self) -> DateTime<FixedOffset> {
        assert_ne!(self.left.fetch_sub(1, Ordering::Relaxed), 1, "killed");
        self.clock.now()
    }
}

/// Opens the notebook with a clock that is asked `left` times; any number of times
/// where that is 0.
fn open(path: &Path, left: i64) -> Notebook {
    let armed = Arc::new(AtomicI64::new(0));
    let clock = Killing {
        clock: SetClock::at(NOON).unwrap(),
        left: Arc::clone(&armed),
    };
    let notebook = Notebook::open(path, Box::new(clock), Box::new(Seeded::new(1))).unwrap();
    armed.store(left, Ordering::Relaxed);
    notebook
}

fn import(notebook: &mut Notebook, text: &str) -> Result<HeadFileReview, Problem> {
    import_heads(notebook, text.as_bytes(), Keep::GoodRows, |_| Ok(())).map(|(review, _)| review)
}

/// Imports, and is killed at the transaction of this number; whether it came so far.
fn killed(path: &Path, text: &str, transaction: i64) -> bool {
    let mut notebook = open(path, transaction);
    catch_unwind(AssertUnwindSafe(|| import(&mut notebook, text).unwrap())).is_err()
}

/// The rows of the notebook's heads, in any order.
fn rows(notebook: Notebook) -> Vec<String> {
    let mut made = Cursor::new(Vec::new());
    let mut service = Service::new(notebook).unwrap();
    service.file_out(&FileOut::Heads, &mut made).unwrap();
    let text = String::from_utf8(made.into_inner()).unwrap();
    let mut rows: Vec<String> = text.lines().skip(1).map(str::to_owned).collect();
    rows.sort();
    rows
}

/// Rounds of kills, before it is a fault that none came after the decision.
const MOST_ROUNDS: u32 = 6;

#[test]
fn a_kill_between_any_two_transactions_shows_all_or_nothing_and_the_next_import_goes_on() {
    let text = file(30, 40, 0);
    let folder = tempfile::tempdir().unwrap();
    let undisturbed = folder.path().join("undisturbed.notebook");
    let mut notebook = open(&undisturbed, 0);
    import(&mut notebook, &text).unwrap();
    let all = rows(notebook);
    assert_eq!(all.len(), 6_000);

    let (mut nothing, mut whole) = (0, 0);
    // A lot is as large as its time allows, so no two runs have the same transactions,
    // and all kills of a round may come before the deciding one.
    let mut round = 0;
    let mut transaction = 1;
    while round == 0 || (whole == 0 && round < MOST_ROUNDS) {
        let path = folder
            .path()
            .join(format!("{round}-{transaction}.notebook"));
        if !killed(&path, &text, transaction) {
            round += 1;
            transaction = 1;
            continue;
        }
        let opened = open(&path, 0);
        let seen = Service::new(opened).unwrap().rows().len();
        let shown = rows(open(&path, 0));
        match shown.len() {
            0 => nothing += 1,
            6_000 => whole += 1,
            some => panic!("killed at transaction {transaction}: {some} heads"),
        }
        assert_eq!(seen, if shown.is_empty() { 0 } else { 30 });
        let mut again = open(&path, 0);
        let review = import(&mut again, &text).unwrap();
        assert_eq!(review.heads, 6_000);
        let known = u32::try_from(shown.len()).unwrap();
        assert_eq!(review.already_here, known, "killed at {transaction}");
        // Told in other changes than where nothing was cut off, the heads are the same.
        let digest = again.view_digest().unwrap();
        again.rebuild().unwrap();
        assert_eq!(again.view_digest().unwrap(), digest);
        assert_eq!(rows(again), all);
        transaction += 1;
    }
    println!("{nothing} kills showed nothing of it, {whole} all of it");
    assert!(nothing >= 3, "{nothing} kills before it was decided");
    assert!(whole >= 1, "{whole} kills after it was decided");
}

#[test]
fn what_a_cut_off_import_left_is_not_shown_with_the_file_that_was_mended() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("n.notebook");
    let (wrong, right) = (file(10, 80, 3), file(10, 80, 50));
    assert!(killed(&path, &wrong, 2), "its first lot is written");
    let mut notebook = open(&path, 0);
    import(&mut notebook, &right).unwrap();
    let shown = rows(notebook);
    let expected = {
        let mut notebook = open(&folder.path().join("other.notebook"), 0);
        import(&mut notebook, &right).unwrap();
        rows(notebook)
    };
    assert_eq!(shown, expected);
    // The first file is imported after all: its heads come beside the others.
    let mut notebook = open(&path, 0);
    import(&mut notebook, &wrong).unwrap();
    assert_eq!(rows(notebook).len(), 8_000);
}

#[test]
fn heads_for_walks_that_are_shown_come_all_at_once() {
    let folder = tempfile::tempdir().unwrap();
    let text = file(10, 80, 0);
    let mut grown = text.clone();
    for row in text.lines().skip(1) {
        writeln!(grown, "{}", row.replace("pliable", "dented")).unwrap();
    }
    for transaction in 1.. {
        let path = folder.path().join(format!("{transaction}.notebook"));
        import(&mut open(&path, 0), &text).unwrap();
        if !killed(&path, &grown, transaction) {
            assert!(transaction >= 3);
            break;
        }
        let shown = rows(open(&path, 0)).len();
        assert!(shown == 4_000 || shown == 8_000, "{shown}");
        import(&mut open(&path, 0), &grown).unwrap();
        assert_eq!(rows(open(&path, 0)).len(), 8_000);
    }
}

/// Rows of the import beside which taps are made.
fn rows_beside_taps() -> usize {
    let long = std::env::var_os("HEADWALK_LONG").is_some();
    if long { 300_000 } else { 40_000 }
}

#[test]
fn taps_beside_an_import_are_all_taken_and_come_in_between_its_lots() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("n.notebook");
    let face = SharedService::open(&path, None).unwrap();
    let planting = face.call(ask::AddPlanting {
        new: named("Tapped"),
    });
    let started = face.call(ask::StartWalk {
        id: None,
        planting: planting.unwrap().answer.id,
        walked_on: None,
        scout: None,
    });
    let walk = started.unwrap().answer;
    let text = file(rows_beside_taps() / 500, 100, 0);
    let done = AtomicBool::new(false);
    let (slowest, taps) = thread::scope(|scope| {
        let import = scope.spawn(|| {
            let imported = face.call(ask::ImportHeadFile { text });
            done.store(true, Ordering::Relaxed);
            imported
        });
        let (mut slowest, mut taps) = (Duration::ZERO, 0);
        while !done.load(Ordering::Relaxed) {
            let begun = Instant::now();
            // None is refused.
            let added = face.call(ask::AddHead {
                id: None,
                stop: walk.stops[0].id,
                head: head(Reading::Pliable, 40),
            });
            added.unwrap();
            slowest = slowest.max(begun.elapsed());
            taps += 1;
            thread::sleep(Duration::from_millis(20));
        }
        import.join().unwrap().unwrap();
        (slowest, taps)
    });
    println!("{taps} taps beside the import, the slowest {slowest:?}");
    face.with_notebook(|notebook| {
        let one =
            |sql: &str| -> i64 { notebook.db().query_row(sql, [], |row| row.get(0)).unwrap() };
        // All that one transaction writes was received at one instant.
        let of_a_lot = one("SELECT max(heads) FROM (SELECT count(*) AS heads FROM head
               JOIN change ON change.device = head.read_device AND change.seq = head.read_seq
               WHERE change.kind = 'file_imported' GROUP BY change.received_ms)");
        assert!(of_a_lot <= 20_000, "{of_a_lot}");
        let between = one("SELECT count(*) FROM change WHERE kind = 'head_read'
             AND seq > (SELECT min(seq) FROM change WHERE kind = 'file_imported')
             AND seq < (SELECT max(seq) FROM change WHERE kind = 'file_imported')");
        assert!(between >= 2, "{between}");
    });
}

#[test]
fn a_walk_of_more_stops_or_heads_than_can_be_is_refused_in_one_line() {
    let clock = SetClock::at(NOON).unwrap();
    let mut service = headwalk_tests::devices::service_in_memory(&clock, 1).unwrap();
    let mut stops = "planting,walked_on,stop,reading,share\n".to_owned();
    for stop in 0..401 {
        writeln!(stops, "P,2026-08-01,{stop},pliable,40").unwrap();
    }
    let refused = service.refuse(ask::ImportHeadFile { text: stops });
    assert_eq!(
        refused.message,
        "line 402: the walk of 'P' on 2026-08-01 has more than 400 stops, the most that one walk \
         may have: check the column stop"
    );
    let mut heads = "planting,walked_on,stop,reading,share\n".to_owned();
    for _ in 0..30_001 {
        heads += "P,2026-08-01,1,pliable,40\n";
    }
    let refused = service.refuse(ask::ImportHeadFile { text: heads });
    assert!(
        refused.message.contains("more than 30000 heads"),
        "{refused}"
    );
}

#[test]
fn swapped_latitudes_and_longitudes_are_asked_about() {
    let clock = SetClock::at(NOON).unwrap();
    let mut service = headwalk_tests::devices::service_in_memory(&clock, 1).unwrap();
    let text =
        |rows: &str| format!("planting,walked_on,stop,reading,share,latitude,longitude\n{rows}\n");
    let import = |text: &str| ask::ImportHeadFile {
        text: text.to_owned(),
    };
    service.ask(import(&text("P,2026-08-01,1,pliable,40,-33.1,-61.2")));
    let swapped = text("P,2026-08-02,1,pliable,40,-61.21,-33.12");
    let reviewed = service.ask(ask::ReviewHeadFile {
        text: swapped.clone(),
    });
    let review = reviewed.answer;
    assert_eq!(review.swapped_places, 1);
    let refused = service.refuse(import(&swapped));
    assert!(
        refused.message.contains("latitude and longitude swapped"),
        "{refused}"
    );
    // Answered, it is stored as was said, and not twice.
    let answered = |places| ask::ImportHeadFilePlaced {
        text: swapped.clone(),
        places,
    };
    let stored = |service: &mut Service, places| {
        let review = service.ask(answered(places)).answer;
        (review.heads - review.already_here, review.swapped_places)
    };
    assert_eq!(stored(&mut service, PlaceOrder::Swapped), (1, 0));
    assert_eq!(stored(&mut service, PlaceOrder::Swapped), (0, 0));
    assert_eq!(stored(&mut service, PlaceOrder::AsWritten), (1, 0));
    // Somewhere else altogether is nothing to ask about.
    service.ask(import(&text("P,2026-08-03,1,pliable,40,38.5,-99.2")));
}

/// West of 90 degrees a longitude is no latitude: such rows are refused as written, and
/// asked about all the same.
#[test]
fn places_that_can_only_be_swapped_are_asked_about() {
    let clock = SetClock::at(NOON).unwrap();
    let mut service = headwalk_tests::devices::service_in_memory(&clock, 1).unwrap();
    let header = "planting,walked_on,stop,reading,share,latitude,longitude";
    let rows = "P,2026-08-02,1,pliable,40,-99.2,38.5\nP,2026-08-02,2,pliable,60,-99.2,38.5";
    let text = format!("{header}\n{rows}\n");
    let reviewed = service.ask(ask::ReviewHeadFile { text: text.clone() });
    let review = reviewed.answer;
    assert_eq!(
        (review.heads, review.refused, review.swapped_places),
        (0, 2, 2)
    );
    let places = PlaceOrder::Swapped;
    let reviewed = service.ask(ask::ReviewHeadFilePlaced {
        text: text.clone(),
        places,
    });
    let review = reviewed.answer;
    assert_eq!(
        (review.heads, review.refused, review.swapped_places),
        (2, 0, 0)
    );
    service.ask(ask::ImportHeadFilePlaced { text, places });
    // A mistyped row that is no place either way round is no such question.
    let reviewed = service.ask(ask::ReviewHeadFile {
        text: format!("{header}\n{rows}\nP,2026-08-03,1,pliable,40,138.5,-99.2\n"),
    });
    let review = reviewed.answer;
    assert_eq!((review.refused, review.swapped_places), (3, 2));
}
