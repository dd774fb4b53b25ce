//! What crews go through, over real HTTP, the same on SQLite and PostgreSQL.

use crate::both_stores::{Story, on_postgresql, on_sqlite};
use crate::hub_here::{HubHere, Kept, Phone, join, patient};
use crate::scouts::{
    CountedWay, ShortWay, exchange, head_file, in_memory, open, record, tapped, watched,
};
use exchange::book::Book as _;
use exchange::meet::Way;
use exchange::{PageSize, Trouble, file};
use hub::store::sqlite::SqliteStore;
use hub::store::{Store, StoreFault};
use notebook::Notebook;
use notebook::log::{self, Change, Hlc};
use serde_bytes::ByteBuf;
use service::{FieldConflict, PlantingDetails, PlantingEdit, Service, ask};
use sha2::{Digest, Sha256};
use std::io::{Read, Write};
use std::net::TcpStream;
use std::sync::Arc;
use uuid::Uuid;
use wire::branch_id;
use wire::code;
use wire::{Answer, Ask, PHOTO_PART, Refusal, Role, Run};

const STORIES: &[Story] = &[
    ("a crew meets", a_crew_meets),
    (
        "the signal goes at every point",
        the_signal_goes_at_every_point,
    ),
    ("unknown kinds travel", unknown_kinds_travel),
    ("a copied phone", a_copied_phone),
    ("a lost phone is removed", a_lost_phone_is_removed),
    ("the answer to a join is lost", the_answer_to_a_join_is_lost),
    ("one code, two phones", one_code_two_phones),
    ("two hubs or two phones at once", at_once),
    ("photos come in parts", photos_come_in_parts),
    ("a backup is served", a_backup_is_served),
    ("the hub is set back", the_hub_is_set_back),
    ("from phone to phone without a hub", from_phone_to_phone),
    ("two people edit one field", two_people_edit_one_field),
    ("roles change", roles_change),
    ("health and metrics", health_and_metrics),
    ("a head is small on the wire", a_head_is_small_on_the_wire),
    ("a graceful end", a_graceful_end),
];

#[test]
fn stories_on_sqlite() {
    on_sqlite(STORIES);
}

#[test]
fn stories_on_postgresql() {
    on_postgresql(STORIES);
}

fn same(one: &mut Notebook, other: &mut Notebook) {
    assert_eq!(one.heads().unwrap(), other.heads().unwrap());
    assert_eq!(one.view_digest().unwrap(), other.view_digest().unwrap());
}

fn heads_in(notebook: &Notebook) -> i64 {
    notebook
        .db()
        .query_row("SELECT count(*) FROM head", [], |row| row.get(0))
        .unwrap()
}

fn a_crew_meets(kept: &mut dyn FnMut() -> Kept) {
    let here = HubHere::start(&kept());
    let owner = here.crew("Ada");
    let scout = here.further(&owner, Role::Scout, "Ben");
    let reader = here.further(&owner, Role::Reader, "Cal");
    let mut ada = record(in_memory(), &head_file("North 40", "Ada", 60));
    let mut ben = record(in_memory(), &head_file("South 20", "Ben", 40));
    let mut cal = record(in_memory(), &head_file("Mine", "Cal", 5));
    let met = exchange(&here, &mut ada, &owner).unwrap();
    assert_eq!(met.progress.sent, met.progress.to_send);
    assert!(met.progress.sent > 0 && met.progress.received == 0);
    exchange(&here, &mut ben, &scout).unwrap();
    exchange(&here, &mut ada, &owner).unwrap();
    same(&mut ada, &mut ben);
    assert_eq!(heads_in(&ada), 100);
    let met = exchange(&here, &mut cal, &reader).unwrap();
    assert!(met.held_back > 0 && met.progress.sent == 0);
    assert_eq!(heads_in(&cal), 105);
    // Nothing more to tell.
    let met = exchange(&here, &mut ben, &scout).unwrap();
    assert_eq!((met.progress.sent, met.progress.received), (0, 0));
}

