//! Notebooks of scouts, for the stories.

use crate::hub_here::{HubHere, Phone};
use chrono::{DateTime, FixedOffset};
use exchange::meet::{Met, Progress, Way, meet};
use exchange::wire::{Answer, Ask};
use exchange::{PageSize, Trouble};
use notebook::service::{Answer as Told, Request, Service};
use notebook::{Clock, Notebook, SystemRandomness};
use std::fmt::Write as _;
use std::ops::ControlFlow;
use std::path::Path;

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
        .call(Request::ImportHeadFile {
            text: text.to_owned(),
        })
        .unwrap();
    let Told::ImportHeadFile(review) = reply.answer else {
        panic!("another answer");
    };
    assert_eq!(review.refused, 0);
    service.into_notebook()
}

/// Exchanges over HTTP.
pub fn exchange(here: &HubHere, notebook: &mut Notebook, phone: &Phone) -> Result<Met, Trouble> {
    let mut way = here.way(Some(phone.token.clone()));
    meet(notebook, &mut way, PageSize::default(), &mut |_| {
        ControlFlow::Continue(())
    })
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
