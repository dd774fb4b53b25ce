//! The doors for files: a photo up and down, an archive down and up; and those who
//! want something else of them, cut off, stand still or never end.

use service::{FileRequest, PhotoAdded, PhotoOf, PhotoView, PlantingRow, Reply};
use std::collections::BTreeMap;
use std::io::{Read as _, Write as _};
use std::net::{Shutdown, TcpStream};
use std::path::Path;
use std::time::{Duration, Instant};

use headwalk_tests::picture::{Camera, jpeg, scene};
use notebook::photo::PhotoName;
use uuid::Uuid;

use crate::open::{BytesReply, OpenDesk, answer};

const BYTES: (&str, &str) = ("Content-Type", "application/octet-stream");
const JSON: (&str, &str) = ("Content-Type", "application/json");
const ARCHIVE: &[u8] = br#"{"what":"notebook"}"#;

/// A planting on the desk's notebook.
fn planting(desk: &OpenDesk) -> Uuid {
    let add = r#"{"op":"add_planting","id":null,"name":"North 40","farm":null,"field":null,
        "hybrid":null,"planted_on":null,"purpose":"grain","area":null}"#;
    let reply: Reply<PlantingRow> = serde_json::from_str(&desk.call(add).body).unwrap();
    let row = reply.answer;
    row.id
}

/// A request with a picture behind it, as the screens send it.
fn photo_message(planting: Uuid) -> Vec<u8> {
    let camera = Camera {
        orientation: 1,
        place: None,
    };
    let description = serde_json::to_vec(&FileRequest::AddPhoto {
        id: None,
        of: PhotoOf::Planting(planting),
    })
    .unwrap();
    let length = u32::try_from(description.len()).unwrap().to_le_bytes();
    let picture = jpeg(&scene(640, 480), camera).unwrap();
    [&length[..], &description, &picture].concat()
}

impl OpenDesk {
    /// As the page sends bytes.
    fn give(&self, path: &str, media: (&str, &str), body: &[u8]) -> BytesReply {
        let headers = [media, ("X-Headwalk-Secret", self.secret.as_str())];
        self.try_send_bytes("POST", path, &headers, body)
            .expect("the desk answers")
    }

    fn get(&self, path: &str) -> BytesReply {
        let headers = [("X-Headwalk-Secret", self.secret.as_str())];
        self.try_send_bytes("GET", path, &headers, b"")
            .expect("the desk answers")
    }

    /// The head of a request of a body so long.
    fn announce(&self, path: &str, media: (&str, &str), length: &str) -> TcpStream {
        let headers = [
            media,
            ("X-Headwalk-Secret", self.secret.as_str()),
            ("Content-Length", length),
        ];
        self.begin("POST", path, &headers).unwrap()
    }
}

fn with_photo(desk: &OpenDesk) -> PhotoView {
    let reply = desk.give("/files", BYTES, &photo_message(planting(desk)));
    assert_eq!(
        reply.status,
        200,
        "{}",
        String::from_utf8_lossy(&reply.body)
    );
    let reply: Reply<PhotoAdded> = serde_json::from_slice(&reply.body).unwrap();
    reply.answer.photo
}

/// Files of photos below a folder, and files that wait for a name.
fn photo_files(folder: &Path) -> BTreeMap<String, u64> {
    let mut found = BTreeMap::new();
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        let name = path.file_name().unwrap().to_string_lossy().into_owned();
        if path.is_dir() {
            found.extend(photo_files(&path));
        } else if name.ends_with(".jpg") || name.starts_with("coming-") {
            found.insert(name, std::fs::metadata(&path).unwrap().len());
        }
    }
    found
}

#[test]
fn a_photo_goes_up_and_comes_down_whole() {
    let desk = OpenDesk::start();
    let photo = with_photo(&desk);
    let whole = desk.get(&format!("/photo/{}/whole", photo.name));
    assert_eq!(whole.status, 200);
    assert_eq!(whole.header("content-type"), Some("image/jpeg"));
    assert_eq!(whole.header("cache-control"), Some("no-store"));
    assert_eq!(whole.header("x-content-type-options"), Some("nosniff"));
    assert_eq!(PhotoName::of(&whole.body), photo.name);
    let small = desk.get(&format!("/photo/{}/small", photo.name));
    let small = image::load_from_memory(&small.body).unwrap();
    assert_eq!((small.width(), small.height()), (320, 240));
    // One connection carries several requests, one after the other.
    let path = format!("/photo/{}/whole", photo.name);
    let secret = ("X-Headwalk-Secret", desk.secret.as_str());
    let mut stream = desk.begin("GET", &path, &[secret]).unwrap();
    assert_eq!(answer(&mut stream).unwrap().body, whole.body);
    let head = format!(
        "GET {path} HTTP/1.1\r\nHost: {}\r\nX-Headwalk-Secret: {}\r\n\r\n",
        desk.address, desk.secret
    );
    stream.write_all(head.as_bytes()).unwrap();
    assert_eq!(answer(&mut stream).unwrap().body, whole.body);
}

