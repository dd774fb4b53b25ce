//! The crew as faces call it: joining, exchanging by itself, and where the secret
//! of a membership is kept.

use crate::hub_here::{HubHere, Kept, Phone, patient};
use crate::scouts::head_file;
use exchange::Trouble;
use exchange::crew::{FileTokens, JoinLink, Names, Seat, Tokens as _};
use exchange::http::Trust;
use exchange::meet::Way as _;
use exchange::service::{
    CrewAnswer, CrewProblemCode, CrewRequest, CrewService, CrewState, InvitationShown,
};
use headwalk_tests::picture::{Camera, jpeg, scene};
use hub::store::sqlite::SqliteStore;
use notebook::Notebook;
use notebook::photo::PhotoFile;
use service::{Changed, FileRequest, PhotoOf, Service, ask, prepare};
use std::ops::ControlFlow;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::time::{Duration, Instant};
use uuid::Uuid;
use wire::{Answer, Ask, PHOTO_PART, Role};

/// One scout's notebook with its two services.
struct Scout {
    crew: CrewService,
    notebook: Service,
    path: PathBuf,
    /// The turn of the last state.
    turn: u64,
}

impl Scout {
    fn new(folder: &Path, name: &str) -> Self {
        let path = folder.join(format!("{name}.db"));
        Self {
            notebook: Service::new(Notebook::open_here(&path, None).unwrap()).unwrap(),
            crew: CrewService::open(&path, None).unwrap(),
            path,
            turn: 0,
        }
    }

    fn ask(&self, request: CrewRequest) -> CrewAnswer {
        self.crew.call(request).unwrap().answer
    }

    fn refused(&self, request: CrewRequest) -> CrewProblemCode {
        self.crew.call(request).unwrap_err().code
    }

    fn state(&mut self) -> (CrewState, Vec<Changed>) {
        let since = Some(self.turn);
        let reply = self.crew.call(CrewRequest::State { since }).unwrap();
        let CrewAnswer::State(state) = reply.answer else {
            panic!("another answer");
        };
        self.turn = state.turn;
        (*state, reply.changed)
    }

    /// Asks until the state is as wished; what changed meanwhile.
    fn until(&mut self, wished: impl Fn(&CrewState) -> bool) -> (CrewState, Vec<Changed>) {
        let patience = Instant::now() + Duration::from_secs(60);
        let mut all = Vec::new();
        loop {
            let (state, changed) = self.state();
            all.extend(changed);
            if wished(&state) {
                return (state, all);
            }
            assert!(Instant::now() < patience, "never: {state:?}");
            std::thread::sleep(Duration::from_millis(50));
        }
    }

    fn record(&mut self, planting: &str, heads: usize) {
        let text = head_file(planting, "Ada", heads);
        self.notebook.call(ask::ImportHeadFile { text }).unwrap();
        self.crew.notebook_changed();
    }

    fn join(&self, invitation: &str, hub: Option<String>) -> CrewRequest {
        CrewRequest::Join {
            invitation: invitation.to_owned(),
            hub,
            person: "Ada".to_owned(),
            device: "phone".to_owned(),
            crew_name: "Bench".to_owned(),
            certificate: None,
        }
    }
}

fn rests(state: &CrewState) -> bool {
    state.running.is_none() && state.last.is_some() && state.waiting.changes == 0
}

