//! One notebook for the several threads of a face.
//!
//! A forecast over all plantings may take seconds, and a tap must not wait for
//! it. So there are two services over the same file, each with a connection of
//! its own: one carries out what changes the notebook and what stands on the
//! walk in hand, in order; the other answers questions that may take long.
//! Write-ahead logging lets it read while the first one writes.

use std::path::Path;
use std::sync::{Mutex, PoisonError};

use chrono::NaiveDate;

use super::{Problem, Reply, Request, Service};
use crate::{Clock, Notebook, OnDate, SystemClock, SystemRandomness};

/// The service of a face that asks from several threads.
pub struct SharedService {
    in_order: Mutex<Service>,
    beside: Mutex<Service>,
}

impl SharedService {
    /// Opens the notebook file, or makes it. `today` stands for the clock's
    /// date where it is given, for the demo and for rehearsals.
    ///
    /// # Errors
    /// As [`Notebook::open`].
    pub fn open(path: &Path, today: Option<NaiveDate>) -> Result<SharedService, Problem> {
        let service = || {
            let clock: Box<dyn Clock> = match today {
                Some(date) => Box::new(OnDate(date)),
                None => Box::new(SystemClock),
            };
            let notebook = Notebook::open(path, clock, Box::new(SystemRandomness))?;
            Service::new(notebook)
        };
        Ok(SharedService {
            in_order: Mutex::new(service()?),
            beside: Mutex::new(service()?),
        })
    }

    /// Carries out a request.
    ///
    /// # Errors
    /// As [`Service::call`].
    pub fn call(&self, request: Request) -> Result<Reply, Problem> {
        let service = if request.may_take_long() {
            &self.beside
        } else {
            &self.in_order
        };
        // A request that panicked stored nothing: its transaction was dropped.
        let mut service = service.lock().unwrap_or_else(PoisonError::into_inner);
        service.call(request)
    }

    /// Works on the notebook between two requests; see [`Service::with_notebook`].
    pub fn with_notebook<T>(&self, work: impl FnOnce(&mut Notebook) -> T) -> T {
        let mut service = self.in_order.lock().unwrap_or_else(PoisonError::into_inner);
        service.with_notebook(work)
    }
}
