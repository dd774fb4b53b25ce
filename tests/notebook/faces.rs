//! Asking the service as a screen would.

use chrono::NaiveDate;
use headwalk_tests::devices::{SetClock, service_in_memory};
use ripening::{Head, Reading, Share};
use service::{
    Answer, HeadSaved, NewHead, NewPlanting, PlantingRow, Problem, Purpose, Reply, Request,
    Service, WalkPage,
};
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
        farm: None,
        field: None,
        hybrid: None,
        planted_on: NaiveDate::from_ymd_opt(2026, 5, 20),
        purpose: Purpose::Grain,
        area: None,
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
    fn ask(&mut self, request: Request) -> Reply;
    fn refuse(&mut self, request: Request) -> Problem;
    fn plant(&mut self, new: NewPlanting) -> PlantingRow;
    fn rows(&mut self) -> Vec<PlantingRow>;
    fn start(&mut self, planting: Uuid) -> WalkPage;
    fn page(&mut self, walk: Uuid) -> WalkPage;
    fn next_stop(&mut self, walk: Uuid) -> WalkPage;
    fn tap(&mut self, stop: Uuid, head: NewHead) -> HeadSaved;
    fn undo(&mut self, walk: Uuid) -> WalkPage;
}

impl Face for Service {
    fn ask(&mut self, request: Request) -> Reply {
        let asked = format!("{request:?}");
        self.call(request)
            .unwrap_or_else(|problem| panic!("{asked}: {problem}"))
    }

    fn refuse(&mut self, request: Request) -> Problem {
        let before = self.notebook().view_digest().unwrap();
        let changes = notebook::log::heads(self.notebook().db()).unwrap();
        let problem = self.call(request).expect_err("must be refused");
        assert_eq!(self.notebook().view_digest().unwrap(), before);
        assert_eq!(notebook::log::heads(self.notebook().db()).unwrap(), changes);
        problem
    }

    fn plant(&mut self, new: NewPlanting) -> PlantingRow {
        match self.ask(Request::AddPlanting(new)).answer {
            Answer::AddPlanting(row) => *row,
            other => panic!("{other:?}"),
        }
    }

    fn rows(&mut self) -> Vec<PlantingRow> {
        while let Answer::WorkOut { left: 1.., .. } = self.ask(Request::WorkOut).answer {}
        match self.ask(Request::Plantings).answer {
            Answer::Plantings { rows, .. } => rows,
            other => panic!("{other:?}"),
        }
    }

    fn start(&mut self, planting: Uuid) -> WalkPage {
        let request = Request::StartWalk {
            id: None,
            planting,
            walked_on: None,
            scout: Some("Ana".to_owned()),
        };
        match self.ask(request).answer {
            Answer::StartWalk(page) => *page,
            other => panic!("{other:?}"),
        }
    }

    fn page(&mut self, walk: Uuid) -> WalkPage {
        match self.ask(Request::Walk { walk }).answer {
            Answer::Walk(page) => *page,
            other => panic!("{other:?}"),
        }
    }

    fn next_stop(&mut self, walk: Uuid) -> WalkPage {
        let request = Request::AddStop {
            id: None,
            walk,
            place: None,
        };
        match self.ask(request).answer {
            Answer::AddStop(page) => *page,
            other => panic!("{other:?}"),
        }
    }

    fn tap(&mut self, stop: Uuid, head: NewHead) -> HeadSaved {
        let request = Request::AddHead {
            id: None,
            stop,
            head,
        };
        match self.ask(request).answer {
            Answer::AddHead(saved) => *saved,
            other => panic!("{other:?}"),
        }
    }

    fn undo(&mut self, walk: Uuid) -> WalkPage {
        match self.ask(Request::Undo { id: None, walk }).answer {
            Answer::Undo(page) => *page,
            other => panic!("{other:?}"),
        }
    }
}
