//! The crew as one phone sees it: joining, exchanging, and who is in it.
//!
//! Everything works on the phone's notebook, which also keeps the membership.
//! An exchange takes as long as the signal allows: give it a connection of its
//! own ([`notebook::Notebook::open`] once more), so that heads can be read meanwhile.

mod link;
mod membership;

pub use link::{JoinLink, qr_svg};
pub use membership::{LastExchange, Membership, State};

use crate::code::{self, Token};
use crate::file::{self, Taken};
use crate::http::{HttpWay, Trust};
use crate::meet::{Met, Progress, Way, meet};
use crate::trouble::{PageSize, Trouble};
use crate::wire::{Answer, Ask, CrewView, Heads, Role};
use membership::{Joining, Kept};
use notebook::Notebook;
use serde::Serialize;
use std::io::{Read, Write};
use std::ops::ControlFlow;
use uuid::Uuid;

/// Who joins, and how they are called.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Names {
    /// The person.
    pub person: String,
    /// The phone.
    pub device: String,
    /// The crew, where the code founds one.
    pub crew: String,
}

/// An invitation to be shown.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Invitation {
    /// Its id, to take it back.
    pub id: Uuid,
    /// The code, in groups.
    pub code: String,
    /// Address and code in one, to be sent or shown as a QR code.
    pub link: String,
    /// Milliseconds since 1970 at which it ends.
    pub ends_at: i64,
}

/// Where this phone stands: its crew, the last exchange, and what waits.
///
/// # Errors
/// When the notebook fails.
pub fn state(notebook: &mut Notebook) -> Result<State, Trouble> {
    let kept = Kept::read(notebook)?;
    State::of(&kept, notebook)
}

/// Joins a crew. If the answer was lost, joining again with the same code goes on
/// where it stopped.
///
/// # Errors
/// See [`Trouble`]; when this phone is in a crew already, it must leave first.
pub fn join(
    notebook: &mut Notebook,
    link: &JoinLink,
    trust: &Trust,
    names: &Names,
) -> Result<Membership, Trouble> {
    let mut kept = Kept::read(notebook)?;
    if let Some(member) = &kept.member {
        return Err(Trouble::InCrew(member.crew_name.clone()));
    }
    let secret = match &kept.joining {
        Some(joining) if joining.code == link.code => joining.secret,
        _ => code::random().map_err(|error| Trouble::Notebook(error.to_string()))?,
    };
    // Kept before it is asked: a secret that the hub knows must not be lost.
    kept.joining = Some(Joining {
        code: link.code.clone(),
        secret,
    });
    kept.write(notebook)?;
    let ask = Ask::Join {
        code: link.code.clone(),
        token_hash: code::hash(&secret),
        person: names.person.clone(),
        device: names.device.clone(),
        crew: names.crew.clone(),
    };
    let Answer::Joined(joined) = HttpWay::new(&link.address, trust, None)?.ask(&ask)? else {
        return Err(Trouble::Nonsense);
    };
    let member = Membership {
        address: link.address.clone(),
        crew: joined.crew,
        crew_name: joined.crew_name,
        device: joined.device,
        person: joined.person,
        role: joined.role,
    };
    let kept = Kept {
        joining: None,
        member: Some(member.clone()),
        secret: Some(secret),
        trust: match trust {
            Trust::Public => None,
            Trust::Only(pem) => Some(pem.clone()),
        },
        last: None,
        hub: Heads::new(),
    };
    kept.write(notebook)?;
    Ok(member)
}

/// Exchanges with the hub now. `report` hears of every stored page and may stop.
///
/// # Errors
/// See [`Trouble`]. When this phone was removed from the crew, it has forgotten its token.
pub fn exchange(
    notebook: &mut Notebook,
    report: &mut dyn FnMut(Progress) -> ControlFlow<()>,
) -> Result<Met, Trouble> {
    let mut kept = Kept::read(notebook)?;
    let mut way = way(&kept)?;
    let met = meet(notebook, &mut way, PageSize::default(), report);
    let met = forget_if_removed(notebook, &mut kept, met)?;
    kept.hub = met.hub.clone();
    kept.last = Some(LastExchange {
        at: notebook.clock().now().timestamp_millis(),
        sent: met.progress.sent,
        received: met.progress.received,
    });
    if let Some(member) = &mut kept.member {
        member.role = met.role;
    }
    kept.write(notebook)?;
    Ok(met)
}

/// The crew, its people and phones.
///
/// # Errors
/// See [`Trouble`].
pub fn view(notebook: &mut Notebook) -> Result<CrewView, Trouble> {
    match ask(notebook, &Ask::Crew)? {
        Answer::Crew(crew) => Ok(crew),
        _ => Err(Trouble::Nonsense),
    }
}

