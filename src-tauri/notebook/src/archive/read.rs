//! Reading an archive into a notebook.

use std::collections::BTreeMap;
use std::collections::btree_map::Entry;
use std::io::{BufRead, Read, Seek};
use std::thread;
use std::time::Duration;

use chrono::{DateTime, FixedOffset};
use rusqlite::Connection;
use serde::{Deserialize, Serialize};
use uuid::Uuid;

use super::entries::Entries;
use super::line::Lines;
use super::manifest::hex;
use super::seals::Seals;
use super::{ArchiveFault, PHOTOS};
use crate::apply::{self, Batch, Touched, Waiting};
use crate::export::photo_file;
use crate::log::{self, Change, Digest};
use crate::notebook::Intake;
use crate::notebook::branch::branch_id;
use crate::open;
use crate::photo::marks::{self, Mark};
use crate::photo::{PhotoFiles, PhotoName};
use crate::seal::Sealed;
use crate::views::photos;
use crate::{Notebook, StoreError};
use kinds::{Keep, Settings};
use wire::seal::Writer;

/// What an archive holds, and what of it is new here.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct ArchiveReview {
    /// When it was made, by the maker's clock.
    pub made_at: DateTime<FixedOffset>,
    /// Devices that wrote in it.
    pub devices: u32,
    /// Changes in it.
    pub changes: u64,
    /// Of them new here.
    pub new: u64,
    /// Plantings that were not here before, removed ones among them.
    pub new_plantings: u32,
    /// Walks that were not here before, removed ones among them.
    pub new_walks: u32,
    /// Heads that were not here before, removed ones among them.
    pub new_heads: u32,
    /// Series that this notebook and the archive went on with apart; the
    /// archive's part is kept as a series of its own.
    pub parted: u32,
    /// Photos in it.
    pub photos: u32,
    /// Whether the archive's settings are taken over: by an empty notebook.
    pub settings: bool,
}

/// A log of no more bytes is stored in one transaction.
const AT_ONCE: u64 = 1 << 20;
/// Bytes of bodies, or so, that one transaction takes in of a longer one.
const PAGE: usize = 128 * 1024;
/// Stops and heads that a rehearsal stores together.
const REHEARSED: usize = 100_000;
/// Time between two pages, in which a tap that waits has the notebook.
const FREE: Duration = Duration::from_millis(4);

/// Longest photo, as an exchange has it.
const LONGEST_PHOTO: u64 = 16 << 20;

/// Most bytes of the list of seals: one for each of 400,000 pages.
const MOST_SEALS: u64 = 64 << 20;

/// Why the transaction ended without being kept.
enum Ended {
    Reviewed(Box<ArchiveReview>),
    Failed(ArchiveFault),
}

impl<E: Into<ArchiveFault>> From<E> for Ended {
    fn from(error: E) -> Self {
        Ended::Failed(error.into())
    }
}

