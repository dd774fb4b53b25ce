//! Bodies of requests: whose are held in memory at once, and how slowly they may come.
//!
//! Only members' bodies take room, since a stranger's is no longer than the head
//! before it. A member waits for room of its own first, then for that of its network,
//! then for the common one, so that neither holds what others need.

use crate::network::Network;
use axum::body::{Body, Bytes, HttpBody as _};
use http_body_util::BodyExt as _;
use std::collections::HashMap;
use std::hash::Hash;
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};
use std::time::{Duration, Instant};
use tokio::sync::{OwnedSemaphorePermit, Semaphore};
use uuid::Uuid;
use wire::frame::FrameFault;

/// Bodies held in memory at once.
const BODIES: usize = 32;
/// Bodies of one network among them.
const BODIES_OF_NETWORK: usize = 16;
/// Bodies of one member among them.
const BODIES_OF_MEMBER: usize = 4;
/// Longest that a member waits for room.
const PATIENCE: Duration = Duration::from_secs(20);

/// How fast a body has to come.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Pace {
    /// A first time in which nothing has to come.
    pub grace: Duration,
    /// Bytes a second from then on, on average.
    pub least: u32,
    /// The whole must have come within this time.
    pub whole: Duration,
}

impl Pace {
    /// The time, from the start, by which a body must have grown past these bytes.
    fn until(&self, bytes: usize) -> Duration {
        let earned = Duration::from_secs_f64(bytes as f64 / f64::from(self.least.max(1)));
        self.whole.min(self.grace.saturating_add(earned))
    }
}

/// Reads a body of at most so many bytes.
///
/// # Errors
/// Too large, or cut: too slow or broken off.
pub async fn read(body: Body, most: usize, pace: Pace) -> Result<Bytes, FrameFault> {
    if usize::try_from(body.size_hint().lower()).unwrap_or(usize::MAX) > most {
        return Err(FrameFault::TooLarge);
    }
    let started = tokio::time::Instant::now();
    let mut body = body;
    let mut read: Vec<u8> = Vec::new();
    loop {
        let until = started + pace.until(read.len());
        let frame = match tokio::time::timeout_at(until, body.frame()).await {
            Ok(None) => return Ok(read.into()),
            Ok(Some(Ok(frame))) => frame,
            Ok(Some(Err(_))) | Err(_) => return Err(FrameFault::Cut),
        };
        if let Some(part) = frame.data_ref() {
            if read.len() + part.len() > most {
                return Err(FrameFault::TooLarge);
            }
            read.extend_from_slice(part);
        }
    }
}

/// The room for members' bodies.
pub(crate) struct Bodies {
    common: Arc<Semaphore>,
    networks: Shares<Network>,
    members: Shares<Uuid>,
}

/// Room for one body, until it is dropped.
pub(crate) struct BodyRoom {
    _member: OwnedSemaphorePermit,
    _network: OwnedSemaphorePermit,
    _common: OwnedSemaphorePermit,
}

impl Bodies {
    pub(crate) fn new() -> Self {
        Self {
            common: Arc::new(Semaphore::new(BODIES)),
            networks: Shares::new(BODIES_OF_NETWORK),
            members: Shares::new(BODIES_OF_MEMBER),
        }
    }

    /// Waits for room; none where there was none for long.
    pub(crate) async fn enter(&self, member: Uuid, network: Network) -> Option<BodyRoom> {
        let wait = async {
            Some(BodyRoom {
                _member: self.members.of(member).acquire_owned().await.ok()?,
                _network: self.networks.of(network).acquire_owned().await.ok()?,
                _common: Arc::clone(&self.common).acquire_owned().await.ok()?,
            })
        };
        tokio::time::timeout(PATIENCE, wait).await.ok().flatten()
    }

    pub(crate) fn forget_quiet(&self) {
        self.networks.forget_quiet();
        self.members.forget_quiet();
    }
}

/// A number of places for each key.
struct Shares<K> {
    places: usize,
    of: Mutex<HashMap<K, Arc<Semaphore>>>,
}

impl<K: Eq + Hash> Shares<K> {
    fn new(places: usize) -> Self {
        Self {
            places,
            of: Mutex::default(),
        }
    }

