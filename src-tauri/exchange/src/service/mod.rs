//! The crew as every face calls it: requests in, answers out, and an exchange
//! that runs beside them.
//!
//! Faces hold one [`CrewService`] beside the notebook's own service. It has its
//! own connections to the notebook, so a tap never waits for the network; and it
//! waits for the taps (see [`CrewService::at_work`]).

mod answer;
mod gate;
mod problem;
mod request;
mod runner;
mod schedule;
mod watched;
#[cfg(feature = "ts")]
pub mod wire_types;

pub use answer::{
    CrewAnswer, CrewReply, CrewState, InvitationShown, Running, SeriesLeftAlone, Step, Waiting,
};
pub use gate::AtWork;
pub use problem::{CrewProblem, CrewProblemCode};
pub use request::CrewRequest;

use crate::crew::{Change, FileTokens, JoinLink, Names, Seat, Tokens, qr};
use crate::http::Trust;
use crate::trouble::Trouble;
use chrono::NaiveDate;
use notebook::{Notebook, StoreError};
use runner::Shared;
use service::{Changed, Reply};
use std::io::{Read, Write};
use std::path::Path;
use std::sync::Arc;
use std::thread::JoinHandle;
use std::time::{Duration, Instant};

/// Opens a further connection to the notebook.
pub type Opener = Box<dyn Fn() -> Result<Notebook, StoreError> + Send + Sync>;

/// The crew, for one notebook. Dropped, it stops its exchange.
pub struct CrewService {
    shared: Arc<Shared>,
    thread: JoinHandle<()>,
}

/// Time that an exchange has to end once it is asked to.
const ENDING: Duration = Duration::from_secs(3);

impl CrewService {
    /// Starts the exchange's thread, which sleeps until there is something to do.
    ///
    /// # Errors
    /// When the system gives no thread.
    pub fn start(open: Opener, tokens: Box<dyn Tokens>) -> std::io::Result<Self> {
        let shared = Arc::new(Shared::new(open, tokens));
        let of_thread = Arc::clone(&shared);
        let thread = std::thread::Builder::new()
            .name("exchange".into())
            .spawn(move || runner::run(&of_thread))?;
        Ok(Self { shared, thread })
    }

    /// For the notebook file at `path`, with its secret kept beside it. `today`
    /// stands for the clock's date where it is given.
    ///
    /// # Errors
    /// As [`CrewService::start`].
    pub fn open(path: &Path, today: Option<NaiveDate>) -> std::io::Result<Self> {
        let tokens = Box::new(FileTokens::beside(path));
        let path = path.to_owned();
        Self::start(Box::new(move || Notebook::open_here(&path, today)), tokens)
    }

    /// Carries out a request of the notebook's own service. For a tap the exchange
    /// stands back meanwhile; and it hears where there is something new to give.
    ///
    /// # Errors
    /// Those of the work.
    pub fn beside<A, E>(
        &self,
        tap: bool,
        work: impl FnOnce() -> Result<Reply<A>, E>,
    ) -> Result<Reply<A>, E> {
        let at_work = tap.then(|| self.at_work());
        let reply = work()?;
        drop(at_work);
        if !reply.changed.is_empty() {
            self.notebook_changed();
        }
        Ok(reply)
    }