/// Owner: invites a new person, or a further phone of a known one.
///
/// # Errors
/// See [`Trouble`].
pub fn invite(
    notebook: &mut Notebook,
    person: Option<Uuid>,
    role: Role,
    minutes: u32,
) -> Result<Invitation, Trouble> {
    let invite = Ask::Invite {
        person,
        role,
        minutes,
    };
    let Answer::Invited(invited) = ask(notebook, &invite)? else {
        return Err(Trouble::Nonsense);
    };
    let address = Kept::read(notebook)?
        .member
        .map(|member| member.address)
        .ok_or(Trouble::NoCrew)?;
    let link = JoinLink {
        address,
        code: invited.code,
    };
    Ok(Invitation {
        id: invited.invitation,
        code: code::spell(&link.code),
        link: link.to_text(),
        ends_at: invited.ends_at,
    })
}

/// Owner: takes back an invitation, removes a phone, or changes a role.
///
/// # Errors
/// See [`Trouble`].
pub fn change(notebook: &mut Notebook, what: Change) -> Result<(), Trouble> {
    let question = match what {
        Change::Withdraw(invitation) => Ask::Withdraw { invitation },
        Change::Remove(device) => Ask::RemoveDevice { device },
        Change::Role(person, role) => Ask::SetRole { person, role },
    };
    match ask(notebook, &question)? {
        Answer::Done => Ok(()),
        _ => Err(Trouble::Nonsense),
    }
}

/// What an owner changes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Change {
    /// Takes back this invitation.
    Withdraw(Uuid),
    /// Removes this phone at once.
    Remove(Uuid),
    /// Gives this person another role.
    Role(Uuid, Role),
}

/// Leaves the crew: the hub removes this phone, and the phone forgets its token.
/// The heads stay in the notebook.
///
/// # Errors
/// See [`Trouble`]; without signal the phone stays in the crew.
pub fn leave(notebook: &mut Notebook) -> Result<(), Trouble> {
    let mut kept = Kept::read(notebook)?;
    let member = kept.member.clone().ok_or(Trouble::NoCrew)?;
    let remove = Ask::RemoveDevice {
        device: member.device,
    };
    match ask(notebook, &remove) {
        Ok(Answer::Done) | Err(Trouble::Removed) => kept.forget(notebook),
        Ok(_) => Err(Trouble::Nonsense),
        Err(trouble) => Err(trouble),
    }
}

/// Writes everything for another phone of the crew into a file.
///
/// # Errors
/// See [`Trouble`].
pub fn write_file(notebook: &mut Notebook, to: &mut dyn Write) -> Result<u64, Trouble> {
    let crew = crew_of(notebook)?;
    file::write(notebook, crew, &Heads::new(), to)
}

/// Reads a file of another phone of the crew.
///
/// # Errors
/// See [`Trouble`]; every whole page before a cut is kept.
pub fn read_file(notebook: &mut Notebook, from: &mut dyn Read) -> Result<Taken, Trouble> {
    let crew = crew_of(notebook)?;
    file::read(notebook, crew, from)
}

fn crew_of(notebook: &Notebook) -> Result<Uuid, Trouble> {
    let member = Kept::read(notebook)?.member.ok_or(Trouble::NoCrew)?;
    Ok(member.crew)
}

fn ask(notebook: &mut Notebook, question: &Ask) -> Result<Answer, Trouble> {
    let mut kept = Kept::read(notebook)?;
    let answer = way(&kept)?.ask(question);
    let answer = forget_if_removed(notebook, &mut kept, answer)?;
    match answer {
        Answer::Refused(refusal) => forget_if_removed(notebook, &mut kept, Err(refusal.into())),
        answer => Ok(answer),
    }
}

fn way(kept: &Kept) -> Result<HttpWay, Trouble> {
    let (Some(member), Some(secret)) = (&kept.member, kept.secret) else {
        return Err(Trouble::NoCrew);
    };
    let token = Token {
        device: member.device,
        secret,
    };
    let trust = kept.trust.clone().map_or(Trust::Public, Trust::Only);
    HttpWay::new(&member.address, &trust, Some(token))
}

/// A removed phone is told so, and wipes its token at once.
fn forget_if_removed<T>(
    notebook: &mut Notebook,
    kept: &mut Kept,
    outcome: Result<T, Trouble>,
) -> Result<T, Trouble> {
    if matches!(outcome, Err(Trouble::Removed)) {
        kept.forget(notebook)?;
    }
    outcome
}
