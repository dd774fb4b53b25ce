//! The crew as one phone sees it: joining, exchanging, and who is in it.
//!
//! Everything works on the phone's notebook, which also keeps the membership;
//! its secret is kept apart ([`Tokens`]).
//! An exchange takes as long as the signal allows: give it a connection of its
//! own ([`notebook::Notebook::open`] once more), so that heads can be read meanwhile.

mod leaving;
mod link;
mod membership;
mod removals;
mod tokens;

pub use link::{JoinLink, Qr, qr, qr_svg};
pub(crate) use membership::heads_in;
pub use membership::{LastExchange, Membership, State};
pub use tokens::{FileTokens, Secret, Tokens};

use crate::file::{self, Taken};
use crate::http::{HttpWay, Trust};
use crate::meet::{Met, Progress, Way, meet, settle_key};
use crate::photos::{self, Photos};
use crate::trouble::{PageSize, Trouble};
use membership::{Joining, Kept};
use notebook::Notebook;
use serde::{Deserialize, Serialize};
use std::io::{Read, Write};
use std::ops::ControlFlow;
use uuid::Uuid;
use wire::code::{self, Token};
use wire::seal::Signer;
use wire::{Answer, Ask, CrewView, Heads, Role};

/// A notebook's seat in a crew: the notebook, and where its secret is kept.
pub struct Seat<'a> {
    /// The notebook.
    pub notebook: &'a mut Notebook,
    /// Where the secret is kept.
    pub tokens: &'a dyn Tokens,
}

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
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
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

