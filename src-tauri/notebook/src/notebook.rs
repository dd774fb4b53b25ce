//! The notebook: one connection that writes, one change at a time.

pub mod branch;
pub mod import_ending;
mod intake;
mod photos;
mod settings;
pub mod tell_again;

use std::path::{Path, PathBuf};

use rusqlite::{Connection, OptionalExtension, Transaction, TransactionBehavior};
use uuid::Uuid;

use crate::apply::{self, BATCH_CHANGES, Batch, Touched, Waiting};
use crate::clock::{self, Clock, OnDate, SystemClock};
use crate::disk::last_saved::LastSaved;
use crate::disk::lease::{Lease, OnDisk};
use crate::disk::read_copy::ReadCopy;
use crate::ending::{Ended, Ender};
use crate::error::{IngestError, StoreError};
use crate::fact::{Act, Body, bounds};
use crate::ids::{self, Randomness, SystemRandomness};
use crate::log::{self, Change, Hlc};
use crate::open;
use crate::own_id;
use crate::photo::PhotoFiles;
use crate::seal::{self, Sealed};
use wire::seal::{PublicKey, Signer, Writer as SeriesWriter};

pub(crate) use intake::Intake;

/// An open notebook.
pub struct Notebook {
    db: Connection,
    path: Option<PathBuf>,
    /// Behind the connection, so that it is given up after that is closed.
    lease: Option<Lease>,
    /// Set where a copy is read instead of the file at `path`.
    copy: Option<ReadCopy>,
    device: Uuid,
    clock: Box<dyn Clock>,
    randomness: Box<dyn Randomness>,
    /// Given by whoever keeps the device's secrets; none where they are not at hand.
    signer: Option<Signer>,
    /// Beside the file; none in memory.
    pub photos: Option<PhotoFiles>,
    ended: Ended,
}

/// What came of a page of another device's changes.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Ingested {
    /// Changes that were new.
    pub new: usize,
    /// Changes that were here already, with the same content.
    pub known: usize,
    /// What the new ones touched.
    pub touched: Touched,
}

impl Notebook {
    /// Opens the notebook file at `path`, or makes one.
    ///
    /// # Errors
    /// When the file is something else, was written by a newer version, is
    /// damaged, or cannot be reached.
    pub fn open(
        path: &Path,
        clock: Box<dyn Clock>,
        randomness: Box<dyn Randomness>,
    ) -> Result<Notebook, StoreError> {
        let (db, lease) = open::open(path)?;
        let mut notebook = Notebook::with(db, clock, randomness).map_err(StoreError::or_damage)?;
        notebook.photos = Some(PhotoFiles::beside(path));
        notebook.path = Some(path.to_owned());
        notebook.lease = Some(lease);
        let mut notebook = notebook.settled()?;
        // What cannot be brought to its end now stays for the next opening.
        let _ = import_ending::finish(&mut notebook);
        Ok(notebook)
    }

    /// Opens a file of ours that nobody else knows of.
    pub(crate) fn open_alone(
        path: &Path,
        clock: Box<dyn Clock>,
        randomness: Box<dyn Randomness>,
    ) -> Result<Notebook, StoreError> {
        Notebook::with(open::open_alone(path)?, clock, randomness)?.settled()
    }

    /// Opens the notebook file at `path` by this machine's clock and randomness.
    /// `today` stands for the clock's date where it is given, for the demo and for
    /// rehearsals.
    ///
    /// # Errors
    /// As [`Notebook::open`].
    pub fn open_here(
        path: &Path,
        today: Option<chrono::NaiveDate>,
    ) -> Result<Notebook, StoreError> {
        let clock: Box<dyn Clock> = match today {
            Some(date) => Box::new(OnDate(date)),
            None => Box::new(SystemClock),
        };
        Notebook::open(path, clock, Box::new(SystemRandomness))
    }

    /// A notebook in memory, for tests and simulations.
    ///
    /// # Errors
    /// When SQLite fails.
    pub fn in_memory(
        clock: Box<dyn Clock>,
        randomness: Box<dyn Randomness>,
    ) -> Result<Notebook, StoreError> {
        Notebook::with(open::open_in_memory()?, clock, randomness)?.settled()
    }

    /// With the clock settled, as every notebook that is handed out.
    fn settled(mut self) -> Result<Notebook, StoreError> {
        self.settle_clock()?;
        Ok(self)
    }

