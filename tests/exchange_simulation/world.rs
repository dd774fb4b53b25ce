//! A crew in trouble: everything that happens follows from one seed.

use crate::hub_there::HubThere;
use crate::intruder::Intruder;
use crate::network::{BadWay, Late, Weather};
use crate::phone::Phone;
use exchange::meet::meet;
use exchange::{PageSize, Trouble, file};
use notebook::durability::check;
use notebook::fact::Act;
use rand::{RngExt as _, SeedableRng as _};
use rand_chacha::ChaCha8Rng;
use std::collections::{BTreeMap, BTreeSet};
use std::ops::ControlFlow;
use std::path::PathBuf;
use std::sync::Arc;
use std::sync::atomic::{AtomicI64, Ordering};
use tempfile::TempDir;
use wire::Tag;
use wire::code::Token;

/// 2026-08-01, 12:00 UTC.
const NOON: i64 = 1_785_585_600_000;
/// 2026-12-15, 12:00 UTC: late enough that clocks which are ahead are not followed.
const WINTER: i64 = 1_797_336_000_000;
const DAY_MS: i64 = 86_400_000;
/// Rounds of undisturbed exchange after which all must be equal.
const ROUNDS: usize = 12;

pub struct World {
    rng: ChaCha8Rng,
    true_ms: Arc<AtomicI64>,
    hub: HubThere,
    phones: Vec<Phone>,
    owner: Token,
    weather: Weather,
    late: Vec<Late>,
    acknowledged: BTreeSet<Tag>,
    /// Either the hub is set back to backups, or phones are set back or lost: with
    /// both, a change may rightly be gone.
    hub_may_be_set_back: bool,
    intruder: Option<Intruder>,
    _folder: TempDir,
}

/// Runs one seed. The error says which rule was broken.
pub fn run(seed: u64) -> Result<(), String> {
    let mut world = World::new(seed);
    let steps = world.rng.random_range(25..=50);
    for step in 0..steps {
        world.step(step)?;
    }
    world.heal()?;
    world.settle()?;
    world.judge()
}

impl World {
    fn new(seed: u64) -> Self {
        let mut rng = ChaCha8Rng::seed_from_u64(seed);
        let folder = fast_folder();
        let begin = if rng.random_bool(0.5) { NOON } else { WINTER };
        let true_ms = Arc::new(AtomicI64::new(begin));
        let mut hub = HubThere::new(folder.path(), Arc::clone(&true_ms));
        let (joined, owner) = hub.join(None, "owner");
        let mut phones = Vec::new();
        for number in 0..rng.random_range(2..=6) {
            let name = format!("phone{number}");
            let token = if number == 0 {
                owner.clone()
            } else {
                hub.join(Some(&owner), &name).1
            };
            phones.push(Phone::new(
                &name,
                folder.path(),
                Arc::clone(&true_ms),
                rng.random(),
                joined.crew,
                token,
            ));
        }
        let intruder = rng
            .random_bool(0.5)
            .then(|| Intruder::new(hub.join(Some(&owner), "intruder").1, rng.random()));
        let hub_may_be_set_back = rng.random_bool(0.4);
        let mut weather = Weather::draw(&mut rng);
        if hub_may_be_set_back {
            weather.hub_set_back = 60;
            hub.back_up();
        }
        Self {
            rng,
            true_ms,
            hub,
            phones,
            owner,
            weather,
            late: Vec::new(),
            acknowledged: BTreeSet::new(),
            hub_may_be_set_back,
            intruder,
            _folder: folder,
        }
    }

