//! What a hub must refuse. After each case everything that it keeps is the same
//! as before; what a stranger hears is the same whatever was tried.

use crate::hub_here::{HubHere, Kept, Phone, join, patient};
use exchange::Trouble;
use exchange::http::{HttpWay, Trust};
use exchange::meet::Way;
use hub::door::{DoorRules, FRAME_TYPE};
use hub::photos::Photos;
use hub::serve::{Listening, ServeFault, bind};
use hub::store::sqlite::SqliteStore;
use serde_bytes::ByteBuf;
use sha2::{Digest, Sha256};
use std::fmt::Write as _;
use std::io::{Read, Write};
use std::net::{SocketAddr, TcpStream};
use std::num::NonZeroU32;
use std::path::Path;
use std::sync::Arc;
use std::time::{Duration, Instant};
use uuid::Uuid;
use wire::code::{self, Token};
use wire::frame;
use wire::{Answer, Ask, CHANGE_BYTES, Clash, PHOTO_BYTES, PHOTO_PART, Refusal, Role, Run, Span};

/// A hub with two crews, and everything that may be guessed at.
struct Scene {
    here: HubHere,
    owner: Phone,
    scout: Phone,
    reader: Phone,
    removed: Phone,
    other_owner: Phone,
    other_invitation: Uuid,
    other_series: Uuid,
    other_photo: String,
    series: Uuid,
    used_code: String,
    ended_code: String,
    withdrawn_code: String,
    open_invitation: Uuid,
}

const PHOTO: &[u8] = b"no photo, but bytes with a name";

fn scene() -> Scene {
    let rules = DoorRules {
        hosts: vec!["127.0.0.1".to_owned()],
        head_time: Duration::from_millis(700),
        body_time: Duration::from_millis(700),
        ..patient()
    };
    let here = HubHere::start_with(&Kept::Sqlite, rules, None);
    let owner = here.crew("Ada");
    let used = here.invite(&owner, Role::Scout);
    let scout = here.join(&used.code, "Ben");
    let reader = here.further(&owner, Role::Reader, "Cal");
    let removed = here.further(&owner, Role::Scout, "Dee");
    let series = Uuid::now_v7();
    ask(&here, &scout, &push(series, 0, &[b"one", b"two"]));
    ask(&here, &removed, &push(Uuid::now_v7(), 0, &[b"kept"]));
    let gone = Ask::RemoveDevice {
        device: removed.joined.device,
    };
    assert_eq!(ask(&here, &owner, &gone), Answer::Done);
    let other_owner = here.crew("Eve");
    let other_series = Uuid::now_v7();
    ask(&here, &other_owner, &push(other_series, 0, &[b"secret"]));
    let other_photo = hex(PHOTO);
    here.way(Some(other_owner.token.clone()))
        .send_photo(&other_photo, 0, PHOTO.len() as u64, PHOTO)
        .unwrap();
    let other_invitation = here.invite(&other_owner, Role::Scout).invitation;
    let withdrawn = here.invite(&owner, Role::Scout);
    let withdraw = Ask::Withdraw {
        invitation: withdrawn.invitation,
    };
    assert_eq!(ask(&here, &owner, &withdraw), Answer::Done);
    let ended = here.invite(&owner, Role::Owner);
    here.later(61);
    let open_invitation = here.invite(&owner, Role::Scout).invitation;
    Scene {
        here,
        owner,
        scout,
        reader,
        removed,
        other_owner,
        other_invitation,
        other_series,
        other_photo,
        series,
        used_code: used.code,
        ended_code: ended.code,
        withdrawn_code: withdrawn.code,
        open_invitation,
    }
}

fn ask(here: &HubHere, phone: &Phone, ask: &Ask) -> Answer {
    here.way(Some(phone.token.clone())).ask(ask).unwrap()
}

fn push(device: Uuid, after: u64, bodies: &[&[u8]]) -> Ask {
    let run = Run {
        device,
        after,
        bodies: bodies.iter().map(|body| ByteBuf::from(*body)).collect(),
    };
    Ask::Push(vec![run].into())
}

fn hex(bytes: &[u8]) -> String {
    Sha256::digest(bytes)
        .iter()
        .map(|byte| format!("{byte:02x}"))
        .collect()
}