    fn with(
        mut db: Connection,
        clock: Box<dyn Clock>,
        mut randomness: Box<dyn Randomness>,
    ) -> Result<Notebook, StoreError> {
        let known: Option<(Uuid, i64)> = db
            .query_row("SELECT id, views FROM this_device", [], |row| {
                Ok((row.get(0)?, row.get(1)?))
            })
            .optional()?;
        let device = if let Some((device, views)) = known {
            own_id::seal_once(&db, device)?;
            if views != apply::VIEWS {
                let horizon = clock::horizon(clock.now().timestamp_millis());
                let tx = db.transaction_with_behavior(TransactionBehavior::Immediate)?;
                apply::rebuild(&tx, device, horizon)?;
                tx.execute("DELETE FROM answer", [])?;
                tx.commit()?;
            }
            device
        } else {
            let device = ids::new_id(clock.now().timestamp_millis(), randomness.as_mut())?;
            db.execute(
                "INSERT INTO this_device (one, id, views, seal) VALUES (1, ?1, ?2, ?3)",
                (device, apply::VIEWS, own_id::seal(device)),
            )?;
            device
        };
        Ok(Notebook {
            db,
            path: None,
            lease: None,
            copy: None,
            device,
            clock,
            randomness,
            signer: None,
            photos: None,
            ended: Ended::default(),
        })
    }

    /// The way to end what this notebook is doing, from another thread.
    pub fn ender(&self) -> Ender {
        Ender::of(&self.db, &self.ended)
    }

    /// Goes on only where nobody has ended it.
    pub fn go_on(&self) -> Result<(), StoreError> {
        self.ended.check()
    }

    /// This device, whose series this notebook writes.
    pub fn device(&self) -> Uuid {
        self.device
    }

    /// Gives the notebook the key with which it seals what it gives away.
    pub fn sign_with(&mut self, signer: Signer) {
        self.signer = Some(signer);
    }

    /// The key with which it seals what it gives away, if it is at hand.
    pub fn signer(&self) -> Option<&Signer> {
        self.signer.as_ref()
    }

    /// The public half of that key.
    pub fn key(&self) -> Option<PublicKey> {
        self.signer.as_ref().map(Signer::key)
    }

    /// Its file; none for a notebook in memory.
    pub fn path(&self) -> Option<&Path> {
        self.path.as_deref()
    }

    /// Closes the file, so that the next start finds it closed.
    ///
    /// # Errors
    /// When something could not be written; everything recorded is on the disk
    /// all the same, and the next start brings it together.
    pub fn close(mut self) -> Result<(), StoreError> {
        self.leave();
        let nothing = Connection::open_in_memory()?;
        let db = std::mem::replace(&mut self.db, nothing);
        Ok(db.close().map_err(|(_, error)| error)?)
    }

    fn leave(&mut self) {
        if let Some(lease) = &mut self.lease {
            lease.leave(&self.db);
        }
    }

    /// This is read from a copy of the notebook at `path`, whose photos lie there.
    pub(crate) fn lies_at(&mut self, path: &Path, copy: ReadCopy) {
        self.photos = Some(PhotoFiles::beside(path));
        self.path = Some(path.to_owned());
        self.copy = Some(copy);
    }

    /// What lay at `path`, where a copy of it is read.
    pub(crate) fn copied_from(&self) -> Option<OnDisk> {
        self.copy.as_ref().map(|copy| copy.found)
    }

    /// The last change that was shown as saved, where that is known.
    pub(crate) fn last_saved(&self) -> Option<LastSaved> {
        self.lease.as_ref()?.named()
    }

    /// Before every transaction that writes.
    fn before_writing(&mut self) -> Result<(), StoreError> {
        match &mut self.lease {
            Some(lease) => lease.before_writing(&self.db),
            None => Ok(()),
        }
    }

    /// After every commit that may have added to the log. What was written stands,
    /// whatever comes of this.
    fn after_writing(&self) {
        if let Some(lease) = &self.lease {
            let _ = lease.after_writing(&self.db);
        }
    }

    /// The latest stamp that counts now.
    pub fn horizon(&self) -> Hlc {
        clock::horizon(self.clock.now().timestamp_millis())
    }

    /// The clock it goes by.
    pub fn clock(&self) -> &dyn Clock {
        self.clock.as_ref()
    }

