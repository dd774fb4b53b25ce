//! What the crew answers.

use super::problem::CrewProblem;
use crate::crew::{Invitation, LastExchange, Membership, Qr};
use crate::meet::MovedWhy;
use crate::proof::LeftAlone;
use crate::trouble::Trouble;
use notebook::Notebook;
use serde::{Deserialize, Serialize};
use service::{Changed, who_uses};
use std::collections::BTreeMap;
use uuid::Uuid;
use wire::CrewView;

/// An answer, and what exchanges changed in the notebook.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct CrewReply {
    /// The answer.
    pub answer: CrewAnswer,
    /// What changed, so that a screen redraws only that.
    pub changed: Vec<Changed>,
}

/// The answer to a request; the tag is the request's.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
#[serde(tag = "crew", rename_all = "snake_case")]
pub enum CrewAnswer {
    /// To `state`, `signal`, `exchange` and `stop`.
    State(Box<CrewState>),
    /// To `join`.
    Join,
    /// To `free_photo_space`.
    FreePhotoSpace,
    /// To `leave`.
    Leave,
    /// To `leave_here`.
    LeaveHere,
    /// To `moved_seen`.
    MovedSeen,
    /// To `show`.
    Show(CrewView),
    /// To `invite`.
    Invite(InvitationShown),
    /// To `withdraw`.
    Withdraw,
    /// To `remove_device`.
    RemoveDevice,
    /// To `set_role`.
    SetRole,
    /// To a file that was read.
    ReadFile {
        /// Changes in it.
        changes: u64,
        /// Of them new here.
        new: u64,
        /// Series of which nothing more was taken.
        left_alone: Vec<SeriesLeftAlone>,
    },
}

/// A series that was left as it is.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct SeriesLeftAlone {
    /// The device whose series it is.
    pub series: Uuid,
    /// Whether this device writes it.
    pub own: bool,
    /// Person who uses the device, where a walk says so.
    pub who: Option<String>,
    /// Why.
    pub why: LeftAlone,
}

impl SeriesLeftAlone {
    pub(super) fn list(
        series: &BTreeMap<Uuid, LeftAlone>,
        notebook: &Notebook,
    ) -> Result<Vec<Self>, Trouble> {
        series
            .iter()
            .map(|(series, why)| {
                Ok(Self {
                    series: *series,
                    own: *series == notebook.device(),
                    who: who_uses(notebook.db(), *series)?,
                    why: *why,
                })
            })
            .collect()
    }
}

/// Where this device stands.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct CrewState {
    /// Its crew, if it is in one.
    pub member: Option<Membership>,
    /// The last exchange that ended well.
    pub last: Option<LastExchange>,
    /// What the hub is not known to hold.
    pub waiting: Waiting,
    /// Series that the last exchange left as they are.
    pub left_alone: Vec<SeriesLeftAlone>,
    /// The series that this device wrote before its changes moved to another, if an
    /// exchange moved them, until `moved_seen`.
    pub moved: Option<Uuid>,
    /// Why they moved, where they did.
    pub moved_why: MovedWhy,
    /// The exchange that runs.
    pub running: Option<Running>,
    /// Why the last try did not end well.
    pub trouble: Option<CrewProblem>,
    /// When the next try is due, milliseconds since 1970; none where one waits for
    /// a change, the signal or a hand.
    pub next_at: Option<i64>,
    /// To be given as `since` next time.
    pub turn: u64,
}

/// What waits to be given.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct Waiting {
    /// Changes.
    pub changes: u64,
    /// Heads in them.
    pub heads: u64,
    /// Photos.
    pub photos: u64,
}

/// How far an exchange has come.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct Running {
    /// Changes given.
    pub sent: Step,
    /// Heads in them.
    pub heads_sent: Step,
    /// Changes fetched.
    pub received: Step,
    /// Photos given and fetched.
    pub photos: Step,
}

/// So many of so many.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct Step {
    /// Done.
    pub done: u64,
    /// Altogether.
    pub all: u64,
}

/// An invitation to be shown.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct InvitationShown {
    /// The invitation.
    #[serde(flatten)]
    pub invitation: Invitation,
    /// Its link as a QR code.
    pub qr: Qr,
}