/// Reads an archive into a notebook, a long one page by page (see
/// [`crate::archive`]); with [`Keep::Nothing`] it says what that would do. `going_on` is told now and then
/// how many bytes were read, and may end it.
///
/// Changes that are here already are passed over. Where the archive and the
/// notebook went on apart under one device's numbers, what is here stays, and
/// the archive's part goes on under a series of its own, as an exchange would
/// have it; if the device is this one, it writes under a new id from then on.
///
/// # Errors
/// [`ArchiveFault`]. Where something is wrong with the archive, nothing is stored; where
/// the store fails, pages that were taken in stay.
pub fn read<R: Read + Seek>(
    notebook: &mut Notebook,
    from: R,
    keep: Keep,
    going_on: &mut dyn FnMut(u64) -> bool,
) -> Result<(ArchiveReview, Option<Settings>, Touched), ArchiveFault> {
    let mut archive = Entries::open(from)?;
    archive.check_all(&mut *going_on)?;
    check_photos(&archive)?;
    let looked = look(notebook, &mut archive)?;
    let settings = looked.settings.clone();
    if comes_in_pages(notebook, &archive, &looked)? {
        let (review, touched) = match keep {
            Keep::GoodRows => take_in_pages(notebook, &mut archive, &looked)?,
            Keep::Nothing => (
                rehearse(notebook, &mut archive, &looked)?,
                Touched::default(),
            ),
        };
        return Ok((review, settings, touched));
    }
    let fresh = notebook.fresh_device()?;
    let mut kept = Kept {
        files: notebook.photos.clone(),
        new: Vec::new(),
    };
    let outcome = notebook.take_in(|intake| -> Result<ArchiveReview, Ended> {
        let (before, ends) = (plantings(intake.db())?, log::heads(intake.db())?);
        let parted = take_all(intake, &mut archive, &looked.parted, fresh)?;
        intake.keep_seals(&looked.seals)?;
        let came = log::heads(intake.db())?.into_keys();
        let (new_walks, new_heads) = told_since(intake.db(), came, &ends)?;
        let review = ArchiveReview {
            new: intake.new_changes(),
            new_plantings: plantings(intake.db())?.saturating_sub(before),
            new_walks,
            new_heads,
            parted,
            ..looked.review(&archive)
        };
        match keep {
            Keep::GoodRows => {
                keep_photos(intake.db(), &mut kept, &mut archive)?;
                Ok(review)
            }
            // What was taken in is rolled back.
            Keep::Nothing => Err(Ended::Reviewed(Box::new(review))),
        }
    });
    match outcome {
        Ok((review, taken)) => Ok((review, settings, taken.touched)),
        Err(Ended::Reviewed(review)) => Ok((*review, settings, Touched::default())),
        Err(Ended::Failed(fault)) => {
            kept.let_go(notebook.db())?;
            Err(fault)
        }
    }
}

/// Photos that were kept before the log was stored.
struct Kept {
    /// None for a notebook in memory.
    files: Option<PhotoFiles>,
    new: Vec<PhotoName>,
}

impl Kept {
    /// Takes away what nothing names, since the log was not stored after all: on a
    /// full device its room is the very thing missing.
    fn let_go(self, db: &Connection) -> Result<(), ArchiveFault> {
        for name in self.new {
            if let Some(files) = &self.files
                && !photos::is_named(db, name)?
            {
                files.discard(name);
            }
        }
        Ok(())
    }
}

/// What a first look through the log finds.
struct Looked {
    changes: u64,
    /// Series in which the archive differs from the notebook: from which number
    /// on, and where that part goes on.
    parted: BTreeMap<Uuid, (u64, Uuid)>,
    /// The archive's settings, where the notebook is empty.
    settings: Option<Settings>,
    /// The seals that were found to fit.
    seals: Vec<(Writer, Sealed)>,
}

impl Looked {
    /// What is known of an archive before anything of it is stored.
    fn review<R>(&self, archive: &Entries<R>) -> ArchiveReview {
        ArchiveReview {
            made_at: archive.manifest.made_at,
            devices: number(archive.manifest.series.len()),
            changes: self.changes,
            new: 0,
            new_plantings: 0,
            new_walks: 0,
            new_heads: 0,
            parted: 0,
            photos: number(photos_of(archive).count()),
            settings: self.settings.is_some(),
        }
    }
}

/// Whether an archive is long, and only brings more of series that others write: where
/// it has something of this device's own, a tap between two pages could take a number
/// that the next page brings.
fn comes_in_pages<R: Read + Seek>(
    notebook: &Notebook,
    archive: &Entries<R>,
    looked: &Looked,
) -> Result<bool, ArchiveFault> {
    let own = notebook.device();
    let here = log::heads(notebook.db())?
        .get(&own)
        .map_or(0, |end| end.seq);
    let said = archive.manifest.series.get(&own);
    let brings_own = said.is_some_and(|said| said.changes > here);
    let log = archive.listed(super::LOG).map_or(0, |log| log.size);
    Ok(log > AT_ONCE && looked.parted.is_empty() && !brings_own)
}

