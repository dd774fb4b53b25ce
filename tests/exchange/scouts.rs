//! Notebooks of scouts, for the stories.

use crate::hub_here::{HubHere, Phone};
use chrono::{DateTime, FixedOffset};
use exchange::meet::{Met, Progress, Way, meet};
use exchange::{PageSize, Trouble};
use notebook::fact::Act;
use notebook::log::{Change, Hlc};
use notebook::{Clock, Notebook, SystemRandomness};
use service::{Service, ask};
use sha2::{Digest as _, Sha256};
use std::fmt::Write as _;
use std::ops::ControlFlow;
use std::path::Path;
use uuid::Uuid;
use wire::seal::Signer;
use wire::{Answer, Ask, frame};

/// 2026-08-20, 15:00 UTC.
struct Afternoon;

impl Clock for Afternoon {
    fn now(&self) -> DateTime<FixedOffset> {
        DateTime::from_timestamp(1_787_238_000, 0)
            .unwrap()
            .fixed_offset()
    }
}

pub fn open(path: &Path) -> Notebook {
    Notebook::open(path, Box::new(Afternoon), Box::new(SystemRandomness)).unwrap()
}

pub fn in_memory() -> Notebook {
    Notebook::in_memory(Box::new(Afternoon), Box::new(SystemRandomness)).unwrap()
}

/// A head file of so many heads at stops of five.
pub fn head_file(planting: &str, scout: &str, heads: usize) -> String {
    let mut text = String::from("planting,walked_on,stop,reading,share,scout\n");
    for head in 0..heads {
        writeln!(
            text,
            "{planting},2026-08-20,{},{},{},{scout}",
            head / 5 + 1,
            ["liquid", "pliable", "dented"][head % 3],
            (head * 37) % 100 + 1,
        )
        .unwrap();
    }
    text
}

/// Stores heads as an import does.
pub fn record(notebook: Notebook, text: &str) -> Notebook {
    let mut service = Service::new(notebook).unwrap();
    let reply = service
        .call(ask::ImportHeadFile {
            text: text.to_owned(),
        })
        .unwrap();
    assert_eq!(reply.answer.refused, 0);
    service.into_notebook()
}

/// The key that a phone under test seals with.
pub fn signer(phone: &Phone) -> Signer {
    Signer::from_secret(&wire::code::hash(&phone.token.secret))
}

/// Exchanges over HTTP.
pub fn exchange(here: &HubHere, notebook: &mut Notebook, phone: &Phone) -> Result<Met, Trouble> {
    let mut way = here.way(Some(phone.token.clone()));
    notebook.sign_with(signer(phone));
    meet(notebook, &mut way, PageSize::default(), &mut |_| {
        ControlFlow::Continue(())
    })
}

/// A notebook with so many heads, each tapped on its own, 5 to a stop and 50 to a walk.
pub fn tapped(heads: u64) -> Notebook {
    let mut notebook = in_memory();
    let device = notebook.device();
    let changes: Vec<Change> = (1..=heads).map(|seq| tapped_head(device, seq)).collect();
    for page in changes.chunks(1_000) {
        notebook.ingest(page).unwrap();
    }
    notebook
}

/// A change as the service makes it of one tap: ids random but for their instant.
fn tapped_head(device: Uuid, seq: u64) -> Change {
    let ms = 1_787_238_000_000 + 9_137 * seq;
    let id = |what: &str, number: u64| {
        let digest = Sha256::digest(format!("{what} {number}"));
        let random: [u8; 10] = std::array::from_fn(|place| digest[place]);
        uuid::Builder::from_unix_timestamp_millis(ms, &random).into_uuid()
    };
    let (walk, stop) = (id("walk", seq / 50), id("stop", seq / 5));
    let reading = ["liquid", "pliable", "dented", "dark_spot"][(seq % 4) as usize];
    let share = seq * 37 % 100 + 1;
    Change {
        device,
        seq,
        hlc: Hlc::ZERO.next(ms.try_into().unwrap()),
        raw: None,
        recorded_ms: ms.try_into().unwrap(),
        offset_min: -300,
        kind: Act::HeadRead.name().to_owned(),
        body: format!(
            r#"{{"facts":[{{"fact":"heads","walk":"{walk}","stop":"{stop}","heads":[["{}","{reading}",{share}]]}}]}}"#,
            id("head", seq)
        ),
    }
}

/// A way that counts the bytes of what it carries.
pub struct CountedWay<W> {
    pub way: W,
    pub bytes: usize,
}

impl<W: Way> Way for CountedWay<W> {
    fn ask(&mut self, ask: &Ask) -> Result<Answer, Trouble> {
        self.bytes += frame::encode(ask).unwrap().len();
        let answer = self.way.ask(ask)?;
        self.bytes += frame::encode(&answer).unwrap().len();
        Ok(answer)
    }
}

/// A way that ends after so many questions, before or after the hub hears the last.
pub struct ShortWay<W> {
    pub way: W,
    pub questions: usize,
    pub hub_hears_the_last: bool,
}

impl<W: Way> Way for ShortWay<W> {
    fn ask(&mut self, ask: &Ask) -> Result<Answer, Trouble> {
        let gone = || Trouble::NoSignal("out of range".to_owned());
        if self.questions == 0 {
            if self.hub_hears_the_last {
                let _ = self.way.ask(ask);
            }
            return Err(gone());
        }
        self.questions -= 1;
        self.way.ask(ask)
    }
}

/// What was reported while exchanging.
pub fn watched(
    notebook: &mut Notebook,
    way: &mut dyn Way,
    size: PageSize,
) -> (Result<Met, Trouble>, Vec<Progress>) {
    let mut seen = Vec::new();
    let met = meet(notebook, way, size, &mut |progress| {
        seen.push(progress);
        ControlFlow::Continue(())
    });
    (met, seen)
}