#[test]
fn an_archive_comes_down_and_goes_up_into_another_notebook() {
    let desk = OpenDesk::start();
    let photo = with_photo(&desk);
    let archive = desk.give("/file", JSON, ARCHIVE);
    assert_eq!(archive.status, 200);
    assert_eq!(archive.header("content-type"), Some("application/zip"));
    let named = archive.header("content-disposition").unwrap();
    assert!(
        named.starts_with("attachment; filename=\"headwalk-"),
        "{named}"
    );
    let length = archive.body.len().to_string();
    assert_eq!(archive.header("content-length"), Some(length.as_str()));

    let other = OpenDesk::start();
    let path = format!("/photo/{}/whole", photo.name);
    for (door, stored) in [("/archive/review", 404), ("/archive/import", 200)] {
        let done = other.give(door, BYTES, &archive.body);
        assert_eq!(done.status, 200, "{}", String::from_utf8_lossy(&done.body));
        let done: serde_json::Value = serde_json::from_slice(&done.body).unwrap();
        assert_eq!(done["review"]["photos"], 1, "{door}");
        assert_eq!(other.get(&path).status, stored, "{door}");
    }
    assert_eq!(PhotoName::of(&other.get(&path).body), photo.name);
    // What is no archive is refused in one line.
    let refused = other.give("/archive/import", BYTES, b"planting,walked_on\n");
    assert_eq!(refused.status, 400);
    let problem: serde_json::Value = serde_json::from_slice(&refused.body).unwrap();
    assert!(problem["message"].as_str().unwrap().contains("no archive"));
}

#[test]
fn strangers_are_turned_away_at_every_door() {
    let desk = OpenDesk::start();
    let photo = with_photo(&desk);
    let picture = format!("/photo/{}/whole", photo.name);
    let message = photo_message(Uuid::nil());
    let before = photo_files(desk.folder());
    let wrong = "0".repeat(64);
    let (own, secret) = (desk.address.as_str(), desk.secret.as_str());
    let foreign = format!("farm.example:{}", own.rsplit(':').next().unwrap());
    for (method, path, media, body) in [
        ("POST", "/files", BYTES, &message[..]),
        ("GET", &picture, JSON, b""),
        ("POST", "/file", JSON, ARCHIVE),
        ("POST", "/archive/review", BYTES, b"x"),
        ("POST", "/archive/import", BYTES, b"x"),
    ] {
        for (case, status, headers) in [
            ("no secret", 401, vec![]),
            (
                "wrong secret",
                401,
                vec![("X-Headwalk-Secret", wrong.as_str())],
            ),
            (
                "two secrets",
                401,
                vec![("X-Headwalk-Secret", secret), ("X-Headwalk-Secret", &wrong)],
            ),
            (
                "foreign host",
                403,
                vec![("Host", foreign.as_str()), ("X-Headwalk-Secret", secret)],
            ),
            (
                "foreign page",
                403,
                vec![
                    ("Origin", "http://farm.example"),
                    ("X-Headwalk-Secret", secret),
                ],
            ),
        ] {
            let mut all = vec![media];
            all.extend(headers);
            let reply = desk.try_send_bytes(method, path, &all, body).unwrap();
            assert_eq!(reply.status, status, "{path}, {case}");
            assert!(reply.body.len() < 300, "{path}, {case}");
        }
        if method == "POST" {
            let form = ("Content-Type", "multipart/form-data; boundary=x");
            assert_eq!(desk.give(path, form, body).status, 415, "{path}");
        }
        let other = if method == "POST" { "GET" } else { "POST" };
        let headers = [("X-Headwalk-Secret", secret), media];
        let reply = desk.try_send_bytes(other, path, &headers, b"").unwrap();
        assert_eq!(reply.status, 405, "{path}");
    }
    assert_eq!(
        photo_files(desk.folder()),
        before,
        "a stranger stored something"
    );
}

