//! The service over a notebook that may not open.
//!
//! A face holds a [`Keeper`] from its start to its end. Where the notebook cannot
//! be opened, the face runs all the same: every request is answered with the
//! reason, and the two that can help (open again, salvage) are carried out.

use std::io::{Read, Seek, Write};
use std::path::{Path, PathBuf};
use std::sync::{PoisonError, RwLock, RwLockReadGuard, RwLockWriteGuard, TryLockError};
use std::thread;
use std::time::{Duration, Instant};

use chrono::NaiveDate;
use uuid::Uuid;

use crate::asking::AskService;
use crate::request::{ByKeeper, Carrier, Keeping};
use crate::safekeeping::pages::{BackupRow, RestoreReport, SalvageReport, count};
use crate::shared::clock;
use crate::{
    Answer, ArchiveIn, Ask, BackupList, Changed, Done, FileMade, FileOut, JobState, JobStopped,
    Keep, PhotoSize, Problem, ProblemCode, Reply, Request, SharedService, read_only,
};
use notebook::durability::{BackupFile, backups, restore, salvage};
use notebook::ids::SystemRandomness;
use notebook::notebook::Notebook;

/// Time that a request in hand has when the notebook is closed, before it is given
/// up; and in all.
const KIND_CLOSING: Duration = Duration::from_secs(1);
const LONGEST_CLOSING: Duration = Duration::from_secs(6);
/// Between two tries.
const PAUSE: Duration = Duration::from_millis(10);

/// The service over the notebook; or, where that cannot be opened, why.
pub struct Keeper {
    /// None where not even the notebook's folder is to be had.
    path: Option<PathBuf>,
    today: Option<NaiveDate>,
    state: RwLock<State>,
}

enum State {
    Open(Box<SharedService>),
    Closed(Problem),
}

impl Keeper {
    /// Opens the notebook at `path`, made if it is not there. `today` as in
    /// [`SharedService::open`].
    pub fn open(path: &Path, today: Option<NaiveDate>) -> Keeper {
        Keeper {
            path: Some(path.to_owned()),
            today,
            state: RwLock::new(opened(path, today)),
        }
    }

    /// A keeper of nothing, with the reason.
    pub fn without(problem: Problem) -> Keeper {
        Keeper {
            path: None,
            today: None,
            state: RwLock::new(State::Closed(problem)),
        }
    }

    /// Why the notebook is not open, if it is not.
    pub fn problem(&self) -> Option<Problem> {
        match &*self.read() {
            State::Open(_) => None,
            State::Closed(problem) => Some(problem.clone()),
        }
    }

    /// Carries out a request, and answers with the type that belongs to it.
    ///
    /// # Errors
    /// A [`Problem`]; nothing was stored then.
    pub fn call<A: AskService>(&self, ask: A) -> Result<Reply<A::Answer>, Problem> {
        self.with(|service| service.call(ask))
    }

    /// Carries out a request of any kind: those for the service by it, those that help a
    /// notebook that does not open, or may not wait for it, here.
    ///
    /// # Errors
    /// A [`Problem`]; nothing was stored then.
    pub fn answer(&self, request: Request) -> Result<Reply<Answer>, Problem> {
        request.by(&mut &*self)
    }

    /// How far a work is; answered while it runs.
    ///
    /// # Errors
    /// Why the notebook is not open.
    pub fn job_progress(&self, job: Uuid) -> Result<Reply<JobState>, Problem> {
        self.with(|service| Ok(read_only(service.jobs().progress(job))))
    }

    /// Stops a work, if it runs; answered while it runs.
    ///
    /// # Errors
    /// Why the notebook is not open.
    pub fn stop_job(&self, job: Uuid) -> Result<Reply<JobStopped>, Problem> {
        self.with(|service| Ok(read_only(service.jobs().stop(job))))
    }

    /// Carries out a request that brings files; see [`SharedService::take_files`].
    ///
    /// # Errors
    /// A [`Problem`]; nothing was stored then.
    pub fn take_files(&self, message: &[u8]) -> Result<Reply<Answer>, Problem> {
        self.with(|service| service.take_files(message))
    }

    /// The bytes of a photo; see [`SharedService::photo`].
    ///
    /// # Errors
    /// When it is not here, its file is damaged, or the notebook is not open.
    pub fn photo(&self, name: &str, size: PhotoSize) -> Result<Vec<u8>, Problem> {
        self.with(|service| service.photo(name, size))
    }

