//! What a face may ask of the crew.

use serde::{Deserialize, Serialize};
use uuid::Uuid;
use wire::Role;

/// One request. The tag is `crew`, so that a face can send it by the same way as
/// a request to the notebook, whose tag is `op`.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS), ts(optional_fields = nullable))]
#[serde(tag = "crew", rename_all = "snake_case")]
pub enum CrewRequest {
    /// Where this device stands; the reply lists what exchanges changed since then.
    /// Asked while somebody looks at a screen: as long as this is asked, the hub is
    /// looked at now and then.
    State {
        /// The turn of the state before.
        since: Option<u64>,
    },
    /// The platform says that there is a network now, or none.
    Signal {
        /// Whether there is.
        online: bool,
    },
    /// Exchanges now.
    Exchange,
    /// Stops the exchange that runs; what was exchanged is kept.
    Stop,
    /// Joins a crew.
    Join {
        /// The link, or the code alone.
        invitation: String,
        /// Address of the hub, where only the code is given.
        hub: Option<String>,
        /// Name of the person.
        person: String,
        /// Name of this device.
        device: String,
        /// Name of the crew, where the code founds one.
        crew_name: String,
        /// Certificate of a hub that has its own, PEM.
        certificate: Option<String>,
    },
    /// Frees the room of photos that the hub says it holds, asked now.
    FreePhotoSpace,
    /// Leaves the crew; the heads stay.
    Leave,
    /// Leaves the crew without asking its hub, which may be lost; the heads stay.
    LeaveHere,
    /// Somebody has seen that this device's own changes moved to another series.
    MovedSeen,
    /// The crew, its people and devices.
    Show,
    /// Owner: makes an invitation.
    Invite {
        /// A person already there who gets another device.
        person: Option<Uuid>,
        /// What a new person may do.
        role: Role,
        /// How long it holds.
        minutes: u32,
    },
    /// Owner: takes back an invitation.
    Withdraw {
        /// Id of the invitation.
        invitation: Uuid,
    },
    /// Owner: removes a device at once.
    RemoveDevice {
        /// Id of the device.
        device: Uuid,
    },
    /// Owner: changes what a person may do.
    SetRole {
        /// Id of the person.
        person: Uuid,
        /// The new role.
        role: Role,
    },
}
