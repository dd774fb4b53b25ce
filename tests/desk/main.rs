//! The desk's door: who is let in, from where, and with what.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod crowd;
mod doors;
mod kill;
mod open;
mod opener;
mod reading;
mod stop;

use std::io::{Read, Write};
use std::net::{TcpStream, UdpSocket};

use open::OpenDesk;

const PLANTINGS: &str = r#"{"op":"plantings"}"#;

#[test]
fn the_page_of_this_start_is_answered() {
    let desk = OpenDesk::start();
    let page = desk.send("GET", "/", &[], "");
    assert_eq!(page.status, 200);
    assert!(page.body.contains("desk under test"));
    let policy = page.header("content-security-policy").unwrap();
    assert!(policy.starts_with("default-src 'none'; script-src 'self'"));
    assert!(!policy.contains("unsafe"));
    assert_eq!(page.header("x-content-type-options"), Some("nosniff"));
    assert_eq!(page.header("referrer-policy"), Some("no-referrer"));
    assert_eq!(page.header("access-control-allow-origin"), None);

    let reply = desk.call(PLANTINGS);
    assert_eq!(reply.status, 200);
    assert!(
        reply
            .body
            .starts_with(r#"{"answer":{"op":"plantings","today":"2026-09-01""#)
    );
}

#[test]
fn problems_carry_their_code_in_status_and_body() {
    let desk = OpenDesk::start();
    for (body, status, code) in [
        ("not json", 400, "bad_input"),
        (r#"{"op":"dance"}"#, 400, "bad_input"),
        (r#"{"op":"import_head_file","text":""}"#, 400, "bad_input"),
        (
            r#"{"op":"walk","walk":"0198c0de-0000-7000-8000-000000000000"}"#,
            404,
            "not_found",
        ),
    ] {
        let reply = desk.call(body);
        assert_eq!(reply.status, status, "{body}");
        let problem: serde_json::Value = serde_json::from_str(&reply.body).unwrap();
        assert_eq!(problem["code"], code, "{body}");
        assert!(!problem["message"].as_str().unwrap().is_empty());
    }
}

#[test]
fn strangers_are_turned_away() {
    let desk = OpenDesk::start();
    let own = desk.address.clone();
    let secret = desk.secret.clone();
    let wrong = "0".repeat(64);
    let port = own.rsplit(':').next().unwrap();
    let json = ("Content-Type", "application/json");
    for (case, status, host, headers) in [
        ("no secret", 401, own.as_str(), vec![json]),
        (
            "empty secret",
            401,
            &own,
            vec![json, ("X-Headwalk-Secret", "")],
        ),
        (
            "wrong secret",
            401,
            &own,
            vec![json, ("X-Headwalk-Secret", wrong.as_str())],
        ),
        (
            "half a secret",
            401,
            &own,
            vec![json, ("X-Headwalk-Secret", &secret[..32])],
        ),
        (
            "foreign host that resolves here",
            403,
            &format!("farm.example:{port}"),
            vec![json, ("X-Headwalk-Secret", &secret)],
        ),
        (
            "host without port",
            403,
            "127.0.0.1",
            vec![json, ("X-Headwalk-Secret", &secret)],
        ),
        (
            "foreign page",
            403,
            &own,
            vec![
                json,
                ("X-Headwalk-Secret", &secret),
                ("Origin", "http://farm.example"),
            ],
        ),
        (
            "page of no origin",
            403,
            &own,
            vec![json, ("X-Headwalk-Secret", &secret), ("Origin", "null")],
        ),
        (
            "a form's media type",
            415,
            &own,
            vec![
                ("Content-Type", "text/plain"),
                ("X-Headwalk-Secret", &secret),
            ],
        ),
        (
            "no media type",
            415,
            &own,
            vec![("X-Headwalk-Secret", &secret)],
        ),
    ] {
        let mut all = vec![("Host", host)];
        all.extend(headers);
        let reply = desk.send("POST", "/call", &all, PLANTINGS);
        assert_eq!(reply.status, status, "{case}");
        assert!(!reply.body.contains("plantings"), "{case}");
    }
    for method in ["GET", "PUT", "DELETE", "OPTIONS"] {
        let reply = desk.send(method, "/call", &[], "");
        assert_eq!(reply.status, 405, "{method}");
    }
}

#[test]
fn only_the_screens_files_are_given_out() {
    let desk = OpenDesk::start();
    for path in [
        "/../notebook.db",
        "/%2e%2e/notebook.db",
        "//etc/passwd",
        "/notebook.db",
        "/..%2fnotebook.db",
    ] {
        assert_eq!(desk.send("GET", path, &[], "").status, 404, "{path}");
    }
    assert_eq!(desk.send("POST", "/", &[], "x").status, 405);
}

#[test]
fn other_interfaces_of_this_machine_are_closed() {
    let desk = OpenDesk::start();
    let port: u16 = desk.address.rsplit(':').next().unwrap().parse().unwrap();
    // The address this machine would speak from; nothing is sent. A machine
    // without any other interface has nothing to be closed.
    let probe = UdpSocket::bind("0.0.0.0:0").unwrap();
    if probe.connect("192.0.2.1:9").is_ok() {
        let ours = probe.local_addr().unwrap().ip();
        if !ours.is_loopback() {
            assert!(TcpStream::connect((ours, port)).is_err(), "{ours}");
        }
    }
}

#[test]
fn a_body_that_says_it_is_too_long_is_refused() {
    let desk = OpenDesk::start();
    let mut stream = TcpStream::connect(&desk.address).unwrap();
    write!(
        stream,
        "POST /call HTTP/1.1\r\nHost: {}\r\nX-Headwalk-Secret: {}\r\n\
         Content-Type: application/json\r\nContent-Length: 999999999999\r\n\r\n",
        desk.address, desk.secret
    )
    .unwrap();
    // Refused once more than the limit has come, or at once; never stored.
    stream
        .set_read_timeout(Some(std::time::Duration::from_secs(20)))
        .unwrap();
    let piece = vec![b' '; 1 << 20];
    for _ in 0..300 {
        if stream.write_all(&piece).is_err() {
            break;
        }
    }
    let mut answer = String::new();
    let _ = stream.take(64).read_to_string(&mut answer);
    assert!(
        answer.is_empty() || answer.starts_with("HTTP/1.1 413"),
        "{answer}"
    );
    assert_eq!(desk.call(PLANTINGS).status, 200);
}

#[test]
fn what_was_answered_is_there_after_a_stop_and_a_new_start() {
    let mut desk = OpenDesk::start();
    let add = r#"{"op":"add_planting","id":null,"name":"North 40","farm":null,"field":null,
        "hybrid":null,"planted_on":null,"purpose":"grain","area":null}"#;
    assert_eq!(desk.call(add).status, 200);
    assert!(desk.stop_kindly().success());
    let again = desk.restart();
    assert_ne!(again.secret, desk.secret);
    assert!(again.call(PLANTINGS).body.contains("North 40"));
}
