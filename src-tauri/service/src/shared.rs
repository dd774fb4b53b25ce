//! One notebook for the several threads of a face.
//!
//! A forecast over all plantings may take seconds; a tap must not wait for it,
//! nor the list that the scout goes back to. So there are four services over
//! the same file, each with a connection of its own: one carries out, in order,
//! what changes the notebook and what stands on the walk in hand; the others
//! answer questions. Write-ahead logging lets them read while the first writes.

use std::io::{Read, Seek, Write};
use std::path::Path;
use std::sync::{Mutex, PoisonError};

use chrono::NaiveDate;

use crate::asking::{AskService, Pace};
use crate::photos::photo_bytes;
use crate::{
    Answer, ArchiveIn, FileMade, FileOut, Jobs, Keep, PhotoSize, Problem, Reply, Service, prepare,
    unpack,
};
use notebook::ending::Ender;
use notebook::photo::PhotoFiles;
use notebook::{Clock, Notebook, OnDate, SystemClock};

/// The service of a face that asks from several threads.
pub struct SharedService {
    taps: Mutex<Service>,
    lists: Mutex<Service>,
    studies: Mutex<Service>,
    rounds: Mutex<Service>,
    /// Works that run in any of them; asked and stopped without waiting.
    jobs: Jobs,
    /// Read without waiting for any of them.
    photos: PhotoFiles,
    /// Stop what any of the connections is at.
    enders: Vec<Ender>,
}

impl SharedService {
    /// Opens the notebook file, or makes it. `today` stands for the clock's
    /// date where it is given, for the demo and for rehearsals.
    ///
    /// # Errors
    /// As [`Notebook::open`].
    pub fn open(path: &Path, today: Option<NaiveDate>) -> Result<SharedService, Problem> {
        let jobs = Jobs::default();
        let mut enders = Vec::new();
        let mut service = || {
            let notebook = Notebook::open_here(path, today)?;
            enders.push(notebook.ender());
            Ok::<Service, Problem>(Service::new(notebook)?.telling(&jobs))
        };
        Ok(SharedService {
            taps: Mutex::new(service()?),
            lists: Mutex::new(service()?),
            studies: Mutex::new(service()?),
            rounds: Mutex::new(service()?),
            jobs: jobs.clone(),
            photos: PhotoFiles::beside(path),
            enders,
        })
    }

    /// Ends what is in hand, of which nothing is stored then, before the notebook is
    /// closed. To be asked again until nothing is: a statement may just begin.
    pub(crate) fn give_up(&self) {
        self.jobs.stop_all();
        for ender in &self.enders {
            ender.end();
        }
    }

    /// Carries out a request, and answers with the type that belongs to it.
    ///
    /// # Errors
    /// As [`Service::call`].
    pub fn call<A: AskService>(&self, ask: A) -> Result<Reply<A::Answer>, Problem> {
        let service = match A::PACE {
            Pace::Tap => &self.taps,
            Pace::List => &self.lists,
            Pace::Study => &self.studies,
            Pace::Round => &self.rounds,
        };
        // A request that panicked stored nothing: its transaction was dropped.
        let mut service = service.lock().unwrap_or_else(PoisonError::into_inner);
        service.call(ask)
    }

    /// The works that run, to be asked and stopped without waiting for them.
    pub fn jobs(&self) -> &Jobs {
        &self.jobs
    }

    /// Carries out a request that brings files ([`crate::unpack`]). They are read
    /// before the notebook is asked for, so that no head waits for a picture.
    ///
    /// # Errors
    /// As [`Service::call`].
    pub fn take_files(&self, message: &[u8]) -> Result<Reply<Answer>, Problem> {
        let (request, bytes) = unpack(message)?;
        let prepared = prepare(request, bytes)?;
        let mut service = self.taps.lock().unwrap_or_else(PoisonError::into_inner);
        service.call_prepared(prepared)
    }

    /// The bytes of a photo, by its name in hexadecimal digits.
    ///
    /// # Errors
    /// When it is not here, or its file is damaged.
    pub fn photo(&self, name: &str, size: PhotoSize) -> Result<Vec<u8>, Problem> {
        let not_here = || Problem::not_found("photo");
        let name = name.parse().map_err(|_| not_here())?;
        photo_bytes(&self.photos, name, size)?.ok_or_else(not_here)
    }

    /// Writes a file of the notebook, while taps go on; see [`Service::file_out`].
    ///
    /// # Errors
    /// As [`Service::file_out`].
    pub fn file_out(
        &self,
        what: &FileOut,
        to: &mut (impl Write + Seek),
    ) -> Result<FileMade, Problem> {
        let mut service = self.studies.lock().unwrap_or_else(PoisonError::into_inner);
        service.file_out(what, to)
    }

    /// Reads an archive into the notebook, while taps go on; see [`Service::archive_in`].
    ///
    /// # Errors
    /// As [`Service::archive_in`].
    pub fn archive_in(
        &self,
        from: impl Read + Seek,
        keep: Keep,
        going_on: &mut dyn FnMut(u64) -> bool,
    ) -> Result<ArchiveIn, Problem> {
        let mut service = self.studies.lock().unwrap_or_else(PoisonError::into_inner);
        service.archive_in(from, keep, going_on)
    }

    /// Works on the notebook between two requests; see [`Service::with_notebook`].
    pub fn with_notebook<T>(&self, work: impl FnOnce(&mut Notebook) -> T) -> T {
        let mut service = self.taps.lock().unwrap_or_else(PoisonError::into_inner);
        service.with_notebook(work)
    }
}

/// The clock of this machine, on another date where one is given.
pub(crate) fn clock(today: Option<NaiveDate>) -> Box<dyn Clock> {
    match today {
        Some(date) => Box::new(OnDate(date)),
        None => Box::new(SystemClock),
    }
}