#[test]
fn a_crew_by_its_faces() {
    let mut here = HubHere::start(&Kept::Sqlite);
    let folder = tempfile::tempdir().unwrap();
    let mut ada = Scout::new(folder.path(), "ada");
    let mut ben = Scout::new(folder.path(), "ben");
    ada.record("North 40", 12);
    let (state, _) = ada.state();
    assert_eq!(state.member, None);
    assert_eq!((state.waiting.heads, state.last), (12, None));
    assert_eq!(ada.refused(CrewRequest::Exchange), CrewProblemCode::NoCrew);
    let bad = ada.join("0123", None);
    assert_eq!(ada.refused(bad), CrewProblemCode::BadInvitation);
    let nobody = ada.join("ABCDE-FGHJK-MNPQR-STVWX", Some(here.url()));
    assert_eq!(ada.refused(nobody), CrewProblemCode::NotLetIn);

    // Joined, the exchange goes without a further word.
    let founding = ada.join(&here.founding_code(), Some(here.url()));
    ada.ask(founding.clone());
    ada.until(rests);
    assert_eq!(ada.refused(founding), CrewProblemCode::InCrew);
    let invite = CrewRequest::Invite {
        person: None,
        role: Role::Scout,
        minutes: 60,
    };
    let CrewAnswer::Invite(InvitationShown { invitation, qr }) = ada.ask(invite.clone()) else {
        panic!("another answer");
    };
    assert!(qr.side > 20 && qr.path.starts_with("M0 0"));

    // What comes is told to who asks since when.
    let link = ben.join(&invitation.link, None);
    ben.ask(link);
    let (_, changed) = ben.until(rests);
    assert!(
        changed
            .iter()
            .any(|each| matches!(each, Changed::Planting(_)))
    );
    assert!(changed.iter().any(|each| matches!(each, Changed::Walk(_))));
    assert_eq!(ben.state().1, [], "told once");
    assert_eq!(ben.refused(invite), CrewProblemCode::NotAllowed);

    // While a request is in hand nothing is stored; then it is.
    ada.record("South 20", 3);
    ada.ask(CrewRequest::Exchange);
    ada.until(rests);
    let at_work = ben.crew.at_work();
    ben.ask(CrewRequest::Exchange);
    std::thread::sleep(Duration::from_millis(700));
    let seen = ben.turn;
    let state = ben
        .crew
        .call(CrewRequest::State { since: Some(seen) })
        .unwrap();
    assert_eq!(state.changed, []);
    drop(at_work);
    let (_, changed) = ben.until(|state| state.turn > seen);
    assert!(!changed.is_empty());
    ben.until(rests);

    // Without the hub: no more than a word, and the next try.
    here.stop();
    ada.record("East 10", 5);
    ada.ask(CrewRequest::Exchange);
    let (state, _) = ada.until(|state| state.trouble.is_some() && state.next_at.is_some());
    assert_eq!(state.trouble.unwrap().code, CrewProblemCode::NoSignal);
    assert_eq!(state.waiting.heads, 5);
    // By a file it goes all the same.
    let mut file = Vec::new();
    ada.crew.write_file(&mut file).unwrap();
    let reply = ben.crew.read_file(&mut file.as_slice()).unwrap();
    assert!(
        reply
            .changed
            .iter()
            .any(|each| matches!(each, Changed::Walk(_)))
    );
    let cut = ben
        .crew
        .read_file(&mut &file[..file.len() - 9])
        .unwrap_err();
    assert_eq!(cut.code, CrewProblemCode::BadExchangeFile);
}

#[test]
fn a_removed_device_forgets_its_key_and_keeps_its_heads() {
    let here = HubHere::start(&Kept::Sqlite);
    let owner = here.crew("Ada");
    let invited = here.invite(&owner, Role::Scout);
    let folder = tempfile::tempdir().unwrap();
    let mut ben = Scout::new(folder.path(), "ben");
    ben.record("North 40", 4);
    let join = ben.join(&invited.code, Some(here.url()));
    ben.ask(join);
    let (state, _) = ben.until(rests);
    let key = ben.path.with_extension("db.token");
    assert!(key.is_file());
    let device = state.member.unwrap().device;
    let mut owners = here.way(Some(owner.token.clone()));
    let removed = owners.ask(&Ask::RemoveDevice { device }).unwrap();
    assert_eq!(removed, Answer::Done);
    ben.ask(CrewRequest::Exchange);
    let (state, _) = ben.until(|state| state.trouble.is_some());
    assert_eq!(state.trouble.unwrap().code, CrewProblemCode::Removed);
    assert_eq!(state.member, None);
    assert!(!key.exists());
    assert_eq!(state.waiting.heads, 4);
}

#[test]
fn a_copied_notebook_is_no_member_and_may_join_anew() {
    let here = HubHere::start(&Kept::Sqlite);
    let owner = here.crew("Ada");
    let folder = tempfile::tempdir().unwrap();
    let mut ben = Scout::new(folder.path(), "ben");
    let join = ben.join(&here.invite(&owner, Role::Scout).code, Some(here.url()));
    ben.ask(join);
    ben.until(|state| state.last.is_some());
    let copy = folder.path().join("copy.db");
    let sql = format!("VACUUM INTO '{}'", copy.display());
    ben.notebook.notebook().db().execute_batch(&sql).unwrap();

    let mut copied = Scout::new(folder.path(), "copy");
    assert!(copied.state().0.member.is_some(), "it knows its crew");
    copied.ask(CrewRequest::Exchange);
    let (state, _) = copied.until(|state| state.trouble.is_some());
    assert_eq!(state.trouble.unwrap().code, CrewProblemCode::NoToken);
    let join = copied.join(&here.invite(&owner, Role::Scout).code, Some(here.url()));
    copied.ask(join);
    copied.until(rests);
}

