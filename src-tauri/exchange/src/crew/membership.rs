//! What a phone keeps of its crew.

use super::tokens::{Secret, Tokens};
use crate::book::Book as _;
use crate::meet::MovedWhy;
use crate::photos;
use crate::proof::LeftAlone;
use crate::trouble::Trouble;
use notebook::Notebook;
use notebook::fact::{Body, Fact};
use notebook::log;
use serde::{Deserialize, Serialize};
use std::collections::{BTreeMap, BTreeSet};
use uuid::Uuid;
use wire::code;
use wire::{Heads, Role};

/// The row of the notebook's settings that holds it.
const NAME: &str = "crew";

/// This phone's place in a crew.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
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
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
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
    /// Heads in them.
    pub waiting_heads: u64,
    /// Photos that the hub is not known to hold.
    pub waiting_photos: u64,
    /// Series that the last exchange left as they are, and why.
    pub left_alone: BTreeMap<Uuid, LeftAlone>,
    /// The series that this phone wrote before its changes moved to another, if they did.
    pub moved: Option<Uuid>,
    /// Why they did.
    pub moved_why: MovedWhy,
}

impl State {
    pub(super) fn of(kept: &Kept, notebook: &mut Notebook) -> Result<Self, Trouble> {
        let (mut waiting, mut waiting_heads) = (0, 0);
        for (device, mark) in notebook.heads()? {
            let held = kept.hub.get(&device).map_or(0, |held| held.seq);
            if held < mark.seq {
                waiting += mark.seq - held;
                waiting_heads += heads_after(notebook, device, held)?;
            }
        }
        Ok(Self {
            member: kept.member.clone(),
            last: kept.last,
            waiting,
            waiting_heads,
            waiting_photos: photos::waiting(notebook)?,
            left_alone: kept.left_alone.clone(),
            moved: kept.moved,
            moved_why: kept.moved_why,
        })
    }
}

/// How often the hub is asked which photos it still holds: half a day.
const PHOTOS_ASKED_EVERY: i64 = 12 * 60 * 60 * 1_000;

/// Changes read at once while their heads are counted.
const PIECE: usize = 1 << 20;

fn heads_after(notebook: &Notebook, device: Uuid, mut seq: u64) -> Result<u64, Trouble> {
    let mut heads = 0;
    loop {
        let piece = log::after(notebook.db(), device, seq, PIECE)?;
        let Some(last) = piece.last() else {
            return Ok(heads);
        };
        seq = last.seq;
        heads += piece
            .iter()
            .map(|change| heads_in(&change.body))
            .sum::<u64>();
    }
}

/// Heads that a change tells of.
pub(crate) fn heads_in(body: &str) -> u64 {
    let heads = |fact: &Fact| match fact {
        Fact::Heads { heads, .. } => heads.len() as u64,
        _ => 0,
    };
    Body::read(body).facts.iter().map(heads).sum()
}

/// A join whose answer has not come yet.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub(super) struct Joining {
    pub(super) code: String,
    /// Under which its secret is kept.
    #[serde(default)]
    pub(super) handle: Uuid,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) secret: Option<Secret>,
}

impl Joining {
    pub(super) fn new(code: String, handle: Uuid) -> Self {
        Self {
            code,
            handle,
            secret: None,
        }
    }
}

/// All of it, as it lies in the notebook; the secret itself lies with [`Tokens`].
#[derive(Debug, Clone, Default, Serialize, Deserialize)]
#[serde(default)]
pub(super) struct Kept {
    pub(super) joining: Option<Joining>,
    pub(super) member: Option<Membership>,
    /// Under which this membership's secret is kept.
    pub(super) handle: Option<Uuid>,
    /// As earlier versions kept it here.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) secret: Option<Secret>,
    /// Certificates of a hub that has its own, PEM.
    pub(super) trust: Option<String>,
    pub(super) last: Option<LastExchange>,
    /// What the hub holds, as last heard.
    pub(super) hub: Heads,
    /// Series that the last exchange left as they are.
    pub(super) left_alone: BTreeMap<Uuid, LeftAlone>,
    /// The series that this phone wrote before its changes moved to another, until
    /// somebody has seen it.
    pub(super) moved: Option<Uuid>,
    /// Why they did.
    pub(super) moved_why: MovedWhy,
    /// When the hub was last asked for the photos that it once held, milliseconds
    /// since 1970 by this phone's clock; none where it must be asked anew.
    pub(super) photos_asked: Option<i64>,
    /// Memberships that were removed, as far as this phone, an owner's, has heard.
    #[serde(skip_serializing_if = "BTreeSet::is_empty")]
    pub(super) removed: BTreeSet<Uuid>,
}

impl Kept {
    /// Whether the hub held less than it had said before, as after a restored backup.
    pub(super) fn was_set_back(&self, found: &Heads) -> bool {
        let end = |device| found.get(device).map_or(0, |mark| mark.seq);
        self.hub.iter().any(|(device, mark)| end(device) < mark.seq)
    }

    /// Whether it is time to ask the hub which photos it still holds.
    pub(super) fn photos_due(&self, now: i64) -> bool {
        self.photos_asked
            .is_none_or(|asked| !(asked..asked + PHOTOS_ASKED_EVERY).contains(&now))
    }

    /// Reads it. A secret that an earlier version left in the notebook is moved
    /// out of it first.
    pub(super) fn read(notebook: &mut Notebook, tokens: &dyn Tokens) -> Result<Self, Trouble> {
        let Some(json) = notebook.setting(NAME)? else {
            return Ok(Self::default());
        };
        let mut kept: Self = serde_json::from_str(&json)
            .map_err(|_| Trouble::Notebook("what it keeps of the crew is damaged".into()))?;
        if kept.secret.is_none() && kept.joining.as_ref().is_none_or(|j| j.secret.is_none()) {
            return Ok(kept);
        }
        let now_ms = notebook.clock().now().timestamp_millis();
        if let Some(secret) = kept.secret.take() {
            let handle = code::new_id(now_ms)?;
            tokens.keep(handle, &secret)?;
            kept.handle = Some(handle);
        }
        if let Some(joining) = &mut kept.joining
            && let Some(secret) = joining.secret.take()
        {
            joining.handle = code::new_id(now_ms)?;
            tokens.keep(joining.handle, &secret)?;
        }
        // What is overwritten must not stay readable in the file.
        notebook
            .db()
            .execute_batch("PRAGMA secure_delete = ON")
            .map_err(notebook::StoreError::from)?;
        kept.write(notebook)?;
        notebook
            .db()
            .query_row("PRAGMA wal_checkpoint(TRUNCATE)", [], |_| Ok(()))
            .map_err(notebook::StoreError::from)?;
        Ok(kept)
    }

    pub(super) fn write(&self, notebook: &mut Notebook) -> Result<(), Trouble> {
        let json =
            serde_json::to_string(self).map_err(|error| Trouble::Notebook(error.to_string()))?;
        Ok(notebook.keep_setting(NAME, Some(&json))?)
    }

    /// Wipes the token and everything else of the crew; the log stays.
    pub(super) fn forget(
        &mut self,
        notebook: &mut Notebook,
        tokens: &dyn Tokens,
    ) -> Result<(), Trouble> {
        if let Some(handle) = self.handle {
            tokens.forget(handle)?;
        }
        *self = Self::default();
        notebook.forget_photos_on_hub()?;
        Ok(notebook.keep_setting(NAME, None)?)
    }
}
