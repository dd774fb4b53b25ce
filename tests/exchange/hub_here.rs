//! A hub in this process, over real HTTP on loopback.

use exchange::http::{HttpWay, Trust};
use exchange::meet::Way;
use hub::Hub;
use hub::door::DoorRules;
use hub::photos::Photos;
use hub::serve::{Listening, bind};
use hub::store::postgres::PostgresStore;
use hub::store::sqlite::SqliteStore;
use hub::store::{Quotas, Store};
use std::net::SocketAddr;
use std::num::NonZeroU32;
use std::path::PathBuf;
use std::sync::Arc;
use std::sync::atomic::{AtomicI64, Ordering};
use tempfile::TempDir;
use tokio::runtime::Runtime;
use tokio::sync::oneshot;
use wire::code::{self, Token};
use wire::{Answer, Ask, Invited, Joined, Role};

/// Where a hub under test keeps things.
pub enum Kept {
    Sqlite,
    Postgres(String),
}

pub struct HubHere {
    pub at: SocketAddr,
    pub metrics_at: SocketAddr,
    pub hub: Hub,
    pub folder: TempDir,
    pub runtime: Runtime,
    later_ms: Arc<AtomicI64>,
    end: Option<oneshot::Sender<()>>,
    served: Option<tokio::task::JoinHandle<()>>,
}

impl HubHere {
    pub fn start(kept: &Kept) -> Self {
        Self::start_with(kept, patient(), None)
    }

    pub fn start_with(kept: &Kept, rules: DoorRules, tls: Option<(PathBuf, PathBuf)>) -> Self {
        Self::start_as(kept, rules, tls, Quotas::default())
    }

    /// A hub whose members may store no more than these quotas.
    pub fn start_small(kept: &Kept, quotas: Quotas) -> Self {
        Self::start_as(kept, patient(), None, quotas)
    }

    fn start_as(
        kept: &Kept,
        rules: DoorRules,
        tls: Option<(PathBuf, PathBuf)>,
        quotas: Quotas,
    ) -> Self {
        let (runtime, folder) = (runtime(), tempfile::tempdir().unwrap());
        let store: Arc<dyn Store> = match kept {
            Kept::Sqlite => {
                let store = SqliteStore::open(&folder.path().join("hub.sqlite")).unwrap();
                Arc::new(store.with_quotas(quotas))
            }
            Kept::Postgres(url) => {
                let store = runtime.block_on(PostgresStore::connect(url)).unwrap();
                Arc::new(store.with_quotas(quotas))
            }
        };
        Self::serve(runtime, folder, store, rules, tls)
    }

    /// A hub on a store that is already there.
    pub fn start_on(store: Arc<dyn Store>, rules: DoorRules) -> Self {
        Self::serve(runtime(), tempfile::tempdir().unwrap(), store, rules, None)
    }

    fn serve(
        runtime: Runtime,
        folder: TempDir,
        store: Arc<dyn Store>,
        rules: DoorRules,
        tls: Option<(PathBuf, PathBuf)>,
    ) -> Self {
        let photos = Photos::in_folder(&folder.path().join("photos")).unwrap();
        let later_ms = Arc::new(AtomicI64::new(0));
        let (machine, later) = (hub::machine_clock(), Arc::clone(&later_ms));
        let clock: hub::Clock = Arc::new(move || machine() + later.load(Ordering::SeqCst));
        let hub = Hub::new(store, photos, clock);
        let here = SocketAddr::from(([127, 0, 0, 1], 0));
        let listening = Listening {
            at: here,
            tls,
            metrics_at: Some(here),
            rules,
        };
        let bound = runtime.block_on(bind(hub.clone(), listening)).unwrap();
        let (at, metrics_at) = (
            bound.address().unwrap(),
            bound.metrics_address().unwrap().unwrap(),
        );
        let (end, ended) = oneshot::channel::<()>();
        let served = runtime.spawn(bound.serve(async move {
            let _ = ended.await;
        }));
        Self {
            at,
            metrics_at,
            hub,
            folder,
            runtime,
            later_ms,
            end: Some(end),
            served: Some(served),
        }
    }

    /// Lets the hub's clock go forward.
    pub fn later(&self, minutes: i64) {
        self.later_ms.fetch_add(minutes * 60_000, Ordering::SeqCst);
    }

    pub fn url(&self) -> String {
        format!("http://{}", self.at)
    }

    pub fn way(&self, token: Option<Token>) -> HttpWay {
        HttpWay::new(&self.url(), &Trust::Public, token).unwrap()
    }

    pub fn founding_code(&self) -> String {
        self.runtime.block_on(self.hub.founding_code()).unwrap()
    }

    /// Joins with a code.
    pub fn join(&self, code: &str, person: &str) -> Phone {
        join(&mut self.way(None), code, person).unwrap()
    }

    /// A crew with its first owner.
    pub fn crew(&self, owner: &str) -> Phone {
        let code = self.founding_code();
        self.join(&code, owner)
    }

    /// A further phone of a new person, invited by an owner.
    pub fn further(&self, owner: &Phone, role: Role, person: &str) -> Phone {
        let invited = self.invite(owner, role);
        self.join(&invited.code, person)
    }

    pub fn invite(&self, owner: &Phone, role: Role) -> Invited {
        let ask = Ask::Invite {
            person: None,
            role,
            minutes: 60,
        };
        match self.way(Some(owner.token.clone())).ask(&ask).unwrap() {
            Answer::Invited(invited) => invited,
            other => panic!("{other:?}"),
        }
    }

    /// Ends the hub and waits for it.
    pub fn stop(&mut self) {
        if let Some(end) = self.end.take() {
            let _ = end.send(());
        }
        if let Some(served) = self.served.take() {
            self.runtime.block_on(served).unwrap();
        }
    }
}

impl Drop for HubHere {
    fn drop(&mut self) {
        if let Some(end) = self.end.take() {
            let _ = end.send(());
        }
    }
}

fn runtime() -> Runtime {
    tokio::runtime::Builder::new_multi_thread()
        .worker_threads(2)
        .enable_all()
        .build()
        .unwrap()
}

/// Rules whose rate limits do not come in the way of a test.
pub fn patient() -> DoorRules {
    let many = NonZeroU32::new(1_000_000).unwrap();
    DoorRules {
        strangers_a_minute: many,
        member_a_second: many,
        ..DoorRules::default()
    }
}

/// A phone that has joined.
#[derive(Clone)]
pub struct Phone {
    pub joined: Joined,
    pub token: Token,
}

pub fn join(way: &mut HttpWay, code: &str, person: &str) -> Result<Phone, exchange::Trouble> {
    let secret = code::random().unwrap();
    let ask = Ask::Join {
        code: code.to_owned(),
        token_hash: code::hash(&secret),
        person: person.to_owned(),
        device: format!("{person}'s phone"),
        crew: "North bench".to_owned(),
    };
    match way.ask(&ask)? {
        Answer::Joined(joined) => Ok(Phone {
            token: Token {
                device: joined.device,
                secret,
            },
            joined,
        }),
        other => panic!("{other:?}"),
    }
}