/// A secret that an earlier version kept in the notebook's file leaves it, and no
/// byte of it stays behind.
#[test]
fn a_secret_in_the_notebook_is_moved_out_of_it() {
    let here = HubHere::start(&Kept::Sqlite);
    let owner = here.crew("Ada");
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("old.db");
    let mut notebook = Notebook::open_here(&path, None).unwrap();
    let old = serde_json::json!({
        "joining": null,
        "member": {
            "address": here.url(),
            "crew": owner.joined.crew,
            "crew_name": "North bench",
            "device": owner.joined.device,
            "person": owner.joined.person,
            "role": "owner",
        },
        "secret": owner.token.secret,
        "trust": null,
        "last": null,
        "hub": {},
    });
    notebook
        .keep_setting("crew", Some(&old.to_string()))
        .unwrap();
    let digits = serde_json::to_string(&owner.token.secret).unwrap();
    let found = |of: &Path| {
        let bytes = std::fs::read(of).unwrap_or_default();
        bytes
            .windows(60)
            .any(|window| digits.as_bytes().starts_with(window))
    };
    let log = folder.path().join("old.db-wal");
    assert!(found(&path) || found(&log), "it was there");

    let tokens = FileTokens::beside(&path);
    let mut seat = Seat {
        notebook: &mut notebook,
        tokens: &tokens,
    };
    assert_eq!(
        seat.view().unwrap().people.len(),
        1,
        "it is a member as before"
    );
    drop(notebook);
    assert!(!found(&path) && !found(&log));
    let kept = std::fs::read_to_string(folder.path().join("old.db.token")).unwrap();
    let handle = Uuid::try_parse(kept.split(' ').next().unwrap()).unwrap();
    assert_eq!(tokens.read(handle), Ok(Some(owner.token.secret)));
}

#[test]
fn leaving_wipes_the_key_and_the_last_owner_stays() {
    let here = HubHere::start(&Kept::Sqlite);
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("ada.db");
    let mut notebook = Notebook::open_here(&path, None).unwrap();
    let tokens = FileTokens::beside(&path);
    let mut seat = Seat {
        notebook: &mut notebook,
        tokens: &tokens,
    };
    join(&mut seat, &here, here.founding_code());
    assert_eq!(seat.leave(), Err(Trouble::LastOwner));
    let second = seat.invite(None, Role::Owner, 60).unwrap();
    let code = wire::code::read_code(&second.code).unwrap();
    here.join(&code, "Bea");
    seat.leave().unwrap();
    assert_eq!(seat.state().unwrap().member, None);
    assert!(!folder.path().join("ada.db.token").exists());
    assert_eq!(seat.view().err(), Some(Trouble::NoCrew));
}

const PLAIN: Camera = Camera {
    orientation: 1,
    place: None,
};