/// Everything that the hub keeps, but the times at which members were seen.
fn kept(folder: &Path) -> String {
    let db = rusqlite::Connection::open(folder.join("hub.sqlite")).unwrap();
    let mut text = String::new();
    for table in [
        "crew",
        "person",
        "device",
        "invitation",
        "series",
        "change",
        "seal",
        "photo",
    ] {
        let mut query = db.prepare(&format!("SELECT * FROM {table}")).unwrap();
        let columns: Vec<String> = query
            .column_names()
            .iter()
            .map(|&name| name.into())
            .collect();
        let mut rows = query.query([]).unwrap();
        while let Some(row) = rows.next().unwrap() {
            for (place, name) in columns.iter().enumerate() {
                if name != "seen_at" {
                    write!(text, "{table}.{name}={:?};", row.get_ref(place).unwrap()).unwrap();
                }
            }
        }
    }
    let mut folders = vec![folder.join("photos")];
    while let Some(next) = folders.pop() {
        let mut entries: Vec<_> = std::fs::read_dir(next).unwrap().flatten().collect();
        entries.sort_by_key(std::fs::DirEntry::path);
        for entry in entries {
            if entry.path().is_dir() {
                folders.push(entry.path());
            } else {
                write!(text, "{}", entry.path().display()).unwrap();
            }
        }
    }
    text
}

/// Status line and headers without the date, and the body.
#[derive(Debug, Clone, PartialEq, Eq)]
struct Heard {
    status: u16,
    head: String,
    body: Vec<u8>,
}

/// Sends bytes as they are and hears what comes back; none when the hub hangs up.
fn raw(at: SocketAddr, bytes: &[u8]) -> Option<Heard> {
    let mut stream = TcpStream::connect(at).unwrap();
    stream
        .set_read_timeout(Some(Duration::from_secs(10)))
        .unwrap();
    // The hub may refuse before all was sent.
    let _ = stream.write_all(bytes);
    let mut heard = Vec::new();
    let _ = stream.read_to_end(&mut heard);
    parse(&heard)
}

fn parse(heard: &[u8]) -> Option<Heard> {
    let end = heard.windows(4).position(|four| four == b"\r\n\r\n")?;
    let head = std::str::from_utf8(&heard[..end]).unwrap();
    let status = head.split(' ').nth(1)?.parse().ok()?;
    let mut lines: Vec<String> = head
        .lines()
        .map(str::to_ascii_lowercase)
        .filter(|line| !line.starts_with("date:") && !line.starts_with("connection:"))
        .collect();
    lines.sort();
    Some(Heard {
        status,
        head: lines.join("\n"),
        body: heard[end + 4..].to_vec(),
    })
}

fn request(line: &str, headers: &[(&str, &str)], body: &[u8]) -> Vec<u8> {
    let mut text = format!("{line} HTTP/1.1\r\nconnection: close\r\n");
    for (name, value) in headers {
        write!(text, "{name}: {value}\r\n").unwrap();
    }
    write!(text, "content-length: {}\r\n\r\n", body.len()).unwrap();
    let mut bytes = text.into_bytes();
    bytes.extend_from_slice(body);
    bytes
}

const HOST: (&str, &str) = ("host", "127.0.0.1");
const FRAME: (&str, &str) = ("content-type", FRAME_TYPE);

/// Runs cases one by one, each against an unchanged store.
struct Cases<'a> {
    scene: &'a Scene,
    before: String,
    stranger: Heard,
    count: usize,
}

impl<'a> Cases<'a> {
    fn new(scene: &'a Scene) -> Self {
        let stranger = raw(scene.here.at, &request("GET /", &[HOST], b"")).unwrap();
        assert_eq!(stranger.status, 404);
        Self {
            scene,
            before: kept(scene.here.folder.path()),
            stranger,
            count: 0,
        }
    }

    fn unchanged(&mut self, name: &str) {
        assert_eq!(
            kept(self.scene.here.folder.path()),
            self.before,
            "{name}: something was written"
        );
        self.count += 1;
    }

    /// The stranger's answer, and no other.
    fn stranger(&mut self, name: &str, bytes: &[u8]) {
        let heard = raw(self.scene.here.at, bytes);
        assert_eq!(heard.as_ref(), Some(&self.stranger), "{name}");
        self.unchanged(name);
    }

    /// Refused by the HTTP library itself, before anything of ours sees it.
    fn hung_up(&mut self, name: &str, bytes: &[u8]) {
        if let Some(heard) = raw(self.scene.here.at, bytes) {
            assert!((400..500).contains(&heard.status), "{name}: {heard:?}");
        }
        self.unchanged(name);
    }

    fn refused(&mut self, name: &str, phone: &Phone, question: &Ask, refusal: Refusal) {
        let answer = ask(&self.scene.here, phone, question);
        assert_eq!(answer, Answer::Refused(refusal), "{name}");
        self.unchanged(name);
    }

    fn answered(&mut self, name: &str, phone: &Phone, question: &Ask, answer: &Answer) {
        assert_eq!(&ask(&self.scene.here, phone, question), answer, "{name}");
        self.unchanged(name);
    }

