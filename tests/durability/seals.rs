//! Keys and seals in a damaged notebook: what a look at them tells, what it does not,
//! and what a salvage carries over.

use std::collections::BTreeMap;
use std::fs::{self, OpenOptions};
use std::io::{Cursor, Write as _};
use std::path::Path;

use exchange::file;
use notebook::durability::{LogFaultKind, Salvaged, SealFault, salvage};
use notebook::log::{self, Digest};
use notebook::seal;
use notebook::{Notebook, SystemRandomness, branch_id};
use rusqlite::Connection;
use service::{ProblemCode, Service, ask};
use uuid::Uuid;
use wire::seal::{Link, Signer};

use crate::season::{Asking as _, Book, Open, add_head, clock, must_be_whole, notebook, open};

/// Ada's notebook, in which Ben's changes are too, with what both sealed.
struct Crew {
    ada: Book,
    at: Open,
    /// Whose series are Ada's and Ben's.
    own: Uuid,
    ben: Uuid,
}

const ADA: u8 = 1;
const BEN: u8 = 2;

fn signer(secret: u8) -> Signer {
    Signer::from_secret(&[secret; 32])
}

/// Gives everything away, in a file; that seals what is its own.
fn given(notebook: &mut Notebook) -> Vec<u8> {
    let mut file = Vec::new();
    file::write(notebook, Uuid::nil(), &BTreeMap::new(), &mut file).unwrap();
    file
}

fn take(notebook: &mut Notebook, file: &[u8]) {
    file::read(notebook, Uuid::nil(), &mut Cursor::new(file)).unwrap();
}

/// Heads tapped and given away, three times, with a seal each.
fn tap_and_give(book: &Book, at: Open, secret: u8, first: u64) {
    let mut service = open(&book.path).unwrap();
    service.with_notebook(|notebook| notebook.sign_with(signer(secret)));
    for number in first..first + 3 {
        service.ask(add_head(at.stop, number));
        service.with_notebook(given);
    }
    service.into_notebook().close().unwrap();
}

impl Crew {
    fn new() -> Self {
        let (ada, at) = Book::with_season(4);
        let (ben, at_ben) = Book::with_season(4);
        tap_and_give(&ben, at_ben, BEN, 10);
        let mut theirs = notebook(&ben.path).unwrap();
        theirs.sign_with(signer(BEN));
        let device_of_ben = theirs.device();
        let of_ben = given(&mut theirs);
        let mut ours = notebook(&ada.path).unwrap();
        let own = ours.device();
        take(&mut ours, &of_ben);
        drop(ours);
        tap_and_give(&ada, at, ADA, 20);
        // And one head that nobody else has.
        let mut service = open(&ada.path).unwrap();
        service.ask(add_head(at.stop, 30));
        service.into_notebook().close().unwrap();
        let crew = Self {
            ada,
            at,
            own,
            ben: device_of_ben,
        };
        let db = crew.db();
        assert_eq!(keys(&db).len(), 2);
        assert_eq!(seals(&db, own).len(), 3);
        assert!(!seals(&db, crew.ben).is_empty());
        assert!(seals(&db, own).last().unwrap().0 < log::heads(&db).unwrap()[&own].seq);
        crew
    }

    fn db(&self) -> Connection {
        Connection::open(&self.ada.path).unwrap()
    }

    fn run(&self, statement: &str) {
        let db = self.db();
        assert!(db.execute(statement, []).unwrap() > 0, "{statement}");
        db.close().unwrap();
    }

    fn service(&self) -> Service {
        open(&self.ada.path).unwrap()
    }

    fn salvaged(&self) -> Salvaged {
        let salvaged = salvage(&self.ada.path, clock(), Box::new(SystemRandomness)).unwrap();
        must_be_whole(&notebook(&self.ada.path).unwrap());
        salvaged
    }
}

fn keys(db: &Connection) -> Vec<(Uuid, [u8; 32])> {
    let mut statement = db
        .prepare("SELECT device, key FROM writer ORDER BY device")
        .unwrap();
    let rows = statement.query_map([], |row| Ok((row.get(0)?, row.get(1)?)));
    rows.unwrap().collect::<Result<_, _>>().unwrap()
}

fn seals(db: &Connection, series: Uuid) -> Vec<(u64, [u8; 64], [u8; 32])> {
    let mut statement = db
        .prepare("SELECT seq, signature, link FROM seal WHERE device = ?1 ORDER BY seq")
        .unwrap();
    let rows = statement.query_map([series], |row| Ok((row.get(0)?, row.get(1)?, row.get(2)?)));
    rows.unwrap().collect::<Result<_, _>>().unwrap()
}

