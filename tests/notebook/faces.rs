//! Asking the service as a screen would.

use chrono::NaiveDate;
use headwalk_tests::devices::{SetClock, service_in_memory};
use ripening::{Head, Reading, Share};
use service::{
    AskService, HeadSaved, NewHead, NewPlanting, PlantingDetails, PlantingRow, Problem, Reply,
    Service, WalkPage, ask,
};
use std::fmt::Debug;
use uuid::Uuid;

/// Noon of a day in the season.
pub const NOON: &str = "2026-08-20T12:00:00-05:00";

/// A service on an empty notebook, and its clock.
pub fn service() -> (Service, SetClock) {
    let clock = SetClock::at(NOON).unwrap();
    (service_in_memory(&clock, 1).unwrap(), clock)
}

/// A planting of this name and nothing else.
pub fn named(name: &str) -> NewPlanting {
    NewPlanting {
        id: None,
        name: name.to_owned(),
        details: PlantingDetails {
            planted_on: NaiveDate::from_ymd_opt(2026, 5, 20),
            ..PlantingDetails::default()
        },
    }
}

/// A head.
pub fn head(reading: Reading, share: u8) -> NewHead {
    NewHead {
        head: Head::new(reading, Some(Share::new(share).unwrap())).unwrap(),
        flags: vec![],
        note: None,
    }
}

/// Calls that must succeed.
pub trait Face {
    fn ask<A: AskService + Debug>(&mut self, ask: A) -> Reply<A::Answer>;
    fn refuse<A: AskService>(&mut self, ask: A) -> Problem;
    fn plant(&mut self, new: NewPlanting) -> PlantingRow;
    fn rows(&mut self) -> Vec<PlantingRow>;
    fn start(&mut self, planting: Uuid) -> WalkPage;
    fn page(&mut self, walk: Uuid) -> WalkPage;
    fn next_stop(&mut self, walk: Uuid) -> WalkPage;
    fn tap(&mut self, stop: Uuid, head: NewHead) -> HeadSaved;
    fn undo(&mut self, walk: Uuid) -> WalkPage;
}

impl Face for Service {
    fn ask<A: AskService + Debug>(&mut self, ask: A) -> Reply<A::Answer> {
        let asked = format!("{ask:?}");
        self.call(ask)
            .unwrap_or_else(|problem| panic!("{asked}: {problem}"))
    }

    fn refuse<A: AskService>(&mut self, ask: A) -> Problem {
        let before = self.notebook().view_digest().unwrap();
        let changes = notebook::log::heads(self.notebook().db()).unwrap();
        let Err(problem) = self.call(ask) else {
            panic!("must be refused");
        };
        assert_eq!(self.notebook().view_digest().unwrap(), before);
        assert_eq!(notebook::log::heads(self.notebook().db()).unwrap(), changes);
        problem
    }

    fn plant(&mut self, new: NewPlanting) -> PlantingRow {
        self.ask(ask::AddPlanting { new }).answer
    }

    fn rows(&mut self) -> Vec<PlantingRow> {
        while self.ask(ask::WorkOut {}).answer.left > 0 {}
        self.ask(ask::Plantings {}).answer.rows
    }

    fn start(&mut self, planting: Uuid) -> WalkPage {
        let request = ask::StartWalk {
            id: None,
            planting,
            walked_on: None,
            scout: Some("Ana".to_owned()),
        };
        self.ask(request).answer
    }

    fn page(&mut self, walk: Uuid) -> WalkPage {
        self.ask(ask::Walk { walk }).answer
    }

    fn next_stop(&mut self, walk: Uuid) -> WalkPage {
        let request = ask::AddStop {
            id: None,
            walk,
            place: None,
        };
        self.ask(request).answer
    }

    fn tap(&mut self, stop: Uuid, head: NewHead) -> HeadSaved {
        let request = ask::AddHead {
            id: None,
            stop,
            head,
        };
        self.ask(request).answer
    }

    fn undo(&mut self, walk: Uuid) -> WalkPage {
        self.ask(ask::Undo { id: None, walk }).answer
    }
}