    fn step(&mut self, step: u64) -> Result<(), String> {
        self.true_ms
            .fetch_add(self.rng.random_range(0..600_000), Ordering::SeqCst);
        self.intrude();
        let phone = self.any_phone();
        match self.rng.random_range(0..100) {
            0..40 => self.phones[phone].work(step),
            40..68 => self.exchange(phone)?,
            68..75 => self.hand_a_file(phone)?,
            75..79 => {
                self.phones[phone].shift_clock(self.rng.random_range(-3 * DAY_MS..3 * DAY_MS))
            }
            79..83 => self.phones[phone].die(),
            83..86 => self.phones[phone].back_up(),
            86..89 if !self.hub_may_be_set_back => {
                self.phones[phone].set_back();
            }
            89..92 => self.with_a_full_disk(phone, step)?,
            92..95 => self.deliver_late(),
            95..97 => self.hub.die(),
            97..99 => self.lose(phone, step)?,
            _ if self.hub_may_be_set_back => self.hub.back_up(),
            _ => {}
        }
        self.hub.broken.take().map_or(Ok(()), Err)
    }

    /// The hostile member does something, or is found out and removed; it goes on then.
    fn intrude(&mut self) {
        let Some(intruder) = &mut self.intruder else {
            return;
        };
        let crew = self.phones[0].crew;
        match self.rng.random_range(0..100) {
            0..35 => {
                let now = self.true_ms.load(Ordering::SeqCst);
                let plantings = self.phones[0].plantings();
                intruder.act(&mut self.hub, crew, &plantings, now);
            }
            35..36 if !self.hub_may_be_set_back => {
                let (owner, device) = (self.owner.clone(), intruder.token.device);
                self.hub.remove(&owner, device);
            }
            _ => {}
        }
    }

    fn any_phone(&mut self) -> usize {
        loop {
            let phone = self.rng.random_range(0..self.phones.len());
            if !self.phones[phone].gone {
                return phone;
            }
        }
    }

    fn exchange(&mut self, phone: usize) -> Result<(), String> {
        let size = PageSize {
            changes: self.rng.random_range(1..=12),
            bytes: self.rng.random_range(300..=4_000),
        };
        let stop_after = self.rng.random_range(1..=40);
        let phone = &mut self.phones[phone];
        let before = phone.tags();
        let mut way = BadWay {
            hub: &mut self.hub,
            rng: &mut self.rng,
            weather: self.weather,
            token: phone.token.clone(),
            late: &mut self.late,
            acknowledged: &mut self.acknowledged,
            asks: 0,
        };
        let mut pages = 0;
        let met = phone.service().with_notebook(|notebook| {
            meet(notebook, &mut way, size, &mut |_| {
                pages += 1;
                if pages == stop_after {
                    ControlFlow::Break(())
                } else {
                    ControlFlow::Continue(())
                }
            })
        });
        let after = phone.tags();
        if let Some(lost) = before.keys().find(|tag| !after.contains_key(tag)) {
            return Err(format!("{}: an exchange lost {lost:?}", phone.name));
        }
        match met {
            Ok(_) => Ok(()),
            Err(trouble) if trouble.retry_helps() => Ok(()),
            // A flipped bit in a question, as the hub sees it; and what a hub that
            // was set back in the middle no longer holds.
            Err(Trouble::Refused(_) | Trouble::NotLetIn | Trouble::Nonsense) => Ok(()),
            Err(trouble) => Err(format!("{}: {trouble}", phone.name)),
        }
    }

    /// From one phone to another without a hub; often the file is cut.
    fn hand_a_file(&mut self, from: usize) -> Result<(), String> {
        let to = self.any_phone();
        if to == from {
            return Ok(());
        }
        let crew = self.phones[from].crew;
        let mut bytes = Vec::new();
        self.phones[from]
            .service()
            .with_notebook(|notebook| file::write(notebook, crew, &BTreeMap::new(), &mut bytes))
            .map_err(|trouble| trouble.to_string())?;
        if self.rng.random_bool(0.4) {
            bytes.truncate(self.rng.random_range(0..=bytes.len()));
        } else if self.rng.random_bool(0.2) {
            let place = self.rng.random_range(0..bytes.len());
            bytes[place] ^= 1 << self.rng.random_range(0..8);
        }
        let read = self.phones[to]
            .service()
            .with_notebook(|notebook| file::read(notebook, crew, &mut bytes.as_slice()));
        match read {
            Ok(_) | Err(Trouble::File(_) | Trouble::Forked(_) | Trouble::Nonsense) => Ok(()),
            Err(trouble) => Err(format!("a file: {trouble}")),
        }
    }

