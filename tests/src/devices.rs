//! Notebooks whose time and chance are set by the test.

use std::sync::{Arc, Mutex, PoisonError};

use chrono::{DateTime, FixedOffset, TimeDelta};
use notebook::{Clock, Notebook, Randomness, StoreError};
use rand::{Rng, SeedableRng};
use rand_chacha::ChaCha8Rng;
use service::Service;

/// A clock that stands until it is moved; its clones move together.
#[derive(Debug, Clone)]
pub struct SetClock(Arc<Mutex<DateTime<FixedOffset>>>);

impl SetClock {
    /// Stands at an instant written as RFC 3339.
    ///
    /// # Errors
    /// When it is none.
    pub fn at(instant: &str) -> Result<SetClock, chrono::ParseError> {
        let instant = DateTime::parse_from_rfc3339(instant)?;
        Ok(SetClock(Arc::new(Mutex::new(instant))))
    }

    /// Moves it, back too.
    pub fn move_by(&self, by: TimeDelta) {
        let mut now = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        *now += by;
    }
}

impl Clock for SetClock {
    fn now(&self) -> DateTime<FixedOffset> {
        *self.0.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

/// Bytes from a seed.
#[derive(Debug)]
pub struct Seeded(ChaCha8Rng);

impl Seeded {
    /// The same seed gives the same bytes.
    pub fn new(seed: u64) -> Seeded {
        Seeded(ChaCha8Rng::seed_from_u64(seed))
    }
}

impl Randomness for Seeded {
    fn fill(&mut self, bytes: &mut [u8]) -> Result<(), StoreError> {
        self.0.fill_bytes(bytes);
        Ok(())
    }
}

/// A notebook in memory, at noon of a day in the season.
///
/// # Errors
/// When SQLite fails.
pub fn notebook_in_memory(clock: &SetClock, seed: u64) -> Result<Notebook, StoreError> {
    Notebook::in_memory(Box::new(clock.clone()), Box::new(Seeded::new(seed)))
}

/// A service over such a notebook.
///
/// # Errors
/// As a boxed error, for tests.
pub fn service_in_memory(
    clock: &SetClock,
    seed: u64,
) -> Result<Service, Box<dyn std::error::Error>> {
    Ok(Service::new(notebook_in_memory(clock, seed)?)?)
}