/// Both series with all that seals them.
type Sealed = Vec<(Uuid, Vec<(u64, [u8; 64], [u8; 32])>)>;

fn all(db: &Connection) -> (Vec<(Uuid, [u8; 32])>, Sealed) {
    let series: Vec<Uuid> = keys(db).into_iter().map(|(series, _)| series).collect();
    let sealed = series.iter().map(|it| (*it, seals(db, *it))).collect();
    (keys(db), sealed)
}

#[test]
fn nothing_is_told_of_seals_that_fit() {
    let crew = Crew::new();
    must_be_whole(&notebook(&crew.ada.path).unwrap());
    // A seal of more changes than are here, as Ben may have made one.
    let mut ada = notebook(&crew.ada.path).unwrap();
    let writer = seal::writer(ada.db(), crew.ben).unwrap().unwrap();
    let farther = log::heads(ada.db()).unwrap()[&crew.ben].seq + 5;
    let link = Link([7; 32]);
    let sealed = seal::Sealed {
        series: crew.ben,
        seq: farther,
        signature: signer(BEN).seal(&writer, crew.ben, farther, link),
        link,
    };
    ada.keep_seals(&[(writer, sealed)]).unwrap();
    must_be_whole(&ada);
    // A branch that goes on with its seals, and what is left of its series.
    ada.sign_with(signer(ADA));
    let from = seals(ada.db(), crew.own)[1].0;
    let first = log::change_at(ada.db(), crew.own, from).unwrap().unwrap();
    let branch = branch_id(crew.own, from, &first).unwrap();
    ada.move_branch(crew.own, from, branch).unwrap();
    assert_eq!(seals(ada.db(), branch).len(), 2);
    must_be_whole(&ada);
}

#[test]
fn an_altered_seal_is_told_and_let_go() {
    for altered in 0..3 {
        for column in ["signature", "link"] {
            let crew = Crew::new();
            let seq = seals(&crew.db(), crew.own)[altered].0;
            let length = if column == "link" { 32 } else { 64 };
            crew.run(&format!(
                "UPDATE seal SET {column} = randomblob({length})
                 WHERE seq = {seq} AND device = (SELECT device FROM writer WHERE key = x'{}')",
                hex(&signer(ADA).key().0)
            ));
            let mut service = crew.service();
            let found = service.notebook().check().unwrap();
            let fault = SealFault {
                series: crew.own,
                seq: Some(seq),
            };
            assert_eq!(found.seals, [fault]);
            assert!(!found.is_sound() && !found.is_damaged(), "{found:?}");
            service.ask(ask::CheckNotebook { only_if_due: false });
            must_be_whole(service.notebook());
            assert_eq!(seals(service.notebook().db(), crew.own).len(), 2);
            // The device goes on to seal.
            service.with_notebook(|notebook| notebook.sign_with(signer(ADA)));
            service.with_notebook(given);
            must_be_whole(service.notebook());
        }
    }
}

#[test]
fn an_altered_key_is_told_and_let_go_with_its_seals() {
    let crew = Crew::new();
    crew.run(&format!(
        "UPDATE writer SET key = x'{}' WHERE key = x'{}'",
        hex(&signer(9).key().0),
        hex(&signer(BEN).key().0)
    ));
    let mut service = crew.service();
    let found = service.notebook().check().unwrap();
    let fault = SealFault {
        series: crew.ben,
        seq: None,
    };
    assert_eq!(found.seals, [fault]);
    service.ask(ask::CheckNotebook { only_if_due: false });
    must_be_whole(service.notebook());
    assert_eq!(keys(service.notebook().db()).len(), 1, "Ada's alone");
}

#[test]
fn changes_that_their_device_did_not_sign_are_told() {
    let crew = Crew::new();
    // By somebody who knows how a notebook is kept: the log itself holds together.
    let mut ada = notebook(&crew.ada.path).unwrap();
    let changes = log::after(ada.db(), crew.ben, 0, usize::MAX).unwrap();
    let mut before: Option<Digest> = None;
    for mut change in changes {
        if change.seq == 2 {
            change.recorded_ms += 1;
        }
        let digest = change.digest(before.as_ref());
        before = Some(digest);
        let altered = "UPDATE change SET recorded_ms = ?3, digest = ?4
                       WHERE device = ?1 AND seq = ?2";
        let row = (crew.ben, change.seq, change.recorded_ms, digest);
        ada.db().execute(altered, row).unwrap();
    }
    let end = "UPDATE series SET digest = ?2 WHERE device = ?1";
    ada.db().execute(end, (crew.ben, before)).unwrap();
    ada.rebuild().unwrap();
    let found = ada.check().unwrap();
    let told: Vec<_> = found
        .log
        .iter()
        .map(|it| (it.device, it.seq, it.kind))
        .collect();
    let first = seals(ada.db(), crew.ben)[0].0;
    assert_eq!(told, [(crew.ben, first, LogFaultKind::NotSigned)]);
    assert!(found.is_damaged() && found.seals.is_empty());
    ada.close().unwrap();
    let asked = crew
        .service()
        .call(ask::CheckNotebook { only_if_due: false });
    assert_eq!(asked.unwrap_err().code, ProblemCode::Damaged);
    // A salvage keeps them, without the seals that say otherwise.
    let salvaged = crew.salvaged();
    assert_eq!((salvaged.lost, salvaged.seals_lost), (0, 1));
    assert!(salvaged.sentence().contains("seals of 1 series"));
}