/// Stores a long log page by page.
fn take_in_pages<R: Read + Seek>(
    notebook: &mut Notebook,
    archive: &mut Entries<R>,
    looked: &Looked,
) -> Result<(ArchiveReview, Touched), ArchiveFault> {
    let ends = log::heads(notebook.db())?;
    let (mut review, mut touched) = (looked.review(archive), Touched::default());
    archive.log(|from| {
        let mut lines = Lines::of(from);
        loop {
            let page = next_page(&mut lines)?;
            if page.is_empty() {
                return Ok(());
            }
            let seals = seals_of(&page, &looked.seals);
            let (shown, came) = notebook.take_in(|intake| -> Result<u32, ArchiveFault> {
                let before = plantings(intake.db())?;
                for change in &page {
                    intake.take(change)?;
                }
                intake.settle()?;
                intake.keep_seals(&seals)?;
                Ok(plantings(intake.db())?.saturating_sub(before))
            })?;
            review.new += came.new as u64;
            review.new_plantings = review.new_plantings.saturating_add(shown);
            touched.join(came.touched);
            thread::sleep(FREE);
        }
    })?;
    let db = notebook.db();
    let of_archive = archive.manifest.series.keys().copied();
    (review.new_walks, review.new_heads) = told_since(db, of_archive, &ends)?;
    let mut kept = Kept {
        files: notebook.photos.clone(),
        new: Vec::new(),
    };
    keep_photos(db, &mut kept, archive)?;
    Ok((review, touched))
}

/// Says what a long log would bring, in a store of its own in memory: taps go on meanwhile.
fn rehearse<R: Read + Seek>(
    notebook: &Notebook,
    archive: &mut Entries<R>,
    looked: &Looked,
) -> Result<ArchiveReview, ArchiveFault> {
    let db = notebook.db();
    let held = log::heads(db)?;
    let waiting = Waiting::ByClock {
        own: notebook.device(),
        horizon: notebook.horizon(),
    };
    let apart = open::open_in_memory()?;
    apart.execute_batch("BEGIN").map_err(StoreError::from)?;
    let mut review = looked.review(archive);
    let mut batch = Batch::default();
    archive.log(|from| {
        let mut lines = Lines::of(from);
        while let Some(change) = lines.next()? {
            if change.seq <= held.get(&change.device).map_or(0, |head| head.seq) {
                continue;
            }
            review.new += 1;
            apply::take(&apart, &change, &waiting, &mut batch)?;
            if batch.count() >= REHEARSED {
                batch.store(&apart)?;
            }
        }
        Ok(())
    })?;
    batch.store(&apart)?;
    review.new_plantings = shown_beside(&apart, db, "planting", "name")?;
    review.new_walks = shown_beside(&apart, db, "walk", "made_hlc")?;
    review.new_heads = shown_beside(&apart, db, "head", "read_hlc")?;
    Ok(review)
}

/// Rows of a view that are shown in `apart` and are not told in `db`; `told` is a column
/// that is empty in those which no fact has told of.
fn shown_beside(
    apart: &Connection,
    db: &Connection,
    view: &str,
    batch: &str,
) -> Result<u32, StoreError> {
    let mut shown = apart.prepare(&format!(
        "SELECT id FROM {view} WHERE {batch} IS NOT NULL AND NOT removed ORDER BY id"
    ))?;
    let mut here = db.prepare(&format!(
        "SELECT 1 FROM {view} WHERE id = ?1 AND {batch} IS NOT NULL"
    ))?;
    let mut rows = shown.query([])?;
    let mut count = 0;
    while let Some(row) = rows.next()? {
        let id: Uuid = row.get(0)?;
        count += u32::from(!here.exists([id])?);
    }
    Ok(count)
}

/// The next changes of a log; none at its end.
fn next_page<B: BufRead>(lines: &mut Lines<B>) -> Result<Vec<Change>, ArchiveFault> {
    let (mut page, mut bytes) = (Vec::new(), 0);
    while bytes < PAGE
        && let Some(change) = lines.next()?
    {
        bytes += change.body.len() + change.raw.as_ref().map_or(0, Vec::len);
        page.push(change);
    }
    Ok(page)
}

/// Of the seals those at the changes of a page.
fn seals_of(page: &[Change], seals: &[(Writer, Sealed)]) -> Vec<(Writer, Sealed)> {
    let mut spans: BTreeMap<Uuid, (u64, u64)> = BTreeMap::new();
    for change in page {
        let span = spans
            .entry(change.device)
            .or_insert((change.seq, change.seq));
        *span = (span.0.min(change.seq), span.1.max(change.seq));
    }
    let is_at = |sealed: &Sealed| {
        spans
            .get(&sealed.series)
            .is_some_and(|(first, last)| (*first..=*last).contains(&sealed.seq))
    };
    let of_page = seals.iter().filter(|(_, sealed)| is_at(sealed));
    of_page.copied().collect()
}

