//! Taps go first: the exchange stores only while no request is in hand.

use std::sync::{Condvar, Mutex, MutexGuard, PoisonError};
use std::time::{Duration, Instant};

/// Longest that an exchange stands back for a row of requests.
const PATIENCE: Duration = Duration::from_secs(5);

/// Requests of the notebook's own service that are in hand.
#[derive(Default)]
pub(super) struct Gate {
    in_hand: Mutex<usize>,
    fewer: Condvar,
}

/// One request in hand, until it is dropped.
pub struct AtWork<'a>(&'a Gate);

impl Gate {
    fn count(&self) -> MutexGuard<'_, usize> {
        self.in_hand.lock().unwrap_or_else(PoisonError::into_inner)
    }

    pub(super) fn enter(&self) -> AtWork<'_> {
        *self.count() += 1;
        AtWork(self)
    }

    /// Waits until no request is in hand, but not for ever.
    pub(super) fn wait_for_quiet(&self) {
        let until = Instant::now() + PATIENCE;
        let mut count = self.count();
        while *count > 0 {
            let left = until.saturating_duration_since(Instant::now());
            if left.is_zero() {
                return;
            }
            count = self
                .fewer
                .wait_timeout(count, left)
                .map_or_else(|poisoned| poisoned.into_inner().0, |(count, _)| count);
        }
    }
}

impl Drop for AtWork<'_> {
    fn drop(&mut self) {
        *self.0.count() -= 1;
        self.0.fewer.notify_all();
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::sync::atomic::{AtomicBool, Ordering};

    #[test]
    fn nothing_passes_while_a_request_is_in_hand() {
        let gate = Gate::default();
        let passed = AtomicBool::new(false);
        std::thread::scope(|scope| {
            let at_work = gate.enter();
            scope.spawn(|| {
                gate.wait_for_quiet();
                passed.store(true, Ordering::SeqCst);
            });
            std::thread::sleep(Duration::from_millis(50));
            assert!(!passed.load(Ordering::SeqCst));
            drop(at_work);
        });
        assert!(passed.load(Ordering::SeqCst));
    }
}