    /// A member's raw request, and the refusal in the frame that comes back.
    fn member(
        &mut self,
        name: &str,
        phone: &Phone,
        line: &str,
        extra: &[(&str, &str)],
        body: &[u8],
        refusal: Refusal,
    ) {
        let bearer = format!("Bearer {}", phone.token.to_text());
        let mut headers = vec![HOST, ("authorization", bearer.as_str())];
        headers.extend_from_slice(extra);
        let heard = raw(self.scene.here.at, &request(line, &headers, body)).unwrap();
        assert!((400..500).contains(&heard.status), "{name}: {heard:?}");
        if !line.starts_with("HEAD") {
            let answer: Answer = frame::decode(&heard.body).unwrap();
            assert_eq!(answer, Answer::Refused(refusal), "{name}");
        }
        self.unchanged(name);
    }
}

#[test]
fn everything_that_must_be_refused_is_and_nothing_is_written() {
    let scene = scene();
    let mut cases = Cases::new(&scene);
    without_a_token(&mut cases);
    with_a_wrong_token(&mut cases);
    with_a_bad_code(&mut cases);
    odd_requests(&mut cases);
    removed(&mut cases);
    wrong_role(&mut cases);
    other_crew(&mut cases);
    out_of_bounds(&mut cases);
    malformed(&mut cases);
    photos(&mut cases);
    slow(&mut cases);
    println!("{} cases refused", cases.count);
    assert!(cases.count >= 60, "{}", cases.count);
    // And after all that the hub still serves its members.
    assert!(matches!(
        ask(&scene.here, &scene.owner, &Ask::Crew),
        Answer::Crew(_)
    ));
}

fn questions(scene: &Scene) -> Vec<(&'static str, Ask)> {
    let span = Span {
        device: scene.series,
        after: 0,
        to: 2,
    };
    vec![
        ("crew", Ask::Crew),
        (
            "heads",
            Ask::Heads {
                mine: Vec::new().into(),
            },
        ),
        ("push", push(scene.series, 2, &[b"three"])),
        (
            "pull",
            Ask::Pull {
                spans: vec![span].into(),
            },
        ),
        ("tags", Ask::Tags(span)),
        (
            "invite",
            Ask::Invite {
                person: None,
                role: Role::Owner,
                minutes: 5,
            },
        ),
        (
            "withdraw",
            Ask::Withdraw {
                invitation: scene.open_invitation,
            },
        ),
        (
            "remove a phone",
            Ask::RemoveDevice {
                device: scene.scout.joined.device,
            },
        ),
        (
            "change a role",
            Ask::SetRole {
                person: scene.scout.joined.person,
                role: Role::Owner,
            },
        ),
        (
            "photos missing",
            Ask::PhotosMissing {
                names: vec![[1; 32]].into(),
            },
        ),
    ]
}

fn without_a_token(cases: &mut Cases) {
    for (name, question) in questions(cases.scene) {
        let body = frame::encode(&question).unwrap();
        cases.stranger(
            &format!("{name} without a token"),
            &request("POST /exchange", &[HOST, FRAME], &body),
        );
    }
    let photo = format!("/photos/{}", cases.scene.other_photo);
    for method in ["GET", "HEAD", "PUT", "DELETE"] {
        let bytes = request(&format!("{method} {photo}"), &[HOST], b"");
        if method == "HEAD" {
            let heard = raw(cases.scene.here.at, &bytes).unwrap();
            assert_eq!(heard.status, 404);
            cases.unchanged("HEAD a photo without a token");
        } else {
            cases.stranger(&format!("{method} a photo without a token"), &bytes);
        }
    }
    for line in [
        "GET /exchange",
        "PUT /exchange",
        "OPTIONS /exchange",
        "POST /",
        "GET /metrics",
        "GET /photos/",
        "GET /exchange/../health",
        "POST /health",
        "GET /%2e%2e/%2e%2e/etc/passwd",
        "BREW /exchange",
    ] {
        cases.stranger(line, &request(line, &[HOST], b""));
    }
}

fn with_a_wrong_token(cases: &mut Cases) {
    let scene = cases.scene;
    let good = &scene.owner.token;
    let mut one_bit = good.clone();
    one_bit.secret[31] ^= 1;
    let unknown = Token {
        device: Uuid::now_v7(),
        secret: good.secret,
    };
    let swapped = Token {
        device: good.device,
        secret: scene.other_owner.token.secret,
    };
    let nil = Token {
        device: Uuid::nil(),
        secret: [0; 32],
    };
    let text = good.to_text();
    let body = frame::encode(&Ask::Crew).unwrap();
    let wrong = [
        (
            "one bit of the secret",
            format!("Bearer {}", one_bit.to_text()),
        ),
        ("an unknown phone", format!("Bearer {}", unknown.to_text())),
        (
            "another phone's secret",
            format!("Bearer {}", swapped.to_text()),
        ),
        ("all zeros", format!("Bearer {}", nil.to_text())),
        ("a cut token", format!("Bearer {}", &text[..text.len() - 1])),
        ("a longer token", format!("Bearer {text}0")),
        ("the secret alone", format!("Bearer {}", &text[33..])),
        ("another scheme", format!("Basic {text}")),
        ("no scheme", text.clone()),
        ("an empty token", "Bearer ".to_owned()),
        ("SQL", format!("Bearer {}' OR '1'='1", &text[..30])),
    ];
    for (name, value) in &wrong {
        let headers = [HOST, FRAME, ("authorization", value.as_str())];
        cases.stranger(name, &request("POST /exchange", &headers, &body));
    }
    let bearer = format!("Bearer {text}");
    let headers = [
        HOST,
        FRAME,
        ("authorization", bearer.as_str()),
        ("authorization", "Bearer x"),
    ];
    cases.stranger("two tokens", &request("POST /exchange", &headers, &body));
    let line = format!("POST /exchange?token={text}");
    cases.stranger(
        "a token in the address",
        &request(&line, &[HOST, FRAME], &body),
    );
    let cookie = format!("token={text}");
    let headers = [HOST, FRAME, ("cookie", cookie.as_str())];
    cases.stranger(
        "a token in a cookie",
        &request("POST /exchange", &headers, &body),
    );
}