/// Reads the log without storing: every line a change, every series whole and as
/// the list of contents says, and where it differs from what is here.
fn look<R: Read + Seek>(
    notebook: &Notebook,
    archive: &mut Entries<R>,
) -> Result<Looked, ArchiveFault> {
    let db = notebook.db();
    let held = log::heads(db)?;
    let mut ends: BTreeMap<Uuid, (u64, Digest)> = BTreeMap::new();
    let mut parted = BTreeMap::new();
    let mut changes = 0;
    let own = notebook.device();
    let mut seals = Seals::new(notebook, listed_seals(archive)?)?;
    archive.log(|from| {
        let mut lines = Lines::of(from);
        while let Some(change) = lines.next()? {
            changes += 1;
            let before = ends.get(&change.device);
            let next = before.map_or(0, |(seq, _)| *seq) + 1;
            if change.seq != next {
                return Err(lines.fault(&format!("it has number {}, not {next}", change.seq)));
            }
            let digest = change.digest(before.map(|(_, digest)| digest));
            ends.insert(change.device, (change.seq, digest));
            let here = held.get(&change.device).map_or(0, |head| head.seq);
            if change.seq <= here
                && !parted.contains_key(&change.device)
                && log::change_at(db, change.device, change.seq)?.as_ref() != Some(&change)
            {
                let (root, at) = seals.root(change.device, change.seq);
                let to = branch_id(root, at, &change)?;
                parted.insert(change.device, (change.seq, to));
            }
            let from = parted.get(&change.device).map(|(from, _)| *from);
            let new = change.seq > here || from.is_some();
            if !seals.look(&change, new, from)? {
                let (device, seq) = (change.device, change.seq);
                if device != own {
                    return Err(ArchiveFault::NotSigned { device, seq });
                }
                if let Entry::Vacant(first) = parted.entry(device) {
                    first.insert((seq, branch_id(device, seq, &change)?));
                }
            }
        }
        Ok(())
    })?;
    let fits = archive.manifest.series.len() == ends.len()
        && ends.iter().all(|(device, (seq, digest))| {
            archive
                .manifest
                .series
                .get(device)
                .is_some_and(|said| said.changes == *seq && said.digest == hex(digest))
        });
    if !fits {
        return Err(ArchiveFault::Damaged(super::LOG.to_owned()));
    }
    let empty = held.is_empty();
    let settings = match archive.listed(super::SETTINGS) {
        Some(listed) if empty && listed.size < 1 << 20 => {
            archive.with(super::SETTINGS, |from| {
                // Settings of another version are no reason to refuse the notebook.
                Ok(serde_json::from_reader(from).ok())
            })?
        }
        _ => None,
    };
    Ok(Looked {
        changes,
        seals: seals.kept(&parted),
        parted,
        settings,
    })
}

/// What the archive lists of seals; older ones have no list.
fn listed_seals<R: Read + Seek>(
    archive: &mut Entries<R>,
) -> Result<Vec<super::seals::Listed>, ArchiveFault> {
    match archive.listed(super::SEALS) {
        None => Ok(Vec::new()),
        Some(listed) if listed.size > MOST_SEALS => {
            Err(ArchiveFault::Damaged(super::SEALS.to_owned()))
        }
        Some(_) => archive.with(super::SEALS, |from| {
            serde_json::from_reader(from)
                .map_err(|_| ArchiveFault::Damaged(super::SEALS.to_owned()))
        }),
    }
}

/// Takes in every change; returns how many series had parted.
fn take_all<R: Read + Seek>(
    intake: &mut Intake,
    archive: &mut Entries<R>,
    parted: &BTreeMap<Uuid, (u64, Uuid)>,
    fresh: Uuid,
) -> Result<u32, ArchiveFault> {
    archive.log(|from| {
        let mut lines = Lines::of(from);
        while let Some(change) = lines.next()? {
            intake.take(&under_its_series(change, parted))?;
        }
        Ok(intake.settle()?)
    })?;
    if parted.contains_key(&intake.own()) {
        intake.write_as(fresh)?;
    }
    Ok(number(parted.len()))
}

