//! Works that take a while: how far they are, and how to stop them.
//!
//! A work runs inside one request, on the thread that asked, with the service in
//! hand; what is running of it meanwhile stands beside the service, so that a face
//! can answer "how far" and "stop" without waiting for its turn. A stopped work is
//! rolled back whole.

pub(crate) mod ask;
use std::collections::BTreeMap;
use std::sync::atomic::{AtomicBool, AtomicU64, Ordering};
use std::sync::{Arc, Mutex, PoisonError};

use serde::{Deserialize, Serialize};
use uuid::Uuid;

use crate::{Problem, ProblemCode};
use readers::watch::Going;

/// How far a work is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct Progress {
    /// What it does now.
    pub step: JobStep,
    /// Done of this step, in the step's own measure.
    #[cfg_attr(feature = "ts", ts(type = "number"))]
    pub done: u64,
    /// All there is of it.
    #[cfg_attr(feature = "ts", ts(type = "number"))]
    pub of: u64,
}

/// Steps of a work.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum JobStep {
    /// Reading the lines of a file.
    Reading,
    /// Storing what is new.
    Storing,
}

/// The works that run, for the faces to look at beside the service.
#[derive(Debug, Clone, Default)]
pub struct Jobs(Arc<Mutex<BTreeMap<Uuid, Arc<Running>>>>);

/// A work that runs: how far it is, and whether it is to stop.
#[derive(Debug, Default)]
struct Running {
    stop: AtomicBool,
    storing: AtomicBool,
    done: AtomicU64,
    of: AtomicU64,
}

impl Jobs {
    /// How far a work is. Never waits for it.
    pub fn progress(&self, job: Uuid) -> JobState {
        JobState {
            progress: self.find(job).map(|running| running.progress()),
        }
    }

    /// Stops a work, if it runs. Never waits for it.
    pub fn stop(&self, job: Uuid) -> JobStopped {
        let running = self.find(job);
        if let Some(running) = &running {
            running.stop.store(true, Ordering::Relaxed);
        }
        JobStopped {
            running: running.is_some(),
        }
    }

    /// Stops every work that runs.
    pub(crate) fn stop_all(&self) {
        for running in self.locked().values() {
            running.stop.store(true, Ordering::Relaxed);
        }
    }

    /// Begins a work; it is forgotten when the handle goes. Without an id nobody
    /// can ask for it.
    pub(crate) fn begin(&self, id: Option<Uuid>) -> Job {
        let running = Arc::new(Running::default());
        if let Some(id) = id {
            self.locked().insert(id, running.clone());
        }
        Job {
            jobs: self.clone(),
            id,
            running,
        }
    }

    fn find(&self, id: Uuid) -> Option<Arc<Running>> {
        self.locked().get(&id).cloned()
    }

    fn locked(&self) -> std::sync::MutexGuard<'_, BTreeMap<Uuid, Arc<Running>>> {
        self.0.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

impl Running {
    fn progress(&self) -> Progress {
        let of = self.of.load(Ordering::Relaxed);
        Progress {
            step: if self.storing.load(Ordering::Relaxed) {
                JobStep::Storing
            } else {
                JobStep::Reading
            },
            done: self.done.load(Ordering::Relaxed).min(of),
            of,
        }
    }
}

/// A running work.
pub(crate) struct Job {
    jobs: Jobs,
    id: Option<Uuid>,
    running: Arc<Running>,
}

impl Job {
    /// A step of so many parts begins.
    pub(crate) fn step(&self, step: JobStep, of: u64) {
        self.running.done.store(0, Ordering::Relaxed);
        self.running.of.store(of, Ordering::Relaxed);
        self.running
            .storing
            .store(step == JobStep::Storing, Ordering::Relaxed);
    }

    /// So many parts of the step are done; whether to go on.
    pub(crate) fn at(&self, done: u64) -> Going {
        self.running.done.store(done, Ordering::Relaxed);
        if self.running.stop.load(Ordering::Relaxed) {
            Going::Stop
        } else {
            Going::On
        }
    }

    /// Like [`Job::at`], ending the work where it was stopped.
    pub(crate) fn go_on(&self, done: u64) -> Result<(), Problem> {
        match self.at(done) {
            Going::On => Ok(()),
            Going::Stop => Err(stopped()),
        }
    }
}

impl Drop for Job {
    fn drop(&mut self) {
        if let Some(id) = self.id {
            self.jobs.locked().remove(&id);
        }
    }
}

/// What a stopped work ends with.
pub(crate) fn stopped() -> Problem {
    Problem {
        code: ProblemCode::Stopped,
        message: "stopped as was asked; nothing was stored".to_owned(),
    }
}

/// How far a work is; nothing where no such work runs.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct JobState {
    /// How far it is.
    pub progress: Option<Progress>,
}

/// Whether there was a work to stop.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct JobStopped {
    /// Whether it still ran.
    pub running: bool,
}
