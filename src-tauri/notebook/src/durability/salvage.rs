//! From a damaged notebook to a new one with everything that can still be read.
//!
//! The log is the truth, so the log is what is carried over; the views are filled
//! anew from it. Changes are read in three ways, each for what the one before
//! could not give: through SQLite, from the file's loose pages, and from the
//! newest backups. A change is kept where its digest proves it.
//!
//! Where a change in the middle of a series is lost, those behind it cannot keep
//! their numbers: they move to a series of their own, as a branch does
//! ([`Notebook::move_branch`]). Ids of heads stay, so nothing is counted twice
//! when a crew's hub sends the lost ones again. The device writes under a new id
//! from then on, because the hub may hold the end of its series that is lost here.
//!
//! Keys and seals are carried over where they fit what was kept of their series: with
//! them the device goes on to give away what it had not, and to take in nothing that
//! another wrote. One that does not fit is left behind, since a wrong key would shut
//! its series out for ever; the next exchange brings the right one.

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

use chrono::{DateTime, FixedOffset};
use rusqlite::{Connection, Row};
use uuid::Uuid;

use super::check;
use super::seals::{FoundSeals, Proved, up_to_a_gap};
use crate::clock::Clock;
use crate::disk::backup::{backups, open_to_read};
use crate::disk::chain::{Found, Read, Series, choose};
use crate::disk::hold::Hold;
use crate::disk::last_saved::LastSaved;
use crate::disk::lease::OnDisk;
use crate::disk::{carve, files};
use crate::error::StoreError;
use crate::ids::{Randomness, content_id};
use crate::log::{self, Head, Hlc};
use crate::notebook::Notebook;
use crate::photo::marks::{self, Marks};
use crate::seal;
use crate::setting;
use wire::seal::PublicKey;

/// Backups looked into for what the file does not give any more.
const BACKUPS: usize = 2;
/// Rows asked for one by one beyond the last that could be read in order.
const BEYOND: i64 = 100_000;

/// What is read of a change. A backup may be older than the column of its bytes.
fn columns(db: &Connection) -> rusqlite::Result<String> {
    let raw = log::raw_or_none(db)?;
    Ok(format!(
        "arrival, device, seq, hlc, recorded_ms, offset_min, kind, body, received_ms, digest, {raw}"
    ))
}

/// What a salvage kept and what it could not.
#[derive(Debug, Clone, PartialEq)]
pub struct Salvaged {
    /// Where the damaged file lies now; none where it was gone altogether.
    pub set_aside: Option<PathBuf>,
    /// Changes in the new notebook.
    pub kept: u64,
    /// Of them, those that only a backup still had.
    pub from_backup: u64,
    /// Of them, those that nothing was left to prove by: they read well, and may
    /// still say something else than was written.
    pub unproved: u64,
    /// Changes that are known to have been there and are lost.
    pub lost: u64,
    /// Recording times of the changes around those that are lost.
    pub lost_between: Option<(DateTime<FixedOffset>, DateTime<FixedOffset>)>,
    /// Set where it could not be read how far each series went, so that more may
    /// be lost at the end than is known.
    pub end_unknown: bool,
    /// Heads that the new notebook shows.
    pub heads: u64,
    /// Whether the device's settings, its place in a crew among them, were kept.
    pub settings_kept: bool,
    /// Series that carried seals of which none could be kept.
    pub seals_lost: u64,
}

impl Salvaged {
    /// One sentence: what was kept and what was lost.
    pub fn sentence(&self) -> String {
        let mut said = if self.lost == 0 {
            format!("all {} changes that could be found were kept", self.kept)
        } else {
            format!("{} changes were kept and {} are lost", self.kept, self.lost)
        };
        if let Some((from, to)) = self.lost_between {
            said.push_str(&format!(
                " (recorded between {} and {})",
                from.format("%Y-%m-%d %H:%M"),
                to.format("%Y-%m-%d %H:%M")
            ));
        }
        if self.end_unknown {
            said.push_str("; the newest may be missing too");
        }
        if self.unproved > 0 {
            said.push_str(&format!("; {} could not be proved", self.unproved));
        }
        if !self.settings_kept {
            said.push_str("; settings could not be kept");
        }
        if self.seals_lost > 0 {
            said.push_str(&format!(
                "; the seals of {} series could not be kept: exchange with the hub, which \
                 brings them",
                self.seals_lost
            ));
        }
        said
    }
}

/// Sets the damaged notebook aside and puts a new one in its place, with every
/// change that can still be read.
///
/// # Errors
/// When another program has the notebook open, or the new one cannot be written;
/// the damaged file then lies where it was, untouched.
pub fn salvage(
    path: &Path,
    clock: Box<dyn Clock>,
    randomness: Box<dyn Randomness>,
) -> Result<Salvaged, StoreError> {
    let _hold = Hold::against_all(path)?;
    let now = clock.now();
    let gathered = Gathered::of(path);
    let saving = files::beside(path, files::SALVAGING);
    files::discard(&saving)?;
    let written = gathered
        .write(&saving, clock, randomness)
        .and_then(|written| {
            let set_aside = files::replace(path, &saving, files::DAMAGED, now)?;
            Ok(Salvaged {
                set_aside,
                ..written
            })
        });
    if written.is_err() {
        let _ = files::discard(&saving);
    }
    written
}