impl Seat<'_> {
    fn kept(&mut self) -> Result<Kept, Trouble> {
        Kept::read(self.notebook, self.tokens)
    }

    /// Where this phone stands: its crew, the last exchange, and what waits.
    ///
    /// # Errors
    /// When the notebook fails.
    pub fn state(&mut self) -> Result<State, Trouble> {
        let kept = self.kept()?;
        State::of(&kept, self.notebook)
    }

    /// Joins a crew. If the answer was lost, joining again with the same code goes
    /// on where it stopped.
    ///
    /// # Errors
    /// See [`Trouble`]; when this phone is in a crew already, it must leave first, unless
    /// that crew's hub does not know it any more.
    pub fn join(
        &mut self,
        link: &JoinLink,
        trust: &Trust,
        names: &Names,
    ) -> Result<Membership, Trouble> {
        if self.kept()?.member.is_some() {
            self.leave_if_unknown()?;
        }
        let mut kept = self.kept()?;
        if let (Some(member), Some(handle)) = (&kept.member, kept.handle) {
            // A notebook that came from another device has no secret here, and
            // may join anew.
            if self.tokens.read(handle)?.is_some() {
                return Err(Trouble::InCrew(member.crew_name.clone()));
            }
        }
        let begun = match &kept.joining {
            Some(joining) if joining.code == link.code => self
                .tokens
                .read(joining.handle)?
                .map(|secret| (joining.handle, secret)),
            _ => None,
        };
        let (handle, secret) = match begun {
            Some(begun) => begun,
            None => {
                let now_ms = self.notebook.clock().now().timestamp_millis();
                (code::new_id(now_ms)?, code::random()?)
            }
        };
        // Kept before it is asked: a secret that the hub knows must not be lost.
        self.tokens.keep(handle, &secret)?;
        kept.joining = Some(Joining::new(link.code.clone(), handle));
        kept.write(self.notebook)?;
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
            member: Some(member.clone()),
            handle: Some(handle),
            trust: match trust {
                Trust::Public => None,
                Trust::Only(pem) => Some(pem.clone()),
            },
            ..Kept::default()
        };
        kept.write(self.notebook)?;
        // The hub learns the key at once where it can; the first exchange tells it again.
        let mut way = self.way()?;
        settle_key(self.notebook)?;
        let greet = Ask::Greet {
            mine: Vec::new().into(),
            key: self.notebook.key(),
            own: self.notebook.device(),
        };
        // Whatever comes of it, this phone has joined.
        let _ = way.ask(&greet);
        Ok(member)
    }

    /// Gives the notebook the key with which this device seals, drawn once for each
    /// membership.
    fn take_up_key(&mut self, handle: Uuid) -> Result<(), Trouble> {
        let secret = match self.tokens.read_key(handle)? {
            Some(secret) => secret,
            None => {
                let secret =
                    code::random().map_err(|error| Trouble::Notebook(error.to_string()))?;
                self.tokens.keep_key(handle, &secret)?;
                secret
            }
        };
        self.notebook.sign_with(Signer::from_secret(&secret));
        Ok(())
    }

    /// Exchanges with the hub now. `report` hears of every stored page and may stop.
    ///
    /// # Errors
    /// See [`Trouble`]. When this phone was removed from the crew, it has forgotten
    /// its token.
    pub fn exchange(
        &mut self,
        report: &mut dyn FnMut(Progress) -> ControlFlow<()>,
    ) -> Result<Met, Trouble> {
        let mut way = self.way()?;
        let met = meet(self.notebook, &mut way, PageSize::default(), report);
        self.note(met)
    }

    /// The way to this phone's hub. The notebook has this device's key from then on.
    ///
    /// # Errors
    /// When this phone is in no crew, or its secret is not on this device.
    pub fn way(&mut self) -> Result<HttpWay, Trouble> {
        let kept = self.kept()?;
        let (Some(member), Some(handle)) = (&kept.member, kept.handle) else {
            return Err(Trouble::NoCrew);
        };
        let secret = self.tokens.read(handle)?.ok_or(Trouble::NoToken)?;
        self.take_up_key(handle)?;
        let token = Token {
            device: member.device,
            secret,
        };
        let trust = kept.trust.clone().map_or(Trust::Public, Trust::Only);
        HttpWay::new(&member.address, &trust, Some(token))
    }

    /// Keeps what came of an exchange.
    ///
    /// # Errors
    /// That of the exchange, or when the notebook fails.
    pub fn note(&mut self, met: Result<Met, Trouble>) -> Result<Met, Trouble> {
        let met = self.forget_if_removed(met)?;
        // Read anew: the phone may have left the crew meanwhile.
        let mut kept = self.kept()?;
        let Some(member) = &mut kept.member else {
            return Ok(met);
        };
        member.role = met.role;
        if kept.was_set_back(&met.found) {
            kept.photos_asked = None;
        }
        kept.hub = met.hub.clone();
        kept.left_alone = met.left_alone.clone();
        if let Some(moved) = met.moved.last() {
            (kept.moved, kept.moved_why) = (Some(moved.series), moved.why);
        }
        let now = self.notebook.clock().now().timestamp_millis();
        if met.full.is_none() {
            kept.last = Some(LastExchange {
                at: now,
                sent: met.progress.sent,
                received: met.progress.received,
            });
        }
        kept.write(self.notebook)?;
        if met.role == Role::Owner {
            let held = self.hold_removals();
            // Of other trouble the next exchange makes good: this one went well.
            if held == Err(Trouble::Removed) {
                return Err(Trouble::Removed);
            }
        }
        match met.full {
            Some(full) => Err(Trouble::Full(full)),
            None => Ok(met),
        }
    }

    /// Sends and fetches photos, after an exchange. `quiet` waits until nobody is at
    /// work on the notebook.
    ///
    /// # Errors
    /// See [`Trouble`]; what was stored before stays.
    pub fn exchange_photos(
        &mut self,
        quiet: &dyn Fn(),
        report: &mut dyn FnMut(Photos) -> ControlFlow<()>,
    ) -> Result<Photos, Trouble> {
        let kept = self.kept()?;
        let role = kept.member.as_ref().ok_or(Trouble::NoCrew)?.role;
        let mut way = self.way()?;
        let now = self.notebook.clock().now().timestamp_millis();
        if role >= Role::Scout && kept.photos_due(now) {
            let looked = photos::look_again(self.notebook, &mut way);
            self.forget_if_removed(looked)?;
            // Read anew: the phone may have left the crew meanwhile.
            let mut kept = self.kept()?;
            if kept.member.is_some() {
                kept.photos_asked = Some(now);
                kept.write(self.notebook)?;
            }
        }
        let done = photos::exchange(self.notebook, &mut way, role, quiet, report);
        self.forget_if_removed(done)
    }

    /// Frees the room of photos: of those that the hub, asked now, says it holds.
    ///
    /// # Errors
    /// See [`Trouble`]; without signal every photo stays.
    pub fn free_photos(&mut self) -> Result<(), Trouble> {
        match self.way() {
            Ok(mut way) => {
                let freed = photos::free(self.notebook, Some(&mut way));
                self.forget_if_removed(freed)
            }
            Err(Trouble::NoCrew) => photos::free(self.notebook, None),
            Err(trouble) => Err(trouble),
        }
    }

    /// The crew, its people and phones.
    ///
    /// # Errors
    /// See [`Trouble`].
    pub fn view(&mut self) -> Result<CrewView, Trouble> {
        match self.ask(&Ask::Crew)? {
            Answer::Crew(crew) => Ok(crew),
            _ => Err(Trouble::Nonsense),
        }
    }

    /// Owner: invites a new person, or a further phone of a known one.
    ///
    /// # Errors
    /// See [`Trouble`].
    pub fn invite(
        &mut self,
        person: Option<Uuid>,
        role: Role,
        minutes: u32,
    ) -> Result<Invitation, Trouble> {
        let invite = Ask::Invite {
            person,
            role,
            minutes,
        };
        let Answer::Invited(invited) = self.ask(&invite)? else {
            return Err(Trouble::Nonsense);
        };
        let member = self.kept()?.member.ok_or(Trouble::NoCrew)?;
        let link = JoinLink {
            address: member.address,
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
    pub fn change(&mut self, what: Change) -> Result<(), Trouble> {
        let question = match what {
            Change::Withdraw(invitation) => Ask::Withdraw { invitation },
            Change::Remove(device) => Ask::RemoveDevice { device },
            Change::Role(person, role) => Ask::SetRole { person, role },
        };
        match (self.ask(&question)?, what) {
            (Answer::Done, Change::Remove(device)) => self.remember_removed(device),
            (Answer::Done, _) => Ok(()),
            _ => Err(Trouble::Nonsense),
        }
    }

    /// Writes everything for another phone of the crew into a file.
    ///
    /// # Errors
    /// See [`Trouble`].
    pub fn write_file(&mut self, to: &mut dyn Write) -> Result<u64, Trouble> {
        let crew = self.crew()?;
        if let Some(handle) = self.kept()?.handle
            && self.tokens.read(handle)?.is_some()
        {
            self.take_up_key(handle)?;
        }
        file::write(self.notebook, crew, &Heads::new(), to)
    }

    /// Reads a file of another phone of the crew.
    ///
    /// # Errors
    /// See [`Trouble`]; every whole page before a cut is kept.
    pub fn read_file(&mut self, from: &mut dyn Read) -> Result<Taken, Trouble> {
        let crew = self.crew()?;
        file::read(self.notebook, crew, from)
    }

    /// Notes that somebody has seen that this phone's changes moved.
    ///
    /// # Errors
    /// When the notebook fails.
    pub fn moved_seen(&mut self) -> Result<(), Trouble> {
        let mut kept = self.kept()?;
        if kept.moved.take().is_some() {
            kept.write(self.notebook)?;
        }
        Ok(())
    }

    /// The crew that this phone is in.
    ///
    /// # Errors
    /// When it is in none.
    pub fn crew(&mut self) -> Result<Uuid, Trouble> {
        Ok(self.kept()?.member.ok_or(Trouble::NoCrew)?.crew)
    }

    fn ask(&mut self, question: &Ask) -> Result<Answer, Trouble> {
        let answer = self.way()?.ask(question);
        match self.forget_if_removed(answer)? {
            Answer::Refused(refusal) => self.forget_if_removed(Err(refusal.into())),
            answer => Ok(answer),
        }
    }

    /// A removed phone is told so, and wipes its token at once.
    fn forget_if_removed<T>(&mut self, outcome: Result<T, Trouble>) -> Result<T, Trouble> {
        if matches!(outcome, Err(Trouble::Removed)) {
            let mut kept = self.kept()?;
            kept.forget(self.notebook, self.tokens)?;
        }
        outcome
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
