//! The same work on many things at once.

use std::num::NonZero;
use std::sync::Mutex;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::thread;

/// Threads that can work at once.
pub(crate) fn cores() -> usize {
    thread::available_parallelism().map_or(1, NonZero::get)
}

/// `work` on each item, on as many threads as the device has cores; results in
/// the order of the items.
pub(super) fn side_by_side<T: Sync, R: Send>(items: &[T], work: impl Fn(&T) -> R + Sync) -> Vec<R> {
    let next = AtomicUsize::new(0);
    let done = Mutex::new(Vec::with_capacity(items.len()));
    let take = || {
        while let Some((place, item)) = {
            let place = next.fetch_add(1, Ordering::Relaxed);
            items.get(place).map(|item| (place, item))
        } {
            let result = work(item);
            if let Ok(mut done) = done.lock() {
                done.push((place, result));
            }
        }
    };
    thread::scope(|scope| {
        for _ in 1..cores().min(items.len()) {
            // Without a further thread this one does the work.
            let _ = thread::Builder::new().spawn_scoped(scope, take);
        }
        take();
    });
    let mut done = done.into_inner().unwrap_or_default();
    done.sort_by_key(|(place, _)| *place);
    done.into_iter().map(|(_, result)| result).collect()
}
