//! `headwalk crew`: this notebook in its crew, without a screen.

use std::fs::File;
use std::io::{self, BufReader, BufWriter, Write};
use std::ops::ControlFlow;
use std::path::PathBuf;

use clap::{Args, Subcommand, ValueEnum};
use exchange::crew::{Change, FileTokens, JoinLink, Names, Seat, qr_svg};
use exchange::http::Trust;
use exchange::photos::Photos;
use exchange::{Progress, Trouble};
use notebook::{Notebook, SystemClock, SystemRandomness};
use serde::Serialize;
use wire::Role;

use crate::failure::Failure;
use crate::place;

/// Joins a crew, exchanges with its hub or through files, and manages who is in it
#[derive(Args)]
pub struct Crew {
    /// The notebook, made if it is not there; your own where absent
    #[arg(long, value_name = "FILE", global = true)]
    notebook: Option<PathBuf>,
    #[command(subcommand)]
    work: Work,
}

#[derive(Subcommand)]
enum Work {
    /// Joins a crew with an invitation's link, or with its code and --hub
    Join(Join),
    /// Exchanges with the hub now
    Exchange,
    /// Prints where this notebook stands: crew, last exchange, what waits
    State,
    /// Prints the crew, its people and phones
    Show,
    /// Owner: makes an invitation
    Invite(Invite),
    /// Owner: takes back an invitation
    Withdraw {
        /// Its id
        invitation: uuid::Uuid,
    },
    /// Owner: removes a phone at once
    Remove {
        /// Its id
        phone: uuid::Uuid,
    },
    /// Owner: changes what a person may do
    Role {
        /// Their id
        person: uuid::Uuid,
        /// What they may do
        role: RoleWord,
    },
    /// Leaves the crew; the heads stay in the notebook
    Leave {
        /// Leaves without asking the hub, where it is lost; if it is not, it lists this
        /// device until an owner removes it
        #[arg(long)]
        here: bool,
    },
    /// Writes everything into a file for another phone of the crew
    Write {
        /// The file; it must not be there yet
        file: PathBuf,
    },
    /// Reads a file that another phone of the crew has written
    Read {
        /// The file
        file: PathBuf,
    },
}

#[derive(Args)]
struct Join {
    /// The link, or the code
    invitation: String,
    /// Address of the hub, where only the code is given
    #[arg(long, value_name = "URL")]
    hub: Option<String>,
    /// Your name
    #[arg(long)]
    name: String,
    /// Name of this device
    #[arg(long, default_value = "computer")]
    device: String,
    /// Name of the crew, where the code founds one
    #[arg(long, default_value = "Crew")]
    crew: String,
    /// Certificate of a hub that has its own, PEM
    #[arg(long, value_name = "FILE")]
    certificate: Option<PathBuf>,
}

#[derive(Args)]
struct Invite {
    /// What the new person may do
    #[arg(long, default_value = "scout")]
    role: RoleWord,
    /// A person already in the crew who gets another phone
    #[arg(long, value_name = "ID")]
    person: Option<uuid::Uuid>,
    /// How long it holds, minutes
    #[arg(long, default_value_t = 60)]
    minutes: u32,
    /// Also write it as a QR code into this SVG file
    #[arg(long, value_name = "FILE")]
    qr: Option<PathBuf>,
}

#[derive(Clone, Copy, ValueEnum)]
enum RoleWord {
    Reader,
    Scout,
    Owner,
}

impl From<RoleWord> for Role {
    fn from(word: RoleWord) -> Role {
        match word {
            RoleWord::Reader => Role::Reader,
            RoleWord::Scout => Role::Scout,
            RoleWord::Owner => Role::Owner,
        }
    }
}