/// Everything that could be read.
#[derive(Default)]
struct Gathered {
    found: Found,
    /// Where each series ended, if that could be read.
    heads: Option<BTreeMap<Uuid, Head>>,
    settings: Option<Vec<(String, String)>>,
    settings_altered: bool,
    /// More was written than can be known of here.
    end_unknown: bool,
    /// What was known of photos' files; what cannot be proved is not known.
    photos: Marks,
    seals: FoundSeals,
    /// Set where the tables of keys and seals were read to their ends.
    seals_read: bool,
}

impl Gathered {
    fn of(path: &Path) -> Gathered {
        let mut gathered = Gathered::default();
        let on_disk = OnDisk::at(path);
        let opened = open_to_read(path);
        if let Ok(db) = &opened {
            gathered.heads = log::heads(db).ok();
            match on_disk.named {
                Some(named) if !named.is_in(db) => gathered.expect(named),
                Some(_) => {}
                None => gathered.end_unknown = on_disk.was_parted(db),
            }
            gathered.settings_of(db);
            gathered.photos = marks::all(db).unwrap_or_default();
            gathered.seals_read = gathered.seals.through_sqlite(db);
            gathered.through_sqlite(db, false);
        }
        drop(opened);
        if gathered.is_whole() {
            return gathered;
        }
        carve::changes(path, |read| gathered.found.add(read));
        gathered.seals.through_pages(path);
        for backup in backups(path).into_iter().take(BACKUPS) {
            let Ok(db) = open_to_read(&backup.path) else {
                continue;
            };
            gathered.through_sqlite(&db, true);
            gathered.seals.through_sqlite(&db);
            if gathered.settings.is_none() {
                gathered.settings_of(&db);
            }
        }
        gathered
    }

    /// The last change that was shown as saved belongs in its series, whatever the
    /// file says of the series' end.
    fn expect(&mut self, named: LastSaved) {
        let LastSaved {
            device,
            seq,
            digest,
        } = named;
        if let Some(heads) = &mut self.heads
            && heads.get(&device).is_none_or(|head| head.seq < seq)
        {
            heads.insert(device, Head { seq, digest });
        }
    }

    fn settings_of(&mut self, db: &Connection) {
        if let Ok(all) = setting::all(db) {
            self.settings = Some(all.kept);
            self.settings_altered = !all.altered.is_empty();
        }
    }

    /// Reads the log in order, and row by row around what cannot be read.
    fn through_sqlite(&mut self, db: &Connection, from_backup: bool) {
        let mut last = 0;
        let Ok(columns) = columns(db) else {
            return;
        };
        let in_order = || -> rusqlite::Result<()> {
            let mut statement =
                db.prepare(&format!("SELECT {columns} FROM change ORDER BY arrival"))?;
            let mut rows = statement.query([])?;
            while let Some(row) = rows.next()? {
                last = row.get(0)?;
                if let Ok(read) = read(row, from_backup) {
                    self.found.add(read);
                }
            }
            Ok(())
        };
        let mut in_order = in_order;
        if in_order().is_ok() {
            return;
        }
        let furthest: i64 = db
            .query_row("SELECT max(arrival) FROM change", [], |row| row.get(0))
            .unwrap_or(last + BEYOND);
        let Ok(mut one) = db.prepare(&format!("SELECT {columns} FROM change WHERE arrival = ?1"))
        else {
            return;
        };
        for arrival in last + 1..=furthest.min(last + 100 * BEYOND) {
            if let Ok(read) = one.query_row([arrival], |row| read(row, from_backup)) {
                self.found.add(read);
            }
        }
    }

    /// Whether nothing is missing, so that no other source need be read.
    fn is_whole(&self) -> bool {
        let Some(heads) = &self.heads else {
            return false;
        };
        self.settings.is_some()
            && self.seals_read
            && heads.iter().all(|(device, head)| {
                self.found.0.get(device).is_some_and(|found| {
                    let series = choose(found, Some(head));
                    series.lost.is_empty() && series.kept.iter().all(|(_, proved)| *proved)
                })
            })
    }

