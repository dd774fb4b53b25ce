//! Floods: what strangers and single members send too much of stops nobody else.
//! Each is a bounded loop on loopback; that the honest one got through is asserted.

use crate::cluster::Cluster;
use crate::hub_here::{HubHere, Kept, Phone, join, patient};
use crate::scouts::{exchange, head_file, in_memory, record};
use exchange::Trouble;
use exchange::book::Book as _;
use exchange::meet::Way as _;
use hub::connections::ConnectionLimits;
use hub::door::{DoorRules, FRAME_TYPE};
use hub::store::{FIRST_SERIES, Quota, Quotas};
use notebook::log::{Change, Hlc};
use serde_bytes::ByteBuf;
use sha2::{Digest as _, Sha256};
use std::io::{Read as _, Write as _};
use std::net::{SocketAddr, TcpStream};
use std::num::NonZeroU32;
use std::time::{Duration, Instant};
use uuid::Uuid;
use wire::code;
use wire::{Answer, Ask, CREW_SERIES, Full, Mark, PHOTO_PART, Refusal, Role, Run, Tag, frame};

type Flood = (&'static str, fn(&mut dyn FnMut() -> Kept));

const FLOODS: &[Flood] = &[
    ("invented series", invented_series),
    ("a crew that is full", a_full_crew),
    ("changes without end", changes_without_end),
    ("photos without end", photos_without_end),
    ("a phone that carries many series", many_carried_series),
];

#[test]
fn quotas_on_sqlite() {
    for (name, flood) in FLOODS {
        println!("{name}");
        flood(&mut || Kept::Sqlite);
    }
}

#[test]
fn quotas_on_postgresql() {
    let cluster = Cluster::start();
    let mut databases = 0;
    for (name, flood) in FLOODS {
        println!("{name}");
        flood(&mut || {
            databases += 1;
            Kept::Postgres(cluster.database(&format!("flooded{databases}")))
        });
    }
}

fn ask(here: &HubHere, phone: &Phone, ask: &Ask) -> Answer {
    here.way(Some(phone.token.clone())).ask(ask).unwrap()
}

fn full(full: Full) -> Answer {
    Answer::Refused(Refusal::Full(full))
}

/// A page that begins so many series.
fn new_series(count: usize) -> Ask {
    let run = |_| Run {
        device: Uuid::now_v7(),
        after: 0,
        bodies: vec![ByteBuf::from(*b"invented")].into(),
    };
    Ask::Push((0..count).map(run).collect())
}

fn push(device: Uuid, after: u64, body: Vec<u8>) -> Ask {
    let run = Run {
        device,
        after,
        bodies: vec![ByteBuf::from(body)].into(),
    };
    Ask::Push(vec![run].into())
}

fn stored(answer: &Answer) -> bool {
    matches!(answer, Answer::Pushed(_))
}

fn series_of(here: &HubHere, phone: &Phone) -> usize {
    let crew = phone.joined.crew;
    let heads = here.runtime.block_on(here.hub.store.heads(crew)).unwrap();
    heads.len()
}

fn invented_series(kept: &mut dyn FnMut() -> Kept) {
    let here = HubHere::start(&kept());
    let owner = here.crew("Ada");
    let scout = here.further(&owner, Role::Scout, "Mallory");
    let most = usize::try_from(Quotas::default().scout.series).unwrap();
    assert_eq!(
        ask(&here, &scout, &new_series(most + 1)),
        full(Full::Series)
    );
    assert_eq!(series_of(&here, &owner), 0, "a refused page stores nothing");
    for _ in 0..most {
        assert!(stored(&ask(&here, &scout, &new_series(1))));
    }
    for _ in 0..20 {
        assert_eq!(ask(&here, &scout, &new_series(1)), full(Full::Series));
    }
    assert_eq!(series_of(&here, &owner), most);
    // The numbers of the refusals are there for the operator.
    let said = metrics(here.metrics_at);
    let counted = "headwalk_hub_refused_total{cause=\"series of a member\"} 21";
    assert!(said.contains(counted), "{said}");
    let newcomer = here.further(&owner, Role::Scout, "Ben");
    assert!(stored(&ask(&here, &newcomer, &new_series(1))));
}

fn metrics(at: SocketAddr) -> String {
    let mut stream = TcpStream::connect(at).unwrap();
    write!(
        stream,
        "GET /metrics HTTP/1.1\r\nhost: 127.0.0.1\r\nconnection: close\r\n\r\n"
    )
    .unwrap();
    let mut heard = String::new();
    stream.read_to_string(&mut heard).unwrap();
    heard
}

fn a_full_crew(kept: &mut dyn FnMut() -> Kept) {
    let mut quotas = Quotas::default();
    quotas.scout.series = 2 * CREW_SERIES as u64;
    let here = HubHere::start_small(&kept(), quotas);
    let owner = here.crew("Ada");
    let flooder = here.further(&owner, Role::Scout, "Mallory");
    for _ in 0..4 {
        assert!(stored(&ask(&here, &flooder, &new_series(CREW_SERIES / 4))));
    }
    assert_eq!(ask(&here, &flooder, &new_series(1)), full(Full::Crew));
    let newcomer = here.further(&owner, Role::Scout, "Ben");
    for _ in 0..FIRST_SERIES {
        assert!(stored(&ask(&here, &newcomer, &new_series(1))));
    }
    assert_eq!(ask(&here, &newcomer, &new_series(1)), full(Full::Crew));
    // A phone that has seen all of them can still tell the hub.
    let mark = Mark {
        seq: 1,
        tag: Tag::of(b"invented"),
    };
    let mine = (0..CREW_SERIES + 4).map(|_| (Uuid::now_v7(), mark));
    let heads = Ask::Heads {
        mine: mine.collect(),
    };
    let Answer::Heads { heads, .. } = ask(&here, &newcomer, &heads) else {
        panic!("no heads");
    };
    assert_eq!(heads.len(), CREW_SERIES + 4);
    // What a removed member began does not stand in the way of the others.
    let remove = Ask::RemoveDevice {
        device: flooder.joined.device,
    };
    assert_eq!(ask(&here, &owner, &remove), Answer::Done);
    for _ in 0..20 {
        assert!(stored(&ask(&here, &newcomer, &new_series(1))));
    }
}

fn small() -> Quotas {
    let quota = Quota {
        series: 16,
        change_bytes: 20_000,
        photo_bytes: 600_000,
    };
    Quotas {
        scout: quota,
        owner: Quotas::default().owner,
    }
}

fn changes_without_end(kept: &mut dyn FnMut() -> Kept) {
    let here = HubHere::start_small(&kept(), small());
    let owner = here.crew("Ada");
    let flooder = here.further(&owner, Role::Scout, "Mallory");
    let series = Uuid::now_v7();
    let mut after = 0;
    while stored(&ask(&here, &flooder, &push(series, after, vec![7; 936]))) {
        after += 1;
        assert!(after <= 20, "the quota never ends");
    }
    assert_eq!(after, 20);
    let again = ask(&here, &flooder, &push(series, after, vec![7; 936]));
    assert_eq!(again, full(Full::Changes));
    // The same changes again cost nothing, as after a lost answer.
    assert!(stored(&ask(
        &here,
        &flooder,
        &push(series, 0, vec![7; 936])
    )));
    let ben = here.further(&owner, Role::Scout, "Ben");
    assert!(stored(&ask(
        &here,
        &ben,
        &push(Uuid::now_v7(), 0, vec![7; 936])
    )));

    // A phone that may store no more is told so, and still hears the others.
    let here = HubHere::start_small(&kept(), small());
    let owner = here.crew("Ada");
    let mut ada = record(in_memory(), &head_file("North 40", "Ada", 30));
    exchange(&here, &mut ada, &owner).unwrap();
    let cal = here.further(&owner, Role::Scout, "Cal");
    let mut notebook = in_memory();
    for number in 0..60 {
        notebook = record(notebook, &head_file(&format!("P{number}"), "Cal", 5));
    }
    let met = exchange(&here, &mut notebook, &cal).unwrap();
    assert_eq!(met.full, Some(Full::Changes));
    assert!(met.progress.received > 0);
    let words = Trouble::Full(Full::Changes).to_string();
    for said in [
        "no more room",
        "nothing is lost",
        "ask whoever runs the hub",
    ] {
        assert!(words.contains(said), "{words}");
    }
}

fn photos_without_end(kept: &mut dyn FnMut() -> Kept) {
    let here = HubHere::start_small(&kept(), small());
    let owner = here.crew("Ada");
    let flooder = here.further(&owner, Role::Scout, "Mallory");
    let photo = |mark: u8| {
        let bytes = vec![mark; 200_000];
        let name: String = Sha256::digest(&bytes)
            .iter()
            .map(|byte| format!("{byte:02x}"))
            .collect();
        (name, bytes)
    };
    let send = |phone: &Phone, mark: u8| {
        let (name, bytes) = photo(mark);
        let mut way = here.way(Some(phone.token.clone()));
        way.send_photo(&name, 0, bytes.len() as u64, &bytes)
    };
    for mark in 0..3 {
        assert_eq!(send(&flooder, mark), Ok(None));
    }
    assert_eq!(send(&flooder, 3), Err(Trouble::Full(Full::Photos)));
    // One that is there already costs nothing, and another member has room of its own.
    assert_eq!(send(&flooder, 2), Ok(None));
    assert_eq!(send(&owner, 3), Ok(None));
    // Bytes that are not what their name says are dropped, and give their room back.
    let mallory = here.further(&owner, Role::Scout, "Mallory too");
    let (name, _) = photo(9);
    let mut way = here.way(Some(mallory.token.clone()));
    for _ in 0..10 {
        let refused = way.send_photo(&name, 0, 200_000, &vec![1; 200_000]);
        assert_eq!(refused, Err(Trouble::Refused(Refusal::OutOfBounds)));
    }
    assert_eq!(send(&mallory, 9), Ok(None));
}

/// A notebook with one change in each of so many foreign series.
fn many_carried_series(kept: &mut dyn FnMut() -> Kept) {
    let here = HubHere::start(&kept());
    let owner = here.crew("Ada");
    let scout = here.further(&owner, Role::Scout, "Ben");
    let mut ada = record(in_memory(), &head_file("North 40", "Ada", 10));
    exchange(&here, &mut ada, &owner).unwrap();
    let mut ben = in_memory();
    let changes: Vec<Change> = (1..=40_u128)
        .map(|number| Change {
            device: Uuid::from_u128(number),
            seq: 1,
            hlc: Hlc::ZERO.next(1_787_238_000_000),
            recorded_ms: 1_787_238_000_000,
            offset_min: 0,
            kind: "of_a_later_version".to_owned(),
            raw: None,
            body: r#"{"facts":[]}"#.to_owned(),
        })
        .collect();
    ben.ingest(&changes).unwrap();
    let mut ben = record(ben, &head_file("South 20", "Ben", 10));
    let met = exchange(&here, &mut ben, &scout).unwrap();
    assert_eq!(met.full, Some(Full::Series));
    assert!(met.progress.received > 0, "what the hub has still comes");
    // Ada's, Ben's own, and fifteen of those that he carries.
    let own = ben.device();
    let most = usize::try_from(Quotas::default().scout.series).unwrap();
    assert_eq!(series_of(&here, &owner), 1 + most);
    assert_eq!(met.hub.get(&own), ben.heads().unwrap().get(&own));
    // His own go on being stored.
    let mut ben = record(ben, &head_file("South 21", "Ben", 10));
    let met = exchange(&here, &mut ben, &scout).unwrap();
    assert_eq!(met.hub.get(&own), ben.heads().unwrap().get(&own));
    // An owner has room for a whole crew.
    exchange(&here, &mut ada, &owner).unwrap();
    ada.ingest(&changes).unwrap();
    let met = exchange(&here, &mut ada, &owner).unwrap();
    assert_eq!(met.full, None);
    assert_eq!(series_of(&here, &owner), 42);
}

/// Rules under which whoever waits for a body waits longer than any test.
fn endless() -> DoorRules {
    let long = Duration::from_secs(3_600);
    DoorRules {
        head_time: long,
        body_time: long,
        body_grace: long,
        ..patient()
    }
}

fn half_sent(at: SocketAddr, token: Option<&str>) -> TcpStream {
    let mut stream = TcpStream::connect(at).unwrap();
    let bearer = token.map_or_else(String::new, |token| {
        format!("authorization: Bearer {token}\r\n")
    });
    let head = format!(
        "POST /exchange HTTP/1.1\r\nhost: 127.0.0.1\r\ncontent-type: {FRAME_TYPE}\r\n\
         {bearer}content-length: 2000\r\n\r\nHW"
    );
    stream.write_all(head.as_bytes()).unwrap();
    stream
}

#[test]
fn half_sent_bodies_hold_nobody_up() {
    let here = HubHere::start_with(&Kept::Sqlite, endless(), None);
    let owner = here.crew("Ada");
    let mallory = here.further(&owner, Role::Scout, "Mallory");
    let invited = here.invite(&owner, Role::Scout);
    let strangers: Vec<_> = (0..64).map(|_| half_sent(here.at, None)).collect();
    assert!(matches!(ask(&here, &owner, &Ask::Crew), Answer::Crew(_)));
    let token = mallory.token.to_text();
    let members: Vec<_> = (0..64).map(|_| half_sent(here.at, Some(&token))).collect();
    // They have all arrived when the hub has answered others after them.
    for _ in 0..20 {
        assert!(stored(&ask(
            &here,
            &owner,
            &push(Uuid::now_v7(), 0, vec![1])
        )));
    }
    here.join(&invited.code, "Ben");
    drop((strangers, members));
}

#[test]
fn a_body_that_drips_is_ended() {
    let rules = DoorRules {
        body_grace: Duration::from_millis(300),
        body_least: 1_000,
        ..endless()
    };
    let here = HubHere::start_with(&Kept::Sqlite, rules, None);
    let owner = here.crew("Ada");
    let mut stream = half_sent(here.at, Some(&owner.token.to_text()));
    stream
        .set_read_timeout(Some(Duration::from_millis(50)))
        .unwrap();
    let patience = Instant::now() + Duration::from_secs(60);
    let mut heard = [0; 64];
    loop {
        assert!(Instant::now() < patience, "the hub went on waiting");
        let sent = stream.write_all(b"x");
        match stream.read(&mut heard) {
            Ok(0) => break,
            Ok(_) => {
                assert!(heard.starts_with(b"HTTP/1.1 400"));
                break;
            }
            Err(error) if error.kind() == std::io::ErrorKind::ConnectionReset => break,
            Err(_) if sent.is_err() => break,
            Err(_) => {}
        }
    }
    // One that keeps its pace is heard, however little it is.
    assert!(stored(&ask(
        &here,
        &owner,
        &push(Uuid::now_v7(), 0, vec![1])
    )));
}

#[test]
fn silent_connections_end_for_new_ones() {
    let rules = DoorRules {
        connections: ConnectionLimits {
            all: 40,
            of_network: 30,
        },
        ..endless()
    };
    let here = HubHere::start_with(&Kept::Sqlite, rules, None);
    let owner = here.crew("Ada");
    let answered = |what: &str| {
        for _ in 0..5 {
            let answer = ask(&here, &owner, &Ask::Crew);
            assert!(matches!(answer, Answer::Crew(_)), "{what}");
        }
    };
    let of_one: Vec<_> = (0..120)
        .map(|_| TcpStream::connect(here.at).unwrap())
        .collect();
    answered("silent connections of one network");
    let of_many: Vec<_> = (0..120)
        .map(|number| from_network(&here, 2 + number % 12))
        .collect();
    answered("silent connections of many networks");
    let asking: Vec<_> = (0..120).map(|_| half_sent(here.at, None)).collect();
    answered("strangers who are about to ask");
    let ended = "headwalk_hub_refused_total{cause=\"silent connection\"}";
    let said = metrics(here.metrics_at);
    assert!(said.contains(ended), "{said}");
    drop((of_one, of_many, asking));
}

/// A connection from another loopback address.
fn from_network(here: &HubHere, last: u8) -> TcpStream {
    let from = SocketAddr::from(([127, 0, 0, last], 0));
    let socket = tokio::net::TcpSocket::new_v4().unwrap();
    socket.bind(from).unwrap();
    let stream = here.runtime.block_on(socket.connect(here.at)).unwrap();
    stream.into_std().unwrap()
}

#[test]
fn a_right_code_gets_in_while_others_of_its_network_guess() {
    let rules = DoorRules {
        strangers_a_minute: NonZeroU32::new(5).unwrap(),
        ..patient()
    };
    let here = HubHere::start_with(&Kept::Sqlite, rules, None);
    let owner = here.crew("Ada");
    let invited = here.invite(&owner, Role::Scout);
    let guess = || {
        let code = code::new_code().unwrap();
        join(&mut here.way(None), &code, "Mallory").err().unwrap()
    };
    let heard: Vec<Trouble> = (0..40).map(|_| guess()).collect();
    assert_eq!(heard.last(), Some(&Trouble::Slower(60)));
    here.join(&invited.code, "Ben");
    // Used up, it is as wrong as any other.
    let again = join(&mut here.way(None), &invited.code, "Mallory");
    assert_eq!(again.err(), Some(Trouble::Slower(60)));
    assert_eq!(guess(), Trouble::Slower(60));
    assert!(matches!(ask(&here, &owner, &Ask::Crew), Answer::Crew(_)));
}

#[test]
fn behind_a_proxy_the_network_that_it_names_counts() {
    let rules = DoorRules {
        behind_proxy: true,
        strangers_a_minute: NonZeroU32::new(5).unwrap(),
        ..patient()
    };
    let here = HubHere::start_with(&Kept::Sqlite, rules, None);
    let body = frame::encode(&Ask::Crew).unwrap();
    let status = |from: &str| {
        let mut stream = TcpStream::connect(here.at).unwrap();
        write!(
            stream,
            "POST /exchange HTTP/1.1\r\nhost: 127.0.0.1\r\nconnection: close\r\n\
             content-type: {FRAME_TYPE}\r\nx-forwarded-proto: https\r\n\
             x-forwarded-for: {from}\r\ncontent-length: {}\r\n\r\n",
            body.len()
        )
        .unwrap();
        stream.write_all(&body).unwrap();
        let mut heard = Vec::new();
        stream.read_to_end(&mut heard).unwrap();
        String::from_utf8_lossy(&heard[9..12]).into_owned()
    };
    for last in 1..=5 {
        assert_eq!(status(&format!("2001:db8:0:1::{last}")), "404");
    }
    assert_eq!(status("2001:db8:0:1:ffff::1"), "429", "the same /64");
    assert_eq!(status("2001:db8:0:2::1"), "404", "another /64");
    assert_eq!(status("198.51.100.7"), "404");
}

#[cfg(unix)]
#[test]
fn the_hubs_files_are_its_users_alone() {
    use std::os::unix::fs::PermissionsExt as _;
    let folder = tempfile::tempdir().unwrap();
    let at = |name: &str| folder.path().join(name);
    let mode = |name: &str| at(name).metadata().unwrap().permissions().mode() & 0o777;
    // A file of an earlier version that others may read.
    let store = hub::store::sqlite::SqliteStore::open(&at("hub.db")).unwrap();
    drop(store);
    let open = std::fs::Permissions::from_mode(0o644);
    std::fs::set_permissions(at("hub.db"), open).unwrap();
    let store = hub::store::sqlite::SqliteStore::open(&at("hub.db")).unwrap();
    hub::photos::Photos::in_folder(&at("photos")).unwrap();
    let runtime = tokio::runtime::Runtime::new().unwrap();
    let copy = at("copy.db");
    let backup = hub::store::Store::backup(&store, &copy);
    runtime.block_on(backup).unwrap();
    for name in ["hub.db", "hub.db-wal", "hub.db-shm", "copy.db"] {
        assert_eq!(mode(name), 0o600, "{name}");
    }
    for name in ["photos", "photos/whole", "photos/parts"] {
        assert_eq!(mode(name), 0o700, "{name}");
    }
}

#[cfg(unix)]
#[test]
fn the_hubs_photos_are_its_users_alone() {
    use std::os::unix::fs::PermissionsExt as _;
    let here = HubHere::start(&Kept::Sqlite);
    let ada = here.crew("Ada");
    let mut way = here.way(Some(ada.token.clone()));
    let part = usize::try_from(PHOTO_PART).unwrap();
    let photo = vec![3; part + 900];
    let hex = |photo: &[u8]| -> String {
        let digest = Sha256::digest(photo);
        digest.iter().map(|byte| format!("{byte:02x}")).collect()
    };
    // One whole, and one that is on its way.
    way.send_photo(&hex(&photo[..900]), 0, 900, &photo[..900])
        .unwrap();
    way.send_photo(&hex(&photo), 0, photo.len() as u64, &photo[..part])
        .unwrap();
    let mut folders = vec![here.folder.path().join("photos")];
    let mut files = 0;
    while let Some(folder) = folders.pop() {
        for entry in std::fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            if path.is_dir() {
                folders.push(path);
                continue;
            }
            let mode = path.metadata().unwrap().permissions().mode() & 0o777;
            assert_eq!(mode, 0o600, "{}: {mode:o}", path.display());
            files += 1;
        }
    }
    assert_eq!(files, 2);
}
