//! What a phone keeps of its crew.

use crate::book::Book as _;
use crate::trouble::Trouble;
use crate::wire::{Heads, Role};
use notebook::Notebook;
use serde::{Deserialize, Serialize};
use uuid::Uuid;

/// The row of the notebook's settings that holds it.
const NAME: &str = "crew";

/// This phone's place in a crew.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Membership {
    /// Of the hub.
    pub address: String,
    /// The crew.
    pub crew: Uuid,
    /// Its name.
    pub crew_name: String,
    /// The membership of this phone.
    pub device: Uuid,
    /// Whose phone it is.
    pub person: Uuid,
    /// What the person may do, as last heard.
    pub role: Role,
}

/// The last exchange that ended well.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct LastExchange {
    /// Milliseconds since 1970, by this phone's clock.
    pub at: i64,
    /// Changes given.
    pub sent: u64,
    /// Changes fetched.
    pub received: u64,
}

/// Where a phone stands.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct State {
    /// Its crew, if it is in one.
    pub member: Option<Membership>,
    /// The last exchange that ended well.
    pub last: Option<LastExchange>,
    /// Changes that the hub is not known to hold.
    pub waiting: u64,
}

impl State {
    pub(super) fn of(kept: &Kept, notebook: &mut Notebook) -> Result<Self, Trouble> {
        let waiting = notebook
            .heads()?
            .iter()
            .map(|(device, mark)| {
                let held = kept.hub.get(device).map_or(0, |held| held.seq);
                mark.seq.saturating_sub(held)
            })
            .sum();
        Ok(Self {
            member: kept.member.clone(),
            last: kept.last,
            waiting,
        })
    }
}

/// A join whose answer has not come yet.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub(super) struct Joining {
    pub(super) code: String,
    pub(super) secret: [u8; 32],
}

/// All of it, as it lies in the notebook.
#[derive(Debug, Clone, Default, Serialize, Deserialize)]
#[serde(default)]
pub(super) struct Kept {
    pub(super) joining: Option<Joining>,
    pub(super) member: Option<Membership>,
    pub(super) secret: Option<[u8; 32]>,
    /// Certificates of a hub that has its own, PEM.
    pub(super) trust: Option<String>,
    pub(super) last: Option<LastExchange>,
    /// What the hub holds, as last heard.
    pub(super) hub: Heads,
}

impl Kept {
    pub(super) fn read(notebook: &Notebook) -> Result<Self, Trouble> {
        match notebook.setting(NAME)? {
            None => Ok(Self::default()),
            Some(json) => serde_json::from_str(&json)
                .map_err(|_| Trouble::Notebook("what it keeps of the crew is damaged".into())),
        }
    }

    pub(super) fn write(&self, notebook: &mut Notebook) -> Result<(), Trouble> {
        let json =
            serde_json::to_string(self).map_err(|error| Trouble::Notebook(error.to_string()))?;
        Ok(notebook.keep_setting(NAME, Some(&json))?)
    }

    /// Wipes the token and everything else of the crew; the log stays.
    pub(super) fn forget(&mut self, notebook: &mut Notebook) -> Result<(), Trouble> {
        *self = Self::default();
        Ok(notebook.keep_setting(NAME, None)?)
    }
}
