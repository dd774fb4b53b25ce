//! Ways out of a crew and back: a hub that is lost or forgot a phone, and removals that
//! outlive a restored backup.

use crate::both_stores::{Story, on_postgresql, on_sqlite};
use crate::cluster::Cluster;
use crate::hub_here::{HubHere, Kept, Phone, patient};
use crate::scouts::{exchange, head_file, in_memory, record};
use exchange::Trouble;
use exchange::book::Book as _;
use exchange::crew::{Change, FileTokens, JoinLink, Names, Seat};
use exchange::http::Trust;
use exchange::meet::Way as _;
use exchange::service::{CrewAnswer, CrewProblemCode, CrewRequest, CrewService};
use hub::store::Store;
use hub::store::sqlite::SqliteStore;
use notebook::Notebook;
use std::ops::ControlFlow;
use std::path::{Path, PathBuf};
use std::process::Command;
use std::sync::Arc;
use wire::{Answer, Ask, Heads, Role};

const STORIES: &[Story] = &[
    ("a lost hub is left here and now", a_lost_hub),
    (
        "a hub that forgot the phone is joined again",
        a_forgetful_hub,
    ),
    ("an owner's phone removes again", an_owner_removes_again),
];

#[test]
fn leaving_on_sqlite() {
    on_sqlite(STORIES);
}

#[test]
fn leaving_on_postgresql() {
    on_postgresql(STORIES);
}

/// A notebook file with the key beside it.
struct Own {
    notebook: Notebook,
    tokens: FileTokens,
    path: PathBuf,
}

impl Own {
    fn new(folder: &Path, name: &str) -> Self {
        let path = folder.join(format!("{name}.db"));
        Self {
            notebook: Notebook::open_here(&path, None).unwrap(),
            tokens: FileTokens::beside(&path),
            path,
        }
    }

    fn record(self, planting: &str) -> Self {
        let notebook = record(self.notebook, &head_file(planting, "Ada", 10));
        Self { notebook, ..self }
    }

    fn seat(&mut self) -> Seat<'_> {
        Seat {
            notebook: &mut self.notebook,
            tokens: &self.tokens,
        }
    }

    fn join(&mut self, here: &HubHere, code: String) -> Result<(), Trouble> {
        let link = JoinLink {
            address: here.url(),
            code: wire::code::read_code(&code).unwrap(),
        };
        let names = Names {
            person: "Ada".to_owned(),
            device: "phone".to_owned(),
            crew: "Bench".to_owned(),
        };
        self.seat().join(&link, &Trust::Public, &names).map(drop)
    }

    fn exchange(&mut self) -> Result<Heads, Trouble> {
        let met = self.seat().exchange(&mut |_| ControlFlow::Continue(()))?;
        Ok(met.hub)
    }

    fn has_key(&self) -> bool {
        self.path.with_extension("db.token").exists()
    }

    /// The hub is at another address now.
    fn follow(&mut self, from: &str, to: &str) {
        let kept = self.notebook.setting("crew").unwrap().unwrap();
        let moved = kept.replace(from, to);
        assert_ne!(kept, moved);
        self.notebook.keep_setting("crew", Some(&moved)).unwrap();
    }
}

fn held(here: &HubHere, phone: &Own) -> Heads {
    let json = phone.notebook.setting("crew").unwrap().unwrap();
    let kept: serde_json::Value = serde_json::from_str(&json).unwrap();
    let crew = kept["member"]["crew"].as_str().unwrap().parse().unwrap();
    here.runtime.block_on(here.hub.store.heads(crew)).unwrap()
}

fn a_lost_hub(kept: &mut dyn FnMut() -> Kept) {
    let folder = tempfile::tempdir().unwrap();
    let mut ada = Own::new(folder.path(), "ada").record("North 40");
    let mut lost = HubHere::start(&kept());
    ada.join(&lost, lost.founding_code()).unwrap();
    let ben = {
        let invited = ada.seat().invite(None, Role::Scout, 60).unwrap();
        lost.join(&wire::code::read_code(&invited.code).unwrap(), "Ben")
    };
    let mut bens = record(in_memory(), &head_file("South 20", "Ben", 10));
    exchange(&lost, &mut bens, &ben).unwrap();
    ada.exchange().unwrap();
    let mut ada = ada.record("North 41");
    lost.stop();
    drop(lost);

    // The hub is gone, and with it the usual way out.
    assert!(matches!(ada.seat().leave(), Err(Trouble::NoSignal(_))));
    let new = HubHere::start(&kept());
    let code = new.founding_code();
    let refused = ada.join(&new, code.clone());
    assert_eq!(refused, Err(Trouble::InCrew("Bench".to_owned())));
    let before = ada.notebook.heads().unwrap();
    ada.seat().leave_here().unwrap();
    assert!(!ada.has_key());
    assert_eq!(ada.seat().state().unwrap().member, None);
    assert_eq!(ada.seat().leave_here(), Err(Trouble::NoCrew));
    assert_eq!(ada.notebook.heads().unwrap(), before, "every change stays");
    assert_eq!(
        ada.seat().state().unwrap().waiting,
        before.values().map(|mark| mark.seq).sum::<u64>()
    );
    // Own changes and Ben's go to the new hub.
    ada.join(&new, code).unwrap();
    assert_eq!(before.len(), 2);
    all_goes_along(&new, &mut ada, &before);
}

