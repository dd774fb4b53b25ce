//! A phone of a simulated crew: the real notebook on a real file.

use chrono::{DateTime, FixedOffset, NaiveDate};
use exchange::own_book::pack;
use notebook::clock;
use notebook::durability::check;
use notebook::log::{self, Change, Hlc};
use notebook::seal::Sealed;
use notebook::{Clock, Notebook, Randomness, StoreError};
use rand::{Rng as _, RngExt as _, SeedableRng as _};
use rand_chacha::ChaCha8Rng;
use ripening::{Head, Reading, Share};
use service::{
    AskService, MergeConflict, NewHead, NewPlanting, PlantingDetails, PlantingEdit, Problem,
    ProblemCode, Service, ask,
};
use std::collections::BTreeMap;
use std::fmt::Debug;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::sync::atomic::{AtomicI64, Ordering};
use uuid::Uuid;
use wire::Tag;
use wire::code::Token;
use wire::seal::{Link, Signer, Writer};

/// Merges that are settled one after the other, before it looks like a circle.
const MOST_MERGES: usize = 50;

/// The true time, and how far this phone's clock is off.
#[derive(Clone)]
struct OffClock {
    true_ms: Arc<AtomicI64>,
    off_ms: Arc<AtomicI64>,
}

impl Clock for OffClock {
    fn now(&self) -> DateTime<FixedOffset> {
        let ms = self.true_ms.load(Ordering::SeqCst) + self.off_ms.load(Ordering::SeqCst);
        DateTime::from_timestamp_millis(ms).unwrap().fixed_offset()
    }
}

struct Seeded(ChaCha8Rng);

impl Randomness for Seeded {
    fn fill(&mut self, bytes: &mut [u8]) -> Result<(), StoreError> {
        self.0.fill_bytes(bytes);
        Ok(())
    }
}

pub struct Phone {
    pub name: String,
    service: Option<Service>,
    file: PathBuf,
    clock: OffClock,
    rng: ChaCha8Rng,
    pub crew: Uuid,
    pub token: Token,
    pub gone: bool,
    backups: usize,
}

impl Phone {
    pub fn new(
        name: &str,
        folder: &Path,
        true_ms: Arc<AtomicI64>,
        seed: u64,
        crew: Uuid,
        token: Token,
    ) -> Self {
        let mut phone = Self {
            name: name.to_owned(),
            service: None,
            file: folder.join(format!("{name}.notebook")),
            clock: OffClock {
                true_ms,
                off_ms: Arc::new(AtomicI64::new(0)),
            },
            rng: ChaCha8Rng::seed_from_u64(seed),
            crew,
            token,
            gone: false,
            backups: 0,
        };
        phone.open();
        phone
    }

    fn open(&mut self) {
        let randomness = Seeded(ChaCha8Rng::seed_from_u64(self.rng.random()));
        let mut notebook = Notebook::open(
            &self.file,
            Box::new(self.clock.clone()),
            Box::new(randomness),
        )
        .unwrap();
        let key = wire::code::hash(&self.token.secret);
        notebook.sign_with(Signer::from_secret(&key));
        // On memory-backed files; what a cut does to a file is the store's own check.
        notebook
            .db()
            .execute_batch("PRAGMA synchronous = OFF")
            .unwrap();
        self.service = Some(Service::new(notebook).unwrap());
    }

    pub fn service(&mut self) -> &mut Service {
        self.service.as_mut().unwrap()
    }

    pub fn notebook(&self) -> &Notebook {
        self.service.as_ref().unwrap().notebook()
    }

    /// The process ends at this moment, and starts again.
    pub fn die(&mut self) {
        self.service = None;
        self.open();
    }

    pub fn shift_clock(&self, ms: i64) {
        self.clock.off_ms.fetch_add(ms, Ordering::SeqCst);
    }

    pub fn set_clock_right(&self) {
        self.clock.off_ms.store(0, Ordering::SeqCst);
    }