    /// Writes a new notebook.
    fn write(
        mut self,
        to: &Path,
        clock: Box<dyn Clock>,
        randomness: Box<dyn Randomness>,
    ) -> Result<Salvaged, StoreError> {
        let mut salvaged = Salvaged {
            set_aside: None,
            kept: 0,
            from_backup: 0,
            unproved: 0,
            lost: 0,
            lost_between: None,
            end_unknown: self.heads.is_none() || self.end_unknown,
            heads: 0,
            settings_kept: self.settings.is_some() && !self.settings_altered,
            seals_lost: 0,
        };
        let mut notebook = Notebook::open_alone(to, clock, randomness)?;
        let heads = self.heads.take().unwrap_or_default();
        // A series of which nothing but its end could be read is lost whole.
        for device in heads.keys() {
            self.found.0.entry(*device).or_default();
        }
        let horizon = notebook.horizon();
        let tx = notebook.transaction()?;
        let chosen: BTreeMap<Uuid, Series> = self
            .found
            .0
            .iter()
            .map(|(device, found)| (*device, choose(found, heads.get(device))))
            .collect();
        let proved = prove(&self.seals, &chosen)?;
        salvaged.seals_lost = self
            .seals
            .sealed_series()
            .iter()
            .filter(|series| chosen.contains_key(series) && !proved.contains_key(series))
            .count() as u64;
        for (device, series) in chosen {
            salvaged.count(&series);
            append(&tx, device, series, horizon)?;
        }
        for (series, Proved { writer, seals }) in &proved {
            seal::pin(&tx, *series, writer)?;
            for sealed in seals {
                seal::keep(&tx, writer, sealed)?;
            }
        }
        for (name, value) in self.settings.unwrap_or_default() {
            setting::keep(&tx, &name, &value)?;
        }
        for (name, mark) in self.photos.kept {
            marks::keep(&tx, name, mark)?;
        }
        tx.commit()?;
        notebook.rebuild()?;
        salvaged.heads = notebook.db().query_row(
            "SELECT count(*) FROM head WHERE read_hlc IS NOT NULL AND NOT removed",
            [],
            |row| row.get(0),
        )?;
        let made = check::check(notebook.db())?;
        if let Some(fault) = made.first_fault() {
            return Err(StoreError::Damaged(fault));
        }
        // One file, with nothing beside it.
        notebook.close()?;
        Ok(salvaged)
    }
}

impl Salvaged {
    fn count(&mut self, series: &Series) {
        self.kept += series.kept.len() as u64;
        self.lost += series.lost.len() as u64;
        for (read, proved) in &series.kept {
            self.from_backup += u64::from(read.from_backup);
            self.unproved += u64::from(!proved);
        }
        for lost in &series.lost {
            let before = series
                .kept
                .iter()
                .rev()
                .find(|(read, _)| read.change.seq < *lost);
            let after = series.kept.iter().find(|(read, _)| read.change.seq > *lost);
            let at = |read: &Read| read.change.recorded_at();
            let (before, after) = (
                before.map(|(read, _)| at(read)),
                after.map(|(read, _)| at(read)),
            );
            let Some((from, to)) = before.or(after).zip(after.or(before)) else {
                continue;
            };
            self.lost_between = Some(match self.lost_between {
                Some((first, last)) => (first.min(from), last.max(to)),
                None => (from, to),
            });
        }
    }
}

/// The key and seals of each series that fit what is kept of it.
fn prove(
    found: &FoundSeals,
    chosen: &BTreeMap<Uuid, Series>,
) -> Result<BTreeMap<Uuid, Proved>, StoreError> {
    let changes_of = |series: Uuid| {
        chosen
            .get(&series)
            .map_or_else(Vec::new, |series| up_to_a_gap(&series.kept))
    };
    let mut proved = BTreeMap::new();
    for series in chosen.keys() {
        if let Some(fits) = found.proved(*series, &changes_of(*series))? {
            proved.insert(*series, fits);
        }
    }
    let keys: BTreeSet<PublicKey> = proved.values().map(|fits| fits.writer.key).collect();
    for series in chosen.keys() {
        if let Some(writer) = found.unused_key(*series, &keys, changes_of)? {
            let seals = Vec::new();
            proved.insert(*series, Proved { writer, seals });
        }
    }
    Ok(proved)
}

/// Adds what was kept of a series: as it was up to the first gap, and what comes
/// behind it as a series of its own.
fn append(db: &Connection, device: Uuid, series: Series, horizon: Hlc) -> Result<(), StoreError> {
    let mut branch: Option<Uuid> = None;
    let mut next = 1;
    for (mut read, _) in series.kept {
        if branch.is_none() && read.change.seq != next {
            // Of the content, so that it would be the same on every device.
            let first = read.change.seq.to_string();
            let digest: String = read
                .digest
                .iter()
                .map(|byte| format!("{byte:02x}"))
                .collect();
            branch = Some(content_id(
                None,
                &["salvaged", &device.simple().to_string(), &first, &digest],
            ));
            next = 1;
        }
        read.change.device = branch.unwrap_or(device);
        read.change.seq = next;
        log::append(db, &read.change, read.received_ms, horizon)?;
        next += 1;
    }
    Ok(())
}

fn read(row: &Row, from_backup: bool) -> rusqlite::Result<Read> {
    let hlc: i64 = row.get(3)?;
    Ok(Read {
        change: log::Change {
            device: row.get(1)?,
            seq: row.get(2)?,
            hlc: Hlc::new(hlc).ok_or(rusqlite::Error::IntegralValueOutOfRange(3, hlc))?,
            recorded_ms: row.get(4)?,
            offset_min: row.get(5)?,
            kind: row.get(6)?,
            body: row.get(7)?,
            raw: row.get(10)?,
        },
        received_ms: row.get(8)?,
        digest: row.get(9)?,
        from_backup,
    })
}
