//! Any bytes, and any facts that can be written, as the changes of a peer: the exchange
//! goes on, the notebook stays whole and can be asked everything, notebooks that hold
//! the same show the same, and what a change may cost is bounded.

use exchange::PageSize;
use exchange::book::Book as _;
use headwalk_tests::absurd::{self, Envelope, pages};
use headwalk_tests::devices::{SetClock, notebook_in_memory};
use headwalk_tests::memory::growth_of;
use notebook::Notebook;
use notebook::durability::check;
use notebook::fact::Body;
use proptest::prelude::*;
use serde_json::{Value, json};
use service::{AskService, Problem, ProblemCode, Service, ask};
use std::fmt::Debug;
use uuid::Uuid;
use wire::{Page, Span};

const NOW: &str = "2026-08-20T15:00:00Z";
/// Processor time of a thousand changes, without optimization and beside other tests;
/// the bench holds the released program to one second.
const THOUSAND_S: f64 = 20.0;
const THOUSAND_MB: u64 = 64;
/// The same for the list and all pages and answers afterwards.
const ASKED_S: f64 = 60.0;
const ASKED_MB: u64 = 128;

/// Pages that a person opens one by one: so many are enough to find one that costs.
const PLANTINGS_ASKED: usize = 40;
const WALKS_ASKED: usize = 5;

fn notebook() -> Notebook {
    notebook_in_memory(&SetClock::at(NOW).unwrap(), 7).unwrap()
}

fn writer(number: u8) -> Uuid {
    Uuid::from_u128(0x0199 << 112 | 0x7 << 76 | 0x8 << 60 | u128::from(number))
}

/// The series of a writer goes on as it came, byte for byte.
fn goes_on_as_it_came(notebook: &mut Notebook, device: Uuid, bodies: &[Vec<u8>]) {
    let span = Span {
        device,
        after: 0,
        to: bodies.len() as u64,
    };
    let all = PageSize {
        changes: usize::MAX,
        bytes: usize::MAX,
    };
    let held = notebook.read(span, all).unwrap();
    assert_eq!(held.len(), bodies.len());
    for (held, given) in held.iter().zip(bodies) {
        assert_eq!(&held[..], &given[..], "other bytes would be passed on");
    }
}

/// Everything that a screen asks first. A person may be told what cannot be answered;
/// a fault of ours may not come, and what is on the list has a page.
fn ask_everything(notebook: Notebook) -> Notebook {
    let mut owned = Service::new(notebook).unwrap();
    let service = &mut owned;
    let list = asked(service, ask::Plantings {});
    asked(service, ask::WorkOut {});
    asked(service, ask::Names {});
    asked(service, ask::LikelyDuplicates {});
    asked(service, ask::Hybrids {});
    asked(service, ask::HeatSets {});
    asked(service, ask::Stations {});
    for row in list.unwrap().rows.into_iter().take(PLANTINGS_ASKED) {
        let planting = row.id;
        let page = asked(service, ask::Planting { planting });
        asked(service, ask::Conflicts { planting });
        let as_of = None;
        asked(service, ask::Outlook { planting, as_of });
        asked(service, ask::Observations { planting });
        let walks = page.map(|page| page.walks).unwrap_or_default();
        for walk in walks.into_iter().take(WALKS_ASKED) {
            asked(service, ask::Walk { walk: walk.id });
        }
    }
    owned.into_notebook()
}

/// The answer; none where a person may be told what is wrong.
fn asked<A: AskService + Debug>(service: &mut Service, ask: A) -> Option<A::Answer> {
    let shown = format!("{ask:?}");
    match service.call(ask) {
        Ok(reply) => Some(reply.answer),
        Err(Problem { code, message }) => {
            let ours = matches!(
                code,
                ProblemCode::Internal | ProblemCode::Damaged | ProblemCode::NotFound
            );
            assert!(!ours, "{shown}: {message}");
            None
        }
    }
}

fn whole(notebook: &mut Notebook) {
    let check = check::check(notebook.db()).unwrap();
    assert!(check.is_sound(), "{:?}", check.first_fault());
    let before = notebook.view_digest().unwrap();
    notebook.rebuild().unwrap();
    assert_eq!(notebook.view_digest().unwrap(), before, "a rebuild differs");
}