    /// The notebook takes what a scout tells it, at a time that others follow, and is
    /// whole.
    pub fn still_writes(&mut self) -> Result<(), String> {
        let name = format!("{} at the end", self.name);
        let added = self.call(ask::AddPlanting {
            new: NewPlanting {
                id: None,
                name,
                details: PlantingDetails::default(),
            },
        });
        if added.is_none() {
            return Err(format!("{} takes nothing any more", self.name));
        }
        let (own, now) = (self.notebook().device(), self.clock.now());
        let end = log::heads(self.notebook().db()).unwrap()[&own].seq;
        let written = log::change_at(self.notebook().db(), own, end).unwrap();
        let stamp = written.unwrap().hlc;
        if stamp > clock::horizon(now.timestamp_millis()) {
            return Err(format!("{}: its clock was carried to {stamp:?}", self.name));
        }
        let check = check::check(self.notebook().db()).unwrap();
        match check.first_fault() {
            Some(fault) => Err(format!("{}: {fault}", self.name)),
            None => Ok(()),
        }
    }

    pub fn back_up(&mut self) {
        self.backups += 1;
        let to = self.file.with_extension(format!("backup{}", self.backups));
        self.notebook()
            .db()
            .execute("VACUUM INTO ?1", [to.display().to_string()])
            .unwrap();
    }

    /// The phone is set back to its last backup, and goes on from there.
    pub fn set_back(&mut self) -> bool {
        if self.backups == 0 {
            return false;
        }
        self.service = None;
        let from = self.file.with_extension(format!("backup{}", self.backups));
        // Whoever sets a whole phone back sets back what lies beside the notebook, too.
        for rest in ["notebook-wal", "notebook-shm", "notebook-last"] {
            let _ = std::fs::remove_file(self.file.with_extension(rest));
        }
        std::fs::copy(from, &self.file).unwrap();
        self.open();
        true
    }

    /// No page of the file may be added from now on, or any again.
    pub fn disk_full(&self, full: bool) {
        let db = self.notebook().db();
        let pages: i64 = if full {
            db.query_row("PRAGMA page_count", [], |row| row.get(0))
                .unwrap()
        } else {
            4_294_967_294
        };
        db.query_row(&format!("PRAGMA max_page_count = {pages}"), [], |_| Ok(()))
            .unwrap();
    }

    /// One request; what a person may be told is fine, a fault of ours is not.
    fn call<A: AskService + Debug>(&mut self, ask: A) -> Option<A::Answer> {
        let shown = format!("{ask:?}");
        match self.service().call(ask) {
            Ok(reply) => Some(reply.answer),
            Err(Problem { code, message }) => {
                assert!(
                    !matches!(code, ProblemCode::Internal | ProblemCode::Damaged),
                    "{shown}: {message}"
                );
                None
            }
        }
    }

    /// Plantings on the list, without their answers, which take long.
    pub fn plantings(&self) -> Vec<Uuid> {
        let mut query = self
            .notebook()
            .db()
            .prepare("SELECT id FROM planting WHERE name NOT NULL AND removed = 0 ORDER BY id")
            .unwrap();
        let ids = query.query_map([], |row| row.get(0)).unwrap();
        ids.collect::<Result<_, _>>().unwrap()
    }

    /// Something that a scout does.
    pub fn work(&mut self, step: u64) {
        match self.rng.random_range(0..11) {
            10 => self.merge_or_take_apart(),
            0 => self.add_planting(),
            1 | 2 => self.edit_planting(),
            3 => self.tap_heads(),
            4 | 5 => self.hear_of_later_version(step),
            _ => self.read_file(step),
        }
    }

    fn add_planting(&mut self) {
        let number = self.rng.random_range(1..=4);
        self.call(ask::AddPlanting {
            new: NewPlanting {
                id: None,
                name: format!("Planting {number}"),
                details: PlantingDetails {
                    farm: Some("Bench".to_owned()),
                    hybrid: Some(format!("H{number}")),
                    planted_on: NaiveDate::from_ymd_opt(2026, 5, number),
                    ..PlantingDetails::default()
                },
            },
        });
    }