#[test]
fn a_salvage_carries_keys_and_seals() {
    let crew = Crew::new();
    let before = all(&crew.db());
    // Somebody who holds what Ada gave away, and knows her key.
    let mut cleo = Notebook::in_memory(clock(), Box::new(SystemRandomness)).unwrap();
    let mut ada = notebook(&crew.ada.path).unwrap();
    take(&mut cleo, &given(&mut ada));
    ada.close().unwrap();
    let had = log::heads(cleo.db()).unwrap()[&crew.own].seq;
    let salvaged = crew.salvaged();
    assert_eq!((salvaged.lost, salvaged.seals_lost), (0, 0));
    assert_eq!(all(&crew.db()), before);
    // What she had not given away she gives away now, and it is believed.
    let mut ada = notebook(&crew.ada.path).unwrap();
    assert_ne!(ada.device(), crew.own);
    ada.sign_with(signer(ADA));
    take(&mut cleo, &given(&mut ada));
    let has = log::heads(cleo.db()).unwrap()[&crew.own].seq;
    assert_eq!(has, log::heads(ada.db()).unwrap()[&crew.own].seq);
    assert!(has > had);
}

#[test]
fn loose_pages_give_keys_and_seals() {
    let crew = Crew::new();
    let before = all(&crew.db());
    // Without its first page SQLite makes nothing of the file.
    spoil_first_page(&crew.ada.path);
    let salvaged = crew.salvaged();
    assert_eq!((salvaged.lost, salvaged.seals_lost), (0, 0));
    assert_eq!(all(&crew.db()), before);
}

#[test]
fn many_seals_come_out_of_loose_pages() {
    // So many that the table has pages above its lowest level.
    let crew = Crew::new();
    let mut service = crew.service();
    service.with_notebook(|notebook| notebook.sign_with(signer(ADA)));
    for number in 100..160 {
        service.ask(add_head(crew.at.stop, number));
        service.with_notebook(given);
    }
    service.into_notebook().close().unwrap();
    let before = all(&crew.db());
    assert!(seals(&crew.db(), crew.own).len() > 60);
    spoil_first_page(&crew.ada.path);
    crew.salvaged();
    assert_eq!(all(&crew.db()), before);
}

#[test]
fn a_salvage_leaves_behind_what_does_not_fit() {
    // The key is another one: under it nothing would be believed for ever.
    let crew = Crew::new();
    crew.run(&format!(
        "UPDATE writer SET key = x'{}' WHERE key = x'{}'",
        hex(&signer(9).key().0),
        hex(&signer(BEN).key().0)
    ));
    assert_eq!(crew.salvaged().seals_lost, 1);
    assert_eq!(keys(&crew.db()), [(crew.own, signer(ADA).key().0)]);
    // A change is lost: the seals before it stay, those of it and behind it go.
    let crew = Crew::new();
    let own = seals(&crew.db(), crew.own);
    let lost = own[1].0;
    crew.run(&format!(
        "UPDATE change SET body = '{{\"facts\":[]}}' WHERE seq = {lost} AND device =
           (SELECT device FROM writer WHERE key = x'{}')",
        hex(&signer(ADA).key().0)
    ));
    let salvaged = crew.salvaged();
    assert_eq!((salvaged.lost, salvaged.seals_lost), (1, 0));
    assert_eq!(seals(&crew.db(), crew.own), own[..1]);
    assert_eq!(keys(&crew.db()).len(), 2);
}

fn spoil_first_page(path: &Path) {
    assert!(fs::metadata(path).unwrap().len() > 8_192);
    let mut file = OpenOptions::new().write(true).open(path).unwrap();
    file.write_all(&[0xa5; 4_096]).unwrap();
}

fn hex(bytes: &[u8]) -> String {
    bytes.iter().map(|byte| format!("{byte:02x}")).collect()
}