fn with_a_bad_code(cases: &mut Cases) {
    let scene = cases.scene;
    let made_up = code::new_code().unwrap();
    let fresh = scene.used_code.clone();
    let long_name = "N".repeat(500);
    let tries: [(&str, &str, &str); 10] = [
        ("a used invitation", &fresh, "Mallory"),
        ("an ended invitation", &scene.ended_code, "Mallory"),
        ("a withdrawn invitation", &scene.withdrawn_code, "Mallory"),
        ("a made-up code", &made_up, "Mallory"),
        ("no code", "", "Mallory"),
        ("a code too long", &format!("{made_up}{made_up}"), "Mallory"),
        ("SQL for a code", "' OR code_hash NOT NULL --", "Mallory"),
        ("no name", &made_up, " "),
        ("a long name", &made_up, &long_name),
        ("a name of two lines", &made_up, "Mal\nlory"),
    ];
    for (name, code, person) in tries {
        let question = Ask::Join {
            code: code.to_owned(),
            token_hash: [9; 32],
            person: person.to_owned(),
            device: "phone".to_owned(),
            crew: "crew".to_owned(),
        };
        let body = frame::encode(&question).unwrap();
        cases.stranger(name, &request("POST /exchange", &[HOST, FRAME], &body));
    }
}

fn odd_requests(cases: &mut Cases) {
    let bearer = format!("Bearer {}", cases.scene.owner.token.to_text());
    let token = ("authorization", bearer.as_str());
    let body = frame::encode(&Ask::Crew).unwrap();
    let line = "POST /exchange";
    cases.stranger(
        "another Host with a good token",
        &request(line, &[("host", "evil.example"), FRAME, token], &body),
    );
    cases.stranger(
        "a Host that only starts right",
        &request(
            line,
            &[("host", "127.0.0.1.evil.example"), FRAME, token],
            &body,
        ),
    );
    cases.stranger("no Host", &request(line, &[FRAME, token], &body));
    cases.stranger(
        "two Hosts",
        &request(line, &[HOST, ("host", "evil.example"), FRAME, token], &body),
    );
    cases.stranger(
        "another host in the target",
        &request(
            "POST http://evil.example/exchange",
            &[HOST, FRAME, token],
            &body,
        ),
    );
    for origin in ["https://evil.example", "null", "http://127.0.0.1"] {
        cases.stranger(
            &format!("Origin {origin}"),
            &request(line, &[HOST, FRAME, token, ("origin", origin)], &body),
        );
    }
    cases.stranger(
        "a body that is no frame",
        &request(line, &[HOST, FRAME], b"{\"op\":\"crew\"}"),
    );
    let other_version = frame::encode_as(77, &Ask::Crew).unwrap();
    cases.stranger(
        "another version from a stranger",
        &request(line, &[HOST, FRAME], &other_version),
    );
    cases.stranger(
        "a large body from a stranger",
        &request(line, &[HOST, FRAME], &vec![0; 5_000]),
    );
    let smuggled = b"POST /exchange HTTP/1.1\r\nhost: 127.0.0.1\r\ncontent-length: 4\r\n\
        transfer-encoding: chunked\r\n\r\n0\r\n\r\nGET /metrics HTTP/1.1\r\n\r\n";
    cases.hung_up("a length and chunks at once", smuggled);
    cases.hung_up(
        "two lengths",
        b"POST /exchange HTTP/1.1\r\nhost: 127.0.0.1\r\ncontent-length: 4\r\ncontent-length: 9\r\n\r\nabcd",
    );
    let mut many = String::from("POST /exchange HTTP/1.1\r\nhost: 127.0.0.1\r\n");
    for number in 0..200 {
        write!(many, "x-{number}: y\r\n").unwrap();
    }
    cases.hung_up("two hundred headers", format!("{many}\r\n").as_bytes());
    let long = format!(
        "GET /{} HTTP/1.1\r\nhost: 127.0.0.1\r\n\r\n",
        "a".repeat(70_000)
    );
    cases.hung_up("an endless path", long.as_bytes());
    cases.hung_up(
        "no HTTP at all",
        b"\x16\x03\x01\x02\x00\x01\x00\x01\xfc\x03\x03",
    );
    cases.hung_up(
        "a line break in a header",
        b"POST /exchange HTTP/1.1\r\nhost: a\rb\r\n\r\n",
    );
}