    /// Writes a file of the notebook; see [`SharedService::file_out`].
    ///
    /// # Errors
    /// When it cannot be written, or the notebook is not open.
    pub fn file_out(
        &self,
        what: &FileOut,
        to: &mut (impl Write + Seek),
    ) -> Result<FileMade, Problem> {
        self.with(|service| service.file_out(what, to))
    }

    /// Reads an archive into the notebook; see [`SharedService::archive_in`].
    ///
    /// # Errors
    /// When it is refused, or the notebook is not open; nothing was stored then.
    pub fn archive_in(
        &self,
        from: impl Read + Seek,
        keep: Keep,
        going_on: &mut dyn FnMut(u64) -> bool,
    ) -> Result<ArchiveIn, Problem> {
        self.with(|service| service.archive_in(from, keep, going_on))
    }

    /// Works on the open notebook between two requests (an exchange, for instance).
    ///
    /// # Errors
    /// Why the notebook is not open, or what the work says.
    pub fn with_notebook<T>(
        &self,
        work: impl FnOnce(&mut Notebook) -> Result<T, Problem>,
    ) -> Result<T, Problem> {
        self.with(|service| service.with_notebook(work))
    }

    /// Closes the notebook, so that the next start finds it closed. What is in hand
    /// has a moment to end; a long work is then given up, of which nothing is stored.
    /// Returns whether the notebook is closed now. Where even that takes too long, what
    /// was shown as saved is on the disk, as after a kill.
    pub fn close(&self) -> bool {
        let began = Instant::now();
        loop {
            match self.state.try_write() {
                Ok(state) => return shut(state),
                Err(TryLockError::Poisoned(poisoned)) => return shut(poisoned.into_inner()),
                Err(TryLockError::WouldBlock) if began.elapsed() > LONGEST_CLOSING => return false,
                Err(TryLockError::WouldBlock) => {}
            }
            if began.elapsed() > KIND_CLOSING
                && let Ok(state) = self.state.try_read()
                && let State::Open(service) = &*state
            {
                service.give_up();
            }
            thread::sleep(PAUSE);
        }
    }

    fn with<T>(
        &self,
        work: impl FnOnce(&SharedService) -> Result<T, Problem>,
    ) -> Result<T, Problem> {
        self.try_again_where_it_may_help();
        let outcome = match &*self.read() {
            State::Closed(problem) => return Err(problem.clone()),
            State::Open(service) => work(service),
        };
        if let Err(problem) = &outcome
            && can_be_replaced(problem)
        {
            // No further write makes it better.
            *self.write() = State::Closed(problem.clone());
        }
        outcome
    }