fn the_signal_goes_at_every_point(kept: &mut dyn FnMut() -> Kept) {
    let here = HubHere::start(&kept());
    let owner = here.crew("Ada");
    let scout = here.further(&owner, Role::Scout, "Ben");
    let mut ada = in_memory();
    for number in 0..12 {
        ada = record(ada, &head_file(&format!("P{number}"), "Ada", 5));
    }
    let size = PageSize {
        changes: 3,
        bytes: 100_000,
    };
    let mut tries = 0;
    let (mut ben, mut turn) = (in_memory(), 0);
    for (notebook, phone) in [(&mut ada, &owner), (&mut ben, &scout)] {
        loop {
            let mut way = ShortWay {
                way: here.way(Some(phone.token.clone())),
                questions: turn % 4,
                hub_hears_the_last: turn % 3 == 0,
            };
            turn += 1;
            let (met, seen) = watched(notebook, &mut way, size);
            for pair in seen.windows(2) {
                assert!(pair[0].sent <= pair[1].sent && pair[0].received <= pair[1].received);
            }
            assert!(seen.iter().all(|now| now.sent <= now.to_send));
            assert!(seen.iter().all(|now| now.received <= now.to_receive));
            match met {
                Ok(_) => break,
                Err(trouble) => assert!(trouble.retry_helps(), "{trouble}"),
            }
            tries += 1;
            assert!(tries < 200, "no end");
        }
    }
    assert!(tries > 4, "the signal never went");
    same(&mut ada, &mut ben);
}

