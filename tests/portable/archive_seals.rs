//! An archive proves who wrote what is in it.

use std::collections::BTreeMap;
use std::io::Cursor;

use notebook::log::{self, Change};
use notebook::seal;
use service::{Keep, Service};
use uuid::Uuid;
use wire::seal::Signer;

use crate::books::{archive, bring_in, empty, log_of, small, state};
use crate::faces::{Face, named};

fn sign_with(service: &mut Service, secret: u8) {
    service.with_notebook(|notebook| notebook.sign_with(Signer::from_secret(&[secret; 32])));
}

/// Seals everything of its own, as giving it away does.
fn give_away(service: &mut Service) {
    service.with_notebook(|notebook| {
        let mut file = Cursor::new(Vec::new());
        exchange::file::write(notebook, Uuid::nil(), &BTreeMap::new(), &mut file).unwrap();
    });
}

/// A change in the name of a device, after its last.
fn forged(service: &Service, device: Uuid) -> Change {
    let db = service.notebook().db();
    let seq = log::heads(db).unwrap()[&device].seq;
    let last = log::change_at(db, device, seq).unwrap().unwrap();
    Change {
        seq: seq + 1,
        body: r#"{"facts":[]}"#.to_owned(),
        ..last
    }
}

#[test]
fn a_reader_knows_the_writers_and_refuses_what_they_did_not_sign() {
    let mut ada = small();
    sign_with(&mut ada, 1);
    let device = ada.notebook().device();
    let mut ben = empty(2);
    bring_in(&mut ben, &archive(&mut ada), Keep::GoodRows).unwrap();
    let known = seal::writer(ben.notebook().db(), device).unwrap().unwrap();
    assert_eq!(known.key, Signer::from_secret(&[1; 32]).key());
    let held = log::heads(ben.notebook().db()).unwrap()[&device].seq;
    assert_eq!(seal::last(ben.notebook().db(), device).unwrap(), held);
    // Somebody adds to it and makes an archive of that.
    let mut mallory = empty(3);
    bring_in(&mut mallory, &archive(&mut ada), Keep::GoodRows).unwrap();
    let change = forged(&mallory, device);
    mallory
        .with_notebook(|notebook| notebook.ingest(&[change]))
        .unwrap();
    let made = archive(&mut mallory);
    let before = (log_of(&ben), state(&ben));
    for keep in [Keep::Nothing, Keep::GoodRows] {
        let refused = bring_in(&mut ben, &made, keep).unwrap_err();
        let said = format!(
            "change {} of device {device} in the archive was not signed by that device: do not trust it",
            held + 1
        );
        assert_eq!(refused.message, said);
    }
    assert_eq!((log_of(&ben), state(&ben)), before);
    // What its writer adds is taken.
    ada.plant(named("Later"));
    bring_in(&mut ben, &archive(&mut ada), Keep::GoodRows).unwrap();
    assert_eq!(log_of(&ben), log_of(&ada));
}

#[test]
fn another_key_is_refused() {
    let (mut ada, mut other) = (small(), small());
    sign_with(&mut ada, 1);
    sign_with(&mut other, 2);
    let device = ada.notebook().device();
    assert_eq!(other.notebook().device(), device);
    let mut ben = empty(2);
    bring_in(&mut ben, &archive(&mut ada), Keep::GoodRows).unwrap();
    let before = log_of(&ben);
    other.plant(named("Later"));
    let refused = bring_in(&mut ben, &archive(&mut other), Keep::GoodRows).unwrap_err();
    assert!(refused.message.contains("another key"), "{refused:?}");
    assert_eq!(log_of(&ben), before);
}

#[test]
fn what_this_device_had_not_sealed_comes_back_as_a_series_of_its_own() {
    let mut now = small();
    sign_with(&mut now, 1);
    give_away(&mut now);
    let sealed = log_of(&now).len();
    let device = now.notebook().device();
    // The archive is made where the key is not at hand, after two more changes.
    let mut copy = empty(9);
    bring_in(&mut copy, &archive(&mut now), Keep::GoodRows).unwrap();
    let tail = [forged(&copy, device)];
    copy.with_notebook(|notebook| notebook.ingest(&tail))
        .unwrap();
    let done = bring_in(&mut now, &archive(&mut copy), Keep::GoodRows).unwrap();
    assert_eq!((done.review.new, done.review.parted), (1, 1));
    let ends = log::heads(now.notebook().db()).unwrap();
    assert_eq!(
        ends[&device].seq, sealed as u64,
        "its series stays as it is"
    );
    assert_ne!(now.notebook().device(), device);
}