    fn edit_planting(&mut self) {
        let plantings = self.plantings();
        if plantings.is_empty() {
            return self.add_planting();
        }
        let planting = plantings[self.rng.random_range(0..plantings.len())];
        let day = self.rng.random_range(1..=28);
        let hybrid = format!("H{}", self.rng.random_range(1..=9));
        let edit = match self.rng.random_range(0..3) {
            0 => PlantingEdit {
                details: PlantingDetails {
                    planted_on: NaiveDate::from_ymd_opt(2026, 5, day),
                    ..PlantingDetails::default()
                },
                ..PlantingEdit::default()
            },
            1 => PlantingEdit {
                details: PlantingDetails {
                    hybrid: Some(hybrid),
                    ..PlantingDetails::default()
                },
                ..PlantingEdit::default()
            },
            _ => PlantingEdit {
                details: PlantingDetails {
                    field: Some(format!("Field {day}")),
                    ..PlantingDetails::default()
                },
                ..PlantingEdit::default()
            },
        };
        self.call(ask::EditPlanting { planting, edit });
    }

    /// Two plantings are said to be one, either way round, or one is taken out again.
    fn merge_or_take_apart(&mut self) {
        let plantings = self.plantings();
        if plantings.len() < 2 {
            return self.add_planting();
        }
        let duplicate = plantings[self.rng.random_range(0..plantings.len())];
        let into = plantings[self.rng.random_range(0..plantings.len())];
        if self.rng.random_bool(0.3) {
            self.call(ask::UnmergePlanting { duplicate });
        } else {
            self.call(ask::MergePlantings { duplicate, into });
        }
    }

    /// What people said differently of which plantings are one, on any page.
    pub fn merges_to_settle(&mut self) -> BTreeMap<Uuid, MergeConflict> {
        let mut found = BTreeMap::new();
        for planting in self.plantings() {
            if let Some(said) = self.call(ask::Conflicts { planting }) {
                found.extend(said.merges.into_iter().map(|each| (each.planting, each)));
            }
        }
        found
    }

    /// Settles all of that, one after the other, mostly in favour of what lost.
    pub fn settle_merges(&mut self) -> Result<(), String> {
        for _ in 0..MOST_MERGES {
            let Some((planting, conflict)) = self.merges_to_settle().pop_first() else {
                return Ok(());
            };
            let said = match self.rng.random_range(0..3) {
                0 => &conflict.stands,
                _ => &conflict.others[0],
            };
            let into = said.into;
            if self.call(ask::SettleMerge { planting, into }).is_none() {
                return Err(format!("{}: {conflict:?} cannot be settled", self.name));
            }
        }
        Err(format!("{}: merges are never settled", self.name))
    }

    /// Plantings shown as one that is itself shown as another, or as themselves.
    pub fn shown_in_circles(&self) -> usize {
        self.notebook()
            .db()
            .query_row(
                "SELECT count(*) FROM planting JOIN planting AS end ON end.id = planting.shown_as
                 WHERE end.shown_as IS NOT NULL OR end.id = planting.id",
                [],
                |row| row.get(0),
            )
            .unwrap()
    }

    fn tap_heads(&mut self) {
        let plantings = self.plantings();
        if plantings.is_empty() {
            return self.add_planting();
        }
        let planting = plantings[self.rng.random_range(0..plantings.len())];
        let started = self.call(ask::StartWalk {
            id: None,
            planting,
            walked_on: None,
            scout: Some(self.name.clone()),
        });
        let Some(walk) = started else {
            return;
        };
        let stop = walk.stops[0].id;
        let mut head = None;
        for _ in 0..self.rng.random_range(1..=2) {
            let share = self.rng.random_range(1..=100);
            let added = self.call(ask::AddHead {
                id: None,
                stop,
                head: read(Reading::Pliable, share),
            });
            if let Some(saved) = added {
                head = Some(saved.head.id);
            }
        }
        match (self.rng.random_range(0..4), head) {
            (0, Some(head)) => {
                let to = read(Reading::Dented, self.rng.random_range(1..=100));
                self.call(ask::CorrectHead { head, to });
            }
            (1, Some(head)) => {
                self.call(ask::RemoveHead { head });
            }
            (2, _) => {
                self.call(ask::Undo {
                    id: None,
                    walk: walk.id,
                });
            }
            _ => {
                self.call(ask::FinishWalk { walk: walk.id });
            }
        }
    }

