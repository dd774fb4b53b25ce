//! The hub of a simulated crew: the real one on a real file, without the HTTP.

use hub::photos::Photos;
use hub::store::sqlite::SqliteStore;
use hub::{Hub, Outcome};
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::sync::atomic::{AtomicI64, Ordering};
use tokio::runtime::Runtime;
use uuid::Uuid;
use wire::code::{self, Token};
use wire::{Answer, Ask, Heads, Joined, Role, Span, frame};

pub struct HubThere {
    hub: Option<Hub>,
    runtime: Runtime,
    folder: PathBuf,
    now_ms: Arc<AtomicI64>,
    backups: usize,
    /// What the broken rule was, if the hub broke one.
    pub broken: Option<String>,
}

impl HubThere {
    pub fn new(folder: &Path, now_ms: Arc<AtomicI64>) -> Self {
        let runtime = tokio::runtime::Builder::new_current_thread()
            .build()
            .unwrap();
        let mut there = Self {
            hub: None,
            runtime,
            folder: folder.to_owned(),
            now_ms,
            backups: 0,
            broken: None,
        };
        there.rise();
        there
    }

    fn file(&self) -> PathBuf {
        self.folder.join("hub.sqlite")
    }

    fn rise(&mut self) {
        let now_ms = Arc::clone(&self.now_ms);
        self.hub = Some(Hub::new(
            Arc::new(SqliteStore::open(&self.file()).unwrap()),
            Photos::in_folder(&self.folder.join("photos")).unwrap(),
            Arc::new(move || now_ms.load(Ordering::SeqCst)),
        ));
    }

    fn hub(&self) -> &Hub {
        self.hub.as_ref().unwrap()
    }

    /// The process ends and starts again; what was answered is on the file.
    pub fn die(&mut self) {
        self.hub = None;
        self.rise();
    }

    pub fn back_up(&mut self) {
        self.backups += 1;
        let to = self.folder.join(format!("backup-{}", self.backups));
        self.runtime.block_on(self.hub().store.backup(&to)).unwrap();
    }

    /// The hub's disk broke, and the last backup takes its place.
    pub fn set_back(&mut self) {
        if self.backups == 0 {
            return;
        }
        self.hub = None;
        let from = self.folder.join(format!("backup-{}", self.backups));
        for rest in ["hub.sqlite-wal", "hub.sqlite-shm"] {
            let _ = std::fs::remove_file(self.folder.join(rest));
        }
        std::fs::copy(from, self.file()).unwrap();
        self.rise();
    }

    /// What the door does, for bytes that came with a token.
    pub fn hear(&mut self, token: &Token, bytes: &[u8]) -> Option<Vec<u8>> {
        let hub = self.hub.as_ref().unwrap();
        let member = self.runtime.block_on(hub.member(token)).unwrap()?;
        let before = member.removed.then(|| self.heads(member.crew));
        let answer = match frame::decode::<Ask>(bytes) {
            Ok(ask) => match self.runtime.block_on(hub.answer(Some(&member), ask)) {
                Outcome::Answer(answer) => answer,
                Outcome::Stranger => return None,
            },
            Err(_) => Answer::Refused(wire::Refusal::OutOfBounds),
        };
        if before.is_some_and(|before| before != self.heads(member.crew)) {
            self.broken = Some("a removed phone stored something".to_owned());
        }
        Some(frame::encode(&answer).unwrap())
    }

    /// The way of the removal race: judged at the door, stored later.
    pub fn hear_admitted(&mut self, device: Uuid, bytes: &[u8]) {
        let store = Arc::clone(&self.hub().store);
        let Some(member) = self.runtime.block_on(store.member(device)).unwrap() else {
            return;
        };
        let Ok(Ask::PushSealed(page)) = frame::decode::<Ask>(bytes) else {
            return;
        };
        let before = self.heads(member.crew);
        let now = self.now_ms.load(Ordering::SeqCst);
        let _ = self
            .runtime
            .block_on(store.append_sealed(device, page, now));
        if member.removed && before != self.heads(member.crew) {
            self.broken = Some("a removed phone stored something".to_owned());
        }
    }

    pub fn heads(&self, crew: Uuid) -> Heads {
        self.runtime.block_on(self.hub().store.heads(crew)).unwrap()
    }

    /// All changes of a crew, by writer and number.
    pub fn changes(&self, crew: Uuid) -> Vec<(Uuid, u64, Vec<u8>)> {
        let mut changes = Vec::new();
        for (device, mark) in self.heads(crew) {
            let mut after = 0;
            while after < mark.seq {
                let span = Span {
                    device,
                    after,
                    to: mark.seq,
                };
                let store = &self.hub().store;
                let page = self.runtime.block_on(store.read(crew, vec![span])).unwrap();
                let Some(run) = page.first() else { break };
                for body in run.bodies.iter() {
                    after += 1;
                    changes.push((device, after, body.to_vec()));
                }
            }
        }
        changes
    }

    /// Founds the crew, or adds a phone to it.
    pub fn join(&mut self, owner: Option<&Token>, name: &str) -> (Joined, Token) {
        let hub = self.hub.as_ref().unwrap();
        let code = match owner {
            None => self.runtime.block_on(hub.founding_code()).unwrap(),
            Some(owner) => {
                let member = self.runtime.block_on(hub.member(owner)).unwrap().unwrap();
                let invite = Ask::Invite {
                    person: None,
                    role: Role::Scout,
                    minutes: 60,
                };
                match self.runtime.block_on(hub.answer(Some(&member), invite)) {
                    Outcome::Answer(Answer::Invited(invited)) => invited.code,
                    other => panic!("{other:?}"),
                }
            }
        };
        let secret = code::random().unwrap();
        let join = Ask::Join {
            code,
            token_hash: code::hash(&secret),
            person: name.to_owned(),
            device: name.to_owned(),
            crew: "the crew".to_owned(),
        };
        match self.runtime.block_on(hub.answer(None, join)) {
            Outcome::Answer(Answer::Joined(joined)) => {
                let token = Token {
                    device: joined.device,
                    secret,
                };
                (joined, token)
            }
            other => panic!("{other:?}"),
        }
    }

    pub fn remove(&mut self, owner: &Token, device: Uuid) {
        let ask = frame::encode(&Ask::RemoveDevice { device }).unwrap();
        let answer = self.hear(owner, &ask).unwrap();
        assert_eq!(frame::decode::<Answer>(&answer).unwrap(), Answer::Done);
    }
}
