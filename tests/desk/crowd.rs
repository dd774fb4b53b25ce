//! Many who ask nothing, or only half: the honest page is answered all the same.

use std::io::{Read as _, Write as _};
use std::net::TcpStream;
use std::time::{Duration, Instant};

use crate::open::{OpenDesk, answer};

const PLANTINGS: &str = r#"{"op":"plantings"}"#;
/// More than the files that a program may have open as a rule.
const MANY: usize = 1_200;

/// Asks as the page does, and says how long that took.
fn asked(desk: &OpenDesk) -> Duration {
    let begun = Instant::now();
    assert_eq!(desk.call(PLANTINGS).status, 200);
    begun.elapsed()
}

/// Whether the connection is over once all that it brought is read.
fn is_over(stream: &mut TcpStream) -> bool {
    stream
        .set_read_timeout(Some(Duration::from_millis(20)))
        .unwrap();
    let mut piece = vec![0; 64 * 1024];
    loop {
        match stream.read(&mut piece) {
            Ok(0) => return true,
            Ok(_) => {}
            Err(error) => return error.kind() == std::io::ErrorKind::ConnectionReset,
        }
    }
}

#[test]
fn half_sent_requests_by_the_hundred_do_not_hold_the_page_up() {
    let desk = OpenDesk::start_with_few_files();
    let address = &desk.address;
    let head = format!("POST /call HTTP/1.1\r\nHost: {address}\r\n");
    let body = format!("{head}Content-Type: application/json\r\nContent-Length: 1000\r\n\r\n{{");
    // Silent, half a head, half a body of a stranger's; and answers that nobody reads.
    let page = format!("GET / HTTP/1.1\r\nHost: {address}\r\n\r\n").repeat(300);
    for sent in ["", &head, &body, &page] {
        let mut crowd = Vec::new();
        for at in 0..MANY {
            let mut stream = TcpStream::connect(address).unwrap();
            stream
                .set_write_timeout(Some(Duration::from_millis(50)))
                .unwrap();
            let _ = stream.write_all(sent.as_bytes());
            crowd.push(stream);
            if at % 200 == 199 {
                let took = asked(&desk);
                assert!(took < Duration::from_secs(3), "{at}, {sent:?}: {took:?}");
            }
        }
        // The oldest were given up, so that there is room.
        let mut over = 0;
        for stream in &mut crowd[..MANY / 2] {
            over += usize::from(is_over(stream));
        }
        assert_eq!(over, MANY / 2, "{sent:?}");
    }
}

#[test]
fn a_head_that_does_not_end_is_given_up_and_an_answer_in_hand_is_not() {
    let desk = OpenDesk::start();
    let mut half = TcpStream::connect(&desk.address).unwrap();
    half.write_all(b"GET / HTTP/1.1\r\nHos").unwrap();
    // A page that knows the secret and is slow to send: strangers do not push it out.
    let headers = [
        ("Content-Type", "application/json"),
        ("X-Headwalk-Secret", desk.secret.as_str()),
        ("Content-Length", "18"),
    ];
    let mut slow = desk.begin("POST", "/call", &headers).unwrap();
    slow.write_all(&PLANTINGS.as_bytes()[..9]).unwrap();
    std::thread::sleep(Duration::from_millis(300));
    let crowd: Vec<TcpStream> = (0..200)
        .map(|_| TcpStream::connect(&desk.address).unwrap())
        .collect();
    asked(&desk);
    slow.write_all(&PLANTINGS.as_bytes()[9..]).unwrap();
    assert_eq!(answer(&mut slow).unwrap().status, 200);
    drop(crowd);

    // Alone, it has its ten seconds.
    let mut half = TcpStream::connect(&desk.address).unwrap();
    half.write_all(b"GET / HTTP/1.1\r\nHos").unwrap();
    half.set_read_timeout(Some(Duration::from_secs(30)))
        .unwrap();
    let begun = Instant::now();
    let mut rest = Vec::new();
    let _ = half.read_to_end(&mut rest);
    let took = begun.elapsed();
    assert!(
        (Duration::from_secs(8)..Duration::from_secs(20)).contains(&took),
        "{took:?}"
    );
}