/// Entries that are photos by their name.
fn photos_of<R>(archive: &Entries<R>) -> impl Iterator<Item = PhotoName> {
    let entries = archive.manifest.entries.iter();
    entries.filter_map(|entry| photo_of(&entry.name))
}

fn photo_of(entry: &str) -> Option<PhotoName> {
    let name = entry.strip_prefix(PHOTOS)?.strip_suffix(".jpg")?;
    name.parse().ok()
}

/// A photo's name is its digest, which was compared with its content before; so
/// none is refused once others have been kept.
fn check_photos<R>(archive: &Entries<R>) -> Result<(), ArchiveFault> {
    let spoiled = archive.manifest.entries.iter().find(|entry| {
        photo_of(&entry.name)
            .is_some_and(|name| entry.sha256 != hex(&name.0) || entry.size > LONGEST_PHOTO)
    });
    match spoiled {
        Some(entry) => Err(ArchiveFault::Damaged(entry.name.clone())),
        None => Ok(()),
    }
}

/// Keeps the photos that the log tells of, each if it is what its name says.
fn keep_photos<R: Read + Seek>(
    db: &Connection,
    kept: &mut Kept,
    archive: &mut Entries<R>,
) -> Result<(), ArchiveFault> {
    let Some(files) = &kept.files else {
        return Ok(());
    };
    for name in photos_of(archive).collect::<Vec<_>>() {
        let entry = photo_file(name);
        if !photos::is_named(db, name)? {
            continue;
        }
        let bytes = archive.with(&entry, |from| {
            let mut bytes = Vec::new();
            from.take(LONGEST_PHOTO + 1).read_to_end(&mut bytes)?;
            Ok(bytes)
        })?;
        if bytes.len() as u64 > LONGEST_PHOTO || PhotoName::of(&bytes) != name {
            return Err(ArchiveFault::Damaged(entry));
        }
        if files.length(name).is_none() {
            kept.new.push(name);
        }
        files.put(name, &bytes)?;
        // It is here now, and missed should it go.
        marks::change(db, name, |mark| Mark {
            freed: false,
            ..mark
        })?;
    }
    Ok(())
}

/// The change under the number that it has here.
fn under_its_series(mut change: Change, parted: &BTreeMap<Uuid, (u64, Uuid)>) -> Change {
    if let Some((from, to)) = parted.get(&change.device)
        && change.seq >= *from
    {
        change.seq = change.seq - from + 1;
        change.device = *to;
    }
    change
}

/// Plantings that are shown.
fn plantings(db: &Connection) -> Result<u32, crate::StoreError> {
    Ok(db
        .prepare_cached("SELECT count(*) FROM planting WHERE name IS NOT NULL AND NOT removed")?
        .query_row([], |row| row.get(0))?)
}

/// Walks and heads of these devices that are shown and that came after these ends: what else was removed
/// meanwhile makes them no fewer.
fn told_since(
    db: &Connection,
    devices: impl Iterator<Item = Uuid>,
    ends: &BTreeMap<Uuid, log::Head>,
) -> Result<(u32, u32), crate::StoreError> {
    let mut batch = db.prepare_cached(
        "SELECT
           (SELECT count(*) FROM walk
            WHERE made_device = ?1 AND made_seq > ?2 AND NOT removed),
           (SELECT count(*) FROM head
            WHERE read_device = ?1 AND read_seq > ?2 AND NOT removed)",
    )?;
    let (mut walks, mut heads) = (0, 0);
    for device in devices {
        let end = ends.get(&device).map_or(0, |end| end.seq);
        let (of_walks, of_heads): (u32, u32) =
            batch.query_row((device, end), |row| Ok((row.get(0)?, row.get(1)?)))?;
        walks += of_walks;
        heads += of_heads;
    }
    Ok((walks, heads))
}

fn number(count: usize) -> u32 {
    u32::try_from(count).unwrap_or(u32::MAX)
}
