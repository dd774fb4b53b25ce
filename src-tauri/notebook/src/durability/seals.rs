//! Which keys and seals of a notebook its log proves.
//!
//! A seal proves itself: under the key of its series, its signature fits the chain of
//! the changes that lie here, or it does not ([`crate::seal`]). So a look tells apart
//! what was altered. Where a seal still fits what it says itself, and not the changes
//! up to it, the changes are not those that the device signed. Where it does not even
//! fit that, the seal or the key was altered, and the log is as good as before: such
//! a seal is let go, and an exchange brings another one.
//!
//! A seal of more changes than are held here is no fault: it says something of
//! changes that others hold.

use std::collections::{BTreeMap, BTreeSet};
use std::fmt;
use std::path::Path;

use rusqlite::{Connection, Row};
use uuid::Uuid;

use super::loose_seals::{self, Loose};
use crate::disk::chain::Read;
use crate::error::StoreError;
use crate::log::{self, Change};
use crate::notebook::Notebook;
use crate::notebook::branch::branch_id;
use crate::seal::{self, Sealed};
use wire::seal::{Link, Origin, PublicKey, Signature, Writer};

/// Bytes of changes read at once.
const PIECE: usize = 1 << 20;
/// Readings of one row that may differ.
const OPTIONS: usize = 8;

/// A seal, or a key with all its seals, that is not what was kept.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct SealFault {
    /// Series that was sealed.
    pub series: Uuid,
    /// Number of the seal; none where the key fits none of them.
    pub seq: Option<u64>,
}

impl fmt::Display for SealFault {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        let series = self.series;
        match self.seq {
            Some(seq) => write!(
                formatter,
                "the seal of device {series} at change {seq} is not what was kept"
            ),
            None => write!(
                formatter,
                "the key of device {series} does not fit its seals"
            ),
        }
    }
}

/// What a look at the keys and seals found.
#[derive(Debug, Default)]
pub(super) struct Looked {
    /// Series that hold other changes than their device signed, each with the number
    /// of the first seal that says so.
    pub unsigned: Vec<(Uuid, u64)>,
    /// Seals that were altered themselves.
    pub altered: Vec<SealFault>,
}

/// Compares every seal with the log. Reads only.
///
/// # Errors
/// When the store fails.
pub(super) fn look(db: &Connection) -> Result<Looked, StoreError> {
    let writers: BTreeMap<Uuid, Writer> = seal::writers(db)?.into_iter().collect();
    let mut looked = Looked::default();
    for (series, seals) in kept(db)? {
        look_at(db, series, writers.get(&series), &seals, &mut looked)?;
    }
    Ok(looked)
}

fn kept(db: &Connection) -> Result<BTreeMap<Uuid, Vec<Sealed>>, StoreError> {
    let mut statement =
        db.prepare("SELECT device, seq, signature, link FROM seal ORDER BY device, seq")?;
    let mut rows = statement.query([])?;
    let mut kept: BTreeMap<Uuid, Vec<Sealed>> = BTreeMap::new();
    while let Some(row) = rows.next()? {
        let sealed = Sealed {
            series: row.get(0)?,
            seq: row.get(1)?,
            signature: Signature::from_bytes(row.get(2)?),
            link: Link(row.get(3)?),
        };
        kept.entry(sealed.series).or_default().push(sealed);
    }
    Ok(kept)
}

fn look_at(
    db: &Connection,
    series: Uuid,
    writer: Option<&Writer>,
    seals: &[Sealed],
    looked: &mut Looked,
) -> Result<(), StoreError> {
    let fits = |sealed: &Sealed| {
        writer
            .is_some_and(|writer| writer.sealed(series, sealed.seq, sealed.link, &sealed.signature))
    };
    let (fitting, altered): (Vec<&Sealed>, Vec<&Sealed>) = seals.iter().partition(|it| fits(it));
    let all = SealFault { series, seq: None };
    let Some(writer) = writer.filter(|_| !fitting.is_empty()) else {
        looked.altered.push(all);
        return Ok(());
    };
    if let Some(seq) = first_unlinked(db, series, writer, &fitting)? {
        // Where a branch begins is kept with its key, and nothing signs that by itself.
        if writer.origin.is_some() && fitting.first().is_some_and(|first| first.seq == seq) {
            looked.altered.push(all);
            return Ok(());
        }
        looked.unsigned.push((series, seq));
    }
    looked
        .altered
        .extend(altered.iter().map(|sealed| SealFault {
            series,
            seq: Some(sealed.seq),
        }));
    Ok(())
}