/// Photos go after the observations, part by part, and go on where they were cut.
#[test]
fn photos_follow_on_their_own_way_and_resume() {
    let here = HubHere::start(&Kept::Sqlite);
    let owner = here.crew("Owner");
    let folder = tempfile::tempdir().unwrap();
    let ada_path = folder.path().join("ada.db");
    let (mut ada, ada_tokens) = (
        with_photos(&ada_path, &[1_600, 1_200]),
        FileTokens::beside(&ada_path),
    );
    let ben_path = folder.path().join("ben.db");
    let (mut ben, ben_tokens) = (
        Notebook::open_here(&ben_path, None).unwrap(),
        FileTokens::beside(&ben_path),
    );
    for (notebook, tokens) in [(&mut ada, &ada_tokens), (&mut ben, &ben_tokens)] {
        let mut seat = Seat { notebook, tokens };
        join_as_scout(&mut seat, &here, &owner);
    }
    let exchange = |notebook: &mut Notebook, tokens: &FileTokens| {
        let mut seat = Seat { notebook, tokens };
        seat.exchange(&mut |_| ControlFlow::Continue(())).unwrap();
    };
    exchange(&mut ada, &ada_tokens);
    exchange(&mut ben, &ben_tokens);
    // The log has come before any photo.
    assert_eq!(ben.photos_to_fetch(9).unwrap().len(), 2);
    let photos = ada.photos_to_send(9).unwrap();
    let parts: u64 = photos
        .iter()
        .map(|photo| photo.bytes.div_ceil(PHOTO_PART))
        .sum();

    // Stopped at every word, it goes on, and sends no part twice: every stop but
    // the first two (before and after the last) has moved something.
    let through = |notebook: &mut Notebook, tokens: &FileTokens| {
        for stops in 1.. {
            let mut heard = 0;
            let mut seat = Seat {
                notebook: &mut *notebook,
                tokens,
            };
            let done = seat.exchange_photos(&|| {}, &mut |_| {
                heard += 1;
                // The first word is said before anything is carried.
                if heard == 2 {
                    ControlFlow::Break(())
                } else {
                    ControlFlow::Continue(())
                }
            });
            match done {
                Ok(_) => return stops,
                Err(Trouble::Stopped) => assert!(stops <= 2 * (parts + 2), "it does not move"),
                Err(trouble) => panic!("{trouble}"),
            }
        }
        0
    };
    through(&mut ada, &ada_tokens);
    assert_eq!(ada.photos_to_send(9).unwrap(), []);
    through(&mut ben, &ben_tokens);
    assert_eq!(ben.photos_to_fetch(9).unwrap(), []);
    for photo in photos {
        let bytes = ben
            .photo_files()
            .unwrap()
            .read(photo.name)
            .unwrap()
            .unwrap();
        assert_eq!(bytes.len() as u64, photo.bytes);
    }
    // Nothing is left of the parts, and nothing more to do.
    let left = std::fs::read_dir(ben.photo_files().unwrap().folder().join("fetching")).unwrap();
    assert_eq!(left.count(), 0);
    let mut seat = Seat {
        notebook: &mut ben,
        tokens: &ben_tokens,
    };
    let done = seat
        .exchange_photos(&|| {}, &mut |_| ControlFlow::Continue(()))
        .unwrap();
    assert_eq!(done.all(), 0);
}

/// A notebook with photos of one planting.
fn with_photos(path: &Path, widths: &[u32]) -> Notebook {
    let mut service = Service::new(Notebook::open_here(path, None).unwrap()).unwrap();
    let text = head_file("North 40", "Ada", 4);
    service.call(ask::ImportHeadFile { text }).unwrap();
    let rows = service.call(ask::Plantings {}).unwrap().answer.rows;
    let of = PhotoOf::Planting(rows[0].id);
    for width in widths {
        let taken = jpeg(&scene(*width, 1_200), PLAIN).unwrap();
        let prepared = prepare(FileRequest::AddPhoto { id: None, of }, &taken).unwrap();
        service.call_prepared(prepared).unwrap();
    }
    service.into_notebook()
}

fn join_as_scout(seat: &mut Seat, here: &HubHere, owner: &Phone) {
    join(seat, here, here.invite(owner, Role::Scout).code);
}

fn join(seat: &mut Seat, here: &HubHere, code: String) {
    let link = JoinLink {
        address: here.url(),
        code,
    };
    let names = Names {
        person: "Ada".into(),
        device: "phone".into(),
        crew: "Bench".into(),
    };
    seat.join(&link, &Trust::Public, &names).unwrap();
}

/// Exchanges with the hub, photos too.
fn exchanged(seat: &mut Seat) {
    seat.exchange(&mut |_| ControlFlow::Continue(())).unwrap();
    seat.exchange_photos(&|| {}, &mut |_| ControlFlow::Continue(()))
        .unwrap();
}

/// Photos that a hub lacks, whole, of these.
fn lacks(here: &HubHere, phone: &Phone, photos: &[PhotoFile]) -> usize {
    let names = photos.iter().map(|photo| photo.name.0).collect();
    match here
        .way(Some(phone.token.clone()))
        .ask(&Ask::PhotosMissing { names })
    {
        Ok(Answer::PhotosMissing(missing)) => missing.len(),
        other => panic!("{other:?}"),
    }
}