fn removed(cases: &mut Cases) {
    let scene = cases.scene;
    for (name, question) in questions(scene) {
        cases.refused(
            &format!("{name} from a removed phone"),
            &scene.removed,
            &question,
            Refusal::Removed,
        );
    }
    let photo = format!("/photos/{}", scene.other_photo);
    for method in ["GET", "PUT"] {
        cases.member(
            &format!("{method} a photo from a removed phone"),
            &scene.removed,
            &format!("{method} {photo}"),
            &[("content-range", "bytes 0-0/1")],
            b"x",
            Refusal::Removed,
        );
    }
    let again = frame::encode(&Ask::Join {
        code: scene.used_code.clone(),
        token_hash: code::hash(&scene.removed.token.secret),
        person: "Dee".to_owned(),
        device: "phone".to_owned(),
        crew: "crew".to_owned(),
    });
    cases.stranger(
        "a removed phone with a used code",
        &request("POST /exchange", &[HOST, FRAME], &again.unwrap()),
    );
}

fn wrong_role(cases: &mut Cases) {
    let scene = cases.scene;
    let owners_only = ["invite", "withdraw", "remove a phone", "change a role"];
    for (name, question) in questions(scene) {
        if owners_only.contains(&name) || name == "push" {
            let name = format!("{name} from a reader");
            cases.refused(&name, &scene.reader, &question, Refusal::NotAllowed);
        }
        if owners_only.contains(&name) && name != "remove a phone" {
            let name = format!("{name} from a scout");
            cases.refused(&name, &scene.scout, &question, Refusal::NotAllowed);
        }
    }
    let owner = Ask::RemoveDevice {
        device: scene.owner.joined.device,
    };
    cases.refused(
        "a scout removes the owner",
        &scene.scout,
        &owner,
        Refusal::NotAllowed,
    );
    cases.member(
        "a reader sends a photo",
        &scene.reader,
        &format!("PUT /photos/{}", hex(b"p")),
        &[("content-range", "bytes 0-0/1")],
        b"p",
        Refusal::NotAllowed,
    );
    let Answer::Crew(seen) = ask(&scene.here, &scene.scout, &Ask::Crew) else {
        panic!("no crew");
    };
    assert!(seen.invitations.is_empty(), "only owners see invitations");
}

fn other_crew(cases: &mut Cases) {
    let scene = cases.scene;
    let span = Span {
        device: scene.other_series,
        after: 0,
        to: 1,
    };
    let pull = Ask::Pull {
        spans: vec![span].into(),
    };
    let nothing = Answer::Pulled(Vec::new().into());
    cases.answered(
        "another crew's changes by id",
        &scene.owner,
        &pull,
        &nothing,
    );
    let none = Answer::Tags(Vec::new().into());
    cases.answered(
        "another crew's tags by id",
        &scene.owner,
        &Ask::Tags(span),
        &none,
    );
    let other = scene.other_owner.joined.clone();
    let tries = [
        (
            "another crew's phone",
            Ask::RemoveDevice {
                device: other.device,
            },
        ),
        (
            "another crew's person",
            Ask::SetRole {
                person: other.person,
                role: Role::Reader,
            },
        ),
        (
            "another crew's invitation",
            Ask::Withdraw {
                invitation: scene.other_invitation,
            },
        ),
        (
            "an invitation for another crew's person",
            Ask::Invite {
                person: Some(other.person),
                role: Role::Owner,
                minutes: 5,
            },
        ),
    ];
    for (name, question) in tries {
        cases.refused(name, &scene.owner, &question, Refusal::Unknown);
    }
    cases.member(
        "another crew's photo by its name",
        &scene.owner,
        &format!("GET /photos/{}", scene.other_photo),
        &[],
        b"",
        Refusal::Unknown,
    );
    let missing = Ask::PhotosMissing {
        names: vec![Sha256::digest(PHOTO).into()].into(),
    };
    let lacks = Answer::PhotosMissing(vec![(Sha256::digest(PHOTO).into(), 0)].into());
    cases.answered(
        "whether another crew has a photo",
        &scene.owner,
        &missing,
        &lacks,
    );
}