impl Crew {
    pub fn run(self) -> Result<(), Failure> {
        let path = match self.notebook {
            Some(path) => path,
            None => place::own_notebook()?,
        };
        let mut notebook = Notebook::open(&path, Box::new(SystemClock), Box::new(SystemRandomness))
            .map_err(|error| Failure::from(error).in_file(&path))?;
        let tokens = FileTokens::beside(&path);
        let mut seat = Seat {
            notebook: &mut notebook,
            tokens: &tokens,
        };
        let seat = &mut seat;
        match self.work {
            Work::Join(call) => call.run(seat),
            Work::Exchange => exchange(seat),
            Work::State => print(&seat.state()?),
            Work::Show => print(&seat.view()?),
            Work::Invite(call) => call.run(seat),
            Work::Withdraw { invitation } => change(seat, Change::Withdraw(invitation)),
            Work::Remove { phone } => change(seat, Change::Remove(phone)),
            Work::Role { person, role } => change(seat, Change::Role(person, role.into())),
            Work::Leave { here: false } => Ok(seat.leave()?),
            Work::Leave { here: true } => Ok(seat.leave_here()?),
            Work::Write { file } => {
                let target =
                    File::create_new(&file).map_err(|error| Failure::from(error).in_file(&file))?;
                let changes = seat
                    .write_file(&mut BufWriter::new(target))
                    .map_err(|trouble| Failure::from(trouble).in_file(&file))?;
                say(&format!("{changes} changes written"))
            }
            Work::Read { file } => {
                let mut source = BufReader::new(place::source(&file)?);
                let taken = seat
                    .read_file(&mut source)
                    .map_err(|trouble| Failure::from(trouble).in_file(&file))?;
                let mut said = format!("{} of {} changes are new", taken.new, taken.changes);
                for series in taken.left_alone.keys() {
                    said.push_str(&format!(
                        "; changes of device {series} were left out: it did not sign them"
                    ));
                }
                say(&said)
            }
        }
    }
}

impl Join {
    fn run(self, seat: &mut Seat) -> Result<(), Failure> {
        let link = JoinLink::read(&self.invitation, self.hub.as_deref())
            .map_err(|trouble| Failure::call(trouble.to_string()))?;
        let trust = match self.certificate {
            None => Trust::Public,
            Some(path) => Trust::Only(
                std::fs::read_to_string(&path)
                    .map_err(|error| Failure::from(error).in_file(&path))?,
            ),
        };
        let names = Names {
            person: self.name,
            device: self.device,
            crew: self.crew,
        };
        print(&seat.join(&link, &trust, &names)?)
    }
}

impl Invite {
    fn run(self, seat: &mut Seat) -> Result<(), Failure> {
        let invitation = seat.invite(self.person, self.role.into(), self.minutes)?;
        if let Some(path) = self.qr {
            std::fs::write(&path, qr_svg(&invitation.link)?)
                .map_err(|error| Failure::from(error).in_file(&path))?;
        }
        print(&invitation)
    }
}

fn exchange(seat: &mut Seat) -> Result<(), Failure> {
    let mut report = |now: Progress| {
        let _ = writeln!(
            io::stderr(),
            "sent {} of {}, received {} of {}",
            now.sent,
            now.to_send,
            now.received,
            now.to_receive
        );
        ControlFlow::Continue(())
    };
    seat.exchange(&mut report)?;
    let mut report = |now: Photos| {
        let _ = writeln!(io::stderr(), "photos: {} of {}", now.done(), now.all());
        ControlFlow::Continue(())
    };
    seat.exchange_photos(&|| {}, &mut report)?;
    print(&seat.state()?)
}

fn change(seat: &mut Seat, what: Change) -> Result<(), Failure> {
    Ok(seat.change(what)?)
}

fn say(line: &str) -> Result<(), Failure> {
    writeln!(io::stdout(), "{line}")?;
    Ok(())
}

fn print(value: &impl Serialize) -> Result<(), Failure> {
    say(&serde_json::to_string(value)?)
}

impl From<Trouble> for Failure {
    fn from(trouble: Trouble) -> Failure {
        Failure::work(trouble.to_string())
    }
}
