//! A series takes only what its writer signed: at the hub, on the phones, in files.

use crate::cluster::Cluster;
use crate::hub_here::{HubHere, Kept, Phone, patient};
use crate::scouts::{exchange, head_file, in_memory, open, record, signer};
use exchange::book::Book as _;
use exchange::meet::{Met, Way, meet};
use exchange::own_book::pack;
use exchange::{LeftAlone, PageSize, Trouble, file};
use hub::store::Store;
use hub::store::sqlite::SqliteStore;
use notebook::Notebook;
use notebook::log::{self, Change};
use serde_bytes::ByteBuf;
use std::collections::BTreeMap;
use std::ops::ControlFlow;
use std::sync::Arc;
use uuid::Uuid;
use wire::frame;
use wire::seal::{Link, PublicKey, Writer};
use wire::{Answer, Ask, Leaf, PAGE_CHANGES, Refusal, Role, Run, RunSeal, SealedRun, Span, Tag};

type Story = (&'static str, fn(&Kept));

const STORIES: &[Story] = &[
    ("nobody adds to another's series", nobody_adds_to_anothers),
    ("sealed changes are carried by others", carried_by_others),
    ("a hub that changes what it passes on", a_hub_that_lies),
    ("a hub that says the phone was copied", a_hub_that_forks),
    ("a phone set back keeps its key", a_phone_set_back),
    ("a phone that joins anew", a_new_key),
    ("an older app and its update", an_older_app),
    ("a membership has one key", one_key),
];

#[test]
fn signed_on_sqlite() {
    for (name, story) in STORIES {
        println!("{name}");
        story(&Kept::Sqlite);
    }
}

#[test]
fn signed_on_postgresql() {
    let cluster = Cluster::start();
    for (number, (name, story)) in STORIES.iter().enumerate() {
        println!("{name}");
        story(&Kept::Postgres(
            cluster.database(&format!("signed{number}")),
        ));
    }
}

fn ask(here: &HubHere, phone: &Phone, ask: &Ask) -> Answer {
    here.way(Some(phone.token.clone())).ask(ask).unwrap()
}

fn end(notebook: &Notebook, series: Uuid) -> u64 {
    let ends = log::heads(notebook.db()).unwrap();
    ends.get(&series).map_or(0, |end| end.seq)
}

fn same(one: &mut Notebook, other: &mut Notebook) {
    assert_eq!(one.heads().unwrap(), other.heads().unwrap());
    assert_eq!(one.view_digest().unwrap(), other.view_digest().unwrap());
}

/// Whether a planting was renamed by the forged change.
fn is_forged(notebook: &Notebook) -> bool {
    notebook
        .db()
        .prepare("SELECT 1 FROM planting WHERE name = 'Forged'")
        .unwrap()
        .exists([])
        .unwrap()
}

fn heads_in(notebook: &Notebook) -> i64 {
    notebook
        .db()
        .query_row("SELECT count(*) FROM head WHERE NOT removed", [], |row| {
            row.get(0)
        })
        .unwrap()
}

/// A change that renames a planting, in the name of a device.
fn renaming(notebook: &Notebook, device: Uuid) -> Change {
    let planting: Uuid = notebook
        .db()
        .query_row("SELECT id FROM planting LIMIT 1", [], |row| row.get(0))
        .unwrap();
    let seq = end(notebook, device);
    let last = log::change_at(notebook.db(), device, seq).unwrap().unwrap();
    let body = format!(
        r#"{{"facts":[{{"fact":"set","row":"planting","id":"{planting}","to":{{"name":"Forged"}}}}]}}"#
    );
    Change {
        seq: seq + 1,
        hlc: last.hlc.next(1_787_300_000_000),
        kind: "planting_edited".to_owned(),
        body,
        ..last
    }
}

/// The change as a run: without a seal, and with one of the phone's own key.
fn forgeries(notebook: &mut Notebook, forged: &Change, by: &Phone) -> [SealedRun; 2] {
    let run = Run {
        device: forged.device,
        after: forged.seq - 1,
        bodies: vec![pack(forged).unwrap()].into(),
    };
    let signer = signer(by);
    let writer = Writer::plain(signer.key());
    let link = notebook
        .link(forged.device, run.after, Link::START)
        .unwrap()
        .after_all(&run.bodies);
    let seal = RunSeal {
        key: signer.key(),
        signature: signer.seal(&writer, forged.device, forged.seq, link),
        origin: None,
    };
    let sealed = SealedRun {
        run: run.clone(),
        seal: Some(seal),
    };
    [run.into(), sealed]
}

fn nobody_adds_to_anothers(kept: &Kept) {
    let here = HubHere::start(kept);
    let owner = here.crew("Ada");
    let scout = here.further(&owner, Role::Scout, "Ben");
    let mut ada = record(in_memory(), &head_file("North 40", "Ada", 20));
    let mut ben = in_memory();
    let series = ada.device();
    exchange(&here, &mut ada, &owner).unwrap();
    exchange(&here, &mut ben, &scout).unwrap();
    let forged = renaming(&ben, series);
    let refused = Answer::Refused(Refusal::NotYours(series));
    for run in forgeries(&mut ben, &forged, &scout) {
        let push = Ask::PushSealed(vec![run.clone()].into());
        assert_eq!(ask(&here, &scout, &push), refused);
        // As an older app asks. The owner cannot either, without the key.
        let push = Ask::Push(vec![run.run].into());
        assert_eq!(ask(&here, &scout, &push), refused);
        assert_eq!(ask(&here, &owner, &push), refused);
    }
    // A phone that holds the forged change has no seal for it, and keeps it.
    ben.ingest(&[forged]).unwrap();
    assert!(is_forged(&ben), "the change would have told");
    assert_eq!(exchange(&here, &mut ben, &scout).unwrap().held_back, 1);
    let mut ada = record(ada, &head_file("East 10", "Ada", 5));
    let met = exchange(&here, &mut ada, &owner).unwrap();
    assert!(met.mended.is_empty() && met.moved.is_empty() && met.left_alone.is_empty());
    assert_eq!(ada.device(), series, "the owner goes on in her series");
    assert!(!is_forged(&ada));
    let mut cal = in_memory();
    let third = here.further(&owner, Role::Scout, "Cal");
    exchange(&here, &mut cal, &third).unwrap();
    same(&mut ada, &mut cal);
}

fn carried_by_others(kept: &Kept) {
    let here = HubHere::start(kept);
    let owner = here.crew("Ada");
    let scout = here.further(&owner, Role::Scout, "Ben");
    let mut ada = record(in_memory(), &head_file("North 40", "Ada", 20));
    ada.sign_with(signer(&owner));
    let series = ada.device();
    let mut bytes = Vec::new();
    file::write(&mut ada, owner.joined.crew, &BTreeMap::new(), &mut bytes).unwrap();
    let mut ben = in_memory();
    let taken = file::read(&mut ben, owner.joined.crew, &mut bytes.as_slice()).unwrap();
    assert!(taken.new > 0 && taken.left_alone.is_empty());
    // The one with signal brings them, and can add nothing to them.
    let met = exchange(&here, &mut ben, &scout).unwrap();
    assert_eq!(met.progress.sent, taken.new);
    let forged = renaming(&ben, series);
    for run in forgeries(&mut ben, &forged, &scout) {
        let push = Ask::PushSealed(vec![run].into());
        let refused = Answer::Refused(Refusal::NotYours(series));
        assert_eq!(ask(&here, &scout, &push), refused);
    }
    let mut ada = record(ada, &head_file("East 10", "Ada", 5));
    let met = exchange(&here, &mut ada, &owner).unwrap();
    assert!(met.progress.sent > 0 && met.moved.is_empty() && met.left_alone.is_empty());
    exchange(&here, &mut ben, &scout).unwrap();
    same(&mut ada, &mut ben);
}

/// A hub's answers as somebody else would have them.
struct Lying<W, F> {
    way: W,
    lie: F,
}

impl<W: Way, F: FnMut(&Ask, Answer) -> Answer> Way for Lying<W, F> {
    fn ask(&mut self, ask: &Ask) -> Result<Answer, Trouble> {
        let answer = self.way.ask(ask)?;
        Ok((self.lie)(ask, answer))
    }
}

fn exchange_through(way: &mut dyn Way, notebook: &mut Notebook, phone: &Phone) -> Met {
    notebook.sign_with(signer(phone));
    meet(notebook, way, PageSize::default(), &mut |_| {
        ControlFlow::Continue(())
    })
    .unwrap()
}

/// The run with the last body replaced.
fn swapped(run: &Run, body: &ByteBuf) -> Run {
    let mut bodies = run.bodies.to_vec();
    bodies.pop();
    bodies.push(body.clone());
    Run {
        bodies: bodies.into(),
        ..run.clone()
    }
}

fn a_hub_that_lies(kept: &Kept) {
    let here = HubHere::start(kept);
    let owner = here.crew("Ada");
    let (scout, third) = (
        here.further(&owner, Role::Scout, "Ben"),
        here.further(&owner, Role::Scout, "Cal"),
    );
    let mut ada = record(in_memory(), &head_file("North 40", "Ada", 20));
    let mut cal = record(in_memory(), &head_file("South 20", "Cal", 5));
    let mut ben = in_memory();
    exchange(&here, &mut ada, &owner).unwrap();
    exchange(&here, &mut ben, &scout).unwrap();
    let (series, before) = (ada.device(), end(&ben, ada.device()));
    let mut ada = record(ada, &head_file("East 10", "Ada", 10));
    exchange(&here, &mut ada, &owner).unwrap();
    exchange(&here, &mut cal, &third).unwrap();
    let forged = pack(&renaming(&ben, series)).unwrap();
    let other_key = signer(&third);
    for seal_kept in [true, false] {
        let mut way = Lying {
            way: here.way(Some(scout.token.clone())),
            lie: |_: &Ask, answer: Answer| match answer {
                Answer::PulledSealed(page) => {
                    let lie = |sealed: SealedRun| {
                        if sealed.run.device != series {
                            return sealed;
                        }
                        SealedRun {
                            run: swapped(&sealed.run, &forged),
                            seal: sealed.seal.filter(|_| seal_kept),
                        }
                    };
                    Answer::PulledSealed(page.into_vec().into_iter().map(lie).collect())
                }
                other => other,
            },
        };
        let met = exchange_through(&mut way, &mut ben, &scout);
        assert_eq!(met.left_alone.get(&series), Some(&LeftAlone::NotSigned));
        assert_eq!(end(&ben, series), before, "nothing of it is taken");
        assert!(!is_forged(&ben));
        assert!(end(&ben, cal.device()) > 0, "the others go on");
    }
    // Another key in the roster.
    let mut way = Lying {
        way: here.way(Some(scout.token.clone())),
        lie: |_: &Ask, answer: Answer| match answer {
            Answer::Greeted {
                heads,
                forked,
                role,
                mut roster,
            } => {
                let mut writers = roster.writers.to_vec();
                writers
                    .iter_mut()
                    .for_each(|entry| entry.key = other_key.key());
                roster.writers = writers.into();
                Answer::Greeted {
                    heads,
                    forked,
                    role,
                    roster,
                }
            }
            other => other,
        },
    };
    let met = exchange_through(&mut way, &mut ben, &scout);
    assert_eq!(met.left_alone.get(&series), Some(&LeftAlone::OtherKey));
    assert_eq!(end(&ben, series), before);
    // The hub comes to its senses.
    let met = exchange(&here, &mut ben, &scout).unwrap();
    assert!(met.left_alone.is_empty());
    exchange(&here, &mut ada, &owner).unwrap();
    same(&mut ada, &mut ben);
}

fn a_hub_that_forks(kept: &Kept) {
    let here = HubHere::start(kept);
    let owner = here.crew("Ada");
    let mut ada = record(in_memory(), &head_file("North 40", "Ada", 20));
    exchange(&here, &mut ada, &owner).unwrap();
    let mut ada = record(ada, &head_file("East 10", "Ada", 10));
    let (series, before) = (ada.device(), ada.heads().unwrap());
    let forged = pack(&renaming(&ada, series)).unwrap();
    let mut way = Lying {
        way: here.way(Some(owner.token.clone())),
        lie: |_: &Ask, answer: Answer| match answer {
            Answer::Greeted {
                mut heads,
                role,
                roster,
                ..
            } => {
                if let Some(mark) = heads.get_mut(&series) {
                    mark.tag = Tag::of(&forged);
                }
                Answer::Greeted {
                    heads,
                    forked: vec![series],
                    role,
                    roster,
                }
            }
            Answer::Tags(tags) => Answer::Tags(tags.iter().map(|_| Tag::of(&forged)).collect()),
            Answer::PulledSealed(page) => {
                let lie = |sealed: SealedRun| SealedRun {
                    run: swapped(&sealed.run, &forged),
                    ..sealed
                };
                Answer::PulledSealed(page.into_vec().into_iter().map(lie).collect())
            }
            other => other,
        },
    };
    let met = exchange_through(&mut way, &mut ada, &owner);
    assert!(matches!(
        met.left_alone.get(&series),
        Some(LeftAlone::NotSigned | LeftAlone::Incoherent)
    ));
    assert!(met.moved.is_empty() && met.mended.is_empty());
    assert_eq!(ada.device(), series);
    assert_eq!(ada.heads().unwrap(), before, "nothing moved");
    let met = exchange(&here, &mut ada, &owner).unwrap();
    assert!(met.progress.sent > 0 && met.left_alone.is_empty());
}

/// The keys that the hub names.
fn roster(here: &HubHere, phone: &Phone) -> BTreeMap<Uuid, PublicKey> {
    let greet = Ask::Greet {
        mine: Vec::new().into(),
        key: None,
        own: Uuid::nil(),
    };
    match ask(here, phone, &greet) {
        Answer::Greeted { heads, roster, .. } => roster.keys(&heads),
        other => panic!("{other:?}"),
    }
}

fn a_phone_set_back(kept: &Kept) {
    let here = HubHere::start(kept);
    let owner = here.crew("Ada");
    let scout = here.further(&owner, Role::Scout, "Ben");
    let folder = tempfile::tempdir().unwrap();
    let (now, backup) = (folder.path().join("now"), folder.path().join("backup"));
    let mut ada = record(open(&now), &head_file("North 40", "Ada", 10));
    exchange(&here, &mut ada, &owner).unwrap();
    let to = backup.display().to_string();
    ada.db().execute("VACUUM INTO ?1", [to]).unwrap();
    let series = ada.device();
    let mut ada = record(ada, &head_file("East 10", "Ada", 12));
    exchange(&here, &mut ada, &owner).unwrap();
    drop(ada);
    let mut ada = record(open(&backup), &head_file("South 20", "Ada", 7));
    // Somebody gets the second branch from hand to hand, with the phone's seal.
    ada.sign_with(signer(&owner));
    let mut bytes = Vec::new();
    file::write(&mut ada, owner.joined.crew, &BTreeMap::new(), &mut bytes).unwrap();
    let mut ben = in_memory();
    file::read(&mut ben, owner.joined.crew, &mut bytes.as_slice()).unwrap();
    let met = exchange(&here, &mut ben, &scout).unwrap();
    assert_eq!(met.mended, [series]);
    assert!(met.moved.is_empty(), "it is not Ben's own series");
    let met = exchange(&here, &mut ada, &owner).unwrap();
    assert_eq!(met.mended, [series]);
    let [moved] = met.moved[..] else {
        panic!("{:?}", met.moved);
    };
    assert_eq!((moved.series, moved.now), (series, ada.device()));
    exchange(&here, &mut ben, &scout).unwrap();
    exchange(&here, &mut ada, &owner).unwrap();
    same(&mut ada, &mut ben);
    let named = roster(&here, &owner);
    let key = signer(&owner).key();
    // Ben brought the branch, and it is Ada's all the same.
    for series in [series, moved.branch.unwrap(), moved.now] {
        assert_eq!(named.get(&series), Some(&key), "{series}");
    }
}

fn a_new_key(kept: &Kept) {
    let here = HubHere::start(kept);
    let owner = here.crew("Ada");
    let (first, scout) = (
        here.further(&owner, Role::Scout, "Ben"),
        here.further(&owner, Role::Scout, "Cal"),
    );
    let mut ben = record(in_memory(), &head_file("North 40", "Ben", 10));
    exchange(&here, &mut ben, &first).unwrap();
    let series = ben.device();
    let sealed = end(&ben, series);
    // Removed, and back with another membership and another key.
    let remove = Ask::RemoveDevice {
        device: first.joined.device,
    };
    assert_eq!(ask(&here, &owner, &remove), Answer::Done);
    let mut ben = record(ben, &head_file("South 20", "Ben", 10));
    let again = here.further(&owner, Role::Scout, "Ben");
    let met = exchange(&here, &mut ben, &again).unwrap();
    assert_eq!(met.moved.len(), 1);
    assert!(met.left_alone.is_empty() && met.mended.is_empty());
    assert_eq!(
        end(&ben, series),
        sealed,
        "what was given stays where it was"
    );
    assert_ne!(ben.device(), series);
    let mut cal = in_memory();
    exchange(&here, &mut cal, &scout).unwrap();
    same(&mut ben, &mut cal);
    assert_eq!(heads_in(&cal), 20, "nothing lost, nothing twice");
    // It goes on in its new series without another word.
    let mut ben = record(ben, &head_file("West 5", "Ben", 3));
    let met = exchange(&here, &mut ben, &again).unwrap();
    assert!(met.progress.sent > 0 && met.moved.is_empty());
}

/// Gives the hub what it lacks of the notebook's own series, as an older app does.
fn push_as_before(here: &HubHere, phone: &Phone, notebook: &mut Notebook) -> Answer {
    let mine: Vec<_> = notebook.heads().unwrap().into_iter().collect();
    let Answer::Heads { heads, .. } = ask(here, phone, &Ask::Heads { mine: mine.into() }) else {
        panic!("no heads");
    };
    let device = notebook.device();
    let after = heads.get(&device).map_or(0, |mark| mark.seq);
    let to = end(notebook, device);
    let bodies = notebook
        .read(Span { device, after, to }, PageSize::default())
        .unwrap();
    let run = Run {
        device,
        after,
        bodies: bodies.into(),
    };
    ask(here, phone, &Ask::Push(vec![run].into()))
}

fn an_older_app(kept: &Kept) {
    let here = HubHere::start(kept);
    let owner = here.crew("Ada");
    let (scout, third) = (
        here.further(&owner, Role::Scout, "Ben"),
        here.further(&owner, Role::Scout, "Cal"),
    );
    let mut ada = record(in_memory(), &head_file("North 40", "Ada", 20));
    let series = ada.device();
    assert!(matches!(
        push_as_before(&here, &owner, &mut ada),
        Answer::Pushed(_)
    ));
    // Who adds to it first owns it; a newer phone reads it all the same.
    let mut ben = in_memory();
    let met = exchange(&here, &mut ben, &scout).unwrap();
    assert!(met.progress.received > 0 && met.left_alone.is_empty());
    let forged = renaming(&ben, series);
    for run in forgeries(&mut ben, &forged, &scout) {
        let refused = Answer::Refused(Refusal::NotYours(series));
        assert_eq!(
            ask(&here, &scout, &Ask::PushSealed(vec![run].into())),
            refused
        );
    }
    let mut ada = record(ada, &head_file("East 10", "Ada", 5));
    assert!(matches!(
        push_as_before(&here, &owner, &mut ada),
        Answer::Pushed(_)
    ));
    // Older apps read sealed series, too.
    let mut ben = record(ben, &head_file("South 20", "Ben", 5));
    exchange(&here, &mut ben, &scout).unwrap();
    let span = Span {
        device: ben.device(),
        after: 0,
        to: end(&ben, ben.device()),
    };
    let pulled = ask(
        &here,
        &owner,
        &Ask::Pull {
            spans: vec![span].into(),
        },
    );
    assert!(matches!(pulled, Answer::Pulled(page) if page.len() == 1));
    // The update: what the hub holds is sealed, and belongs to its writer.
    assert_eq!(roster(&here, &owner).get(&series), None);
    let met = exchange(&here, &mut ada, &owner).unwrap();
    assert!(met.moved.is_empty() && met.left_alone.is_empty());
    assert_eq!(ada.device(), series);
    assert_eq!(roster(&here, &owner)[&series], signer(&owner).key());
    let mut cal = in_memory();
    exchange(&here, &mut cal, &third).unwrap();
    exchange(&here, &mut ben, &scout).unwrap();
    same(&mut ada, &mut cal);
    same(&mut ada, &mut ben);
    let refused = push_as_before(&here, &owner, &mut record(ada, &head_file("N", "Ada", 2)));
    assert_eq!(refused, Answer::Refused(Refusal::NotYours(series)));
}

fn one_key(kept: &Kept) {
    let here = HubHere::start(kept);
    let owner = here.crew("Ada");
    let greet = |key| Ask::Greet {
        mine: Vec::new().into(),
        key: Some(key),
        own: Uuid::from_u128(1),
    };
    let (key, other) = (PublicKey([1; 32]), PublicKey([2; 32]));
    for _ in 0..2 {
        let answer = ask(&here, &owner, &greet(key));
        assert!(matches!(answer, Answer::Greeted { .. }), "{answer:?}");
    }
    assert_eq!(
        ask(&here, &owner, &greet(other)),
        Answer::Refused(Refusal::OtherKey)
    );
}

/// A hub file as the version before there were seals left it, with a series longer
/// than a page.
#[test]
fn a_hub_file_of_before_is_taken_over() {
    let here = HubHere::start(&Kept::Sqlite);
    let owner = here.crew("Ada");
    let scout = here.further(&owner, Role::Scout, "Ben");
    let heads = PAGE_CHANGES as u64 + 700;
    let mut ada = crate::scouts::tapped(heads);
    let series = ada.device();
    while !matches!(here.runtime.block_on(here.hub.store.heads(owner.joined.crew)).unwrap().get(&series), Some(mark) if mark.seq == heads)
    {
        assert!(matches!(
            push_as_before(&here, &owner, &mut ada),
            Answer::Pushed(_)
        ));
    }
    let file = here.folder.path().join("now.sqlite");
    here.runtime.block_on(here.hub.store.backup(&file)).unwrap();
    let before = here.folder.path().join("before.sqlite");
    let db = rusqlite::Connection::open(&before).unwrap();
    db.execute_batch(include_str!("../../migrations/hub/sqlite/0001.sql"))
        .unwrap();
    db.execute("ATTACH ?1 AS now", [file.display().to_string()])
        .unwrap();
    for (table, columns) in [
        ("crew", "id, name, made_at"),
        ("person", "id, crew, name, role, made_at"),
        (
            "device",
            "id, person, name, token_hash, joined_at, seen_at, removed_at",
        ),
        ("series", "id, crew, device, head, tag"),
        ("change", "series, seq, received_at, body"),
    ] {
        db.execute_batch(&format!(
            "INSERT INTO {table} ({columns}) SELECT {columns} FROM now.{table}"
        ))
        .unwrap();
    }
    db.execute_batch("DETACH now; PRAGMA user_version = 1")
        .unwrap();
    db.close().unwrap();
    let store: Arc<dyn Store> = Arc::new(SqliteStore::open(&before).unwrap());
    let hub = HubHere::start_on(store, patient());
    let met = exchange(&hub, &mut ada, &owner).unwrap();
    assert!(met.moved.is_empty() && met.left_alone.is_empty());
    assert_eq!(roster(&hub, &owner)[&series], signer(&owner).key());
    let mut ben = in_memory();
    let met = exchange(&hub, &mut ben, &scout).unwrap();
    assert_eq!(met.progress.received, heads);
    same(&mut ada, &mut ben);
}

/// The leaves of a file.
fn leaves(mut bytes: &[u8]) -> Vec<Leaf> {
    let mut leaves = Vec::new();
    while !bytes.is_empty() {
        let (leaf, rest) = frame::decode_first(bytes).unwrap();
        leaves.push(leaf);
        bytes = rest;
    }
    leaves
}

#[test]
fn a_file_holds_nothing_that_its_writer_did_not_sign() {
    let here = HubHere::start(&Kept::Sqlite);
    let owner = here.crew("Ada");
    let crew = owner.joined.crew;
    let mut ada = record(in_memory(), &head_file("North 40", "Ada", 10));
    ada.sign_with(signer(&owner));
    let series = ada.device();
    let mut first = Vec::new();
    file::write(&mut ada, crew, &BTreeMap::new(), &mut first).unwrap();
    let mut ben = in_memory();
    file::read(&mut ben, crew, &mut first.as_slice()).unwrap();
    let known = ben.heads().unwrap();
    let mut ada = record(ada, &head_file("East 10", "Ada", 5));
    let mut second = Vec::new();
    file::write(&mut ada, crew, &known, &mut second).unwrap();
    let forged = pack(&renaming(&ben, series)).unwrap();
    // One body swapped; and the same as an older app would write it, without seals.
    let swap = |leaf: Leaf| match leaf {
        Leaf::SealedPage(page) => {
            let lie = |sealed: SealedRun| SealedRun {
                run: swapped(&sealed.run, &forged),
                ..sealed
            };
            Leaf::SealedPage(page.into_vec().into_iter().map(lie).collect())
        }
        other => other,
    };
    let strip = |leaf: Leaf| match swap(leaf) {
        Leaf::SealedPage(page) => {
            let runs = page.into_vec().into_iter().map(|sealed| sealed.run);
            Leaf::Page(runs.collect())
        }
        other => other,
    };
    let forgeries: [&dyn Fn(Leaf) -> Leaf; 2] = [&swap, &strip];
    for forge in forgeries {
        let bytes: Vec<u8> = leaves(&second)
            .into_iter()
            .flat_map(|leaf| frame::encode(&forge(leaf)).unwrap())
            .collect();
        let taken = file::read(&mut ben, crew, &mut bytes.as_slice()).unwrap();
        assert_eq!(taken.left_alone.get(&series), Some(&LeftAlone::NotSigned));
        assert_eq!((taken.new, ben.heads().unwrap()), (0, known.clone()));
    }
    // A file of an older app is read where the series was never sealed.
    let bare: Vec<u8> = leaves(&first)
        .into_iter()
        .map(|leaf| match leaf {
            Leaf::SealedPage(page) => {
                let runs = page.into_vec().into_iter().map(|sealed| sealed.run);
                Leaf::Page(runs.collect())
            }
            other => other,
        })
        .flat_map(|leaf| frame::encode_as(1, &leaf).unwrap())
        .collect();
    let taken = file::read(&mut in_memory(), crew, &mut bare.as_slice()).unwrap();
    assert!(taken.new > 0 && taken.left_alone.is_empty());
    let taken = file::read(&mut ben, crew, &mut second.as_slice()).unwrap();
    assert!(taken.new > 0);
    same(&mut ada, &mut ben);
}