#[test]
fn no_name_of_a_photo_leads_to_another_file() {
    let desk = OpenDesk::start();
    let name = with_photo(&desk).name.to_string();
    std::fs::write(desk.folder().join("secret.jpg"), b"not to be had").unwrap();
    for path in [
        "/photo/../notebook.db/whole".to_owned(),
        "/photo/..%2f..%2fnotebook.db/whole".to_owned(),
        "/photo/%2e%2e/whole".to_owned(),
        "/photo/..%5c..%5csecret/whole".to_owned(),
        "/photo/secret.jpg/whole".to_owned(),
        "/photo/%2Fetc%2Fpasswd/whole".to_owned(),
        "/photo/%00/whole".to_owned(),
        "/photo//whole".to_owned(),
        format!("/photo/{}/whole", name.to_uppercase()),
        format!("/photo/{}/whole", &name[1..]),
        format!("/photo/{name}0/whole"),
        format!("/photo/{name}%00/whole"),
        format!("/photo/{name}.small/whole"),
        format!("/photo/{name}/huge"),
        format!("/photo/{name}/..%2f..%2fnotebook.db"),
        format!("/photo/{}/whole", "0".repeat(64)),
        format!("/photo/{}/whole", "a".repeat(7000)),
    ] {
        let reply = desk.get(&path);
        assert!(
            [400, 404, 405].contains(&reply.status),
            "{path}: {}",
            reply.status
        );
        assert!(reply.body.len() < 300, "{path}");
        assert!(!reply.body.starts_with(b"not to be had"), "{path}");
    }
}

#[test]
fn a_file_that_is_damaged_is_not_given_out() {
    let desk = OpenDesk::start();
    let photo = with_photo(&desk);
    let name = format!("{}.jpg", photo.name);
    let shelf = desk
        .folder()
        .join("notebook.db.photos")
        .join(&photo.name.to_string()[..2]);
    let mut bytes = std::fs::read(shelf.join(&name)).unwrap();
    let middle = bytes.len() / 2;
    bytes[middle] ^= 1;
    std::fs::write(shelf.join(&name), bytes).unwrap();
    let reply = desk.get(&format!("/photo/{}/whole", photo.name));
    assert_eq!(reply.status, 404);
    let problem: serde_json::Value = serde_json::from_slice(&reply.body).unwrap();
    assert!(problem["message"].as_str().unwrap().contains("damaged"));
}