/// A new membership has a new key: what the old one had not sealed goes on in a series
/// of its own, with a change that says so. The hub gets all of it.
fn all_goes_along(new: &HubHere, phone: &mut Own, before: &Heads) {
    let count = |heads: &Heads| heads.values().map(|mark| mark.seq).sum::<u64>();
    let given = phone.exchange().unwrap();
    let after = phone.notebook.heads().unwrap();
    assert_eq!(given, after);
    assert_eq!(held(new, phone), after);
    assert!(count(&after) >= count(before));
    assert!(before.keys().all(|series| after.contains_key(series)));
}

fn a_forgetful_hub(kept: &mut dyn FnMut() -> Kept) {
    let folder = tempfile::tempdir().unwrap();
    let mut ben = Own::new(folder.path(), "ben").record("South 20");
    let first = HubHere::start(&kept());
    let owner = first.crew("Ada");
    let invited = first.invite(&owner, Role::Scout).code;
    ben.join(&first, invited).unwrap();
    ben.exchange().unwrap();
    let again = first.invite(&owner, Role::Scout).code;
    let refused = ben.join(&first, again);
    assert_eq!(refused, Err(Trouble::InCrew("North bench".to_owned())));
    assert!(ben.has_key());

    // A hub that was set up anew does not know him.
    let second = HubHere::start(&kept());
    let owner = second.crew("Ada");
    ben.follow(&first.url(), &second.url());
    assert_eq!(ben.exchange(), Err(Trouble::NotLetIn));
    let invited = second.invite(&owner, Role::Scout).code;
    ben.join(&second, invited).unwrap();
    let mine = ben.notebook.heads().unwrap();
    assert_eq!(ben.exchange().unwrap(), mine, "all of it is given again");
    // Nor does a third one, which need not be told that he leaves.
    let third = HubHere::start(&kept());
    third.crew("Ada");
    ben.follow(&second.url(), &third.url());
    ben.seat().leave().unwrap();
    assert!(!ben.has_key());
}

/// The store as it was before: a backup as a file of its own, without what lies beside.
fn restored(here: &HubHere, backup: &Path) -> HubHere {
    let target = here.folder.path().join("restored.sqlite");
    std::fs::copy(backup, &target).unwrap();
    let store: Arc<dyn Store> = Arc::new(SqliteStore::open(&target).unwrap());
    HubHere::start_on(store, patient())
}

fn is_member(here: &HubHere, phone: &Phone) -> bool {
    match here.way(Some(phone.token.clone())).ask(&Ask::Crew) {
        Ok(Answer::Crew(_)) => true,
        Ok(Answer::Refused(wire::Refusal::Removed)) => false,
        other => panic!("{other:?}"),
    }
}

fn an_owner_removes_again(kept: &mut dyn FnMut() -> Kept) {
    let folder = tempfile::tempdir().unwrap();
    let mut ada = Own::new(folder.path(), "ada").record("North 40");
    let place = kept();
    let here = HubHere::start(&place);
    ada.join(&here, here.founding_code()).unwrap();
    let invite = |ada: &mut Own, role| {
        let invited = ada.seat().invite(None, role, 60).unwrap();
        wire::code::read_code(&invited.code).unwrap()
    };
    let code = invite(&mut ada, Role::Scout);
    let ben = here.join(&code, "Ben");
    let code = invite(&mut ada, Role::Owner);
    let bea = here.join(&code, "Bea");
    let code = invite(&mut ada, Role::Scout);
    let cal = here.join(&code, "Cal");
    let backup = here.folder.path().join("backup.sqlite");
    here.runtime
        .block_on(here.hub.store.backup(&backup))
        .unwrap();
    // Ada removes Ben herself, Bea removes Cal, and Ada hears of it.
    let remove = |phone: &Phone| Change::Remove(phone.joined.device);
    ada.seat().change(remove(&ben)).unwrap();
    let device = cal.joined.device;
    let mut beas = here.way(Some(bea.token.clone()));
    assert_eq!(beas.ask(&Ask::RemoveDevice { device }), Ok(Answer::Done));
    ada.exchange().unwrap();
    assert!(!is_member(&here, &ben) && !is_member(&here, &cal));

    let second = restored(&here, &backup);
    assert!(is_member(&second, &ben), "the backup knows no removal");
    ada.follow(&here.url(), &second.url());
    ada.exchange().unwrap();
    assert!(!is_member(&second, &ben) && !is_member(&second, &cal));
    assert!(is_member(&second, &bea));

    // The same where the database itself was restored.
    if let Kept::Postgres(url) = &place {
        Cluster::run(url, "UPDATE device SET removed_at = NULL");
        assert!(is_member(&here, &ben));
        ada.follow(&second.url(), &here.url());
        ada.exchange().unwrap();
        assert!(!is_member(&here, &ben) && !is_member(&here, &cal));
    }
}