/// A hub set back to a backup that knows nothing of the photos, then one whose photo
/// files are gone: the phone finds out, sends them again, and frees nothing before.
#[test]
fn photos_that_the_hub_lost_are_sent_again_and_not_freed_before() {
    let mut here = HubHere::start(&Kept::Sqlite);
    let owner = here.crew("Owner");
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("ada.db");
    let mut ada = with_photos(&path, &[1_600, 1_200]);
    let photos = ada.photos_to_send(9).unwrap();
    let tokens = FileTokens::beside(&path);
    let mut seat = Seat {
        notebook: &mut ada,
        tokens: &tokens,
    };
    join_as_scout(&mut seat, &here, &owner);
    let backup = folder.path().join("backup.sqlite");
    here.runtime
        .block_on(here.hub.store.backup(&backup))
        .unwrap();
    exchanged(&mut seat);
    assert_eq!(lacks(&here, &owner, &photos), 0);
    assert_eq!(seat.notebook.photos_to_send(9).unwrap(), []);

    // Without signal nothing is freed.
    let before = here.url();
    here.stop();
    assert!(matches!(seat.free_photos(), Err(Trouble::NoSignal(_))));
    let here_still = |seat: &Seat| {
        let files = seat.notebook.photo_files().unwrap();
        photos
            .iter()
            .filter(|photo| files.length(photo.name).is_some())
            .count()
    };
    assert_eq!(here_still(&seat), 2);

    // The backup, without the files, elsewhere.
    let here = HubHere::start_on(Arc::new(SqliteStore::open(&backup).unwrap()), patient());
    let crew = seat.notebook.setting("crew").unwrap().unwrap();
    let moved = crew.replace(&before, &here.url());
    seat.notebook.keep_setting("crew", Some(&moved)).unwrap();
    assert_eq!(lacks(&here, &owner, &photos), 2);
    exchanged(&mut seat);
    assert_eq!(
        lacks(&here, &owner, &photos),
        0,
        "the phone sent them again"
    );

    // The files alone are gone, of which the hub's store knows nothing.
    std::fs::remove_dir_all(here.folder.path().join("photos").join("whole")).unwrap();
    seat.free_photos().unwrap();
    assert_eq!(here_still(&seat), 2, "the hub lacks them now");
    assert_eq!(seat.notebook.photos_to_send(9).unwrap().len(), 2);
    exchanged(&mut seat);
    assert_eq!(lacks(&here, &owner, &photos), 0);
    let mut ben = here.way(Some(owner.token.clone()));
    let (part, size) = ben
        .fetch_photo(&photos[0].name.to_string(), 0..PHOTO_PART)
        .unwrap();
    assert_eq!(
        (part.len() as u64, size),
        (photos[0].bytes.min(PHOTO_PART), photos[0].bytes)
    );
    seat.free_photos().unwrap();
    assert_eq!(here_still(&seat), 0);
}

/// Where nothing tells that the hub lost something, it is asked twice a day.
#[test]
fn a_hub_is_asked_now_and_then_for_the_photos_it_holds() {
    let here = HubHere::start(&Kept::Sqlite);
    let owner = here.crew("Owner");
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("ada.db");
    let mut ada = with_photos(&path, &[1_200]);
    let photos = ada.photos_to_send(9).unwrap();
    let tokens = FileTokens::beside(&path);
    let mut seat = Seat {
        notebook: &mut ada,
        tokens: &tokens,
    };
    join_as_scout(&mut seat, &here, &owner);
    exchanged(&mut seat);
    exchanged(&mut seat);
    std::fs::remove_dir_all(here.folder.path().join("photos").join("whole")).unwrap();
    exchanged(&mut seat);
    assert_eq!(seat.notebook.photos_to_send(9).unwrap(), [], "just asked");
    let mut crew: serde_json::Value =
        serde_json::from_str(&seat.notebook.setting("crew").unwrap().unwrap()).unwrap();
    let asked = crew["photos_asked"].as_i64().unwrap();
    crew["photos_asked"] = (asked - 13 * 60 * 60 * 1_000).into();
    seat.notebook
        .keep_setting("crew", Some(&crew.to_string()))
        .unwrap();
    exchanged(&mut seat);
    assert_eq!(lacks(&here, &owner, &photos), 0);
    let whole = here.folder.path().join("photos").join("whole");
    assert!(whole.is_dir(), "sent again");
}