fn out_of_bounds(cases: &mut Cases) {
    let scene = cases.scene;
    let (series, scout) = (scene.series, &scene.scout);
    let gap = Refusal::Gap {
        device: series,
        have: 2,
    };
    cases.refused("a gap", scout, &push(series, 3, &[b"four"]), gap);
    let fresh = Uuid::now_v7();
    let gap = Refusal::Gap {
        device: fresh,
        have: 0,
    };
    cases.refused(
        "a series that starts late",
        scout,
        &push(fresh, 5, &[b"six"]),
        gap,
    );
    let clash = Refusal::Clash(Clash {
        device: series,
        seq: 2,
    });
    cases.refused(
        "other content under a used number",
        scout,
        &push(series, 1, &[b"TWO", b"three"]),
        clash,
    );
    let two_runs = Ask::Push(
        vec![
            Run {
                device: series,
                after: 2,
                bodies: vec![ByteBuf::from(*b"three")].into(),
            },
            Run {
                device: series,
                after: 9,
                bodies: vec![ByteBuf::from(*b"ten")].into(),
            },
        ]
        .into(),
    );
    let gap = Refusal::Gap {
        device: series,
        have: 3,
    };
    cases.refused(
        "a page whose second half does not fit",
        scout,
        &two_runs,
        gap,
    );
    let long = vec![7; CHANGE_BYTES + 1];
    let far = push(series, u64::MAX - 1, &[b"x"]);
    let bounds = [
        ("an empty change", push(series, 2, &[b""])),
        ("a run without changes", push(series, 2, &[])),
        ("a number at the end of the range", far),
        ("a change too long", push(series, 2, &[&long])),
        (
            "a page too large",
            push(series, 2, &[&[1; 200_000][..], &[2; 200_000][..]]),
        ),
    ];
    for (name, question) in bounds {
        cases.refused(name, scout, &question, Refusal::OutOfBounds);
    }
    for minutes in [0, 7 * 24 * 60 + 1, u32::MAX] {
        let invite = Ask::Invite {
            person: None,
            role: Role::Scout,
            minutes,
        };
        let name = format!("an invitation for {minutes} minutes");
        cases.refused(&name, &scene.owner, &invite, Refusal::OutOfBounds);
    }
    let (device, person) = (scene.owner.joined.device, scene.owner.joined.person);
    let leave = Ask::RemoveDevice { device };
    cases.refused(
        "the last owner leaves",
        &scene.owner,
        &leave,
        Refusal::LastOwner,
    );
    let step_down = Ask::SetRole {
        person,
        role: Role::Reader,
    };
    cases.refused(
        "the last owner steps down",
        &scene.owner,
        &step_down,
        Refusal::LastOwner,
    );
    let join = Ask::Join {
        code: scene.used_code.clone(),
        token_hash: [1; 32],
        person: "Ben".to_owned(),
        device: "phone".to_owned(),
        crew: "crew".to_owned(),
    };
    cases.refused("a member joins again", scout, &join, Refusal::NotAllowed);
}

fn malformed(cases: &mut Cases) {
    let scene = cases.scene;
    let good = frame::encode(&push(scene.series, 2, &[&[3; 300]])).unwrap();
    let mut flipped = good.clone();
    flipped[30] ^= 4;
    let mut trailing = good.clone();
    trailing.push(0);
    let bodies: [(&str, &[u8]); 5] = [
        ("nothing", b""),
        ("text", b"hello hub, how are you today?"),
        ("a cut frame", &good[..good.len() - 1]),
        ("a flipped bit", &flipped),
        ("a byte too many", &trailing),
    ];
    for (name, body) in bodies {
        cases.member(
            name,
            &scene.scout,
            "POST /exchange",
            &[FRAME],
            body,
            Refusal::OutOfBounds,
        );
    }
    cases.member(
        "another content type",
        &scene.scout,
        "POST /exchange",
        &[("content-type", "application/json")],
        &good,
        Refusal::OutOfBounds,
    );
    cases.member(
        "another version",
        &scene.scout,
        "POST /exchange",
        &[FRAME],
        &frame::encode_as(77, &Ask::Crew).unwrap(),
        Refusal::Version {
            oldest: 1,
            newest: 2,
        },
    );
    cases.member(
        "a body past the bound",
        &scene.scout,
        "POST /exchange",
        &[FRAME],
        &vec![0; 2 << 20],
        Refusal::OutOfBounds,
    );
    // A valid frame of the wrong type: an answer where a question belongs.
    let answer = frame::encode(&Answer::Tags(vec![wire::Tag([255; 8])].into())).unwrap();
    let heard = raw(
        scene.here.at,
        &request(
            "POST /exchange",
            &[
                HOST,
                FRAME,
                (
                    "authorization",
                    &format!("Bearer {}", scene.scout.token.to_text()),
                ),
            ],
            &answer,
        ),
    );
    assert!((400..500).contains(&heard.unwrap().status));
    cases.unchanged("an answer where a question belongs");
}

