//! A notebook as years of walks leave it: 200,000 heads, each tapped on its own.
//!
//! It takes a minute to make. `HEADWALK_SEASON` names a folder in which it is kept
//! for the next run; empty it when the schema or the model changes.

use std::fmt::Write as _;
use std::path::{Path, PathBuf};
use std::time::Instant;

use chrono::{Days, NaiveDate};
use notebook::fact::{Act, Body, Fact, HeadRead, HeadRecord};
use notebook::log::{Change, Hlc, heads};
use notebook::{Notebook, OnDate, SystemRandomness};
use ripening::{Head, Reading, Share};
use service::{Keeper, Service, ask};
use tempfile::TempDir;
use uuid::{Builder, Uuid};

/// Heads already stored where a head is saved or a notebook opened.
pub const STORED: usize = 200_000;
/// Heads of a walk.
pub const A_WALK: usize = 25;
/// Heads of a stop.
pub const A_STOP: usize = 5;
/// Walks of a planting.
const WALKS: usize = 10;
pub const PLANTINGS: usize = STORED / A_WALK / WALKS;
const STATIONS: usize = 4;
const YEARS_OF_WEATHER: i32 = 10;

/// 2026-08-01, 15:00 UTC.
const BEGINS_MS: i64 = 1_785_596_400_000;

pub fn today() -> NaiveDate {
    NaiveDate::from_ymd_opt(2026, 9, 1).unwrap()
}

/// A folder on the disk that the build is on.
pub fn folder() -> TempDir {
    tempfile::tempdir_in(env!("CARGO_TARGET_TMPDIR")).unwrap()
}

/// A notebook as a face has it open.
pub fn keeper(path: &Path) -> Keeper {
    Keeper::open(path, Some(today()))
}

/// A notebook without a face.
pub fn service(path: &Path) -> Service {
    let notebook =
        Notebook::open(path, Box::new(OnDate(today())), Box::new(SystemRandomness)).unwrap();
    Service::new(notebook).unwrap()
}

/// The stored season, closed; whoever changes it takes a copy.
pub struct Season {
    path: PathBuf,
    pub plantings: Vec<Uuid>,
    /// Removed with it, where it is not kept.
    _folder: Option<TempDir>,
}

impl Season {
    pub fn tapped() -> Season {
        let kept = std::env::var_os("HEADWALK_SEASON").map(PathBuf::from);
        let (folder, path) = match kept {
            Some(kept) => (None, kept.join("notebook.db")),
            None => {
                let folder = folder();
                let path = folder.path().join("notebook.db");
                (Some(folder), path)
            }
        };
        if !path.exists() {
            make(&path);
        }
        let service = service(&path);
        let plantings = plantings(&service);
        service.into_notebook().close().unwrap();
        Season {
            path,
            plantings,
            _folder: folder,
        }
    }

    pub fn path(&self) -> &Path {
        &self.path
    }

    /// A copy to write in.
    pub fn copy(&self) -> (TempDir, PathBuf) {
        let folder = folder();
        let path = folder.path().join("notebook.db");
        std::fs::copy(&self.path, &path).unwrap();
        (folder, path)
    }
}

fn make(path: &Path) {
    let begun = Instant::now();
    let mut service = service(path);
    for text in weather_files() {
        let request = ask::ImportWeatherFile {
            text,
            station: None,
            strict: false,
            job: None,
        };
        service.call(request).unwrap();
    }
    let text = planting_file();
    service.call(ask::ImportPlantingFile { text }).unwrap();
    let plantings = plantings(&service);
    let taken_in = service.with_notebook(|notebook| {
        let mut scout = Scout::of(notebook, BEGINS_MS);
        let mut taken_in = 0;
        for (number, planting) in plantings.iter().enumerate() {
            let page: Vec<Change> = (0..WALKS)
                .flat_map(|walk| scout.walk(*planting, number, walk))
                .collect();
            taken_in += notebook.ingest(&page).unwrap().new;
        }
        taken_in
    });
    println!(
        "a season of {STORED} heads in {PLANTINGS} plantings, {taken_in} changes: made in {:.0?}",
        begun.elapsed()
    );
    work_out(&mut service);
    service.into_notebook().close().unwrap();
}

/// Answers of all plantings, worked out a few at a time as the list does.
fn work_out(service: &mut Service) {
    let begun = Instant::now();
    let mut longest = std::time::Duration::ZERO;
    loop {
        let asked = Instant::now();
        let reply = service.call(ask::WorkOut {}).unwrap();
        longest = longest.max(asked.elapsed());
        if reply.answer.left == 0 {
            break;
        }
    }
    println!(
        "its answers, all of them: {:.1?}, at most {longest:.0?} at a time",
        begun.elapsed()
    );
}

/// Who tapped it all.
pub struct Scout {
    device: Uuid,
    seq: u64,
    ms: i64,
}