/// The file beside the hub's is left alone by a restore, and honored.
#[test]
fn removals_outlive_a_restored_file() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("hub.sqlite");
    let beside = folder.path().join("hub.sqlite.removed");
    let open = || -> Arc<dyn Store> { Arc::new(SqliteStore::open(&file).unwrap()) };
    let here = HubHere::start_on(open(), patient());
    let owner = here.crew("Ada");
    let ben = here.further(&owner, Role::Scout, "Ben");
    let cal = here.further(&owner, Role::Scout, "Cal");
    let dee = here.further(&owner, Role::Scout, "Dee");
    let backup = folder.path().join("backup.sqlite");
    here.runtime
        .block_on(here.hub.store.backup(&backup))
        .unwrap();
    let remove = |here: &HubHere, phone: &Phone| {
        let device = phone.joined.device;
        let mut way = here.way(Some(owner.token.clone()));
        assert_eq!(way.ask(&Ask::RemoveDevice { device }), Ok(Answer::Done));
    };
    remove(&here, &ben);
    // A write that was cut does not spoil the next line.
    let mut torn = std::fs::read(&beside).unwrap();
    torn.extend_from_slice(b"0198f");
    std::fs::write(&beside, &torn).unwrap();
    remove(&here, &cal);
    let restore = |mut here: HubHere| {
        here.stop();
        drop(here);
        for rest in ["-wal", "-shm"] {
            let _ = std::fs::remove_file(folder.path().join(format!("hub.sqlite{rest}")));
        }
        std::fs::copy(&backup, &file).unwrap();
        HubHere::start_on(open(), patient())
    };
    let mut second = restore(here);
    for (phone, member) in [(&ben, false), (&cal, false), (&dee, true), (&owner, true)] {
        assert_eq!(is_member(&second, phone), member);
    }
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt as _;
        let mode = beside.metadata().unwrap().permissions().mode();
        assert_eq!(mode & 0o777, 0o600);
    }
    // A hub of an earlier version had no such file: what it had removed is added.
    second.stop();
    drop(second);
    std::fs::remove_file(&beside).unwrap();
    let fourth = restore(HubHere::start_on(open(), patient()));
    assert!(!is_member(&fourth, &ben) && !is_member(&fourth, &cal));
    assert!(is_member(&fourth, &dee));
}

#[test]
fn leaving_here_by_the_faces() {
    let folder = tempfile::tempdir().unwrap();
    let mut ada = Own::new(folder.path(), "ada").record("North 40");
    let mut here = HubHere::start(&Kept::Sqlite);
    ada.join(&here, here.founding_code()).unwrap();
    here.stop();
    let path = ada.path.clone();
    let crew = CrewService::open(&path, None).unwrap();
    let left = crew.call(CrewRequest::LeaveHere).unwrap();
    assert_eq!(left.answer, CrewAnswer::LeaveHere);
    let again = crew.call(CrewRequest::LeaveHere).unwrap_err();
    assert_eq!(again.code, CrewProblemCode::NoCrew);
    assert!(!ada.has_key());
    drop((crew, ada));

    let new = HubHere::start(&Kept::Sqlite);
    let program = headwalk_tests::program::headwalk().unwrap();
    let call = |arguments: &[&str]| {
        let output = Command::new(&program)
            .args(["crew", "--notebook"])
            .arg(&path)
            .args(arguments)
            .output()
            .unwrap();
        let said = String::from_utf8(output.stderr).unwrap();
        (output.status.code(), said)
    };
    let code = new.founding_code();
    let joined = call(&["join", &code, "--hub", &new.url(), "--name", "Ada"]);
    assert_eq!(joined.0, Some(0), "{}", joined.1);
    drop(new);
    let (status, said) = call(&["leave"]);
    assert_eq!(status, Some(1), "{said}");
    assert_eq!(call(&["leave", "--here"]), (Some(0), String::new()));
    let (status, said) = call(&["leave", "--here"]);
    assert_eq!((status, said.lines().count()), (Some(1), 1), "{said}");
}