fn take(notebook: &mut Notebook, page: &Page) {
    let taken = notebook.take_in(page, &[]);
    assert_eq!(taken, Ok(()), "the exchange would stop here");
}

fn as_text(bodies: &[Vec<u8>]) -> String {
    let lines: Vec<_> = bodies
        .iter()
        .map(|body| String::from_utf8_lossy(body))
        .collect();
    lines.join("\n")
}

/// Two writers' changes, in one order and in another: both notebooks are whole, equal,
/// and can be asked.
fn holds(first: &[Vec<u8>], second: &[Vec<u8>]) {
    let (mut one, mut other) = (notebook(), notebook());
    let (firsts, seconds) = (pages(writer(1), first), pages(writer(2), second));
    for page in firsts.iter().chain(&seconds) {
        take(&mut one, page);
    }
    for page in seconds.iter().chain(&firsts) {
        take(&mut other, page);
        // Again, as after an answer that was lost.
        take(&mut other, page);
    }
    assert_eq!(
        one.view_digest().unwrap(),
        other.view_digest().unwrap(),
        "the order of arrival shows:\n{}\nand\n{}",
        as_text(first),
        as_text(second)
    );
    goes_on_as_it_came(&mut other, writer(1), first);
    goes_on_as_it_came(&mut other, writer(2), second);
    let mut one = ask_everything(one);
    whole(&mut one);
}

fn any_bytes() -> impl Strategy<Value = Vec<u8>> {
    prop::collection::vec(any::<u8>(), 1..400)
}