/// The first seal whose link is not that of the changes since the seal before it.
fn first_unlinked(
    db: &Connection,
    series: Uuid,
    writer: &Writer,
    seals: &[&Sealed],
) -> Result<Option<u64>, StoreError> {
    let mut seals = seals.iter();
    let mut next = seals.next();
    let (mut at, mut link) = (0, writer.start());
    while next.is_some() {
        let page = log::after(db, series, at, PIECE)?;
        if page.is_empty() {
            // The others are of changes that are not here.
            break;
        }
        for change in page {
            link = link.after(&log::pack(&change)?);
            at = change.seq;
            if next.is_some_and(|sealed| sealed.seq == at) {
                if next.is_some_and(|sealed| sealed.link != link) {
                    return Ok(Some(at));
                }
                next = seals.next();
            }
        }
    }
    Ok(None)
}

/// Lets go of seals and keys that were altered, so that the next exchange brings them
/// anew.
///
/// # Errors
/// When the store fails; all stay as they are then.
pub fn mend(notebook: &mut Notebook, altered: &[SealFault]) -> Result<(), StoreError> {
    let tx = notebook.transaction()?;
    for SealFault { series, seq } in altered {
        match seq {
            Some(seq) => {
                tx.execute(
                    "DELETE FROM seal WHERE device = ?1 AND seq = ?2",
                    (series, seq),
                )?;
            }
            None => {
                tx.execute("DELETE FROM seal WHERE device = ?1", [series])?;
                tx.execute("DELETE FROM writer WHERE device = ?1", [series])?;
            }
        }
    }
    Ok(tx.commit()?)
}

/// What was read of keys and seals in a damaged notebook and its backups.
#[derive(Debug, Default)]
pub(super) struct FoundSeals {
    writers: BTreeMap<Uuid, Vec<Writer>>,
    seals: BTreeMap<Uuid, BTreeMap<u64, Vec<Signature>>>,
}

/// A key and the seals that fit a series.
#[derive(Debug, Clone)]
pub(super) struct Proved {
    pub writer: Writer,
    pub seals: Vec<Sealed>,
}

impl FoundSeals {
    /// Reads both tables; true where they could be read to their ends.
    pub(super) fn through_sqlite(&mut self, db: &Connection) -> bool {
        match db.column_exists(None::<&str>, "seal", "link") {
            // Older than the tables.
            Ok(false) => return true,
            Ok(true) => {}
            Err(_) => return false,
        }
        let writers = "SELECT device, key, origin, origin_seq, origin_link FROM writer";
        let seals = "SELECT device, seq, signature FROM seal";
        // Both, whatever comes of the first.
        let read = [
            self.each_row(db, writers, loose_writer),
            self.each_row(db, seals, loose_seal),
        ];
        read.iter().all(Result::is_ok)
    }

    fn each_row(
        &mut self,
        db: &Connection,
        select: &str,
        read: fn(&Row) -> rusqlite::Result<Loose>,
    ) -> rusqlite::Result<()> {
        let mut statement = db.prepare(select)?;
        let mut rows = statement.query([])?;
        while let Some(row) = rows.next()? {
            if let Ok(loose) = read(row) {
                self.add(loose);
            }
        }
        Ok(())
    }

    /// Reads the file's loose pages.
    pub(super) fn through_pages(&mut self, notebook: &Path) {
        loose_seals::each(notebook, |loose| self.add(loose));
    }

    fn add(&mut self, loose: Loose) {
        fn keep<T: PartialEq>(known: &mut Vec<T>, read: T) {
            if known.len() < OPTIONS && !known.contains(&read) {
                known.push(read);
            }
        }
        match loose {
            Loose::Writer(series, writer) => keep(self.writers.entry(series).or_default(), writer),
            Loose::Seal(series, seq, signature) => keep(
                self.seals
                    .entry(series)
                    .or_default()
                    .entry(seq)
                    .or_default(),
                signature,
            ),
        }
    }