    /// The database, to read the log ([`crate::log`]) or the views. Writing is
    /// for `Notebook::write` and [`Notebook::ingest`] alone.
    pub fn db(&self) -> &Connection {
        &self.db
    }

    /// Runs `work` in one transaction. What it recorded is on the disk when
    /// this returns; on an error nothing of it is.
    pub fn write<T, E: From<StoreError>>(
        &mut self,
        work: impl FnOnce(&mut Writer) -> Result<T, E>,
    ) -> Result<(T, Touched), E> {
        let done = self.write_in_one_transaction(work)?;
        self.after_writing();
        Ok(done)
    }

    fn write_in_one_transaction<T, E: From<StoreError>>(
        &mut self,
        work: impl FnOnce(&mut Writer) -> Result<T, E>,
    ) -> Result<(T, Touched), E> {
        self.ended.check()?;
        let now = self.clock.now();
        self.before_writing()?;
        let tx = self
            .db
            .transaction_with_behavior(TransactionBehavior::Immediate)
            .map_err(StoreError::from)?;
        // Asked of the file each time: another process may have written, and an
        // exchange may have given this device a new id.
        self.device = this_device(&tx)?;
        let horizon = clock::horizon(now.timestamp_millis());
        let touched = apply::take_due(&tx, horizon)?;
        let seq = log::heads(&tx)?
            .get(&self.device)
            .map_or(0, |head| head.seq);
        let hlc = log::latest_hlc(&tx)?;
        let mut writer = Writer {
            tx,
            device: self.device,
            randomness: self.randomness.as_mut(),
            now_ms: now.timestamp_millis(),
            offset_min: now.offset().local_minus_utc() / 60,
            today: now.date_naive(),
            seq,
            hlc,
            horizon,
            touched,
            batch: Batch::default(),
        };
        let result = work(&mut writer)?;
        writer.settle()?;
        let Writer { tx, touched, .. } = writer;
        forget_answers(&tx, &touched)?;
        tx.commit().map_err(StoreError::from)?;
        Ok((result, touched))
    }

    /// Runs `work`, which writes so much that its pages would not stay in the usual
    /// cache: each would be written and read again many times before it is full.
    pub fn with_large_cache<T, E: From<StoreError>>(
        &mut self,
        work: impl FnOnce(&mut Notebook) -> Result<T, E>,
    ) -> Result<T, E> {
        open::cache(&self.db, open::LARGE_CACHE_KIB)?;
        let written = work(self);
        // Whatever comes of this, what was written stands.
        let _ = open::cache(&self.db, open::CACHE_KIB);
        written
    }

    /// Stores a page of other devices' changes, all or nothing. Each must be
    /// known already, or be the next of its series.
    ///
    /// # Errors
    /// [`IngestError`]; nothing is stored then.
    pub fn ingest(&mut self, page: &[Change]) -> Result<Ingested, IngestError> {
        self.ingest_sealed(page, &[])
    }

    /// The same with the seals that were found to fit the page.
    ///
    /// # Errors
    /// As [`Notebook::ingest`].
    pub fn ingest_sealed(
        &mut self,
        page: &[Change],
        seals: &[(SeriesWriter, Sealed)],
    ) -> Result<Ingested, IngestError> {
        let ((), outcome) = self.take_in(|intake| -> Result<(), IngestError> {
            page.iter().try_for_each(|change| intake.take(change))?;
            Ok(intake.keep_seals(seals)?)
        })?;
        Ok(outcome)
    }

    /// Keeps seals of changes that are held.
    ///
    /// # Errors
    /// When the store fails; none is kept then.
    pub fn keep_seals(&mut self, seals: &[(SeriesWriter, Sealed)]) -> Result<(), StoreError> {
        let tx = self.transaction()?;
        for (writer, sealed) in seals {
            seal::keep(&tx, writer, sealed)?;
        }
        Ok(tx.commit()?)
    }

    /// Runs `work`, which takes in changes one by one, in one transaction. What
    /// it took in is on the disk when this returns; on an error nothing of it is.
    pub(crate) fn take_in<T, E: From<StoreError>>(
        &mut self,
        work: impl FnOnce(&mut Intake) -> Result<T, E>,
    ) -> Result<(T, Ingested), E> {
        let done = self.take_in_one_transaction(work)?;
        self.after_writing();
        self.look_up_device()?;
        Ok(done)
    }

