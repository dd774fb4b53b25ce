//! Notebooks with something in them, and archives of them.

use std::io::Cursor;

use headwalk_tests::demo_data;
use headwalk_tests::devices::{SetClock, service_in_memory};
use notebook::log::{self, Change};
use ripening::{Flag, Reading};
use service::{ArchiveIn, FileOut, Keep, NewHead, Place, Problem, Service, ask};
use uuid::Uuid;

use crate::faces::{Face, NOON, head, named};

/// An empty notebook on another device.
pub fn empty(seed: u64) -> Service {
    service_in_memory(&SetClock::at(NOON).unwrap(), seed).unwrap()
}

/// A notebook with a little of everything, corrections and removals too.
pub fn small() -> Service {
    let mut service = empty(1);
    let mut new = named("North 40");
    new.details.hybrid = Some("Early tan 1".to_owned());
    new.details.field = Some("Bottom".to_owned());
    new.details.farm = Some("Home place".to_owned());
    let planting = service.plant(new).id;
    let walk = service.start(planting).id;
    let place = |latitude, longitude| {
        Some(Place {
            latitude,
            longitude,
            accuracy_m: Some(4.5),
            age_s: None,
        })
    };
    for (place, share) in [(place(38.1, -99.2), 40), (place(38.102, -99.203), 60)] {
        let request = ask::AddStop {
            id: None,
            walk,
            place,
        };
        let page = service.ask(request).answer;
        let stop = page.stops.last().unwrap().id;
        service.tap(stop, head(Reading::Pliable, share));
        let noted = NewHead {
            note: Some("l\u{ed}neas de \"mezcla\", two\nlines\u{0}".replace('\u{0}', "")),
            flags: vec![Flag::Moldy, Flag::BirdFed],
            ..head(Reading::Liquid, 90)
        };
        let wrong = service.tap(stop, noted).head.id;
        service.ask(ask::CorrectHead {
            head: wrong,
            to: head(Reading::Liquid, 80),
        });
        let gone = service.tap(stop, head(Reading::Bloom, 10)).head.id;
        service.ask(ask::RemoveHead { head: gone });
        service.tap(stop, head(Reading::Dented, 5));
        service.undo(walk);
    }
    service.ask(ask::FinishWalk { walk });
    service.ask(ask::ImportWeatherFile {
        text: "date,high_c,low_c,rain_mm,humidity\n2026-08-01,31.5,18.25,2.54,60\n2026-08-02,30,17,,\n"
            .to_owned(),
        station: Some("Pump house".to_owned()), strict: false, job: None });
    service
}

/// A notebook with the demo's invented season.
pub fn season() -> Service {
    let mut service = empty(7);
    let text = |name: &str| std::fs::read_to_string(demo_data().join(name)).unwrap();
    service.ask(ask::ImportPlantingFile {
        text: text("plantings.csv"),
    });
    service.ask(ask::ImportHeadFile {
        text: text("heads.csv"),
    });
    service
}

/// A file of a notebook.
pub fn file(service: &mut Service, what: &FileOut) -> Vec<u8> {
    let mut to = Cursor::new(Vec::new());
    service.file_out(what, &mut to).unwrap();
    to.into_inner()
}

pub fn archive(service: &mut Service) -> Vec<u8> {
    file(service, &FileOut::Notebook)
}

pub fn bring_in(service: &mut Service, archive: &[u8], keep: Keep) -> Result<ArchiveIn, Problem> {
    service.archive_in(Cursor::new(archive), keep, &mut |_| true)
}

/// Every change of every series, in order.
pub fn log_of(service: &Service) -> Vec<Change> {
    let db = service.notebook().db();
    let devices: Vec<Uuid> = log::heads(db).unwrap().into_keys().collect();
    devices
        .into_iter()
        .flat_map(|device| log::after(db, device, 0, usize::MAX).unwrap())
        .collect()
}

/// Ends and digests of all series, with what the views say of them.
pub fn state(service: &Service) -> impl PartialEq + std::fmt::Debug + use<> {
    let heads = log::heads(service.notebook().db()).unwrap();
    (heads, service.notebook().view_digest().unwrap())
}