fn photos(cases: &mut Cases) {
    let scene = cases.scene;
    let name = hex(b"photo");
    let upper = name.to_uppercase();
    let tricks = [
        "../../hub.sqlite".to_owned(),
        "..%2f..%2fhub.sqlite".to_owned(),
        "%2e%2e/%2e%2e/hub.sqlite".to_owned(),
        "..\\..\\hub.sqlite".to_owned(),
        format!("{name}/../{name}"),
        format!("{name}%00"),
        format!("{name}."),
        format!("/{name}"),
        upper,
        name[..63].to_owned(),
        format!("{name}0"),
        "CON".to_owned(),
        ".".to_owned(),
    ];
    let range = ("content-range", "bytes 0-4/5");
    for trick in &tricks {
        for method in ["GET", "PUT"] {
            cases.member(
                &format!("{method} {trick}"),
                &scene.scout,
                &format!("{method} /photos/{trick}"),
                &[range],
                b"photo",
                Refusal::Unknown,
            );
        }
    }
    let line = format!("PUT /photos/{name}");
    let too_large = format!("bytes 0-4/{}", PHOTO_BYTES + 1);
    let unaligned = "bytes 7-11/12".to_owned();
    let bad: [(&str, &str); 9] = [
        ("a photo without a range", ""),
        ("a part longer than said", "bytes 0-3/5"),
        ("a part shorter than said", "bytes 0-5/6"),
        ("a part in the middle of nowhere", &unaligned),
        ("a photo too large", &too_large),
        ("a photo of no bytes", "bytes 0-4/0"),
        ("a part past the end", "bytes 0-4/3"),
        ("a range backwards", "bytes 4-0/5"),
        ("a range of no numbers", "bytes x-y/z"),
    ];
    for (what, value) in bad {
        cases.member(
            what,
            &scene.scout,
            &line,
            &[("content-range", value)],
            b"photo",
            Refusal::OutOfBounds,
        );
    }
    cases.member(
        "bytes that are not what the name says",
        &scene.scout,
        &line,
        &[range],
        b"PHOTO",
        Refusal::OutOfBounds,
    );
    let most = usize::try_from(PHOTO_PART).unwrap();
    cases.member(
        "a part past the bound",
        &scene.scout,
        &line,
        &[("content-range", &format!("bytes 0-{most}/{}", most + 1))],
        &vec![1; most + 1],
        Refusal::OutOfBounds,
    );
    for value in [
        "bytes=9-2",
        "bytes=0-1,3-4",
        "bytes=-5",
        "lines=1-2",
        "bytes=99999-",
    ] {
        cases.member(
            &format!("Range {value}"),
            &scene.other_owner,
            &format!("GET /photos/{}", scene.other_photo),
            &[("range", value)],
            b"",
            Refusal::OutOfBounds,
        );
    }
}

fn slow(cases: &mut Cases) {
    let at = cases.scene.here.at;
    let token = format!("Bearer {}", cases.scene.scout.token.to_text());
    let slow_head = b"POST /exchange HTTP/1.1\r\nhost: 127.0.0.1\r\nx-slow: ".to_vec();
    let slow_body = format!(
        "POST /exchange HTTP/1.1\r\nhost: 127.0.0.1\r\ncontent-type: {FRAME_TYPE}\r\n\
         authorization: {token}\r\ncontent-length: 5000\r\n\r\n"
    );
    let slow_photo = format!(
        "PUT /photos/{} HTTP/1.1\r\nhost: 127.0.0.1\r\ncontent-range: bytes 0-4999/5000\r\n\
         authorization: {token}\r\ncontent-length: 5000\r\n\r\n",
        hex(b"slow photo")
    );
    for (name, opening) in [
        ("a head that never ends", slow_head),
        ("a body that never ends", slow_body.into_bytes()),
        ("a photo that never ends", slow_photo.into_bytes()),
    ] {
        let started = Instant::now();
        let mut stream = TcpStream::connect(at).unwrap();
        stream.write_all(&opening).unwrap();
        stream
            .set_read_timeout(Some(Duration::from_millis(100)))
            .unwrap();
        let mut ended = false;
        while started.elapsed() < Duration::from_secs(10) && !ended {
            // A byte now and then keeps no connection alive.
            let sent = stream.write_all(b"x");
            let mut heard = [0; 512];
            ended = match stream.read(&mut heard) {
                Ok(_) => true,
                Err(error) => sent.is_err() || error.kind() == std::io::ErrorKind::ConnectionReset,
            };
        }
        assert!(ended, "{name}: the hub went on waiting");
        cases.unchanged(name);
    }
}