impl Scout {
    /// Goes on where the notebook's own series ends.
    pub fn of(notebook: &Notebook, ms: i64) -> Scout {
        let device = notebook.device();
        let held = heads(notebook.db()).unwrap();
        Scout {
            device,
            seq: held.get(&device).map_or(0, |head| head.seq),
            ms,
        }
    }

    fn id(&mut self) -> Uuid {
        self.ms += 3_001;
        let random = u128::from(self.seq) << 64 | u128::from(self.ms.unsigned_abs());
        let bytes = random.wrapping_mul(0x9e37_79b9_7f4a_7c15_f39c_c060_5ced_c835);
        let bytes: [u8; 10] = std::array::from_fn(|place| bytes.to_be_bytes()[place]);
        Builder::from_unix_timestamp_millis(self.ms.unsigned_abs(), &bytes).into_uuid()
    }

    fn change(&mut self, act: Act, facts: Vec<Fact>) -> Change {
        self.seq += 1;
        Change {
            device: self.device,
            seq: self.seq,
            hlc: Hlc::ZERO.next(self.ms),
            recorded_ms: self.ms,
            offset_min: -300,
            kind: act.name().to_owned(),
            body: serde_json::to_string(&Body::of(facts)).unwrap(),
            raw: None,
        }
    }

    /// One walk as the walk screen records it: three days after the one before.
    pub fn walk(&mut self, planting: Uuid, number: usize, walk: usize) -> Vec<Change> {
        let id = self.id();
        let begun = Fact::Walk {
            id,
            planting,
            walked_on: NaiveDate::from_ymd_opt(2026, 8, 1).unwrap() + Days::new(3 * walk as u64),
            scout: "Scout 1".to_owned(),
            finished: true,
        };
        let mut changes = Vec::with_capacity(A_WALK + A_WALK / A_STOP);
        let mut facts = vec![begun];
        for place in 0..A_WALK / A_STOP {
            let stop = self.id();
            facts.push(Fact::Stop {
                id: stop,
                walk: id,
                number: u32::try_from(place + 1).unwrap(),
                label: None,
                place: None,
            });
            let kind = if place == 0 {
                Act::WalkStarted
            } else {
                Act::StopAdded
            };
            changes.push(self.change(kind, std::mem::take(&mut facts)));
            for head in 0..A_STOP {
                let read = HeadRead {
                    id: self.id(),
                    said: HeadRecord {
                        head: head_of(walk, number * 7 + place * 31 + head * 13),
                        flags: vec![],
                        note: None,
                    },
                    extra: None,
                };
                let fact = Fact::Heads {
                    walk: id,
                    stop,
                    heads: vec![read],
                };
                changes.push(self.change(Act::HeadRead, vec![fact]));
            }
        }
        changes
    }
}

/// A head of the walk of this number: later walks find riper ones.
pub fn head_of(walk: usize, chance: usize) -> Head {
    use Reading::{Bloom, Dented, Emerging, Liquid, Pliable};
    let readings = [
        Emerging, Bloom, Bloom, Liquid, Liquid, Pliable, Pliable, Pliable, Dented, Dented, Dented,
    ];
    let share = 15 + 25 * (walk % 3) + chance % 30;
    let share = Share::new(u8::try_from(share).unwrap()).unwrap();
    Head::new(readings[walk], Some(share)).unwrap()
}

fn planting_file() -> String {
    let mut text = "planting,hybrid,planted_on,purpose,station\n".to_owned();
    for planting in 0..PLANTINGS {
        writeln!(
            text,
            "Planting {planting:03},Hybrid {},2026-05-{:02},grain,Station {}",
            planting % 12,
            1 + planting % 28,
            planting % STATIONS,
        )
        .unwrap();
    }
    text
}

fn weather_files() -> Vec<String> {
    let last = today();
    let first = NaiveDate::from_ymd_opt(2026 - YEARS_OF_WEATHER, 9, 1).unwrap();
    (0..STATIONS)
        .map(|station| {
            let mut text = "date,high_f,low_f,rain_in,station\n".to_owned();
            for (day, date) in first.iter_days().take_while(|day| *day <= last).enumerate() {
                let season = ((day as f64 - 45.0) / 365.25 * std::f64::consts::TAU).cos();
                let high = 68.0 + 24.0 * season + (day * (station + 3) % 11) as f64;
                let low = high - 24.0;
                writeln!(text, "{date},{high:.0},{low:.0},0.0,Station {station}").unwrap();
            }
            text
        })
        .collect()
}

fn plantings(service: &Service) -> Vec<Uuid> {
    service
        .notebook()
        .db()
        .prepare("SELECT id FROM planting ORDER BY name")
        .unwrap()
        .query_map([], |row| row.get(0))
        .unwrap()
        .collect::<Result<_, _>>()
        .unwrap()
}