    fn with_a_full_disk(&mut self, phone: usize, step: u64) -> Result<(), String> {
        self.phones[phone].disk_full(true);
        if self.rng.random_bool(0.5) {
            self.phones[phone].work(step);
        } else if let Err(why) = self.exchange(phone)
            && !why.contains("full")
        {
            return Err(why);
        }
        self.phones[phone].disk_full(false);
        // Not by a rebuild: with a clock that was set back, what counted would wait again.
        let views = check::views(self.phones[phone].notebook().db()).unwrap();
        match views.first() {
            Some(view) => Err(format!("the view {view} does not follow from the log")),
            None => Ok(()),
        }
    }

    fn deliver_late(&mut self) {
        if self.late.is_empty() {
            return;
        }
        let which = self.rng.random_range(0..self.late.len());
        let late = self.late.swap_remove(which);
        if self.rng.random_bool(0.5) {
            let _ = self.hub.hear(&late.token, &late.bytes);
        } else {
            self.hub.hear_admitted(late.token.device, &late.bytes);
        }
    }

    /// A phone falls into a furrow while it gives its heads, and is removed by
    /// the owner; what it gave may still arrive.
    fn lose(&mut self, phone: usize, step: u64) -> Result<(), String> {
        let left = self.phones.iter().filter(|phone| !phone.gone).count();
        if phone == 0 || left <= 2 || self.hub_may_be_set_back {
            return Ok(());
        }
        self.phones[phone].work(step);
        let weather = std::mem::replace(
            &mut self.weather,
            Weather {
                pushes_hang: true,
                ..Weather::FINE
            },
        );
        self.exchange(phone)?;
        self.weather = weather;
        self.phones[phone].gone = true;
        let device = self.phones[phone].token.device;
        let owner = self.owner.clone();
        self.hub.remove(&owner, device);
        Ok(())
    }

    /// The way is fine again; soon all must hold the same.
    fn heal(&mut self) -> Result<(), String> {
        while !self.late.is_empty() {
            self.deliver_late();
        }
        self.hub.broken.take().map_or(Ok(()), Err)?;
        self.weather = Weather::FINE;
        self.set_clocks_right();
        for _ in 0..ROUNDS {
            let mut moved = false;
            for number in 0..self.phones.len() {
                if !self.phones[number].gone {
                    moved |= self.exchange_well(number)?;
                }
            }
            if !moved {
                return Ok(());
            }
        }
        Err(format!("not equal after {ROUNDS} undisturbed rounds"))
    }

    /// One scout chooses wherever people merged plantings differently, and the
    /// others see it.
    fn settle(&mut self) -> Result<(), String> {
        let chooser = self.any_phone();
        self.phones[chooser].settle_merges()?;
        self.heal()
    }

    /// All clocks are right again, and so late that what was stamped ahead of a clock
    /// that was wrong by days has come due.
    fn set_clocks_right(&mut self) {
        self.true_ms.fetch_add(90 * DAY_MS, Ordering::SeqCst);
        for phone in self.phones.iter_mut().filter(|phone| !phone.gone) {
            phone.set_clock_right();
            phone.die();
        }
    }

    fn exchange_well(&mut self, number: usize) -> Result<bool, String> {
        let phone = &mut self.phones[number];
        let mut way = BadWay {
            hub: &mut self.hub,
            rng: &mut self.rng,
            weather: Weather::FINE,
            token: phone.token.clone(),
            late: &mut self.late,
            acknowledged: &mut self.acknowledged,
            asks: 0,
        };
        let met = phone
            .service()
            .with_notebook(|notebook| {
                meet(notebook, &mut way, PageSize::default(), &mut |_| {
                    ControlFlow::Continue(())
                })
            })
            .map_err(|trouble| format!("{} undisturbed: {trouble}", phone.name))?;
        if !met.left_alone.is_empty() {
            return Err(format!(
                "{} undisturbed: left alone {:?}",
                phone.name, met.left_alone
            ));
        }
        Ok(met.progress.sent > 0 || met.progress.received > 0 || !met.mended.is_empty())
    }

