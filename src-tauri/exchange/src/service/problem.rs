//! What a face is told when the crew cannot do what it was asked.

use crate::trouble::Trouble;
use serde::{Deserialize, Serialize};

/// The kinds of trouble that screens have words for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum CrewProblemCode {
    /// The hub was not reached, or the way broke off; the normal state in a field.
    NoSignal,
    /// The hub's certificate is not trusted.
    NotTrusted,
    /// The code or the address is not (or no longer) good.
    NotLetIn,
    /// This device was removed from the crew, and has forgotten it.
    Removed,
    /// The role does not allow it.
    NotAllowed,
    /// The hub is busy or has trouble of its own; later it may go.
    HubBusy,
    /// There is no more room at the hub; everything stays on this device.
    HubFull,
    /// App and hub are of versions that do not know each other.
    HubVersion,
    /// A crew keeps an owner.
    LastOwner,
    /// The person, device or invitation is not there (any more).
    NotInCrew,
    /// What was typed cannot be a link, code, address or name.
    BadInvitation,
    /// The file is none, is cut or damaged.
    BadExchangeFile,
    /// The file is of another crew.
    OtherCrew,
    /// This device is in no crew.
    NoCrew,
    /// This device is in a crew already.
    InCrew,
    /// The notebook came from another device; its key stayed there.
    NoToken,
    /// The two sides hold different things under one number; nothing was lost.
    Parted,
    /// Stopped by hand.
    Stopped,
    /// The notebook failed.
    CrewFailed,
}

/// One clear line: what, where, what to do.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct CrewProblem {
    /// Kind of trouble.
    pub code: CrewProblemCode,
    /// What and where, in English, for the log.
    pub message: String,
}

/// The one place where trouble of an exchange gets its code.
impl From<Trouble> for CrewProblem {
    fn from(trouble: Trouble) -> Self {
        use CrewProblemCode as Code;
        let code = match &trouble {
            Trouble::NoSignal(_) | Trouble::Cut => Code::NoSignal,
            Trouble::NotTrusted(_) => Code::NotTrusted,
            Trouble::NotLetIn => Code::NotLetIn,
            Trouble::Removed => Code::Removed,
            Trouble::NotAllowed => Code::NotAllowed,
            Trouble::Slower(_) | Trouble::HubFault => Code::HubBusy,
            Trouble::Full(_) => Code::HubFull,
            Trouble::Version { .. } => Code::HubVersion,
            Trouble::LastOwner => Code::LastOwner,
            Trouble::Unknown => Code::NotInCrew,
            Trouble::BadAddress(_) => Code::BadInvitation,
            Trouble::File(_) => Code::BadExchangeFile,
            Trouble::OtherCrew => Code::OtherCrew,
            Trouble::NoCrew => Code::NoCrew,
            Trouble::InCrew(_) => Code::InCrew,
            Trouble::NoToken => Code::NoToken,
            Trouble::Forked(_) | Trouble::Refused(_) | Trouble::NotYours(_) | Trouble::Nonsense => {
                Code::Parted
            }
            Trouble::OtherKey => Code::NotLetIn,
            Trouble::Stopped => Code::Stopped,
            Trouble::Notebook(_) => Code::CrewFailed,
        };
        Self {
            code,
            message: trouble.to_string(),
        }
    }
}

impl std::fmt::Display for CrewProblem {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(&self.message)
    }
}