    /// Series of which seals were read.
    pub(super) fn sealed_series(&self) -> BTreeSet<Uuid> {
        self.seals.keys().copied().collect()
    }

    /// The key and the seals that fit the changes of a series, which begin with its
    /// first one and have no gap.
    ///
    /// # Errors
    /// When a change cannot be packed.
    pub(super) fn proved(
        &self,
        series: Uuid,
        changes: &[&Change],
    ) -> Result<Option<Proved>, StoreError> {
        let (Some(writers), Some(seals)) = (self.writers.get(&series), self.seals.get(&series))
        else {
            return Ok(None);
        };
        let mut best: Option<Proved> = None;
        for writer in writers {
            let seals = fitting(series, writer, seals, changes)?;
            let most = best.as_ref().map_or(0, |best| best.seals.len());
            if seals.len() > most {
                let writer = *writer;
                best = Some(Proved { writer, seals });
            }
        }
        Ok(best)
    }

    /// The key of a series that carries no seal yet, as of a branch that was not given
    /// away: one that seals another series, and for a branch the place where it parts.
    ///
    /// # Errors
    /// When a change cannot be packed.
    pub(super) fn unused_key<'c>(
        &self,
        series: Uuid,
        keys: &BTreeSet<PublicKey>,
        changes_of: impl Fn(Uuid) -> Vec<&'c Change>,
    ) -> Result<Option<Writer>, StoreError> {
        if self.seals.contains_key(&series) {
            return Ok(None);
        }
        for writer in self.writers.get(&series).into_iter().flatten() {
            let parts_there = match writer.origin {
                None => true,
                Some(origin) => parts_at(series, &origin, &changes_of)?,
            };
            if keys.contains(&writer.key) && parts_there {
                return Ok(Some(*writer));
            }
        }
        Ok(None)
    }
}

fn fitting(
    series: Uuid,
    writer: &Writer,
    seals: &BTreeMap<u64, Vec<Signature>>,
    changes: &[&Change],
) -> Result<Vec<Sealed>, StoreError> {
    let mut link = writer.start();
    let mut fitting = Vec::new();
    for change in changes {
        link = link.after(&log::pack(change)?);
        let seq = change.seq;
        let read = seals.get(&seq).into_iter().flatten();
        let mut read = read.filter(|signature| writer.sealed(series, seq, link, signature));
        if let Some(signature) = read.next().copied() {
            fitting.push(Sealed {
                series,
                seq,
                signature,
                link,
            });
        }
    }
    Ok(fitting)
}

/// Whether a branch parts from its origin where its key says so.
fn parts_at<'c>(
    series: Uuid,
    origin: &Origin,
    changes_of: &impl Fn(Uuid) -> Vec<&'c Change>,
) -> Result<bool, StoreError> {
    let branch = changes_of(series);
    let Some(first) = branch.first() else {
        return Ok(false);
    };
    if branch_id(origin.series, origin.seq.saturating_add(1), first)? != series {
        return Ok(false);
    }
    let before = changes_of(origin.series);
    let Some(before) = usize::try_from(origin.seq)
        .ok()
        .and_then(|seq| before.get(..seq))
    else {
        return Ok(false);
    };
    let mut link = Link::START;
    for change in before {
        link = link.after(&log::pack(change)?);
    }
    Ok(link == origin.link)
}

fn loose_writer(row: &Row) -> rusqlite::Result<Loose> {
    let series: Option<Uuid> = row.get(2)?;
    let origin = match series {
        None => None,
        Some(series) => Some(Origin {
            series,
            seq: row.get(3)?,
            link: Link(row.get(4)?),
        }),
    };
    let key = PublicKey(row.get(1)?);
    Ok(Loose::Writer(row.get(0)?, Writer { key, origin }))
}

fn loose_seal(row: &Row) -> rusqlite::Result<Loose> {
    let signature = Signature::from_bytes(row.get(2)?);
    Ok(Loose::Seal(row.get(0)?, row.get(1)?, signature))
}

/// The changes of a series as they were read, up to its first gap.
pub(super) fn up_to_a_gap(kept: &[(Read, bool)]) -> Vec<&Change> {
    (1..)
        .zip(kept)
        .take_while(|(seq, (read, _))| read.change.seq == *seq)
        .map(|(_, (read, _))| &read.change)
        .collect()
}