    fn views_follow_from_the_log(&mut self, number: usize) -> Result<(), String> {
        let phone = &mut self.phones[number];
        let before = phone.notebook().view_digest().unwrap();
        phone
            .service()
            .with_notebook(|notebook| notebook.rebuild())
            .unwrap();
        if phone.notebook().view_digest().unwrap() == before {
            Ok(())
        } else {
            Err(format!("{}: a rebuild gives other views", phone.name))
        }
    }

    fn judge(mut self) -> Result<(), String> {
        let living: Vec<usize> = (0..self.phones.len())
            .filter(|number| !self.phones[*number].gone)
            .collect();
        let first = living[0];
        let log = self.phones[first].changes();
        let views = self.phones[first].notebook().view_digest().unwrap();
        if self.phones[first].shown_in_circles() > 0 {
            return Err("plantings are shown in a circle".to_owned());
        }
        let left = self.phones[first].merges_to_settle();
        if !left.is_empty() {
            return Err(format!("merges are settled, and yet: {left:?}"));
        }
        // Answers take most of the time; all views being equal, those of one planting on
        // two phones show enough, another one for each seed.
        let last = living[living.len() - 1];
        let drawn = self.rng.random_range(0..1_000);
        let answers = self.phones[first].answers(drawn);
        for number in &living {
            self.views_follow_from_the_log(*number)?;
            let phone = &mut self.phones[*number];
            if phone.changes() != log {
                return Err(format!("{} holds other changes", phone.name));
            }
            if phone.notebook().view_digest().unwrap() != views {
                return Err(format!("{} shows other views of the same log", phone.name));
            }
            if *number == last && phone.answers(drawn) != answers {
                return Err(format!("{} rolls up otherwise", phone.name));
            }
        }
        for number in &living {
            self.phones[*number].still_writes()?;
        }
        let tags = self.phones[first].tags();
        let forged = self.intruder.iter().flat_map(|intruder| &intruder.forged);
        if let Some(forged) = forged.into_iter().find(|tag| tags.contains_key(tag)) {
            return Err(format!("held in the name of another: {forged:?}"));
        }
        if let Some(missing) = self.acknowledged.iter().find(|tag| !tags.contains_key(tag)) {
            return Err(format!("acknowledged and missing: {missing:?}"));
        }
        let given = |tag| {
            let intruder = self.intruder.as_ref();
            intruder.is_some_and(|intruder| intruder.given.contains(tag))
        };
        let mut twice = tags
            .iter()
            .filter(|(tag, count)| **count > 1 && !given(*tag))
            .map(|(tag, _)| self.phones[first].told(tag))
            // Two that were set back to one backup may each say where the branch went,
            // at one reading of a clock that stands: it went there once.
            .filter(|found| {
                found
                    .iter()
                    .any(|change| change.kind != Act::BranchMoved.name())
            });
        if let Some(found) = twice.next() {
            return Err(format!("counted twice: {found:?}"));
        }
        let at_hub = self.hub.changes(self.phones[first].crew);
        let held: Vec<_> = log
            .iter()
            .map(|((device, seq), change)| {
                let bytes = exchange::own_book::pack(change).unwrap();
                (*device, *seq, bytes.into_vec())
            })
            .collect();
        if at_hub != held {
            return Err("the hub holds other changes".to_owned());
        }
        Ok(())
    }
}

/// On memory where the machine has it: a simulation waits for no disk.
fn fast_folder() -> TempDir {
    let memory = PathBuf::from("/dev/shm");
    if memory.is_dir()
        && let Ok(folder) = tempfile::tempdir_in(memory)
    {
        return folder;
    }
    tempfile::tempdir().unwrap()
}