    fn of(&self, key: K) -> Arc<Semaphore> {
        let mut of = lock(&self.of);
        let share = of
            .entry(key)
            .or_insert_with(|| Arc::new(Semaphore::new(self.places)));
        Arc::clone(share)
    }

    /// Forgets the keys whose places are all free: a place in use holds its share.
    fn forget_quiet(&self) {
        lock(&self.of).retain(|_, share| Arc::strong_count(share) > 1);
    }
}

/// How much each member stores in a time: so much at once, and so many bytes a second
/// on average. What a body holds is known only when it was read, so a member may go
/// past that with one body, and the next one waits.
pub(crate) struct Flow {
    bytes_a_second: f64,
    at_once: f64,
    used: Mutex<HashMap<Uuid, (f64, Instant)>>,
}

impl Flow {
    pub(crate) fn new(bytes_a_second: u32, at_once: u64) -> Self {
        Self {
            bytes_a_second: f64::from(bytes_a_second.max(1)),
            at_once: at_once as f64,
            used: Mutex::default(),
        }
    }

    /// How long the member has to wait before its next body.
    pub(crate) fn wait(&self, member: Uuid, now: Instant) -> Duration {
        let over = self.used_by(&lock(&self.used), member, now) - self.at_once;
        Duration::from_secs_f64((over / self.bytes_a_second).max(0.0))
    }

    /// Notes that a body of a member held so many bytes.
    pub(crate) fn note(&self, member: Uuid, bytes: usize, now: Instant) {
        let mut used = lock(&self.used);
        let sum = self.used_by(&used, member, now) + bytes as f64;
        used.insert(member, (sum, now));
    }

    fn used_by(&self, used: &HashMap<Uuid, (f64, Instant)>, member: Uuid, now: Instant) -> f64 {
        used.get(&member).map_or(0.0, |(sum, at)| {
            let gone = now.saturating_duration_since(*at).as_secs_f64();
            (sum - gone * self.bytes_a_second).max(0.0)
        })
    }

    pub(crate) fn forget_quiet(&self, now: Instant) {
        let mut used = lock(&self.used);
        let rate = self.bytes_a_second;
        used.retain(|_, (sum, at)| *sum > now.saturating_duration_since(*at).as_secs_f64() * rate);
    }
}

fn lock<T>(shared: &Mutex<T>) -> MutexGuard<'_, T> {
    shared.lock().unwrap_or_else(PoisonError::into_inner)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_body_earns_its_time_with_its_bytes() {
        let pace = Pace {
            grace: Duration::from_secs(10),
            least: 1_000,
            whole: Duration::from_secs(30),
        };
        assert_eq!(pace.until(0), Duration::from_secs(10));
        assert_eq!(pace.until(5_000), Duration::from_secs(15));
        assert_eq!(pace.until(1_000_000), Duration::from_secs(30));
    }

    #[test]
    fn a_member_stores_so_much_at_once_and_then_in_its_time() {
        let flow = Flow::new(1_000, 10_000);
        let (one, other) = (Uuid::from_u128(1), Uuid::from_u128(2));
        let start = Instant::now();
        let at = |seconds| start + Duration::from_secs(seconds);
        flow.note(one, 10_000, start);
        assert_eq!(flow.wait(one, start), Duration::ZERO);
        flow.note(one, 5_000, start);
        assert_eq!(flow.wait(one, start), Duration::from_secs(5));
        assert_eq!(flow.wait(other, start), Duration::ZERO);
        assert_eq!(flow.wait(one, at(5)), Duration::ZERO);
        flow.forget_quiet(at(14));
        assert_eq!(lock(&flow.used).len(), 1);
        flow.forget_quiet(at(16));
        assert_eq!(lock(&flow.used).len(), 0);
    }

    #[test]
    fn shares_in_use_are_not_forgotten() {
        let shares = Shares::new(1);
        let held = shares.of("held").try_acquire_owned();
        assert!(held.is_ok());
        drop(shares.of("quiet"));
        shares.forget_quiet();
        assert_eq!(lock(&shares.of).len(), 1);
        assert!(shares.of("held").try_acquire_owned().is_err());
    }
}