    fn take_in_one_transaction<T, E: From<StoreError>>(
        &mut self,
        work: impl FnOnce(&mut Intake) -> Result<T, E>,
    ) -> Result<(T, Ingested), E> {
        let received_ms = self.clock.now().timestamp_millis();
        let horizon = clock::horizon(received_ms);
        self.before_writing()?;
        let tx = self
            .db
            .transaction_with_behavior(TransactionBehavior::Immediate)
            .map_err(StoreError::from)?;
        let ends = log::heads(&tx)?
            .into_iter()
            .map(|(device, head)| (device, head.seq))
            .collect();
        let own = this_device(&tx)?;
        let mut intake = Intake {
            own,
            received_ms,
            horizon,
            waiting: Waiting::ByClock { own, horizon },
            ends,
            outcome: Ingested {
                touched: apply::take_due(&tx, horizon)?,
                ..Ingested::default()
            },
            batch: Batch::default(),
            tx,
        };
        let result = work(&mut intake)?;
        intake.finish()?;
        let Intake { tx, outcome, .. } = intake;
        forget_answers(&tx, &outcome.touched)?;
        tx.commit().map_err(StoreError::from)?;
        Ok((result, outcome))
    }

    /// Fills the views anew from the log.
    ///
    /// # Errors
    /// When the store fails; the views stay as they were.
    pub fn rebuild(&mut self) -> Result<(), StoreError> {
        let horizon = self.horizon();
        self.before_writing()?;
        let tx = self
            .db
            .transaction_with_behavior(TransactionBehavior::Immediate)?;
        let own = this_device(&tx)?;
        apply::rebuild(&tx, own, horizon)?;
        tx.execute("DELETE FROM answer", [])?;
        tx.commit()?;
        Ok(())
    }

    /// SHA-256 over all views: equal logs give equal views, byte for byte.
    ///
    /// # Errors
    /// When the store fails.
    pub fn view_digest(&self) -> Result<log::Digest, StoreError> {
        apply::digest(&self.db)
    }

    /// An id that this device may take.
    pub(crate) fn fresh_device(&mut self) -> Result<Uuid, StoreError> {
        let now_ms = self.clock.now().timestamp_millis();
        ids::new_id(now_ms, self.randomness.as_mut())
    }

    /// A transaction that writes.
    pub(crate) fn transaction(&mut self) -> Result<Transaction<'_>, StoreError> {
        self.before_writing()?;
        Ok(self
            .db
            .transaction_with_behavior(TransactionBehavior::Immediate)?)
    }

    /// Reads this device's id from the file anew.
    pub(crate) fn look_up_device(&mut self) -> Result<(), StoreError> {
        self.device = this_device(&self.db)?;
        Ok(())
    }

    /// Gives this device a new id, and with it a new series; what it wrote
    /// before stays under the old one. For a device that was copied or set
    /// back and met its own past.
    ///
    /// # Errors
    /// When the store fails; the id stays then.
    pub fn take_new_device_id(&mut self) -> Result<Uuid, StoreError> {
        let device = self.fresh_device()?;
        self.before_writing()?;
        own_id::store(&self.db, device)?;
        self.device = device;
        Ok(device)
    }
}

impl Drop for Notebook {
    fn drop(&mut self) {
        self.leave();
    }
}

fn this_device(db: &Connection) -> Result<Uuid, StoreError> {
    Ok(db
        .prepare_cached("SELECT id FROM this_device")?
        .query_row([], |row| row.get(0))?)
}

/// A running transaction that adds changes of this device.
pub struct Writer<'n> {
    tx: Transaction<'n>,
    device: Uuid,
    randomness: &'n mut dyn Randomness,
    now_ms: i64,
    offset_min: i32,
    today: chrono::NaiveDate,
    seq: u64,
    hlc: Hlc,
    horizon: Hlc,
    touched: Touched,
    /// Told, and not yet in the views.
    batch: Batch,
}