    /// Held while the notebook is worked on: the exchange stores nothing meanwhile.
    pub fn at_work(&self) -> AtWork<'_> {
        self.shared.gate.enter()
    }

    /// Ends the exchange; what was exchanged is kept. Waits a moment until the
    /// exchange has let go of the notebook; a hub that does not answer may keep it.
    pub fn close(&self) {
        self.shared.end();
        let began = Instant::now();
        while !self.thread.is_finished() && began.elapsed() < ENDING {
            std::thread::sleep(Duration::from_millis(5));
        }
    }

    /// The notebook was changed here: there is something to give.
    pub fn notebook_changed(&self) {
        self.shared.tell(|told| {
            let now = runner::now_ms();
            told.first_change.get_or_insert(now);
            told.last_change = Some(now);
        });
    }

    /// Carries out a request. Those that ask the hub wait for it: not for a thread
    /// that draws a screen.
    ///
    /// # Errors
    /// A [`CrewProblem`]; what was stored before stays.
    pub fn call(&self, request: CrewRequest) -> Result<CrewReply, CrewProblem> {
        let answer = match request {
            CrewRequest::State { since } => return self.state(since),
            CrewRequest::Signal { online } => {
                self.shared
                    .tell(|told| told.signal(online, runner::now_ms()));
                return self.state(None);
            }
            CrewRequest::Exchange => {
                self.seated(|seat| seat.crew())?;
                self.shared.ask();
                return self.state(None);
            }
            CrewRequest::Stop => {
                self.shared.stop();
                return self.state(None);
            }
            CrewRequest::Join {
                invitation,
                hub,
                person,
                device,
                crew_name,
                certificate,
            } => {
                let link = JoinLink::read(&invitation, hub.as_deref())?;
                let names = Names {
                    person: named("your name", &person)?,
                    device: named("the name of this device", &device)?,
                    crew: named("the name of the crew", &crew_name)?,
                };
                let trust = certificate.map_or(Trust::Public, Trust::Only);
                self.seated(|seat| seat.join(&link, &trust, &names))?;
                self.shared.begin_anew();
                CrewAnswer::Join
            }
            CrewRequest::FreePhotoSpace => {
                self.seated(|seat| seat.free_photos())?;
                return Ok(CrewReply {
                    answer: CrewAnswer::FreePhotoSpace,
                    changed: vec![Changed::Photos],
                });
            }
            CrewRequest::Leave => {
                self.seated(|seat| seat.leave())?;
                self.shared.begin_anew();
                CrewAnswer::Leave
            }
            CrewRequest::LeaveHere => {
                self.seated(|seat| seat.leave_here())?;
                self.shared.begin_anew();
                CrewAnswer::LeaveHere
            }
            CrewRequest::MovedSeen => {
                self.seated(|seat| seat.moved_seen())?;
                CrewAnswer::MovedSeen
            }
            CrewRequest::Show => CrewAnswer::Show(self.seated(|seat| seat.view())?),
            CrewRequest::Invite {
                person,
                role,
                minutes,
            } => {
                let invitation = self.seated(|seat| seat.invite(person, role, minutes))?;
                let qr = qr(&invitation.link)?;
                CrewAnswer::Invite(InvitationShown { invitation, qr })
            }
            CrewRequest::Withdraw { invitation } => {
                self.seated(|seat| seat.change(Change::Withdraw(invitation)))?;
                CrewAnswer::Withdraw
            }
            CrewRequest::RemoveDevice { device } => {
                self.seated(|seat| seat.change(Change::Remove(device)))?;
                CrewAnswer::RemoveDevice
            }
            CrewRequest::SetRole { person, role } => {
                self.seated(|seat| seat.change(Change::Role(person, role)))?;
                CrewAnswer::SetRole
            }
        };
        Ok(CrewReply {
            answer,
            changed: Vec::new(),
        })
    }

    /// Writes everything for another phone of the crew.
    ///
    /// # Errors
    /// A [`CrewProblem`].
    pub fn write_file(&self, to: &mut dyn Write) -> Result<u64, CrewProblem> {
        self.seated(|seat| seat.write_file(to))
    }

    /// Takes in a file of another phone of the crew.
    ///
    /// # Errors
    /// A [`CrewProblem`]; every whole page before a cut is kept.
    pub fn read_file(&self, from: &mut dyn Read) -> Result<CrewReply, CrewProblem> {
        let (taken, left_alone, changed) = self.shared.take_in_file(from)?;
        Ok(CrewReply {
            answer: CrewAnswer::ReadFile {
                changes: taken.changes,
                new: taken.new,
                left_alone,
            },
            changed,
        })
    }

    fn state(&self, since: Option<u64>) -> Result<CrewReply, CrewProblem> {
        let (state, changed) = self.shared.state(since)?;
        Ok(CrewReply {
            answer: CrewAnswer::State(Box::new(state)),
            changed,
        })
    }

    fn seated<T>(
        &self,
        work: impl FnOnce(&mut Seat) -> Result<T, Trouble>,
    ) -> Result<T, CrewProblem> {
        let mut notebook = (self.shared.open)().map_err(Trouble::from)?;
        let mut seat = Seat {
            notebook: &mut notebook,
            tokens: self.shared.tokens.as_ref(),
        };
        Ok(work(&mut seat)?)
    }
}

impl Drop for CrewService {
    fn drop(&mut self) {
        self.shared.end();
    }
}

fn named(what: &str, name: &str) -> Result<String, Trouble> {
    let name = name.trim();
    let fits = (1..=wire::NAME_CHARS).contains(&name.chars().count());
    if fits && !name.chars().any(char::is_control) {
        Ok(name.to_owned())
    } else {
        Err(Trouble::BadAddress(format!(
            "{what} is empty or longer than {} characters: type it again",
            wire::NAME_CHARS
        )))
    }
}