/// Nothing more than before is stored, and the desk goes on.
fn unharmed(desk: &OpenDesk, before: &BTreeMap<String, u64>, which: &str) {
    assert_eq!(&photo_files(desk.folder()), before, "{which}");
    let list = desk.call(r#"{"op":"plantings"}"#);
    assert_eq!(list.status, 200, "{which}");
}

#[test]
fn a_body_that_is_cut_off_is_refused_at_once_and_stores_nothing() {
    let desk = OpenDesk::start();
    let message = photo_message(with_photo(&desk).planting);
    let archive = desk.give("/file", JSON, ARCHIVE).body;
    let before = photo_files(desk.folder());
    for (path, body) in [
        ("/files", &message),
        ("/archive/review", &archive),
        ("/archive/import", &archive),
    ] {
        for sent in [0, 1, body.len() / 2, body.len() - 1] {
            let which = format!("{path}, {sent} of {}", body.len());
            let mut stream = desk.announce(path, BYTES, &body.len().to_string());
            stream.write_all(&body[..sent]).unwrap();
            stream.shutdown(Shutdown::Write).unwrap();
            let begun = Instant::now();
            let reply = answer(&mut stream);
            assert!(begun.elapsed() < Duration::from_secs(5), "{which}");
            // Told, or the connection ends: nothing else.
            assert!(reply.is_none_or(|reply| reply.status == 400), "{which}");
            unharmed(&desk, &before, &which);
        }
        // In pieces of which one does not end.
        let headers = [
            BYTES,
            ("X-Headwalk-Secret", desk.secret.as_str()),
            ("Transfer-Encoding", "chunked"),
        ];
        let mut stream = desk.begin("POST", path, &headers).unwrap();
        stream.write_all(b"100\r\nhalf of it").unwrap();
        stream.shutdown(Shutdown::Write).unwrap();
        let reply = answer(&mut stream);
        assert!(reply.is_none_or(|reply| reply.status == 400), "{path}");
        unharmed(&desk, &before, path);
    }
}

#[test]
fn a_body_that_stands_still_is_given_up() {
    let desk = OpenDesk::start();
    let before = photo_files(desk.folder());
    // All at once: each waits as long as the first.
    let waiting: Vec<(String, TcpStream)> = ["/files", "/archive/import", "/file", "/call"]
        .into_iter()
        .map(|path| {
            let media = if ["/file", "/call"].contains(&path) {
                JSON
            } else {
                BYTES
            };
            let mut stream = desk.announce(path, media, "1000");
            stream.write_all(b"half").unwrap();
            (path.to_owned(), stream)
        })
        .collect();
    // The desk is at work meanwhile.
    assert_eq!(desk.call(r#"{"op":"plantings"}"#).status, 200);
    let begun = Instant::now();
    for (path, mut stream) in waiting {
        let reply = answer(&mut stream).unwrap_or_else(|| panic!("{path}: no answer"));
        assert_eq!(reply.status, 408, "{path}");
        assert!(begun.elapsed() < Duration::from_secs(18), "{path}");
    }
    unharmed(&desk, &before, "stood still");
}

#[test]
fn a_body_that_is_too_long_is_refused_before_it_comes() {
    let desk = OpenDesk::start();
    let before = photo_files(desk.folder());
    for (path, media, length) in [
        ("/files", BYTES, (65_u64 << 20).to_string()),
        ("/files", BYTES, "18446744073709551615".to_owned()),
        ("/file", JSON, (1_u64 << 20).to_string()),
        ("/archive/review", BYTES, (5_u64 << 30).to_string()),
        ("/archive/import", BYTES, (5_u64 << 30).to_string()),
        ("/call", JSON, (300_u64 << 20).to_string()),
    ] {
        let mut stream = desk.announce(path, media, &length);
        let begun = Instant::now();
        let reply = answer(&mut stream);
        assert!(begun.elapsed() < Duration::from_secs(5), "{path}, {length}");
        let status = reply.map(|reply| reply.status);
        assert!(
            matches!(status, Some(413 | 400 | 431)),
            "{path}, {length}: {status:?}"
        );
        unharmed(&desk, &before, path);
    }
    // One that says no length is read no further than the limit.
    let headers = [
        BYTES,
        ("X-Headwalk-Secret", desk.secret.as_str()),
        ("Transfer-Encoding", "chunked"),
    ];
    let mut stream = desk.begin("POST", "/files", &headers).unwrap();
    let mut sent = 0;
    let mut piece = b"100000\r\n".to_vec();
    piece.resize(8 + (1 << 20), b'x');
    piece.extend_from_slice(b"\r\n");
    while sent < 200 && stream.write_all(&piece).is_ok() {
        sent += 1;
    }
    assert!((60..120).contains(&sent), "{sent} MB were taken");
    let mut rest = Vec::new();
    let _ = stream.take(64).read_to_end(&mut rest);
    assert!(rest.is_empty() || rest.starts_with(b"HTTP/1.1 413"));
    unharmed(&desk, &before, "without a length");
}

#[test]
fn a_stop_waits_for_nobody_who_stands_still() {
    let mut desk = OpenDesk::start();
    let photo = with_photo(&desk);
    // A connection on which nothing was asked, one that was answered and stays open,
    // one with half a head, one with half a body.
    let silent = TcpStream::connect(&desk.address).unwrap();
    let path = format!("/photo/{}/whole", photo.name);
    let secret = ("X-Headwalk-Secret", desk.secret.as_str());
    let mut answered = desk.begin("GET", &path, &[secret]).unwrap();
    assert_eq!(answer(&mut answered).unwrap().status, 200);
    let mut half_head = TcpStream::connect(&desk.address).unwrap();
    half_head.write_all(b"GET / HTTP/1.1\r\nHos").unwrap();
    let mut half_body = desk.announce("/files", BYTES, "1000");
    half_body.write_all(b"half").unwrap();
    std::thread::sleep(Duration::from_millis(200));
    let begun = Instant::now();
    assert!(desk.stop_kindly().success());
    let took = begun.elapsed();
    println!("stopped after {took:?}");
    assert!(took < Duration::from_secs(8), "{took:?}");
    drop((silent, answered, half_head, half_body));
    let again = desk.restart();
    assert_eq!(again.get(&path).status, 200);
}