impl Writer<'_> {
    /// The database as this transaction sees it.
    pub fn db(&self) -> &Connection {
        &self.tx
    }

    /// This device.
    pub fn device(&self) -> Uuid {
        self.device
    }

    /// The latest stamp that counts now.
    pub fn horizon(&self) -> Hlc {
        self.horizon
    }

    /// Adds what was touched beside [`Writer::record`].
    pub fn touch(&mut self, touched: Touched) {
        self.touched.join(touched);
    }

    /// Takes up again where the log and this device's id stand, after both were
    /// changed beside [`Writer::record`].
    pub fn look_again(&mut self) -> Result<(), StoreError> {
        self.device = this_device(&self.tx)?;
        self.seq = log::heads(&self.tx)?
            .get(&self.device)
            .map_or(0, |head| head.seq);
        self.hlc = log::latest_hlc(&self.tx)?;
        Ok(())
    }

    /// Today's civil date here.
    pub fn today(&self) -> chrono::NaiveDate {
        self.today
    }

    /// The caller's id, or a new one.
    pub fn id(&mut self, chosen: Option<Uuid>) -> Result<Uuid, StoreError> {
        match chosen {
            Some(id) => Ok(id),
            None => ids::new_id(self.now_ms, self.randomness),
        }
    }

    /// Adds one change to the log and applies it.
    pub fn record(&mut self, act: Act, body: &Body) -> Result<(), StoreError> {
        self.record_one_of_many(act, body)?;
        self.settle()
    }

    /// The same for one of many changes: the stops and heads that it tells are in
    /// the views only when the transaction ends, or after [`Writer::settle`].
    pub fn record_one_of_many(&mut self, act: Act, body: &Body) -> Result<(), StoreError> {
        self.record_written(act, body, serde_json::to_string(body)?)
    }

    /// The same for a body whose JSON was written before the transaction began.
    pub fn record_written(
        &mut self,
        act: Act,
        body: &Body,
        json: String,
    ) -> Result<(), StoreError> {
        if act == Act::Newer {
            return Err(StoreError::Unwritable("no act of this version"));
        }
        if let Some(what) = body.facts.iter().find_map(|fact| bounds::check(fact).err()) {
            return Err(StoreError::OutOfBounds(what));
        }
        let change = self.log(act.name(), json)?;
        let touched = apply::apply_and_gather(&self.tx, &change, body, &mut self.batch)?;
        self.touched.join(touched);
        if self.batch.count() >= BATCH_CHANGES {
            self.settle()?;
        }
        Ok(())
    }

    /// Brings the views up to date with all that was recorded.
    pub fn settle(&mut self) -> Result<(), StoreError> {
        let shown_otherwise = self.batch.store(&self.tx)?;
        self.touched.plantings.extend(shown_otherwise);
        Ok(())
    }

    /// Adds one change to the log, and to no view.
    pub fn log(&mut self, kind: &str, body: String) -> Result<Change, StoreError> {
        let change = Change {
            device: self.device,
            seq: self.seq + 1,
            hlc: self.hlc.next(self.now_ms),
            recorded_ms: self.now_ms,
            offset_min: self.offset_min,
            kind: kind.to_owned(),
            body,
            raw: None,
        };
        if let Some(fault) = change.fault() {
            return Err(StoreError::Unwritable(fault));
        }
        // Our own clock always follows our own stamps.
        log::append(&self.tx, &change, self.now_ms, Hlc::LATEST)?;
        self.seq = change.seq;
        self.hlc = change.hlc;
        Ok(change)
    }
}

/// Drops the kept answers that stand on what was touched: of a planting all, of a
/// walk its own and those of the walks after it. Where a walk's day or planting is
/// another now, the answers that stood on the old one name another way, and count no
/// more.
fn forget_answers(db: &Connection, touched: &Touched) -> Result<(), StoreError> {
    let kept: bool = db
        .prepare_cached("SELECT EXISTS (SELECT 1 FROM answer)")?
        .query_row([], |row| row.get(0))?;
    if !kept {
        return Ok(());
    }
    let mut of_walk = db.prepare_cached(
        "DELETE FROM answer WHERE planting IN
           (SELECT coalesce(planting.shown_as, walk.planting) FROM walk
              LEFT JOIN planting ON planting.id = walk.planting WHERE walk.id = ?1
            UNION SELECT planting FROM answer WHERE walk = ?1)
           AND NOT EXISTS
             (SELECT 1 FROM walk AS batch, walk AS before
              WHERE batch.id = ?1 AND before.id = answer.walk
                AND (before.walked_on, before.id) < (batch.walked_on, batch.id))",
    )?;
    for walk in &touched.walks {
        of_walk.execute([walk])?;
    }
    let mut of_planting = db.prepare_cached("DELETE FROM answer WHERE planting = ?1")?;
    for planting in &touched.plantings {
        of_planting.execute([planting])?;
    }
    Ok(())
}