    fn read_file(&mut self, step: u64) {
        let planting = self.rng.random_range(1..=4);
        // Few days, so that files meet on the same walks, and answers are quick.
        let day = 1 + 9 * self.rng.random_range(0..4);
        let mut text = String::from("planting,walked_on,stop,reading,share,note\n");
        for row in 0..self.rng.random_range(1..=8) {
            let reading = ["liquid", "pliable", "dented"][self.rng.random_range(0..3)];
            let share = self.rng.random_range(1..=100);
            text.push_str(&format!(
                "Planting {planting},2026-08-{day:02},{},{reading},{share},{} {step} {row}\n",
                row / 3 + 1,
                self.name
            ));
        }
        self.call(ask::ImportHeadFile { text });
    }

    /// A change of a kind that this version does not know comes by, from a phone
    /// with a later one, which seals it.
    fn hear_of_later_version(&mut self, step: u64) {
        let mut id = [0; 16];
        self.rng.fill_bytes(&mut id);
        let changes: Vec<Change> = (1..=self.rng.random_range(1..=3))
            .map(|seq| Change {
                device: uuid::Builder::from_random_bytes(id).into_uuid(),
                seq,
                hlc: Hlc::ZERO.next(self.clock.now().timestamp_millis()),
                recorded_ms: 1_790_000_000_000,
                offset_min: -300,
                kind: format!("later_{step}"),
                body: format!(r#"{{"facts":[{{"fact":"later","step":{step},"seq":{seq}}}]}}"#),
                raw: None,
            })
            .collect();
        let mut secret = [0; 32];
        self.rng.fill_bytes(&mut secret);
        let signer = Signer::from_secret(&secret);
        let (writer, series) = (Writer::plain(signer.key()), changes[0].device);
        let bodies: Vec<Vec<u8>> = changes
            .iter()
            .map(|change| pack(change).unwrap().into_vec())
            .collect();
        let (seq, link) = (changes.len() as u64, Link::START.after_all(&bodies));
        let sealed = Sealed {
            series,
            seq,
            signature: signer.seal(&writer, series, seq, link),
            link,
        };
        // A full disk is a reason not to.
        let _ = self
            .service()
            .with_notebook(|notebook| notebook.ingest_sealed(&changes, &[(writer, sealed)]));
    }

    /// All changes of the log.
    pub fn changes(&self) -> BTreeMap<(Uuid, u64), Change> {
        let db = self.notebook().db();
        let mut all = BTreeMap::new();
        for device in log::heads(db).unwrap().into_keys() {
            for change in log::after(db, device, 0, usize::MAX).unwrap() {
                all.insert((device, change.seq), change);
            }
        }
        all
    }

    /// Tags of all changes, as often as they are there.
    pub fn tags(&self) -> BTreeMap<Tag, usize> {
        let mut tags = BTreeMap::new();
        for change in self.changes().values() {
            *tags.entry(Tag::of(&pack(change).unwrap())).or_default() += 1;
        }
        tags
    }

    /// The changes of a tag.
    pub fn told(&self, tag: &Tag) -> Vec<Change> {
        let all = self.changes().into_values();
        all.filter(|change| Tag::of(&pack(change).unwrap()) == *tag)
            .collect()
    }

    /// The answers of all walks of a planting, drawn by a number, as text.
    pub fn answers(&mut self, drawn: usize) -> BTreeMap<Uuid, String> {
        let plantings = self.plantings();
        let Some(planting) = plantings.get(drawn % plantings.len().max(1)).copied() else {
            return BTreeMap::new();
        };
        let Some(page) = self.call(ask::Planting { planting }) else {
            return BTreeMap::new();
        };
        page.walks
            .into_iter()
            .map(|walk| (walk.id, serde_json::to_string(&walk.now).unwrap()))
            .collect()
    }
}

fn read(reading: Reading, share: u8) -> NewHead {
    NewHead {
        head: Head::new(reading, Some(Share::new(share).unwrap())).unwrap(),
        flags: Vec::new(),
        note: None,
    }
}