fn later_change(device: Uuid, seq: u64) -> Change {
    Change {
        device,
        seq,
        hlc: Hlc::ZERO.next(1_787_000_000_000 + i64::try_from(seq).unwrap()),
        recorded_ms: 1_787_000_000_000,
        offset_min: -300,
        kind: "soil_probed".to_owned(),
        body: format!(r#"{{"facts":[{{"fact":"soil_probe","depth_cm":{seq}}}]}}"#),
        raw: None,
    }
}

fn unknown_kinds_travel(kept: &mut dyn FnMut() -> Kept) {
    let here = HubHere::start(&kept());
    let owner = here.crew("Ada");
    let scout = here.further(&owner, Role::Scout, "Ben");
    let (mut ada, mut ben) = (in_memory(), in_memory());
    let newer = Uuid::now_v7();
    let changes: Vec<Change> = (1..=3).map(|seq| later_change(newer, seq)).collect();
    ada.ingest(&changes).unwrap();
    exchange(&here, &mut ada, &owner).unwrap();
    exchange(&here, &mut ben, &scout).unwrap();
    assert_eq!(log::after(ben.db(), newer, 0, usize::MAX).unwrap(), changes);
}

fn a_copied_phone(kept: &mut dyn FnMut() -> Kept) {
    let here = HubHere::start(&kept());
    let owner = here.crew("Ada");
    let scout = here.further(&owner, Role::Scout, "Ben");
    let third = here.further(&owner, Role::Scout, "Cal");
    let folder = tempfile::tempdir().unwrap();
    let (one, two) = (folder.path().join("one"), folder.path().join("two"));
    let first = record(open(&one), &head_file("Both", "Ada", 10));
    first
        .db()
        .execute("VACUUM INTO ?1", [two.display().to_string()])
        .unwrap();
    let mut ada = record(first, &head_file("North 40", "Ada", 20));
    let mut ben = record(open(&two), &head_file("South 20", "Ben", 15));
    let id = ben.device();
    assert_eq!(ada.device(), id, "a copy writes under the same id");
    // A third phone gets the branch from hand to hand before the hub knows of it.
    let mut cal = in_memory();
    let mut handed = Vec::new();
    file::write(
        &mut ben,
        owner.joined.crew,
        &Default::default(),
        &mut handed,
    )
    .unwrap();
    file::read(&mut cal, owner.joined.crew, &mut handed.as_slice()).unwrap();
    let before = ben.heads().unwrap()[&id].seq;
    exchange(&here, &mut ada, &owner).unwrap();
    let met = exchange(&here, &mut ben, &scout).unwrap();
    assert_eq!(met.mended, [id]);
    assert_ne!(ben.device(), id, "it writes under a new id now");
    let met = exchange(&here, &mut cal, &third).unwrap();
    assert_eq!(met.mended, [id]);
    exchange(&here, &mut ada, &owner).unwrap();
    exchange(&here, &mut ben, &scout).unwrap();
    same(&mut ada, &mut ben);
    same(&mut ada, &mut cal);
    assert_eq!(heads_in(&ada), 45, "nothing lost, nothing twice");
    // Both holders moved the branch to the same series.
    let branch: Vec<(Uuid, u64)> = ada
        .heads()
        .unwrap()
        .into_iter()
        .filter(|(device, _)| *device != id && device.get_version_num() == 8)
        .map(|(device, mark)| (device, mark.seq))
        .collect();
    assert_eq!(branch.len(), 1);
    assert!(branch[0].1 < before);
    let first_moved = log::change_at(ada.db(), branch[0].0, 1).unwrap().unwrap();
    let tag = wire::Tag::of(&exchange::own_book::pack(&first_moved).unwrap());
    assert_eq!(branch[0].0, branch_id(id, before - branch[0].1 + 1, tag));
}

fn a_lost_phone_is_removed(kept: &mut dyn FnMut() -> Kept) {
    let here = HubHere::start(&kept());
    let owner = here.crew("Ada");
    let scout = here.further(&owner, Role::Scout, "Ben");
    let mut ben = record(in_memory(), &head_file("South 20", "Ben", 10));
    exchange(&here, &mut ben, &scout).unwrap();
    let mut way = here.way(Some(owner.token.clone()));
    let remove = Ask::RemoveDevice {
        device: scout.joined.device,
    };
    assert_eq!(way.ask(&remove).unwrap(), Answer::Done);
    // Again is as good as once.
    assert_eq!(way.ask(&remove).unwrap(), Answer::Done);
    let mut ben = record(ben, &head_file("South 21", "Ben", 10));
    assert_eq!(
        exchange(&here, &mut ben, &scout).unwrap_err(),
        Trouble::Removed
    );
    let Answer::Crew(crew) = way.ask(&Ask::Crew).unwrap() else {
        panic!("no crew");
    };
    let gone: Vec<&str> = crew
        .people
        .iter()
        .flat_map(|person| &person.devices)
        .filter(|device| device.removed_at.is_some())
        .map(|device| device.name.as_str())
        .collect();
    assert_eq!(gone, ["Ben's phone"]);
    // The same person comes back with another phone, and the heads with them.
    let again = Ask::Invite {
        person: Some(scout.joined.person),
        role: Role::Owner,
        minutes: 10,
    };
    let Answer::Invited(invited) = way.ask(&again).unwrap() else {
        panic!("no invitation");
    };
    let second = here.join(&invited.code, "anybody");
    assert_eq!(second.joined.person, scout.joined.person);
    assert_eq!(
        second.joined.role,
        Role::Scout,
        "the person's own role holds"
    );
    let met = exchange(&here, &mut ben, &second).unwrap();
    assert!(met.progress.sent > 0);
}

fn the_answer_to_a_join_is_lost(kept: &mut dyn FnMut() -> Kept) {
    let here = HubHere::start(&kept());
    let owner = here.crew("Ada");
    let invited = here.invite(&owner, Role::Scout);
    let secret: [u8; 32] = code::random().unwrap();
    let ask = Ask::Join {
        code: code::spell(&invited.code).to_lowercase(),
        token_hash: code::hash(&secret),
        person: "Ben".to_owned(),
        device: "phone".to_owned(),
        crew: String::from("unused"),
    };
    let first = here.way(None).ask(&ask).unwrap();
    assert!(matches!(first, Answer::Joined(_)));
    assert_eq!(here.way(None).ask(&ask).unwrap(), first);
    assert_eq!(
        join(&mut here.way(None), &invited.code, "Mallory").err(),
        Some(Trouble::NotLetIn)
    );
}

fn one_code_two_phones(kept: &mut dyn FnMut() -> Kept) {
    let here = HubHere::start(&kept());
    let code = here.founding_code();
    let won: Vec<bool> = std::thread::scope(|scope| {
        let tries: Vec<_> = (0..6)
            .map(|number| {
                let (mut way, code) = (here.way(None), &code);
                scope.spawn(move || join(&mut way, code, &format!("P{number}")).is_ok())
            })
            .collect();
        tries.into_iter().map(|one| one.join().unwrap()).collect()
    });
    assert_eq!(won.iter().filter(|won| **won).count(), 1, "{won:?}");
    // A new founding code ends the one before it.
    let (old, new) = (here.founding_code(), here.founding_code());
    assert!(join(&mut here.way(None), &old, "Eve").is_err());
    assert!(join(&mut here.way(None), &new, "Eve").is_ok());
}

/// Many writers at the same moment, where PostgreSQL serves them through two hubs.
fn at_once(kept: &mut dyn FnMut() -> Kept) {
    let store = kept();
    let here = HubHere::start(&store);
    let second = match &store {
        Kept::Postgres(_) => Some(HubHere::start(&store)),
        Kept::Sqlite => None,
    };
    let owner = here.crew("Ada");
    let shared = Uuid::now_v7();
    std::thread::scope(|scope| {
        for writer in 0..6 {
            let hub = second.as_ref().filter(|_| writer % 2 == 1).unwrap_or(&here);
            let mut way = hub.way(Some(owner.token.clone()));
            scope.spawn(move || {
                let own = Uuid::now_v7();
                for after in 0..20 {
                    // The shared series comes from everybody, the same every time.
                    let page: Vec<Run> = [(own, writer), (shared, 99)]
                        .into_iter()
                        .map(|(device, mark)| Run {
                            device,
                            after,
                            bodies: vec![ByteBuf::from(vec![mark, u8::try_from(after).unwrap()])]
                                .into(),
                        })
                        .collect();
                    let answer = way.ask(&Ask::Push(page.into())).unwrap();
                    assert!(matches!(answer, Answer::Pushed(_)), "{answer:?}");
                }
            });
        }
    });
    let crew = owner.joined.crew;
    let heads = here.runtime.block_on(here.hub.store.heads(crew)).unwrap();
    assert_eq!(heads.len(), 7);
    assert!(heads.values().all(|mark| mark.seq == 20), "{heads:?}");
}

fn photos_come_in_parts(kept: &mut dyn FnMut() -> Kept) {
    let here = HubHere::start(&kept());
    let owner = here.crew("Ada");
    let scout = here.further(&owner, Role::Scout, "Ben");
    let part = usize::try_from(PHOTO_PART).unwrap();
    let photo: Vec<u8> = (0..2 * part + 777).map(|at| (at % 251) as u8).collect();
    let digest: [u8; 32] = Sha256::digest(&photo).into();
    let name: String = digest.iter().map(|byte| format!("{byte:02x}")).collect();
    let size = photo.len() as u64;
    let mut way = here.way(Some(scout.token.clone()));
    let missing = |way: &mut dyn Way| match way.ask(&Ask::PhotosMissing {
        names: vec![digest].into(),
    }) {
        Ok(Answer::PhotosMissing(missing)) => missing.first().map(|(_, have)| *have),
        other => panic!("{other:?}"),
    };
    assert_eq!(missing(&mut way), Some(0));
    assert_eq!(
        way.send_photo(&name, 0, size, &photo[..part]).unwrap(),
        Some(PHOTO_PART)
    );
    // The answer was lost: the same part again, and one too far.
    assert_eq!(
        way.send_photo(&name, 0, size, &photo[..part]).unwrap(),
        Some(PHOTO_PART)
    );
    let tail = &photo[2 * part..];
    assert_eq!(
        way.send_photo(&name, 2 * PHOTO_PART, size, tail).unwrap(),
        Some(PHOTO_PART)
    );
    assert_eq!(missing(&mut way), Some(PHOTO_PART));
    assert!(matches!(
        way.fetch_photo(&name, 0..10),
        Err(Trouble::Unknown)
    ));
    // Another phone goes on with it.
    let mut other = here.way(Some(owner.token.clone()));
    other
        .send_photo(&name, PHOTO_PART, size, &photo[part..2 * part])
        .unwrap();
    assert_eq!(
        other.send_photo(&name, 2 * PHOTO_PART, size, tail).unwrap(),
        None
    );
    assert_eq!(missing(&mut way), None);
    let mut fetched = Vec::new();
    while (fetched.len() as u64) < size {
        let from = fetched.len() as u64;
        let (bytes, whole) = way.fetch_photo(&name, from..from + PHOTO_PART).unwrap();
        assert_eq!(whole, size);
        fetched.extend(bytes);
    }
    assert_eq!(fetched, photo);
}

fn a_backup_is_served(kept: &mut dyn FnMut() -> Kept) {
    let here = HubHere::start(&kept());
    let owner = here.crew("Ada");
    let mut ada = record(in_memory(), &head_file("North 40", "Ada", 30));
    exchange(&here, &mut ada, &owner).unwrap();
    let file = here.folder.path().join("backup.sqlite");
    here.runtime.block_on(here.hub.store.backup(&file)).unwrap();
    assert!(matches!(
        here.runtime.block_on(here.hub.store.backup(&file)),
        Err(StoreFault::Failed(_))
    ));
    let copy = SqliteStore::open(&file).unwrap();
    let crew = owner.joined.crew;
    let heads = here.runtime.block_on(copy.heads(crew)).unwrap();
    assert_eq!(heads, ada.heads().unwrap());
    let member = here
        .runtime
        .block_on(copy.member(owner.joined.device))
        .unwrap()
        .unwrap();
    assert_eq!(member.role, Role::Owner);
}

fn the_hub_is_set_back(kept: &mut dyn FnMut() -> Kept) {
    let first = HubHere::start(&kept());
    let owner = first.crew("Ada");
    let mut ada = record(in_memory(), &head_file("North 40", "Ada", 10));
    exchange(&first, &mut ada, &owner).unwrap();
    let file = first.folder.path().join("backup.sqlite");
    first
        .runtime
        .block_on(first.hub.store.backup(&file))
        .unwrap();
    let mut ada = record(ada, &head_file("South 20", "Ada", 10));
    exchange(&first, &mut ada, &owner).unwrap();
    // The backup takes the hub's place; the phone gives again what it lacks.
    let second = HubHere::start(&Kept::Sqlite);
    let target = second.folder.path().join("restored.sqlite");
    std::fs::copy(&file, &target).unwrap();
    let store: Arc<dyn Store> = Arc::new(SqliteStore::open(&target).unwrap());
    let crew = owner.joined.crew;
    let before = second.runtime.block_on(store.heads(crew)).unwrap();
    assert_ne!(before, ada.heads().unwrap());
    let mut restored = HubHere::start_on(store, patient());
    let met = exchange(&restored, &mut ada, &owner).unwrap();
    assert!(met.progress.sent > 0 && met.mended.is_empty());
    let after = restored
        .runtime
        .block_on(restored.hub.store.heads(crew))
        .unwrap();
    assert_eq!(after, ada.heads().unwrap());
    restored.stop();
}

fn from_phone_to_phone(kept: &mut dyn FnMut() -> Kept) {
    let here = HubHere::start(&kept());
    let owner = here.crew("Ada");
    let scout = here.further(&owner, Role::Scout, "Ben");
    let crew = owner.joined.crew;
    let mut ada = record(in_memory(), &head_file("North 40", "Ada", 50));
    let mut ben = record(in_memory(), &head_file("South 20", "Ben", 10));
    let mut bytes = Vec::new();
    let written = file::write(&mut ada, crew, &ben.heads().unwrap(), &mut bytes).unwrap();
    let taken = file::read(&mut ben, crew, &mut bytes.as_slice()).unwrap();
    assert_eq!((taken.changes, taken.new), (written, written));
    // Once more changes nothing.
    let again = file::read(&mut ben, crew, &mut bytes.as_slice()).unwrap();
    assert_eq!((again.changes, again.new), (written, 0));
    let cut = &bytes[..bytes.len() - 3];
    assert!(matches!(
        file::read(&mut in_memory(), crew, &mut &*cut),
        Err(Trouble::File(_))
    ));
    assert_eq!(
        file::read(&mut in_memory(), Uuid::now_v7(), &mut bytes.as_slice()).unwrap_err(),
        Trouble::OtherCrew
    );
    // The one with signal carries the other's heads to the hub.
    exchange(&here, &mut ben, &scout).unwrap();
    let met = exchange(&here, &mut ada, &owner).unwrap();
    assert_eq!(met.progress.sent, 0);
    same(&mut ada, &mut ben);
}

fn two_people_edit_one_field(kept: &mut dyn FnMut() -> Kept) {
    let here = HubHere::start(&kept());
    let owner = here.crew("Ada");
    let scout = here.further(&owner, Role::Scout, "Ben");
    let mut ada = record(in_memory(), &head_file("North 40", "Ada", 5));
    let mut ben = in_memory();
    exchange(&here, &mut ada, &owner).unwrap();
    exchange(&here, &mut ben, &scout).unwrap();
    let planting = ada
        .db()
        .query_row("SELECT id FROM planting", [], |row| row.get(0))
        .unwrap();
    let mut ada = edit_hybrid(ada, planting, "Early 7");
    let mut ben = edit_hybrid(ben, planting, "Late 9");
    for _ in 0..2 {
        exchange(&here, &mut ada, &owner).unwrap();
        exchange(&here, &mut ben, &scout).unwrap();
    }
    same(&mut ada, &mut ben);
    let (mut ada, conflicts) = conflicts(ada, planting);
    let (mut ben, seen_by_ben) = self::conflicts(ben, planting);
    assert_eq!(conflicts, seen_by_ben);
    assert_eq!(conflicts.len(), 1);
    let values = [&conflicts[0].stands, &conflicts[0].others[0]];
    let mut names = values.map(|given| given.value.as_str());
    names.sort_unstable();
    assert_eq!(
        (conflicts[0].field.name(), names),
        ("hybrid", ["Early 7", "Late 9"])
    );
    // One of them takes the other value: settled on both phones.
    let other = conflicts[0].others[0].value.clone();
    ben = edit_hybrid(ben, planting, &other);
    exchange(&here, &mut ben, &scout).unwrap();
    exchange(&here, &mut ada, &owner).unwrap();
    same(&mut ada, &mut ben);
    assert_eq!(self::conflicts(ada, planting).1, []);
}

fn edit_hybrid(notebook: Notebook, planting: Uuid, hybrid: &str) -> Notebook {
    let mut service = Service::new(notebook).unwrap();
    let edit = PlantingEdit {
        details: PlantingDetails {
            hybrid: Some(hybrid.to_owned()),
            ..PlantingDetails::default()
        },
        ..PlantingEdit::default()
    };
    service.call(ask::EditPlanting { planting, edit }).unwrap();
    service.into_notebook()
}

fn conflicts(notebook: Notebook, planting: Uuid) -> (Notebook, Vec<FieldConflict>) {
    let mut service = Service::new(notebook).unwrap();
    // As every face gets it.
    let told = service.answer(ask::Conflicts { planting }.into()).unwrap();
    let told = serde_json::to_string(&told).unwrap();
    assert!(told.contains("\"op\":\"conflicts\""), "{told}");
    let reply = service.call(ask::Conflicts { planting }).unwrap();
    (service.into_notebook(), reply.answer.fields)
}

fn roles_change(kept: &mut dyn FnMut() -> Kept) {
    let here = HubHere::start(&kept());
    let owner = here.crew("Ada");
    let reader = here.further(&owner, Role::Reader, "Cal");
    let mut cal = record(in_memory(), &head_file("Mine", "Cal", 5));
    assert!(exchange(&here, &mut cal, &reader).unwrap().held_back > 0);
    let mut way = here.way(Some(owner.token.clone()));
    let set = |person, role| Ask::SetRole { person, role };
    let promoted = way.ask(&set(reader.joined.person, Role::Owner)).unwrap();
    assert_eq!(promoted, Answer::Done);
    let met = exchange(&here, &mut cal, &reader).unwrap();
    assert!(met.held_back == 0 && met.progress.sent > 0);
    // With a second owner the first may go.
    let leave = Ask::RemoveDevice {
        device: owner.joined.device,
    };
    assert_eq!(way.ask(&leave).unwrap(), Answer::Done);
    assert_eq!(
        way.ask(&Ask::Crew).unwrap(),
        Answer::Refused(Refusal::Removed)
    );
    // Two owners who remove each other at once do not leave the crew without one.
    let other = here.further(&reader, Role::Owner, "Dee");
    let removals: Vec<Answer> = std::thread::scope(|scope| {
        let one = |by: Phone, whom: Uuid| {
            let mut way = here.way(Some(by.token));
            scope.spawn(move || way.ask(&Ask::RemoveDevice { device: whom }).unwrap())
        };
        let tries = [
            one(reader.clone(), other.joined.device),
            one(other.clone(), reader.joined.device),
        ];
        tries.map(|one| one.join().unwrap()).to_vec()
    });
    assert!(removals.contains(&Answer::Done), "{removals:?}");
    let crew = reader.joined.crew;
    let view = here
        .runtime
        .block_on(here.hub.store.crew(crew, here.hub.now()))
        .unwrap();
    let owners = view
        .people
        .iter()
        .filter(|person| person.role == Role::Owner)
        .flat_map(|person| &person.devices)
        .filter(|device| device.removed_at.is_none())
        .count();
    assert!(owners >= 1);
}

fn a_head_is_small_on_the_wire(kept: &mut dyn FnMut() -> Kept) {
    let here = HubHere::start(&kept());
    let owner = here.crew("Ada");
    let scout = here.further(&owner, Role::Scout, "Ben");
    let (mut ada, mut ben) = (tapped(10_000), in_memory());
    let cost = |notebook: &mut Notebook, phone: &Phone| {
        let mut way = CountedWay {
            way: here.way(Some(phone.token.clone())),
            bytes: 0,
        };
        watched(notebook, &mut way, PageSize::default()).0.unwrap();
        way.bytes as f64 / 10_000.0
    };
    let (up, down) = (cost(&mut ada, &owner), cost(&mut ben, &scout));
    println!("bytes a head: {up:.1} to the hub, {down:.1} from it");
    assert!(up <= 80.0 && down <= 80.0);
    same(&mut ada, &mut ben);
}

fn fetch(at: std::net::SocketAddr, path: &str) -> String {
    let mut stream = TcpStream::connect(at).unwrap();
    write!(
        stream,
        "GET {path} HTTP/1.1\r\nhost: 127.0.0.1\r\nconnection: close\r\n\r\n"
    )
    .unwrap();
    let mut text = String::new();
    stream.read_to_string(&mut text).unwrap();
    text
}

fn health_and_metrics(kept: &mut dyn FnMut() -> Kept) {
    let here = HubHere::start(&kept());
    let owner = here.crew("Ada");
    let mut ada = record(in_memory(), &head_file("North 40", "Ada", 5));
    let met = exchange(&here, &mut ada, &owner).unwrap();
    assert!(fetch(here.at, "/health").starts_with("HTTP/1.1 200"));
    let text = fetch(here.metrics_at, "/metrics");
    for line in [
        "headwalk_hub_questions_total{kind=\"push\",status=\"200\"} 1",
        "headwalk_hub_stored{what=\"crews\"} 1",
        &format!(
            "headwalk_hub_stored{{what=\"changes\"}} {}",
            met.progress.sent
        ),
        "# EOF",
    ] {
        assert!(text.contains(line), "{line} is not in\n{text}");
    }
    assert!(!text.contains("Ada") && !text.contains(&owner.joined.crew.to_string()));
}

fn a_graceful_end(kept: &mut dyn FnMut() -> Kept) {
    let mut here = HubHere::start(&kept());
    let owner = here.crew("Ada");
    let series = Uuid::now_v7();
    let body = wire::frame::encode(&Ask::Push(
        vec![Run {
            device: series,
            after: 0,
            bodies: vec![ByteBuf::from(*b"the last")].into(),
        }]
        .into(),
    ))
    .unwrap();
    // Half of a question has come when the hub is told to end.
    let mut stream = TcpStream::connect(here.at).unwrap();
    write!(
        stream,
        "POST /exchange HTTP/1.1\r\nhost: 127.0.0.1\r\ncontent-type: {}\r\n\
         authorization: Bearer {}\r\ncontent-length: {}\r\n\r\n",
        hub::door::FRAME_TYPE,
        owner.token.to_text(),
        body.len()
    )
    .unwrap();
    stream.write_all(&body[..10]).unwrap();
    std::thread::sleep(std::time::Duration::from_millis(200));
    let at = here.at;
    std::thread::scope(|scope| {
        let ending = scope.spawn(|| here.stop());
        std::thread::sleep(std::time::Duration::from_millis(200));
        stream.write_all(&body[10..]).unwrap();
        let mut answer = Vec::new();
        stream.read_to_end(&mut answer).unwrap();
        assert!(answer.starts_with(b"HTTP/1.1 200"), "the answer was cut");
        ending.join().unwrap();
    });
    assert!(TcpStream::connect(at).is_err(), "it still listens");
}