#[test]
fn strangers_and_members_are_slowed_down() {
    let rules = DoorRules {
        strangers_a_minute: NonZeroU32::new(5).unwrap(),
        member_a_second: NonZeroU32::new(1).unwrap(),
        ..DoorRules::default()
    };
    let here = HubHere::start_with(&Kept::Sqlite, rules, None);
    let owner = here.crew("Ada");
    let mut guessed = 0;
    let slowed = (0..20).any(|_| {
        guessed += 1;
        let code = code::new_code().unwrap();
        join(&mut here.way(None), &code, "Mallory").err() == Some(Trouble::Slower(60))
    });
    assert!(slowed && guessed <= 6, "{guessed} guesses");
    // Members have their own measure, so a stranger cannot shut them out.
    let mut way = here.way(Some(owner.token.clone()));
    assert!(matches!(way.ask(&Ask::Crew), Ok(Answer::Crew(_))));
    let slowed = (0..30).any(|_| way.ask(&Ask::Crew) == Ok(Answer::Refused(Refusal::Slower(1))));
    assert!(slowed);
}

#[test]
fn behind_a_proxy_only_its_word_counts() {
    let rules = DoorRules {
        behind_proxy: true,
        ..patient()
    };
    let here = HubHere::start_with(&Kept::Sqlite, rules, None);
    let code = here.founding_code();
    let refused = join(&mut here.way(None), &code, "Ada");
    assert_eq!(refused.err(), Some(Trouble::NotLetIn));
    let body = frame::encode(&Ask::Join {
        code,
        token_hash: [5; 32],
        person: "Ada".to_owned(),
        device: "phone".to_owned(),
        crew: "North bench".to_owned(),
    })
    .unwrap();
    let from = ("x-forwarded-for", "203.0.113.9, 198.51.100.4");
    for (proto, status) in [("http", 404), ("https", 200)] {
        let headers = [HOST, FRAME, from, ("x-forwarded-proto", proto)];
        let heard = raw(here.at, &request("POST /exchange", &headers, &body)).unwrap();
        assert_eq!(heard.status, status, "{proto}");
    }
}

#[test]
fn tokens_do_not_cross_a_network_in_the_clear() {
    let folder = tempfile::tempdir().unwrap();
    let runtime = tokio::runtime::Runtime::new().unwrap();
    let hub = hub::Hub::new(
        Arc::new(SqliteStore::open(&folder.path().join("hub.sqlite")).unwrap()),
        Photos::in_folder(&folder.path().join("photos")).unwrap(),
        hub::machine_clock(),
    );
    let open = SocketAddr::from(([0, 0, 0, 0], 0));
    let here = SocketAddr::from(([127, 0, 0, 1], 0));
    let listening = |at, metrics_at| Listening {
        at,
        tls: None,
        metrics_at,
        rules: DoorRules::default(),
    };
    let plain = runtime.block_on(bind(hub.clone(), listening(open, None)));
    assert!(matches!(plain.err(), Some(ServeFault::Plaintext(_))));
    let metrics = runtime.block_on(bind(hub, listening(here, Some(open))));
    assert!(matches!(
        metrics.err(),
        Some(ServeFault::MetricsInTheOpen(_))
    ));
    assert!(HttpWay::new("http://192.0.2.1:80", &Trust::Public, None).is_err());
}

#[test]
fn over_tls_plaintext_is_refused_and_a_foreign_certificate_is_not_trusted() {
    let folder = tempfile::tempdir().unwrap();
    let own = rcgen::generate_simple_self_signed(vec!["localhost".to_owned()]).unwrap();
    let foreign = rcgen::generate_simple_self_signed(vec!["localhost".to_owned()]).unwrap();
    let (certificate, key) = (folder.path().join("hub.pem"), folder.path().join("hub.key"));
    std::fs::write(&certificate, own.cert.pem()).unwrap();
    std::fs::write(&key, own.signing_key.serialize_pem()).unwrap();
    let here = HubHere::start_with(&Kept::Sqlite, patient(), Some((certificate, key)));
    let address = format!("https://localhost:{}", here.at.port());
    let way = |trust: &Trust| HttpWay::new(&address, trust, None).unwrap();
    let code = here.founding_code();
    // Nobody but the named certificate is believed.
    for trust in [Trust::Public, Trust::Only(foreign.cert.pem())] {
        let refused = join(&mut way(&trust), &code, "Ada").err().unwrap();
        assert!(
            matches!(refused, Trouble::NotTrusted(_) | Trouble::NoSignal(_)),
            "{refused:?}"
        );
    }
    let before = kept(here.folder.path());
    let body = frame::encode(&Ask::Join {
        code: code.clone(),
        token_hash: [5; 32],
        person: "Mallory".to_owned(),
        device: "phone".to_owned(),
        crew: "North bench".to_owned(),
    })
    .unwrap();
    let plain = raw(here.at, &request("POST /exchange", &[HOST, FRAME], &body));
    assert_eq!(plain, None, "plaintext was answered");
    assert_eq!(kept(here.folder.path()), before, "plaintext was heard");
    let owner = join(&mut way(&Trust::Only(own.cert.pem())), &code, "Ada").unwrap();
    let mut way = HttpWay::new(&address, &Trust::Only(own.cert.pem()), Some(owner.token)).unwrap();
    assert!(matches!(way.ask(&Ask::Crew), Ok(Answer::Crew(_))));
}
