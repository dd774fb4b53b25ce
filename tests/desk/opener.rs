//! What is handed to the program that starts the browser: an address without the
//! secret, good for one page.

#![cfg(target_os = "linux")]

use std::io::Read as _;
use std::os::unix::fs::PermissionsExt as _;
use std::path::Path;
use std::time::{Duration, Instant};

use crate::open::OpenDesk;

/// A starter of browsers that writes down how it was called.
fn starter(folder: &Path) {
    let script = folder.join("xdg-open");
    let log = folder.join("called");
    let text = format!(
        "#!/bin/sh\necho \"$@\" > {0}.part\nmv {0}.part {0}\n",
        log.display()
    );
    std::fs::write(&script, text).unwrap();
    std::fs::set_permissions(&script, std::fs::Permissions::from_mode(0o755)).unwrap();
}

fn called(folder: &Path) -> String {
    let begun = Instant::now();
    loop {
        if let Ok(called) = std::fs::read_to_string(folder.join("called")) {
            return called.trim().to_owned();
        }
        assert!(
            begun.elapsed() < Duration::from_secs(20),
            "nothing was started"
        );
        std::thread::sleep(Duration::from_millis(50));
    }
}

#[test]
fn the_browsers_starter_is_given_no_secret_but_a_code_that_is_good_once() {
    let folder = tempfile::tempdir().unwrap();
    starter(folder.path());
    let desk = OpenDesk::start_browser(folder.path());
    let address = called(folder.path());
    assert!(!address.contains(&desk.secret), "{address}");
    let path = address
        .strip_prefix(&format!("http://{}", desk.address))
        .unwrap_or_else(|| panic!("{address} is not at {}", desk.address));
    // Neither the arguments of the desk itself nor the page's address hold it.
    let own = std::fs::read(format!("/proc/{}/cmdline", desk.process())).unwrap();
    assert!(!String::from_utf8_lossy(&own).contains(&desk.secret));

    // A wrong code, or a question about the right one, does not use it up.
    let wrong = format!("/open/{}", "0".repeat(64));
    assert_eq!(desk.send("GET", &wrong, &[], "").status, 410);
    let mut asked = desk
        .begin("HEAD", path, &[("Connection", "close")])
        .unwrap();
    let mut told = String::new();
    asked.read_to_string(&mut told).unwrap();
    assert!(told.starts_with("HTTP/1.1 410"), "{told}");
    let foreign = [("Host", "farm.example")];
    assert_eq!(desk.send("GET", path, &foreign, "").status, 403);

    let first = desk.send("GET", path, &[], "");
    assert_eq!(first.status, 303);
    let screens = format!("/#secret={}", desk.secret);
    assert_eq!(first.header("location"), Some(screens.as_str()));
    assert_eq!(first.header("cache-control"), Some("no-store"));
    let second = desk.send("GET", path, &[], "");
    assert_eq!(second.status, 410);
    assert!(
        second
            .body
            .contains("Open the address that the desk printed")
    );
    assert!(!second.body.contains(&desk.secret));
}

#[test]
fn a_desk_that_starts_no_browser_has_no_code() {
    let desk = OpenDesk::start();
    for code in ["", "x", &"0".repeat(64)] {
        let reply = desk.send("GET", &format!("/open/{code}"), &[], "");
        assert!(
            matches!(reply.status, 404 | 410),
            "{code}: {}",
            reply.status
        );
    }
}