    fn read(&self) -> RwLockReadGuard<'_, State> {
        self.state.read().unwrap_or_else(PoisonError::into_inner)
    }

    fn write(&self) -> RwLockWriteGuard<'_, State> {
        self.state.write().unwrap_or_else(PoisonError::into_inner)
    }

    /// Room may have been made, or rights mended, since it could not be opened.
    fn try_again_where_it_may_help(&self) {
        let passing = self.problem().is_some_and(|problem| {
            matches!(
                problem.code,
                ProblemCode::DiskFull | ProblemCode::ReadOnly | ProblemCode::Unavailable
            )
        });
        if passing {
            // What still stands in the way is told by whoever asked.
            let _ = self.open_again();
        }
    }

    /// Tries once more to open the notebook.
    ///
    /// # Errors
    /// Why it cannot be opened.
    pub fn open_again(&self) -> Result<Reply<Done>, Problem> {
        let mut state = self.write();
        if let (State::Closed(_), Some(path)) = (&*state, &self.path) {
            *state = opened(path, self.today);
        }
        match &*state {
            State::Open(_) => Ok(everything(Done {})),
            State::Closed(problem) => Err(problem.clone()),
        }
    }

    /// Sets a damaged notebook aside (it is never deleted) and carries everything that
    /// can still be read into a new one.
    ///
    /// # Errors
    /// When it is not damaged, or what can be read cannot be written.
    pub fn salvage(&self) -> Result<Reply<SalvageReport>, Problem> {
        let mut state = self.write();
        let path = match (&*state, &self.path) {
            (State::Closed(problem), Some(path)) if can_be_replaced(problem) => path,
            (State::Closed(problem), _) => return Err(problem.clone()),
            (State::Open(_), _) => {
                return Err(Problem::conflict(
                    "the notebook is open and not damaged: there is nothing to salvage",
                ));
            }
        };
        let now = clock(self.today).now();
        let salvaged = salvage(path, clock(self.today), Box::new(SystemRandomness))?;
        *state = opened(path, self.today);
        match &*state {
            State::Closed(problem) => Err(problem.clone()),
            State::Open(service) => {
                let report = SalvageReport::of(&salvaged, now);
                service.with_notebook(|notebook| report.keep(notebook))?;
                Ok(everything(report))
            }
        }
    }

    /// The backups, the newest first.
    pub fn backups(&self) -> BackupList {
        let rows = self.path.as_deref().map(backups).unwrap_or_default();
        BackupList {
            rows: rows.iter().map(BackupRow::of).collect(),
        }
    }

    /// Puts a backup in the notebook's place. Taps wait meanwhile, and find it open
    /// again, whatever came of it.
    ///
    /// # Errors
    /// When there is no backup of this name, or it cannot be used.
    pub fn restore_backup(&self, name: &str) -> Result<Reply<RestoreReport>, Problem> {
        let mut state = self.write();
        let path = match (&*state, &self.path) {
            (State::Closed(problem), _) if !can_be_replaced(problem) => {
                return Err(problem.clone());
            }
            (State::Closed(problem), None) => return Err(problem.clone()),
            (State::Open(_), None) => return Err(Problem::not_found("backup")),
            (_, Some(path)) => path,
        };
        let of_this_name = |backup: &BackupFile| {
            let file = backup.path.file_name();
            file.is_some_and(|file| file.to_string_lossy() == name)
        };
        let Some(backup) = backups(path).into_iter().find(of_this_name) else {
            return Err(Problem::not_found("backup"));
        };
        // Its own connections would keep it from being set aside.
        *state = State::Closed(Problem {
            code: ProblemCode::Unavailable,
            message: "a backup is being restored: wait for it".to_owned(),
        });
        let restored = restore(
            path,
            &backup.path,
            clock(self.today),
            Box::new(SystemRandomness),
        );
        *state = opened(path, self.today);
        let restored = restored?;
        match &*state {
            State::Closed(problem) => Err(problem.clone()),
            State::Open(_) => Ok(everything(RestoreReport {
                set_aside: restored.set_aside.map(|path| path.display().to_string()),
                changes: count(restored.changes),
                made_at: backup.made_at,
            })),
        }
    }
}

impl Keeping for Keeper {
    fn backups(&self) -> BackupList {
        self.backups()
    }

    fn job_progress(&self, job: Uuid) -> Result<Reply<JobState>, Problem> {
        self.job_progress(job)
    }

    fn open_again(&self) -> Result<Reply<Done>, Problem> {
        self.open_again()
    }

    fn restore_backup(&self, name: &str) -> Result<Reply<RestoreReport>, Problem> {
        self.restore_backup(name)
    }

    fn salvage(&self) -> Result<Reply<SalvageReport>, Problem> {
        self.salvage()
    }

    fn stop_job(&self, job: Uuid) -> Result<Reply<JobStopped>, Problem> {
        self.stop_job(job)
    }
}

impl Carrier for &Keeper {
    fn call<A: AskService>(&mut self, ask: A) -> Result<Reply<A::Answer>, Problem> {
        Keeper::call(self, ask)
    }

    fn keep<A: Ask>(&mut self, ask: A, how: ByKeeper<A>) -> Result<Reply<A::Answer>, Problem> {
        how(*self, ask)
    }
}

fn shut(mut state: RwLockWriteGuard<'_, State>) -> bool {
    *state = State::Closed(Problem {
        code: ProblemCode::Stopped,
        message: "the notebook is closed: start Headwalk again".to_owned(),
    });
    true
}

/// Whether a salvage or a backup may take the place of a notebook with this trouble.
fn can_be_replaced(problem: &Problem) -> bool {
    matches!(problem.code, ProblemCode::Damaged | ProblemCode::Incomplete)
}

fn opened(path: &Path, today: Option<NaiveDate>) -> State {
    match SharedService::open(path, today) {
        Ok(service) => State::Open(Box::new(service)),
        Err(problem) => State::Closed(problem),
    }
}

/// An answer after which every screen asks anew.
fn everything<A>(answer: A) -> Reply<A> {
    Reply {
        answer,
        changed: vec![
            Changed::Names,
            Changed::Settings,
            Changed::Weather,
            Changed::Photos,
        ],
    }
}