/// Envelopes that can be read, around stamps and words that may be anything.
fn any_envelope() -> impl Strategy<Value = Vec<u8>> {
    let number = prop_oneof![
        any::<i64>(),
        prop::sample::select(vec![0, 1, -1, i64::MIN, i64::MAX, 1 << 62, (1 << 62) - 1]),
        (0_i64..4_000_000_000_000).prop_map(|ms| ms << 16),
    ];
    let offset = prop_oneof![any::<i32>(), -1_080..1_080_i32];
    let text = |most| {
        prop_oneof![
            any::<String>().prop_map(String::into_bytes),
            prop::collection::vec(any::<u8>(), 0..most),
            Just(b"head_read".to_vec()),
        ]
    };
    let body = prop_oneof![
        text(300),
        Just(br#"{"facts":[]}"#.to_vec()),
        Just(br#"{"facts":{}}"#.to_vec()),
        Just(br#"{"facts":[],"undoes":[18446744073709551615],"request":7}"#.to_vec()),
        Just(vec![b'['; 5_000]),
        prop::collection::vec(any_fact(), 0..4)
            .prop_map(|facts| json!({ "facts": facts }).to_string().into_bytes()),
    ];
    (number.clone(), number, offset, text(100), body).prop_map(
        |(hlc, recorded_ms, offset_min, kind, body)| {
            Envelope {
                hlc,
                recorded_ms,
                offset_min,
                kind: &kind,
                body: &body,
            }
            .bytes()
        },
    )
}

/// A fact of a known kind, of whose values up to three are absurd.
fn any_fact() -> impl Strategy<Value = Value> {
    let ids = (0_u8..6, 0_u8..6, 0_u8..6);
    let spoiled = prop::collection::vec(
        (
            any::<usize>(),
            prop::sample::select(absurd::absurd_values()),
        ),
        0..3,
    );
    (ids, any::<prop::sample::Index>(), spoiled).prop_map(|((a, b, c), which, spoiled)| {
        let facts = absurd::facts(a, b, c);
        let mut fact = facts[which.index(facts.len())].clone();
        for (place, with) in &spoiled {
            absurd::spoil(&mut fact, *place, with);
        }
        fact
    })
}

/// An honest envelope around facts that are not.
fn any_facts() -> impl Strategy<Value = Vec<u8>> {
    (prop::collection::vec(any_fact(), 1..6), 0_i64..5_000)
        .prop_map(|(facts, seconds)| absurd::around(&facts, seconds))
}

fn cases(most: u32) -> ProptestConfig {
    ProptestConfig {
        cases: most,
        failure_persistence: None,
        ..ProptestConfig::default()
    }
}

proptest! {
    #![proptest_config(cases(64))]

    #[test]
    fn any_bytes_are_taken_in(
        first in prop::collection::vec(prop_oneof![any_bytes(), any_envelope()], 1..30),
        second in prop::collection::vec(prop_oneof![any_bytes(), any_facts()], 1..10),
    ) {
        holds(&first, &second);
    }

    #[test]
    fn any_facts_are_taken_in(
        first in prop::collection::vec(any_facts(), 1..20),
        second in prop::collection::vec(any_facts(), 1..20),
    ) {
        holds(&first, &second);
    }
}

/// The facts that are spoiled above are read as they are: else the property would
/// speak of facts that are passed over.
#[test]
fn the_facts_to_be_spoiled_are_facts() {
    let facts: Vec<Value> = absurd::facts(0, 1, 2)
        .into_iter()
        // A heat set's scale is none that could be; the rest must be read.
        .filter(|fact| fact["fact"] != "soil_probe" && fact["to"]["scale"].is_null())
        .collect();
    let not_read: Vec<&Value> = facts
        .iter()
        .filter(|fact| {
            Body::read(&json!({ "facts": [fact] }).to_string())
                .facts
                .len()
                != 1
        })
        .collect();
    assert!(not_read.is_empty(), "{not_read:#?}");
}

/// One byte, in the middle of a series: what comes after it comes.
#[test]
fn a_change_of_one_byte_stops_nothing() {
    let planting = |number: u8| {
        let id = absurd::id(number);
        let name = format!("Planting {number}");
        absurd::around(
            &[json!({"fact": "set", "row": "planting", "id": id, "to": {"name": name}})],
            i64::from(number),
        )
    };
    holds(&[planting(0), vec![0x7f], planting(1)], &[planting(2)]);
    let mut after = notebook();
    for page in pages(writer(1), &[planting(0), vec![0x7f], planting(1)]) {
        take(&mut after, &page);
    }
    let mut service = Service::new(after).unwrap();
    let rows = service.call(ask::Plantings {}).unwrap().answer.rows;
    assert_eq!(rows.len(), 2, "what came after the byte is shown");
}

/// Seconds of processor time of this process: no other program's work counts.
fn processor_s() -> f64 {
    let stat = std::fs::read_to_string("/proc/self/stat").unwrap();
    let fields: Vec<&str> = stat.rsplit_once(") ").unwrap().1.split(' ').collect();
    let ticks: f64 = fields[11].parse::<f64>().unwrap() + fields[12].parse::<f64>().unwrap();
    ticks / 100.0
}

/// Runs work and says what it took: processor seconds and bytes.
fn cost_of<T>(work: impl FnOnce() -> T) -> (T, f64, u64) {
    let before = processor_s();
    let (done, grew) = growth_of(work);
    (done, processor_s() - before, grew.unwrap_or_default())
}

#[test]
fn costly_changes_are_bounded() {
    let mut failed = Vec::new();
    for (name, bodies) in absurd::costly() {
        let mut notebook = notebook();
        let pages = pages(writer(1), &bodies);
        // A single large change counts as a thousand of a kilobyte.
        let bytes: usize = bodies.iter().map(Vec::len).sum();
        let thousands = (bodies.len() as f64 / 1_000.0)
            .max(bytes as f64 / 1e6)
            .max(1.0);
        let ((), seconds, grew) = cost_of(|| {
            for page in &pages {
                take(&mut notebook, page);
            }
        });
        let (mut notebook, asked, asked_grew) = cost_of(|| ask_everything(notebook));
        println!(
            "{name}: {thousands:.1} thousands, {seconds:.2} s, {} MB; asked {asked:.2} s, {} MB",
            grew >> 20,
            asked_grew >> 20
        );
        whole(&mut notebook);
        goes_on_as_it_came(&mut notebook, writer(1), &bodies);
        let fine = seconds <= THOUSAND_S * thousands
            && grew >> 20 <= THOUSAND_MB * thousands.ceil() as u64
            && asked <= ASKED_S
            && asked_grew >> 20 <= ASKED_MB;
        if !fine {
            failed.push(name);
        }
    }
    assert!(failed.is_empty(), "too costly: {failed:#?}");
}
